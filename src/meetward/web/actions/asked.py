"""What a squat or a rack asks of a lifter as drawn: how deep, which joint first, what a heel does."""

from functools import lru_cache
from typing import Literal

import msgspec

from meetward.body.figure import Figure
from meetward.body.ranges import AnkleRange, Ranges
from meetward.body.reach import deepest, reach
from meetward.body.segments import Body
from meetward.body.solve import Short, Sought, solve

Kind = Literal["front-squat", "front-rack", "overhead-squat"]

KINDS: tuple[Kind, ...] = ("front-squat", "front-rack", "overhead-squat")

BOTTOM_DEGREES = -14.0
"""The bottom as the catalogue draws it: hips under the knees. The thigh over the horizontal. [degrees]"""

ELBOWS_AT_THE_BAR = 9.0
"""The upper arm over the horizontal when the elbow is as high as a racked bar, by where the bar lies in the
drawing (0.028 of height over the shoulder, upper arm 0.186 of it). [degrees]"""

SOUGHT: dict[Kind, Sought] = {
    "front-squat": Sought(bar="front rack", thigh_degrees=BOTTOM_DEGREES),
    "front-rack": Sought(bar="front rack", elbow_degrees=ELBOWS_AT_THE_BAR),
    "overhead-squat": Sought(bar="overhead", grip="snatch", thigh_degrees=BOTTOM_DEGREES),
}

ANY_ANKLE = 62.0
"""More than any ankle has: what a comfortable lifter would use of it. [degrees]"""

MOST_KEPT = 2048

Outcome = Literal["reached", "perhaps", "not reached"]


class Asked(msgspec.Struct, frozen=True):
    """What one position asks with one heel.

    figure : drawn with the middle of what the ankle test points to; as deep as it goes where the bottom is
        not reached.
    ends : depth with the low, middle and high ankle; None where the bottom is reached. The thigh over the
        horizontal. [degrees]
    leans : the trunk's lean at the bottom, least and most of the ankles that reach it; at the depth drawn
        where the middle one does not. [degrees]
    ankle : how far the ankle goes in the drawing. [degrees]
    comfortable : lean, ankle and shoulder of somebody whose ankle is no matter. [degrees]
    short : joints that would have to go further than they are drawn, the first one first.
    elbows_under_bar_cm : in a rack; negative above it. [cm]
    """

    kind: Kind
    heel_mm: int
    figure: Figure
    ends: tuple[float | None, float | None, float | None]
    leans: tuple[float, float]
    ankle: float
    comfortable: tuple[float, float, float]
    short: tuple[Short, ...]
    elbows_under_bar_cm: float = 0.0

    @property
    def outcome(self) -> Outcome:
        """Whether the bottom is there over the whole of what the test points to, in a part of it, or nowhere.

        A rack has nothing to do with the ankle: it is reached or not.
        """
        if self.kind == "front-rack":
            return "not reached" if self.short else "reached"
        there = [end is None for end in self.ends]
        return "reached" if all(there) else "perhaps" if any(there) else "not reached"


@lru_cache(maxsize=MOST_KEPT)
def asked(kind: Kind, body: Body, ranges: Ranges, ankle: AnkleRange, heel_mm: int) -> Asked:
    """What this position asks of this body. ``ranges`` are those of all joints but the ankle."""
    sought = msgspec.structs.replace(SOUGHT[kind], heel_cm=heel_mm / 10)
    middle = _with_ankle(ranges, ankle.typical)
    if kind == "front-rack":
        return _rack(sought, body, middle, heel_mm)
    low, high = _with_ankle(ranges, ankle.low), _with_ankle(ranges, ankle.high)
    # More ankle never ends higher, so the middle and the high one need no second look.
    ends_low = deepest(sought, body, low)
    ends_high = None if ends_low is None else deepest(sought, body, high)
    at_middle = reach(sought, body, middle)
    ends_middle = None if at_middle.reached else at_middle.thigh_degrees
    shown = at_middle.at
    leans = [shown.angles.lean]
    if ends_middle is None:
        leans += [
            solve(sought, body, each).angles.lean
            for each, end in ((low, ends_low), (high, ends_high))
            if end is None
        ]
    short: tuple[Short, ...] = ()
    if ends_low is not None:
        # Where the middle gets there, the low end says which joint is in the way.
        doubtful = at_middle if ends_middle is not None else reach(sought, body, low)
        at_the_bottom = solve(sought, body, middle if ends_middle is not None else low)
        short = _each_once(((doubtful.first,) if doubtful.first else ()) + at_the_bottom.short)
    ease = solve(sought, body, _with_ankle(ranges, ANY_ANKLE))
    return Asked(
        kind=kind,
        heel_mm=heel_mm,
        figure=shown.figure,
        ends=(ends_low, ends_middle, ends_high),
        leans=(min(leans), max(leans)),
        ankle=shown.angles.ankle,
        comfortable=(ease.angles.lean, ease.angles.ankle, ease.angles.shoulder),
        short=short,
    )


def _rack(sought: Sought, body: Body, ranges: Ranges, heel_mm: int) -> Asked:
    solved = solve(sought, body, ranges)
    figure = solved.figure
    assert figure.bar is not None
    return Asked(
        kind="front-rack",
        heel_mm=heel_mm,
        figure=figure,
        ends=(None, None, None),
        leans=(solved.angles.lean, solved.angles.lean),
        ankle=solved.angles.ankle,
        comfortable=(solved.angles.lean, solved.angles.ankle, solved.angles.shoulder),
        short=_each_once(solved.short) if not solved.reached else (),
        elbows_under_bar_cm=figure.bar.at.y - figure.near_arm.elbow.y,
    )


def wrist_for_the_rack(body: Body) -> float:
    """What elbows at the bar's height ask of the wrist, beyond what open fingers give. [degrees]"""
    stiff = Ranges(wrist=1.0)
    short = solve(SOUGHT["front-rack"], body, stiff).short
    return next((one.needed for one in short if one.joint == "wrist"), 0.0)


def _with_ankle(ranges: Ranges, degrees: float) -> Ranges:
    return msgspec.structs.replace(ranges, ankle=degrees)


def _each_once(shorts: tuple[Short, ...]) -> tuple[Short, ...]:
    """One entry a joint, with the most that is asked of it, in the order of the first."""
    found: dict[str, Short] = {}
    for one in shorts:
        known = found.get(one.joint)
        if known is None or one.needed > known.needed:
            found[one.joint] = one
    return tuple(found.values())
