"""Ways of segments, and two that reach for a spot in space: an arm for the bar, a leg for the floor."""

from math import cos, hypot, radians, sin

from meetward.body.figure import Spot
from meetward.body.limbs import two_links


def down(degrees: float) -> Spot:
    """The way of a segment that hangs: 0 down, 90 forwards, 180 up."""
    return Spot(sin(radians(degrees)), -cos(radians(degrees)))


def up(degrees: float) -> Spot:
    """The way of a segment that stands: 0 up, 90 forwards."""
    return Spot(sin(radians(degrees)), cos(radians(degrees)))


def minus(a: Spot, b: Spot) -> Spot:
    """From ``b`` to ``a``."""
    return Spot(a.x - b.x, a.y - b.y, a.z - b.z)


def along(a: Spot, way: Spot, by: float) -> Spot:
    """``a``, moved ``by`` times ``way``."""
    return Spot(a.x + by * way.x, a.y + by * way.y, a.z + by * way.z)


def length(a: Spot) -> float:
    """Length in space."""
    return hypot(a.x, a.y, a.z)


def reach(root: Spot, target: Spot, first_cm: float, second_cm: float, bend: Spot) -> tuple[Spot, Spot]:
    """Middle joint and end of two segments from ``root`` towards ``target``.

    bend : the way the middle joint goes; only its part across the line to the target counts.
    The end is at the target where it can be reached; otherwise as near as the segments come.
    """
    joint, missing = two_links(root, target, first_cm, second_cm, bend)
    if not missing:
        return joint, target
    way = minus(target, joint)
    return joint, along(joint, way, second_cm / (length(way) or 1.0))
