"""A fit of dates in numbers, and a way through it: what the search and the check both speak of."""

from typing import Literal

import msgspec

from meetward.fit.week_rules import WeekRules
from meetward.fit.weeks_calendar import CalendarWeek
from meetward.fit.weeks_template import TemplateWeek

Kind = Literal["week", "repeat", "extra lighter", "free", "blocked"]


class Task(msgspec.Struct, frozen=True):
    """A fit of dates in numbers.

    start_load : lifts and heavy lifts of the last working week before the start.
    done : so many weeks of the cycle lie behind.
    """

    template: tuple[TemplateWeek, ...]
    calendar: tuple[CalendarWeek, ...]
    rules: WeekRules
    start_load: tuple[int, int]
    done: int = 0


class Lay(msgspec.Struct, frozen=True):
    """What is laid onto one calendar week.

    week : of the cycle; 0 where there is none.
    level_permille : share of its lifts that is done. [permille]
    broken : ids of rules that are broken here; empty in a plan that obeys them all.
    """

    kind: Kind
    week: int
    level_permille: int
    cost: int
    broken: tuple[str, ...] = ()


class Path(msgspec.Struct, frozen=True):
    """A whole way through the calendar. Cost includes the price of broken rules."""

    cost: int
    lays: tuple[Lay, ...]


def times_over(over: int, most: int) -> int:
    """How often a limit counts as broken: once for each tenth of it begun, ten times at most."""
    return 0 if over <= 0 else min(10, 1 + over * 10 // max(most, 1))
