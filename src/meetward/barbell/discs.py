"""Bar and discs: what they can make, and the fewest discs for a weight.

A bar's weight includes bar, collars and discs, both sides are loaded alike and the heaviest disc sits inside
(international rule book; see tests/authorities/bar-and-discs.md). Collars go on with the discs: the bare bar
of 20 kg is 20 kg, the same bar with collars and a pair of 0.5 kg discs is 26 kg.
"""

from functools import lru_cache
from itertools import pairwise
from math import gcd

import msgspec
import numpy as np
from numpy.typing import NDArray

from meetward.units import show_kg

HEAVIEST_DAG = 100_000
"""Weights above 1,000 kg are not looked at, however many discs a club owns."""

_HEAVIEST_BAR_DAG = 5_000
_HEAVIEST_DISC_DAG = 10_000
_MOST_PAIRS = 99
_MOST_KINDS = 24
_NEVER = 10_000
"""More discs than any side holds: stands for "cannot be made"."""


class Disc(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One kind of disc.

    dag : weight of one disc. [10 g]
    pairs : pairs on hand; an odd disc is of no use on a bar.
    colour : in plain words, for drawings; empty when not known.
    large : of full height (450 mm), so that the bar lies at the height of the lift.
    Raises ValueError for a weight or a number that no disc has.
    """

    dag: int
    pairs: int = 1
    colour: str = ""
    large: bool = False

    def __post_init__(self) -> None:
        _whole("A disc's weight", self.dag, 1, _HEAVIEST_DISC_DAG)
        if type(self.pairs) is not int or not 1 <= self.pairs <= _MOST_PAIRS:
            raise ValueError(
                f"{self.pairs} pairs of {show_kg(self.dag)} kg discs: enter a whole number of pairs from 1 "
                f"to {_MOST_PAIRS}. An odd disc does not count, so three discs are one pair."
            )


class BarAndDiscs(msgspec.Struct, frozen=True, forbid_unknown_fields=True, cache_hash=True):
    """A bar, its collars and the discs on hand: a lifter's kit.

    bar_dag : the bare bar. [10 g]
    collars_dag : both collars together; 0 where they are light or not counted. [10 g]
    discs : sorted on arrival, heaviest first and large before small; none is allowed.
    Raises ValueError for weights that no bar or collar has, and for a kind of disc that is listed twice.
    """

    bar_dag: int
    collars_dag: int = 0
    discs: tuple[Disc, ...] = ()

    def __post_init__(self) -> None:
        _whole("The bar's weight", self.bar_dag, 100, _HEAVIEST_BAR_DAG)
        _whole("The weight of both collars", self.collars_dag, 0, 1_000)
        if self.collars_dag % 2:
            raise ValueError(
                f"Two collars of equal weight cannot weigh {show_kg(self.collars_dag)} kg together."
            )
        if len(self.discs) > _MOST_KINDS:
            raise ValueError(f"{len(self.discs)} kinds of disc are listed; list at most {_MOST_KINDS}.")
        ordered = tuple(sorted(self.discs, key=lambda disc: (-disc.dag, not disc.large)))
        for one, other in pairwise(ordered):
            if (one.dag, one.large) == (other.dag, other.large):
                raise ValueError(
                    f"Discs of {show_kg(one.dag)} kg are listed twice; add their pairs together."
                )
        msgspec.structs.force_setattr(self, "discs", ordered)


class SidePlan(msgspec.Struct, frozen=True):
    """The discs on one side of the bar.

    total_dag : bar, collars and discs of both sides. [10 g]
    discs : each disc of one side, inside to outside.
    collars_dag : both collars together; 0 on the bare bar, which is lifted without. [10 g]
    """

    total_dag: int
    discs: tuple[Disc, ...] = ()
    collars_dag: int = 0

    @property
    def discs_dag(self) -> tuple[int, ...]:
        """Weights of the discs of one side, inside to outside. [10 g]"""
        return tuple(disc.dag for disc in self.discs)

    def changes_to(self, after: "SidePlan") -> tuple[int, int]:
        """Discs a side that come off and that go on to get from here to ``after``.

        Only the outermost disc can come off, so whatever sits outside the first difference comes off with it.
        """
        kept = 0
        for mine, theirs in zip(self.discs, after.discs, strict=False):
            if mine != theirs:
                break
            kept += 1
        return len(self.discs) - kept, len(after.discs) - kept


@lru_cache(maxsize=256)
def loadable(kit: BarAndDiscs) -> tuple[int, ...]:
    """Every weight that this bar and these discs make, both sides alike, ascending. [10 g]

    The first is the bare bar. Exact; weights above ``HEAVIEST_DAG`` are left out.
    """
    grain_dag, fewest = _fewest(kit)
    sides_dag = np.flatnonzero(fewest[0] < _NEVER)[1:] * grain_dag
    return kit.bar_dag, *(kit.bar_dag + kit.collars_dag + 2 * sides_dag).tolist()


def plan(kit: BarAndDiscs, total_dag: int) -> SidePlan | None:
    """The fewest discs a side that make ``total_dag``; None when the discs on hand cannot make it.

    Of equally few discs the plan with the heavier inner discs wins (25 + 5 before 20 + 10). Taking the
    heaviest disc that fits, again and again, is not enough: with one pair each of 25, 20, 15 and 5 kg, 35 kg
    a side is 20 + 15, but that way leads to 25 + 5 and stops 5 kg short.
    """
    if total_dag == kit.bar_dag:
        return SidePlan(total_dag)
    grain_dag, fewest = _fewest(kit)
    grains, rest = divmod(total_dag - kit.bar_dag - kit.collars_dag, 2 * grain_dag)
    if rest or not 0 < grains < fewest.shape[1] or fewest[0, grains] == _NEVER:
        return None
    side: list[Disc] = []
    for kind, disc in enumerate(kit.discs):
        weight = disc.dag // grain_dag
        needed = fewest[kind, grains]
        # As many of the heaviest as a fewest-discs plan allows: that is the tie rule.
        count = next(
            n
            for n in range(min(disc.pairs, grains // weight), -1, -1)
            if n + fewest[kind + 1, grains - n * weight] == needed
        )
        side += [disc] * count
        grains -= count * weight
    return SidePlan(total_dag, tuple(side), kit.collars_dag)


def fewest_discs(kit: BarAndDiscs, side_dag: int) -> int | None:
    """How many discs a side make ``side_dag`` at the least; None when none do."""
    grain_dag, fewest = _fewest(kit)
    grains, rest = divmod(side_dag, grain_dag)
    if rest or not 0 <= grains < fewest.shape[1] or fewest[0, grains] == _NEVER:
        return None
    return int(fewest[0, grains])


@lru_cache(maxsize=128)
def _fewest(kit: BarAndDiscs) -> tuple[int, NDArray[np.int16]]:
    """The grain of the discs [10 g], and ``fewest[k, s]``: fewest discs of kinds k, k+1, ... for s grains.

    The grain is the greatest weight that every disc is a multiple of, which keeps the table small. Built from
    the lightest kind up: with one more kind, a side takes 0, 1, ... of it on top of the best for the rest.
    """
    grain_dag = gcd(*(disc.dag for disc in kit.discs)) or 1
    most_dag = min(
        sum(disc.dag * disc.pairs for disc in kit.discs),
        (HEAVIEST_DAG - kit.bar_dag - kit.collars_dag) // 2,
    )
    fewest = np.full((len(kit.discs) + 1, most_dag // grain_dag + 1), _NEVER, dtype=np.int16)
    fewest[-1, 0] = 0
    for kind in range(len(kit.discs) - 1, -1, -1):
        without, with_it = fewest[kind + 1], fewest[kind]
        with_it[:] = without
        weight = kit.discs[kind].dag // grain_dag
        for n in range(1, min(kit.discs[kind].pairs, (len(without) - 1) // weight) + 1):
            np.minimum(with_it[n * weight :], without[: -n * weight] + np.int16(n), out=with_it[n * weight :])
    np.minimum(fewest, _NEVER, out=fewest)
    fewest.flags.writeable = False
    return grain_dag, fewest


def _whole(what: str, value: int, least: int, most: int) -> None:
    """Raise ValueError unless ``value`` is an integer in bounds; the bounds are told in kg."""
    if type(value) is not int:
        raise ValueError(f"{what} is {value!r}; give it as a whole number of 10 g.")
    if not least <= value <= most:
        raise ValueError(
            f"{what} is {show_kg(value)} kg; it has to lie from {show_kg(least)} to {show_kg(most)} kg."
        )
