"""Why a position on two feet is out of reach: the joint that gives out first, and what it would have to
give."""

from math import degrees

from meetward.body.joints import too_far
from meetward.body.sought import Short
from meetward.body.stand import LEAN_MOST, SHIN_MOST, Posture, Standing

_CLOSE = 1e-6
_LEAN_OFF = 1.0
"""A lean that was prescribed is there within this. [degrees]"""
BALANCED_CM = 0.05
UPRIGHT = ("hip", "shoulder")
"""Joints that a more upright trunk would help."""

JOINT_IN_WORDS = {
    "ankle": "ankle",
    "ankle_pointed": "pointed ankle",
    "knee": "knee",
    "hip": "hip",
    "hip_back": "hip behind the body",
    "shoulder": "shoulder and upper back",
    "elbow": "elbow",
    "wrist": "wrist",
    "toes": "toes",
}


def joints_in_words(shorts: tuple[Short, ...]) -> tuple[str, ...]:
    """“The ankle gives out first: this position needs 38 degrees, 30 are there.”"""
    said = []
    for number, short in enumerate(shorts):
        name = JOINT_IN_WORDS.get(short.joint, short.joint)
        verb = "gives out first" if number == 0 else "falls short as well"
        said.append(
            f"The {name} {verb}: this position needs {short.needed:.0f} degrees, {short.there:.0f} are there."
        )
    return tuple(said)


def leans_too_far(standing: Standing, p: Posture) -> str:
    """What is wrong with the trunk's lean, or nothing."""
    sought, lean = standing.sought, degrees(p.lean)
    if sought.lean_degrees is not None and abs(lean - sought.lean_degrees) > _LEAN_OFF:
        return (
            f"The trunk leans {lean:.0f} degrees instead of {sought.lean_degrees:.0f} "
            "to keep the weight over the foot."
        )
    most = LEAN_MOST.get(sought.bar)
    if sought.lean_degrees is None and most is not None and lean > most:
        return (
            f"The trunk would have to lean {lean:.0f} degrees; "
            f"past about {most:.0f} a bar does not stay there."
        )
    return ""


def standing_shorts(
    standing: Standing,
    p: Posture,
    limits: tuple[Short, ...],
    *,
    explain: bool,
) -> tuple[tuple[Short, ...], tuple[str, ...]]:
    """All that falls short in this position, first joint first, and what no joint's degrees can say.

    limits : joints beyond their range as drawn.
    explain : whether to look for what ankle or knee would have to give, which takes most of the time.
    """
    words = []
    lean = leans_too_far(standing, p)
    if lean:
        words.append(lean)
    off = standing.offset(p)
    if abs(off) > BALANCED_CM:
        side = "ahead of" if off > 0 else "behind"
        words.append(f"The weight would be {abs(off):.0f} cm {side} the middle of the foot.")
    shorts = [*limits]
    stuck = bool(words) or any(short.joint in UPRIGHT for short in limits)
    if explain and stuck and p.ankle_lean >= standing.shin_most() - _CLOSE:
        capping = _capped(standing)
        if capping is not None:
            shorts = [capping, *(short for short in shorts if short.joint != capping.joint)]
        elif off < -BALANCED_CM or lean:
            words.append(
                "With these lengths no ankle would be enough: stand wider, raise the heels, or stay higher."
            )
    return tuple(shorts), tuple(words)


def _capped(standing: Standing) -> Short | None:
    """The joint that keeps the knees from going further forwards, and what it would have to give here."""
    most, end = standing.shin_most(), SHIN_MOST
    if not _upright_enough(standing, end):
        return None
    low, high = most, end
    while high - low > 1e-4:
        middle = (low + high) / 2
        if _upright_enough(standing, middle):
            high = middle
        else:
            low = middle
    if standing.ankle_most <= most + _CLOSE:
        return Short("ankle", degrees(high - standing.foot.tilt), standing.ranges.ankle)
    return Short("knee", degrees(standing.knee_bend(high)), standing.ranges.knee)


def _upright_enough(standing: Standing, most: float) -> bool:
    """Whether a shank that leans up to ``most`` leaves hip, shoulder, trunk and balance nothing to ask
    for."""
    p = standing.settle_within(most)
    if leans_too_far(standing, p) or abs(standing.offset(p)) > BALANCED_CM:
        return False
    found = too_far(standing.figure(p), standing.ranges, standing.sought.bar)
    return not any(short.joint in UPRIGHT for short in found)
