"""The best plan, proven by a general-purpose solver for whole numbers, or how far a plan can be from it.

Every day chooses one of the sets of blocks that it can hold (`week_days_patterns`), so that what concerns
one day alone is in the sets already. The rules between days are rows; each has a function of its own.
"""

from itertools import pairwise
from math import floor
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from meetward.fit.week_days_case import HEAVY_FAMILIES, Answer, Case, bits
from meetward.fit.week_days_patterns import Patterns, together
from meetward.fit.week_days_quick import PatternBook
from meetward.fit.week_days_score import answer, clashing

TIME_LIMIT_S = 20.0
UNBOUNDED = 1e30

SPLIT = ((False, False), (False, True), (True, True))
"""The parts of a split unit: whether the unit ends with it, whether it was begun before."""


class _Place(NamedTuple):
    """Where a plan stands: before which day, with how many units passed; or within a unit that is split."""

    day: int
    unit: int
    split: bool = False


class _Program:
    """Rows and columns of a whole-number program: first the sets of all days, then what counts besides.

    A set of one unit stands there four times: as it is, and as the first, a middle and the last part of a
    unit that is split. ``begun`` and ``ends`` say of each whether the unit was begun before and ends with it.
    """

    def __init__(self, days: list[Patterns]) -> None:
        self.days, self.ends, self.begun = [], [], []
        for day in days:
            alone = day.where(~day.joined)
            parts = [(day, True, False), *((alone, *kind) for kind in SPLIT)]
            numbers = [part.number for part, _, _ in parts]
            self.days.append(together(part for part, _, _ in parts))
            self.ends.append(np.repeat([end for _, end, _ in parts], numbers))
            self.begun.append(np.repeat([begun for _, _, begun in parts], numbers))
        self.starts = np.cumsum([0, *(day.number for day in self.days)])
        self.closed: list[NDArray[np.int64]] = []
        self.gains: list[float] = []
        self.uppers: list[float] = []
        self.lows: list[float] = []
        self.highs: list[float] = []
        self.terms: list[tuple[NDArray[np.int64], NDArray[np.float64]]] = []

    def column(self, gain: float, upper: float) -> int:
        """A new whole number from 0 up, beside the sets."""
        self.gains.append(gain)
        self.uppers.append(upper)
        return int(self.starts[-1]) + len(self.gains) - 1

    def close(self, columns: list[NDArray[np.int64]]) -> None:
        """Sets that cannot be chosen."""
        self.closed += columns

    def sets(self, day: int, wanted: NDArray[np.bool_]) -> NDArray[np.int64]:
        """Columns of the wanted sets of a day."""
        return np.flatnonzero(wanted) + int(self.starts[day])

    def row(
        self,
        columns: list[NDArray[np.int64]],
        *,
        low: float = -UNBOUNDED,
        high: float = UNBOUNDED,
        factors: list[NDArray[np.float64]] | None = None,
        less: tuple[int, ...] = (),
    ) -> None:
        """``low <= sum of the columns, less some <= high``; a row that holds by itself is left away."""
        joined = np.concatenate([*columns, np.array(less, dtype=np.int64)])
        ones = [np.ones(len(each)) for each in columns] if factors is None else factors
        if low == -UNBOUNDED and len(joined) == len(less):
            return
        self.terms.append((joined, np.concatenate([*ones, -np.ones(len(less))])))
        self.lows.append(low)
        self.highs.append(high)


def prove(
    case: Case, known: Answer, time_limit_s: float = TIME_LIMIT_S, book: PatternBook | None = None
) -> Answer:
    """The best plan of ``case``, or the better of the solver's and ``known``, with the bound reached.

    Raises RuntimeError when the solver ends in a way that it should not.
    """
    if known.proven or not case.content.blocks or not case.limits_s:
        return known if known.proven else answer(case, list(known.days), known.score)
    solved = _solve(case, book or PatternBook(), time_limit_s, known)
    if solved is None:
        return known
    plan, bound = solved
    best = max(known, answer(case, plan), key=lambda one: one.rank) if plan is not None else known
    # The solver counts the key blocks that are kept; its bound is for plans that keep as many.
    bound += case.key_cost * best.keys_out
    return answer(case, list(best.days), max(bound, best.score))


def possible(
    case: Case, time_limit_s: float = TIME_LIMIT_S, book: PatternBook | None = None
) -> list[int] | None:
    """A plan in which the competition lifts stand on as many days as they need; None where there is none.

    Raises TimeoutError when that is not settled in time.
    """
    if not case.limits_s:
        return None if any(case.needs) else []
    solved = _solve(case, book or PatternBook(), time_limit_s, None)
    if solved is None:
        return None
    if solved[0] is None:
        raise TimeoutError("Whether the competition lifts fit was not settled in time.")
    return solved[0]


