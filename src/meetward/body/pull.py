"""Positions with the bar in straight arms at a given height: floor, shin, knee, thigh."""

from math import atan2, degrees, hypot, radians, sqrt
from typing import NamedTuple

from meetward.body.arms import BAR_RADIUS_CM, KNEE_DEEP, Held, Trunk, arm_drawn_cm, grip_half_cm, leg_front
from meetward.body.figure import Spot
from meetward.body.limbs import straight_arm
from meetward.body.ranges import Ranges
from meetward.body.roots import least_squares
from meetward.body.segments import Body
from meetward.body.sought import Sought
from meetward.body.stand import Posture, Standing


class Wanted(NamedTuple):
    """What a good pull looks like, and how far off counts as one fault: shin and thigh in degrees, shoulders
    ahead in cm."""

    shin: tuple[float, float]
    thigh: tuple[float, float]
    ahead: tuple[float, float]


_WANTED = {
    "floor": Wanted((18.0, 4.0), (8.0, 3.5), (3.5, 1.0)),
    "mid shin": Wanted((12.0, 6.0), (22.0, 6.0), (4.0, 2.0)),
    "below knee": Wanted((4.0, 4.0), (40.0, 12.0), (5.0, 2.0)),
    "knee": Wanted((2.0, 3.0), (48.0, 15.0), (5.0, 2.0)),
    "above knee": Wanted((3.0, 3.0), (52.0, 15.0), (4.5, 2.0)),
    "mid thigh": Wanted((8.0, 4.0), (62.0, 12.0), (2.0, 2.0)),
}
"""By the height of the bar. Common practice, no source."""

_STANDING_HEIGHTS = {
    "floor": 0.13, "mid shin": 0.19, "below knee": 0.24, "knee": 0.285, "above knee": 0.34, "mid thigh": 0.42,
}  # fmt: skip
"""The same heights as fractions of the lifter's, for a bar that is given in centimetres. Custom."""

_EXACT, _NO_MATTER = 0.02, 1000.0
_OFF_BALANCE, _HANDS_OFF, _PAST_THE_END = 0.3, 0.01, 0.05
"""How far off counts as one fault: what a coach prescribed [degrees, cm], balance [cm], hands [cm], ankle
[degrees]."""


