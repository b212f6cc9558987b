"""A movement of the catalogue: how it is called, what it trains, how it is taught."""

from typing import Literal

import msgspec

Family = Literal[
    "snatch",  # snatch and its variants
    "clean",  # clean and its variants
    "clean and jerk",
    "jerk",
    "pull",  # pulls, lift-offs, high pulls, deadlifts with snatch or clean grip
    "squat",
    "press",  # presses and push presses, in front of and behind the neck
    "overhead",  # overhead squat, snatch balance, drops, overhead holds
    "hinge",  # good morning, Romanian deadlift
    "upper back",  # rows, pull-ups
    "single leg",
    "trunk",
    "carry",
    "arms and shoulders",
    "jump",
]

Position = Literal[
    "start",  # on the floor
    "below the knee",
    "above the knee",
    "power position",  # the hip, bar in the crease or upper thigh
    "pull",
    "extension",
    "turnover",
    "receiving front",
    "receiving overhead",
    "bottom",  # the deep squat
    "front rack",
    "dip",
    "drive",
    "overhead",
    "split",
    "behind the neck",
    "back rack",
    "hinge",
    "trunk",
    "grip",
    "lying press",
    "landing",
]

Equipment = Literal[
    "bar", "discs", "blocks", "rack", "box", "dumbbell", "kettlebell", "band", "stick", "bench",
    "pull-up bar", "rings", "roller", "ball", "mat", "wall", "cable", "machine", "sled", "rope", "none",
]  # fmt: skip

Level = Literal["first", "regular", "advanced"]
"""first: taught in the first weeks; regular: a lifter with some months; advanced: with a coach at hand."""


COMMON_PRACTICE = "common practice, no source"

Motion = Literal[
    "ankle dorsiflexion",
    "toe extension",
    "knee flexion",
    "knee extension",
    "hip flexion",
    "hip extension",
    "hip rotation",
    "hip abduction",
    "hamstring length",
    "thoracic extension",
    "thoracic rotation",
    "shoulder flexion",  # arms overhead
    "shoulder extension",  # arms behind the body
    "shoulder rotation",  # outward with the arms overhead or behind the neck, inward in dips and swims
    "elbow flexion",
    "elbow extension",
    "wrist extension",
    "neck extension",
]

Share = Literal["full", "most", "some"]
"""How much of a joint's usual range: all of it, over two thirds, or a middle part that most people have."""


class Asked(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A joint range that a movement asks for.

    at : the position that asks for it; empty where it is the whole movement.
    degrees : low and high end where a publication gives them; None where nobody measured it.
    source : publication, or "common practice, no source"; a value from memory says so.
    """

    motion: Motion
    share: Share
    at: Position | Literal[""] = ""
    degrees: tuple[int, int] | None = None
    source: str = COMMON_PRACTICE


class Usual(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Sets and reps that the movement usually gets, each as low and high.

    reps, seconds, metres : of one set; one of the three is given.
    per_side : each side does that much.
    load_permille : of the reference lift's best; None where people go by feel.
    when : what it is for, in a word or two, where there are several ("technique", "strength").
    """

    sets: tuple[int, int]
    reps: tuple[int, int] | None = None
    seconds: tuple[int, int] | None = None
    metres: tuple[int, int] | None = None
    per_side: bool = False
    load_permille: tuple[int, int] | None = None
    when: str = ""
    source: str = COMMON_PRACTICE


class Ratio(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Usual best of a movement as a share of another movement's best, in permille.

    of : id of the other movement.
    working_load : True where the figure is a load people work with (pulls), not a best.
    source : publication, or "common practice, no source"; a value from memory says so.
    """

    of: str
    low_permille: int
    typical_permille: int
    high_permille: int
    source: str
    working_load: bool = False


class Fault(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A common fault and its fix. ``cause`` may stay empty."""

    fault: str
    fix: str
    cause: str = ""


class Movement(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One movement.

    id : lower-case words joined by underscores; stable for ever.
    name : the usual trade name, singular, in sentence case ("Hang power snatch above the knee").
    names : other spellings, abbreviations, plurals that are not just an s. Matched without regard to case
        and punctuation.
    reference : id of the lift whose best a bare percentage stands on; its own id when people test it.
    reference_else : id of the lift that coaches count on when the lifter has no best of ``reference``
        (clean: clean and jerk). Taken as it is, without a ratio: it errs to the light side. Empty where
        there is no such custom.
    ratios : usual share of other lifts' bests, for deriving a missing best; the first one is preferred.
    lifts_per_rep : barbell lifts that one rep counts in the load accounting (clean and jerk: 1, by custom);
        0 when it is no barbell lift (accessories, carries).
    summary : two lines for a lifter with ten seconds.
    asks : joint ranges that it asks for, the most demanding first.
    usual : sets and reps it usually gets.
    scaling : how to make it fit a beginner.
    easier, harder : ids of movements one step down and up the ladder.
    instead : ids of movements that train the same position and can stand in its place.
    shares : ids of `Shared` texts that are true of it too; `taught` puts them together.
    drawing : id of its picture in the room of the drawn lifter; its own id where empty.
    """

    id: str
    name: str
    family: Family
    reference: str
    positions: tuple[Position, ...]
    equipment: tuple[Equipment, ...]
    summary: str
    purpose: str
    setup: str
    execution: str
    cues: tuple[str, ...]
    faults: tuple[Fault, ...]
    cautions: tuple[str, ...]
    names: tuple[str, ...] = ()
    reference_else: str = ""
    ratios: tuple[Ratio, ...] = ()
    level: Level = "regular"
    lifts_per_rep: int = 1
    seconds_per_rep: int = 3
    asks: tuple[Asked, ...] = ()
    usual: tuple[Usual, ...] = ()
    scaling: str = ""
    easier: tuple[str, ...] = ()
    harder: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()
    shares: tuple[str, ...] = ()
    drawing: str = ""
    link: str = ""

    @property
    def barbell(self) -> bool:
        """Whether the load is a bar with discs."""
        return "bar" in self.equipment
