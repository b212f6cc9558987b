"""Fits of the cycle to the lifters: who may see and change them, what was approved, and what is stale."""

from collections.abc import Iterable
from datetime import date
from time import monotonic
from typing import Literal

import msgspec

from meetward.fit.proposal import Proposal
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.publish.words import show_date
from meetward.web.store import cycles, fits, people, squad
from meetward.web.store.cycles import VersionRecord
from meetward.web.store.fits import Approval, FitRecord, FitWish, SavedMeanwhile
from meetward.web.store.people import Seat

from .catalogues import catalogue_of
from .fitting import fitted, is_ready
from .who import Hidden, Who, need_health, need_here

REFUSAL = (
    "What a lifter may not lift and when they are ill is health data: the lifter and the owner coach see "
    "it. Ask them."
)

__all__ = ["FitRecord", "FitWish", "SavedMeanwhile"]

State = Literal["own calendar", "waits", "cannot", "fitted", "stale", "not worked out"]
"""Of one lifter: follows the club's own calendar; has a wish without a yes, one that no plan can keep, a yes
that holds, a yes to something that has changed since; or nobody knows yet whether anything fits."""


class CannotFit(Exception):
    """Nothing keeps every rule, so there is nothing to say yes to."""


class TheirFit(msgspec.Struct, frozen=True):
    """A lifter with their wish and what it makes of the cycle.

    version : the newest version of the cycle that the club trains from; None where it trains from none.
    proposal : of that version; None without a wish or a cycle.
    stale : why what was approved is not what is proposed now, in sentences.
    own, decides : whether it is the lifter who asks, and whether the yes is theirs to say.
    """

    lifter: Lifter
    record: FitRecord
    version: VersionRecord | None
    proposal: Proposal | None
    state: State
    stale: tuple[str, ...]
    own: bool
    decides: bool


def fit_of(asks: Who, key: str, today: date) -> TheirFit:
    """A lifter's fit. Raises Hidden and NotAllowed."""
    seat = need_health(asks, key, REFUSAL)
    version = _current(seat)
    try:
        lifter, record = squad.lifter(seat.club_id, key), fits.record(seat.club_id, key)
    except LookupError:
        raise Hidden from None
    own = seat.lifter_key == key
    proposal = _proposal(asks, seat, version, lifter, record)
    stale = stale_because(record, version, today)
    state = _state(record, stale, proposal)
    return TheirFit(lifter, record, version, proposal, state, stale, own, seat.role == "owner")


def fit_to_delete(asks: Who, key: str, today: date) -> TheirFit:
    """The same for the owner coach only, who may delete it."""
    need_here(asks, "change squad")
    return fit_of(asks, key, today)


def squad_fits(asks: Who, today: date, seconds: float) -> tuple[TheirFit, ...]:
    """Everybody of the squad, by name. For the owner coach.

    seconds : what is not there at once is worked out for so long; the rest has the state "not worked out".
    """
    seat = need_here(asks, "change squad")
    version = _current(seat)
    kept = fits.records(seat.club_id)
    end = monotonic() + seconds
    lifters = squad.lifters(seat.club_id)
    found: dict[str, TheirFit] = {}
    # Those who wait for a decision are worked out first.
    for lifter in sorted(lifters, key=lambda one: _turn(kept.get(one.key), version, today)):
        record = kept.get(lifter.key, FitRecord())
        proposal = None
        if record.wish is not None and version is not None:
            ready = is_ready(version, catalogue_of(asks, seat.club_id), lifter, record.wish)
            if ready or monotonic() < end:
                proposal = _proposal(asks, seat, version, lifter, record)
        stale = stale_because(record, version, today)
        state = _state(record, stale, proposal)
        if state == "waits" and proposal is None and version is not None:
            state = "not worked out"
        found[lifter.key] = TheirFit(lifter, record, version, proposal, state, stale, False, True)
    return tuple(found[lifter.key] for lifter in lifters)


def _turn(record: FitRecord | None, version: VersionRecord | None, today: date) -> int:
    if record is None or record.approval is None:
        return 1
    return 0 if stale_because(record, version, today) else 2


def stale_fits(asks: Who, today: date) -> int:
    """How many lifters of the club train from a fit that has changed since it was approved."""
    seat = need_here(asks, "change squad")
    version = _current(seat)
    return sum(bool(stale_because(one, version, today)) for one in fits.records(seat.club_id).values())


