"""Limbs as links of fixed length in space: the foot on the floor, a leg above it, an arm to a bar, and joint
angles."""

from math import acos, asin, cos, degrees, hypot, radians, sin, sqrt

from meetward.body.figure import Arm, Leg, Spot
from meetward.body.segments import ANKLE_OF_FOOT, BALL_OF_FOOT, GRIP_OF_HAND, Body


def tilt_degrees(rise_cm: float, over_cm: float) -> float:
    """How far a rise of the heel tips the foot: ``atan(rise / over)``. [degrees]"""
    from_floor = hypot(rise_cm, over_cm)
    return degrees(asin(rise_cm / from_floor)) if from_floor else 0.0


def shoe_tilt(body: Body, heel_cm: float) -> float:
    """How far a shoe tips this body's foot, heel to ball. [degrees]"""
    return tilt_degrees(heel_cm, BALL_OF_FOOT * body.foot_cm)


def reach_cm(body: Body) -> float:
    """Shoulder joint to the middle of the hand, arm straight. [cm]"""
    return body.upper_arm_cm + body.forearm_cm + GRIP_OF_HAND * body.hand_cm


def angle_between(a: Spot, joint: Spot, b: Spot) -> float:
    """The angle at ``joint`` between the ways to ``a`` and to ``b``. [degrees, 0 to 180]"""
    ax, ay, az = a.x - joint.x, a.y - joint.y, a.z - joint.z
    bx, by, bz = b.x - joint.x, b.y - joint.y, b.z - joint.z
    lengths = sqrt((ax * ax + ay * ay + az * az) * (bx * bx + by * by + bz * bz))
    if not lengths:
        return 0.0
    return degrees(acos(max(-1.0, min(1.0, (ax * bx + ay * by + az * bz) / lengths))))


class Foot:
    """A foot on the floor with its sole's three points and the ankle; the ball stays where it is when the
    heel rises.

    middle_x : x of the mid-foot when the foot is flat. [cm]
    tilt : shoe and tipped foot together. [radians]
    """

    __slots__ = ("ankle", "ball", "heel", "middle_x", "out", "tilt", "toe")

    def __init__(
        self, body: Body, middle_x: float, z: float, *, heel_cm: float, out: float, up: float = 0.0
    ) -> None:
        """``z``: the ankle's distance from the middle line; ``out``: how far the toes turn out; ``up``: how
        far the foot is tipped on its ball. [radians]"""
        length = body.foot_cm
        along, across = cos(out), sin(out)
        to_ball = BALL_OF_FOOT * length
        self.middle_x = middle_x
        self.out = out
        ball_x = middle_x + (BALL_OF_FOOT - 0.5) * length * along
        # The ankle tips with the shoe's heel and with the foot; the shoe's own sole tips with the foot alone.
        shoe = radians(shoe_tilt(body, heel_cm))
        self.tilt = shoe + up
        behind = (BALL_OF_FOOT - ANKLE_OF_FOOT) * length
        height = body.ankle_height_cm
        ankle_back = behind * cos(self.tilt) - height * sin(self.tilt)
        ankle_up = behind * sin(self.tilt) + height * cos(self.tilt)
        ball_z = z + behind * across
        self.ball = Spot(ball_x, 0.0, ball_z)
        self.ankle = Spot(ball_x - ankle_back * along, ankle_up, ball_z - ankle_back * across)
        heel_back = to_ball * cos(up)
        self.heel = Spot(ball_x - heel_back * along, to_ball * sin(up), ball_z - heel_back * across)
        to_toe = (1 - BALL_OF_FOOT) * length
        self.toe = Spot(ball_x + to_toe * along, 0.0, ball_z + to_toe * across)


