"""How heavy: everything that a coach writes where the weight stands."""

from typing import Annotated, Literal

import msgspec

Permille = Annotated[int, msgspec.Meta(ge=0, le=3_000)]
Weight = Annotated[int, msgspec.Meta(ge=0, le=1_000_000)]
Tenths = Annotated[int, msgspec.Meta(ge=0, le=100)]
Few = Annotated[int, msgspec.Meta(ge=0, le=1_000)]


class Of(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What a percentage is a percentage of.

    kind :
        ``default``  the reference lift that the catalogue names for the movement;
        ``lift``     the best of a named lift ("of clean");
        ``top``      the top set of today on this line ("then 85 % of it");
        ``rep max``  the best for ``reps`` repetitions ("of 3RM"), of ``movement`` or of the movement itself.
    movement : catalogue id, empty when it is not known or not named.
    written : the words as written when they named something.
    """

    kind: Literal["default", "lift", "top", "rep max"] = "default"
    movement: str = ""
    written: str = ""
    reps: Few = 0


DEFAULT = Of()


class Percent(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="percent"):
    """A share of a best, in permille. ``low_permille`` is None for "up to"; equal ends for a plain one."""

    low_permille: Permille | None
    high_permille: Permille
    of: Of = DEFAULT


class Kilos(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="kg"):
    """A weight in decagrams (10 g). ``unit_stated`` is False when the unit was concluded from the document.

    implements : 2 for "2 x 15 kg dumbbells"; the weight is that of one.
    """

    low_dag: Weight | None
    high_dag: Weight
    unit_stated: bool = True
    implements: Few = 1


class Pounds(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="lb"):
    """A weight in hundredths of a pound (``_clb``), kept as written; converted exactly when loaded."""

    low_clb: Weight | None
    high_clb: Weight
    unit_stated: bool = True
    implements: Few = 1


class ByCategory(
    msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="by category"
):
    """One weight for men and one for women ("43/29 kg")."""

    men: Kilos | Pounds
    women: Kilos | Pounds


class Effort(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="effort"):
    """Felt effort, in tenths: RPE 8.5 is 85 on the scale to 10; or repetitions left in reserve, 2 is 20."""

    scale: Literal["rpe", "rir"]
    low_tenths: Tenths
    high_tenths: Tenths


class Heavy(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="heavy"):
    """Work up to the heaviest for ``reps`` today.

    limit : ``heavy`` stops while it is clean; ``max`` goes to what can be lifted.
    reps : None when not said.
    """

    reps: Few | None
    limit: Literal["heavy", "max"] = "heavy"


class BarOnly(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="bar"):
    """The empty bar; ``stick`` when a stick is meant."""

    stick: bool = False


class Bodyweight(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="bodyweight"):
    """The body, with ``plus_dag`` hung on it."""

    plus_dag: Weight = 0


class Open(msgspec.Struct, frozen=True, forbid_unknown_fields=True, tag_field="kind", tag="open"):
    """No load said, or one in words only ("light", "moderate")."""

    word: str = ""


Load = Percent | Kilos | Pounds | ByCategory | Effort | Heavy | BarOnly | Bodyweight | Open
