"""Where the bar is held, and the arms that hold it there, for every place the bar can be in."""

from collections.abc import Callable
from math import cos, hypot, radians, sin, sqrt
from typing import NamedTuple

from meetward.body.figure import Arm, Spot
from meetward.body.limbs import reach_cm, straight_arm, two_links
from meetward.body.rack import ELBOW_HIGH, RACK_FORWARDS, RACK_UP, elbow_height, racked_arm
from meetward.body.ranges import Ranges
from meetward.body.segments import GRIP_OF_HAND, Body
from meetward.body.sought import Sought

BAR_RADIUS_CM = 1.4
"""Half of 28 mm, the men's bar. Status: from memory."""

GRIP_HALF_OF_HEIGHT = {"snatch": 0.27, "clean": 0.155, "narrow": 0.12}
"""Middle line to the middle of the hand on the bar, as a fraction of height. Custom."""

_ELBOW_FOLDED = 142.0
"""As far as elbows fold at ease, with a bar on the back or pulled high. Custom. [degrees]"""

# Places on the body as fractions of height, all custom and drawn from the eye.
SHIN_DEEP = 0.028
"""From the line knee to ankle to the front of the shin."""
KNEE_DEEP = 0.037
THIGH_DEEP_AT_KNEE, THIGH_DEEP_AT_HIP = 0.036, 0.060
CHEST_DEEP = 0.065
_BACK_BACKWARDS, _BACK_UP = 0.040, 0.030
_HEIGHTS = {"hip": 0.02, "navel": 0.36, "ribs": 0.58, "chest": 0.78}
"""Pulled: along the trunk from the hip joint, as a fraction of the trunk."""
_ABOVE = {"shoulder": 0.02, "chin": 0.055, "forehead": 0.13, "crown": 0.20}
"""Over the shoulder joint, as a fraction of height."""
_FACE_FORWARDS = 0.075
_NAPE_BACKWARDS = 0.062


class Trunk(NamedTuple):
    """The trunk's ends and its lean. [cm, radians]"""

    hip: Spot
    shoulder: Spot
    lean: float


class Held(NamedTuple):
    """An arm, the bar's middle (None without one), and by how many cm the hand misses it."""

    arm: Arm
    bar: Spot | None
    missing: float


Holding = Callable[[Trunk], Held]
"""Arms and bar for a trunk; what the legs do is known to the few ways that need it."""


def grip_half_cm(body: Body, sought: Sought) -> float:
    """Middle line to the middle of the hand, never wider than the arm can go. [cm]"""
    widest = body.shoulder_half_cm + 0.85 * reach_cm(body)
    half = GRIP_HALF_OF_HEIGHT[sought.grip]
    if sought.bar == "back rack":
        return min(max(half * body.height_cm, _grip_behind(body)), widest)
    return min(half * body.height_cm, widest)


def _grip_behind(body: Body) -> float:
    """The narrowest grip on a bar on the back that leaves the elbows unfolded enough. [cm]"""
    upper, lower = body.upper_arm_cm, body.forearm_cm
    inner = radians(180.0 - _ELBOW_FOLDED)
    to_wrist = upper * upper + lower * lower - 2 * upper * lower * cos(inner)
    across = _BACK_BACKWARDS * body.height_cm
    along = _BACK_UP * body.height_cm - GRIP_OF_HAND * body.hand_cm
    return body.shoulder_half_cm + sqrt(max(to_wrist - across * across - along * along, 0.0))


def arm_drawn_cm(body: Body, sought: Sought) -> float:
    """A straight arm's length in the drawing, shoulder to hand. [cm]"""
    whole, aside = reach_cm(body), grip_half_cm(body, sought) - body.shoulder_half_cm
    return sqrt(max(whole * whole - aside * aside, 1.0))


def in_the_trunks_frame(trunk: Trunk, forwards: float, upwards: float) -> Spot:
    """A spot beside the shoulders: ``forwards`` across the trunk, ``upwards`` along it. [cm]"""
    c, s = cos(trunk.lean), sin(trunk.lean)
    return Spot(trunk.shoulder.x + forwards * c + upwards * s, trunk.shoulder.y + upwards * c - forwards * s)


