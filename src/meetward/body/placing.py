"""From a kept pose to a figure: joint after joint from the hip, then down to the floor."""

from collections.abc import Callable
from math import copysign, cos, radians, sin, sqrt

from msgspec.structs import replace

from meetward.body.figure import Arm, Bar, Figure, Leg, Spot
from meetward.body.flesh import (
    BACK_CM,
    CHEST_CM,
    ELBOW_CM,
    HEAD_HALF_HIGH_CM,
    KNEE_CM,
    PALM_CM,
    SEAT_CM,
    scale,
)
from meetward.body.holding import holding
from meetward.body.limbs import shoe_tilt
from meetward.body.pose import ArmPose, LegOn, LegPose, Pose
from meetward.body.reaching import along, down, minus, reach, up
from meetward.body.segments import ANKLE_OF_FOOT, BALL_OF_FOOT, GRIP_OF_HAND, Body
from meetward.body.spots import middle, sole

_MOST_TIP = 75
_KNEELING: tuple[LegOn, ...] = ("knee", "shin", "kneecap")
TUCKED_DEGREES, LONG_DEGREES, LONG_FOOT_CM = 72.0, 174.0, 4.6
"""A kneeling foot: how far it is tipped with the toes tucked under, or long; and then its ankle's height."""


def figure(pose: Pose, body: Body) -> Figure:
    """The lifter ``body`` in ``pose``. All segments keep their lengths in space.

    The figure stands, sits or lies on what the pose says touches: the lowest of it is on the floor (or on its
    ``raised_cm``), with the middle of the feet over x = 0 where a foot stands, else the hip. Where the trunk
    touches, or both legs do, legs and hands that touch as well bend or swing until they do. Where legs and
    arms touch (a plank), the whole figure is tipped until both do. Arms then reach for their spot, as far as
    they go.
    """
    tip = _tip(pose, body)
    made = _on_the_floor(pose, body, _joints(pose, body, tip))
    return holding(pose, made)


# Joints


def _joints(pose: Pose, body: Body, tip: float) -> Figure:
    """All joints with the hip at zero, everything but feet that stand turned forwards by ``tip`` degrees."""
    lower, upper = pose.trunk + tip - pose.curl / 2, pose.trunk + tip + pose.curl / 2
    hip = Spot(0.0, 0.0)
    waist = along(hip, _rolled(up(lower), pose.side), body.trunk_cm / 2)
    shoulder = along(waist, _rolled(up(upper), pose.side), body.trunk_cm / 2)
    across = Spot(0.0, -sin(radians(pose.side)), cos(radians(pose.side)))
    near_joint, far_joint = (along(shoulder, across, s * body.shoulder_half_cm) for s in (1.0, -1.0))
    neck = upper + pose.neck
    head = along(
        shoulder, _rolled(up(neck), pose.side), body.neck_and_head_cm - HEAD_HALF_HIGH_CM * scale(body)
    )
    return Figure(
        body=body, hip=hip, waist=waist, shoulder=shoulder, head=head,
        near_leg=_leg(pose.near_leg or pose.legs, hip, body, 1.0, tip, pose.heel_cm),
        far_leg=_leg(pose.far_leg or pose.legs, hip, body, -1.0, tip, pose.heel_cm),
        near_arm=_arm(pose.near_arm or pose.arms, near_joint, body, 1.0, tip),
        far_arm=_arm(pose.far_arm or pose.arms, far_joint, body, -1.0, tip),
        heel_cm=pose.heel_cm,
        looks_degrees=-neck if pose.looks is None else pose.looks,
    )  # fmt: skip


def _aside(way: Spot, out: float, side: float) -> Spot:
    """A way in the plane of the drawing, turned ``out`` degrees to its side."""
    flat = cos(radians(out))
    return Spot(way.x * flat, way.y * flat, side * sin(radians(out)))


def _rolled(way: Spot, side: float) -> Spot:
    """A way that stands, leant ``side`` degrees to the right."""
    return Spot(way.x, way.y * cos(radians(side)), way.y * sin(radians(side)))


def _leg(leg: LegPose, hip: Spot, body: Body, side: float, tip: float, heel_cm: float) -> Leg:
    joint = Spot(hip.x, hip.y, side * body.hip_half_cm)
    knee = along(joint, _aside(down(leg.thigh - tip), leg.out, side), body.thigh_cm)
    ankle = along(knee, _aside(down(-leg.shin - tip), leg.shin_out, side), body.shank_cm)
    stands = leg.on in ("flat", "toes")
    return _foot(joint, knee, ankle, body, leg, leg.foot if stands else leg.foot + tip, heel_cm)


