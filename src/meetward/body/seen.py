"""What a coach would see at once in a position: hands beside the bar, a limb in the floor, a spot unknown."""

from collections.abc import Iterator
from math import hypot

import msgspec

from meetward.body.drawings import Frame, figure_of
from meetward.body.figure import Arm, Figure
from meetward.body.placing import gaps
from meetward.body.pose import ArmPose, Pose
from meetward.body.segments import TYPICAL, Body
from meetward.body.spots import OF_A_SIDE, SPOTS
from meetward.problem import Severity

HANDS_OFF_CM = 3.0
IN_THE_FLOOR_CM = 1.5
OFF_THE_FLOOR_CM = 2.0


class Fault(msgspec.Struct, frozen=True):
    """One thing that is wrong with a position."""

    kind: str
    message: str
    repair: str
    field: str
    severity: Severity = "stop"


def faults(frame: Frame, body: Body = TYPICAL) -> list[Fault]:
    """What is wrong with a position when ``body`` takes it. Only names that are not known stop it."""
    unknown = list(_unknown_spots(frame))
    if frame.view == "front" and (frame.sought or (frame.pose and frame.pose.bar)):
        unknown.append(
            Fault(
                "bar from the front",
                "A bar is only drawn from the side.",
                "Take the bar or the view out; from the front only a pose can be seen.",
                "view",
            )
        )
    return unknown or list(_looked_at(frame, figure_of(frame, body)))


def _unknown_spots(frame: Frame) -> Iterator[Fault]:
    bar = (frame.pose and frame.pose.bar) or (frame.sought and frame.sought.bar != "none")
    known = [s for s in SPOTS if bar or s not in ("bar", "disc")]
    for prop in frame.props:
        for field, at in (("at", prop.at), ("under", prop.under), ("to", prop.to)):
            if isinstance(at, str) and at and at not in known:
                yield _no_spot(at, f"props.{field}", known)
    for arrow in frame.arrows:
        if arrow.at not in known:
            yield _no_spot(arrow.at, "arrows.at", known)
    if not frame.pose:
        return
    for name, arm in _arms(frame.pose):
        allowed = ["floor", *OF_A_SIDE, *(f"other {s}" for s in OF_A_SIDE), *known]
        if arm.to and arm.to not in allowed:
            yield _no_spot(arm.to, f"pose.{name}.to", allowed)
        if arm.to == "bar" and frame.pose.bar and frame.pose.bar.at == "hands":
            yield Fault(
                "circle", "The bar is in the hands and the hands reach for the bar.",
                "Say where the bar is with bar = { at = ... }, or give the arms directions.",
                f"pose.{name}.to",
            )  # fmt: skip


def _arms(pose: Pose) -> list[tuple[str, ArmPose]]:
    named = (("arms", pose.arms), ("near_arm", pose.near_arm), ("far_arm", pose.far_arm))
    return [(name, arm) for name, arm in named if arm]


def _no_spot(name: str, field: str, known: list[str]) -> Fault:
    if name in ("bar", "disc"):
        return Fault("no bar", "There is no bar here.", "Give the position a bar.", field)
    return Fault(
        "unknown spot", f"'{name}' is no spot of the figure.", f"Spots are {', '.join(known)}.", field
    )


def _looked_at(frame: Frame, made: Figure) -> Iterator[Fault]:
    field = "pose" if frame.pose else "sought"
    if frame.pose:
        for name, kept, arm in (
            ("near", frame.pose.near_arm or frame.pose.arms, made.near_arm),
            ("far", frame.pose.far_arm or frame.pose.arms, made.far_arm),
        ):
            if kept.to == "bar" and (off := _off_the_bar(made, arm)) > HANDS_OFF_CM:
                yield Fault(
                    "hand off the bar", f"The {name} hand is {off:.0f} cm from the bar.",
                    "Bring the bar nearer, or bend the trunk.", field, "look",
                )  # fmt: skip
        for part, gap in gaps(made, frame.pose).items() if frame.view == "side" else ():
            if abs(gap) > OFF_THE_FLOOR_CM:
                where = "over" if gap > 0 else "in"
                yield Fault(
                    "off the floor", f"The {part} is {abs(gap):.0f} cm {where} what it should touch.",
                    "Turn its parts, or say with on = what touches.", field, "look",
                )  # fmt: skip
    for name, low in _lows(made):
        if low < -IN_THE_FLOOR_CM:
            yield Fault(
                "in the floor", f"The {name} is {-low:.0f} cm in the floor.",
                "Say that it touches with on = , or turn the limb.", field, "look",
            )  # fmt: skip
    if made.bar and made.bar.at.y - made.bar.disc_cm / 2 < -0.5:
        yield Fault("in the floor", "The disc is sunk in the floor.", "Raise the bar.", field, "look")


def _off_the_bar(made: Figure, arm: Arm) -> float:
    assert made.bar
    return hypot(arm.grip.x - made.bar.at.x, arm.grip.y - made.bar.at.y)


def _lows(made: Figure) -> Iterator[tuple[str, float]]:
    """Each part with the height of its middle over the floor."""
    yield from (("hip", made.hip.y), ("shoulder", made.shoulder.y), ("head", made.head.y))
    for side, leg, arm in (("near", made.near_leg, made.near_arm), ("far", made.far_leg, made.far_arm)):
        for limb in (leg, arm):
            for part in limb.__struct_fields__:
                yield f"{side} {part}", getattr(limb, part).y
