"""Lengths, masses and centres of the body's segments, from published tables or a lifter's own measures."""

from typing import Literal

import msgspec

Sex = Literal["men", "women"]
"""Which column of the published mass tables is used."""


class Measures(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What a lifter can measure at home with a tape and a wall; 0 where it was not measured. [cm]

    sitting_height_cm : seat to crown, back at the wall.
    arm_span_cm : fingertip to fingertip, arms out.
    thigh_cm : hip joint (bony point at the side of the hip) to the knee's outer line.
    shank_cm : the knee's outer line to the outer ankle bone.
    """

    height_cm: float = 0.0
    sitting_height_cm: float = 0.0
    arm_span_cm: float = 0.0
    thigh_cm: float = 0.0
    shank_cm: float = 0.0


class Body(msgspec.Struct, frozen=True):
    """A lifter's segments. Lengths in cm, between joint centres; limbs are one side's.

    neck_and_head_cm : from the middle of the shoulders to the crown.
    shoulder_half_cm, hip_half_cm : from the middle line to the joint.
    """

    sex: Sex
    height_cm: float
    mass_kg: float
    foot_cm: float
    ankle_height_cm: float
    shank_cm: float
    thigh_cm: float
    trunk_cm: float
    neck_and_head_cm: float
    upper_arm_cm: float
    forearm_cm: float
    hand_cm: float
    shoulder_half_cm: float
    hip_half_cm: float