def _solve(
    case: Case, book: PatternBook, time_limit_s: float, known: Answer | None
) -> tuple[list[int] | None, int] | None:
    """A plan and the bound; None where no plan meets the needs. Without a known answer any plan will do."""
    # The solver takes a tenth of a second to load, and only a proof needs it.
    import highspy

    program = _Program(book.days(case))
    _a_way_through_the_week(program, case)
    _each_block_once(program, case)
    _competition_lifts(program, case)
    if known is not None:
        _first_halves(program, case)
        _heavy_on_two_days_running(program, case)
    highs = _quiet_solver()
    for option, value in (("output_flag", False), ("threads", 1), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.5),
                          ("time_limit", time_limit_s)):  # fmt: skip
        highs.setOptionValue(option, value)
    gains = _load(highs, program, case, known is not None)
    if known is not None:
        _without_hopeless(highs, program, case, gains, known)
    highs.run()
    status = highs.getModelStatus()
    if status == highspy.HighsModelStatus.kInfeasible:
        return None
    if status not in (highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kTimeLimit):
        raise RuntimeError(f"The solver ended with {status.name}.")
    info = highs.getInfo()
    most = case.content.full
    if abs(info.mip_dual_bound) < 1e15:
        # A score is a whole number, so everything behind the point of a bound can go.
        keys = sum(block.key for block in case.content.blocks)
        most = min(most, floor(-info.mip_dual_bound + 1e-4) - case.key_cost * keys)
    if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
        return None, most
    return _plan(program, np.array(highs.getSolution().col_value)), most


def _quiet_solver() -> Any:
    """The solver without its greeting, which would stand in the middle of what a command writes."""
    import highspy

    class Quiet(highspy.Highs):
        # Called while the solver is made, before an option could be set from outside.
        def enableCallbacks(self) -> None:  # noqa: N802  # the library's own name
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()  # type: ignore[no-untyped-call]  # the library has no types

    return Quiet()  # type: ignore[no-untyped-call]  # nor here


def _load(highs: Any, program: _Program, case: Case, scored: bool) -> NDArray[np.float64]:
    sets = int(program.starts[-1])
    number = sets + len(program.gains)
    gains = np.zeros(number)
    if scored:
        for day, start in zip(program.days, program.starts, strict=False):
            gains[start : start + day.number] = day.value + case.key_cost * day.keys
        gains[:sets] -= case.content.split_cost * np.concatenate(program.begun)
        if case.before_meet is not None:
            late = (program.days[-1].heavy & ~case.before_meet != 0).sum(axis=1)
            gains[program.starts[-2] : sets] -= case.content.consecutive_cost * late
    gains[sets:] = program.gains
    uppers = np.concatenate([np.ones(sets), program.uppers])
    uppers[np.concatenate(program.closed)] = 0
    highs.addVars(number, np.zeros(number), uppers)
    everything = np.arange(number, dtype=np.int32)
    highs.changeColsCost(number, everything, -gains)
    highs.changeColsIntegrality(number, everything, np.ones(number, dtype=np.uint8))
    starts = np.cumsum([0, *(len(columns) for columns, _ in program.terms)])
    columns = np.concatenate([columns for columns, _ in program.terms]).astype(np.int32)
    factors = np.concatenate([factors for _, factors in program.terms])
    status = highs.addRows(
        len(program.terms),
        np.array(program.lows),
        np.array(program.highs),
        len(columns),
        starts[:-1].astype(np.int32),
        columns,
        factors,
    )
    if status.name == "kError":
        raise RuntimeError("The solver refused the rows of a week.")
    return gains


def _without_hopeless(
    highs: Any, program: _Program, case: Case, gains: NDArray[np.float64], known: Answer
) -> None:
    """Close the sets that no plan better than the known one can hold.

    In the program without whole numbers each set has a price: what a plan that holds it loses at least
    against the best of that program. Where the loss brings the plan under the known score the set can go.
    """
    highs.setOptionValue("solve_relaxation", True)
    highs.run()
    info = highs.getInfo()
    highs.setOptionValue("solve_relaxation", False)
    if info.dual_solution_status != 2:
        return
    keys = sum(block.key for block in case.content.blocks) - known.keys_out
    to_lose = -info.objective_function_value - (known.score + case.key_cost * keys)
    sets = int(program.starts[-1])
    price = np.array(highs.getSolution().col_dual)[:sets]
    value = np.array(highs.getSolution().col_value)[:sets]
    held = np.zeros(sets, bool)
    for blocks, day, start in zip(known.days, program.days, program.starts, strict=False):
        held[int(start) : int(start) + day.number] = day.blocks == blocks
    hopeless = np.flatnonzero((price > to_lose + 1e-3) & (value < 1e-6) & ~held).astype(np.int32)
    none = np.zeros(len(hopeless))
    highs.changeColsBounds(len(hopeless), hopeless, none, none)


