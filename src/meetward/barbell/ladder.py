"""The ladder: warm-up sets from the empty bar to the first work set, found as an optimum.

A step of the ladder is a weight *with its discs*: 60 kg as 20 a side leads on to 100 kg with one disc more,
as 15 + 5 it does not. Of all ladders over the candidate steps the cheapest wins. A ladder costs

- for each jump, the square of its distance from the wanted jump;
- for each disc a side that goes on, and more for one that comes off;
- for each step, and for each light disc a side, because a plain weight warms up as well.

Limits come first: the longest jump, and a last step of 80 to 95 % of the work weight. A ladder that breaks
one is chosen only where the discs on hand allow no other, and then the one that breaks it least.

Every figure is common practice, no source: bar x 5 twice, then about 50 % x 3, 65 % x 3, 80 % x 2 and
90 % x 1 of the first work weight, jumps that shrink as the bar gets heavier, fewer steps when the work weight
is under twice the bar, and about half of the work weight as the start of the second lift of the day.
"""

from functools import lru_cache
from itertools import groupby, pairwise

import msgspec
import numpy as np
from numpy.typing import NDArray

from meetward.barbell.discs import BarAndDiscs, Disc, SidePlan, fewest_discs, loadable, plan
from meetward.units import show_kg, show_percent
from meetward.why import Why

BAR_SETS = 2
BAR_REPS = 5
REPS_UP_TO_PERMILLE = ((725, 3), (850, 2), (1_000, 1))
"""Reps of a step by its share of the work weight: the custom's 65, 80 and 90 %, parted at the middles."""

WANTED_JUMP_PERMILLE = 291
WANTED_JUMP_SHRINKS_PERMILLE = 228
"""Wanted jump from a step of share s: 291 - 0.228 s permille of the work weight. The straight line (least
squares) through the custom's jumps from a bar of a quarter of the work weight: 25, 50, 65, 80, 90, 100 %."""

SHORT_JUMP_OF_BAR = 4
"""No wanted jump is shorter than a quarter of the bar: less is not worth a set."""

LONGEST_JUMP_PERMILLE = 350
LONGEST_JUMP_DAG = 6_000
LAST_STEP_PERMILLE = (800, 950)
SECOND_LIFT_START_PERMILLE = 500

LIGHT_WORK_PERMILLE = 700
LIGHTEST_WORK_PERMILLE = 350
"""Work under 70 % of the best is reached in wider jumps: times 70 % over its intensity, at most twice."""

LIGHT_DISC_OF_WORK = 20
TINY_DISC_OF_WORK = 80
NEVER_LIGHT_DAG = 1_000
"""A disc under a twentieth of the work weight is light; under an eightieth it is too small for a warm-up."""

MOST_CHOICES = 400
"""Steps to choose from before they are thinned out; the usual racks leave under 160 up to 300 kg."""

PUT_ON, TAKE_OFF, LIGHT_ON, STEP = 400, 1_200, 600, 800
"""Costs in squared permille of the work weight: a disc on costs as much as a jump 2 % off its wanted size."""

_LIMIT_BROKEN = 10**8
"""Cost of each permille beyond a limit: more than all other costs of a ladder together."""

_NO_WAY = 10**15


class Step(msgspec.Struct, frozen=True):
    """One warm-up set.

    dag : bar, collars and discs. [10 g]
    reps : repetitions; of a complex, rounds.
    plan : the discs on one side.
    """

    dag: int
    reps: int
    plan: SidePlan


class Ladder(msgspec.Struct, frozen=True):
    """Warm-up sets in order, without the first work set; empty where none is needed.

    Two sets with the empty bar are two steps.
    """

    steps: tuple[Step, ...]
    why: Why


