"""The bar of a kept pose, and arms that reach for it or for another spot."""

from msgspec.structs import replace

from meetward.body.arms import GRIP_HALF_OF_HEIGHT
from meetward.body.figure import Arm, Bar, Figure, Spot
from meetward.body.flesh import PALM_CM, scale
from meetward.body.pose import ArmPose, Bend, Pose
from meetward.body.reaching import along, down, minus, reach
from meetward.body.segments import GRIP_OF_HAND, Body
from meetward.body.spots import mid_foot, middle, spot

_BENDS: dict[Bend, Spot] = {
    "back": Spot(-1.0, 0.0), "front": Spot(1.0, 0.0), "up": Spot(0.0, 1.0), "down": Spot(0.0, -1.0),
    "out": Spot(0.0, 0.0, 1.0), "in": Spot(0.0, 0.0, -1.0),
}  # fmt: skip


def holding(pose: Pose, made: Figure) -> Figure:
    """The figure with its bar, and its arms where the pose lets them reach."""
    if pose.bar and pose.bar.at != "hands":
        made = replace(made, bar=Bar(_bar_spot(pose, made), pose.bar.disc_cm))
    near, far = (
        _reaching(arm, made, pose, side)
        for arm, side in ((pose.near_arm or pose.arms, 1.0), (pose.far_arm or pose.arms, -1.0))
    )
    made = replace(made, near_arm=near, far_arm=far)
    if pose.bar and pose.bar.at == "hands":
        at = middle(near.grip, far.grip)
        made = replace(made, bar=Bar(Spot(at.x, at.y), pose.bar.disc_cm))
    return made


def _grip_half_cm(pose: Pose, body: Body) -> float:
    grip = pose.grip
    return GRIP_HALF_OF_HEIGHT[grip] * body.height_cm if isinstance(grip, str) else grip / 2


def _bar_spot(pose: Pose, made: Figure) -> Spot:
    assert pose.bar
    at, k = pose.bar.at, scale(made.body)
    feet = mid_foot(made)
    if not isinstance(at, str):
        return Spot(feet.x + at[0], at[1])
    if at == "floor":
        return Spot(feet.x, pose.bar.disc_cm / 2)
    upright = minus(made.shoulder, made.waist)
    upright = Spot(upright.x / (made.body.trunk_cm / 2), upright.y / (made.body.trunk_cm / 2))
    forwards = Spot(upright.y, -upright.x)
    if at == "overhead":
        body = made.body
        straight = body.upper_arm_cm + body.forearm_cm + GRIP_OF_HAND * body.hand_cm
        aside = _grip_half_cm(pose, body) - body.shoulder_half_cm
        high = (straight**2 - aside**2 - (feet.x - made.shoulder.x) ** 2) ** 0.5
        return Spot(feet.x, made.shoulder.y + high)
    ahead, above, of = {
        "front rack": (9.5, 3.5, made.shoulder),
        "back rack": (-9.5, 4.5, made.shoulder),
        "hip": (10.5, 4.0, made.hip),
    }[at]
    return along(along(Spot(of.x, of.y), forwards, ahead * k), upright, above * k)


def _reaching(kept: ArmPose, made: Figure, pose: Pose, side: float) -> Arm:
    """The arm, reaching where the pose says so."""
    arm = made.near_arm if side > 0 else made.far_arm
    if not kept.to:
        return arm
    body = made.body
    own, other = ("near", "far") if side > 0 else ("far", "near")
    if kept.to == "bar":
        assert made.bar
        target = Spot(made.bar.at.x, made.bar.at.y, side * _grip_half_cm(pose, body))
    elif kept.to == "floor":
        target = Spot(arm.shoulder.x, PALM_CM * scale(body) + kept.raised_cm, arm.shoulder.z)
    else:
        name = kept.to.replace("other ", f"{other} ")
        try:
            target = spot(made, f"{own} {name}")
        except KeyError:
            target = spot(made, name)
    target = Spot(target.x + kept.off[0], target.y + kept.off[1], target.z + side * kept.aside)
    hand_cm = GRIP_OF_HAND * body.hand_cm
    bend = _BENDS[kept.elbow]
    bend = Spot(bend.x, bend.y, side * bend.z)
    if kept.hand is None:
        elbow, grip = reach(arm.shoulder, target, body.upper_arm_cm, body.forearm_cm + hand_cm, bend)
        wrist = along(elbow, minus(grip, elbow), body.forearm_cm / (body.forearm_cm + hand_cm))
        return Arm(shoulder=arm.shoulder, elbow=elbow, wrist=wrist, grip=grip)
    hand = down(kept.hand)
    elbow, wrist = reach(
        arm.shoulder, along(target, hand, -hand_cm), body.upper_arm_cm, body.forearm_cm, bend
    )
    return Arm(shoulder=arm.shoulder, elbow=elbow, wrist=wrist, grip=along(wrist, hand, hand_cm))
