"""From a computed weight to one that this bar and these discs can make, exactly.

A best in decagrams times an intensity in permille is a whole number of *millidag* (1 dag = 1,000 millidag),
so every target here is an integer and no kilo ever passes through a float. The rules:

- the nearest loadable weight; a tie goes to the lighter;
- never above the top of a range, if anything at or under it can be loaded;
- under the bar it is the bar, above the heaviest loadable weight it is that one, and the answer says so.

``load`` rounds one target and tells the reason; ``RoundingTable`` gives the same weights for whole arrays.
"""

from bisect import bisect_left
from functools import lru_cache
from math import gcd
from typing import Any, Literal

import msgspec
import numpy as np
from numpy.typing import NDArray

from meetward.barbell.discs import BarAndDiscs, loadable

MILLIDAG_PER_DAG = 1_000

Reason = Literal[
    "exact",
    "nearest",
    "tie to the lighter",
    "rounded down",
    "kept under the top",
    "bar is heavier",
    "heaviest on hand",
]

RULES: dict[Reason, str] = {
    "exact": "the bar makes this weight exactly",
    "nearest": "nearest weight that this bar and these discs can make",
    "tie to the lighter": "halfway between two weights that this bar can make, so the lighter one",
    "rounded down": "heaviest weight at or under the target that this bar and these discs can make",
    "kept under the top": "nearest weight that this bar can make without going above the top of the range",
    "bar is heavier": "less than the bar alone weighs, so the bar",
    "heaviest on hand": "more than this bar and these discs can make, so the heaviest they make",
}
"""The rule behind each reason, in words for the "why" of a kilo."""


class Loaded(msgspec.Struct, frozen=True):
    """A weight on the bar, and how it came from the target.

    dag : bar, collars and discs. [10 g]
    exact : whether it is the target itself.
    reason : the rule that decided, as a key of ``RULES``.
    """

    dag: int
    exact: bool
    reason: Reason

    @property
    def rule(self) -> str:
        """The rule that decided, in words."""
        return RULES[self.reason]


def load(
    kit: BarAndDiscs, target_millidag: int, *, top_millidag: int | None = None, down: bool = False
) -> Loaded:
    """What to put on the bar for a target.

    target_millidag : best [dag] times intensity [permille]. [0.01 g]
    top_millidag : top of the range that the target belongs to; None for no limit.
    down : the heaviest loadable weight at or under the target in place of the nearest.
    Raises ValueError for a target that is not positive.
    """
    if target_millidag <= 0:
        raise ValueError("A load has to be more than nothing; check the best and the percentage.")
    weights = loadable(kit)
    at = bisect_left(weights, target_millidag, key=_millidag)
    reason: Reason
    if at < len(weights) and _millidag(weights[at]) == target_millidag:
        dag, reason = weights[at], "exact"
    elif at == 0:
        dag, reason = weights[0], "bar is heavier"
    elif at == len(weights):
        dag, reason = weights[-1], "heaviest on hand"
    elif down:
        dag, reason = weights[at - 1], "rounded down"
    else:
        # Twice the distance to the middle keeps an exact half an integer.
        beyond_middle = 2 * target_millidag - _millidag(weights[at - 1] + weights[at])
        dag = weights[at] if beyond_middle > 0 else weights[at - 1]
        reason = "tie to the lighter" if beyond_middle == 0 else "nearest"
    if top_millidag is not None and _millidag(dag) > top_millidag and dag > weights[0]:
        # The heaviest at or under the top is the nearest of those: any between would have been chosen.
        at = bisect_left(weights, top_millidag + 1, key=_millidag)
        dag, reason = weights[max(at - 1, 0)], "kept under the top"
    return Loaded(dag, reason == "exact", reason)


