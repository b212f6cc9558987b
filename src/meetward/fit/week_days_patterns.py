"""All that one day can hold: sets of blocks of one unit, or of two, that fit into its minutes.

Of two units only those sets are kept to which nothing can be added for nothing: where a block that is
missing fits in, at no dearer warm-up and without heavy work that was not there, the set without it is never
needed. Of one unit all are kept, because a split unit needs the smaller ones.
"""

from collections.abc import Iterable
from itertools import combinations

import msgspec
import numpy as np
from numpy.typing import NDArray

from meetward.fit.week_days_case import HEAVY_FAMILIES, Content

Numbers = NDArray[np.int64]

NEVER = 10**9

MOST_BLOCKS = 8
"""Blocks of a unit; two units have 65,536 sets then."""


class Patterns(msgspec.Struct, frozen=True):
    """Sets of blocks, one a row.

    blocks, units : bits.
    low, high : first and last unit.
    value : points less what the set costs by itself.
    points : of each group.
    keys : how many key blocks.
    lifts : bits of the competition lifts.
    heavy : for each heavy family bits of the units that it comes from.
    """

    blocks: Numbers
    units: Numbers
    low: Numbers
    high: Numbers
    value: Numbers
    points: Numbers
    keys: Numbers
    lifts: Numbers
    heavy: Numbers

    @property
    def number(self) -> int:
        """How many sets there are."""
        return len(self.blocks)

    @property
    def joined(self) -> NDArray[np.bool_]:
        """Whether the set draws on two units."""
        joined: NDArray[np.bool_] = self.low != self.high
        return joined

    def where(self, wanted: NDArray[np.bool_]) -> "Patterns":
        """Only those."""
        return Patterns(*(getattr(self, name)[wanted] for name in self.__struct_fields__))


def patterns(content: Content, limit_s: int) -> Patterns:
    """The sets that a day of ``limit_s`` can hold. Raises ValueError for a unit with more than 8 blocks."""
    of_unit: dict[int, list[int]] = {}
    for number, block in enumerate(content.blocks):
        of_unit.setdefault(block.unit, []).append(number)
    if any(len(blocks) > MOST_BLOCKS for blocks in of_unit.values()):
        raise ValueError(f"A day of the template has more than {MOST_BLOCKS} blocks.")
    units = sorted(of_unit)
    ways = [(unit,) for unit in units] + list(combinations(units, 2))
    parts = [_of_units(content, [n for unit in way for n in of_unit[unit]], way, limit_s) for way in ways]
    if not parts:
        none = np.zeros(0, np.int64)
        wide = np.zeros((0, len(content.groups)), np.int64)
        return Patterns(
            none, none, none, none, none, wide, none, none, np.zeros((0, HEAVY_FAMILIES), np.int64)
        )
    return together(parts)


def together(parts: Iterable[Patterns]) -> Patterns:
    """The sets of all parts, in their order."""
    parts = list(parts)
    return Patterns(
        *(np.concatenate([getattr(part, name) for part in parts]) for name in Patterns.__struct_fields__)
    )


def _of_units(content: Content, numbers: list[int], units: tuple[int, ...], limit_s: int) -> Patterns:
    blocks = [content.blocks[n] for n in numbers]
    count = len(numbers)
    sets = np.arange(1 << count, dtype=np.int64)
    has: Numbers = sets[:, None] >> np.arange(count, dtype=np.int64) & 1

    def summed(of: list[int]) -> Numbers:
        return has @ np.array(of, dtype=np.int64)

    seconds = np.stack(
        [
            summed([block.seconds if block.session == session else 0 for block in blocks])
            for session in sorted({block.session for block in blocks})
        ],
        axis=1,
    )
    most = seconds.max(axis=1)
    work_s = seconds.sum(axis=1) + content.first_bar_s * (summed([int(block.bar) for block in blocks]) > 0)
    warm = np.full(len(sets), NEVER, dtype=np.int64)
    for column, session in enumerate(sorted({block.session for block in blocks})):
        one = content.warm_ups[session]
        cost = np.where(work_s + one.short_s <= limit_s, one.short_cost, NEVER)
        cost = np.where(work_s + one.full_s <= limit_s, 0, cost)
        warm = np.minimum(warm, np.where(seconds[:, column] == most, cost, NEVER))
    fits = warm < NEVER
    for unit in units:
        fits &= summed([int(block.unit == unit) for block in blocks]) > 0
    heavy = np.zeros((len(sets), HEAVY_FAMILIES), np.int64)
    for family in range(HEAVY_FAMILIES):
        for unit in units:
            there = summed([int(block.unit == unit and bool(block.heavy >> family & 1)) for block in blocks])
            heavy[:, family] |= (there > 0).astype(np.int64) << unit
    keep = fits
    if len(units) > 1:
        keep = fits & ~_dominated(sets, count, fits, warm, heavy)
    crowd = sum(
        np.maximum(sum((heavy[:, family] >> unit & 1 for unit in units), np.int64(0)) - 1, 0)
        for family in range(HEAVY_FAMILIES)
    )
    points = np.stack(
        [
            summed([block.points if block.group == group else 0 for block in blocks])
            for group in range(len(content.groups))
        ],
        axis=1,
    )
    lifts = np.zeros(len(sets), np.int64)
    for lift in range(2):
        there = summed([block.lifts >> lift & 1 for block in blocks])
        lifts |= (there > 0).astype(np.int64) << lift
    costs = warm + content.same_day_cost * crowd + content.mixed_cost * (len(units) - 1)
    return Patterns(
        summed([1 << n for n in numbers]),
        np.full(len(sets), sum(1 << unit for unit in units), np.int64),
        np.full(len(sets), units[0], np.int64),
        np.full(len(sets), units[-1], np.int64),
        points.sum(axis=1) - costs,
        points,
        summed([int(block.key) for block in blocks]),
        lifts,
        heavy,
    ).where(keep)


def _dominated(
    sets: Numbers, count: int, fits: NDArray[np.bool_], warm: Numbers, heavy: Numbers
) -> NDArray[np.bool_]:
    """Sets to which a block can be added for nothing."""
    dominated = np.zeros(len(sets), bool)
    for block in range(count):
        without = sets[sets >> block & 1 == 0]
        more = without | 1 << block
        free = fits[more] & (warm[more] <= warm[without])
        free &= (heavy[more] == heavy[without]).all(axis=1)
        dominated[without] |= free
    return dominated
