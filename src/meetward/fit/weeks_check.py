"""An independent look at a way through a calendar: which rules it breaks, and what it costs.

Written from the sentences of the rules and not from the search; every plan passes here before it is given
out.
"""

from collections.abc import Iterable

import msgspec

from meetward.fit.weeks_task import Lay, Task, times_over
from meetward.fit.weeks_template import last_weeks, longest_run, written_steps


class Breach(msgspec.Struct, frozen=True):
    """A rule that is broken in a calendar week (index from 0), so many times."""

    rule: str
    at: int
    times: int = 1


def malformed(task: Task, lays: tuple[Lay, ...]) -> str:
    """What is wrong with the bare form of a plan; empty if nothing is.

    Blocked weeks hold nothing, the order is kept, the last calendar week holds the last week of the cycle,
    extra lighter weeks stand between working weeks and free ones before the cycle.
    """
    if len(lays) != len(task.calendar):
        return "There is not one entry for each calendar week."
    done = [lay.week for lay in lays if lay.week]
    if not done or done[-1] != len(task.template) or lays[-1].week != done[-1] or lays[-1].kind != "week":
        return "The last week of the cycle does not fall in the week of the meet."
    if done != sorted(done):
        return "The order of the weeks is not kept."
    rules = task.rules
    begun = task.done
    for at, (lay, week) in enumerate(zip(lays, task.calendar, strict=True)):
        if week.blocked != (lay.kind == "blocked"):
            return f"Calendar week {at + 1} is blocked and holds something, or it is open and holds nothing."
        if (lay.week == 0) != (lay.kind in ("blocked", "free", "extra lighter")):
            return f"Calendar week {at + 1} says two things."
        if (lay.kind == "repeat" and lay.week != begun) or (lay.kind == "week" and lay.week <= begun):
            return f"Calendar week {at + 1} does not say rightly whether its week is repeated."
        if lay.kind == "free" and (begun or not rules.on("start later")):
            return f"Calendar week {at + 1} is free after the cycle began."
        if lay.kind == "extra lighter" and not _extra_may_stand(task, lays, at, begun):
            return f"The extra lighter calendar week {at + 1} does not stand between working weeks."
        begun = lay.week or begun
    return ""


def breaches(task: Task, lays: tuple[Lay, ...]) -> tuple[Breach, ...]:
    """Every rule that is broken, whether switched on or not."""
    found = [*_places(task, lays), *_runs(task, lays), *_loads(task, lays)]
    return tuple(sorted(found, key=lambda breach: (breach.at, breach.rule)))


def cost_of(task: Task, lays: tuple[Lay, ...]) -> int:
    """What a plan costs without the prices of broken rules, counted anew."""
    return sum(cost for _, _, cost in costs_of(task, lays))


def costs_of(task: Task, lays: tuple[Lay, ...]) -> tuple[tuple[str, int, int], ...]:
    """The costs one by one: for what, week of the cycle or (where there is none) index of the calendar week
    from 0, and how much. For what: ``left out``, ``repeated``, ``level``, ``meet on the way``,
    ``extra lighter``, ``start later``, ``spread``, ``test rested``. Only what costs something."""
    rules, level_costs = task.rules, dict(task.rules.levels)
    found: list[tuple[str, int, int]] = []
    times = dict.fromkeys(range(1, task.done + 1), 1)
    for at, (lay, here) in enumerate(zip(lays, task.calendar, strict=True)):
        if lay.kind == "extra lighter":
            found.append(("extra lighter", at, rules.extra_cost))
        elif lay.kind == "free":
            found.append(("start later", at, rules.free_cost))
        if not lay.week:
            continue
        week = task.template[lay.week - 1]
        times[lay.week] = times.get(lay.week, 0) + 1
        if times[lay.week] > 1:
            cheap = min(rules.repeat_after_gap_cost, week.repeat_cost)
            found.append(("repeated", lay.week, cheap if here.after_gap else week.repeat_cost))
        if week.role == "load":
            if _light(task, at, lay):
                found.append(("meet on the way", lay.week, rules.meet_cost))
            else:
                found.append(("level", lay.week, level_costs[lay.level_permille]))
        elif week.role == "test" and here.cap_permille < 1000 and rules.on("test rested"):
            found.append(("test rested", lay.week, rules.test_in_return_cost))
    first = min(times)
    gone = [week for week in task.template if week.number not in times]
    found += [("left out", week.number, week.drop_cost) for week in gone]
    if rules.on("spread"):
        found += [
            ("spread", week, rules.side_by_side_cost) for week in _side_by_side(task, lays, times, first)
        ]
    return tuple(item for item in found if item[2])


