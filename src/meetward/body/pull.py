"""Positions with the bar in straight arms at a given height: floor, shin, knee, thigh."""

from collections.abc import Callable
from math import atan2, degrees, hypot, radians, sqrt

from meetward.body.arms import BAR_RADIUS_CM, Held, Trunk, arm_drawn_cm, grip_half_cm, leg_front
from meetward.body.figure import Spot
from meetward.body.limbs import straight_arm
from meetward.body.ranges import Ranges
from meetward.body.segments import Body
from meetward.body.sought import Sought
from meetward.body.stand import Posture, Standing

KNEE_DEEP_OF_HEIGHT = 0.034

# What a good pull looks like at each height: shank's lean, thigh over the horizontal, shoulders ahead of the
# bar, and how much each matters (a weight of 1 for this many degrees or centimetres off). Common practice, no
# source.
_Want = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]
_WANTED: dict[str, _Want] = {
    "floor": ((22.0, 12.0), (8.0, 3.0), (3.0, 2.0)),
    "mid shin": ((12.0, 6.0), (22.0, 6.0), (4.0, 2.0)),
    "below knee": ((4.0, 4.0), (40.0, 12.0), (5.0, 2.0)),
    "knee": ((2.0, 3.0), (48.0, 15.0), (5.0, 2.0)),
    "above knee": ((3.0, 3.0), (52.0, 15.0), (4.5, 2.0)),
    "mid thigh": ((8.0, 4.0), (62.0, 12.0), (2.0, 2.0)),
}
_EXACT = 0.02
"""Weight of something the coach prescribed: within this many degrees or cm."""

_STEP = 1e-5
_MOST_ROUNDS = 40


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
        deep = KNEE_DEEP_OF_HEIGHT * self.body.height_cm + BAR_RADIUS_CM
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

    def settle(self, shin_most: float | None = None) -> Posture:
        """The best compromise, by damped least squares over the two angles."""
        sought = self.sought
        most = self.ankle_most if shin_most is None else shin_most
        shin, thigh, ahead = _WANTED.get(sought.height, _WANTED["floor"])
        if sought.bar_cm is not None and not sought.height:
            shin, thigh, ahead = self._wanted_between()
        if sought.shin_degrees is not None:
            shin = (sought.shin_degrees, _EXACT)
        if sought.thigh_degrees is not None:
            thigh = (sought.thigh_degrees, _EXACT)
        if sought.shoulders_ahead_cm is not None:
            ahead = (sought.shoulders_ahead_cm, _EXACT)
        if sought.knee_degrees is not None or sought.hip_over_knee_cm is not None:
            thigh = (thigh[0], 1000.0)
        lean = (0.0, 0.0) if sought.lean_degrees is None else (sought.lean_degrees, _EXACT)

        def off(s: float, t: float) -> list[float]:
            p = self.pull(s, t)
            balance = self.offset(p)
            beyond = balance - max(-self.zone, min(self.zone, balance))
            bar = p.held.bar or p.trunk.shoulder
            found = [
                (degrees(s) - shin[0]) / shin[1],
                (degrees(t) - thigh[0]) / thigh[1],
                (p.trunk.shoulder.x - bar.x - ahead[0]) / ahead[1],
                beyond / 0.3,
                self.missing / 0.01,
                max(degrees(s - most), 0.0) / 0.05,
            ]
            if sought.knees_ahead_cm is not None:
                found.append((p.knee.x - bar.x - sought.knees_ahead_cm) / _EXACT)
            if sought.knee_degrees is not None:
                found.append((degrees(self.bend(p.knee, p.hip)) - sought.knee_degrees) / _EXACT)
            if sought.hip_over_knee_cm is not None:
                found.append((p.hip.y - p.knee.y - sought.hip_over_knee_cm) / _EXACT)
            if lean[1]:
                found.append((degrees(p.lean) - lean[0]) / lean[1])
            return found

        s, t = _least_squares(off, radians(shin[0]), radians(thigh[0]))
        return self.pull(min(s, most), t)

    def _wanted_between(self) -> _Want:
        """What is wanted for a bar at so many centimetres: that of the nearest named height."""
        tall, y = self.body.height_cm, self.sought.bar_cm or 0.0
        standing = {"floor": 0.13, "mid shin": 0.19, "below knee": 0.24, "knee": 0.285, "above knee": 0.34}
        standing["mid thigh"] = 0.42
        return _WANTED[min(standing, key=lambda name: abs(standing[name] * tall - y))]


def _least_squares(off: Callable[[float, float], list[float]], s: float, t: float) -> tuple[float, float]:
    """Levenberg and Marquardt's way for two unknowns; stops when a step no longer helps."""
    here = off(s, t)
    cost = sum(r * r for r in here)
    damping = 1e-3
    for _ in range(_MOST_ROUNDS):
        by_s = off(s + _STEP, t)
        by_t = off(s, t + _STEP)
        a = b = d = g = h = 0.0
        for r, rs, rt in zip(here, by_s, by_t, strict=True):
            js, jt = (rs - r) / _STEP, (rt - r) / _STEP
            a += js * js
            b += js * jt
            d += jt * jt
            g += js * r
            h += jt * r
        moved = False
        while damping < 1e8:
            aa, dd = a * (1 + damping) + 1e-12, d * (1 + damping) + 1e-12
            det = aa * dd - b * b
            ds, dt = (-g * dd + h * b) / det, (-h * aa + g * b) / det
            ds, dt = max(-0.3, min(0.3, ds)), max(-0.3, min(0.3, dt))
            tried = off(s + ds, t + dt)
            lower = sum(r * r for r in tried)
            if lower < cost:
                moved = True
                break
            damping *= 8
        if not moved:
            break
        small = cost - lower < 1e-9 * cost and abs(ds) + abs(dt) < 1e-6
        s, t, here, cost = s + ds, t + dt, tried, lower
        damping = max(damping / 6, 1e-9)
        if small:
            break
    return s, t
