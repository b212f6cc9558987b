"""The squad: reading it, bringing it in from a spreadsheet, taking it out."""

from datetime import date

import msgspec

from meetward.lifter.profile import Lifter
from meetward.lifter.reading import SquadReading, read_squad
from meetward.web.store import squad
from meetward.web.store.people import Seat

from .catalogues import catalogue_here
from .who import Hidden, Who, need, need_here, need_lifter


class Look(msgspec.Struct, frozen=True):
    """What a spreadsheet holds and what saving it would do.

    changes : for each lifter of the file, in order: "new", "changed" or "nothing new".
    """

    reading: SquadReading
    changes: tuple[str, ...]


def lifters(asks: Who) -> tuple[Lifter, ...]:
    """Everybody in the squad of the club that they look at, by name. An assistant sees no health data."""
    seat = need_here(asks, "read squad")
    found = squad.lifters(seat.club_id)
    return tuple(as_seen(one, seat) for one in found)


def names(asks: Who, club_id: int) -> tuple[tuple[str, str], ...]:
    """Key and name of everybody in a club's squad, by name."""
    need(asks, club_id, "read squad")
    return squad.names(club_id)


def lifter(asks: Who, key: str) -> Lifter:
    """One lifter, for a coach or the lifter themself. An assistant sees no health data."""
    seat = need_lifter(asks, key)
    try:
        one = squad.lifter(seat.club_id, key)
    except LookupError:
        raise Hidden from None
    return as_seen(one, seat)


def as_seen(one: Lifter, seat: Seat) -> Lifter:
    """A lifter as this seat may see them: an assistant without bodyweight and without notes, in which a coach
    writes down pain and injuries too."""
    if seat.role == "owner" or seat.lifter_key == one.key:
        return one
    return msgspec.structs.replace(one, bodyweight_dag=None, notes="")


def need_to_change(asks: Who) -> None:
    """Raises where they may not change the squad."""
    need_here(asks, "change squad")


def whole(asks: Who) -> tuple[Lifter, ...]:
    """Everybody with everything, health data among it: to take the squad out as a file."""
    return squad.lifters(need_here(asks, "change squad").club_id)


def look_at(asks: Who, data: bytes, name: str, today: date) -> Look:
    """What a spreadsheet holds; nothing is saved."""
    seat = need_here(asks, "change squad")
    reading = read_squad(data, name=name, catalogue=catalogue_here(asks), today=today)
    known = {one.key: one for one in squad.lifters(seat.club_id)}
    return Look(reading, tuple(_change(one, known.get(one.key)) for one in reading.lifters))


def save(asks: Who, found: tuple[Lifter, ...]) -> int:
    """Add these lifters or replace those with the same key. How many were saved."""
    return squad.save(need_here(asks, "change squad").club_id, found)


def _change(one: Lifter, known: Lifter | None) -> str:
    if known is None:
        return "add"
    return "leave as is" if one == known else "change"
