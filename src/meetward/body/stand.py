"""Positions on two like feet in which the bar goes with the trunk: squats, racks, overhead, dips, power
positions."""

from math import asin, cos, radians, sin

from meetward.body.arms import Held, Trunk, hang_on, holding
from meetward.body.balance import WEIGHTS
from meetward.body.figure import Bar, Figure, Leg, Spot
from meetward.body.limbs import Foot, LegLinks, other_arm, other_leg
from meetward.body.ranges import Ranges
from meetward.body.roots import root
from meetward.body.segments import HEAD_OF_NECK_AND_HEAD, Body
from meetward.body.sought import Sought

STANDING_KNEE = 4.0
"""Knees of somebody who stands at ease: not locked. Custom. [degrees]"""

_LEAN_AT_BOTTOM = {"front rack": 12.0, "overhead": 21.0, "back rack": 30.0, "none": 28.0, "hanging": 14.0}
"""Trunk lean a comfortable lifter has at the bottom, by where the bar is; less on the way. Custom.
[degrees]"""

_LEAN_AT_EASE = {"back rack": 5.0}
"""The same standing; upright where nothing is said. Custom. [degrees]"""

LEAN_MOST = {"front rack": 36.0, "back rack": 65.0, "overhead": 55.0, "none": 75.0}
"""Lean past which the bar would leave its place; far from good, but possible. Custom. [degrees]"""

NECK_FOLLOWS = 0.45
"""How much of the trunk's lean the neck keeps: eyes stay ahead. Custom."""

SHIN_MOST, _SHIN_LEAST = radians(62.0), radians(-28.0)
_LEAN_LEAST, _LEAN_END = radians(-25.0), radians(85.0)


def stands_wide(sought: Sought) -> bool:
    """Whether the feet stand as in a squat where nobody said how."""
    on_the_body = sought.bar in ("front rack", "back rack", "overhead", "none")
    deep = sought.thigh_degrees is not None or sought.hip_over_knee_cm is not None
    return on_the_body and deep and sought.feet == "flat"


def stance(body: Body, sought: Sought) -> tuple[float, float]:
    """Middle line to ankle, and how far the toes turn out. [cm, radians]"""
    name = sought.stance or ("shoulders" if stands_wide(sought) else "hips")
    half = {
        "narrow": body.hip_half_cm,
        "hips": 1.3 * body.hip_half_cm,
        "shoulders": 0.9 * body.shoulder_half_cm,
        "wide": 1.25 * body.shoulder_half_cm,
    }[name]
    out = sought.toes_out_degrees
    if out is None:
        out = {"narrow": 5.0, "hips": 10.0, "shoulders": 25.0, "wide": 30.0}[name]
    return half, radians(out)


class Posture:
    """Joints of a position with both sides alike."""

    __slots__ = ("ankle_lean", "held", "hip", "knee", "lean", "thigh", "trunk")

    def __init__(
        self, knee: Spot, hip: Spot, trunk: Trunk, held: Held, ankle_lean: float, thigh: float
    ) -> None:
        self.knee = knee
        self.hip = hip
        self.trunk = trunk
        self.held = held
        self.lean = trunk.lean
        self.ankle_lean = ankle_lean
        self.thigh = thigh