def load_range(kit: BarAndDiscs, low_millidag: int, high_millidag: int) -> tuple[Loaded, Loaded]:
    """Both ends of a prescribed range ("70-75 %") on the bar: the low end nearest, the high end rounded down.

    So nothing goes above the top of the range. Where the low end would land above the high one, because
    nothing loadable lies in between, both are the high one: the lighter. Raises ValueError for an end that is
    not positive, or a low end above the high one.
    """
    if low_millidag > high_millidag:
        raise ValueError("The low end of a range lies above its high end; swap them.")
    low = load(kit, low_millidag, top_millidag=high_millidag)
    return low, load(kit, high_millidag, down=True)


class RoundingTable:
    """Rounding for one kit by direct address, for arrays of targets: index arithmetic and one gather.

    A loadable weight and the middle between two neighbours are both multiples of one grain, so all targets in
    ``((i - 1) * grain, i * grain]`` round to one weight: a target exactly on a middle falls to the lighter
    with the rest of its cell. All targets in ``[i * grain, (i + 1) * grain)`` round down to one.

    Get it by ``RoundingTable.of(kit)``, which keeps the latest tables. Answers equal those of ``load``; they
    are int32 and not narrower, so that a difference of two, or a bar times its reps, cannot wrap around.
    """

    def __init__(self, kit: BarAndDiscs) -> None:
        weights_dag = np.array(loadable(kit), dtype=np.int32)
        middles_dag = (weights_dag[:-1] + weights_dag[1:]) // 2  # even sums: neighbours differ by whole pairs
        grain_dag = gcd(*weights_dag.tolist(), *middles_dag.tolist())
        cells_dag = np.arange(0, int(weights_dag[-1]) + grain_dag, grain_dag, dtype=np.int32)
        at_or_under = np.searchsorted(weights_dag, cells_dag, side="right") - 1
        self._grain_millidag = grain_dag * MILLIDAG_PER_DAG
        self._top_millidag = int(weights_dag[-1]) * MILLIDAG_PER_DAG
        self._nearest_dag = weights_dag[np.searchsorted(middles_dag, cells_dag, side="left")]
        self._down_dag = weights_dag[np.maximum(at_or_under, 0)]

    @staticmethod
    @lru_cache(maxsize=256)
    def of(kit: BarAndDiscs) -> "RoundingTable":
        """The table of a kit, made once."""
        return RoundingTable(kit)

    def nearest(self, targets_millidag: NDArray[Any]) -> NDArray[np.int32]:
        """Nearest loadable weights, ties to the lighter. [millidag] in, int32 or int64; [10 g] out.

        Raises ValueError for any other kind of number.
        """
        cells = self._within(targets_millidag)
        cells += self._grain_millidag - 1
        cells //= self._grain_millidag
        return self._nearest_dag.take(cells)

    def down(self, targets_millidag: NDArray[Any]) -> NDArray[np.int32]:
        """Heaviest loadable weights at or under the targets, or the bar; numbers as for ``nearest``."""
        cells = self._within(targets_millidag)
        cells //= self._grain_millidag
        return self._down_dag.take(cells)

    def nearest_under(self, targets_millidag: NDArray[Any], tops_millidag: NDArray[Any]) -> NDArray[np.int32]:
        """Nearest loadable weights that do not go above the tops, as ``load(..., top_millidag=...)``."""
        return np.minimum(self.nearest(targets_millidag), self.down(tops_millidag))

    def between(
        self, lows_millidag: NDArray[Any], highs_millidag: NDArray[Any]
    ) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
        """Both ends of ranges, as ``load_range``: low ends nearest, high ends down, low never above high."""
        highs_dag = self.down(highs_millidag)
        return np.minimum(self.nearest(lows_millidag), highs_dag), highs_dag

    def _within(self, targets_millidag: NDArray[Any]) -> NDArray[Any]:
        """A copy of the targets, cut to 0 ... heaviest, so that no cell lies outside the table."""
        if targets_millidag.dtype not in (np.int32, np.int64):
            raise ValueError(f"Targets are int32 or int64 millidag, not {targets_millidag.dtype}.")
        return targets_millidag.clip(0, self._top_millidag)


def _millidag(dag: int) -> int:
    return dag * MILLIDAG_PER_DAG
