"""The first club of a site and its owner coach: made by whoever runs it, before anybody can sign in."""

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction

from meetward.web.store import people


class Refused(Exception):
    """A name or password that cannot be taken; the message says why and what to do."""


def has_club() -> bool:
    """Whether anybody has a club here."""
    return people.any_club()


def begin_club(club: str, owner: str, password: str) -> None:
    """A new club with its owner coach, who signs in by that name and password. Raises Refused."""
    name, username = club.strip(), owner.strip()
    if not name or len(name) > 200:
        raise Refused("A club needs a name of at most 200 letters.")
    if not username or len(username) > 150:
        raise Refused("The owner coach needs a name of at most 150 letters to sign in by.")
    if people.account(username) is not None:
        raise Refused(f"'{username}' is taken. Choose another name to sign in by.")
    try:
        validate_password(password)
    except ValidationError as error:
        raise Refused(" ".join(error.messages)) from None
    with transaction.atomic():
        club_id = people.add_club(name)
        people.seat_user(people.add_user(username, shown=username, password=password), club_id, "owner")
