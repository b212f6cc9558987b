"""A good plan at once: each day in turn takes the best it can hold beside the others, again and again.

One step clears a few days, fills them anew with a little chance, and lets every day answer to the others. The
same case always gets the same plan: the random numbers start from a fixed seed and steps are counted, not
time.
"""

import numpy as np

from meetward.fit.week_days_case import HEAVY_FAMILIES, Answer, Case, Content, bits
from meetward.fit.week_days_patterns import Numbers, Patterns, patterns
from meetward.fit.week_days_score import answer, clashing

SEED = 20270320

LAYINGS = 30
SPREAD = 0.4
"""Ways of laying the units on the days, with ever more chance; of them the best are gone on with."""

STEPS = 48
A_START_EVERY = 6
"""Steps from one start before the next is taken up."""

NO_ROWS = np.zeros(0, np.int64)

BACKWARDS = 0.05
"""How often a worse plan is gone on with."""

PARTS_OF_CHANCE = (0.02, 0.06, 0.15)
"""Of the points of a full week divided by its days: how far chance can lift a worse set over a better one."""


class PatternBook:
    """What a day can hold, kept by week and limit."""

    def __init__(self) -> None:
        self._known: dict[tuple[Content, int], Patterns] = {}

    def of(self, content: Content, limit_s: int) -> Patterns:
        """The sets that fit into a day."""
        key = (content, limit_s)
        if key not in self._known:
            self._known[key] = patterns(content, limit_s)
        return self._known[key]

    def days(self, case: Case) -> list[Patterns]:
        """The sets of each day, with only the units that are open to it."""
        days = []
        for limit_s, open_ in zip(case.limits_s, case.open, strict=True):
            day = self.of(case.content, limit_s)
            closed = day.units & ~open_ != 0
            days.append(day.where(~closed) if closed.any() else day)
        return days


def quick(case: Case, book: PatternBook | None = None) -> Answer:
    """A good plan. Proven only where nothing has to be left out and nothing costs anything."""
    search = _Search(case, (book or PatternBook()).days(case))
    found = answer(case, search.run())
    full = case.content.full
    return answer(case, list(found.days), full) if found.score >= full else found


def improved(case: Case, plan: list[int], book: PatternBook | None = None) -> Answer:
    """The plan, or a better one found from it."""
    search = _Search(case, (book or PatternBook()).days(case))
    start = [_row(day, blocks) for day, blocks in zip(search.days, plan, strict=True)]
    found, given = answer(case, search.run(start)), answer(case, plan)
    return max(given, found, key=lambda one: one.rank)


def _row(day: Patterns, blocks: int) -> int:
    """The set of just these blocks, -1 where there is none."""
    rows = np.flatnonzero(day.blocks == blocks)
    return int(rows[0]) if len(rows) else -1