def _plan(program: _Program, values: NDArray[np.float64]) -> list[int]:
    plan = []
    for day, start in zip(program.days, program.starts, strict=False):
        rows = np.flatnonzero(values[start : start + day.number] > 0.5)
        plan.append(int(day.blocks[rows[0]]) if len(rows) else 0)
    return plan


def _a_way_through_the_week(program: _Program, case: Case) -> None:
    """A plan is a way from the first day and unit to behind the last ones.

    It stands before a day, with so many units passed. A set of units leads to the next day and behind its
    last unit; a part of a split unit that does not end it leads to where only the unit itself goes on. So
    units keep their order, and a joined unit stands nowhere else.
    """
    units, days = len(case.content.running), len(program.days)
    into: dict[_Place, list[NDArray[np.int64]]] = {}
    out: dict[_Place, list[NDArray[np.int64]]] = {}

    def way(here: _Place, there: _Place, columns: NDArray[np.int64]) -> None:
        if len(columns):
            out.setdefault(here, []).append(columns)
            into.setdefault(there, []).append(columns)

    def free(here: _Place, there: _Place) -> None:
        way(here, there, np.array([program.column(0.0, 1.0)], dtype=np.int64))

    for day in range(days + 1):
        for unit in range(units):
            free(_Place(day, unit), _Place(day, unit + 1))
    for day, sets in enumerate(program.days):
        ends, begun = program.ends[day], program.begun[day]
        for unit in range(units + 1):
            free(_Place(day, unit), _Place(day + 1, unit))
        for low in range(units):
            if 0 < day < days - 1:
                free(_Place(day, low, split=True), _Place(day + 1, low, split=True))
            for high in range(low, units):
                mine = (sets.low == low) & (sets.high == high)
                for end, start in ((True, False), *SPLIT):
                    if (start and not day) or (not end and day == days - 1):
                        continue
                    columns = program.sets(day, mine & (ends == end) & (begun == start))
                    there = _Place(day + 1, high + 1) if end else _Place(day + 1, low, split=True)
                    way(_Place(day, low, split=start), there, columns)
    program.close(
        [
            program.sets(0, program.begun[0]),
            program.sets(days - 1, ~program.ends[days - 1]),
        ]
    )
    for place in into.keys() | out.keys():
        ins, outs = into.get(place, []), out.get(place, [])
        stays = int(place == _Place(days, units)) - int(place == _Place(0, 0))
        factors = [np.ones(len(each)) for each in ins] + [-np.ones(len(each)) for each in outs]
        program.row([*ins, *outs], low=stays, high=stays, factors=factors)


def _each_block_once(program: _Program, case: Case) -> None:
    """A split unit has each block in one of its parts: a later part has it only where the first has not.

    On other ways a unit comes once only.
    """
    for number, block in enumerate(case.content.blocks):
        holding: list[NDArray[np.int64]] = []
        firsts: list[NDArray[np.int64]] = []
        for day, sets in enumerate(program.days):
            ends, begun = program.ends[day], program.begun[day]
            has = sets.blocks >> number & 1 == 1
            holding.append(program.sets(day, has & begun))
            firsts.append(program.sets(day, (sets.low == block.unit) & ~has & ~begun & ~ends))
        factors = [np.ones(len(each)) for each in holding] + [-np.ones(len(each)) for each in firsts]
        program.row([*holding, *firsts], high=0, factors=factors)


def _competition_lifts(program: _Program, case: Case) -> None:
    for lift, need in enumerate(case.needs):
        if need:
            holding = [
                program.sets(day, sets.lifts >> lift & 1 == 1) for day, sets in enumerate(program.days)
            ]
            program.row(holding, low=need)


def _first_halves(program: _Program, case: Case) -> None:
    """What the first half of a group adds, rounded down as the score has it."""
    content = case.content
    for group, of in enumerate(content.groups):
        most = content.extra(of, of)
        if not most:
            continue
        adds = program.column(1.0, float(most))
        share = content.first_half_percent / 100
        holding = [program.sets(day, sets.points[:, group] > 0) for day, sets in enumerate(program.days)]
        factors = [
            sets.points[columns - int(start), group] * share
            for columns, sets, start in zip(holding, program.days, program.starts, strict=False)
        ]
        program.row(holding, low=0.0, factors=factors, less=(adds,))


def _heavy_on_two_days_running(program: _Program, case: Case) -> None:
    content = case.content
    if not content.consecutive_cost:
        return
    for day, (sets, after) in enumerate(pairwise(program.days)):
        for family in range(HEAVY_FAMILIES) if case.joined[day] else ():
            units = bits(int(np.bitwise_or.reduce(sets.heavy[:, family], initial=0)))
            clash = program.column(-float(content.consecutive_cost), 1.0) if units else -1
            for unit in units:
                here = program.sets(day, sets.heavy[:, family] >> unit & 1 == 1)
                next_ = program.sets(day + 1, after.heavy[:, family] & clashing(content, 1 << unit) != 0)
                program.row([here, next_], high=1, less=(clash,))
