"""Small cases of a week on days, solved by trying everything; and the same rules as another program.

Both are written from the rules alone and share nothing with the code under test but the case.
"""

from itertools import combinations, product
from random import Random

import highspy

from meetward.fit.week_days_case import Block, Case, Content, WarmUp


def small_case(random: Random, *, units: int = 3, blocks: int = 6, days: int = 3) -> Case:
    """A case at random: tight days, few groups, much that is heavy."""
    sessions = [(session, min(session, units - 1)) for session in range(units + random.randint(0, 1))]
    held = []
    for n in range(blocks):
        room = [one for one in sessions if sum(block.unit == one[1] for block in held) < 8]
        session, unit = sessions[n] if n < len(sessions) else random.choice(room)
        load = random.choice((0, 0, 1, 2, 4, 3)), random.choice((0, 0, 1, 2, 3))
        worth = random.randint(2, 9), random.randint(1, 12), random.randrange(3)
        held.append(Block(session, unit, *worth, *load, random.random() < 0.15, random.random() < 0.7))
    held.sort(key=lambda block: block.session)
    warm = []
    for _ in sessions:
        short = random.randint(0, 3)
        full = short + random.choice((0, 0, 1, 3))
        warm.append(WarmUp(full, short, random.randint(0, 4) if full > short else 0))
    running = [0] * units
    for one, other in combinations(range(units), 2):
        if random.random() < 0.4:
            running[one] |= 1 << other
            running[other] |= 1 << one
    costs = (random.randint(0, 5), random.randint(0, 4), random.randint(0, 5), random.randint(0, 5))
    figures = random.choice((0, 1)), random.choice((0, 50, 100))
    content = Content(tuple(held), tuple(warm), tuple(running), *figures, *costs)
    has = [len({b.unit for b in held if b.lifts >> lift & 1}) for lift in range(2)]
    everywhere = (1 << units) - 1
    return Case(
        content,
        tuple(random.randint(4, 22) for _ in range(days)),
        tuple(random.random() < 0.6 for _ in range(days - 1)),
        tuple(everywhere if random.random() < 0.8 else random.randint(0, everywhere) for _ in range(days)),
        tuple(min(random.randint(0, 2), days, n) for n in has),
        random.choice((None, None, 0, everywhere)),
    )


