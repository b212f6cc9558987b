"""Kilos of a whole squad by array arithmetic.

Kilos are computed and kept by the distinct columns of a compiled cycle, two bytes each; the table of all
sets is a gather. Every product is an integer in millidag (see ``targets``), so the arrays equal what
``kilos`` says for every set.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from meetward.barbell.discs import BarAndDiscs
from meetward.barbell.rounding import RoundingTable
from meetward.barbell.spread import START_PERMILLE
from meetward.catalogue.catalogue import Catalogue
from meetward.fit.compile import CATEGORIES, CycleArrays
from meetward.fit.standing import Standings
from meetward.fit.targets import MILLIDAG, MOST_DAG, Reference
from meetward.lifter.profile import Lifter

CHUNK_LIFTERS = 512
"""Lifters worked on at once: what they need stays in the processor's cache."""

_Kind = TypeVar("_Kind", np.uint16, np.bool_)
_MOST_MILLIDAG = MOST_DAG * MILLIDAG


@dataclass(frozen=True, slots=True, eq=False)
class Squad:
    """What the arrays need of lifters.

    bests : lifters x references, int32, 0 where there is no best. [10 g]
    derived : where a best was derived, so that kilos are a start and no prescription; same shape.
    kits, kit_of : the distinct kits, and which of them each lifter has.
    category_of : index in ``CATEGORIES`` of each lifter.
    Raises ValueError when shapes do not agree, or for a best that is negative or above what is loaded.
    """

    bests: NDArray[np.int32]
    derived: NDArray[np.bool_]
    kits: tuple[BarAndDiscs, ...]
    kit_of: NDArray[np.intp]
    category_of: NDArray[np.uint8]

    def __post_init__(self) -> None:
        lifters = len(self.bests)
        if self.bests.ndim != 2 or self.derived.shape != self.bests.shape:
            raise ValueError("Bests and their marks have to be tables of lifters by references.")
        if len(self.kit_of) != lifters or len(self.category_of) != lifters:
            raise ValueError("Every lifter needs a kit and a category.")
        if lifters and not (self.bests.min(initial=0) >= 0 and self.bests.max(initial=0) <= MOST_DAG):
            raise ValueError(f"A best lies outside 0 to {MOST_DAG / 100:.0f} kg; check the bests.")
        if lifters and not 0 <= self.kit_of.min() <= self.kit_of.max() < len(self.kits):
            raise ValueError("A lifter's kit is not in the list of kits.")
        if lifters and self.category_of.max() >= len(CATEGORIES):
            raise ValueError("A lifter's category is none of men, women and not known.")

    def __len__(self) -> int:
        return len(self.bests)

    def part(self, rows: slice) -> "Squad":
        """Some of the lifters."""
        return Squad(
            self.bests[rows], self.derived[rows], self.kits, self.kit_of[rows], self.category_of[rows]
        )


@dataclass(frozen=True, slots=True, eq=False)
class SquadKilos:
    """Kilos of a squad.

    columns : columns x lifters, uint16, 0 for no kilos. [10 g] This and the shared index are all that stays.

    Tables of sets are made on request; in memory they have a row for each set, so that whole rows are copied.
    """

    arrays: CycleArrays
    squad: Squad
    columns: NDArray[np.uint16]

    def high_dag(self) -> NDArray[np.uint16]:
        """Kilos of every set, the top of a range; lifters x sets, 0 for no kilos. [10 g]"""
        return self._gathered(self.arrays.high, self.columns)

    def low_dag(self) -> NDArray[np.uint16]:
        """The same for the low end of a range. Never above the high end. [10 g]"""
        return np.minimum(self._gathered(self.arrays.low, self.columns), self.high_dag())

    def placeholders(self) -> NDArray[np.bool_]:
        """Where kilos stand on a derived best: a start to work up from; lifters x sets."""
        by_column = self.columns > 0
        if self.arrays.references:
            by_column &= self.squad.derived.T[self.arrays.reference_of]
        return self._gathered(self.arrays.high, by_column)

    def bytes_per_set(self) -> float:
        """Bytes kept for each prescribed set of each lifter, the shared index included."""
        kept = self.columns.nbytes + self.arrays.low.nbytes + self.arrays.high.nbytes
        return kept / max(1, len(self.squad) * self.arrays.sets)

    def _gathered(self, index: NDArray[np.uint16], columns: NDArray[_Kind]) -> NDArray[_Kind]:
        # Another mode than "raise" spares a copy; every index is in bounds by its making.
        out = np.empty((self.arrays.sets, columns.shape[1]), columns.dtype)
        np.take(columns, index[0], axis=0, out=out, mode="clip")
        for code, row in enumerate(index[1:], start=1):
            mine = np.flatnonzero(self.squad.category_of == code)
            out[:, mine] = columns[:, mine].take(row, axis=0)
        return out.T


