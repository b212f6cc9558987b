"""The cheapest ways to lay the weeks of a cycle onto a calendar: exact shortest paths by label setting.

A label stands before calendar week ``at`` and knows what matters for what comes: the last week of the cycle
that was done, whether it or the one before it was changed (repeated, left out), the working weeks in a row,
and the lifts and heavy lifts of the last working week. Of labels that differ in the last two only, the one
that is cheaper and has the greater loads can do whatever the other can, for no more: all limits bound the
*rise* of a load (`week_rules.usable` refuses others). For the two cheapest different ways a label goes when
two others are as good. Labels are taken up by their cost and a lower bound of the rest (weeks that have to
go, weeks that have to be filled), so few are looked at.

Loads are integers and every share is rounded down, so that the order of sums never decides.
"""

from collections.abc import Mapping
from heapq import heappop, heappush
from typing import Any

from meetward.fit.week_rules import BREAKABLE
from meetward.fit.weeks_bound import NEVER, Bound, Terms
from meetward.fit.weeks_task import Kind, Lay, Path, Task, times_over
from meetward.fit.weeks_template import last_weeks, longest_run, written_steps

AFTER_EXTRA = -1
"""Stands for the working weeks in a row right after an extra lighter week between working weeks."""
UNTOUCHED, BESIDE, REPEATED = 0, 1, 2
"""Of the last week done: nothing changed; the week before it was left out or repeated; it was repeated."""


def cheapest(
    task: Task, prices: Mapping[str, int] | None = None, want: int = 2, below: int = NEVER
) -> tuple[Path, ...]:
    """Up to ``want`` cheapest paths that differ in what is laid where, cheapest first.

    prices : of breaking a rule once, for rules that need not be obeyed; 0 is as if the rule were not there.
        Only without prices above 0 is the second path surely the second cheapest.
    below : only paths that cost less.
    """
    return _Search(task, dict(prices or {}), want, below).run()


_Seen = dict[tuple[int, int, int], list[tuple[int, int, int, int, int]]]
"""Labels taken up: by calendar week, last week done, and working weeks in a row."""


