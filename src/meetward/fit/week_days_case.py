"""The bare question behind a week on a lifter's days: whole numbers only, no names.

Two lifters with the same case have the same answer, so it is also the key by which answers are kept: the days
are there with their minutes and with which of them follow one another, and not with their names.

The coach's days are the *units*: what the coach put on one weekday. A plan gives every day of the lifter a
set of blocks, as bits of one whole number. It obeys these rules, which are never broken:
    a day is not longer than its limit, with the warm-up of a session that gives most of it
    units keep their order over the days
    a day draws on one unit or on two; a unit that is joined to another stands on that day only
    a unit stands only on days that are open to it.
The score of a plan is
    points of the blocks kept, and of each group once more up to half of the group's points
    - a cost for each day that draws on two units, and for each day more on which a unit stands
    - a cost for each heavy family on two days running, and for each on one day from two units
    - what cut warm-ups cost.
Key blocks that are left out, and competition lifts that are missing, cost more than all of these together.
"""

import msgspec

HEAVY_FAMILIES = 3


class WarmUp(msgspec.Struct, frozen=True):
    """The warm-up of a session: whole, cut to its last part, and what the cut costs in points. [s]"""

    full_s: int
    short_s: int
    short_cost: int


class Block(msgspec.Struct, frozen=True):
    """Lines that stay together.

    session, unit : from 0.
    heavy, lifts : bits of heavy families and of competition lifts.
    """

    session: int
    unit: int
    seconds: int
    points: int
    group: int
    heavy: int
    lifts: int
    key: bool
    bar: bool


class Content(msgspec.Struct, frozen=True):
    """What has to be fitted, without the days: the same for every lifter of the week.

    warm_ups : of each session.
    running : for each unit, bits of the units that the coach put on the day before or behind it.
    first_bar_s : what the first bar exercise of a day takes more. [s]
    first_half_percent, ..._cost : figures of the rules.
    """

    blocks: tuple[Block, ...]
    warm_ups: tuple[WarmUp, ...]
    running: tuple[int, ...]
    first_bar_s: int
    first_half_percent: int
    mixed_cost: int
    split_cost: int
    consecutive_cost: int
    same_day_cost: int

    @property
    def groups(self) -> tuple[int, ...]:
        """Points of each group."""
        points = [0] * (max((block.group for block in self.blocks), default=-1) + 1)
        for block in self.blocks:
            points[block.group] += block.points
        return tuple(points)

    @property
    def full(self) -> int:
        """Score of a week that is kept whole and costs nothing."""
        return sum(points + self.extra(points, points) for points in self.groups)

    def extra(self, kept: int, of: int) -> int:
        """What a group gets on top for its first half."""
        return min(kept, (of + 1) // 2) * self.first_half_percent // 100

    def key_cost(self, days: int) -> int:
        """More than everything that keeping a key block could cost elsewhere."""
        a_day = (
            self.mixed_cost + self.split_cost + HEAVY_FAMILIES * (self.same_day_cost + self.consecutive_cost)
        )
        a_day += max((warm_up.short_cost for warm_up in self.warm_ups), default=0)
        return self.full + a_day * (days + 1) + 1


class Case(msgspec.Struct, frozen=True):
    """A week and a lifter's days.

    limits_s : of each day. [s]
    joined : for each day but the last, whether the next training day is the next day of the week.
    open : for each day, bits of the units that may stand on it.
    needs : days that each competition lift has to stand on.
    before_meet : bits of the units that may be heavy on the last day, because the coach put them right before
        the meet; None where no meet follows the last day.
    """

    content: Content
    limits_s: tuple[int, ...]
    joined: tuple[bool, ...]
    open: tuple[int, ...]
    needs: tuple[int, ...]
    before_meet: int | None

    @property
    def key_cost(self) -> int:
        """What a key block costs that is left out."""
        return self.content.key_cost(len(self.limits_s))

    @property
    def need_cost(self) -> int:
        """More than everything that a competition lift on one day more could cost elsewhere."""
        keys = sum(block.key for block in self.content.blocks)
        return self.key_cost * (keys + 1)


class Answer(msgspec.Struct, frozen=True):
    """A plan of a case.

    days : bits of the blocks of each day.
    score : without the costs of key blocks and of competition lifts.
    keys_out : key blocks that are left out.
    short : days on which a competition lift is missing, over all of them.
    bound : no plan that keeps as many keys and competition lifts scores more; None where that is not known.
    """

    days: tuple[int, ...]
    score: int
    keys_out: int
    short: int
    bound: int | None = None

    @property
    def proven(self) -> bool:
        """Whether no plan is better."""
        return self.bound is not None and self.score >= self.bound

    @property
    def rank(self) -> tuple[int, int, int]:
        """By which answers are compared."""
        return -self.short, -self.keys_out, self.score


def bits(number: int) -> list[int]:
    """Places of the bits that are set, the lowest first."""
    places = []
    while number:
        low = number & -number
        places.append(low.bit_length() - 1)
        number ^= low
    return places
