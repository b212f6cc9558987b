"""The sessions before a meet, counted back from its day: they move with its weekday."""

from datetime import date, timedelta

import msgspec

from meetward.cycle.tree import Cycle
from meetward.fit.dates import weekdays


class CountedBack(msgspec.Struct, frozen=True):
    """A session of the last weeks of a cycle.

    week, session : in the cycle, from 1.
    on : as many days before the meet as the coach wrote.
    written : the weekday that the coach wrote, or the customary one; 0 is Monday.
    """

    week: int
    session: int
    on: date
    written: int


def counted_back(
    cycle: Cycle, meet_on: date, weeks: int, days: tuple[int, ...] = ()
) -> tuple[CountedBack, ...]:
    """Sessions of the last ``weeks`` weeks up to the meet week, each as far from ``meet_on`` as it is
    written from the cycle's own meet day.

    days : the lifter's training days, for sessions whose weekday the cycle leaves open.

    The cycle's own meet day is that of ``meet_on``, or else the day of the meet week's last session. A meet
    on another weekday moves everything by as many days, so sessions can fall on days without training and in
    the week before: what to do with them is for the fit of days and the coach. Nothing for a cycle without
    weeks, and none for sessions whose weekday cannot be known.
    """
    every = [week for _, _, week in cycle.weeks()]
    meets = [number for number, week in enumerate(every, start=1) if week.role == "meet"]
    last = meets[-1] if meets else len(every)
    if not last:
        return ()
    meet_week = [day for day in weekdays(every[last - 1], days) if day is not None]
    own = cycle.meet_on.weekday() if cycle.meet_on is not None else max(meet_week, default=meet_on.weekday())
    found: list[CountedBack] = []
    for number in range(max(1, last - weeks + 1), last + 1):
        for session, day in enumerate(weekdays(every[number - 1], days), start=1):
            if day is not None:
                before = timedelta(weeks=last - number, days=own - day)
                found.append(CountedBack(number, session, meet_on - before, day))
    return tuple(found)
