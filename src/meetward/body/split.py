"""Positions with one foot in front and one behind: split jerks, split squats, lunges."""

from math import cos, radians, sin, sqrt

from meetward.body.arms import Held, Trunk, arm_drawn_cm, grip_half_cm, holding
from meetward.body.balance import feet_span
from meetward.body.figure import Figure, Leg, Spot
from meetward.body.joints import ankle_of
from meetward.body.limbs import Foot, LegLinks, other_leg, straight_arm, two_links
from meetward.body.ranges import Ranges
from meetward.body.segments import Body
from meetward.body.sought import Sought
from meetward.body.stand import assembled

KNEE_THICK_OF_HEIGHT = 0.031
"""From the knee joint to the skin: no knee joint comes nearer to the floor. Custom."""

_STANCE_OF_HIPS = 1.1
"""Each foot's distance from the middle line, in half hip widths. Custom."""

_REAR_HEEL_UP, _REAR_HEEL_MOST = 55.0, 75.0
"""How far the rear foot is tipped where nobody said how. Custom. [degrees]"""

_SHIN_BEHIND = -2.0
"""The front shank leans a little back where nobody said how. Custom. [degrees]"""


class Split:
    """A split: the front leg sets how low the hips are, the rear leg reaches back for the floor."""

    def __init__(self, body: Body, sought: Sought, ranges: Ranges) -> None:
        self.body = body
        self.ranges = ranges
        self.sought = sought
        self.missing = 0.0

    def figure(self) -> Figure:
        """The lifter with the hips over 0, near leg in front."""
        body, sought = self.body, self.sought
        front, hip_y = self._front()
        rear = self._rear(hip_y)
        lean = radians(sought.lean_degrees or 0.0)
        hip = Spot(0.0, hip_y)
        shoulder = Spot(body.trunk_cm * sin(lean), hip_y + body.trunk_cm * cos(lean))
        trunk = Trunk(hip, shoulder, lean)
        held = self._held(trunk)
        self.missing = max(self.missing, held.missing)
        return assembled(body, sought, trunk, (front, other_leg(rear)), held)

    def _front(self) -> tuple[Leg, float]:
        """The front leg, placed so that its hip is over 0, and the hip's height. [cm]"""
        body, sought = self.body, self.sought
        s = radians(_SHIN_BEHIND if sought.shin_degrees is None else sought.shin_degrees)
        t = radians(sought.split_degrees)

        def foot_at(x: float) -> Foot:
            return Foot(body, x, _STANCE_OF_HIPS * body.hip_half_cm, heel_cm=sought.heel_cm, out=0.0)

        links = LegLinks(body, foot_at(0.0))
        hip = links.hip(links.knee(s), t)
        links = LegLinks(body, foot_at(-hip.x))
        knee = links.knee(s)
        return links.leg(knee, links.hip(knee, t)), hip.y

    def _rear(self, hip_y: float) -> Leg:
        """The rear leg, its heel as high as sought, or as high as its ankle needs."""
        sought = self.sought.rear_heel_up_degrees
        up = _REAR_HEEL_UP if sought is None else sought
        most = self.ranges.ankle - 0.5
        leg, missing = self._rear_at(hip_y, up)
        while sought is None and up < _REAR_HEEL_MOST and ankle_of(self.body, leg) > most:
            up += 1.0
            leg, missing = self._rear_at(hip_y, up)
        self.missing = max(self.missing, missing)
        return leg

    def _rear_at(self, hip_y: float, up_degrees: float) -> tuple[Leg, float]:
        """The rear leg on its ball, so far back that the knee bends as sought, and what it misses the hip by.

        A knee that would go through the floor bends less, down to where it nearly touches.
        """
        body, up = self.body, radians(up_degrees)
        aside = _STANCE_OF_HIPS * body.hip_half_cm
        foot = Foot(body, 0.0, aside, heel_cm=self.sought.heel_cm, out=0.0, up=up)
        hip = Spot(0.0, hip_y, body.hip_half_cm)
        high, across = hip_y - foot.ankle.y, foot.ankle.z - hip.z
        shank, thigh = body.shank_cm, body.thigh_cm
        bend = self.sought.rear_knee_degrees
        while True:
            long = shank * shank + thigh * thigh + 2 * shank * thigh * cos(radians(bend))
            back = long - high * high - across * across
            ankle = Spot(-sqrt(max(back, 0.0)), foot.ankle.y, foot.ankle.z)
            knee, missing = two_links(hip, ankle, thigh, shank, Spot(0.4, -1.0, 0.0))
            clear = back >= 0 and knee.y >= KNEE_THICK_OF_HEIGHT * body.height_cm
            if clear or bend <= 0:
                break
            bend = max(bend - 2.0, 0.0)
        moved = Foot(
            body,
            foot.middle_x + ankle.x - foot.ankle.x,
            aside,
            heel_cm=self.sought.heel_cm,
            out=0.0,
            up=up,
        )
        return LegLinks(body, moved).leg(knee, hip), missing

    def _held(self, trunk: Trunk) -> Held:
        body, sought = self.body, self.sought
        if sought.bar in ("hanging", "floor"):
            shoulder = Spot(trunk.shoulder.x, trunk.shoulder.y, body.shoulder_half_cm)
            bar = Spot(trunk.shoulder.x, trunk.shoulder.y - arm_drawn_cm(body, sought))
            return Held(
                straight_arm(body, shoulder, Spot(bar.x, bar.y, grip_half_cm(body, sought))), bar, 0.0
            )
        return holding(body, sought, self.ranges, trunk.hip.x)(trunk)


def between_the_feet(figure: Figure, x: float) -> bool:
    """Whether ``x`` lies over the ground between the feet."""
    low, high = feet_span(figure)
    return low <= x <= high