def save_wish(asks: Who, key: str, wish: FitWish, *, after: int) -> None:
    """Save the wish in the place of what was saved as ``after``; nobody's days change by it.

    A lifter changes their calendar; what they may not lift is for the coach to say, and stays as it is.
    Raises SavedMeanwhile.
    """
    seat = need_health(asks, key, REFUSAL)
    try:
        if seat.role != "owner":
            before = fits.record(seat.club_id, key).wish
            wish = msgspec.structs.replace(wish, limits=before.limits if before else Limits())
        fits.save_wish(seat.club_id, key, wish, after=after)
    except LookupError:
        raise Hidden from None


def approve(asks: Who, key: str, *, after: int, version_id: int) -> None:
    """From now on the lifter trains from the wish saved as ``after``, fitted from that version.

    Raises SavedMeanwhile where either has changed meanwhile, CannotFit where nothing fits.
    """
    seat = need_here(asks, "change squad")
    version = _current(seat)
    try:
        lifter, record = squad.lifter(seat.club_id, key), fits.record(seat.club_id, key)
        if version is None or version.id != version_id or record.number != after or record.wish is None:
            raise SavedMeanwhile(record)
        proposal = _proposal(asks, seat, version, lifter, record)
        if proposal is None or proposal.cycle is None:
            raise CannotFit
        fits.approve(seat.club_id, key, version_id, user_id=asks.user_id, after=after)
    except LookupError:
        raise Hidden from None


def approve_many(
    asks: Who, chosen: Iterable[tuple[str, int]], *, version_id: int
) -> tuple[list[str], list[str]]:
    """Say yes for several at once: (key, number of the wish). Keys that were approved, and those that were
    not, because something changed meanwhile or nothing fits. One lifter never stops the rest."""
    need_here(asks, "change squad")
    done: list[str] = []
    not_done: list[str] = []
    for key, after in chosen:
        try:
            approve(asks, key, after=after, version_id=version_id)
        except (SavedMeanwhile, CannotFit, Hidden):
            not_done.append(key)
        else:
            done.append(key)
    return done, not_done


def take_back(asks: Who, key: str, *, after: int) -> None:
    """The lifter trains from the club's own calendar again; the wish stays. Raises SavedMeanwhile."""
    seat = need_here(asks, "change squad")
    try:
        fits.take_back(seat.club_id, key, after=after)
    except LookupError:
        raise Hidden from None


def delete(asks: Who, key: str) -> bool:
    """Delete wish and approval; whether there was anything."""
    seat = need_here(asks, "change squad")
    try:
        return fits.delete(seat.club_id, key)
    except LookupError:
        raise Hidden from None


def stale_because(record: FitRecord, version: VersionRecord | None, today: date) -> tuple[str, ...]:
    """Why an approval is not what is proposed now; empty where it is, or where there is none."""
    approval = record.approval
    if approval is None:
        return ()
    said = []
    if version is None or version.book_id != approval.book_id:
        said.append("The club trains from another cycle now.")
    elif version.number != approval.version:
        said.append(
            f"The cycle has a newer version: {version.number}. The yes was to version {approval.version}."
        )
    if record.wish != approval.wish:
        said.append("Dates, days or limits were changed after the yes.")
    if approval.wish.meet_on < today:
        said.append(f"The day it leads to, {show_date(approval.wish.meet_on)}, is over.")
    return tuple(said)


def trains_from(approval: Approval | None, current_book_id: int | None, today: date) -> bool:
    """Whether the lifter's days are drawn from the approval: until it is taken back, or until its day is over
    and the club trains from another cycle."""
    if approval is None:
        return False
    return approval.wish.meet_on >= today or approval.book_id == current_book_id


def _state(record: FitRecord, stale: tuple[str, ...], proposal: Proposal | None) -> State:
    if record.approval is not None:
        return "stale" if stale else "fitted"
    if record.wish is None:
        return "own calendar"
    return "cannot" if proposal is not None and proposal.cycle is None else "waits"


def _proposal(
    asks: Who, seat: Seat, version: VersionRecord | None, lifter: Lifter, record: FitRecord
) -> Proposal | None:
    if version is None or record.wish is None:
        return None
    return fitted(version, catalogue_of(asks, seat.club_id), lifter, record.wish).proposal


def _current(seat: Seat) -> VersionRecord | None:
    book_id = people.club(seat.club_id).current_book_id
    try:
        return None if book_id is None else cycles.newest(book_id)
    except LookupError:
        raise Hidden from None