def bent_arm(
    body: Body, shoulder: Spot, bar: Spot, grip_half: float, pole: Spot, hand: Spot | None = None
) -> Held:
    """An arm whose elbow points towards ``pole``.

    hand : the unit direction in which the hand comes to the bar; without it the wrist is straight.
    """
    grip = Spot(bar.x, bar.y, grip_half)
    length = GRIP_OF_HAND * body.hand_cm
    if hand is None:
        lower = body.forearm_cm + length
        elbow, missing = two_links(shoulder, grip, body.upper_arm_cm, lower, pole)
        wrist = _towards(elbow, grip, body.forearm_cm)
    else:
        wrist = Spot(grip.x - hand.x * length, grip.y - hand.y * length, grip.z - hand.z * length)
        elbow, missing = two_links(shoulder, wrist, body.upper_arm_cm, body.forearm_cm, pole)
    if missing > 1e-9:
        wrist = _towards(elbow, wrist, body.forearm_cm)
        grip = _towards(wrist, grip, length)
    return Held(Arm(shoulder, elbow, wrist, grip), bar, missing)


def holding(body: Body, sought: Sought, ranges: Ranges, over_x: float) -> Holding:
    """The way of holding for every place of the bar that goes with the trunk.

    over_x : where a bar overhead has to be: over mid-foot. [cm]
    """
    where = sought.bar
    half, high = grip_half_cm(body, sought), body.height_cm
    joint = body.shoulder_half_cm

    def overhead(trunk: Trunk) -> Held:
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        drawn = arm_drawn_cm(body, sought)
        back = over_x - shoulder.x
        missing = max(abs(back) - 0.9 * drawn, 0.0)
        back = max(-0.9 * drawn, min(0.9 * drawn, back))
        bar = Spot(shoulder.x + back, shoulder.y + sqrt(drawn * drawn - back * back))
        return Held(straight_arm(body, shoulder, Spot(bar.x, bar.y, half)), bar, missing)

    def front_rack(trunk: Trunk) -> Held:
        bar = in_the_trunks_frame(trunk, RACK_FORWARDS * high, RACK_UP * high)
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        wanted = ELBOW_HIGH if sought.elbow_degrees is None else sought.elbow_degrees
        raised = elbow_height(body, half, ranges.elbow, ranges.wrist, wanted, trunk.lean)
        arm, missing = racked_arm(body, shoulder, bar, half, raised)
        return Held(arm, bar, missing)

    def back_rack(trunk: Trunk) -> Held:
        bar = in_the_trunks_frame(trunk, -_BACK_BACKWARDS * high, _BACK_UP * high)
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        down_and_back = Spot(-0.5, -1.0, 0.3)
        return bent_arm(body, shoulder, bar, half, down_and_back, Spot(0.0, 1.0, 0.0))

    def _off_chest(down: float) -> float:
        """How far from the chest a bar so far under the shoulders is where elbows fold no more. [cm]"""
        upper, lower = body.upper_arm_cm, body.forearm_cm + GRIP_OF_HAND * body.hand_cm
        inner = radians(180.0 - _ELBOW_FOLDED)
        far = upper * upper + lower * lower - 2 * upper * lower * cos(inner)
        return sqrt(max(far - (half - joint) ** 2 - down * down, 0.0))

    def pulled(trunk: Trunk) -> Held:
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        if sought.height in _ABOVE:
            bar = in_the_trunks_frame(trunk, _FACE_FORWARDS * high, _ABOVE[sought.height] * high)
        else:
            along = _HEIGHTS.get(sought.height, _HEIGHTS["chest"])
            down = (along - 1.0) * body.trunk_cm
            bar = in_the_trunks_frame(trunk, max(CHEST_DEEP * high + BAR_RADIUS_CM, _off_chest(down)), down)
        return bent_arm(body, shoulder, bar, half, Spot(-0.3, 1.0, 1.0))

    def pressed(trunk: Trunk) -> Held:
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        forwards = -_NAPE_BACKWARDS if where == "behind neck" else _FACE_FORWARDS
        upwards = _ABOVE.get(sought.height, _ABOVE["forehead"])
        bar = in_the_trunks_frame(trunk, forwards * high, upwards * high)
        return bent_arm(body, shoulder, bar, half, Spot(0.6, -1.0, 0.2), Spot(0.0, 1.0, 0.0))

    def free(trunk: Trunk) -> Held:
        shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, joint)
        whole = reach_cm(body)
        x, y = {"hang": (0.0, -1.0), "forwards": (1.0, 0.0), "up": (0.0, 1.0)}[sought.free_arms]
        grip = Spot(shoulder.x + x * whole, shoulder.y + y * whole, joint)
        return Held(straight_arm(body, shoulder, grip), None, 0.0)

    ways: dict[str, Holding] = {
        "overhead": overhead,
        "front rack": front_rack,
        "back rack": back_rack,
        "pulled": pulled,
        "pressed": pressed,
        "behind neck": pressed,
    }
    return ways.get(where, free)


