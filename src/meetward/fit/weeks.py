"""Fit the weeks of a cycle to a lifter's calendar: the cheapest plan that obeys the coach's rules.

The rules are data (`week_rules`), the search is exact (`weeks_search`), and every plan is looked at again by
rules written apart from it (`weeks_check`) before it is given out.
"""

from collections.abc import Iterable
from datetime import date
from functools import lru_cache
from itertools import combinations

import msgspec

from meetward.fit.week_rules import BREAKABLE, RULE, WeekRules, rule_words, usable
from meetward.fit.weeks_calendar import LifterCalendar, calendar_problems, calendar_weeks, day_words
from meetward.fit.weeks_check import breaches, cost_of, costs_of, malformed
from meetward.fit.weeks_plan import Clash, CostItem, FittedRole, FittedWeek, FittedWeeks, LeastBad, Relief
from meetward.fit.weeks_search import cheapest
from meetward.fit.weeks_task import Lay, Path, Task
from meetward.fit.weeks_template import TemplateWeek, last_weeks
from meetward.fit.weeks_words import breach_words, cost_words, reasons, week_why
from meetward.problem import stops

MOST_LEAST_BAD = 3
DEFAULT_RULES = WeekRules()


def fit_weeks(
    template: Iterable[TemplateWeek],
    calendar: LifterCalendar,
    rules: WeekRules = DEFAULT_RULES,
    today: date | None = None,
) -> FittedWeeks:
    """The cheapest plan with its certificate, or the rules that collide and the least bad plans.

    template : weeks up to the meet week, from `weeks_template.template_of`.
    today : a meet before it is refused; None when that does not matter.

    Lifters who share a calendar, a template and a start are solved once. Raises ValueError for rules that
    cannot be answered exactly (`week_rules.usable`); nothing else that a person types raises anything.
    """
    usable(rules)
    weeks = tuple(template)
    problems = calendar_problems(calendar, len(weeks), today)
    if stops(problems):
        return FittedWeeks(possible=False, problems=problems)
    fitted = _fitted(task_of(weeks, calendar, rules))
    return msgspec.structs.replace(fitted, problems=problems)


def task_of(template: tuple[TemplateWeek, ...], calendar: LifterCalendar, rules: WeekRules) -> Task:
    """The numbers of a fit. The calendar has to be free of problems that stop.

    Without a known load the lifter comes from the last working week that is done, or ready for the first.
    """
    working = [week for week in template if week.role == "load"]
    behind = [week for week in working if week.number <= calendar.weeks_done]
    last = behind[-1:] or working[:1]
    ready = (last[0].lifts, last[0].heavy_lifts) if last else (0, 0)
    known = (calendar.last_lifts, calendar.last_heavy_lifts)
    lifts, heavy = (mine if mine is not None else its for mine, its in zip(known, ready, strict=True))
    return Task(template, calendar_weeks(calendar, rules), rules, (lifts, heavy), calendar.weeks_done)


@lru_cache(maxsize=4096)
def _fitted(task: Task) -> FittedWeeks:
    best, *others = cheapest(task) or (None,)
    if best is None:
        return FittedWeeks(possible=False, clash=clash_of(task), least_bad=least_bad(task))
    _checked(task, best)
    runner_up: Path | None = others[0] if others else None
    if runner_up is not None:
        _checked(task, runner_up)
    return FittedWeeks(
        possible=True,
        weeks=_weeks(task, best.lays),
        cost=best.cost,
        costs=tuple(
            CostItem(what, cost, cost_words(task, what, which))
            for what, which, cost in costs_of(task, best.lays)
        ),
        runner_up_cost=runner_up.cost if runner_up else None,
        runner_up=_weeks(task, runner_up.lays) if runner_up else (),
        reliefs=reliefs(task, best.cost),
        reasons=reasons(task, best.lays),
    )


def reliefs(task: Task, cost: int) -> tuple[Relief, ...]:
    """Rules without which a plan would cost less than ``cost``, the cheapest first."""
    found: list[Relief] = []
    for rule in BREAKABLE:
        if not cost or not task.rules.on(rule):
            continue
        other = without(task, rule)
        paths = cheapest(other, want=1, below=cost)
        if paths:
            _checked(other, paths[0])
            said = f"Without the rule '{rule}' a plan would cost {paths[0].cost} instead of {cost}."
            found.append(Relief(rule, paths[0].cost, said, _weeks(other, paths[0].lays)))
    return tuple(sorted(found, key=lambda relief: relief.cost))


