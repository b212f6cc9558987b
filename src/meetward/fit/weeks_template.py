"""The weeks of a cycle as the date fit sees them: role, work, and what it costs to miss or repeat one."""

from collections.abc import Iterable

import msgspec

from meetward.cycle.tree import Cycle, Role
from meetward.problem import Place, Problem
from meetward.workload.count import Count, Movements, count_cycle

FIRST_HEAVY_ZONE, LAST_HEAVY_ZONE = 4, 6
"""Zones of `workload.count.ZONES` that hold heavy lifts: 80 % and over. Common practice, no source."""


class TemplateWeek(msgspec.Struct, frozen=True):
    """A week of the cycle.

    number : in the cycle, from 1.
    lifts, heavy_lifts : of the whole week; heavy is 80 % and over.
    may_drop, drop_cost : whether it may be left out, and what that costs.
    may_repeat, repeat_cost : whether it may be done twice, and what that costs.
    """

    number: int
    role: Role
    lifts: int
    heavy_lifts: int
    may_drop: bool
    drop_cost: int
    may_repeat: bool
    repeat_cost: int


class WeekMark(msgspec.Struct, frozen=True):
    """What the coach says of one week; None keeps the default of its role."""

    number: int
    may_drop: bool | None = None
    drop_cost: int | None = None
    may_repeat: bool | None = None
    repeat_cost: int | None = None


def template_of(
    cycle: Cycle, catalogue: Movements, marks: Iterable[WeekMark] = ()
) -> tuple[tuple[TemplateWeek, ...], tuple[Problem, ...]]:
    """The weeks up to the meet week (the last of that role, or else the last week), and what is to be seen.

    Defaults, common practice, no source: test, taper and meet weeks are neither left out nor repeated; a
    lighter week is cheap to miss and to repeat; a working week costs more the nearer it is to the meet.
    """
    weeks = [week for _, _, week in cycle.weeks()]
    meets = [number for number, week in enumerate(weeks, start=1) if week.role == "meet"]
    last = meets[-1] if meets else len(weeks)
    counts = count_cycle(cycle, catalogue).weeks
    marked: dict[int, WeekMark] = {}
    problems: list[Problem] = []
    for mark in marks:
        if not 1 <= mark.number <= last:
            problems.append(_no_such_week(mark.number, last))
        elif min(mark.drop_cost or 0, mark.repeat_cost or 0) < 0:
            problems.append(_below_zero(mark.number))
        else:
            marked[mark.number] = mark
    template = tuple(
        template_week(number, week.role, last, *_work(count), marked.get(number))
        for number, (week, count) in enumerate(zip(weeks[:last], counts[:last], strict=True), start=1)
    )
    return template, tuple(problems)


def template_week(
    number: int, role: Role, last: int, lifts: int, heavy_lifts: int, mark: WeekMark | None = None
) -> TemplateWeek:
    """Week ``number`` of ``last`` with the defaults of its role, changed by the coach's mark."""
    fixed = role in ("test", "taper", "meet") or number == last
    drop_cost, repeat_cost = 8 + 6 * (number - 1) // last, 3 + 3 * (number - 1) // last
    if role == "lighter":
        drop_cost, repeat_cost = 5, 3
    if fixed:
        drop_cost, repeat_cost = 20, 12
    mark = mark or WeekMark(number)
    return TemplateWeek(
        number,
        role,
        lifts,
        heavy_lifts,
        not fixed if mark.may_drop is None else mark.may_drop,
        drop_cost if mark.drop_cost is None else mark.drop_cost,
        not fixed if mark.may_repeat is None else mark.may_repeat,
        repeat_cost if mark.repeat_cost is None else mark.repeat_cost,
    )


def last_weeks(template: tuple[TemplateWeek, ...], wanted: int | None) -> int:
    """How many weeks at the end are counted back from the meet: those asked for, or the taper, test and meet
    weeks at its end; at least one, at most all."""
    if wanted is None:
        wanted = 0
        for week in reversed(template):
            if week.role not in ("test", "taper", "meet"):
                break
            wanted += 1
    return max(1, min(wanted, len(template)))


def longest_run(template: tuple[TemplateWeek, ...]) -> int:
    """The longest run of working weeks that the coach wrote."""
    best = run = 0
    for week in template:
        run = run + 1 if week.role == "load" else 0
        best = max(best, run)
    return best


def written_steps(template: tuple[TemplateWeek, ...]) -> tuple[tuple[int, int], ...]:
    """For each week by how many lifts and heavy lifts it rises over the working week before it, as written.

    The first working week rises by nothing: whoever follows the cycle comes ready for it.
    """
    steps: list[tuple[int, int]] = []
    before: TemplateWeek | None = None
    for week in template:
        if week.role != "load":
            steps.append((0, 0))
            continue
        last = before or week
        steps.append((max(0, week.lifts - last.lifts), max(0, week.heavy_lifts - last.heavy_lifts)))
        before = week
    return tuple(steps)


def _work(count: Count) -> tuple[int, int]:
    return round(count.lifts), round(sum(count.zones[FIRST_HEAVY_ZONE : LAST_HEAVY_ZONE + 1]))


def _no_such_week(number: int, last: int) -> Problem:
    return Problem(
        Place(said=f"Mark of week {number}"),
        kind="no such week",
        message=f"The cycle leads to its meet in {last} weeks, so there is no week {number} to mark.",
        repair=f"Name a week from 1 to {last}.",
        read=str(number),
    )


def _below_zero(number: int) -> Problem:
    return Problem(
        Place(said=f"Mark of week {number}"),
        kind="cost below 0",
        message=f"A cost of week {number} is below 0, so leaving it out would be a gain.",
        repair="Give 0 or more; what should always go is better taken out of the cycle.",
    )