def squad_kilos(arrays: CycleArrays, squad: Squad) -> SquadKilos:
    """Kilos of everybody for every column.

    Raises ValueError when ``squad`` was made for other references.
    """
    if squad.bests.shape[1] != len(arrays.references):
        raise ValueError(
            f"The squad has {squad.bests.shape[1]} columns of bests, "
            f"the cycle needs {len(arrays.references)}: make the squad for this cycle."
        )
    columns = np.zeros((len(arrays.columns), len(squad)), np.uint16)
    for start in range(0, len(squad), CHUNK_LIFTERS):
        chunk = slice(start, start + CHUNK_LIFTERS)
        columns[:, chunk] = _rounded_by_kit(arrays, squad.bests[chunk], squad.kits, squad.kit_of[chunk])
    return SquadKilos(arrays, squad, columns)


def stream(
    arrays: CycleArrays, squad: Squad, lifters: int = CHUNK_LIFTERS
) -> Iterator[tuple[slice, SquadKilos]]:
    """The same for so many lifters at a time, in order, so that a large squad needs little memory."""
    for start in range(0, len(squad), lifters):
        rows = slice(start, min(start + lifters, len(squad)))
        yield rows, squad_kilos(arrays, squad.part(rows))


def _rounded_by_kit(
    arrays: CycleArrays, bests: NDArray[np.int32], kits: tuple[BarAndDiscs, ...], kit_of: NDArray[np.intp]
) -> NDArray[np.uint16]:
    """Columns of some lifters, each with their own kit."""
    here = np.flatnonzero(np.bincount(kit_of, minlength=len(kits)))
    if len(here) == 1:
        return _rounded(arrays, bests.T, RoundingTable.of(kits[here[0]]))
    out = np.empty((len(arrays.columns), len(bests)), np.uint16)
    for kit in here.tolist():
        mine = np.flatnonzero(kit_of == kit)
        out[:, mine] = _rounded(arrays, bests[mine].T, RoundingTable.of(kits[kit]))
    return out


def _rounded(arrays: CycleArrays, bests: NDArray[np.int32], table: RoundingTable) -> NDArray[np.uint16]:
    """Columns of lifters who share a kit. ``bests`` and the answer have a column for each lifter."""
    near, down, climb, half, plain = arrays.ends
    out = np.zeros((len(arrays.columns), bests.shape[1]), np.uint16)
    if not arrays.references:
        return out
    aims = bests.take(arrays.reference_of, axis=0)
    aims *= arrays.multiple[:, None]
    np.minimum(aims, _MOST_MILLIDAG, out=aims)
    most_dag = table.down(np.array([_MOST_MILLIDAG], np.int32))
    np.minimum(table.nearest(aims[1:near]), most_dag, out=out[1:near], casting="unsafe")
    out[near:down] = table.down(aims[near:down])
    out[down:climb] = _climbing(arrays, bests, table, slice(down, climb))
    out[climb:half] = np.maximum((aims[climb:half] + 24_999) // 50_000, 1) * 50
    out[half:plain] = aims[half:plain] // MILLIDAG
    out *= aims > 0
    return out


def _climbing(
    arrays: CycleArrays, bests: NDArray[np.int32], table: RoundingTable, columns: slice
) -> NDArray[np.int64]:
    """Steps of sets that climb, as ``barbell.spread`` has them."""
    out = np.zeros((columns.stop - columns.start, bests.shape[1]), np.int64)
    for at, column in enumerate(arrays.columns[columns]):
        assert column is not None
        best = bests[arrays.reference_of[columns.start + at]].astype(np.int64)
        top = table.down(np.minimum(best * column.multiple, _MOST_MILLIDAG)).astype(np.int64)
        start = top * START_PERMILLE
        if column.low is not None:
            low = np.minimum(best * column.low, _MOST_MILLIDAG) // MILLIDAG * MILLIDAG
            start = np.where(low > 0, low, start)
        climb = top * MILLIDAG - start
        place = start + climb * column.step // max(column.steps - 1, 1)
        out[at] = top if column.step == column.steps - 1 else np.minimum(table.nearest(place), top)
    return out


def squad_of(lifters: Sequence[Lifter], references: Sequence[Reference], catalogue: Catalogue) -> Squad:
    """What the arrays need of ``lifters``: their bests of each reference, known or derived.

    references : those of the compiled cycle.
    """
    bests = np.zeros((len(lifters), len(references)), np.int32)
    derived = np.zeros(bests.shape, np.bool_)
    for row, lifter in enumerate(lifters):
        standings = Standings(lifter, catalogue)
        for at, reference in enumerate(references):
            bests[row, at] = standings.best_dag(reference)
            standing = standings.of(reference) if reference.kind == "best" else None
            derived[row, at] = bool(standing and standing.only_a_start)
    kits: dict[BarAndDiscs, int] = {}
    kit_of = [kits.setdefault(lifter.kit, len(kits)) for lifter in lifters]
    category_of = [CATEGORIES.index(lifter.category) for lifter in lifters]
    return Squad(bests, derived, tuple(kits), np.array(kit_of, np.intp), np.array(category_of, np.uint8))
