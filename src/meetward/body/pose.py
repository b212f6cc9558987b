"""A kept pose: a position written down by hand as directions of the segments, for what no rule solves.

Directions are in degrees and are those that a coach sees from the lifter's right side, the lifter facing
right. Two kinds, so that standing at ease is all zeros:

- what stands **up** from its joint leans: trunk and shin. 0 is upright, + the upper end leans forwards,
  90 is flat on the front, - leans backwards.
- what hangs **down** from its joint points: thigh, upper arm, forearm, hand. 0 straight down, 90 straight
  forwards, 180 straight up, -90 straight backwards.

The foot is flat at 0; + lifts the heel, - lifts the toes.
"""

from typing import Literal

import msgspec

LegOn = Literal["flat", "toes", "heel", "knee", "shin", "kneecap", "air"]
ArmOn = Literal["air", "hand", "forearm"]
BodyOn = Literal["", "seat", "back", "front", "shoulders", "side"]
Bend = Literal["back", "front", "up", "down", "out", "in"]
BarPlace = Literal["hands", "floor", "front rack", "back rack", "hip", "overhead"]
GripWidth = Literal["snatch", "clean", "narrow"]


class LegPose(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One leg, or both.

    thigh : from hip to knee. 0 down, 90 forwards, -20 a little behind. [degrees]
    shin : its lean. 0 upright, + the knee before the ankle. [degrees]
    foot : 0 flat, + heel up, - toes up. [degrees]
    out : the thigh to the side, away from the middle. [degrees]
    shin_out : the shin to the side, from the knee down; below 0 the foot comes back in. [degrees]
    on : what of it touches: the whole foot ("flat"), its "toes", its "heel"; the "knee" with the
        toes tucked under, the "shin" with the foot long, the "kneecap" alone with shin and foot as given; or
        nothing ("air").
    raised_cm : height of what it touches over the floor.
    """

    thigh: float = 0.0
    shin: float = 0.0
    foot: float = 0.0
    out: float = 0.0
    shin_out: float = 0.0
    on: LegOn = "flat"
    raised_cm: float = 0.0


class ArmPose(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One arm, or both: either directions, or what the hand reaches for.

    upper : from shoulder to elbow. 0 down, 90 forwards, 180 up, -90 backwards. [degrees]
    fore : from elbow to wrist; left out, the arm is straight. [degrees]
    hand : from wrist to knuckles; left out, in line with the forearm. [degrees]
    out, fore_out : the upper arm, the forearm to the side. [degrees]
    to : a spot that the hand reaches for instead: "bar", "floor", "knee", "other knee", "head" ...
    off : how far from that spot, forwards and upwards. [cm]
    aside : how far from that spot to the arm's own side. [cm]
    elbow : where the elbow goes when the hand reaches.
    on : what of it carries weight on the floor.
    raised_cm : height of what it leans on over the floor.
    """

    upper: float = 0.0
    fore: float | None = None
    hand: float | None = None
    out: float = 0.0
    fore_out: float | None = None
    to: str = ""
    off: tuple[float, float] = (0.0, 0.0)
    aside: float = 0.0
    elbow: Bend = "back"
    on: ArmOn = "air"
    raised_cm: float = 0.0


class BarPose(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Where the bar is.

    at : in the hands, on the floor over mid-foot, in a rack, at the hip, overhead over mid-foot; or its place
        [forwards of mid-foot, above the floor]. [cm]
    disc_cm : diameter of the largest disc, 0 for a bare bar.
    """

    at: BarPlace | tuple[float, float] = "hands"
    disc_cm: float = 45.0


class Pose(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A whole position; all zeros is a lifter at ease.

    trunk : lean of the line from hip to shoulder. 0 upright, + forwards, -90 lying on the back. [degrees]
    side : lean of the trunk to its right side, which is the near one. [degrees]
    curl : bend of the back. + rounded, - arched. [degrees]
    neck : of the head against the upper back. 0 in line, + chin to chest, - head lifted. [degrees]
    looks : where the face looks: 0 ahead, 90 to the ceiling, -90 to the floor; left out, straight out of the
        face. [degrees]
    legs, near_leg, far_leg : both legs, and what differs on one side. The near side is the right one.
    arms, near_arm, far_arm : the same for the arms.
    grip : of hands on the bar, by name or from the middle of one hand to the middle of the other. [cm]
    on : what of the trunk touches: the seat, the back, the front, the shoulders, the side; left out, nothing.
    raised_cm : height of what the trunk touches over the floor.
    heel_cm : height of the shoe's heel over its ball.
    jump_cm : the lowest point is this far above the floor.
    """

    trunk: float = 0.0
    side: float = 0.0
    curl: float = 0.0
    neck: float = 0.0
    looks: float | None = None
    legs: LegPose = LegPose()
    near_leg: LegPose | None = None
    far_leg: LegPose | None = None
    arms: ArmPose = ArmPose()
    near_arm: ArmPose | None = None
    far_arm: ArmPose | None = None
    bar: BarPose | None = None
    grip: GripWidth | float = "clean"
    on: BodyOn = ""
    raised_cm: float = 0.0
    heel_cm: float = 0.0
    jump_cm: float = 0.0
