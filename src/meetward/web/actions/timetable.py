"""The sessions of a cycle in order, with their dates."""

from collections.abc import Sequence
from datetime import date, timedelta

import msgspec

from meetward.cycle.tree import Cycle, Session
from meetward.fit.dates import first_monday, week_dates

from .who import Hidden


class Slot(msgspec.Struct, frozen=True):
    """A session of the cycle by its week and its number in the week, both from 1."""

    week: int
    session: int


class Timetable:
    """The sessions of a cycle in the order in which they come.

    weeks : number of weeks.
    """

    def __init__(self, cycle: Cycle, days: Sequence[int] = ()) -> None:
        """``days`` : weekdays of the lifter, for sessions whose day the cycle leaves open."""
        self._sessions = {Slot(week, number): session for week, number, session in cycle.sessions()}
        self.slots = tuple(self._sessions)
        self.weeks = sum(1 for _ in cycle.weeks())
        self._monday = first_monday(cycle)
        dates = week_dates(cycle, days)
        self._dates = {slot: dates[slot.week - 1][slot.session - 1] for slot in self.slots}

    def session(self, slot: Slot) -> Session:
        """Raises Hidden for a session that the cycle does not have."""
        try:
            return self._sessions[slot]
        except KeyError:
            raise Hidden from None

    def monday(self, week: int) -> date | None:
        """The Monday of a week; None while the cycle has neither start nor meet day."""
        return self._monday and self._monday + timedelta(days=7 * (week - 1))

    def on(self, slot: Slot) -> date | None:
        """The day of a session; None where it cannot be known."""
        self.session(slot)
        return self._dates[slot]

    def at(self, day: date) -> Slot | None:
        """The first session on a day."""
        return next((slot for slot in self.slots if self.on(slot) == day), None)

    def around(self, slot: Slot) -> tuple[Slot | None, Slot | None]:
        """The session before and the one after."""
        at = self.slots.index(slot)
        return (
            self.slots[at - 1] if at else None,
            self.slots[at + 1] if at + 1 < len(self.slots) else None,
        )

    def around_day(self, day: date) -> tuple[Slot | None, Slot | None]:
        """The last session before a day and the first after it."""
        dated = [(on, slot) for slot in self.slots if (on := self.on(slot))]
        before = [slot for on, slot in dated if on < day]
        after = [slot for on, slot in dated if on > day]
        return (before[-1] if before else None, after[0] if after else None)

    def next_from(self, today: date) -> Slot | None:
        """The session of today, else the next one; the first where there are no dates or all are to come,
        the last when the cycle is over. None for a cycle without sessions."""
        dated = [(on, slot) for slot in self.slots if (on := self.on(slot))]
        coming = [slot for on, slot in dated if on >= today]
        if coming:
            return coming[0]
        if dated:
            return dated[-1][1]
        return self.slots[0] if self.slots else None