class Pulling(Standing):
    """A position in which the bar's height is given and the body follows it.

    For a shank's lean and a thigh's angle everything else is fixed: the knee, the hip, the bar touching the
    leg at its height, and the one trunk that joins hip and bar with straight arms. The two angles are then
    chosen so that shoulders, shins, thighs and balance are as near as they get to what a good pull looks
    like.
    """

    def __init__(self, body: Body, sought: Sought, ranges: Ranges, bar_kg: float) -> None:
        super().__init__(body, sought, ranges, bar_kg)
        self.arm = arm_drawn_cm(body, sought)
        self.grip_half = grip_half_cm(body, sought)
        self.zone = 0.13 * body.foot_cm
        self.missing = 0.0
        self.wanted = _wanted(sought, body.height_cm)

    def bar_y(self, knee: Spot, hip: Spot) -> float:
        """Height of the bar's middle over what the feet stand on. [cm]"""
        sought, tall = self.sought, self.body.height_cm
        if sought.bar_cm is not None:
            return sought.bar_cm - sought.stands_on_cm
        ankle_y = self.foot.ankle.y
        return {
            "mid shin": ankle_y + 0.62 * (knee.y - ankle_y),
            "below knee": knee.y - 0.045 * tall,
            "knee": knee.y + 0.005 * tall,
            "above knee": knee.y + 0.055 * tall,
            "mid thigh": knee.y + 0.55 * (hip.y - knee.y),
        }.get(sought.height, max(sought.disc_cm / 2, 3.0) - sought.stands_on_cm)

    def bar_x(self, knee: Spot, hip: Spot, y: float) -> float:
        """As near to the lifter as the leg lets the bar, at this height. [cm]"""
        thigh, shin = leg_front(self.body, hip, knee, self.foot.ankle)
        found = []
        for (x0, y0), (x1, y1) in (shin, thigh):
            if min(y0, y1) <= y <= max(y0, y1) and y1 != y0:
                found.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
        deep = KNEE_DEEP * self.body.height_cm + BAR_RADIUS_CM
        if abs(y - knee.y) < deep:
            found.append(knee.x + sqrt(deep * deep - (y - knee.y) ** 2))
        if found:
            return max(found)
        return max(shin[0][0] if y < shin[0][1] else knee.x, self.foot.ankle.x)

    def pull(self, s: float, t: float) -> Posture:
        """The position for a shank's lean and a thigh's angle. [radians]"""
        knee = self.links.knee(s)
        hip = self.links.hip(knee, t)
        y = self.bar_y(knee, hip)
        bar = Spot(self.bar_x(knee, hip, y), y)
        shoulder, self.missing = self._shoulder(hip, bar)
        lean = atan2(shoulder.x - hip.x, shoulder.y - hip.y)
        trunk = Trunk(Spot(hip.x, hip.y), shoulder, lean)
        joint = Spot(shoulder.x, shoulder.y, self.body.shoulder_half_cm)
        grip = Spot(bar.x, bar.y, self.grip_half)
        if self.missing:
            # Hands that do not come to the bar stay on the line to it.
            share = self.arm / (hypot(bar.x - joint.x, bar.y - joint.y) or 1.0)
            grip = Spot(
                joint.x + (bar.x - joint.x) * share, joint.y + (bar.y - joint.y) * share, self.grip_half
            )
        return Posture(knee, hip, trunk, Held(straight_arm(self.body, joint, grip), bar, self.missing), s, t)

    def _shoulder(self, hip: Spot, bar: Spot) -> tuple[Spot, float]:
        """Where trunk and straight arms meet, the upper of the two places, and how far they are from meeting.
        [cm]"""
        dx, dy = bar.x - hip.x, bar.y - hip.y
        distance = hypot(dx, dy) or 1e-9
        trunk, arm = self.body.trunk_cm, self.arm
        missing = max(distance - trunk - arm, abs(trunk - arm) - distance, 0.0)
        along = (trunk * trunk - arm * arm + distance * distance) / (2 * distance)
        along = max(-trunk, min(trunk, along))
        aside = sqrt(max(trunk * trunk - along * along, 0.0))
        ux, uy = dx / distance, dy / distance
        # Left of the way from hip to bar, which leads forwards and down, is up.
        return Spot(hip.x + ux * along - uy * aside, hip.y + uy * along + ux * aside), missing

    def settle(self) -> Posture:
        """The best compromise, by damped least squares over the two angles."""
        s, t = least_squares(self.faults, radians(self.wanted.shin[0]), radians(self.wanted.thigh[0]))
        return self.pull(min(s, self.ankle_most), t)

    def strain(self, s: float, t: float) -> float:
        """How far two angles are from a good pull: the sum of the squared faults. [radians]"""
        return sum(fault * fault for fault in self.faults(s, t))

    def faults(self, s: float, t: float) -> list[float]:
        """What is off for a shank's lean and a thigh's angle, each divided by how much of it matters.
        [radians]"""
        sought, wanted = self.sought, self.wanted
        p = self.pull(s, t)
        balance = self.offset(p)
        beyond = balance - max(-self.zone, min(self.zone, balance))
        bar = p.held.bar or p.trunk.shoulder
        found = [
            (degrees(s) - wanted.shin[0]) / wanted.shin[1],
            (degrees(t) - wanted.thigh[0]) / wanted.thigh[1],
            (p.trunk.shoulder.x - bar.x - wanted.ahead[0]) / wanted.ahead[1],
            beyond / _OFF_BALANCE,
            self.missing / _HANDS_OFF,
            max(degrees(s - self.ankle_most), 0.0) / _PAST_THE_END,
            max(degrees(t) - 92.0, -10.0 - degrees(p.lean), 0.0) / _PAST_THE_END,
        ]
        if sought.knees_ahead_cm is not None:
            found.append((p.knee.x - bar.x - sought.knees_ahead_cm) / _EXACT)
        if sought.knee_degrees is not None:
            found.append((degrees(self.bend(p.knee, p.hip)) - sought.knee_degrees) / _EXACT)
        if sought.hip_over_knee_cm is not None:
            found.append((p.hip.y - p.knee.y - sought.hip_over_knee_cm) / _EXACT)
        if sought.lean_degrees is not None:
            found.append((degrees(p.lean) - sought.lean_degrees) / _EXACT)
        return found


def _wanted(sought: Sought, tall_cm: float) -> Wanted:
    """What a good pull has at this height of the bar, with what the coach prescribed in its place."""
    wanted = _WANTED.get(sought.height, _WANTED["floor"])
    if sought.bar_cm is not None and not sought.height:
        up = (sought.bar_cm - sought.stands_on_cm) / max(tall_cm, 1.0)
        wanted = _WANTED[min(_STANDING_HEIGHTS, key=lambda name: abs(_STANDING_HEIGHTS[name] - up))]
    if sought.shin_degrees is not None:
        wanted = wanted._replace(shin=(sought.shin_degrees, _EXACT))
    if sought.thigh_degrees is not None:
        wanted = wanted._replace(thigh=(sought.thigh_degrees, _EXACT))
    elif sought.knee_degrees is not None or sought.hip_over_knee_cm is not None:
        wanted = wanted._replace(thigh=(wanted.thigh[0], _NO_MATTER))
    if sought.shoulders_ahead_cm is not None:
        wanted = wanted._replace(ahead=(sought.shoulders_ahead_cm, _EXACT))
    return wanted