def ladder(
    kit: BarAndDiscs,
    first_work_dag: int,
    *,
    reps_of_work: int = 3,
    second_lift_of_the_day: bool = False,
    intensity_permille: int | None = None,
    max_steps: int = 6,
) -> Ladder:
    """The warm-up ladder to the first work set: the cheapest of all, by the costs at the head of this module.

    first_work_dag : what the first work set weighs; the kit has to make it. [10 g]
    reps_of_work : reps of the first work set; above the bar no step has more than one rep more.
    second_lift_of_the_day : start at about half of the work weight in place of the empty bar.
    intensity_permille : work weight over the best, where known: light work needs fewer steps.
    max_steps : most steps above the empty bar. When they are few, the longest jump gives way.
    Raises ValueError for a weight that the kit does not make, and for numbers that make no sense.
    """
    work = plan(kit, first_work_dag)
    if work is None:
        raise ValueError(
            f"This bar and these discs do not make {show_kg(first_work_dag)} kg; round the load first."
        )
    if reps_of_work < 1 or max_steps < 0:
        raise ValueError("A work set has at least one rep, and a ladder cannot have fewer steps than none.")
    if intensity_permille is not None and intensity_permille <= 0:
        raise ValueError("The intensity of the work set has to be more than nothing.")
    # Clipped before the cache: everything from 70 % up has the same ladder.
    intensity = min(
        max(intensity_permille or LIGHT_WORK_PERMILLE, LIGHTEST_WORK_PERMILLE), LIGHT_WORK_PERMILLE
    )
    return _ladder(kit, work, min(reps_of_work, 3), second_lift_of_the_day, intensity, max_steps)


@lru_cache(maxsize=4096)
def _ladder(
    kit: BarAndDiscs, work: SidePlan, reps_of_work: int, second_lift: bool, intensity: int, max_steps: int
) -> Ladder:
    bar = Step(kit.bar_dag, BAR_REPS, SidePlan(kit.bar_dag))
    plans = [] if work.total_dag == kit.bar_dag else _cheapest(kit, work, second_lift, intensity, max_steps)
    steps = tuple(Step(p.total_dag, _reps(p, work, reps_of_work), p) if p.discs else bar for p in plans)
    if not second_lift:
        steps = (bar,) * BAR_SETS + steps
    return Ladder(steps, _why(steps, work))