class LegLinks:
    """One leg above its foot: where knee and hip are for a lean of the shank and an angle of the thigh.

    The shank leans in the vertical plane of the foot, so the knee goes where the toes point. The thigh keeps
    its length in space; what it loses in the drawing follows from how far the knee stands outside the hip.
    """

    __slots__ = ("foot", "hip_half", "shank", "thigh")

    def __init__(self, body: Body, foot: Foot) -> None:
        self.foot = foot
        self.shank = body.shank_cm
        self.thigh = body.thigh_cm
        self.hip_half = body.hip_half_cm

    def knee(self, s: float) -> Spot:
        """``s``: the shank's lean from the vertical. [radians]"""
        ankle, out = self.foot.ankle, self.foot.out
        forwards = self.shank * sin(s)
        return Spot(
            ankle.x + forwards * cos(out), ankle.y + self.shank * cos(s), ankle.z + forwards * sin(out)
        )

    def thigh_drawn(self, knee: Spot) -> float:
        """The thigh's length in the drawing. [cm]"""
        aside = knee.z - self.hip_half
        return sqrt(max(self.thigh * self.thigh - aside * aside, 1.0))

    def thigh_of_knee_angle(self, s: float, flexion: float) -> float:
        """The thigh's angle over the horizontal as drawn that bends the knee by ``flexion``. [radians]"""
        knee, ankle = self.knee(s), self.foot.ankle
        drawn, aside = self.thigh_drawn(knee), knee.z - self.hip_half
        # (ankle - knee) . (hip - knee) = -shank * thigh * cos(flexion), with hip - knee = drawn * (-cos t,
        # sin t).
        a = (knee.x - ankle.x) * drawn
        b = (knee.y - ankle.y) * drawn
        c = (knee.z - ankle.z) * aside + self.shank * self.thigh * cos(flexion)
        # so b sin t - a cos t = c; with a straight knee the thigh goes on in the shank's line, and comes down
        # from there.
        whole = max(hypot(a, b), 1e-9)
        from_shank = _asin(a / whole)
        return from_shank + _asin(c / whole)

    def hip(self, knee: Spot, t: float) -> Spot:
        """Hip joint for a thigh ``t`` over the horizontal as drawn. [radians]"""
        drawn = self.thigh_drawn(knee)
        return Spot(knee.x - drawn * cos(t), knee.y + drawn * sin(t), self.hip_half)

    def leg(self, knee: Spot, hip: Spot) -> Leg:
        """The whole leg, foot included, for a knee and a hip that fit it."""
        foot = self.foot
        return Leg(hip=hip, knee=knee, ankle=foot.ankle, heel=foot.heel, ball=foot.ball, toe=foot.toe)


def _asin(value: float) -> float:
    return asin(max(-1.0, min(1.0, value)))


def two_links(start: Spot, end: Spot, first: float, second: float, pole: Spot) -> tuple[Spot, float]:
    """The joint between two links from ``start`` to ``end``, bent towards ``pole`` (a direction), and what is
    missing.

    first, second : lengths. [cm]
    The links keep their lengths from ``start``; where ``end`` is too far or too near, they point at it and
    the second value says by how many cm it is missed, else 0.
    """
    dx, dy, dz = end.x - start.x, end.y - start.y, end.z - start.z
    distance = sqrt(dx * dx + dy * dy + dz * dz)
    if distance < 1e-9:
        dx, dy, dz, distance = 0.0, -1e-9, 0.0, 1e-9
    ux, uy, uz = dx / distance, dy / distance, dz / distance
    missing = max(distance - first - second, abs(first - second) - distance, 0.0)
    along = (first * first - second * second + distance * distance) / (2 * distance)
    along = max(-first, min(first, along))
    aside = sqrt(max(first * first - along * along, 0.0))
    dot = pole.x * ux + pole.y * uy + pole.z * uz
    px, py, pz = pole.x - dot * ux, pole.y - dot * uy, pole.z - dot * uz
    size = sqrt(px * px + py * py + pz * pz)
    if size < 1e-9:
        px, py, pz, size = -uy, ux, 0.0, max(hypot(ux, uy), 1e-9)
    factor = aside / size
    return Spot(
        start.x + ux * along + px * factor,
        start.y + uy * along + py * factor,
        start.z + uz * along + pz * factor,
    ), missing


def straight_arm(body: Body, shoulder: Spot, grip: Spot) -> Arm:
    """An arm with elbow and wrist on the line to ``grip``, which has to be as far away as the arm is long."""
    whole = max(reach_cm(body), 1e-9)
    upper, lower = body.upper_arm_cm / whole, (body.upper_arm_cm + body.forearm_cm) / whole
    dx, dy, dz = grip.x - shoulder.x, grip.y - shoulder.y, grip.z - shoulder.z
    return Arm(
        shoulder=shoulder,
        elbow=Spot(shoulder.x + dx * upper, shoulder.y + dy * upper, shoulder.z + dz * upper),
        wrist=Spot(shoulder.x + dx * lower, shoulder.y + dy * lower, shoulder.z + dz * lower),
        grip=grip,
    )


def other_leg(leg: Leg) -> Leg:
    """The same leg on the other side of the body."""
    return Leg(
        hip=_across(leg.hip),
        knee=_across(leg.knee),
        ankle=_across(leg.ankle),
        heel=_across(leg.heel),
        ball=_across(leg.ball),
        toe=_across(leg.toe),
    )


def other_arm(arm: Arm) -> Arm:
    """The same arm on the other side of the body."""
    return Arm(
        shoulder=_across(arm.shoulder),
        elbow=_across(arm.elbow),
        wrist=_across(arm.wrist),
        grip=_across(arm.grip),
    )


def _across(spot: Spot) -> Spot:
    return Spot(spot.x, spot.y, -spot.z)
