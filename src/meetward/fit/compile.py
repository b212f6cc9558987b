"""A cycle as arrays: once, for everybody.

Prescribed sets repeat one another: a cycle of 1,680 sets stands on some three hundred distinct *columns*, a
reference with a multiple and a way of rounding. So kilos are computed and kept by column (see ``squad``),
beside one shared index that says which column a set takes.
"""

from dataclasses import dataclass
from math import ceil
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from meetward.cycle.tree import Cycle, Line, Session, SetGroup
from meetward.fit.targets import Reference, Rounding, Target, roundings, target
from meetward.lifter.profile import Category
from meetward.workload.count import Movements, sets_of

CATEGORIES: tuple[Category | None, ...] = ("men", "women", None)
"""Order of the rows of ``CycleArrays.low`` and of the codes in ``Squad.category_of``."""

MOST_CELLS = 1_000
"""Sets of one group that get a cell of their own; a written count above this is no count."""


class Column(NamedTuple):
    """What distinct kilos are computed from.

    multiple : permille of the reference.
    low, step, steps : of sets that climb to ``multiple``: the multiple of the first one (None where the
        custom decides), which of them this is, from 0, and how many they are.
    """

    reference: Reference
    rounding: Rounding
    multiple: int
    low: int | None = None
    step: int = 0
    steps: int = 0


class Cell(NamedTuple):
    """Where a run of equal set cells comes from; week and session from 1, the rest from 0."""

    week: int
    session: int
    segment: int
    line: int
    group: int
    first: int
    sets: int


@dataclass(frozen=True, slots=True, eq=False)
class CycleArrays:
    """A cycle before any lifter.

    references : what bests are needed, one column of ``Squad.bests`` each.
    columns : distinct kilos, sorted by their rounding; column 0 stands for "no kilos".
    low, high : column of each set's low and high end, uint16, one row for each of ``CATEGORIES``, or a single
        row when no load differs between men and women.
    cells : where the sets come from, in order.
    reference_of, multiple : of each column: index in ``references`` and permille; 0 for column 0.
    ends : where the columns of each ``Rounding`` end.
    """

    references: tuple[Reference, ...]
    columns: tuple[Column | None, ...]
    low: NDArray[np.uint16]
    high: NDArray[np.uint16]
    cells: tuple[Cell, ...]
    reference_of: NDArray[np.intp]
    multiple: NDArray[np.int32]
    ends: tuple[int, ...]

    @property
    def sets(self) -> int:
        """Number of set cells."""
        return int(self.high.shape[1])


def compile_cycle(cycle: Cycle, catalogue: Movements) -> CycleArrays:
    """A cycle as arrays. For a cycle that is being edited, keep a ``Compiler``."""
    return Compiler(catalogue).compile(cycle)


class _Compiled(NamedTuple):
    """A session as places in the compiler's list of columns."""

    session: Session
    low: NDArray[np.int32]  # categories x sets
    high: NDArray[np.int32]
    same: bool
    cells: tuple[tuple[int, int, int, int], ...]  # segment, line, group, sets