def hang_on(body: Body, sought: Sought, trunk: Trunk, knee: Spot, ankle: Spot) -> Held:
    """Straight arms from the shoulders; the bar touches thigh, knee or shin, or hangs free where it would
    not.

    ``knee`` and ``ankle`` are one side's; the surface is the front of the leg as drawn.
    """
    drawn = arm_drawn_cm(body, sought)
    sx, sy = trunk.shoulder.x, trunk.shoulder.y
    thigh, shin = leg_front(body, trunk.hip, knee, ankle)
    touching = (_lowest_on(*line, sx, sy, drawn) for line in (thigh, _belly(body, trunk), shin))
    # Swung back from the front, the bar stops at the first thing that it meets.
    spot = max((spot for spot in touching if spot is not None), default=None)
    x, y = spot or _round_the_hip(body, trunk, drawn) or (sx, sy - drawn)
    shoulder = Spot(sx, sy, body.shoulder_half_cm)
    bar = Spot(x, y)
    return Held(straight_arm(body, shoulder, Spot(x, y, grip_half_cm(body, sought))), bar, 0.0)


Line = tuple[tuple[float, float], tuple[float, float]]


def leg_front(body: Body, hip: Spot, knee: Spot, ankle: Spot) -> tuple[Line, Line]:
    """Where a bar's middle can be when it touches the thigh, and when it touches the shin, both from
    below."""
    h = body.height_cm
    tx, ty = hip.x - knee.x, hip.y - knee.y
    t = hypot(tx, ty) or 1.0
    nx, ny = ty / t, -tx / t
    low, high = THIGH_DEEP_AT_KNEE * h + BAR_RADIUS_CM, THIGH_DEEP_AT_HIP * h + BAR_RADIUS_CM
    sx, sy = knee.x - ankle.x, knee.y - ankle.y
    s = hypot(sx, sy) or 1.0
    mx, my = sy / s, -sx / s
    shin = SHIN_DEEP * h + BAR_RADIUS_CM
    return (
        ((knee.x + nx * low, knee.y + ny * low), (hip.x + nx * high, hip.y + ny * high)),
        ((ankle.x + mx * shin, ankle.y + my * shin), (knee.x + mx * shin, knee.y + my * shin)),
    )


def _belly(body: Body, trunk: Trunk) -> Line:
    """Where a bar's middle can be when it touches the front of the trunk."""
    deep = THIGH_DEEP_AT_HIP * body.height_cm + BAR_RADIUS_CM
    x, y = deep * cos(trunk.lean), -deep * sin(trunk.lean)
    return (trunk.hip.x + x, trunk.hip.y + y), (trunk.shoulder.x + x, trunk.shoulder.y + y)


def _round_the_hip(body: Body, trunk: Trunk, drawn: float) -> tuple[float, float] | None:
    """Where the bar touches a hip that is stretched so far that it is on neither thigh nor trunk."""
    deep = THIGH_DEEP_AT_HIP * body.height_cm + BAR_RADIUS_CM
    dx, dy = trunk.shoulder.x - trunk.hip.x, trunk.shoulder.y - trunk.hip.y
    apart = hypot(dx, dy) or 1e-9
    along = (deep * deep - drawn * drawn + apart * apart) / (2 * apart)
    if abs(along) > deep:
        return None
    aside = sqrt(deep * deep - along * along)
    ux, uy = dx / apart, dy / apart
    return trunk.hip.x + ux * along + uy * aside, trunk.hip.y + uy * along - ux * aside


def _lowest_on(
    start: tuple[float, float], end: tuple[float, float], cx: float, cy: float, radius: float
) -> tuple[float, float] | None:
    """The lower spot of a line that is ``radius`` from a centre, if the line has one."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    fx, fy = start[0] - cx, start[1] - cy
    a, b, c = dx * dx + dy * dy, fx * dx + fy * dy, fx * fx + fy * fy - radius * radius
    under = b * b - a * c
    if under < 0 or a == 0:
        return None
    root = sqrt(under)
    for share in ((-b - root) / a, (-b + root) / a):
        if 0.0 <= share <= 1.0:
            return start[0] + dx * share, start[1] + dy * share
    return None


def _towards(start: Spot, end: Spot, length: float) -> Spot:
    dx, dy, dz = end.x - start.x, end.y - start.y, end.z - start.z
    size = sqrt(dx * dx + dy * dy + dz * dz) or 1.0
    return Spot(start.x + dx * length / size, start.y + dy * length / size, start.z + dz * length / size)