def loads_before(task: Task, lays: tuple[Lay, ...]) -> tuple[tuple[int, int], ...]:
    """Before each calendar week: lifts and heavy lifts of the last working week, less for blocked weeks."""
    found: list[tuple[int, int]] = []
    lifts, heavy = task.start_load
    for at, lay in enumerate(lays):
        found.append((lifts, heavy))
        if lay.kind == "blocked":
            lifts, heavy = (load * task.rules.kept_permille // 1000 for load in (lifts, heavy))
        elif _works(task, at, lay):
            lifts, heavy = work(task, lay)
    return tuple(found)


def work(task: Task, lay: Lay) -> tuple[int, int]:
    """Lifts and heavy lifts of a week of the cycle at its level."""
    week = task.template[lay.week - 1]
    return week.lifts * lay.level_permille // 1000, week.heavy_lifts * lay.level_permille // 1000


def most_work(task: Task, lay: Lay, before: tuple[int, int]) -> tuple[int, int]:
    """The most lifts and heavy lifts that a working week may have behind such a load."""
    rules, step = task.rules, written_steps(task.template)[lay.week - 1]
    lifts, heavy = (
        load + max(load * rise // 1000, least, written)
        for load, rise, least, written in zip(
            before, rules.rise_permille, rules.rise_least, step, strict=True
        )
    )
    return lifts, heavy


def _extra_may_stand(task: Task, lays: tuple[Lay, ...], at: int, begun: int) -> bool:
    if not task.rules.on("extra lighter") or not begun:
        return False
    if task.calendar[at].meets:
        return True
    first = at - task.rules.extra_after
    if first < 0 or not all(_works(task, number, lays[number]) for number in range(first, at)):
        return False
    after = lays[at + 1]
    light = task.calendar[at + 1].meets and task.rules.on("meet on the way")
    return after.kind == "blocked" or (_working(task, after) and not light)


def _counts_as_meet(task: Task, lay: Lay) -> bool:
    return task.rules.on("meet on the way") and "meet on the way" not in lay.broken


def _working(task: Task, lay: Lay) -> bool:
    return lay.week > 0 and task.template[lay.week - 1].role == "load"


def _light(task: Task, at: int, lay: Lay) -> bool:
    """Whether a working week is made light for a further meet."""
    level = task.rules.meet_level_permille
    return bool(task.calendar[at].meets) and lay.level_permille <= level and _counts_as_meet(task, lay)


def _works(task: Task, at: int, lay: Lay) -> bool:
    return _working(task, lay) and not _light(task, at, lay)


def _places(task: Task, lays: tuple[Lay, ...]) -> Iterable[Breach]:
    template, weeks = task.template, len(lays)
    done = {lay.week for lay in lays} | set(range(1, task.done + 1))
    tail = last_weeks(template, task.rules.last_weeks)
    for at, lay in enumerate(lays):
        counted = weeks - at <= tail
        right = lay.week == len(template) - (weeks - 1 - at) if counted else lay.week <= len(template) - tail
        if lay.kind != "blocked" and not right:
            yield Breach("from the meet", at)
    for week in template:
        times = [at for at, lay in enumerate(lays) if lay.week == week.number]
        if week.number not in done:
            if not week.may_drop:
                yield Breach("kept", weeks - 1)
            continue
        first = 0 if week.number <= task.done else 1  # of its times here the first that repeats it
        if not week.may_repeat:
            yield from (Breach("once", at) for at in times[first:])
        yield from (Breach("twice", at) for at in times[first + 1 :])


def _runs(task: Task, lays: tuple[Lay, ...]) -> Iterable[Breach]:
    most = max(task.rules.most_in_a_row, longest_run(task.template))
    run = 0
    for at, lay in enumerate(lays):
        run = run + 1 if _works(task, at, lay) else 0
        if run and task.calendar[at].meets:
            yield Breach("meet on the way", at)
        if run > most:
            yield Breach("lighter week", at)


def _loads(task: Task, lays: tuple[Lay, ...]) -> Iterable[Breach]:
    for at, (lay, before) in enumerate(zip(lays, loads_before(task, lays), strict=True)):
        if not _works(task, at, lay):
            continue
        if lay.level_permille > task.calendar[at].cap_permille:
            yield Breach("return", at)
        names = ("rise of lifts", "rise of heavy lifts")
        for rule, now, most in zip(names, work(task, lay), most_work(task, lay, before), strict=True):
            if now > most:
                yield Breach(rule, at, times_over(now - most, most))


def _side_by_side(task: Task, lays: tuple[Lay, ...], times: dict[int, int], first: int) -> Iterable[int]:
    """Weeks of the cycle, after the first that is done, that are changed beside a changed one."""
    after_gap: dict[int, bool] = {}
    for lay, here in zip(lays, task.calendar, strict=True):
        if lay.kind == "repeat":
            after_gap.setdefault(lay.week, here.after_gap)  # the first time it is repeated counts
    for number in range(2, len(task.template) + 1):
        now, before = times.get(number, 0), times.get(number - 1, 0)
        if number > first and now != 1 and before != 1 and not (now > 1 and after_gap[number]):
            yield number
