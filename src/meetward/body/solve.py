"""A position solved from what defines it: the drawn lifter, whether it can be reached, and which joint gives
out first."""

from math import radians

import msgspec

from meetward.body.arms import default_elbow
from meetward.body.balance import centre_of_mass
from meetward.body.figure import Figure
from meetward.body.joints import angles_of, too_far
from meetward.body.placing import moved
from meetward.body.pull import Pulling
from meetward.body.ranges import USUAL, Ranges
from meetward.body.segments import Body
from meetward.body.sought import Angles, Short, Sought
from meetward.body.split import Split, between_the_feet
from meetward.body.stand import Posture, Standing
from meetward.body.whynot import joints_in_words, standing_shorts

__all__ = ["USUAL", "Angles", "Ranges", "Short", "Solved", "Sought", "solve"]

_TOUCHES_CM = 0.05
"""Hands and bar, foot and floor: nearer than this is together."""

_ARM = ("elbow", "wrist")

_ELBOW_LEAST, _ELBOW_GOOD, _ELBOW_OFF = -75.0, -50.0, 3.0
"""The lowest the elbows are tried, the lowest that still makes a rack, and what is near enough. Custom.
[degrees]"""


class Solved(msgspec.Struct, frozen=True):
    """A position, or the nearest to it that this lifter can be drawn in.

    reached : every joint stays in its range, the weight is over the foot, the hands are on the bar.
    short : joints that would have to go further; the one that gives out first stands first.
    why : sentences for the lifter and the coach; empty where everything is reached.
    """

    figure: Figure
    reached: bool
    angles: Angles
    short: tuple[Short, ...] = ()
    why: tuple[str, ...] = ()


def solve(sought: Sought, body: Body, ranges: Ranges = USUAL, bar_kg: float | None = None) -> Solved:
    """The most comfortable position of this kind that this lifter has.

    bar_kg : what the bar weighs; a bar as heavy as the lifter where it is not said. [kg]
    The foot stands on the floor, segments keep their lengths in space, the common centre of lifter and bar is
    over mid-foot (in pulls: near it). A position out of reach is still drawn, balanced, with the reasons why
    it is not there. Mid-foot is at x = 0; in a split the hips are. Never raises for a body or ranges that are
    out of the ordinary.
    """
    return _solved(sought, body, ranges, bar_kg, explain=True)


def is_reached(sought: Sought, body: Body, ranges: Ranges = USUAL, bar_kg: float | None = None) -> bool:
    """Whether ``solve`` would reach it; quicker where the answer is no, because nothing is explained."""
    return _solved(sought, body, ranges, bar_kg, explain=False).reached


def _solved(sought: Sought, body: Body, ranges: Ranges, bar_kg: float | None, *, explain: bool) -> Solved:
    kg = body.mass_kg if bar_kg is None else max(0.0, bar_kg)
    if sought.feet == "split":
        solved = _split(sought, body, ranges, kg)
    elif is_pull(sought):
        solved = _pull(sought, body, ranges, kg)
    else:
        solved = _stand(sought, body, ranges, kg, explain=explain)
    if sought.stands_on_cm:
        return msgspec.structs.replace(solved, figure=_raised(solved.figure, sought.stands_on_cm))
    return solved


def _raised(figure: Figure, by_cm: float) -> Figure:
    """The figure and its bar higher up: what the feet stand on is not the floor."""
    bar = figure.bar
    if bar is not None:
        bar = msgspec.structs.replace(bar, at=bar.at._replace(y=bar.at.y + by_cm))
    return msgspec.structs.replace(moved(figure, 0.0, by_cm), bar=bar)


def is_pull(sought: Sought) -> bool:
    """Whether the bar's height decides and the body follows it."""
    if sought.bar == "floor":
        return True
    low = sought.height in ("floor", "mid shin", "below knee", "knee", "above knee", "mid thigh")
    return sought.bar == "hanging" and (low or sought.bar_cm is not None)


