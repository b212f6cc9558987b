"""A lifter in one position: joints in space, a bar, and the things around; what `draw` is given."""

from typing import Literal, NamedTuple

import msgspec

from meetward.body.segments import Body

View = Literal["side", "front"]


class Spot(NamedTuple):
    """A place in space. [cm]

    x : forwards; the lifter faces towards larger x and is seen from their right side.
    y : upwards from the floor.
    z : towards the onlooker, 0 in the middle of the body. The right side has z > 0.
    """

    x: float
    y: float
    z: float = 0.0


class Leg(msgspec.Struct, frozen=True):
    """One leg. Thigh, shank and foot keep their lengths in space, not in the drawing.

    ball : where the toes bend; ``toe`` is the tip. Heel, ball and toe are the sole of the foot or shoe.
    """

    hip: Spot
    knee: Spot
    ankle: Spot
    heel: Spot
    ball: Spot
    toe: Spot


class Arm(msgspec.Struct, frozen=True):
    """One arm. ``grip`` is the middle of the closed hand."""

    shoulder: Spot
    elbow: Spot
    wrist: Spot
    grip: Spot


PropKind = Literal[
    "box", "block", "bench", "wall", "mat", "roller", "ball", "stick", "band", "dumbbell", "kettlebell",
    "pull-up bar", "rack", "rings", "cable", "bag", "wedge", "rope", "sled",
]  # fmt: skip


class Prop(msgspec.Struct, frozen=True):
    """A thing in the picture.

    at : for upright things the middle of the lower edge; for a roller, ball, bell or stick its middle; for a
        band, rope or cable one end.
    wide_cm, high_cm : size in the drawing; for round things the diameter is ``wide_cm``.
    to : the other end of a band, rope, cable or stick seen from the side.
    """

    kind: PropKind
    at: Spot
    wide_cm: float = 0.0
    high_cm: float = 0.0
    to: Spot | None = None


class Bar(msgspec.Struct, frozen=True):
    """The barbell, seen from its end.

    disc_cm : diameter of the largest disc; 45 by the rule book, 0 for a bare bar or a stick.
    """

    at: Spot
    disc_cm: float = 45.0


class Figure(msgspec.Struct, frozen=True):
    """A lifter in one position.

    hip, shoulder : middle of both hips and of both shoulders; ``waist`` lies between and off their line only
        where the back bends.
    head : middle of the head.
    near, far : the right and left side; equal but for z in positions with both sides alike.
    heel_cm : height of the shoe's heel over its ball.
    looks_degrees : where the face looks: 0 ahead, 90 to the ceiling, -90 to the floor.
    view : from where the figure is seen. Seen from the front it was turned: x goes to the onlooker's right,
        which is the lifter's left, and z is forwards.
    """

    body: Body
    hip: Spot
    waist: Spot
    shoulder: Spot
    head: Spot
    near_leg: Leg
    far_leg: Leg
    near_arm: Arm
    far_arm: Arm
    heel_cm: float = 0.0
    bar: Bar | None = None
    props: tuple[Prop, ...] = ()
    looks_degrees: float = 0.0
    view: View = "side"