def judged(case: Case, where: tuple[int, ...]) -> tuple[int, int, int] | None:
    """Missing competition days, key blocks left out, score of a placing (-1: out); None if not allowed."""
    content, days = case.content, len(case.limits_s)
    on = [[b for b, day in zip(content.blocks, where, strict=True) if day == n] for n in range(days)]
    units = [{b.unit for b in held} for held in on]
    for one, other in combinations(range(days), 2):
        if units[one] and units[other] and max(units[one]) > min(units[other]):
            return None
        if units[one] & units[other] and (len(units[one]) > 1 or len(units[other]) > 1):
            return None
    cost = 0
    for n, held in enumerate(on):
        if not held:
            continue
        if len(units[n]) > 2 or any(not case.open[n] >> unit & 1 for unit in units[n]):
            return None
        gives = {s: sum(b.seconds for b in held if b.session == s) for s in {b.session for b in held}}
        work = sum(gives.values()) + (content.first_bar_s if any(b.bar for b in held) else 0)
        ways = []
        for session in (s for s, spent in gives.items() if spent == max(gives.values())):
            warm = content.warm_ups[session]
            ways += [0] * (work + warm.full_s <= case.limits_s[n])
            ways += [warm.short_cost] * (work + warm.short_s <= case.limits_s[n])
        if not ways:
            return None
        cost += min(ways) + content.mixed_cost * (len(units[n]) - 1)
        for bit in (1, 2, 4):
            from_units = {b.unit for b in held if b.heavy & bit}
            cost += content.same_day_cost * max(0, len(from_units) - 1)
            if n + 1 < days and case.joined[n]:
                after = {b.unit for b in on[n + 1] if b.heavy & bit}
                if any(not content.running[a] >> b & 1 for a in from_units for b in after):
                    cost += content.consecutive_cost
            if n == days - 1 and case.before_meet is not None:
                cost += content.consecutive_cost * any(not case.before_meet >> u & 1 for u in from_units)
    for unit in range(len(content.running)):
        cost += content.split_cost * max(0, sum(unit in mine for mine in units) - 1)
    value = 0
    for group in {b.group for b in content.blocks}:
        of = sum(b.points for b in content.blocks if b.group == group)
        kept = sum(
            b.points for b, day in zip(content.blocks, where, strict=True) if b.group == group and day >= 0
        )
        value += kept + min(kept, (of + 1) // 2) * content.first_half_percent // 100
    short = sum(
        max(0, need - sum(any(b.lifts >> lift & 1 for b in held) for held in on))
        for lift, need in enumerate(case.needs)
    )
    keys = sum(b.key and day < 0 for b, day in zip(content.blocks, where, strict=True))
    return short, keys, value - cost


def best_of_all(case: Case) -> tuple[int, int, int]:
    """The best placing of all, as `judged` has it."""
    choices = range(-1, len(case.limits_s))
    found = (judged(case, where) for where in product(choices, repeat=len(case.content.blocks)))
    return min((one for one in found if one), key=lambda one: (one[0], one[1], -one[2]))


def placing(case: Case, days: tuple[int, ...]) -> tuple[int, ...]:
    """The day of each block of a plan in bits, -1 for none."""
    return tuple(
        next((day for day, held in enumerate(days) if held >> n & 1), -1)
        for n in range(len(case.content.blocks))
    )


class Compact:
    """The same rules block by block: ``x[b, d]``, units present, warm-ups; for cases without key blocks."""

    def __init__(self, case: Case) -> None:
        self.case, self.highs, self.count = case, highspy.Highs(), 0
        self.highs.setOptionValue("output_flag", False)
        self.highs.setOptionValue("mip_rel_gap", 0.0)
        self.blocks, self.days = case.content.blocks, range(len(case.limits_s))
        self.x = {
            (b, d): self.column(block.points)
            for b, block in enumerate(self.blocks)
            for d in self.days
            if case.open[d] >> block.unit & 1
        }
        self.unit = {(u, d): self.column() for u in range(len(case.content.running)) for d in self.days}
        self.rules()

    def column(self, gain: float = 0, upper: float = 1) -> int:
        self.highs.addVar(0, upper)
        self.highs.changeColCost(self.count, -float(gain))
        self.highs.changeColIntegrality(self.count, highspy.HighsVarType.kInteger)
        self.count += 1
        return self.count - 1

    def row(self, *terms: tuple[float, int], low: float = -1e30, high: float = 1e30) -> None:
        joined: dict[int, float] = {}
        for factor, column in terms:
            joined[column] = joined.get(column, 0) + factor
        self.highs.addRow(low, high, len(joined), list(joined), list(joined.values()))

    def on(self, day: int, wanted, factor=lambda block: 1) -> list[tuple[float, int]]:
        return [
            (factor(block), self.x[b, day])
            for b, block in enumerate(self.blocks)
            if (b, day) in self.x and wanted(block)
        ]

    def rules(self) -> None:
        case, content = self.case, self.case.content
        units = range(len(content.running))
        for (b, d), x in self.x.items():
            self.row((1, x), (-1, self.unit[self.blocks[b].unit, d]), high=0)
        for b in range(len(self.blocks)):
            self.row(*((1, x) for (n, _), x in self.x.items() if n == b), high=1)
        joined = {d: self.column(-content.mixed_cost) for d in self.days}
        for d in self.days:
            self.row(*((1, self.unit[u, d]) for u in units), (-1, joined[d]), high=1)
            for later in self.days[d + 1 :]:
                for u in units:
                    for before in range(u):
                        self.row((1, self.unit[u, d]), (1, self.unit[before, later]), high=1)
                    for one, other in ((d, later), (later, d)):
                        self.row((1, self.unit[u, one]), (1, self.unit[u, other]), (1, joined[one]), high=2)
            self.warm_up(d)
        for u in units:
            more = self.column(-content.split_cost, 9)
            self.row(*((1, self.unit[u, d]) for d in self.days), (-1, more), high=1)
        for group in {block.group for block in self.blocks}:
            points = sum(block.points for block in self.blocks if block.group == group)
            adds = self.column(1, (points + 1) // 2 * content.first_half_percent // 100)
            share = content.first_half_percent / 100
            kept = [
                t
                for d in self.days
                for t in self.on(d, lambda b, g=group: b.group == g, lambda b, s=share: -s * b.points)
            ]
            self.row((1, adds), *kept, high=0)
        for lift, need in enumerate(case.needs):
            there = [self.column() for _ in self.days]
            for d in self.days:
                holding = self.on(d, lambda b, bit=lift: b.lifts >> bit & 1, lambda b: -1)
                self.row((1, there[d]), *holding, high=0)
            self.row(*((1, each) for each in there), low=need)
        for bit in (1, 2, 4):
            self.heavy(bit)

    def warm_up(self, day: int) -> None:
        case, content = self.case, self.case.content
        sessions = range(len(content.warm_ups))
        whole = [self.column() for _ in sessions]
        cut = [self.column(-content.warm_ups[s].short_cost) for s in sessions]
        bar = self.column()
        for _, x in self.on(day, lambda b: b.bar):
            self.row((1, x), (-1, bar), high=0)
        for _, x in self.on(day, lambda b: True):
            self.row((1, x), *((-1, column) for column in (*whole, *cut)), high=0)
        self.row(*((1, column) for column in (*whole, *cut)), high=1)
        spent = self.on(day, lambda b: True, lambda b: b.seconds)
        spent += [(content.warm_ups[s].full_s, whole[s]) for s in sessions]
        spent += [(content.warm_ups[s].short_s, cut[s]) for s in sessions]
        self.row(*spent, (content.first_bar_s, bar), high=case.limits_s[day])
        for mine, other in product(sessions, repeat=2):
            if mine != other:
                gives = self.on(day, lambda b, s=mine: b.session == s, lambda b: b.seconds)
                takes = self.on(day, lambda b, s=other: b.session == s, lambda b: -b.seconds)
                self.row(*gives, *takes, (-999, whole[mine]), (-999, cut[mine]), low=-999)

    def heavy(self, bit: int) -> None:
        case, content = self.case, self.case.content
        units = range(len(content.running))
        there = {(u, d): self.column() for u in units for d in self.days}
        for (u, d), column in there.items():
            for _, x in self.on(d, lambda b, u=u: b.unit == u and b.heavy & bit):
                self.row((1, x), (-1, column), high=0)
        for d in self.days:
            over = self.column(-content.same_day_cost)
            self.row(*((1, there[u, d]) for u in units), (-1, over), high=1)
            if d + 1 < len(self.days) and case.joined[d]:
                clash = self.column(-content.consecutive_cost)
                for u, v in product(units, repeat=2):
                    if not content.running[u] >> v & 1:
                        self.row((1, there[u, d]), (1, there[v, d + 1]), (-1, clash), high=1)
        if case.before_meet is not None:
            late = self.column(-content.consecutive_cost)
            for u in units:
                if not case.before_meet >> u & 1:
                    self.row((1, there[u, self.days[-1]]), (-1, late), high=0)

    def best(self) -> int | None:
        """The best score; None where the competition lifts cannot stand as often as they need."""
        self.highs.run()
        if self.highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible:
            return None
        assert self.highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        return round(-self.highs.getInfo().objective_function_value)
