"""Clubs, users and roles."""

from typing import Literal

import msgspec
from django.db import transaction
from django.db.models import Max

from meetward.web.models import Club, LifterRow, Member, User

Role = Literal["owner", "assistant", "lifter"]


class Seat(msgspec.Struct, frozen=True):
    """What somebody is in a club.

    lifter_key : their own key in the squad; empty when they are no lifter there.
    own_catalogue : number of the newest version of the club's own catalogue; 0 where it has none.
    """

    club_id: int
    club: str
    role: Role
    lifter_key: str = ""
    own_catalogue: int = 0


class ClubRecord(msgspec.Struct, frozen=True):
    """A club.

    current_book_id : the cycle that the squad trains from; None when none is chosen.
    """

    id: int
    name: str
    town: str
    current_book_id: int | None


def seats(user_id: int) -> tuple[Seat, ...]:
    """The clubs of a user, the oldest first."""
    rows = (
        Member.objects.filter(user_id=user_id)
        .select_related("club")
        .annotate(own_catalogue=Max("club__own_catalogues__number"))
        .order_by("club_id")
    )
    keys = dict(LifterRow.objects.filter(user_id=user_id).values_list("club_id", "key"))
    return tuple(
        Seat(m.club_id, m.club.name, m.role, keys.get(m.club_id, ""), m.own_catalogue or 0) for m in rows
    )


def club(club_id: int) -> ClubRecord:
    """Raises LookupError for a club that is not there."""
    row = Club.objects.filter(pk=club_id).first()
    if row is None:
        raise LookupError(f"There is no club {club_id}.")
    return ClubRecord(row.pk, row.name, row.town, row.current_id)


def add_club(name: str, town: str = "") -> int:
    """A new club; its id."""
    return Club.objects.create(name=name, town=town).pk


def any_club() -> bool:
    """Whether there is a club at all."""
    return Club.objects.exists()


def find_club(name: str, town: str) -> int | None:
    """The id of the oldest club of that name and town."""
    return Club.objects.filter(name=name, town=town).order_by("pk").values_list("pk", flat=True).first()


def add_user(username: str, *, shown: str = "", password: str | None = None) -> int:
    """A user, or the one who has that name already, left as they are. Without a password none will do."""
    with transaction.atomic():
        if known := User.objects.filter(username=username).first():
            return known.pk
        return User.objects.create_user(username, password=password, first_name=shown[:150]).pk


def account(username: str) -> User | None:
    """The account itself, for signing in and nothing else."""
    return User.objects.filter(username=username).first()


def seat_user(user_id: int, club_id: int, role: Role) -> None:
    """Give a user a role in a club; the one they had there is replaced."""
    Member.objects.update_or_create(user_id=user_id, club_id=club_id, defaults={"role": role})


def train_from(club_id: int, book_id: int) -> None:
    """The squad of the club trains from this cycle."""
    Club.objects.filter(pk=club_id).update(current_id=book_id)
