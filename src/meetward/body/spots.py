"""Named places of a figure: where a hand reaches, where a thing stands or an arrow begins."""

from typing import Literal, get_args

from meetward.body.figure import Arm, Figure, Leg, Spot
from meetward.body.flesh import PALM_CM, SEAT_CM, scale

Side = Literal["near", "far"]

OF_THE_BODY = ("hip", "waist", "shoulder", "head", "seat", "bar", "disc", "hands", "feet", "knees")
OF_A_SIDE = ("hip", "knee", "ankle", "heel", "ball", "toe", "foot", "shoulder", "elbow", "wrist", "hand")

SPOTS: tuple[str, ...] = OF_THE_BODY + tuple(f"{s} {n}" for s in get_args(Side) for n in OF_A_SIDE)
"""All names that `spot` knows."""


def middle(*spots: Spot) -> Spot:
    """The mean of some spots."""
    n = len(spots)
    return Spot(sum(s.x for s in spots) / n, sum(s.y for s in spots) / n, sum(s.z for s in spots) / n)


def sole(leg: Leg) -> Spot:
    """The middle of the foot: halfway between heel and tip."""
    return middle(leg.heel, leg.toe)


def mid_foot(figure: Figure) -> Spot:
    """Halfway between the middles of both feet."""
    return middle(sole(figure.near_leg), sole(figure.far_leg))


def spot(figure: Figure, name: str) -> Spot:
    """The place of a name of SPOTS. Raises KeyError for another, and for a bar that is not there."""
    side, _, part = name.partition(" ")
    if side in get_args(Side) and part in OF_A_SIDE:
        near = side == "near"
        return _of_a_side(
            figure.near_leg if near else figure.far_leg, figure.near_arm if near else figure.far_arm, part
        )
    if name == "bar" and figure.bar:
        return figure.bar.at
    if name == "disc" and figure.bar:
        return Spot(figure.bar.at.x, figure.bar.at.y - figure.bar.disc_cm / 2)
    if name == "seat":
        return Spot(figure.hip.x, figure.hip.y - SEAT_CM * scale(figure.body))
    if name == "hands":
        return middle(figure.near_arm.grip, figure.far_arm.grip)
    if name == "feet":
        return mid_foot(figure)
    if name == "knees":
        return middle(figure.near_leg.knee, figure.far_leg.knee)
    if name in ("hip", "waist", "shoulder", "head"):
        found = getattr(figure, name)
        assert isinstance(found, Spot)
        return found
    raise KeyError(name)


def _of_a_side(leg: Leg, arm: Arm, part: str) -> Spot:
    if part == "hand":
        return arm.grip
    if part == "foot":
        return sole(leg)
    found = getattr(leg if hasattr(leg, part) else arm, part)
    assert isinstance(found, Spot)
    return found


def under(figure: Figure, name: str) -> Spot:
    """The place below a named spot where a thing that carries it has its top."""
    at = spot(figure, name)
    part = name.partition(" ")[2] or name
    thick = {
        "hand": PALM_CM,
        "hands": PALM_CM,
        "shoulder": SEAT_CM,
        "hip": SEAT_CM,
        "knee": 5.2,
        "elbow": 3.7,
    }
    return Spot(at.x, at.y - thick.get(part, 0.0) * scale(figure.body), at.z)
