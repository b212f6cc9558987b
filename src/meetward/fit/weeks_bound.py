"""At least what the rest of a calendar costs: the lower bound that leads the search (`weeks_search`).

It forgets the loads and keeps the numbers: so many open weeks, so many weeks of the cycle. Too few open weeks
mean that weeks go; too many mean that weeks are repeated, extra lighter ones put in, or the start is later.
Every sentence below is true of every plan, so no plan costs less than the bound.
"""

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
        self.known: dict[tuple[int, int], int] = {}

    def at(self, at: int, done: int) -> int:
        """What the calendar weeks from ``at`` cost at least when week ``done`` was the last one done."""
        known = self.known.get((at, done))
        if known is None:
            known = self.known[at, done] = min(self._rest(at, done), NEVER)
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
        return drops, repeats, after_gap, works, lighter, lighter + (done > 0 and not terms.load[done])

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
        if drops and cost > drops[0]:
            # Whoever leaves a week out has one more to fill.
            cost = min(cost, drops[0] + self._least_filled(at, done, room - left + 1))
        return cost + steps

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
        many, gaps, limit = len(costs), self.gaps[at], terms.run_limit
        costs = [after_gap] * min(gaps, many) + costs
        breaks = lighter + self.blocked[at] + self.meets[at] + 1
        working = works - (self.meets[at] if terms.meets_are_light else 0)
        extra = rules.extra_cost if rules.on("extra lighter") else None
        free = rules.free_cost if not done and rules.on("start later") else None
        best, repeats_cost = NEVER, 0
        for repeats in range(min(fill, many) + 1):
            if repeats:
                repeats_cost += costs[repeats - 1]
                if repeats_cost >= best:
                    break
            light = min(repeats, lighter_again)
            fewest = max(0, -((light - working - repeats) // limit) - breaks - light)
            most = (works + repeats + limit) // rules.extra_after + self.meets[at] if extra is not None else 0
            rest = fill - repeats
            if fewest > min(rest, most) or (free is None and rest > most):
                continue
            if free is None:
                others = rest * (extra or 0)
            else:
                extras = min(rest, most) if extra is not None and extra < free else fewest
                others = extras * (extra or 0) + (rest - extras) * free
            pairs = max(0, 2 * repeats - many - 1 - gaps)
            best = min(best, repeats_cost + others + terms.side * pairs)
        return best