def _foot(
    hip: Spot, knee: Spot, ankle: Spot, body: Body, kept: LegPose, heel_up: float, heel_cm: float
) -> Leg:
    """The foot below an ankle: the ankle tips with the shoe's heel and the foot, the sole with the foot."""
    sole_way = down(90 - heel_up)
    tilt = heel_up + shoe_tilt(body, heel_cm) if heel_cm else heel_up
    to_ball = (BALL_OF_FOOT - ANKLE_OF_FOOT) * body.foot_cm
    ball = along(along(ankle, down(90 - tilt), to_ball), up(tilt), -body.ankle_height_cm)
    heel = along(ball, sole_way, -BALL_OF_FOOT * body.foot_cm)
    tip_way = Spot(1.0, 0.0) if kept.on in ("toes", "knee") else sole_way
    toe = along(ball, tip_way, (1 - BALL_OF_FOOT) * body.foot_cm)
    return Leg(hip=hip, knee=knee, ankle=ankle, heel=heel, ball=ball, toe=toe)


def _arm(arm: ArmPose, joint: Spot, body: Body, side: float, tip: float) -> Arm:
    fore = arm.upper if arm.fore is None else arm.fore
    fore_out = arm.out if arm.fore_out is None else arm.fore_out
    hand = fore if arm.hand is None else arm.hand
    elbow = along(joint, _aside(down(arm.upper - tip), arm.out, side), body.upper_arm_cm)
    wrist = along(elbow, _aside(down(fore - tip), fore_out, side), body.forearm_cm)
    turned = hand - (0 if arm.hand is not None and arm.on == "hand" else tip)
    grip = along(wrist, _aside(down(turned), fore_out, side), GRIP_OF_HAND * body.hand_cm)
    return Arm(shoulder=joint, elbow=elbow, wrist=wrist, grip=grip)


# On the floor


def _leg_low(leg: Leg, pose: LegPose, k: float) -> float | None:
    """How far the part of the leg that touches lies above what it touches; None where nothing does."""
    if pose.on == "air":
        return None
    if pose.on in _KNEELING:
        lowest = leg.knee.y - KNEE_CM * k
    elif pose.on == "heel":
        lowest = leg.heel.y
    else:
        lowest = min(leg.ball.y, leg.toe.y)
        if pose.on == "flat":
            lowest = min(lowest, leg.heel.y)
    return lowest - pose.raised_cm


def _arm_low(arm: Arm, pose: ArmPose, k: float) -> float | None:
    if pose.on == "air":
        return None
    lowest = arm.grip.y - PALM_CM * k if pose.on == "hand" else min(arm.elbow.y, arm.wrist.y) - ELBOW_CM * k
    return lowest - pose.raised_cm


def _trunk_low(made: Figure, pose: Pose, k: float) -> float | None:
    if not pose.on:
        return None
    hip, chest = made.hip.y, made.shoulder.y
    lowest = {
        "seat": hip - SEAT_CM * k,
        "back": min(hip - SEAT_CM * k, chest - BACK_CM * k),
        "front": min(hip - SEAT_CM * k, chest - CHEST_CM * k),
        "shoulders": chest - BACK_CM * k,
        "side": min(hip - made.body.hip_half_cm, chest - made.body.shoulder_half_cm),
    }[pose.on]
    return lowest - pose.raised_cm


def _lows(made: Figure, pose: Pose) -> tuple[float | None, list[float | None], list[float | None]]:
    k = scale(made.body)
    legs = [
        _leg_low(made.near_leg, pose.near_leg or pose.legs, k),
        _leg_low(made.far_leg, pose.far_leg or pose.legs, k),
    ]
    arms = [
        _arm_low(made.near_arm, pose.near_arm or pose.arms, k),
        _arm_low(made.far_arm, pose.far_arm or pose.arms, k),
    ]
    return _trunk_low(made, pose, k), legs, arms


def gaps(made: Figure, pose: Pose) -> dict[str, float]:
    """How far each part that should touch is from what it should touch, above it or in it. [cm]"""
    trunk, legs, arms = _lows(made, pose)
    named = {"trunk": trunk, "near leg": legs[0], "far leg": legs[1], "near arm": arms[0], "far arm": arms[1]}
    return {part: low - pose.jump_cm for part, low in named.items() if low is not None}


