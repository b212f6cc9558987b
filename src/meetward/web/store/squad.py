"""The lifters of a club, as values."""

from collections.abc import Iterable

import msgspec
from django.db import transaction

from meetward.lifter.profile import Lifter
from meetward.web.models import LifterRow

_decoder = msgspec.json.Decoder(Lifter)


def lifters(club_id: int) -> tuple[Lifter, ...]:
    """Every lifter of a club, by name."""
    rows = LifterRow.objects.filter(club_id=club_id).values_list("body", flat=True)
    return tuple(sorted(map(_decoder.decode, rows), key=lambda lifter: (lifter.name.casefold(), lifter.key)))


def lifter(club_id: int, key: str) -> Lifter:
    """One lifter of a club. Raises LookupError."""
    body = LifterRow.objects.filter(club_id=club_id, key=key).values_list("body", flat=True).first()
    if body is None:
        raise LookupError(f"There is no lifter '{key}' in this club.")
    return _decoder.decode(body)


def names(club_id: int) -> tuple[tuple[str, str], ...]:
    """Key and name of every lifter of a club, by name."""
    return tuple((lifter.key, lifter.name) for lifter in lifters(club_id))


def save(club_id: int, squad: Iterable[Lifter]) -> int:
    """Add these lifters, or replace those with the same key; nobody else is touched. How many were saved."""
    rows = [LifterRow(club_id=club_id, key=one.key, body=msgspec.json.encode(one).decode()) for one in squad]
    with transaction.atomic():
        LifterRow.objects.bulk_create(
            rows, update_conflicts=True, unique_fields=["club", "key"], update_fields=["body", "changed"]
        )
    return len(rows)


def give_account(club_id: int, key: str, user_id: int) -> None:
    """This lifter is that user."""
    LifterRow.objects.filter(club_id=club_id, key=key).update(user_id=user_id)
