"""What a group of movements or drills has in common, written once."""

import msgspec

from meetward.catalogue.movement import Asked, Usual


class Shared(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Text and facts that are true of every entry that names this id in its ``shares``.

    name : of whom it is true, as a heading says it: "Every lift from the hang".
    setup, execution, scaling : paragraphs that stand after the entry's own.
    asks, usual : taken where the entry says nothing of its own (of the same motion).
    """

    id: str
    name: str
    setup: str = ""
    execution: str = ""
    scaling: str = ""
    cautions: tuple[str, ...] = ()
    asks: tuple[Asked, ...] = ()
    usual: tuple[Usual, ...] = ()
