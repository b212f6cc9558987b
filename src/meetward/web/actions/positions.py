"""A lifter's measures and mobility screens: who may see and change them, and what is current among them."""

from datetime import date
from typing import Any

import msgspec

from meetward.lifter.profile import Lifter
from meetward.lifter.screen import TESTS, Screen, ScreenTest, Sides, TestId, changed
from meetward.web.store import positions as store
from meetward.web.store import squad
from meetward.web.store.positions import Positions, PositionsRecord, SavedMeanwhile

from .who import Hidden, Who, need_health

REFUSAL = "Measures and mobility tests are health data: the lifter and the owner coach see them. Ask them."

__all__ = ["Positions", "SavedMeanwhile"]


class Theirs(msgspec.Struct, frozen=True):
    """A lifter with what is kept of their positions.

    own : whether it is the lifter who asks, not the coach.
    """

    lifter: Lifter
    record: PositionsRecord
    own: bool


class Current(msgspec.Struct, frozen=True):
    """The newest result of every test, whichever day it is from.

    on : the day of each test that has a result; None where nobody wrote it down.
    """

    screen: Screen
    on: dict[TestId, date | None]


def positions(asks: Who, key: str) -> Theirs:
    """A lifter with measures and screens. Raises Hidden and NotAllowed."""
    seat = need_health(asks, key, REFUSAL)
    try:
        return Theirs(
            squad.lifter(seat.club_id, key), store.positions(seat.club_id, key), seat.lifter_key == key
        )
    except LookupError:
        raise Hidden from None


def save(asks: Who, key: str, kept: Positions, *, after: int) -> None:
    """Save all of it in the place of what was saved as ``after``. Raises SavedMeanwhile."""
    seat = need_health(asks, key, REFUSAL)
    try:
        store.save(seat.club_id, key, kept, after=after)
    except LookupError:
        raise Hidden from None


def delete(asks: Who, key: str) -> bool:
    """Delete all of it; whether there was anything."""
    seat = need_health(asks, key, REFUSAL)
    try:
        return store.delete(seat.club_id, key)
    except LookupError:
        raise Hidden from None


def current(screens: tuple[Screen, ...]) -> Current:
    """The newest result of every test. A test that was stopped because of pain has none since then."""
    found: dict[str, Any] = {}
    painful: list[TestId] = []
    on: dict[TestId, date | None] = {}
    for test in TESTS:
        newest = next((one for one in reversed(in_order(screens)) if has_result(one, test.id)), None)
        if newest is None:
            continue
        on[test.id] = newest.taken
        if test.id in newest.painful:
            painful.append(test.id)
        else:
            found[test.id] = getattr(newest, test.id)
    return Current(Screen(**found, painful=tuple(painful)), on)


def in_order(screens: tuple[Screen, ...]) -> tuple[Screen, ...]:
    """The oldest first; one without a date before all others."""
    return tuple(sorted(screens, key=lambda one: one.taken or date.min))


def has_result(screen: Screen, test: TestId) -> bool:
    """Whether the test was done, or stopped because of pain."""
    value = getattr(screen, test)
    return test in screen.painful or (value != Sides() if isinstance(value, Sides) else value is not None)


def with_screen(kept: Positions, screen: Screen, *, was: date | None) -> Positions:
    """The same with a day of tests put in.

    was : the day that is being changed; its tests are replaced. Without it the tests are added, over what
        stands on that day already. A day without any test goes.
    """
    others = [one for one in kept.screens if was is None or one.taken != was]
    if same := next((one for one in others if one.taken == screen.taken), None):
        others.remove(same)
        screen = _over(same, screen)
    if any(has_result(screen, test.id) for test in TESTS):
        others.append(screen)
    return msgspec.structs.replace(kept, screens=in_order(tuple(others)))


def _over(before: Screen, now: Screen) -> Screen:
    """Tests of ``now`` over those of ``before``; a side that was not measured again stays."""
    fields: dict[str, Any] = {}
    painful = []
    for test in TESTS:
        done = now if has_result(now, test.id) else before
        value = getattr(done, test.id)
        earlier = getattr(before, test.id)
        if done is now and isinstance(value, Sides) and isinstance(earlier, Sides):
            value = Sides(*(getattr(value if getattr(value, side) is not None else earlier, side)
                            for side in ("left", "right")))  # fmt: skip
        if test.id in done.painful:
            painful.append(test.id)
        else:
            fields[test.id] = value
    return Screen(taken=now.taken, painful=tuple(painful), **fields)


def retests(screens: tuple[Screen, ...]) -> dict[TestId, tuple[str, ...]]:
    """Whether the newest measurement says more than measuring error, for each test with a published error.

    Each side against its measurement before.
    """
    found: dict[TestId, tuple[str, ...]] = {}
    for test in TESTS:
        if test.change is not None and (said := tuple(_changes(test, screens))):
            found[test.id] = said
    return found


def _changes(test: ScreenTest, screens: tuple[Screen, ...]) -> list[str]:
    said = []
    done = [one for one in in_order(screens) if has_result(one, test.id)]
    if done and test.id in done[-1].painful:
        return []
    for side in ("left", "right"):
        values = [
            value
            for one in done
            if test.id not in one.painful and (value := getattr(getattr(one, test.id), side)) is not None
        ]
        if len(values) > 1:
            sentence = changed(test, values[-2], values[-1]).partition(": ")[2]
            said.append(f"{side.capitalize()} {sentence}")
    return said
