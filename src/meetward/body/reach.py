"""How deep a lifter gets: from standing down to the sought depth, and the joint that gives out first on the
way."""

from collections.abc import Sequence

import msgspec

from meetward.body.ranges import USUAL, Ranges
from meetward.body.segments import Body
from meetward.body.solve import Short, Solved, Sought, is_reached, solve
from meetward.body.whynot import JOINT_IN_WORDS

_STANDING_DEGREES = 80.0
_DEEPEST_DEGREES = -60.0
_GRID_DEGREES = 4.0
_HALVINGS = 10


class Reach(msgspec.Struct, frozen=True):
    """How deep it goes.

    reached : the sought depth is reached, and everything on the way to it.
    thigh_degrees : the deepest thigh over the horizontal that is reached; 0 is parallel.
    hip_over_knee_cm : the same as the hip joint's height over the knee joint. [cm]
    lean_degrees : the trunk's lean there.
    first : the joint that gives out first under that depth, with what the rest of the way needs at most.
    at : the position at that depth.
    why : sentences; empty where the sought depth is reached.
    """

    reached: bool
    thigh_degrees: float
    hip_over_knee_cm: float
    lean_degrees: float
    first: Short | None
    at: Solved
    why: tuple[str, ...] = ()


def reach(
    sought: Sought,
    body: Body,
    ranges: Ranges = USUAL,
    heel_cm: float | None = None,
    bar_kg: float | None = None,
) -> Reach:
    """Descend from standing to the depth of ``sought``, a squat of any kind.

    heel_cm : overrides the shoe's heel. [cm]
    Depth runs in steps of 4 degrees of the thigh and is then halved in to a hundredth of a degree. Because
    every single depth only gets easier with more ankle range, more range never ends higher.
    """
    if heel_cm is not None:
        sought = msgspec.structs.replace(sought, heel_cm=heel_cm)

    def at(thigh_degrees: float) -> Solved:
        return solve(_with_thigh(sought, thigh_degrees), body, ranges, bar_kg)

    depths, stop, good, bad = _descended(sought, body, ranges, bar_kg)
    if stop == len(depths):
        return _reach(True, good, at(good), None, ())
    if stop == 0:
        beginning = at(good)
        return _reach(False, good, beginning, _first(beginning, ()), beginning.why)
    beyond = at(bad)
    first = _first(beyond, [at(depth) for depth in depths[stop::2]])
    return _reach(False, good, at(good), first, _in_words(good, first, beyond))


def deepest(sought: Sought, body: Body, ranges: Ranges = USUAL, bar_kg: float | None = None) -> float | None:
    """The depth of ``reach``, or None where the sought depth is reached: several times as quick, because
    nothing is explained.

    The thigh over the horizontal. [degrees]
    """
    depths, stop, good, _ = _descended(sought, body, ranges, bar_kg)
    return None if stop == len(depths) else good


def _descended(
    sought: Sought, body: Body, ranges: Ranges, bar_kg: float | None
) -> tuple[list[float], int, float, float]:
    """Depths from standing to the goal, how many of them are reached, the deepest that is, and just beyond
    it.

    Where not even the first is reached, it is the deepest all the same.
    """
    goal = _thigh_sought(sought, body, ranges, bar_kg)

    def is_there(thigh_degrees: float) -> bool:
        return is_reached(_with_thigh(sought, thigh_degrees), body, ranges, bar_kg)

    depths = [_STANDING_DEGREES]
    while depths[-1] - _GRID_DEGREES > goal:
        depths.append(depths[-1] - _GRID_DEGREES)
    if goal < depths[-1]:
        depths.append(goal)
    stop = next((number for number, depth in enumerate(depths) if not is_there(depth)), len(depths))
    if stop == len(depths):
        return depths, stop, depths[-1], depths[-1]
    if stop == 0:
        return depths, stop, depths[0], depths[0]
    good, bad = depths[stop - 1], depths[stop]
    for _ in range(_HALVINGS):
        middle = (good + bad) / 2
        if is_there(middle):
            good = middle
        else:
            bad = middle
    return depths, stop, good, bad


def _first(beyond: Solved, further: Sequence[Solved]) -> Short | None:
    """The joint that gives out at the end of the way, with the most that the rest of the way needs of it."""
    if not beyond.short:
        return None
    first = beyond.short[0]
    same = [short for solved in further for short in solved.short if short.joint == first.joint]
    return max([first, *same], key=lambda short: short.needed)


def _in_words(thigh_degrees: float, first: Short | None, beyond: Solved) -> tuple[str, ...]:
    side = "over" if thigh_degrees >= 0 else "under"
    depth = f"with the thigh {abs(thigh_degrees):.0f} degrees {side} the horizontal"
    if first is None:
        return (f"It ends {depth}.", *beyond.why)
    name = JOINT_IN_WORDS.get(first.joint, first.joint)
    return (
        f"The {name} gives out first, {depth}: the way down needs {first.needed:.0f} degrees, "
        f"{first.there:.0f} are there.",
    )


def _reach(reached: bool, depth: float, at: Solved, first: Short | None, why: tuple[str, ...]) -> Reach:
    leg = at.figure.near_leg
    return Reach(reached, depth, leg.hip.y - leg.knee.y, at.angles.lean, first, at, why)


def _with_thigh(sought: Sought, thigh_degrees: float) -> Sought:
    return msgspec.structs.replace(
        sought, thigh_degrees=thigh_degrees, hip_over_knee_cm=None, knee_degrees=None, dip_percent=None
    )


def _thigh_sought(sought: Sought, body: Body, ranges: Ranges, bar_kg: float | None) -> float:
    if sought.thigh_degrees is not None:
        return sought.thigh_degrees
    return max(_DEEPEST_DEGREES, min(_STANDING_DEGREES, solve(sought, body, ranges, bar_kg).angles.thigh))
