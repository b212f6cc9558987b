"""At least what the rest of a calendar costs: the lower bound that leads the search (`weeks_search`).

It forgets the loads and keeps the numbers: so many open weeks, so many weeks of the cycle. Too few open weeks
mean that weeks go; too many mean that weeks are repeated, extra lighter ones put in, or the start is later.
Every sentence below is true of every plan, so no plan costs less than the bound.
"""

from itertools import accumulate

import msgspec

from meetward.fit.week_rules import WeekRules
from meetward.fit.weeks_calendar import CalendarWeek

NEVER = 10**9
"""A cost beyond all plans."""


class Terms(msgspec.Struct, frozen=True):
    """What the bound needs to know. Rows of weeks begin with an entry for "none", so that week 1 has index 1.

    before : weeks of the cycle that stand before those counted back from the meet.
    end : calendar weeks that are counted back.
    drop, repeat, repeat_after_gap : cost of leaving out and of repeating each week; NEVER where it is not
        allowed.
    load : whether a week is a working week.
    twice : whether no week is done more than twice.
    run_limit : working weeks in a row; None for no limit.
    meets_are_light : whether a working week counts as a lighter one in the week of a further meet.
    caps_count : whether working weeks after missed time have to be stepped.
    side : cost of two changed weeks side by side.
    """

    rules: WeekRules
    calendar: tuple[CalendarWeek, ...]
    before: int
    end: int
    drop: tuple[int, ...]
    repeat: tuple[int, ...]
    repeat_after_gap: tuple[int, ...]
    load: tuple[bool, ...]
    twice: bool
    run_limit: int | None
    meets_are_light: bool
    caps_count: bool
    side: int


