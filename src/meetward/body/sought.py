"""What defines a position: the words a coach would use, as data."""

from typing import Literal

import msgspec

Where = Literal[
    "none", "floor", "hanging", "pulled", "front rack", "back rack", "pressed", "overhead", "behind neck"
]
Height = Literal[
    "", "floor", "mid shin", "below knee", "knee", "above knee", "mid thigh",
    "hip", "navel", "ribs", "chest", "shoulder", "chin", "forehead", "crown",
]  # fmt: skip
Grip = Literal["clean", "snatch", "narrow"]
Feet = Literal["flat", "toes", "split"]
Stance = Literal["", "narrow", "hips", "shoulders", "wide"]
FreeArms = Literal["hang", "forwards", "up"]


DEPTHS = ("thigh_degrees", "hip_over_knee_cm", "knee_degrees", "dip_percent")
"""The ways to say how deep; one at most."""

_BOUNDS = {
    "bar_cm": (0.0, 300.0),
    "disc_cm": (0.0, 60.0),
    "heel_cm": (0.0, 8.0),
    "heels_up_degrees": (0.0, 80.0),
    "toes_out_degrees": (0.0, 45.0),
    "thigh_degrees": (-60.0, 90.0),
    "hip_over_knee_cm": (-50.0, 80.0),
    "knee_degrees": (0.0, 160.0),
    "dip_percent": (0.0, 30.0),
    "shin_degrees": (-28.0, 62.0),
    "lean_degrees": (-25.0, 100.0),
    "shoulders_ahead_cm": (-30.0, 40.0),
    "knees_ahead_cm": (-60.0, 30.0),
    "elbow_degrees": (-75.0, 60.0),
    "split_degrees": (-30.0, 85.0),
    "rear_knee_degrees": (0.0, 150.0),
    "rear_heel_up_degrees": (0.0, 80.0),
    "stands_on_cm": (0.0, 60.0),
    "over_cm": (-8.0, 14.0),
}
"""What a number may be; wide enough for anything a lifter does."""


class Sought(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A position as a coach defines it. What is left out is chosen as a comfortable lifter would.

    bar : where the bar is.
        ``floor``: on its discs, hands on it, arms straight (so high that 45 cm discs stand; see ``bar_cm``).
        ``hanging``: in straight arms, touching shin, thigh or hip. With ``height`` the bar is there and the
        body follows; without it the legs and the trunk are as given and the bar hangs where the arms let it.
        ``pulled``: in bent arms in front of the body at ``height``, elbows high and out.
        ``front rack``, ``back rack``: on the shoulders. ``pressed``, ``behind neck``: on the way up, in front
        of the face or behind the neck, at ``height``. ``overhead``: in straight arms over mid-foot.
    height : how high the bar is, told by the lifter's own body.
    bar_cm : height of the bar's middle over the floor where ``height`` does not say it: blocks, a deficit.
        [cm]
    disc_cm : diameter of the largest disc; 45 by the rule book. [cm]
    grip : how far apart the hands are; wide hands make the arms shorter in the drawing.
    free_arms : what the arms do without a bar.
    feet : ``flat``, on the ``toes`` (both heels up), or in a ``split``.
    heel_cm : how high the shoe lifts the heel over the ball; a lifting shoe has about 2 (common practice, no
        source), a bare foot 0. [cm]
    heels_up_degrees : how far the feet are tipped when on the toes.
    stance, toes_out_degrees : how wide the feet stand and how far they turn out; the knees go where the toes
        point. Without them a squat has them shoulder-wide and turned out, everything else hip-wide.
    thigh_degrees : depth: the thigh over the horizontal as drawn; 90 stands, 0 is parallel, below 0 the hip
        is under the knee.
    hip_over_knee_cm : depth the other way: the hip joint over the knee joint, negative when it is lower. [cm]
    knee_degrees : depth by the knee's flexion from straight: a half-bent jerk dip, a power position.
    dip_percent : depth by how far the hips drop from standing, in percent of height; 10 is the usual jerk
        dip.
    shin_degrees : the shank's lean; without it the balance and the ankle decide.
    lean_degrees : the trunk's lean forwards; without it as upright as suits where the bar is.
    shoulders_ahead_cm, knees_ahead_cm : shoulder and knee joints in front of the bar, in pulls. [cm]
    elbow_degrees : the upper arm over the horizontal, elbow forwards, in a front rack; 0 is level.
    split_degrees : the front thigh over the horizontal in a split.
    rear_knee_degrees, rear_heel_up_degrees : the rear leg of a split: flexion of its knee, and how far its
        foot is tipped; without the latter 55, or more where the ankle needs it.
    stands_on_cm : how high the feet stand on a block, for a deficit. [cm]
    over_cm : what the common centre of lifter and bar is over, forwards of mid-foot, where the movement
        carries them through a position that nobody could hold; without it mid-foot, on the toes a little
        before the ball. [cm]
    Raises ValueError for a number that no lifter stands for, and for a depth given twice.
    """

    bar: Where = "none"
    height: Height = ""
    bar_cm: float | None = None
    disc_cm: float = 45.0
    grip: Grip = "clean"
    free_arms: FreeArms = "forwards"
    feet: Feet = "flat"
    heel_cm: float = 2.0
    heels_up_degrees: float = 35.0
    stance: Stance = ""
    toes_out_degrees: float | None = None
    thigh_degrees: float | None = None
    hip_over_knee_cm: float | None = None
    knee_degrees: float | None = None
    dip_percent: float | None = None
    shin_degrees: float | None = None
    lean_degrees: float | None = None
    shoulders_ahead_cm: float | None = None
    knees_ahead_cm: float | None = None
    elbow_degrees: float | None = None
    split_degrees: float = 30.0
    rear_knee_degrees: float = 40.0
    rear_heel_up_degrees: float | None = None
    stands_on_cm: float = 0.0
    over_cm: float | None = None

    def __post_init__(self) -> None:
        for field, (low, high) in _BOUNDS.items():
            value = getattr(self, field)
            if value is not None and not low <= value <= high:
                raise ValueError(f"{field} is {value:g}; it goes from {low:g} to {high:g}.")
        depths = [name for name in DEPTHS if getattr(self, name) is not None]
        if len(depths) > 1:
            raise ValueError(f"The depth is given more than once ({', '.join(depths)}): keep one of them.")


class Short(msgspec.Struct, frozen=True):
    """A joint that would have to go further than its range. [degrees]

    joint : "ankle", "knee", "hip", "shoulder" ... as in ``Ranges``.
    needed : what the position asks. there : what the range gives.
    """

    joint: str
    needed: float
    there: float

    @property
    def by_degrees(self) -> float:
        """What is missing. [degrees]"""
        return self.needed - self.there


class Angles(msgspec.Struct, frozen=True):
    """Joint angles of a position as ``Ranges`` counts them, worse side of a split first. [degrees]

    lean : the trunk from the vertical, forwards positive. shin : the shank from the vertical, in the plane of
        the foot.
    ankle : the shank over the foot's sole past a right angle; negative when the foot is pointed.
    knee, elbow : flexion from straight. hip : the thigh towards the trunk; negative when behind it.
    shoulder : the arm from hanging along the trunk, in the drawing; 180 is the trunk's line, more is behind
        it.
    wrist : extension, the hand bent back.
    thigh : the thigh over the horizontal as drawn.
    """

    lean: float
    shin: float
    ankle: float
    knee: float
    hip: float
    shoulder: float
    elbow: float
    wrist: float
    thigh: float