def _tip(pose: Pose, body: Body) -> float:
    """Degrees by which the figure is turned forwards so that its legs and its arms touch at once.

    The nearest such turn to none; none where the trunk touches, or only one of both, or no turn does it.
    """
    if pose.on:
        return 0.0

    def gap(tip: float) -> float | None:
        _, legs, arms = _lows(_joints(pose, body, tip), pose)
        touching = [low for low in legs if low is not None], [low for low in arms if low is not None]
        return min(touching[0]) - min(touching[1]) if all(touching) else None

    start = gap(0.0)
    if start is None or start == 0:
        return 0.0
    for step in range(3, _MOST_TIP + 1, 3):
        for low, high in ((step - 3, step), (-step, 3 - step)):
            at_low, at_high = gap(low), gap(high)
            if at_low is None or at_high is None or (at_low > 0) == (at_high > 0):
                continue
            a, b = float(low), float(high)
            for _ in range(40):
                mid = (a + b) / 2
                here = gap(mid)
                assert here is not None
                if (here > 0) == (at_low > 0):
                    a = mid
                else:
                    b = mid
            return (a + b) / 2
    return 0.0


def _on_the_floor(pose: Pose, body: Body, made: Figure) -> Figure:
    """Moved so that it touches, with the limbs bent that have to touch as well."""
    trunk, legs, arms = _lows(made, pose)
    knees = [
        low
        for low, leg in zip(legs, (pose.near_leg or pose.legs, pose.far_leg or pose.legs), strict=True)
        if low is not None and leg.on in _KNEELING
    ]
    others = [low for low in (*legs, *arms) if low is not None]
    if trunk is not None:
        lift = -trunk
    elif knees:
        lift = -min(knees)
    elif others:
        lift = -min(others)
    else:
        lift = -_lowest(made)
    lifted = moved(made, 0.0, lift)
    legs_kept = (pose.near_leg or pose.legs, pose.far_leg or pose.legs)
    legs_made = [
        _touching(lifted, leg, kept)
        for leg, kept in zip((lifted.near_leg, lifted.far_leg), legs_kept, strict=True)
    ]
    arms_kept = (pose.near_arm or pose.arms, pose.far_arm or pose.arms)
    near_arm, far_arm = (
        _leaning(lifted, arm, kept)
        for arm, kept in zip((lifted.near_arm, lifted.far_arm), arms_kept, strict=True)
    )
    lifted = replace(lifted, near_leg=legs_made[0], far_leg=legs_made[1], near_arm=near_arm, far_arm=far_arm)
    stand = [
        leg for leg, kept in zip(legs_made, legs_kept, strict=True) if kept.on in ("flat", "toes", "heel")
    ]
    aside = -middle(*(sole(leg) for leg in stand)).x if stand else 0.0
    return moved(lifted, aside, pose.jump_cm)


def _touching(made: Figure, leg: Leg, kept: LegPose) -> Leg:
    """The leg with its knee bent (or thigh turned) so that it touches what the pose says."""
    body = made.body
    low = _leg_low(leg, kept, scale(body))
    if low is None:
        return leg
    if kept.on in _KNEELING:
        return _kneeling(made, leg, kept, low)
    if abs(low) < 1e-9:
        return leg
    bend = minus(leg.knee, middle(leg.hip, leg.ankle))
    target = Spot(leg.ankle.x, leg.ankle.y - low, leg.ankle.z)
    target = _within(leg.hip, target, body.thigh_cm + body.shank_cm)
    knee, ankle = reach(leg.hip, target, body.thigh_cm, body.shank_cm, bend)
    return _foot(leg.hip, knee, ankle, body, kept, kept.foot, made.heel_cm)


def _within(root: Spot, target: Spot, longest_cm: float) -> Spot:
    """The target, or at its height the nearest that a straight limb reaches."""
    flat = longest_cm**2 - (target.y - root.y) ** 2 - (target.z - root.z) ** 2
    aside = target.x - root.x
    if flat <= 0 or aside * aside <= flat:
        return target
    return Spot(root.x + copysign(sqrt(flat), aside), target.y, target.z)


def _leaning(made: Figure, arm: Arm, kept: ArmPose) -> Arm:
    """The arm with its elbow bent so that its hand leans on what the pose says; a forearm stays as it is."""
    body = made.body
    low = _arm_low(arm, kept, scale(body))
    if kept.on != "hand" or low is None or abs(low) < 1e-9:
        return arm
    bend = minus(arm.elbow, middle(arm.shoulder, arm.wrist))
    target = Spot(arm.wrist.x, arm.wrist.y - low, arm.wrist.z)
    target = _within(arm.shoulder, target, body.upper_arm_cm + body.forearm_cm)
    elbow, wrist = reach(arm.shoulder, target, body.upper_arm_cm, body.forearm_cm, bend)
    return Arm(arm.shoulder, elbow, wrist, along(wrist, minus(arm.grip, arm.wrist), 1.0))


