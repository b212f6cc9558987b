"""What a lifter does with a restriction, a stiff position or a few minutes: exact answers and their speed."""

import random
import statistics
from collections.abc import Iterator
from itertools import combinations

import highspy

from bench.figures import Figure, at_most, median_s, ms, time_s
from meetward.catalogue.reading import shipped
from meetward.demo.club import cycle_text, squad
from meetward.fit.between_sets import Spot, between_sets, choose, spots, worth
from meetward.fit.recovery import MOST_DRILLS, MOST_HELD_S, Item, items, pack
from meetward.fit.regions import WORKING, needs
from meetward.fit.substitutes import Substitutes, substitutes
from meetward.lifter.restrictions import Limits, MissingKit, Restriction
from meetward.lifter.screen import Screen, Sides
from meetward.notation import read

TITLE = "(g) Restrictions, between-set work, recovery"
LIMITS = (
    Limits((Restriction("no overhead"),)),
    Limits((Restriction("no deep squat"),)),
    Limits((Restriction("no pulling from the floor"),)),
    Limits((), (MissingKit(("rack", "blocks")),)),
)
STIFF = Screen(knee_to_wall=Sides(8, 9.5), overhead_reach=False, thoracic_rotation=Sides(40, 55))


def run() -> Iterator[Figure]:
    """Replacements for the demo's lines, and both choices beside trying everything or a general solver."""
    catalogue = shipped()
    sessions = [each for _, _, each in read(cycle_text(), catalogue).cycle.sessions()]
    lines = [line for each in sessions for s in each.segments if s.kind == "lifts" for line in s.lines]
    people = squad(catalogue)[::6]
    jobs = [(line, who, limits) for line in lines for who in people for limits in LIMITS]
    yield Figure("lines x lifters x restrictions looked at", f"{len(jobs):,}")
    answers: list[Substitutes] = []
    cold = time_s(lambda: answers.extend(substitutes(*job, catalogue) for job in jobs))
    yield Figure("all of them, the first time; a line", f"{cold:.1f} s; {ms(cold / len(jobs))}")
    sample = random.Random(4).sample(jobs, 200)
    times = sorted(time_s(lambda job=job: substitutes(*job, catalogue)) for job in sample)
    yield Figure(
        "a line, median and 95th of 100",
        f"{ms(statistics.median(times))}, {ms(times[len(times) * 95 // 100])}",
    )
    touched = [answer for answer in answers if answer.clashes]
    left_out = sum(answer.options[0].line is None for answer in touched)
    yield Figure("lines touched, left out for want of anything", f"{len(touched):,}, {left_out:,}")

    plans = sorted(time_s(lambda each=each: between_sets(each, STIFF, catalogue)) for each in sessions)
    yield at_most("between-set work of a session, 95th of 100", plans[len(plans) * 95 // 100], 0.05)
    asked = needs(STIFF)
    found = [spots(each, asked, catalogue, Limits()) for each in sessions[:4]]
    yield Figure("drills and lines to choose from", ", ".join(str(len(each)) for each in found))
    ours = median_s(lambda: [choose(each, 3, 480) for each in found], 3)
    theirs = time_s(lambda: [_everything(each, 3, 480) for each in found])
    same = all(worth(choose(each, 3, 480)) == _everything(each, 3, 480) for each in found)
    yield Figure("the same by trying everything, times as long", f"{theirs / ours:.0f} x")
    yield Figure("worth as much", "all 4" if same else "NO", "all", same, not same)

    drills = [drill for drill in catalogue.drills.values() if "recovery" in drill.uses]
    choice = items(drills, asked, frozenset(WORKING["snatch"]), {}, {})
    minutes = (3, 8, 15, 30)
    ours = median_s(lambda: [pack(choice, each * 10, MOST_DRILLS) for each in minutes], 3)
    theirs = median_s(lambda: [_by_solver(choice, each * 10) for each in minutes], 3)
    same = all(
        sum(item.points for item in pack(choice, each * 10, MOST_DRILLS)) == _by_solver(choice, each * 10)
        for each in minutes
    )
    yield Figure(f"recovery for {len(choice)} choices, one selection", ms(ours / len(minutes)))
    yield Figure("the same by a general solver, times as long", f"{theirs / ours:.0f} x")
    yield Figure("worth as much", "all 4" if same else "NO", "all", same, not same)


def _everything(found: tuple[Spot, ...], most: int, seconds: int) -> int:
    best = 0
    for k in range(most + 1):
        for chosen in combinations(found, k):
            places, drills = {(s.segment, s.line) for s in chosen}, {s.drill for s in chosen}
            if len(places) == len(drills) == k and sum(s.seconds for s in chosen) <= seconds:
                best = max(best, worth(chosen))
    return best


def _by_solver(found: tuple[Item, ...], tenths: int) -> int:
    model = highspy.Highs()
    model.silent()
    model.setOptionValue("threads", 1)  # one pool of threads for all models of a run
    model.setOptionValue("mip_rel_gap", 0.0)
    take = [model.addBinary() for _ in found]
    pairs = list(zip(found, take, strict=True))
    model.addConstr(sum(item.tenths * x for item, x in pairs) <= tenths)
    model.addConstr(sum(take) <= MOST_DRILLS)
    for region in {item.region for item in found}:
        model.addConstr(sum(x for item, x in pairs if item.region == region) <= 1)
    for muscle in {muscle for item in found for muscle, _ in item.held}:
        held = [(dict(item.held).get(muscle, 0), x) for item, x in pairs]
        model.addConstr(sum(seconds * x for seconds, x in held if seconds) <= MOST_HELD_S)
    model.maximize(sum(item.points * x for item, x in pairs))
    return round(model.getInfo().objective_function_value)
