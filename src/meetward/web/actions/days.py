"""A lifter's day: from the cycle that the club trains from, computed when it is asked for."""

from datetime import date, timedelta

import msgspec
from django.utils import timezone

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.day import day_sheet
from meetward.fit.fitted import DaySheet
from meetward.lifter.profile import Lifter
from meetward.strength.ratios import Derived, working_best
from meetward.web.store import cycles, fits, people, squad
from meetward.web.store.cycles import VersionRecord
from meetward.web.store.fits import Approval, FitRecord, FitWish

from .catalogues import catalogue_of
from .fits import trains_from
from .fitting import fitted, week_words
from .kept import lifts_needed
from .squad import as_seen
from .timetable import Slot, Timetable
from .who import Hidden, NotAllowed, Who, need, need_lifter, seat_in


class OwnFit(msgspec.Struct, frozen=True):
    """The fit that a lifter trains from.

    weeks : for each week of it, which week of the club's cycle that is, in words; empty where the fit cannot
        be worked out any more, and the days are those of the club's own calendar.
    """

    wish: FitWish
    weeks: tuple[str, ...]


class Training(msgspec.Struct, frozen=True):
    """Whose day it is, the version that it is drawn from, and the catalogue that this is read with.

    version : its cycle is the fitted one where the lifter trains from a fit of their own.
    current : whether the squad trains from this cycle.
    fit : that the coach said yes to; None for somebody who follows the club's own calendar.
    """

    lifter: Lifter
    version: VersionRecord
    catalogue: Catalogue
    times: Timetable
    current: bool
    fit: OwnFit | None = None


def training(asks: Who, key: str, book_id: int | None = None) -> Training | None:
    """A lifter with what the coach said yes to for them, or else the cycle that the club trains from, or
    another one that a coach names.

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
    catalogue = catalogue_of(asks, seat.club_id)
    try:
        whole = squad.lifter(seat.club_id, key)
        approval = fits.record(seat.club_id, key).approval
        if not trains_from(approval, club.current_book_id, timezone.localdate()):
            approval = None
        if approval is not None and book_id in (None, approval.book_id):
            own = _fitted(approval, catalogue, whole)
            if own is not None:
                return Training(
                    as_seen(whole, seat),
                    own.record,
                    catalogue,
                    Timetable(own.record.cycle),
                    approval.book_id == club.current_book_id,
                    OwnFit(approval.wish, own.weeks),
                )
        chosen = book_id if book_id is not None else club.current_book_id
        version = None if chosen is None else cycles.newest(chosen)
    except LookupError:
        raise Hidden from None
    if version is None:
        return None
    lost = OwnFit(approval.wish, ()) if approval is not None and book_id is None else None
    return Training(
        as_seen(whole, seat),
        version,
        catalogue,
        Timetable(version.cycle, whole.days),
        version.book_id == club.current_book_id,
        lost,
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
    """Every session of a week for everybody in the squad of the cycle's club, lifters by name.

    Who trains from a fit of their own stands with what they do in the same calendar week. Their sessions have
    numbers after those of the cycle, so that no sheet puts different sessions into one table.
    """
    need(asks, version.club_id, "read squad")
    times = Timetable(version.cycle)
    slots = [slot for slot in times.slots if slot.week == week]
    if not slots:
        raise Hidden
    catalogue = catalogue_of(asks, version.club_id)
    kept = fits.records(version.club_id)
    current = people.club(version.club_id).current_book_id
    today = timezone.localdate()
    together: list[DaySheet] = []
    apart: list[DaySheet] = []
    for lifter in squad.lifters(version.club_id):
        approval = kept.get(lifter.key, FitRecord()).approval
        own = None
        if approval is not None and approval.book_id == version.book_id:
            own = _fitted(approval, catalogue, lifter) if trains_from(approval, current, today) else None
        if own is None:
            their_times = Timetable(version.cycle, lifter.days)
            together += [_sheet(version, catalogue, their_times, lifter, slot) for slot in slots]
        else:
            apart += _own_days(own.record, catalogue, lifter, times.monday(week))
    return together + _numbered_after(apart, max(slot.session for slot in slots))


def derived_bests(one: Training) -> list[Derived]:
    """The bests that the cycle stands on and that are only derived for this lifter, in the cycle's order."""
    found = {}
    for lift, otherwise in lifts_needed(one.version.cycle, one.catalogue):
        best = working_best(one.lifter, lift, one.catalogue, otherwise=otherwise)
        if isinstance(best, Derived):
            found[lift] = best
    return list(found.values())


class _FittedVersion(msgspec.Struct, frozen=True):
    """A version with the fitted cycle in the place of its own."""

    record: VersionRecord
    weeks: tuple[str, ...]


def _fitted(approval: Approval, catalogue: Catalogue, lifter: Lifter) -> _FittedVersion | None:
    """None where the fit cannot be worked out any more. Raises LookupError."""
    version = cycles.version(approval.book_id, approval.version)
    fit = fitted(version, catalogue, lifter, approval.wish)
    if fit.drawn is None:
        return None
    weeks = tuple(week_words(week) for week in fit.proposal.weeks_fit.weeks)
    return _FittedVersion(msgspec.structs.replace(version, cycle=fit.drawn), weeks)


def _own_days(
    version: VersionRecord, catalogue: Catalogue, lifter: Lifter, monday: date | None
) -> list[DaySheet]:
    times = Timetable(version.cycle)
    return [
        _sheet(version, catalogue, times, lifter, slot)
        for slot in times.slots
        if monday is not None and (on := times.on(slot)) and timedelta() <= on - monday < timedelta(days=7)
    ]


def _numbered_after(sheets: list[DaySheet], last: int) -> list[DaySheet]:
    """The same sheets, in the order of days; those of one session on one day share a number."""
    sheets = sorted(sheets, key=lambda one: (one.on or date.min, one.title))
    numbers: dict[tuple[object, ...], int] = {}
    return [
        msgspec.structs.replace(
            one,
            session=numbers.setdefault((one.on, one.title, one.week, one.weeks), last + len(numbers) + 1),
        )
        for one in sheets
    ]


def _sheet(
    version: VersionRecord, catalogue: Catalogue, times: Timetable, lifter: Lifter, slot: Slot
) -> DaySheet:
    times.session(slot)
    return day_sheet(version.cycle, slot.week, slot.session, lifter, catalogue, on=times.on(slot))