def clash_of(task: Task) -> Clash:
    """A smallest set of rules that collide: what is left when every rule that is not needed for the collision
    has been taken away. Called only where no plan obeys all rules."""
    left = [rule for rule in BREAKABLE if task.rules.on(rule)]
    before: list[str] = []
    while before != left:  # once more, because a rule that went may have freed another
        before = left
        for rule in before:
            fewer = [other for other in left if other != rule]
            if not cheapest(only(task, fewer), want=1):
                left = fewer
    return Clash(tuple(left), tuple(rule_words(rule, task.rules) for rule in left), _facts(task))


def least_bad(task: Task) -> tuple[LeastBad, ...]:
    """Up to three plans that break rules, the least bad first: those that break one kind of rule alone, by
    the price of what they break; where one is not enough, two kinds; and at last whatever it takes."""
    on = [rule for rule in BREAKABLE if task.rules.on(rule)]
    paths: list[Path] = []
    for number in (1, 2, len(on)):
        for given in combinations(on, number):
            paths += cheapest(task, {rule: RULE[rule].if_broken for rule in given}, want=1)
        if paths:
            break
    found: dict[tuple[str, ...], LeastBad] = {}
    for path in sorted(paths, key=lambda path: path.cost):
        plan = _broken_plan(task, path)
        found.setdefault(tuple(dict.fromkeys(rule for rule, _ in plan.broken)), plan)
    return tuple(found.values())[:MOST_LEAST_BAD]


def without(task: Task, *off: str) -> Task:
    """The same fit with rules switched off."""
    rules = msgspec.structs.replace(task.rules, off=tuple(dict.fromkeys((*task.rules.off, *off))))
    return msgspec.structs.replace(task, rules=rules)


def only(task: Task, rules: Iterable[str]) -> Task:
    """The same fit with no other breakable rules than these."""
    kept = set(rules)
    return without(task, *(rule for rule in BREAKABLE if rule not in kept))


def _checked(task: Task, path: Path) -> None:
    """Raise RuntimeError where a plan of the search does not hold: then this program is wrong."""
    broken = [breach for breach in breaches(task, path.lays) if task.rules.on(breach.rule)]
    fault = malformed(task, path.lays)
    if fault or broken or cost_of(task, path.lays) != path.cost:
        raise RuntimeError(
            f"The fit of dates contradicts its own check: {fault or broken or 'another cost'}."
        )


def _broken_plan(task: Task, path: Path) -> LeastBad:
    fault = malformed(task, path.lays)
    found = [breach for breach in breaches(task, path.lays) if task.rules.on(breach.rule)]
    cost = cost_of(task, path.lays)
    if fault or cost + sum(breach.times * RULE[breach.rule].if_broken for breach in found) != path.cost:
        raise RuntimeError(f"The fit of dates contradicts its own check: {fault or 'another cost'}.")
    broken = tuple(dict.fromkeys((breach.rule, breach_words(task, path.lays, breach)) for breach in found))
    return LeastBad(_weeks(task, path.lays), cost, broken, reasons(task, path.lays))


def _weeks(task: Task, lays: tuple[Lay, ...]) -> tuple[FittedWeek, ...]:
    found: list[FittedWeek] = []
    done = task.done
    for at, (lay, here) in enumerate(zip(lays, task.calendar, strict=True)):
        role: FittedRole = "lighter"
        if lay.week:
            role = task.template[lay.week - 1].role
        elif lay.kind == "free" or lay.kind == "blocked":
            role = lay.kind
        leans_on = done if lay.kind == "extra lighter" else None
        found.append(
            FittedWeek(
                here.monday, lay.week or None, lay.kind, role, lay.level_permille, leans_on,
                here.open_days, here.meets, here.free_days, lay.cost, week_why(task, lays, at),
            )
        )  # fmt: skip
        done = lay.week or done
    return tuple(found)


def _facts(task: Task) -> tuple[str, ...]:
    blocked = [week for week in task.calendar if week.blocked]
    room = len(task.calendar) - len(blocked)
    weeks = "more " if task.done else ""
    weeks += "week" if len(task.template) - task.done == 1 else "weeks"
    are = "is" if room == 1 else "are"
    said = [f"The cycle has {len(task.template) - task.done} {weeks}, and {room} {are} open until the meet."]
    said += [f"The week of {day_words(week.monday)} is blocked. {week.why_blocked}" for week in blocked]
    tail = last_weeks(task.template, task.rules.last_weeks)
    kept = [week.number for week in task.template[task.done :] if not week.may_drop]
    if len(kept) > room or tail > 1:
        said.append(
            f"Weeks not to be missed: {', '.join(map(str, kept))}; the last {tail} counted from the meet."
        )
    return tuple(said)
