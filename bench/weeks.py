"""Dates: the cheapest plan, its speed, and no difference from a general-purpose solver and the check."""

import statistics
from collections.abc import Iterator
from random import Random

import msgspec

from bench.figures import Figure, at_least, ms, time_s
from bench.weeks_cases import random_rules, random_task
from bench.weeks_model import cheapest_cost
from meetward.fit.week_rules import WeekRules
from meetward.fit.weeks import _fitted
from meetward.fit.weeks_check import breaches, cost_of, malformed
from meetward.fit.weeks_search import cheapest
from meetward.fit.weeks_task import Task

TITLE = "(g) Dates: 14 weeks of a cycle onto 4 to 28 of a calendar"

SOLVER_LIMIT_S = 20.0
CHECKED = 10_000
COMPARED = 500


def run() -> Iterator[Figure]:
    """Time 500 random calendars; compare with the solver on whole cycles and on 500 smaller ones."""
    random = Random(2027)
    tasks = [random_task(random, 14, weeks) for weeks in range(4, 29) for _ in range(20)]
    for name, work, aim_s in (
        ("the cheapest plan", lambda task: cheapest(task, want=1), 0.005),
        ("the cheapest plan and the runner-up", cheapest, None),
        ("the whole answer with its certificate", _fitted.__wrapped__, None),
    ):
        # The best of three, so that other work on the machine is not measured with it.
        times = sorted(
            min(time_s(lambda task=task, work=work: work(task)) for _ in range(3)) for task in tasks
        )
        p95_s = times[len(times) * 95 // 100]
        yield Figure(f"{name}, median", ms(statistics.median(times)))
        aim = (f"under {ms(aim_s)}", p95_s < aim_s) if aim_s else ("", None)
        yield Figure("    95 of 100 are under", ms(p95_s), *aim)
        yield Figure("    slowest", ms(times[-1]))
    yield from against_the_solver(random)
    yield from smaller_cases()
    wrong = sum(not holds(task) for task in large_cases())
    yield Figure(
        f"of {CHECKED:,} large cases, plans that break a rule or their price",
        str(wrong),
        "0",
        not wrong,
        wrong > 0,
    )


def against_the_solver(random: Random) -> Iterator[Figure]:
    """Medians over whole cycles; where the solver is cut off its time counts as the limit."""
    ours, theirs, undecided, wrong = [], [], 0, 0
    for weeks in (6, 8, 10, 12, 14, 16, 18):
        task = random_task(random, 14, weeks)
        answers: list[int | None] = []

        def solve(task: Task = task, answers: list[int | None] = answers) -> None:
            answers.append(cheapest_cost(task, SOLVER_LIMIT_S))

        ours.append(time_s(lambda task=task: cheapest(task, want=1)))
        try:
            theirs.append(time_s(solve))
        except TimeoutError:
            theirs.append(SOLVER_LIMIT_S)
            undecided += 1
            continue
        best = cheapest(task, want=1)
        wrong += (best[0].cost if best else None) != answers[0]
    yield Figure("a general-purpose solver, 14 weeks onto 6 to 18, median", ms(statistics.median(theirs)))
    yield Figure(f"    of {len(ours)} cut off at {SOLVER_LIMIT_S:.0f} s", str(undecided))
    yield at_least(
        "    slower by (medians of one run)", statistics.median(theirs) / statistics.median(ours), 300
    )
    yield Figure("    other optima", str(wrong), "0", not wrong, wrong > 0)


def smaller_cases() -> Iterator[Figure]:
    """Random rules, up to 8 weeks onto up to 12: the same optimum."""
    wrong = impossible = 0
    for seed in range(COMPARED):
        random = Random(seed)
        weeks = random.randint(2, 8)
        rules = random_rules(random)
        # The model has no other form of this rule.
        rules = msgspec.structs.replace(rules, off=tuple(rule for rule in rules.off if rule != "twice"))
        task = random_task(random, weeks, random.randint(2, min(12, 2 * weeks)), rules)
        best, other = cheapest(task, want=1), cheapest_cost(task)
        wrong += (best[0].cost if best else None) != other
        impossible += other is None
    yield Figure(
        f"of {COMPARED} smaller cases, other optima than the solver's", str(wrong), "0", not wrong, wrong > 0
    )
    yield Figure("    cases among them that no plan fits", str(impossible))


def large_cases() -> Iterator[Task]:
    """Whole cycles of all lengths; every other one with rules of its own."""
    for seed in range(CHECKED):
        random = Random(seed)
        weeks = random.randint(8, 16)
        rules = random_rules(random) if seed % 2 else WeekRules()
        yield random_task(random, weeks, random.randint(4, min(28, 2 * weeks)), rules)


def holds(task: Task) -> bool:
    """Whether the plans obey every rule and cost what they say, by the check that is written apart."""
    return all(
        not malformed(task, path.lays)
        and not any(task.rules.on(breach.rule) for breach in breaches(task, path.lays))
        and cost_of(task, path.lays) == path.cost
        for path in cheapest(task)
    )