def _kneeling(made: Figure, leg: Leg, kept: LegPose, low: float) -> Leg:
    """The leg with its knee down by ``low`` and, unless the kneecap stands alone, its foot down behind it."""
    body = made.body
    knee = leg.knee
    if abs(low) > 1e-9:
        fall = leg.knee.y - low - leg.hip.y
        flat = body.thigh_cm**2 - (knee.z - leg.hip.z) ** 2 - fall**2
        if flat <= 0:  # the hip is too high for this knee; it hangs as it did
            return leg
        knee = Spot(leg.hip.x + copysign(sqrt(flat), knee.x - leg.hip.x), knee.y - low, knee.z)
    if kept.on == "kneecap":
        ankle = along(knee, minus(leg.ankle, leg.knee), 1.0)
        return _foot(leg.hip, knee, ankle, body, kept, kept.foot, made.heel_cm)
    heel_up = TUCKED_DEGREES if kept.on == "knee" else LONG_DEGREES
    # How high the ankle is over what the foot lies on: by its top, or with toes tucked by its shape.
    high = LONG_FOOT_CM * scale(body) + kept.raised_cm
    if kept.on == "knee":
        tilt = radians(TUCKED_DEGREES)
        ahead = (BALL_OF_FOOT - ANKLE_OF_FOOT) * body.foot_cm
        high = ahead * sin(tilt) + body.ankle_height_cm * cos(tilt) + kept.raised_cm
    aside = leg.ankle.z - leg.knee.z
    rise = max(-body.shank_cm, min(body.shank_cm, high - knee.y))
    back = sqrt(max(0.0, body.shank_cm**2 - rise**2 - aside**2))
    rise = copysign(sqrt(max(0.0, body.shank_cm**2 - back**2 - aside**2)), rise)
    ankle = Spot(knee.x - back, knee.y + rise, knee.z + aside)
    return _foot(leg.hip, knee, ankle, body, kept, heel_up, made.heel_cm)


def joints(made: Figure) -> list[Spot]:
    """All joints and ends of a figure."""
    legs = [s for leg in (made.near_leg, made.far_leg) for s in _spots_of(leg)]
    arms = [s for arm in (made.near_arm, made.far_arm) for s in _spots_of(arm)]
    return [made.hip, made.waist, made.shoulder, made.head, *legs, *arms]


def _spots_of(limb: Leg | Arm) -> list[Spot]:
    return [getattr(limb, name) for name in limb.__struct_fields__]


def _lowest(made: Figure) -> float:
    return min(s.y for s in joints(made))


def moved(made: Figure, x: float, y: float) -> Figure:
    """The figure's body, shifted; bar and things stay where they are."""
    return _each(made, lambda s: Spot(s.x + x, s.y + y, s.z))


def _each(made: Figure, to: Callable[[Spot], Spot]) -> Figure:
    """The figure with each of its body's spots put elsewhere."""

    def leg(old: Leg) -> Leg:
        return Leg(to(old.hip), to(old.knee), to(old.ankle), to(old.heel), to(old.ball), to(old.toe))

    def arm(old: Arm) -> Arm:
        return Arm(to(old.shoulder), to(old.elbow), to(old.wrist), to(old.grip))

    return replace(
        made,
        hip=to(made.hip), waist=to(made.waist), shoulder=to(made.shoulder), head=to(made.head),
        near_leg=leg(made.near_leg), far_leg=leg(made.far_leg),
        near_arm=arm(made.near_arm), far_arm=arm(made.far_arm),
    )  # fmt: skip


def shifted(made: Figure, x: float) -> Figure:
    """The figure with bar and things, shifted forwards. [cm]"""
    bar = made.bar and Bar(Spot(made.bar.at.x + x, made.bar.at.y, made.bar.at.z), made.bar.disc_cm)
    props = tuple(
        replace(
            p,
            at=Spot(p.at.x + x, p.at.y, p.at.z),
            to=p.to and Spot(p.to.x + x, p.to.y, p.to.z),
        )
        for p in made.props
    )
    return replace(moved(made, x, 0.0), bar=bar, props=props)


def from_the_front(made: Figure) -> Figure:
    """The figure without its bar and things, turned to face the onlooker."""

    def to(s: Spot) -> Spot:
        return Spot(-s.z, s.y, s.x)

    return _each(replace(made, bar=None, props=(), view="front"), to)
