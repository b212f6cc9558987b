"""A position solved from what defines it: the drawn lifter, whether it can be reached, and which joint gives
out first."""

from math import atan2, degrees

import msgspec

from meetward.body.balance import centre_of_mass
from meetward.body.figure import Figure
from meetward.body.joints import angles_of, too_far
from meetward.body.placing import moved
from meetward.body.pull import Pulling
from meetward.body.rack import FINGERS_DEGREES, PRESSED_DEGREES, rack_angles
from meetward.body.ranges import USUAL, Ranges
from meetward.body.segments import Body
from meetward.body.sought import Angles, Short, Sought
from meetward.body.split import Split, between_the_feet
from meetward.body.stand import Standing
from meetward.body.whynot import joints_in_words, standing_shorts

__all__ = ["USUAL", "Angles", "Ranges", "Short", "Solved", "Sought", "solve"]

_TOUCHES_CM = 0.05
"""Hands and bar, foot and floor: nearer than this is together."""

_BARE_BAR_KG = 20.0

_ELBOW_LEAST, _ELBOW_OFF = -50.0, 5.0
"""The lowest elbows that still make a rack, and what is near enough to a height that was sought. Custom.
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

    bar_kg : what the bar weighs; where it is not said a bar as heavy as the lifter, or one of 20 kg where no
        discs are on it. [kg]
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
    usual_kg = body.mass_kg if sought.disc_cm else _BARE_BAR_KG
    kg = usual_kg if bar_kg is None else max(0.0, bar_kg)
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
    limits = too_far(figure, ranges, sought.bar)
    if sought.bar == "front rack":
        limits += _elbows_low(sought, figure, ranges)
    shorts, words = standing_shorts(standing, posture, limits, explain=explain)
    words += (*_under_the_floor(figure, sought), *_missed(posture.held.missing))
    return Solved(
        figure, not shorts and not words, angles_of(figure), shorts, (*joints_in_words(shorts), *words)
    )


def _elbows_low(sought: Sought, figure: Figure, ranges: Ranges) -> tuple[Short, ...]:
    """What keeps the elbows from coming as high as was sought, or as high as a rack has them."""
    arm = figure.near_arm
    high = degrees(atan2(arm.elbow.y - arm.shoulder.y, arm.elbow.x - arm.shoulder.x))
    wanted = _ELBOW_LEAST if sought.elbow_degrees is None else sought.elbow_degrees - _ELBOW_OFF
    if high >= wanted:
        return ()
    lean = degrees(atan2(figure.shoulder.x - figure.hip.x, figure.shoulder.y - figure.hip.y))
    elbow, wrist, _ = rack_angles(figure.body, arm.grip.z, wanted + lean)
    asked = (
        Short("elbow", elbow - PRESSED_DEGREES, ranges.elbow),
        Short("wrist", wrist - FINGERS_DEGREES, ranges.wrist),
    )
    return tuple(short for short in asked if short.needed > short.there)


def _pull(sought: Sought, body: Body, ranges: Ranges, kg: float) -> Solved:
    pulling = Pulling(body, sought, ranges, kg)
    posture = pulling.settle()
    figure = pulling.figure(posture)
    shorts = too_far(figure, ranges, sought.bar)
    words = [*_under_the_floor(figure, sought), *_missed(posture.held.missing)]
    bar = posture.held.bar
    if bar is not None and bar.y > posture.trunk.shoulder.y - pulling.arm / 2:
        words.append(
            "Straight arms cannot hang that high: lower the bar, or say that it is pulled or pressed."
        )
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
    shorts = too_far(figure, ranges, sought.bar)
    words = [*_under_the_floor(figure, sought), *_missed(split.missing)]
    if not between_the_feet(figure, centre_of_mass(figure, kg).x):
        words.append("The weight would not be between the feet.")
    return Solved(
        figure, not shorts and not words, angles_of(figure), shorts, (*joints_in_words(shorts), *words)
    )


def _missed(missing_cm: float) -> tuple[str, ...]:
    if missing_cm <= _TOUCHES_CM:
        return ()
    gap = f"{missing_cm:.0f} cm" if missing_cm >= 1 else "less than 1 cm"
    return (f"The hands miss the bar by {gap}: the arms do not reach it from here.",)


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