class Bound:
    """Lower bounds, each worked out when it is first asked for."""

    def __init__(self, terms: Terms) -> None:
        self.terms = terms
        number = len(terms.calendar)
        rows = [[0] * (number + 1) for _ in range(4)]
        for at in range(number - terms.end - 1, -1, -1):
            week = terms.calendar[at]
            facts = (not week.blocked, not week.blocked and week.after_gap, week.blocked, bool(week.meets))
            for row, fact in zip(rows, facts, strict=True):
                row[at] = row[at + 1] + fact
        self.open, self.gaps, self.blocked, self.meets = rows
        self.returns = self._return_costs()
        self.of_week = [self._of_week(done) for done in range(terms.before + 1)]
        self.sums = [list(accumulate(week[1], initial=0)) for week in self.of_week]
        self.known: list[list[int | None]] = [
            [None] * (number + 1) for _ in range(terms.before + terms.end + 1)
        ]
        self.known_leaving: dict[tuple[int, int], int] = {}

    def at(self, at: int, done: int) -> int:
        """What the calendar weeks from ``at`` cost at least when week ``done`` was the last one done."""
        known = self.known[done][at]
        if known is None:
            known = self.known[done][at] = min(self._rest(at, done), NEVER)
        return known

    def leaving(self, at: int, done: int) -> int:
        """The same for plans that leave at least one more week of the cycle out."""
        known = self.known_leaving.get((at, done))
        if known is None:
            left, room = self.terms.before - done, self.open[at]
            if 0 <= left <= room and at < len(self.terms.calendar) - self.terms.end:
                known = self._one_less(at, done)
            else:
                known = self.at(at, done)
            self.known_leaving[at, done] = known
        return known

    def _return_costs(self) -> list[tuple[int, ...]]:
        """For each calendar week: from there on, the costs of the steps back after missed weeks that only a
        lighter week of the cycle can spare, the greatest first. So soon no extra lighter week may stand."""
        terms = self.terms
        found: list[tuple[int, ...]] = [()] * (len(terms.calendar) + 1)
        if not terms.caps_count:
            return found
        since = terms.rules.extra_after
        costs: list[int] = [0] * len(terms.calendar)
        for at, week in enumerate(terms.calendar):
            since = 0 if week.blocked else since + 1
            soon = 0 < since <= terms.rules.extra_after and at < len(terms.calendar) - terms.end
            if soon and week.cap_permille < 1000 and not week.meets:
                costs[at] = min((c for v, c in terms.rules.levels if v <= week.cap_permille), default=NEVER)
        for at in range(len(terms.calendar) - 1, -1, -1):
            found[at] = (
                tuple(sorted((*found[at + 1], costs[at]), reverse=True)) if costs[at] else found[at + 1]
            )
        return found

    def _of_week(self, done: int) -> tuple[list[int], list[int], int, int, int, int]:
        """What does not depend on the calendar: costs of leaving out and of repeating what is left, the
        cheapest first; the cheapest repeat after a gap; working weeks, lighter ones, lighter repeats."""
        terms = self.terms
        first = done or 1
        drops = sorted(terms.drop[done + 1 : terms.before + 1])
        repeats = sorted(terms.repeat[first : terms.before + 1])
        after_gap = min(terms.repeat_after_gap[first : terms.before + 1], default=NEVER)
        works = sum(terms.load[done + 1 : terms.before + 1])
        lighter = terms.before - done - works
        return (
            drops,
            repeats,
            after_gap,
            works,
            lighter,
            lighter + (done > 0 and not terms.load[done]),
        )

    def _rest(self, at: int, done: int) -> int:
        terms = self.terms
        left, room = terms.before - done, self.open[at]
        if left < 0:
            return 0
        drops, _, _, _, lighter, lighter_again = self.of_week[done]
        # Before the cycle has begun a free week can stand after missed weeks.
        steps = sum(self.returns[at][lighter + lighter_again :]) if done else 0
        if left > room:
            goes = left - room
            # So many that go with so few between them have to stand side by side.
            return sum(drops[:goes]) + (terms.side * max(0, goes - room - 1) if done else 0) + steps
        cost = self._filled(at, done, room - left)
        return min(cost, self._one_less(at, done)) + steps

    def _one_less(self, at: int, done: int) -> int:
        """The same where at least one week is left out: one more is to fill."""
        drops = self.of_week[done][0]
        if not drops:
            return NEVER
        return drops[0] + self._least_filled(at, done, self.open[at] - self.terms.before + done + 1)

    def _least_filled(self, at: int, done: int, fill: int) -> int:
        """So many weeks filled with what is cheapest, whatever the rules say of their order."""
        rules = self.terms.rules
        _, repeats, after_gap, _, _, _ = self.of_week[done]
        costs = [after_gap] * self.gaps[at]
        costs += repeats if self.terms.twice else repeats[:1] * fill
        if rules.on("extra lighter"):
            costs += [rules.extra_cost] * fill
        if not done and rules.on("start later"):
            costs += [rules.free_cost] * fill
        return sum(sorted(costs)[:fill]) if len(costs) >= fill else NEVER

    def _filled(self, at: int, done: int, fill: int) -> int:
        """The same where no week is left out: then it is known how many working weeks there are, and so how
        many lighter ones have to stand between them."""
        terms, rules = self.terms, self.terms.rules
        if not terms.twice or terms.run_limit is None:
            return self._least_filled(at, done, fill)
        _, costs, after_gap, works, lighter, lighter_again = self.of_week[done]
        many, gaps, limit, meets = len(costs), self.gaps[at], terms.run_limit, self.meets[at]
        sums, step = self.sums[done], rules.extra_after
        breaks = lighter + self.blocked[at] + meets + 1
        working = works - (meets if terms.meets_are_light else 0)
        extra = rules.extra_cost if rules.on("extra lighter") else None
        free = rules.free_cost if not done and rules.on("start later") else None
        best = NEVER
        for repeats in range(min(fill, many) + 1):
            cost = after_gap * repeats if repeats <= gaps else after_gap * gaps + sums[repeats - gaps]
            if cost >= best:
                break
            rest = fill - repeats
            most = (works + repeats + limit) // step + meets if extra is not None else 0
            if rest > most and free is None:
                continue
            light = repeats if repeats < lighter_again else lighter_again
            fewest = -((light - working - repeats) // limit) - breaks - light
            if fewest > rest or fewest > most:
                continue
            if free is None:
                cost += rest * (extra or 0)
            else:
                extras = min(rest, most) if extra is not None and extra < free else max(0, fewest)
                cost += extras * (extra or 0) + (rest - extras) * free
            pairs = 2 * repeats - many - 1 - gaps
            if pairs > 0:
                cost += terms.side * pairs
            if cost < best:
                best = cost
        return best
