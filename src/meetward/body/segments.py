"""Lengths, masses and centres of the body's segments, from published tables or a lifter's own measures."""

from typing import Literal, NamedTuple

import msgspec

from meetward.problem import Place, Problem

Sex = Literal["men", "women"]
"""Which column of the published mass tables is used."""

LENGTH_OF_HEIGHT = {
    "foot": 0.152,
    "ankle height": 0.039,
    "shank": 0.246,
    "thigh": 0.245,
    "trunk": 0.288,
    "neck and head": 0.182,
    "upper arm": 0.186,
    "forearm": 0.146,
    "hand": 0.108,
}
"""Lengths as a fraction of height, for both sexes; those from the ankle up to the crown add up to 1.

Drillis and Contini 1966, "Body segment parameters", as drawn in Winter's handbook of human movement. Status:
from memory.
"""

SHOULDER_HALF_OF_HEIGHT = 0.115
"""Middle line to shoulder joint. Custom: half the 0.259 between the bony points of the shoulders in the same
figure (from memory), less a joint's depth."""

HIP_HALF_OF_HEIGHT = 0.052
"""Middle line to hip joint. Custom, from memory: joints lie about 18 cm apart in an adult of 175 cm."""

SITTING_HEIGHT_OF_HEIGHT = 0.52
"""Seat to crown. Custom, from memory; the seat lies about 5 % of height under the hip joint."""

ARM_SPAN_OF_HEIGHT = 1.0
"""Custom, from memory: span and height differ by a few percent either way."""

ANKLE_OF_FOOT = 0.27
"""Heel to a point under the ankle, as a fraction of the foot. Custom, from memory."""

BALL_OF_FOOT = 0.72
"""Heel to where the toes bend, as a fraction of the foot. Custom, from memory."""

GRIP_OF_HAND = 0.42
"""Wrist to the middle of a closed hand, as a fraction of the hand. Custom."""

HEAD_OF_NECK_AND_HEAD = 0.64
"""Middle of the shoulders to the middle of the head, as a fraction of the way to the crown. Custom."""


class SegmentMass(NamedTuple):
    """One segment's share of the body's mass and where its centre lies.

    percent : of body mass; of one side's limb.
    centre : from the near end, as a fraction of the segment's length.
    """

    percent: float
    centre: float


MASSES: dict[Sex, dict[str, SegmentMass]] = {
    "men": {
        "head and neck": SegmentMass(8.96, 0.55),
        "trunk": SegmentMass(46.84, 0.50),
        "upper arm": SegmentMass(3.25, 0.436),
        "forearm": SegmentMass(1.87, 0.430),
        "hand": SegmentMass(0.65, 0.468),
        "thigh": SegmentMass(10.50, 0.433),
        "shank": SegmentMass(4.75, 0.434),
        "foot": SegmentMass(1.43, 0.50),
    },
    "women": {
        "head and neck": SegmentMass(8.20, 0.55),
        "trunk": SegmentMass(45.00, 0.50),
        "upper arm": SegmentMass(2.90, 0.458),
        "forearm": SegmentMass(1.57, 0.434),
        "hand": SegmentMass(0.50, 0.468),
        "thigh": SegmentMass(11.75, 0.428),
        "shank": SegmentMass(5.35, 0.419),
        "foot": SegmentMass(1.33, 0.50),
    },
}
"""Plagenhoef, Evans and Abdelnour 1983, Res Q Exerc Sport 54:169-178, as tabled by a university course page.
Status: verified there; the centres of trunk (0.50) and of head and neck (0.55) are adapted.
"""


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


