"""The dates of a cycle's sessions, from its first Monday or back from its meet."""

from collections.abc import Sequence
from datetime import date, timedelta

from meetward.cycle.tree import Cycle, Session, Week
from meetward.problem import Place, Problem

DAYS_OF_SESSIONS = {
    1: (0,), 2: (0, 3), 3: (0, 2, 4), 4: (0, 1, 3, 4), 5: (0, 1, 2, 4, 5), 6: (0, 1, 2, 3, 4, 5),
    7: (0, 1, 2, 3, 4, 5, 6),
}  # fmt: skip
"""Weekdays of so many sessions whose day is left open, 0 is Monday. Common practice, no source."""


def week_dates(cycle: Cycle, days: Sequence[int] = ()) -> tuple[tuple[date | None, ...], ...]:
    """The date of each session, week by week; None where it cannot be known.

    days : weekdays on which the lifter trains, for sessions whose day the cycle leaves open.

    The first week begins on the Monday of the week of ``starts_on``. Without it weeks are counted back from
    the meet: the meet week (the last one with that role, or else the last) is the week of the meet day.
    """
    monday = first_monday(cycle)
    return tuple(
        tuple(_date(monday, number, day) for day in weekdays(week, days)) for number, _, week in cycle.weeks()
    )


def first_monday(cycle: Cycle) -> date | None:
    """The Monday of week 1; None when the cycle names neither a start nor a meet day."""
    if cycle.starts_on is not None:
        return _monday(cycle.starts_on)
    weeks = [week for _, _, week in cycle.weeks()]
    if cycle.meet_on is None or not weeks:
        return None
    meets = [number for number, week in enumerate(weeks) if week.role == "meet"]
    before = meets[-1] if meets else len(weeks) - 1
    try:
        return _monday(cycle.meet_on) - timedelta(weeks=before)
    except OverflowError:  # a meet in the year 1
        return None


def weekdays(week: Week, days: Sequence[int] = ()) -> tuple[int | None, ...]:
    """The weekday of each session of a week, 0 is Monday.

    Where the cycle leaves every day open, the lifter's days are taken in order while they suffice, and else
    the customary ones. Where it names only some, the others stay open.
    """
    sessions: tuple[Session, ...] = week.sessions
    named = tuple(session.weekday for session in sessions)
    if any(day is not None for day in named):
        return named
    mine = sorted({day for day in days if 0 <= day <= 6})
    if len(mine) >= len(sessions):
        return tuple(mine[: len(sessions)])
    return DAYS_OF_SESSIONS.get(len(sessions), (None,) * len(sessions))


def date_problems(cycle: Cycle) -> tuple[Problem, ...]:
    """What does not agree in the dates of a cycle: a meet outside the week that should be its last."""
    monday = first_monday(cycle)
    weeks = [week for _, _, week in cycle.weeks()]
    if monday is None or cycle.starts_on is None or cycle.meet_on is None or not weeks:
        return ()
    meets = [number for number, week in enumerate(weeks, start=1) if week.role == "meet"]
    wanted = meets[-1] if meets else len(weeks)
    found = (cycle.meet_on - monday).days // 7 + 1
    if found == wanted:
        return ()
    where = f"in week {found}" if 1 <= found <= len(weeks) else "outside the cycle"
    return (
        Problem(
            Place(said="Dates of the cycle"),
            kind="meet in another week",
            message=(
                f"The cycle starts on {cycle.starts_on.isoformat()} and its week {wanted} leads to the meet, "
                f"but the meet on {cycle.meet_on.isoformat()} lies {where}."
            ),
            repair="Change the start, or leave it out: then weeks are counted back from the meet.",
            severity="look",
        ),
    )


def _monday(day: date) -> date:
    return date.fromordinal(max(1, day.toordinal() - day.weekday()))


def _date(monday: date | None, week: int, day: int | None) -> date | None:
    if monday is None or day is None:
        return None
    try:
        return monday + timedelta(weeks=week - 1, days=day)
    except OverflowError:  # beyond the year 9999
        return None