class _Search:
    """Tables of one search; see the module for how it works."""

    def __init__(self, task: Task, prices: dict[str, int], want: int, below: int) -> None:
        rules, template = task.rules, task.template
        self.want, self.below, self.rules = want, below, rules
        self.calendar, self.number, self.last = task.calendar, len(task.calendar), len(template)
        self.start_load, self.done = task.start_load, task.done
        price = {rule: prices.get(rule) if rules.on(rule) else 0 for rule in BREAKABLE}
        self.price = price
        self.plain = all(not p for p in price.values())
        tail = last_weeks(template, rules.last_weeks)
        self.tail = tail
        self.counted_back = price["from the meet"] is None
        self.end = tail if self.counted_back else 1
        self.before = self.last - self.end
        self.roles = ["", *(week.role for week in template)]
        kept, once = price["kept"], price["once"]
        self.drop = [NEVER]
        self.repeat = [NEVER]
        self.repeat_after_gap = [NEVER]
        self.broken_drop = [False, *(not week.may_drop for week in template)]
        self.broken_repeat = [False, *(not week.may_repeat for week in template)]
        for week in template:
            extra = 0 if week.may_drop else NEVER if kept is None else kept
            self.drop.append(week.drop_cost + extra)
            extra = 0 if week.may_repeat else NEVER if once is None else once
            self.repeat.append(week.repeat_cost + extra)
            self.repeat_after_gap.append(min(week.repeat_cost, rules.repeat_after_gap_cost) + extra)
        self.side = rules.side_by_side_cost if rules.on("spread") else 0
        self.meet_light = [bool(week.meets) and price["meet on the way"] != 0 for week in task.calendar]
        self.cap = [week.cap_permille if price["return"] is None else 1000 for week in task.calendar]
        self.run_limit = max(rules.most_in_a_row, longest_run(template))
        self.rise, self.rise_heavy = rules.rise_permille
        rises = ("rise of lifts", "rise of heavy lifts")
        least, least_heavy = (
            least if price[rule] != 0 else NEVER for rule, least in zip(rises, rules.rise_least, strict=True)
        )
        self.steps = [(0, 0), *((max(a, least), max(b, least_heavy)) for a, b in written_steps(template))]
        self.loads = [()] + [
            tuple((v, c, w.lifts * v // 1000, w.heavy_lifts * v // 1000) for v, c in rules.levels)
            for w in template
        ]
        self.no_third = price["twice"] is None
        bound = Bound(
            Terms(
                rules, self.calendar, self.before, self.end, tuple(self.drop), tuple(self.repeat),
                tuple(self.repeat_after_gap), tuple(role == "load" for role in self.roles),
                price["twice"] is None, self.run_limit if price["lighter week"] is None else None,
                price["meet on the way"] != 0, price["return"] is None, self.side,
            )
        )  # fmt: skip
        self.bound, self.leaving, self.known = bound.at, bound.leaving, bound.known

    def run(self) -> tuple[Path, ...]:
        heap: list[tuple[Any, ...]] = []
        if self._ends_blocked():
            return ()
        first = (self.done, UNTOUCHED, 0, *self.start_load)
        bound = self.bound(0, self.done)
        if bound < self.below:
            heap.append((bound, 0, 0, first, 0, None, False))
        seen: _Seen = {}
        found: list[Path] = []
        ways: set[tuple[tuple[str, int], ...]] = set()
        pushed, known = 0, self.known
        while heap:
            least, to_go, _, label, cost, link, leaping = heappop(heap)
            at = -to_go
            if at == self.number:
                lays = _lays(link)
                way = tuple((lay.kind, lay.week) for lay in lays)
                if way not in ways:
                    ways.add(way)
                    found.append(Path(cost, lays))
                    if len(found) == self.want:
                        break
                continue
            if leaping:
                moves = self.leaps(at, label)
            elif self._outdone(seen, at, label, cost):
                continue
            else:
                moves = self.moves(at, label)
                if not self.calendar[at].blocked:
                    # Leaving weeks out is seldom best: that waits until nothing cheaper is left.
                    bound = max(least, cost + self.leaving(at, label[0]))
                    if bound < self.below:
                        pushed += 1
                        heappush(heap, (bound, to_go, pushed, label, cost, link, True))
            for after, more, lay in moves:
                more_bound = known[after[0]][at + 1]
                if more_bound is None:
                    more_bound = self.bound(at + 1, after[0])
                bound = cost + more + more_bound
                if bound < least:
                    bound = least
                if bound < self.below:
                    pushed += 1
                    heappush(heap, (bound, to_go - 1, pushed, after, cost + more, (link, lay, more), False))
        return tuple(found)

    def _outdone(self, seen: "_Seen", at: int, label: tuple[int, ...], cost: int) -> bool:
        """Whether enough labels that cost no more can do whatever this one can; if not, it is kept.

        A last week that is unchanged can do more than one beside a change, and that one more than one that
        was repeated. Behind enough working weeks for an extra lighter week the fewer in a row can do more.
        """
        done, changed, run, lifts, heavy = label
        enough = self.rules.extra_after
        key = (at, done, min(max(run, 0), enough))
        if run == AFTER_EXTRA:
            run = 1  # can do less than a label without working weeks behind it
        others = seen.get(key)
        if others is None:
            seen[key] = [(cost, changed, run, lifts, heavy)]
            return False
        better = 0
        for other_cost, other, other_run, other_lifts, other_heavy in others:
            if (
                other_cost <= cost
                and other_lifts >= lifts
                and other_heavy >= heavy
                and other_run <= run
                and (other <= changed if self.no_third else other in (changed, UNTOUCHED))
            ):
                better += 1
                if better == self.want:
                    return True
        others.append((cost, changed, run, lifts, heavy))
        return False

    def _ends_blocked(self) -> bool:
        """Whether a week that is counted back, and not to be missed, finds no open calendar week."""
        return self.counted_back and any(
            self.drop[self.last - back] >= NEVER
            and (back >= self.number or self.calendar[self.number - 1 - back].blocked)
            for back in range(1, min(self.tail, self.last - self.done))
        )

    def moves(self, at: int, label: tuple[int, ...]) -> list[tuple[tuple[int, ...], int, tuple[Any, ...]]]:
        """What can be laid onto calendar week ``at``: the label after it, its cost, and the lay."""
        done, changed, run, lifts, heavy = label
        rules, week = self.rules, self.calendar[at]
        if week.blocked:
            kept = rules.kept_permille
            return [
                ((done, changed, 0, lifts * kept // 1000, heavy * kept // 1000), 0, ("blocked", 0, 0, ()))
            ]
        found: list[tuple[tuple[int, ...], int, tuple[Any, ...]]] = []
        to_meet = self.number - at
        next_week = BESIDE if changed == REPEATED else UNTOUCHED
        if to_meet <= self.end:
            if done == self.last - to_meet:
                self._do(found, at, label, done + 1, next_week, 0, (), "week")
            elif done == self.last - to_meet + 1:
                self._again(found, at, label)
            return found
        if done < self.before:
            self._do(found, at, label, done + 1, next_week, 0, (), "week")
        if done:
            if done <= self.before and not (changed == REPEATED and self.no_third):
                self._again(found, at, label)
            may_stand = run >= rules.extra_after or (week.meets and run != AFTER_EXTRA)
            if may_stand and rules.on("extra lighter"):
                after = 0 if week.meets else AFTER_EXTRA
                fee = self._misplaced(at, 0)
                broken = ("from the meet",) if fee else ()
                found.append(((done, changed, after, lifts, heavy), rules.extra_cost + fee,
                              ("extra lighter", 0, rules.extra_level_permille, broken)))  # fmt: skip
        elif rules.on("start later"):
            fee = self._misplaced(at, 0)
            broken = ("from the meet",) if fee else ()
            found.append(((0, changed, 0, lifts, heavy), rules.free_cost + fee, ("free", 0, 0, broken)))
        return found

    def leaps(self, at: int, label: tuple[int, ...]) -> list[Any]:
        """The same for an open calendar week where weeks of the cycle are left out."""
        found: list[Any] = []
        to_meet = self.number - at
        if to_meet <= self.end:
            self._go_on(found, at, label, max(self.last - to_meet + 1, label[0] + 2), self.last - to_meet + 1)
        else:
            self._go_on(found, at, label, label[0] + 2, self.before)
        return found

    def _go_on(self, found: list[Any], at: int, label: tuple[int, ...], first: int, last: int) -> None:
        """Do one of the weeks from ``first`` to ``last`` and leave out those before it."""
        done, changed = label[0], label[1]
        cost = 0
        broken: tuple[str, ...] = ()
        for week in range(done + 1, last + 1):
            if week >= first:
                gone = week - done - 1
                beside = BESIDE if (done and gone) or changed == REPEATED else UNTOUCHED
                self._do(found, at, label, week, beside, cost, broken, "week")
            cost += self.drop[week]
            if cost >= NEVER:
                return
            # The first week that goes stands beside a repeated one, the others beside one that went. Weeks
            # before the first that is done are a late start and no hole.
            if done and (week > done + 1 or changed == REPEATED):
                cost += self.side
            if self.broken_drop[week] and self.price["kept"]:
                broken += ("kept",)

    def _again(self, found: list[Any], at: int, label: tuple[int, ...]) -> None:
        """Do the last week once more."""
        done, changed = label[0], label[1]
        after_gap = self.calendar[at].after_gap
        cost = self.repeat_after_gap[done] if after_gap else self.repeat[done]
        if cost >= NEVER:
            return
        broken: tuple[str, ...] = ("once",) if self.price["once"] and self.broken_repeat[done] else ()
        if changed == REPEATED:
            price = self.price["twice"]
            if price is None:
                return
            cost += price
            broken += ("twice",) if price else ()
        elif changed == BESIDE and not after_gap:
            cost += self.side
        self._do(found, at, label, done, REPEATED, cost, broken, "repeat")

    def _do(
        self, found: list[Any], at: int, label: tuple[int, ...], week: int, changed: int, cost: int,
        broken: tuple[str, ...], kind: Kind,
    ) -> None:  # fmt: skip
        """Lay ``week`` onto calendar week ``at`` at every level that may be best there."""
        _, _, run, lifts, heavy = label
        rules, here, price = self.rules, self.calendar[at], self.price
        if price["from the meet"] and (misplaced := self._misplaced(at, week)):
            cost += misplaced
            broken += ("from the meet",)
        role = self.roles[week]
        if run == AFTER_EXTRA:
            if role != "load" or self.meet_light[at]:
                return  # an extra lighter week before another light one would be idle time
            run = 0
        if role != "load":
            if role == "test" and here.cap_permille < 1000 and rules.on("test rested"):
                cost += rules.test_in_return_cost
            found.append(((week, changed, 0, lifts, heavy), cost, (kind, week, 1000, broken)))
            return
        if self.meet_light[at]:
            price_meet = price["meet on the way"]
            level = rules.meet_level_permille
            found.append(((week, changed, 0, lifts, heavy), cost + rules.meet_cost,
                          (kind, week, level, broken)))  # fmt: skip
            if price_meet is None:
                return
            cost += price_meet
            broken += ("meet on the way",)
        run += 1
        if run > self.run_limit:
            price_run = price["lighter week"]
            if price_run is None:
                return
            run = self.run_limit
            if price_run:
                cost += price_run
                broken += ("lighter week",)
        most, most_heavy = lifts * self.rise // 1000, heavy * self.rise_heavy // 1000
        step, step_heavy = self.steps[week]
        most = lifts + (most if most > step else step)
        most_heavy = heavy + (most_heavy if most_heavy > step_heavy else step_heavy)
        if self.plain:
            cap = self.cap[at]
            for level, level_cost, level_lifts, level_heavy in self.loads[week]:
                if level_lifts <= most and level_heavy <= most_heavy and level <= cap:
                    # A lower level costs no less and leaves smaller loads.
                    found.append(((week, changed, run, level_lifts, level_heavy), cost + level_cost,
                                  (kind, week, level, broken)))  # fmt: skip
                    return
            return
        for level, level_cost, level_lifts, level_heavy in self.loads[week]:
            fee, rules_broken = self._fee(level, here.cap_permille, level_lifts - most, most,
                                          level_heavy - most_heavy, most_heavy)  # fmt: skip
            if fee < NEVER:
                found.append(((week, changed, run, level_lifts, level_heavy), cost + level_cost + fee,
                              (kind, week, level, broken + rules_broken)))  # fmt: skip
                if not fee:
                    return

    def _misplaced(self, at: int, week: int) -> int:
        """The price of a calendar week counted back from the meet that holds another week of the cycle, or
        none, and of a week counted back that stands elsewhere."""
        price = self.price["from the meet"]
        if not price:
            return 0
        to_meet = self.number - at
        wanted = self.last - to_meet + 1 if to_meet <= self.tail else 0
        return price if week != wanted and (wanted or week > self.last - self.tail) else 0

    def _fee(
        self, level: int, cap: int, over: int, most: int, over_heavy: int, most_heavy: int
    ) -> tuple[int, tuple[str, ...]]:
        """The price of the load rules that a level breaks, and their ids."""
        fee = 0
        broken: tuple[str, ...] = ()
        for rule, times in (
            ("return", int(level > cap)),
            ("rise of lifts", times_over(over, most)),
            ("rise of heavy lifts", times_over(over_heavy, most_heavy)),
        ):
            if times:
                price = self.price[rule]
                if price is None:
                    return NEVER, ()
                if price:
                    fee += price * times
                    broken += (rule,)
        return fee, broken


def _lays(link: Any) -> tuple[Lay, ...]:
    lays: list[Lay] = []
    while link is not None:
        link, (kind, week, level, broken), cost = link
        lays.append(Lay(kind, week, level, cost, broken))
    return tuple(reversed(lays))
