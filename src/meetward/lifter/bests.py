"""What a lifter has lifted, or says so."""

from collections.abc import Iterable
from datetime import date
from typing import Literal

import msgspec

BestKind = Literal["tested", "estimated", "stated"]
"""tested: lifted as a single; estimated: computed from a set of more reps; stated: somebody said so."""


class Best(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A best of one lift.

    lift : catalogue id.
    dag : weight in decagrams.
    on : day it was lifted; None when not known.
    reps : for a rep max of more than one.
    """

    lift: str
    dag: int
    on: date | None = None
    kind: BestKind = "stated"
    reps: int = 1
    note: str = ""


def in_order(bests: Iterable[Best]) -> tuple[Best, ...]:
    """By lift, reps, day and weight, so that equal collections of bests compare equal."""
    return tuple(sorted(bests, key=lambda b: (b.lift, b.reps, b.on or date.min, b.dag, b.kind, b.note)))
