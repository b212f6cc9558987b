"""A fitted calendar as it is given out: weeks, costs, the certificate; what collides where nothing fits."""

from datetime import date
from typing import Literal

import msgspec

from meetward.fit.weeks_task import Kind
from meetward.problem import Problem
from meetward.why import Why

FittedRole = Literal["load", "lighter", "test", "taper", "meet", "blocked", "free"]


class FittedWeek(msgspec.Struct, frozen=True):
    """One calendar week.

    template_week : week of the cycle; None where it is blocked, free, or an extra lighter week.
    level_permille : share of its lifts (sets) that is done; what missed time does to the kilos is not said
        here. 0 where nothing is planned. [permille]
    leans_on : the week of the cycle whose sessions an extra lighter week takes; None otherwise.
    open_days : training days that are free.
    meets : names of further meets in this week.
    free_days : the day before a further meet.
    why : a sentence; empty for a week that stands as written in the order of the cycle.
    """

    monday: date
    template_week: int | None
    kind: Kind
    role: FittedRole
    level_permille: int
    leans_on: int | None
    open_days: tuple[date, ...]
    meets: tuple[str, ...]
    free_days: tuple[date, ...]
    cost: int
    why: Why


class CostItem(msgspec.Struct, frozen=True):
    """One cost of a plan.

    what : left out, repeated, level, meet on the way, extra lighter, start later, spread, test rested.
    """

    what: str
    cost: int
    said: str


class Relief(msgspec.Struct, frozen=True):
    """A single rule without which a cheaper plan would be possible."""

    rule: str
    cost: int
    said: str
    weeks: tuple[FittedWeek, ...]


class Clash(msgspec.Struct, frozen=True):
    """A smallest set of rules that cannot all be obeyed on this calendar: without any one of them, the
    others can.

    said : their sentences, in the order of ``rules``.
    facts : what the calendar has to do with it.
    """

    rules: tuple[str, ...]
    said: tuple[str, ...]
    facts: tuple[str, ...]


class LeastBad(msgspec.Struct, frozen=True):
    """A plan that breaks rules because none obeys them all.

    broken : (rule id, sentence with the week).
    cost : without any price for the broken rules.
    """

    weeks: tuple[FittedWeek, ...]
    cost: int
    broken: tuple[tuple[str, str], ...]
    reasons: tuple[str, ...]


class FittedWeeks(msgspec.Struct, frozen=True):
    """The cheapest plan that obeys every rule, with its certificate; or why there is none.

    possible : whether a plan obeys every rule. If not, ``weeks`` is empty and ``least_bad`` has plans, unless
        a problem of the calendar stops it all.
    runner_up : the cheapest plan in which anything else lies on any week; empty where there is no other.
    reliefs : rules that would have to give for a cheaper plan, the cheapest first.
    reasons : what changed from the cycle and why, in sentences.
    """

    possible: bool
    weeks: tuple[FittedWeek, ...] = ()
    cost: int | None = None
    costs: tuple[CostItem, ...] = ()
    runner_up_cost: int | None = None
    runner_up: tuple[FittedWeek, ...] = ()
    reliefs: tuple[Relief, ...] = ()
    reasons: tuple[str, ...] = ()
    clash: Clash | None = None
    least_bad: tuple[LeastBad, ...] = ()
    problems: tuple[Problem, ...] = ()
