"""The arms in a front rack: how high the elbows can be with a bar on the shoulders and the fingers under
it."""

from functools import lru_cache
from math import cos, degrees, radians, sin, sqrt

from meetward.body.figure import Arm, Spot
from meetward.body.limbs import angle_between, two_links
from meetward.body.segments import GRIP_OF_HAND, Body

RACK_FORWARDS, RACK_UP = 0.047, 0.028
"""The racked bar's middle from the shoulder joint, across and along the trunk, as fractions of height.
Custom."""

FINGERS_DEGREES = 45.0
"""What opening the fingers under a racked bar gives beyond the wrist. Common practice, no source."""

PRESSED_DEGREES = 8.0
"""How much further than by itself the bar presses an elbow shut. Common practice, no source."""

ELBOW_HIGH = -12.0
"""Upper arm over the horizontal where nobody said how: elbows high. Custom. [degrees]"""

_LOWEST, _HIGHEST, _STEP = -84, 60, 4


def racked_arm(body: Body, shoulder: Spot, bar: Spot, half: float, raised: float) -> tuple[Arm, float]:
    """An arm in the front rack, and by how many cm the hand misses the bar.

    half : middle line to the hand. [cm] raised : the upper arm over the horizontal. [radians]
    """
    aside = 0.5 * (half - shoulder.z)
    drawn = sqrt(max(body.upper_arm_cm**2 - aside * aside, 0.0))
    elbow = Spot(shoulder.x + drawn * cos(raised), shoulder.y + drawn * sin(raised), shoulder.z + aside)
    grip = Spot(bar.x, bar.y, half)
    hand = GRIP_OF_HAND * body.hand_cm
    # The wrist stands on the side that bends the hand backwards: right of the way from elbow to bar.
    right = Spot(grip.y - elbow.y, elbow.x - grip.x, 0.0)
    wrist, missing = two_links(elbow, grip, body.forearm_cm, hand, right)
    if missing > 1e-9:
        way = sqrt((grip.x - wrist.x) ** 2 + (grip.y - wrist.y) ** 2 + (grip.z - wrist.z) ** 2) or 1.0
        share = hand / way
        grip = Spot(
            wrist.x + (grip.x - wrist.x) * share,
            wrist.y + (grip.y - wrist.y) * share,
            wrist.z + (grip.z - wrist.z) * share,
        )
    return Arm(shoulder, elbow, wrist, grip), missing


def rack_angles(body: Body, half: float, raised_degrees: float) -> tuple[float, float, float]:
    """Elbow flexion, wrist extension and the hand's gap for an upper arm so high over a line across the
    trunk.

    All of it goes with the trunk, however that leans. [degrees, degrees, cm]
    """
    tall = body.height_cm
    shoulder = Spot(0.0, 0.0, body.shoulder_half_cm)
    bar = Spot(RACK_FORWARDS * tall, RACK_UP * tall)
    arm, missing = racked_arm(body, shoulder, bar, half, radians(raised_degrees))
    elbow = 180.0 - angle_between(arm.shoulder, arm.elbow, arm.wrist)
    wrist = 180.0 - angle_between(arm.elbow, arm.wrist, arm.grip)
    return elbow, wrist, missing


@lru_cache(maxsize=512)
def elbow_span(body: Body, half: float, elbow_most: float, wrist_most: float) -> tuple[float, float]:
    """The lowest and the highest the upper arm can be over a line across the trunk, in steps of 4 degrees.

    Where no height of the elbows is possible, both are the height that asks least beyond the ranges.
    """
    possible, best, least = [], 0.0, float("inf")
    for raised in range(_HIGHEST, _LOWEST - 1, -_STEP):
        elbow, wrist, missing = rack_angles(body, half, raised)
        beyond = (
            max(elbow - PRESSED_DEGREES - elbow_most, 0.0)
            + max(wrist - FINGERS_DEGREES - wrist_most, 0.0)
            + 20.0 * missing
        )
        if beyond <= 0:
            possible.append(float(raised))
        elif beyond < least - 1e-9:
            best, least = float(raised), beyond
    return (possible[-1], possible[0]) if possible else (best, best)


def elbow_height(
    body: Body, half: float, elbow_most: float, wrist_most: float, wanted_degrees: float, lean: float
) -> float:
    """The upper arm over the horizontal: as wanted, or as near as elbow and wrist allow at this lean.
    [radians]"""
    low, high = elbow_span(body, half, elbow_most, wrist_most)
    return radians(max(low, min(high, wanted_degrees + degrees(lean)))) - lean
