"""The score of a plan, counted rule by rule; a plan that breaks a rule which is never broken is refused."""

from collections.abc import Iterator
from itertools import pairwise

from meetward.fit.week_days_case import HEAVY_FAMILIES, Answer, Case, Content, bits


def answer(case: Case, plan: list[int], bound: int | None = None) -> Answer:
    """The plan with its score. Raises ValueError for a plan that breaks a rule which is never broken."""
    for broken in broken_rules(case, plan):
        raise ValueError(f"The plan breaks a rule: {broken}.")
    content, kept = case.content, 0
    for blocks in plan:
        kept |= blocks
    keys_out = sum(block.key and not kept >> n & 1 for n, block in enumerate(content.blocks))
    score = kept_points(content, kept) - costs(case, plan)
    return Answer(tuple(plan), score, keys_out, short(case, plan), bound)


def broken_rules(case: Case, plan: list[int]) -> Iterator[str]:
    """The rules that are never broken and that this plan breaks, in words."""
    units = [units_of(case.content, blocks) for blocks in plan]
    seen = 0
    for day, blocks in enumerate(plan):
        if blocks & seen:
            yield "a line stands on two days"
        seen |= blocks
        if blocks and warm_up(case.content, blocks, case.limits_s[day]) is None:
            yield "a day takes too long"
        if len(units[day]) > 2:
            yield "a day draws on more than two sessions"
        if any(not case.open[day] >> unit & 1 for unit in units[day]):
            yield "a session comes too near to the meet"
    used = [mine for mine in units if mine]
    for one, other in pairwise(used):
        if max(one) > min(other):
            yield "sessions do not keep their order"
    for unit in range(len(case.content.running)):
        where = [mine for mine in units if unit in mine]
        if len(where) > 1 and any(len(mine) > 1 for mine in where):
            yield "a joined session stands on another day too"


def units_of(content: Content, blocks: int) -> list[int]:
    """The units that a day draws on."""
    return sorted({content.blocks[n].unit for n in bits(blocks)})


def warm_up(content: Content, blocks: int, limit_s: int) -> tuple[int, int, bool] | None:
    """What the warm-up of a day costs, its session, and whether it is whole; None where the day is too long.

    It is that of a session that gives most of the day; of several such the one that costs least, then the
    first.
    """
    seconds: dict[int, int] = {}
    bar = False
    for number in bits(blocks):
        block = content.blocks[number]
        seconds[block.session] = seconds.get(block.session, 0) + block.seconds
        bar = bar or block.bar
    work_s = sum(seconds.values()) + (content.first_bar_s if bar else 0)
    ways = []
    for session, spent in seconds.items():
        if spent == max(seconds.values()):
            one = content.warm_ups[session]
            if work_s + one.full_s <= limit_s:
                ways.append((0, session, True))
            elif work_s + one.short_s <= limit_s:
                ways.append((one.short_cost, session, False))
    return min(ways, default=None)


def heavy_units(content: Content, blocks: int) -> list[int]:
    """For each heavy family, bits of the units that it comes from."""
    units = [0] * HEAVY_FAMILIES
    for number in bits(blocks):
        for family in bits(content.blocks[number].heavy):
            units[family] |= 1 << content.blocks[number].unit
    return units


def clashing(content: Content, units: int) -> int:
    """Bits of the units whose heavy work should not stand on the day next to that of these."""
    everywhere = (1 << len(content.running)) - 1
    clash = 0
    for unit in bits(units):
        clash |= everywhere & ~content.running[unit]
    return clash


def kept_points(content: Content, kept: int) -> int:
    """Points of the blocks kept, with what the first halves add."""
    groups = [0] * len(content.groups)
    for number in bits(kept):
        groups[content.blocks[number].group] += content.blocks[number].points
    return sum(mine + content.extra(mine, of) for mine, of in zip(groups, content.groups, strict=True))


def costs(case: Case, plan: list[int]) -> int:
    """What the plan costs, without what is left out."""
    content = case.content
    heavy = [heavy_units(content, blocks) for blocks in plan]
    cost = 0
    stands = [0] * len(content.running)
    for day, blocks in enumerate(plan):
        if not blocks:
            continue
        warm = warm_up(content, blocks, case.limits_s[day])
        cost += warm[0] if warm else 0
        units = units_of(content, blocks)
        for unit in units:
            stands[unit] += 1
        cost += content.mixed_cost * (len(units) - 1)
        cost += content.same_day_cost * sum(max(0, one.bit_count() - 1) for one in heavy[day])
        if day + 1 < len(plan) and case.joined[day]:
            clashes = zip(heavy[day], heavy[day + 1], strict=True)
            cost += content.consecutive_cost * sum(bool(clashing(content, a) & b) for a, b in clashes)
    if case.before_meet is not None and plan:
        cost += content.consecutive_cost * sum(bool(units & ~case.before_meet) for units in heavy[-1])
    return cost + content.split_cost * sum(max(0, days - 1) for days in stands)


def short(case: Case, plan: list[int]) -> int:
    """Days on which competition lifts are missing."""
    return sum(max(0, need - there) for need, there in zip(case.needs, lift_days(case, plan), strict=True))


def lift_days(case: Case, plan: list[int]) -> list[int]:
    """On how many days each competition lift stands."""
    lifts = [0] * len(case.needs)
    for blocks in plan:
        for lift in range(len(lifts)):
            lifts[lift] += any(case.content.blocks[n].lifts >> lift & 1 for n in bits(blocks))
    return lifts