def _stand(sought: Sought, body: Body, ranges: Ranges, kg: float, *, explain: bool) -> Solved:
    standing = Standing(body, sought, ranges, kg)
    posture = standing.settle()
    figure = standing.figure(posture)
    racked, raised = sought.bar == "front rack", sought.bar == "overhead"
    limits = too_far(figure, ranges, racked=racked, raised=raised)
    lowered: tuple[Short, ...] = ()
    if racked and any(short.joint in _ARM for short in limits):
        lowered = tuple(short for short in limits if short.joint in _ARM)
        standing, posture, elbow = _with_lower_elbows(sought, body, ranges, kg, posture)
        figure = standing.figure(posture)
        limits = too_far(figure, ranges, racked=racked, raised=raised)
        if elbow >= (_ELBOW_GOOD if sought.elbow_degrees is None else sought.elbow_degrees - _ELBOW_OFF):
            lowered = ()
    shorts, words = standing_shorts(standing, posture, limits, lowered, explain=explain)
    words += (*_under_the_floor(figure, sought), *_missed(posture.held.missing))
    return Solved(
        figure, not shorts and not words, angles_of(figure), shorts, (*joints_in_words(shorts), *words)
    )


def _with_lower_elbows(
    sought: Sought, body: Body, ranges: Ranges, kg: float, posture: Posture
) -> tuple[Standing, Posture, float]:
    """The same position with the elbows as high as elbow and wrist allow, and how high that is. [degrees]"""
    high, low = default_elbow(sought), _ELBOW_LEAST
    # The balance shifts a little with the elbows, so a margin is kept.
    spared = msgspec.structs.replace(ranges, elbow=ranges.elbow - 0.5, wrist=ranges.wrist - 0.5)
    for _ in range(12):
        middle = (low + high) / 2
        tried = Standing(body, sought, ranges, kg, radians(middle))
        figure = tried.figure(tried.posture(posture.ankle_lean, posture.lean, posture.thigh))
        arms = (s.joint for s in too_far(figure, spared, racked=True, raised=False))
        if any(joint in _ARM for joint in arms):
            high = middle
        else:
            low = middle
    standing = Standing(body, sought, ranges, kg, radians(low))
    return standing, standing.settle(), low


def _pull(sought: Sought, body: Body, ranges: Ranges, kg: float) -> Solved:
    pulling = Pulling(body, sought, ranges, kg)
    posture = pulling.settle()
    figure = pulling.figure(posture)
    shorts = too_far(figure, ranges, racked=False, raised=False)
    words = [*_under_the_floor(figure, sought), *_missed(posture.held.missing)]
    off = pulling.offset(posture)
    if abs(off) > pulling.zone + 0.5:
        words.append(
            f"The weight would be {abs(off):.0f} cm {'ahead of' if off > 0 else 'behind'} mid-foot "
            "with the bar at this height."
        )
    return Solved(
        figure, not shorts and not words, angles_of(figure), shorts, (*joints_in_words(shorts), *words)
    )


def _split(sought: Sought, body: Body, ranges: Ranges, kg: float) -> Solved:
    split = Split(body, sought, ranges)
    figure = split.figure()
    shorts = too_far(figure, ranges, racked=sought.bar == "front rack", raised=sought.bar == "overhead")
    words = [*_under_the_floor(figure, sought), *_missed(split.missing), *split.why]
    if not between_the_feet(figure, centre_of_mass(figure, kg).x):
        words.append("The weight would not be between the feet.")
    return Solved(
        figure, not shorts and not words, angles_of(figure), shorts, (*joints_in_words(shorts), *words)
    )


def _missed(missing_cm: float) -> tuple[str, ...]:
    if missing_cm <= _TOUCHES_CM:
        return ()
    return (f"The hands miss the bar by {missing_cm:.0f} cm: the arms do not reach it from here.",)


def _under_the_floor(figure: Figure, sought: Sought) -> tuple[str, ...]:
    found = []
    if min(figure.hip.y, figure.near_leg.knee.y, figure.far_leg.knee.y) < 0:
        found.append("Hip or knee would be under the floor: ask for less depth.")
    bar = figure.bar
    if bar is not None:
        deep = bar.disc_cm / 2 - sought.stands_on_cm - bar.at.y
        if deep > 0.01:
            found.append(
                f"The discs would be {deep:.0f} cm in the floor: they stand on it before the bar is there."
            )
    return tuple(found)
