"""Joint angles of a finished figure, counted as ``Ranges`` counts them, and which of them go too far."""

from math import atan2, degrees, hypot

from meetward.body.figure import Arm, Figure, Leg
from meetward.body.limbs import angle_between
from meetward.body.rack import FINGERS_DEGREES, PRESSED_DEGREES
from meetward.body.ranges import Ranges
from meetward.body.segments import ANKLE_OF_FOOT, BALL_OF_FOOT, Body
from meetward.body.sought import Angles, Short, Where

_ROUNDING = 0.01
"""Angles within this of a range's end are in range. [degrees]"""


def angles_of(figure: Figure) -> Angles:
    """All joint angles; of two unlike sides the one that goes further."""
    hip, shoulder = figure.hip, figure.shoulder
    lean = degrees(atan2(shoulder.x - hip.x, shoulder.y - hip.y))
    legs, arms = _unlike_legs(figure), _unlike_arms(figure)
    front = max(legs, key=lambda leg: leg.ankle.x)
    return Angles(
        lean=lean,
        shin=_shin(front),
        ankle=max(ankle_of(figure.body, leg) for leg in legs),
        knee=max(180.0 - angle_between(leg.hip, leg.knee, leg.ankle) for leg in legs),
        hip=max(_hip(figure, leg) for leg in legs),
        shoulder=max(_shoulder(figure, arm) for arm in arms),
        elbow=max(180.0 - angle_between(arm.shoulder, arm.elbow, arm.wrist) for arm in arms),
        wrist=max(180.0 - angle_between(arm.elbow, arm.wrist, arm.grip) for arm in arms),
        thigh=degrees(atan2(front.hip.y - front.knee.y, front.knee.x - front.hip.x)),
    )


def too_far(figure: Figure, ranges: Ranges, bar: Where) -> tuple[Short, ...]:
    """Joints beyond their range, from the floor up.

    bar : where the bar is. In a front rack the fingers open and help the wrist, a bar near the shoulders
        presses the elbows shut, and overhead the shoulder's range counts.
    """
    racked, folded = bar == "front rack", bar in ("front rack", "back rack", "pressed", "behind neck")
    a = angles_of(figure)
    legs = _unlike_legs(figure)
    pointed = max(-ankle_of(figure.body, leg) for leg in legs)
    behind = max(-_hip(figure, leg) for leg in legs)
    toes = max(_toes(figure.body, leg) for leg in legs)
    asked = [
        ("ankle", a.ankle, ranges.ankle),
        ("ankle_pointed", pointed, ranges.ankle_pointed),
        ("toes", toes, ranges.toes),
        ("knee", a.knee, ranges.knee),
        ("hip", a.hip, ranges.hip),
        ("hip_back", behind, ranges.hip_back),
        ("elbow", a.elbow - (PRESSED_DEGREES if folded else 0.0), ranges.elbow),
        ("wrist", a.wrist - (FINGERS_DEGREES if racked else 0.0), ranges.wrist),
    ]
    if bar == "overhead":
        asked.append(("shoulder", a.shoulder, ranges.shoulder + ranges.upper_back))
    return tuple(Short(joint, needed, there) for joint, needed, there in asked if needed > there + _ROUNDING)


def _unlike_legs(figure: Figure) -> tuple[Leg, ...]:
    """One leg where both look alike from the side, else both."""
    near, far = figure.near_leg, figure.far_leg
    alike = (
        near.knee[:2] == far.knee[:2] and near.ankle[:2] == far.ankle[:2] and near.heel[:2] == far.heel[:2]
    )
    return (near,) if alike else (near, far)


def _unlike_arms(figure: Figure) -> tuple[Arm, ...]:
    near, far = figure.near_arm, figure.far_arm
    return (near,) if near.elbow[:2] == far.elbow[:2] and near.grip[:2] == far.grip[:2] else (near, far)


def _shin(leg: Leg) -> float:
    fx, fz = leg.ball.x - leg.heel.x, leg.ball.z - leg.heel.z
    length = hypot(fx, fz) or 1.0
    along = ((leg.knee.x - leg.ankle.x) * fx + (leg.knee.z - leg.ankle.z) * fz) / length
    return degrees(atan2(along, leg.knee.y - leg.ankle.y))


def _tilt(body: Body, leg: Leg) -> float:
    """How far shoe and tipped foot raise the ankle over the ball, against the bare flat foot. [degrees]"""
    flat = atan2(body.ankle_height_cm, (BALL_OF_FOOT - ANKLE_OF_FOOT) * body.foot_cm)
    fx, fz = leg.ball.x - leg.heel.x, leg.ball.z - leg.heel.z
    length = hypot(fx, fz) or 1.0
    back = ((leg.ball.x - leg.ankle.x) * fx + (leg.ball.z - leg.ankle.z) * fz) / length
    return degrees(atan2(leg.ankle.y - leg.ball.y, back) - flat)


def ankle_of(body: Body, leg: Leg) -> float:
    """One ankle's dorsiflexion: the shank over the sole past a right angle. [degrees]"""
    return _shin(leg) - _tilt(body, leg)


def _toes(body: Body, leg: Leg) -> float:
    """How far the toes bend up: the sole behind the ball over the toes in front of it. [degrees]"""
    back = hypot(leg.ball.x - leg.heel.x, leg.ball.z - leg.heel.z)
    return degrees(atan2(leg.heel.y - leg.ball.y, back))


def _hip(figure: Figure, leg: Leg) -> float:
    ux, uy = figure.shoulder.x - figure.hip.x, figure.shoulder.y - figure.hip.y
    vx, vy = leg.knee.x - leg.hip.x, leg.knee.y - leg.hip.y
    above = leg.hip._replace(x=leg.hip.x + ux, y=leg.hip.y + uy)
    flexion = 180.0 - angle_between(above, leg.hip, leg.knee)
    return flexion if uy * vx - ux * vy >= 0 else -flexion


def _shoulder(figure: Figure, arm: Arm) -> float:
    down_x, down_y = figure.hip.x - figure.shoulder.x, figure.hip.y - figure.shoulder.y
    ax, ay = arm.elbow.x - arm.shoulder.x, arm.elbow.y - arm.shoulder.y
    raised = degrees(atan2(down_x * ay - down_y * ax, down_x * ax + down_y * ay))
    return raised if raised >= -90.0 else raised + 360.0