class Standing:
    """What stays the same while a position is sought: body, feet, bar, and how the arms hold."""

    def __init__(self, body: Body, sought: Sought, ranges: Ranges, bar_kg: float) -> None:
        self.body = body
        self.sought = sought
        self.ranges = ranges
        half, out = stance(body, sought)
        up = radians(sought.heels_up_degrees) if sought.feet == "toes" else 0.0
        self.foot = Foot(body, 0.0, half, heel_cm=sought.heel_cm, out=out, up=up)
        self.links = LegLinks(body, self.foot)
        self.over_x = self.foot.ball.x + 0.01 * body.height_cm if sought.feet == "toes" else 0.0
        if sought.over_cm is not None:
            self.over_x = sought.over_cm
        self.hold = holding(body, sought, ranges, self.over_x)
        self.weights = WEIGHTS[body.sex]
        self.bar_share = bar_kg / max(body.mass_kg, 1.0) if sought.bar != "none" else 0.0
        self.standing_hip = self.foot.ankle.y + body.shank_cm + body.thigh_cm
        # A raised heel gives the shank what it takes from the ankle.
        self.ankle_most = min(SHIN_MOST, radians(ranges.ankle) + self.foot.tilt)

    def thigh(self, s: float) -> float:
        """The thigh over the horizontal, as drawn, for a shank's lean ``s``. [radians]"""
        sought = self.sought
        if sought.thigh_degrees is not None:
            return radians(sought.thigh_degrees)
        knee = self.links.knee(s)
        if sought.hip_over_knee_cm is not None:
            return _asin(sought.hip_over_knee_cm / self.links.thigh_drawn(knee))
        if sought.dip_percent is not None:
            # Standing at ease has its knees a little bent; the dip counts from there.
            at_ease = self.links.thigh_of_knee_angle(radians(STANDING_KNEE) / 2, radians(STANDING_KNEE))
            standing = self.links.hip(self.links.knee(radians(STANDING_KNEE) / 2), at_ease).y
            drop = sought.dip_percent / 100 * self.body.height_cm
            return _asin((standing - drop - knee.y) / self.links.thigh_drawn(knee))
        bend = STANDING_KNEE if sought.knee_degrees is None else sought.knee_degrees
        return self.links.thigh_of_knee_angle(s, radians(bend))

    def wanted_lean(self, t: float) -> float:
        """The lean a comfortable lifter has at this depth, or the one that was sought. [radians]"""
        sought = self.sought
        if sought.lean_degrees is not None:
            return radians(sought.lean_degrees)
        if sought.feet == "toes":
            return radians(-6.0 if sought.bar == "hanging" else 0.0)
        if sought.dip_percent is not None:
            return 0.0
        bottom = _LEAN_AT_BOTTOM.get(sought.bar, 0.0)
        at_ease = _LEAN_AT_EASE.get(sought.bar, 0.0)
        share = max(0.0, min(1.0, (radians(85.0) - t) / radians(85.0)))
        return radians(at_ease + (bottom - at_ease) * share)

    def posture(self, s: float, lean: float, t: float | None = None) -> Posture:
        """The whole position for a shank's and a trunk's lean. [radians]"""
        knee = self.links.knee(s)
        thigh = self.thigh(s) if t is None else t
        hip = self.links.hip(knee, thigh)
        middle = Spot(hip.x, hip.y)
        length = self.body.trunk_cm
        shoulder = Spot(hip.x + length * sin(lean), hip.y + length * cos(lean))
        trunk = Trunk(middle, shoulder, lean)
        if self.sought.bar in ("hanging", "floor"):
            held = hang_on(self.body, self.sought, trunk, knee, self.foot.ankle)
        else:
            held = self.hold(trunk)
        return Posture(knee, hip, trunk, held, s, thigh)

    def offset(self, p: Posture) -> float:
        """How far the common centre of lifter and bar is ahead of where it belongs. [cm]"""
        w, foot = self.weights, self.foot
        hip_x, shoulder_x, knee_x, ankle_x = p.hip.x, p.trunk.shoulder.x, p.knee.x, foot.ankle.x
        head_x = shoulder_x + self.body.neck_and_head_cm * sin(NECK_FOLLOWS * p.lean) * w.head_at
        arm = p.held.arm
        x = (
            w.head * head_x
            + w.trunk * (shoulder_x + (hip_x - shoulder_x) * w.trunk_at)
            + 2
            * (
                w.thigh * (hip_x + (knee_x - hip_x) * w.thigh_at)
                + w.shank * (knee_x + (ankle_x - knee_x) * w.shank_at)
                + w.foot * 0.5 * (foot.heel.x + foot.toe.x)
                + w.upper_arm * (arm.shoulder.x + (arm.elbow.x - arm.shoulder.x) * w.upper_arm_at)
                + w.forearm * (arm.elbow.x + (arm.wrist.x - arm.elbow.x) * w.forearm_at)
                + w.hand * arm.grip.x
            )
        )
        if p.held.bar is not None:
            x = (x + self.bar_share * p.held.bar.x) / (1 + self.bar_share)
        return x - self.over_x

    def lean_for(self, s: float) -> float:
        """The trunk's lean that balances a shank's lean ``s``; the end of what is tried where none does.
        [radians]"""
        t = self.thigh(s)

        def off(lean: float) -> float:
            return self.offset(self.posture(s, lean, t))

        least, most = off(_LEAN_LEAST), off(_LEAN_END)
        if least >= 0:
            return _LEAN_LEAST
        if most <= 0:
            return _LEAN_END
        return root(off, _LEAN_LEAST, _LEAN_END, least, most)

    def shin_most(self) -> float:
        """How far the shank can lean: the ankle's end, or where calf and thigh meet. [radians]"""
        end, limit = self.ankle_most, radians(self.ranges.knee)
        if self.knee_bend(end) <= limit:
            return end
        least = _SHIN_LEAST
        if self.knee_bend(least) >= limit:
            return least
        return root(
            lambda s: self.knee_bend(s) - limit,
            least,
            end,
            self.knee_bend(least) - limit,
            self.knee_bend(end) - limit,
        )

    def knee_bend(self, s: float) -> float:
        """The knee's flexion in space for a shank's lean ``s``. [radians]"""
        knee = self.links.knee(s)
        return self.bend(knee, self.links.hip(knee, self.thigh(s)))

    def bend(self, knee: Spot, hip: Spot) -> float:
        """The knee's flexion in space for these joints. [radians]"""
        links, ankle = self.links, self.foot.ankle
        dot = (
            (ankle.x - knee.x) * (hip.x - knee.x)
            + (ankle.y - knee.y) * (hip.y - knee.y)
            + (ankle.z - knee.z) * (hip.z - knee.z)
        )
        return radians(90.0) + _asin(dot / max(links.shank * links.thigh, 1e-9))

    def settle(self) -> Posture:
        """The most comfortable balanced position: the wanted lean if ankle and knee allow, else as upright as
        they do."""
        return self.settle_within(self.shin_most())

    def settle_within(self, most: float) -> Posture:
        """The same for another end of the shank's lean than ankle and knee set. [radians]"""
        if self.sought.shin_degrees is not None:
            s = radians(self.sought.shin_degrees)
            if self.sought.lean_degrees is not None:
                return self.posture(s, radians(self.sought.lean_degrees))
            return self.posture(s, self.lean_for(s))
        least = _SHIN_LEAST

        def off(s: float) -> float:
            t = self.thigh(s)
            return self.offset(self.posture(s, self.wanted_lean(t), t))

        at_most = off(most)
        if at_most <= 0:
            return self.posture(most, self.lean_for(most))
        at_least = off(least)
        if at_least >= 0:
            return self.posture(least, self.lean_for(least))
        s = root(off, least, most, at_least, at_most)
        t = self.thigh(s)
        return self.posture(s, self.wanted_lean(t), t)

    def figure(self, p: Posture) -> Figure:
        """The drawn lifter in this position, both sides alike."""
        leg = self.links.leg(p.knee, p.hip)
        return assembled(self.body, self.sought, p.trunk, (leg, other_leg(leg)), p.held)


def assembled(body: Body, sought: Sought, trunk: Trunk, legs: tuple[Leg, Leg], held: Held) -> Figure:
    """The drawn lifter from the parts: near and far leg, and arms that hold the bar alike."""
    hip, shoulder = trunk.hip, trunk.shoulder
    return Figure(
        body=body,
        hip=hip,
        waist=Spot((hip.x + shoulder.x) / 2, (hip.y + shoulder.y) / 2),
        shoulder=shoulder,
        head=head_of(body, trunk),
        near_leg=legs[0],
        far_leg=legs[1],
        near_arm=held.arm,
        far_arm=other_arm(held.arm),
        heel_cm=sought.heel_cm,
        bar=None if held.bar is None else Bar(held.bar, sought.disc_cm),
    )


def head_of(body: Body, trunk: Trunk) -> Spot:
    """The head's middle on a neck that keeps part of the trunk's lean."""
    neck, up = NECK_FOLLOWS * trunk.lean, HEAD_OF_NECK_AND_HEAD * body.neck_and_head_cm
    return Spot(trunk.shoulder.x + up * sin(neck), trunk.shoulder.y + up * cos(neck))


def _asin(value: float) -> float:
    return asin(max(-1.0, min(1.0, value)))
