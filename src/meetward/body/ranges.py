"""How far each joint goes, in degrees, and what a knee-to-wall test means in the drawn lifter."""

from math import asin, degrees

import msgspec

from meetward.body.segments import ANKLE_OF_FOOT, Body

KNEE_FRONT_OF_HEIGHT = 0.034
"""Knee joint to the front of the kneecap. Custom: about 6 cm in an adult of 175 cm."""

LUNGE_CHANGE_CM = 1.9
LUNGE_CHANGE_DEGREES = 4.7
"""Smallest real change of the weight-bearing lunge, one tester: Powden, Hoch and Hoch 2015, systematic review
of 12 studies (abstract). Status: verified."""


class Ranges(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """The end of each joint's range, as this drawing counts it. [degrees]

    The values below are those of a limber adult; ``USUAL`` holds them. None was measured on weightlifters.

    ankle : dorsiflexion under load with a bent knee: how far the shank leans over the sole, past a right
        angle. 38 is what the deep squat with heels down is said to take (attributed to Hemmerich et al. 2006;
        from memory); the mean knee-to-wall distance of healthy adults, 12 cm, set up in the drawn lifter
        gives about the same.
    ankle_pointed : plantarflexion, past a right angle. 50 (from memory).
    knee : flexion from straight. 157 in the same deep squat (from memory): calf on thigh.
    hip : flexion: the thigh towards the line from hip to shoulder, so that what the pelvis and the lower back
        give is in it. A goniometer's hip range is smaller (about 120, from memory). 150 is common practice,
        no source.
    hip_back : extension: the thigh behind the line of the trunk. 30 (from memory) and the lower back's share:
        40 is common practice, no source.
    shoulder : arm raised forwards and up, in the plane of the drawing; 180 is the line of the trunk. 180 by
        the AAOS; samples gave 156 to 188 (physiotherapy textbook's table). Status: verified.
    upper_back : what straightening the upper back and turning the shoulder blades add behind the line of the
        trunk. 35 is common practice, no source.
    elbow : flexion from straight. 150 (from memory).
    wrist : extension, the hand bent back. 70 by the AAOS; samples gave 63 to 86 (same table). Status:
        verified. Under a racked bar the fingers open, so that the drawn hand bends further than the wrist.
    toes : bending up at the ball. 70 is common practice, no source.
    """

    ankle: float = 38.0
    ankle_pointed: float = 50.0
    knee: float = 157.0
    hip: float = 150.0
    hip_back: float = 40.0
    shoulder: float = 180.0
    upper_back: float = 35.0
    elbow: float = 150.0
    wrist: float = 70.0
    toes: float = 70.0

    def __post_init__(self) -> None:
        for field in self.__struct_fields__:
            if not -90.0 <= getattr(self, field) <= 250.0:
                raise ValueError(
                    f"A range of {getattr(self, field):g} degrees ({field}) is none: use -90 to 250."
                )


USUAL = Ranges()
"""The ranges that drawings of no one in particular are made with."""


class AnkleRange(msgspec.Struct, frozen=True):
    """What one knee-to-wall distance may mean for the ankle. [degrees]

    low, high : one published smallest real change (4.7 degrees) to either side of ``typical``.
    """

    low: float
    typical: float
    high: float


def ankle_from_knee_to_wall(body: Body, distance_cm: float) -> AnkleRange:
    """The shank's lean when the test is set up with the drawn lifter.

    This is no conversion of centimetres to degrees by a factor (none is trustworthy): foot flat, toes
    ``distance_cm`` from the wall, the kneecap at the wall over the second toe, this body's own shank and
    foot. The centimetres stay what was measured and what is stored; the degrees belong to this drawing alone
    and carry the test's error, 4.7 degrees (1.9 cm) (Powden, Hoch and Hoch 2015). A knee that does not reach
    the toes counts below 0.
    """
    ahead_of_the_ankle = body.foot_cm * (1 - ANKLE_OF_FOOT)
    forwards_cm = ahead_of_the_ankle + distance_cm - KNEE_FRONT_OF_HEIGHT * body.height_cm
    typical = degrees(asin(max(-0.5, min(0.95, forwards_cm / body.shank_cm))))
    return AnkleRange(typical - LUNGE_CHANGE_DEGREES, typical, typical + LUNGE_CHANGE_DEGREES)