def candidates(kit: BarAndDiscs, work: SidePlan) -> list[SidePlan]:
    """The steps that a ladder to ``work`` may take: the empty bar first, then by weight.

    Up to 95 % of the work weight; heaviest discs inside; at no moment of the loading more than one disc a
    side above the fewest; at most one light disc a side and no tiny one, since finer steps are not felt.
    Where none of these lies from 80 to 95 %, also one for each percent there: the one with the fewest discs.

    A rack of many odd discs leaves thousands; above ``MOST_CHOICES`` it is one for each percent throughout.
    """
    low, high = LAST_STEP_PERMILLE
    least_dag, most_dag = -(-low * work.total_dag // 1_000), high * work.total_dag // 1_000
    found = [SidePlan(kit.bar_dag)]

    def put_on(side: tuple[Disc, ...], side_dag: int, first_kind: int, light: int) -> None:
        for kind in range(first_kind, len(kit.discs)):
            disc = kit.discs[kind]
            if disc.dag * TINY_DISC_OF_WORK < work.total_dag or len(found) > MOST_CHOICES:
                return
            now_light, now_dag = light + is_light(disc, work), side_dag + disc.dag
            total_dag = kit.bar_dag + kit.collars_dag + 2 * now_dag
            if total_dag > most_dag or now_light > 1 or side.count(disc) == disc.pairs:
                continue
            fewest = fewest_discs(kit, now_dag)
            if fewest is not None and len(side) <= fewest:
                found.append(SidePlan(total_dag, (*side, disc), kit.collars_dag))
                put_on((*side, disc), now_dag, kind, now_light)

    put_on((), 0, 0, 0)
    if len(found) > MOST_CHOICES:
        return [found[0], *_one_each_percent(kit, work, 0, most_dag)]
    if not any(least_dag <= p.total_dag <= most_dag for p in found):
        found += _one_each_percent(kit, work, least_dag, most_dag)
    return sorted(found, key=lambda p: (p.total_dag, len(p.discs), p.discs_dag))


def _one_each_percent(kit: BarAndDiscs, work: SidePlan, least_dag: int, most_dag: int) -> list[SidePlan]:
    """Of each percent of the work weight, the weight with the fewest discs; of equals the lighter."""

    def discs_a_side(dag: int) -> int:
        return fewest_discs(kit, (dag - kit.bar_dag - kit.collars_dag) // 2) or 0

    weights = (dag for dag in loadable(kit)[1:] if least_dag <= dag <= most_dag)
    by_percent = groupby(weights, key=lambda dag: 100 * dag // work.total_dag)
    plans = (plan(kit, min(some, key=discs_a_side)) for _, some in by_percent)
    return [p for p in plans if p]


def is_light(disc: Disc, work: SidePlan) -> bool:
    """Whether a disc weighs less than a twentieth of the work weight; from 10 kg up none is light."""
    return disc.dag * LIGHT_DISC_OF_WORK < work.total_dag and disc.dag < NEVER_LIGHT_DAG


def _cheapest(
    kit: BarAndDiscs, work: SidePlan, second_lift: bool, intensity: int, max_steps: int
) -> list[SidePlan]:
    """Steps of the cheapest ladder above the empty bar (of a second lift: all), a shortest path in layers.

    Layer n holds the cheapest way to each candidate in n steps; of equally cheap ladders the shorter wins.
    """
    plans = candidates(kit, work)
    cost = _jump_costs([*plans, work], intensity)
    onward, finish = cost[:-1, :-1], cost[:-1, -1] + _last_step_costs(plans, work)
    reached = _start_costs(plans, work, second_lift)
    came_from: list[NDArray[np.intp]] = []
    best, path = _NO_WAY, list[int]()
    for _ in range(max_steps if second_lift else max_steps + 1):
        ended = reached + finish
        if ended.min() < best:
            best, path = int(ended.min()), [int(ended.argmin())]
            for origin in reversed(came_from):
                path.append(int(origin[path[-1]]))
        ways = reached[:, None] + onward
        came_from.append(ways.argmin(axis=0))
        reached = np.minimum(ways.min(axis=0), _NO_WAY)
    return [plans[i] for i in reversed(path) if second_lift or plans[i].discs]


def _jump_costs(plans: list[SidePlan], intensity: int) -> NDArray[np.int64]:
    """``cost[i, j]`` of going from plan i to plan j. The first is the empty bar, the last the work set."""
    work = plans[-1]
    dag = np.array([p.total_dag for p in plans], dtype=np.int64)
    jump_dag = dag[None, :] - dag[:, None]
    share = 1_000 * dag // work.total_dag
    wanted = WANTED_JUMP_PERMILLE - WANTED_JUMP_SHRINKS_PERMILLE * share // 1_000
    wanted = np.maximum(wanted * LIGHT_WORK_PERMILLE // intensity, share[0] // SHORT_JUMP_OF_BAR)
    off_wanted = 1_000 * jump_dag // work.total_dag - wanted[:, None]

    widest_dag = work.total_dag * LONGEST_JUMP_PERMILLE * LIGHT_WORK_PERMILLE // intensity // 1_000
    beyond_dag = np.maximum(0, jump_dag - min(widest_dag, LONGEST_JUMP_DAG))
    beyond = -(-1_000 * beyond_dag // work.total_dag)

    count = np.array([len(p.discs) for p in plans])
    kept = _kept(plans)
    moves = PUT_ON * (count[None, :] - kept) + TAKE_OFF * (count[:, None] - kept)
    step = np.array([_step_cost(p, work) for p in plans[:-1]] + [0])
    return np.where(jump_dag > 0, off_wanted**2 + moves + step[None, :] + _LIMIT_BROKEN * beyond, _NO_WAY)


def _kept(plans: list[SidePlan]) -> NDArray[np.int64]:
    """``kept[i, j]``: discs a side that stay on from plan i to plan j, the common inner part."""
    kinds = {disc: kind for kind, disc in enumerate({d for p in plans for d in p.discs}, start=1)}
    most = max(len(p.discs) for p in plans)
    sides = np.array([[kinds[d] for d in p.discs] + [0] * (most - len(p.discs)) for p in plans])
    same = np.ones((len(plans), len(plans)), dtype=bool)
    kept = np.zeros(same.shape, dtype=np.int64)
    for disc in sides.T:
        same &= (disc[:, None] == disc[None, :]) & (disc > 0)
        kept += same
    return kept


def _step_cost(step: SidePlan, work: SidePlan) -> int:
    return STEP + LIGHT_ON * sum(is_light(disc, work) for disc in step.discs)


def _last_step_costs(plans: list[SidePlan], work: SidePlan) -> NDArray[np.int64]:
    """Cost of each plan as the last step: none from 80 to 95 % of the work weight."""
    dag = np.array([p.total_dag for p in plans], dtype=np.int64)
    low, high = (share * work.total_dag for share in LAST_STEP_PERMILLE)
    outside = np.maximum(0, np.maximum(low - 1_000 * dag, 1_000 * dag - high))
    return _LIMIT_BROKEN * -(-outside // work.total_dag)


def _start_costs(plans: list[SidePlan], work: SidePlan, second_lift: bool) -> NDArray[np.int64]:
    """Cost of beginning with each plan: with the empty bar, or near half of the work weight."""
    if not second_lift:
        return np.array([0] + [_NO_WAY] * (len(plans) - 1), dtype=np.int64)
    return np.array(
        [
            (1_000 * p.total_dag // work.total_dag - SECOND_LIFT_START_PERMILLE) ** 2
            + PUT_ON * len(p.discs)
            + _step_cost(p, work)
            for p in plans
        ],
        dtype=np.int64,
    )


def _reps(step: SidePlan, work: SidePlan, reps_of_work: int) -> int:
    custom = next(
        reps for up_to, reps in REPS_UP_TO_PERMILLE if 1_000 * step.total_dag <= up_to * work.total_dag
    )
    return min(custom, reps_of_work + 1)


def _why(steps: tuple[Step, ...], work: SidePlan) -> Why:
    """Weights, last step and disc changes, in words."""
    first_work = f"{show_kg(work.total_dag)} kg"
    if not steps:
        return Why(f"No warm-up set is needed before {first_work}.", source=_SOURCE)
    if not work.discs:
        return Why(
            f"The first work set is the empty bar of {first_work}, and so is the warm-up.", source=_SOURCE
        )
    bars = sum(not step.plan.discs for step in steps)
    words = ["the empty bar" + (" twice" if bars == 2 else "")] if bars else []
    words += [show_kg(step.dag) for step in steps if step.plan.discs]
    listed = " and ".join([", ".join(words[:-1]), words[-1]] if words[1:] else words)
    unit = " kg" if steps[-1].plan.discs else ""
    on = off = 0
    for before, after in pairwise([*(step.plan for step in steps), work]):
        comes_off, goes_on = before.changes_to(after)
        on, off = on + goes_on, off + comes_off
    last = show_percent(round(100 * steps[-1].dag / work.total_dag) * 10)
    return Why(
        f"Up to {first_work}: {listed}{unit}. The last warm-up set is {last} % of the first work set.",
        inputs=(
            ("first work set", first_work),
            ("disc changes a side on the way", f"{on} on, {off} off"),
        ),
        rule="jumps that shrink as the bar gets heavier, with the fewest disc changes and plain weights",
        source=_SOURCE,
    )


_SOURCE = "common practice, no source"
