"""A lifter's profile, as the coach keeps it."""

from typing import Literal

import msgspec

from meetward.barbell.discs import BarAndDiscs

from .bests import Best

Category = Literal["men", "women"]
"""Category under the competition rules: decides bar and paired loads, nothing else."""


class Lifter(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One lifter.

    key : short name for files and addresses, unique in the squad (letters, digits, hyphens).
    bodyweight_dag : health data; shown to the lifter and the coach only. [10 g]
    days : weekdays on which they train, 0 is Monday; empty when not known.
    minutes : time for a session; None when not known. [min]
    """

    key: str
    name: str
    kit: BarAndDiscs
    category: Category | None = None
    birth_year: int | None = None
    bodyweight_dag: int | None = None
    unit: Literal["kg", "lb"] = "kg"
    days: tuple[int, ...] = ()
    minutes: int | None = None
    notes: str = ""
    bests: tuple[Best, ...] = ()

    def best(self, lift: str, reps: int = 1) -> Best | None:
        """The heaviest best for exactly ``reps`` reps; of equals tested before estimated before stated."""
        rank = {"tested": 2, "estimated": 1, "stated": 0}
        mine = [b for b in self.bests if b.lift == lift and b.reps == reps]
        return max(mine, key=lambda b: (b.dag, rank[b.kind]), default=None)
