"""How deep a lifter gets: from standing down to the sought depth, and the joint that gives out first on the way."""

import msgspec

from meetward.body.ranges import USUAL, Ranges
from meetward.body.segments import Body
from meetward.body.solve import Short, Solved, Sought, solve

_STANDING_DEGREES = 80.0
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
    Depth runs in steps of 4 degrees of the thigh and is then halved in to a hundredth of a degree. Because every single
    depth only gets easier with more ankle range, more range never ends higher.
    """
    if heel_cm is not None:
        sought = msgspec.structs.replace(sought, heel_cm=heel_cm)
    goal = _thigh_sought(sought, body, ranges, bar_kg)

    def at(thigh_degrees: float) -> Solved:
        return solve(_with_thigh(sought, thigh_degrees), body, ranges, bar_kg)

    depths = [_STANDING_DEGREES]
    while depths[-1] - _GRID_DEGREES > goal:
        depths.append(depths[-1] - _GRID_DEGREES)
    depths.append(goal)
    good, deepest = at(depths[0]), depths[0]
    for number, depth in enumerate(depths[1:], start=1):
        here = at(depth)
        if not here.reached:
            return _stopped(at, good, deepest, here, depth, depths[number + 1 :])
        good, deepest = here, depth
    return _reach(True, deepest, good, None, ())


def _stopped(at, good, deepest, bad, depth, rest) -> Reach:  # type: ignore[no-untyped-def]
    for _ in range(_HALVINGS):
        middle = (deepest + depth) / 2
        here = at(middle)
        if here.reached:
            good, deepest = here, middle
        else:
            bad, depth = here, middle
    first = bad.short[0] if bad.short else None
    if first is not None:
        for further in rest:
            same = [s for s in at(further).short if s.joint == first.joint and s.needed > first.needed]
            first = max(same, key=lambda s: s.needed, default=first)
    return _reach(False, deepest, good, first, bad.why)


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
    return solve(sought, body, ranges, bar_kg).angles.thigh