class Compiler:
    """Compiles cycles that differ little: a session that is the same object as before is compiled once."""

    def __init__(self, catalogue: Movements) -> None:
        self._catalogue = catalogue
        self._sessions: dict[int, _Compiled] = {}
        self._columns: dict[Column, int] = {}

    def compile(self, cycle: Cycle) -> CycleArrays:
        """``cycle`` as arrays."""
        kept: dict[int, _Compiled] = {}
        parts: list[_Compiled] = []
        cells: list[Cell] = []
        first = 0
        for week, number, session in cycle.sessions():
            part = self._sessions.get(id(session)) or self._session(session)
            kept[id(session)] = part
            parts.append(part)
            for segment, line, group, sets in part.cells:
                cells.append(Cell(week, number, segment, line, group, first, sets))
                first += sets
        self._sessions = kept
        rows = slice(0, 1) if all(part.same for part in parts) else slice(None)
        empty = np.zeros((3, 0), np.int32)
        low = np.concatenate([empty[rows], *(part.low[rows] for part in parts)], axis=1)
        high = np.concatenate([empty[rows], *(part.high[rows] for part in parts)], axis=1)
        return self._packed(low, high, tuple(cells))

    def _packed(
        self, low: NDArray[np.int32], high: NDArray[np.int32], cells: tuple[Cell, ...]
    ) -> CycleArrays:
        """Only the columns in use, those of one rounding side by side."""
        used = np.zeros(len(self._columns) + 1, bool)
        used[0] = True
        used[low.ravel()] = used[high.ravel()] = True
        every: list[Column | None] = [None, *self._columns]
        numbers = [-1, *(column.rounding for column in self._columns)]
        mine = sorted(np.flatnonzero(used).tolist(), key=numbers.__getitem__)
        columns = tuple(every[at] for at in mine)
        if len(columns) > np.iinfo(np.uint16).max:
            raise ValueError("This cycle has more than 65,000 different loads; split it.")
        place = np.zeros(len(every), np.uint16)
        place[mine] = np.arange(len(mine), dtype=np.uint16)
        references = tuple(dict.fromkeys(c.reference for c in columns if c))
        number = {reference: n for n, reference in enumerate(references)}
        roundings = np.array([c.rounding for c in columns if c], np.int64)
        if len(self._columns) > 2 * len(columns) + 1_000:
            # Loads that were edited away are forgotten, and with them what stood on their places.
            self._columns, self._sessions = {}, {}
        return CycleArrays(
            references,
            columns,
            place[low],
            place[high],
            cells,
            np.array([number[c.reference] if c else 0 for c in columns], np.intp),
            np.array([c.multiple if c else 0 for c in columns], np.int32),
            tuple((1 + np.searchsorted(roundings, [*Rounding], side="right")).tolist()),
        )

    def _session(self, session: Session) -> _Compiled:
        low: list[tuple[int, ...]] = []
        high: list[tuple[int, ...]] = []
        cells: list[tuple[int, int, int, int]] = []
        for s, segment in enumerate(session.segments):
            for n, line in enumerate(segment.lines):
                for g, group in enumerate(line.groups):
                    lows, highs = self._group(group, line)
                    cells.append((s, n, g, len(lows)))
                    low += lows
                    high += highs
        lows_array = np.array(low, np.int32).reshape(-1, len(CATEGORIES)).T
        highs_array = np.array(high, np.int32).reshape(-1, len(CATEGORIES)).T
        same = all(a[0] == a[1] == a[2] for a in (*low, *high))
        return _Compiled(session, lows_array, highs_array, same, tuple(cells))

    def _group(self, group: SetGroup, line: Line) -> tuple[list[tuple[int, ...]], list[tuple[int, ...]]]:
        """Columns of the low and the high end of each set, one number for each category."""
        sets = cells_of(group)
        by_category = []
        first = target(group, line, self._catalogue, CATEGORIES[0])
        for category in CATEGORIES:
            aim = first if category == "men" else target(group, line, self._catalogue, category)
            by_category.append(self._ends(aim, sets))
        lows, highs = zip(*by_category, strict=True)
        return list(zip(*lows, strict=True)), list(zip(*highs, strict=True))

    def _ends(self, aim: Target | None, sets: int) -> tuple[list[int], list[int]]:
        if aim is None:
            return [0] * sets, [0] * sets
        if aim.climb_sets:
            steps = [
                self._place(Column(aim.reference, Rounding.CLIMB, aim.high, aim.low, step, aim.climb_sets))
                for step in range(aim.climb_sets)
            ]
            return steps, steps
        single, ranged = roundings(aim)
        high = self._place(Column(aim.reference, single if aim.single else ranged, aim.high))
        low = high if aim.single or aim.low is None else self._place(Column(aim.reference, single, aim.low))
        return [low] * sets, [high] * sets

    def _place(self, column: Column) -> int:
        return self._columns.setdefault(column, len(self._columns) + 1)


def cells_of(group: SetGroup) -> int:
    """Set cells of a group: the higher count of a range, the starts that fit into a time, one where open."""
    if group.count is not None:
        return min(group.count.high, MOST_CELLS)
    return min(ceil(sets_of(group) or 1), MOST_CELLS)