class _Search:
    """The state of a search: the set that each day holds, -1 for none."""

    def __init__(self, case: Case, days: list[Patterns]) -> None:
        content = case.content
        self.case, self.content, self.days = case, content, days
        groups = np.array(content.groups, dtype=np.int64)
        self.halves = (groups + 1) // 2
        self.percent = content.first_half_percent
        self.random = np.random.default_rng(SEED)
        self.full, self.need_cost, key_cost = content.full, case.need_cost, case.key_cost
        self.base = [day.value + key_cost * day.keys for day in days]
        self.everything = self.full + key_cost * sum(block.key for block in content.blocks)
        self.everything += self.need_cost * sum(case.needs)
        if case.before_meet is not None and days:
            late = (days[-1].heavy & ~case.before_meet != 0).sum(axis=1)
            self.base[-1] = self.base[-1] - content.consecutive_cost * late
        self.chosen = [-1] * len(days)
        self._clashing: dict[int, int] = {}
        self._rows: list[dict[int, Numbers]] = [
            {int(units): np.flatnonzero(day.units == units) for units in np.unique(day.units)} for day in days
        ]
        self._offers = [self._offer(day) for day in range(len(days))]

    def run(self, start: list[int] | None = None) -> list[int]:
        """The blocks of each day in the best plan found."""
        count = len(self.days)
        if not count or not self.content.blocks:
            return [0] * count
        if start is None:
            starts = self._starts()
        else:
            self.chosen = start[:]
            starts = [(self._total(), start[:])]
        best_total, best = starts[0]
        scale = self.full / count
        seen: set[tuple[int, ...]] = set()
        now_total, now = best_total, best[:]
        for step in range(STEPS):
            if best_total >= self.everything:
                break
            if step % A_START_EVERY == 0 and step // A_START_EVERY < len(starts):
                now_total, now = starts[step // A_START_EVERY]
                self.chosen = now[:]
            else:
                self.chosen = now[:]
                self._shake(scale * PARTS_OF_CHANCE[step % len(PARTS_OF_CHANCE)])
            if tuple(self.chosen) in seen:
                continue
            seen.add(tuple(self.chosen))
            total = self._settle()
            if total >= now_total or self.random.random() < BACKWARDS:
                now_total, now = total, self.chosen[:]
            if total > best_total:
                best_total, best = total, self.chosen[:]
        return [0 if row < 0 else int(day.blocks[row]) for day, row in zip(self.days, best, strict=True)]

    def _starts(self) -> list[tuple[int, list[int]]]:
        """The best plans of many ways of laying the units on the days, best first."""
        scale = self.full / len(self.days)
        seen: dict[tuple[int, ...], tuple[int, list[int]]] = {}
        for number in range(LAYINGS):
            self.chosen = self._laid(scale * SPREAD * number / LAYINGS)
            units = [
                0 if row < 0 else int(day.units[row]) for day, row in zip(self.days, self.chosen, strict=True)
            ]
            if tuple(units) not in seen:
                total = self._settle(units)
                seen[tuple(units)] = total, self.chosen[:]
        return sorted(seen.values(), key=lambda one: -one[0])

    def _shake(self, chance: float) -> None:
        """Clear days that follow one another, and fill them anew with a little chance."""
        count = len(self.days)
        width = min(count, 1 + int(self.random.integers(1, 4)))
        first = int(self.random.integers(0, count - width + 1))
        window = [int(day) for day in self.random.permutation(range(first, first + width))]
        for day in window:
            self.chosen[day] = -1
        for day in window:
            self.chosen[day] = self._best(day, chance)

    def _laid(self, chance: float) -> list[int]:
        """Units on days in their order, each day with its best set as if half of a first half counted."""
        units = len(self.content.running)
        best: list[tuple[float, list[int]]] = [(0.0, [])] * (units + 1)  # by the units that are passed
        for offers in self._offers:
            after: list[tuple[float, list[int]]] = [(total, [*rows, -1]) for total, rows in best]
            for low, high, worth, row in offers:
                total, rows = best[low]
                total += worth + (float(self.random.gumbel(0.0, chance)) if chance else 0.0)
                if total > after[high + 1][0]:
                    after[high + 1] = (total, [*rows, row])
            for passed in range(1, units + 1):
                if after[passed - 1][0] > after[passed][0]:
                    after[passed] = after[passed - 1]
            best = after
        return best[-1][1]

    def _offer(self, day: int) -> list[tuple[int, int, float, int]]:
        """The best sets of each unit and of each two units, one for each choice of competition lifts.

        Each with its first and last unit, its worth and its row.
        """
        mine = self.days[day]
        worth = self.base[day] + mine.points.sum(axis=1) * (self.percent / 200)
        for lift, need in enumerate(self.case.needs):
            if need:
                worth = worth + self.full / 20 * (mine.lifts >> lift & 1)
        offers = []
        for of_units in self._rows[day].values():
            for lifts in np.unique(mine.lifts[of_units]):
                rows = of_units[mine.lifts[of_units] == lifts]
                row = int(rows[worth[rows].argmax()])
                offers.append((int(mine.low[row]), int(mine.high[row]), float(worth[row]), row))
        return offers

    def _settle(self, units: list[int] | None = None) -> int:
        """Let each day answer to the others until nothing gets better; where given, with these units only."""
        total, calm, day = self._total(), 0, 0
        while calm < len(self.days):
            before = self.chosen[day]
            after = self._best(day, units=None if units is None else units[day])
            calm += 1
            if after != before:
                self.chosen[day] = after
                better = self._total()
                if better > total:
                    total, calm = better, 1
                else:
                    self.chosen[day] = before
            day = (day + 1) % len(self.days)
        return total

    def _others(self, day: int) -> list[tuple[int, int]]:
        return [(other, row) for other, row in enumerate(self.chosen) if row >= 0 and other != day]

    def _best(self, day: int, chance: float = 0.0, units: int | None = None) -> int:
        """The best set for the day beside what the others hold; -1 where none is better than nothing."""
        mine, case = self.days[day], self.case
        low, high = 0, len(self.content.running)
        used = joined = single = 0
        kept = np.zeros(len(self.halves), np.int64)
        lifts = [0] * len(case.needs)
        for other, row in self._others(day):
            there = self.days[other]
            held = int(there.units[row])
            used |= int(there.blocks[row])
            if there.low[row] == there.high[row]:
                single |= held
            else:
                joined |= held
            if other < day:
                low = max(low, int(there.high[row]))
            else:
                high = min(high, int(there.low[row]))
            kept += there.points[row]
            for lift in range(len(lifts)):
                lifts[lift] += int(there.lifts[row]) >> lift & 1
        if units is not None:
            rows = self._rows[day].get(units, NO_ROWS)
            rows = rows[mine.blocks[rows] & used == 0]
            return self._pick(day, rows, kept, single, lifts, chance)
        can = (mine.low >= low) & (mine.high <= high) & (mine.units & joined == 0) & (mine.blocks & used == 0)
        can &= (mine.units & single == 0) | (mine.low == mine.high)
        return self._pick(day, np.flatnonzero(can), kept, single, lifts, chance)

    def _pick(
        self, day: int, rows: Numbers, kept: Numbers, single: int, lifts: list[int], chance: float
    ) -> int:
        """The best of these sets, -1 where none is better than nothing."""
        if not len(rows):
            return -1
        mine, case, content = self.days[day], self.case, self.content
        points = mine.points[rows] + kept
        value = self.base[day][rows] + (np.minimum(points, self.halves) * self.percent // 100).sum(axis=1)
        value -= content.split_cost * (mine.units[rows] & single != 0)
        for beside in (day - 1, day + 1):
            if 0 <= beside < len(self.days) and self.chosen[beside] >= 0 and case.joined[min(day, beside)]:
                value -= content.consecutive_cost * self._clashes(mine.heavy[rows], beside)
        for lift, need in enumerate(case.needs):
            if lifts[lift] < need:
                value += self.need_cost * (mine.lifts[rows] >> lift & 1)
        nothing = int((np.minimum(kept, self.halves) * self.percent // 100).sum())
        if chance:
            at = int((value + self.random.gumbel(0.0, chance, len(rows))).argmax())
        else:
            at = int(value.argmax())
        return int(rows[at]) if value[at] > nothing else -1

    def _clashes(self, heavy: Numbers, beside: int) -> Numbers:
        row = self.chosen[beside]
        clash = [self._clash(int(units)) for units in self.days[beside].heavy[row]]
        found: Numbers = (heavy & np.array(clash, dtype=np.int64) != 0).sum(axis=1)
        return found

    def _clash(self, units: int) -> int:
        known = self._clashing.get(units)
        if known is None:
            known = self._clashing[units] = clashing(self.content, units)
        return known

    def _total(self) -> int:
        """The score, with the costs of key blocks and competition lifts as gains of what is kept."""
        held = [(day, row) for day, row in enumerate(self.chosen) if row >= 0]
        total = sum(int(self.base[day][row]) for day, row in held)
        kept = np.zeros(len(self.halves), np.int64)
        stands = [0] * len(self.content.running)
        lifts = [0] * len(self.case.needs)
        for day, row in held:
            there = self.days[day]
            kept += there.points[row]
            for unit in bits(int(there.units[row])):
                stands[unit] += 1
            for lift in range(len(lifts)):
                lifts[lift] += int(there.lifts[row]) >> lift & 1
            after = self.chosen[day + 1] if day + 1 < len(self.days) else -1
            if after >= 0 and self.case.joined[day]:
                heavy = self.days[day + 1].heavy[after]
                total -= self.content.consecutive_cost * sum(
                    bool(self._clash(int(there.heavy[row, f])) & int(heavy[f])) for f in range(HEAVY_FAMILIES)
                )
        total += int((np.minimum(kept, self.halves) * self.percent // 100).sum())
        total -= self.content.split_cost * sum(max(0, days - 1) for days in stands)
        return total + self.need_cost * sum(map(min, self.case.needs, lifts))
