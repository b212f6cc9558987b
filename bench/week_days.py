"""Weeks on lifters' days: how good the quick answer is, how long it and its proof take, and a whole squad."""

import statistics
import time
from collections.abc import Iterator
from importlib.resources import files
from random import Random

from bench.figures import Figure, at_most, ms, time_s
from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Week
from meetward.fit.week_days import DaysFitter
from meetward.fit.week_days_fitted import TrainingDay, WeekDays
from meetward.notation.reader import read

TITLE = "(w) Weeks on days: 24 template weeks, 2 to 5 days of 45 to 120 minutes"

CASES = 400
LIFTERS = 1_000
WEEKS = 14
WORKERS = 2


def run() -> Iterator[Figure]:
    """400 cases quickly and proven; 1,000 lifters cold and warm."""
    catalogue, weeks = shipped(), _weeks()
    quick_s: list[float] = []
    proof_s: list[float] = []
    gaps: list[int] = []
    near = proven = 0
    random = Random(11)
    for number in range(CASES):
        fitter = DaysFitter(catalogue)
        asked = WeekDays(random.choice(weeks), _days(random, 2 + number % 4, random.random() < 0.5))
        # Taking the week apart is done once for all lifters, so it is not counted here.
        fitter.prepare(asked)
        start = time.process_time()
        quick = fitter.fit(asked)
        quick_s.append(time.process_time() - start)
        start = time.process_time()
        best = fitter.prove(asked)
        proof_s.append(time.process_time() - start)
        proven += best.proof.known == "proven"
        gap = best.proof.bound - quick.proof.score
        gaps.append(gap)
        near += gap <= max(best.proof.bound, 1) * 0.01
    yield at_most(f"quick answer, processor time, 95 of 100 of {CASES} cases", _p95(quick_s), 0.1)
    yield Figure("    median", ms(statistics.median(quick_s)))
    share = near / CASES
    yield Figure("within 1 % of the best there is", f"{share:.1%}", "at least 95 %", share >= 0.95)
    yield Figure("    the best itself", f"{gaps.count(0) / CASES:.1%}")
    yield Figure("    furthest from it", f"{max(gaps)} points")
    yield Figure("proven", f"{proven} of {CASES}", "all", proven == CASES)
    yield Figure("    the proof, median", ms(statistics.median(proof_s)))
    yield Figure("    the proof, 95 of 100", ms(_p95(proof_s)))
    yield Figure("    as many times the quick answer", f"{sum(proof_s) / sum(quick_s):.1f} times")
    many = _squad(weeks[:WEEKS])
    fitter = DaysFitter(catalogue)
    cold = time_s(lambda: fitter.fit_many(many, WORKERS))
    yield at_most(f"{LIFTERS:,} lifters, {WEEKS} weeks, cold, {WORKERS} processes", cold, 120)
    yield Figure("    distinct cases", f"{fitter.cases:,}")
    yield at_most("    again, warm", time_s(lambda: fitter.fit_many(many, WORKERS)), 1)


def _weeks() -> list[Week]:
    catalogue = shipped()
    texts = (
        (files("meetward.demo") / name).read_text(encoding="utf-8")
        for name in ("cycle.txt", "cycle_before.txt")
    )
    return [week for text in texts for _, _, week in read(text, catalogue).cycle.weeks()]


def _days(random: Random, number: int, alike: bool) -> tuple[TrainingDay, ...]:
    minutes = random.choice(range(45, 121, 5))
    return tuple(
        TrainingDay(day, minutes if alike else random.choice(range(45, 121, 5)))
        for day in sorted(random.sample(range(7), number))
    )


def _squad(weeks: list[Week]) -> list[WeekDays]:
    """Lifters with any 2 to 5 days of the week and one of five lengths."""
    random, many = Random(3), []
    for _ in range(LIFTERS):
        minutes = random.choice((60, 70, 80, 90, 105))
        days = sorted(random.sample(range(7), random.randint(2, 5)))
        many += [WeekDays(week, tuple(TrainingDay(day, minutes) for day in days)) for week in weeks]
    return many


def _p95(seconds: list[float]) -> float:
    return sorted(seconds)[int(len(seconds) * 0.95)]
