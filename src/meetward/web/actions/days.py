"""A lifter's day: from the cycle that the club trains from, computed when it is asked for."""

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.day import day_sheet
from meetward.fit.fitted import DaySheet
from meetward.lifter.profile import Lifter
from meetward.strength.ratios import Derived, working_best
from meetward.web.store import cycles, people, squad
from meetward.web.store.cycles import VersionRecord

from .catalogues import catalogue_of
from .kept import lifts_needed
from .squad import as_seen
from .timetable import Slot, Timetable
from .who import Hidden, NotAllowed, Who, need, need_lifter, seat_in


class Training(msgspec.Struct, frozen=True):
    """Whose day it is, the version that it is drawn from, and the catalogue that this is read with.

    current : whether the squad trains from this cycle.
    """

    lifter: Lifter
    version: VersionRecord
    catalogue: Catalogue
    times: Timetable
    current: bool


def training(asks: Who, key: str, book_id: int | None = None) -> Training | None:
    """A lifter with the cycle that the club trains from, or another one that a coach names.

    None where the club trains from no cycle yet.
    """
    seat = need_lifter(asks, key)
    club = people.club(seat.club_id)
    if book_id is not None and book_id != club.current_book_id:
        try:
            owner = cycles.club_of(book_id)
        except LookupError:
            raise Hidden from None
        if owner != seat.club_id:
            seat_in(asks, owner)
            raise NotAllowed("That cycle belongs to another of your clubs. Look at that club first.")
        need(asks, owner, "read cycles")
    chosen = book_id if book_id is not None else club.current_book_id
    try:
        lifter = as_seen(squad.lifter(seat.club_id, key), seat)
        version = None if chosen is None else cycles.newest(chosen)
    except LookupError:
        raise Hidden from None
    if version is None:
        return None
    return Training(
        lifter,
        version,
        catalogue_of(asks, seat.club_id),
        Timetable(version.cycle, lifter.days),
        version.book_id == club.current_book_id,
    )


def day_of(one: Training, slot: Slot) -> DaySheet:
    """The day sheet of a training."""
    return _sheet(one.version, one.catalogue, one.times, one.lifter, slot)


def sheet_for(asks: Who, version: VersionRecord, key: str, slot: Slot) -> DaySheet:
    """The day of a lifter of the cycle's club, for a coach who reads the cycle."""
    need(asks, version.club_id, "read squad")
    try:
        lifter = squad.lifter(version.club_id, key)
    except LookupError:
        raise Hidden from None
    return _sheet(
        version, catalogue_of(asks, version.club_id), Timetable(version.cycle, lifter.days), lifter, slot
    )


def squad_days(asks: Who, version: VersionRecord, week: int) -> list[DaySheet]:
    """Every session of a week for everybody in the squad of the cycle's club, lifters by name."""
    need(asks, version.club_id, "read squad")
    times = Timetable(version.cycle)
    slots = [slot for slot in times.slots if slot.week == week]
    if not slots:
        raise Hidden
    catalogue = catalogue_of(asks, version.club_id)
    return [
        _sheet(version, catalogue, Timetable(version.cycle, lifter.days), lifter, slot)
        for lifter in squad.lifters(version.club_id)
        for slot in slots
    ]


def derived_bests(one: Training) -> list[Derived]:
    """The bests that the cycle stands on and that are only derived for this lifter, in the cycle's order."""
    found = {}
    for lift, otherwise in lifts_needed(one.version.cycle, one.catalogue):
        best = working_best(one.lifter, lift, one.catalogue, otherwise=otherwise)
        if isinstance(best, Derived):
            found[lift] = best
    return list(found.values())


def _sheet(
    version: VersionRecord, catalogue: Catalogue, times: Timetable, lifter: Lifter, slot: Slot
) -> DaySheet:
    times.session(slot)
    return day_sheet(version.cycle, slot.week, slot.session, lifter, catalogue, on=times.on(slot))