class MeasuresDontFit(ValueError):
    """Measures that no body has; ``problems`` says which, and what to do."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(" ".join(str(problem) for problem in problems))
        self.problems = problems


def body(*, height_cm: float, mass_kg: float, sex: Sex) -> Body:
    """A body of this height with the proportions of the tables.

    height_cm : barefoot. [cm]
    Raises MeasuresDontFit outside 100 to 230 cm and 20 to 250 kg.
    """
    return body_of(Measures(height_cm=height_cm), mass_kg, sex)


def body_of(measures: Measures, mass_kg: float, sex: Sex) -> Body:
    """A body with the lifter's own lengths where they were measured and the tables' proportions elsewhere.

    Own thigh and shank stand as measured. Sitting height moves the border between trunk and legs: unmeasured
    leg lengths share what is left in the tables' proportion; trunk, neck and head share the rest, so that the
    parts add up to the height. Arm span scales the whole arm, hand included; the shoulders keep their width.
    Raises MeasuresDontFit for measures that cannot belong to one body (see ``check_measures``).
    """
    if problems := check_measures(measures, mass_kg):
        raise MeasuresDontFit(problems)
    height = measures.height_cm
    share = LENGTH_OF_HEIGHT
    shank, thigh = _legs(measures)
    ankle = share["ankle height"] * height
    above_the_hip = (height - ankle - shank - thigh) / (share["trunk"] + share["neck and head"])
    shoulder_half = SHOULDER_HALF_OF_HEIGHT * height
    span = measures.arm_span_cm or ARM_SPAN_OF_HEIGHT * height
    arm_scale = height
    if measures.arm_span_cm:
        # The span of the tables' own arm is not quite the height, so own span is compared with typical span.
        typical_arm = (share["upper arm"] + share["forearm"] + share["hand"]) * height
        arm_scale *= (typical_arm + (span - ARM_SPAN_OF_HEIGHT * height) / 2) / typical_arm
    return Body(
        sex=sex,
        height_cm=height,
        mass_kg=mass_kg,
        foot_cm=share["foot"] * height,
        ankle_height_cm=ankle,
        shank_cm=shank,
        thigh_cm=thigh,
        trunk_cm=share["trunk"] * above_the_hip,
        neck_and_head_cm=share["neck and head"] * above_the_hip,
        upper_arm_cm=share["upper arm"] * arm_scale,
        forearm_cm=share["forearm"] * arm_scale,
        hand_cm=share["hand"] * arm_scale,
        shoulder_half_cm=shoulder_half,
        hip_half_cm=HIP_HALF_OF_HEIGHT * height,
    )


def check_measures(measures: Measures, mass_kg: float) -> tuple[Problem, ...]:
    """What does not fit together: each problem points at the measure and says how to take it again.

    Bounds are wide on purpose (custom): they catch a slip of the pen or of the tape, not an unusual build.
    """
    height = measures.height_cm
    if not 100 <= height <= 230:
        said = "Height is missing." if not height else f"A height of {height:g} cm is outside 100 to 230 cm."
        return (
            _problem("height_cm", said, "Measure barefoot against a wall and enter centimetres.", height),
        )
    found = []
    if not 20 <= mass_kg <= 250:
        found.append(
            _problem(
                "mass_kg",
                f"A bodyweight of {mass_kg:g} kg is outside 20 to 250 kg.",
                "Enter kilograms; a rough figure will do, it only moves the balance a little.",
                mass_kg,
            )
        )
    for field, low, high, what, how in _BOUNDS:
        value = getattr(measures, field)
        if value and not low * height <= value <= high * height:
            found.append(
                _problem(
                    field,
                    f"{what} of {value:g} cm does not fit a height of {height:g} cm: "
                    f"{low * height:.0f} to {high * height:.0f} cm would.",
                    f"{how} If height is wrong, mend that instead; leave this empty when in doubt.",
                    value,
                )
            )
    if not found and not _room_for_the_trunk(measures):
        found.append(_trunk_problem(measures))
    return tuple(found)


_BOUNDS = (
    ("sitting_height_cm", 0.44, 0.60, "A sitting height", "Sit on a flat stool at a wall: seat to crown."),
    ("arm_span_cm", 0.85, 1.15, "An arm span", "Stand with your back at a wall, arms level: tip to tip."),
    ("thigh_cm", 0.19, 0.31, "A thigh", "Measure from the bony point beside the hip to the knee's line."),
    ("shank_cm", 0.19, 0.31, "A shank", "Measure from the knee's outer line to the outer ankle bone."),
)  # fmt: skip

_SHORTEST_TRUNK_OF_HEIGHT = 0.23


def _legs(measures: Measures) -> tuple[float, float]:
    """Shank and thigh, each measured or scaled. [cm]"""
    height = measures.height_cm
    shank = LENGTH_OF_HEIGHT["shank"] * height
    thigh = LENGTH_OF_HEIGHT["thigh"] * height
    if measures.sitting_height_cm:
        longer = SITTING_HEIGHT_OF_HEIGHT * height - measures.sitting_height_cm
        known_shank, known_thigh = measures.shank_cm, measures.thigh_cm
        both = shank + thigh + longer
        if known_shank:
            thigh = both - known_shank
        elif known_thigh:
            shank = both - known_thigh
        else:
            shank, thigh = shank * both / (shank + thigh), thigh * both / (shank + thigh)
    return measures.shank_cm or shank, measures.thigh_cm or thigh


def _room_for_the_trunk(measures: Measures) -> bool:
    height = measures.height_cm
    shank, thigh = _legs(measures)
    share = LENGTH_OF_HEIGHT
    above = height * (1 - share["ankle height"]) - shank - thigh
    trunk = above * share["trunk"] / (share["trunk"] + share["neck and head"])
    return trunk >= _SHORTEST_TRUNK_OF_HEIGHT * height and min(shank, thigh) >= 0.18 * height


def _trunk_problem(measures: Measures) -> Problem:
    shank, thigh = _legs(measures)
    field = "thigh_cm" if measures.thigh_cm else "shank_cm" if measures.shank_cm else "sitting_height_cm"
    return _problem(
        field,
        f"Thigh ({thigh:.0f} cm) and shank ({shank:.0f} cm) do not fit together with a height of "
        f"{measures.height_cm:g} cm"
        + (
            f" and a sitting height of {measures.sitting_height_cm:g} cm"
            if measures.sitting_height_cm
            else ""
        )
        + ": no usual trunk is left over.",
        "Measure both again between the bony points, or leave the doubtful one empty.",
        getattr(measures, field),
    )


def _problem(field: str, message: str, repair: str, value: float) -> Problem:
    return Problem(
        Place(path=field), kind="measure does not fit", message=message, repair=repair, read=f"{value:g}"
    )


TYPICAL = body(height_cm=170, mass_kg=73, sex="men")
"""The lifter in drawings of no one in particular. Custom: a middling height and bodyweight."""
