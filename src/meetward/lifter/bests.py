"""What a lifter has lifted, or says so."""

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
