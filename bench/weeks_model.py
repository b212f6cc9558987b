"""The fit of dates once more, as a whole-number program for a general-purpose solver.

Written from the sentences of the rules, for comparison only. ``x[at, week, level]`` says that a week of the
cycle is done at a level in a calendar week; ``second`` marks its second time. The last loads are variables:
limits of the rise are turned round into the least last load that a week at a level asks for.
"""

from itertools import pairwise

import highspy

from meetward.fit.weeks_task import Task
from meetward.fit.weeks_template import last_weeks, longest_run, written_steps


def cheapest_cost(task: Task, limit_s: float = 60.0) -> int | None:
    """Cost of the cheapest plan; None where there is none. Raises TimeoutError when the time is over."""
    return _Model(task).solved(limit_s)


class _Model:
    def __init__(self, task: Task) -> None:
        self.task, self.rules = task, task.rules
        self.open = [at for at, week in enumerate(task.calendar) if not week.blocked]
        self.costs: list[float] = []
        self.upper: list[float] = []
        self.whole: list[bool] = []
        self.rows: list[tuple[float, float, dict[int, float]]] = []
        self._choices()
        self._order()
        self._changes()
        self._runs()
        self._loads()

    def variable(self, cost: float = 0, upper: float = 1, whole: bool = True) -> int:
        self.costs.append(cost)
        self.upper.append(upper)
        self.whole.append(whole)
        return len(self.costs) - 1

    def row(self, low: float, high: float, *terms: tuple[float, int]) -> None:
        row: dict[int, float] = {}
        for factor, name in terms:
            row[name] = row.get(name, 0.0) + factor
        self.rows.append((low, high, row))

    def _choices(self) -> None:
        """What may lie on each open calendar week: one thing."""
        task, rules = self.task, self.rules
        template, number, last = task.template, len(task.calendar), len(task.template)
        tail = last_weeks(template, rules.last_weeks)
        counted = rules.on("from the meet")
        self.x: dict[tuple[int, int], list[tuple[int, int]]] = {}
        self.extra: dict[int, int] = {}
        self.free: dict[int, int] = {}
        for at in self.open:
            here = task.calendar[at]
            place = last - (number - 1 - at)
            ends = number - at <= (tail if counted else 1)
            one: list[tuple[float, int]] = []
            for week in range(1, last + 1):
                if week != place if ends else (week == last or (counted and week > last - tail)):
                    continue
                source = template[week - 1]
                levels: list[tuple[int, int]] = [(1000, 0)]
                if source.role == "load" and here.meets and rules.on("meet on the way"):
                    levels = [(rules.meet_level_permille, rules.meet_cost)]
                elif source.role == "load":
                    cap = here.cap_permille if rules.on("return") else 1000
                    levels = [(level, cost) for level, cost in rules.levels if level <= cap]
                elif source.role == "test" and here.cap_permille < 1000 and rules.on("test rested"):
                    levels = [(1000, rules.test_in_return_cost)]
                self.x[at, week] = [(level, self.variable(cost)) for level, cost in levels]
                one += [(1, name) for _, name in self.x[at, week]]
            if not ends and rules.on("extra lighter"):
                self.extra[at] = self.variable(rules.extra_cost)
                one.append((1, self.extra[at]))
            if not ends and rules.on("start later"):
                self.free[at] = self.variable(rules.free_cost)
                one.append((1, self.free[at]))
            self.row(1, 1, *one)

    def done(self, at: int, week: int) -> list[tuple[float, int]]:
        return [(1, name) for _, name in self.x.get((at, week), ())]

    def _order(self) -> None:
        """No later week of the cycle before an earlier one; nothing of it before a free week."""
        last = len(self.task.template)
        for n, later in enumerate(self.open):
            for earlier in self.open[:n]:
                for week in range(1, last):
                    above = [term for w in range(week + 1, last + 1) for term in self.done(earlier, w)]
                    below = [term for w in range(1, week + 1) for term in self.done(later, w)]
                    if above and below:
                        self.row(0, 1, *above, *below)
                if later in self.free:
                    begun = [term for w in range(1, last + 1) for term in self.done(earlier, w)]
                    also = [(1.0, self.extra[earlier])] if earlier in self.extra else []
                    self.row(0, 1, (1, self.free[later]), *begun, *also)

    def _changes(self) -> None:
        """Left out, repeated, and both side by side."""
        task, rules = self.task, self.rules
        dropped: dict[int, int] = {}
        again: dict[int, int] = {}
        again_after_gap: dict[int, list[int]] = {}
        started = {0: self.variable(upper=0)}
        for source in task.template:
            week = source.number
            dropped[week] = self.variable(
                source.drop_cost, 1 if source.may_drop or not rules.on("kept") else 0
            )
            first: list[tuple[float, int]] = []
            seconds: list[tuple[float, int]] = []
            again[week] = self.variable()
            started[week] = self.variable()
            self.row(0, 1, (1, started[week]), (-1, started[week - 1]))
            self.row(1, 2, (1, started[week]), (1, dropped[week]))
            may = source.may_repeat or not rules.on("once")
            for at in self.open:
                here = self.done(at, week)
                if not here:
                    continue
                gap = task.calendar[at].after_gap
                cost = min(source.repeat_cost, rules.repeat_after_gap_cost) if gap else source.repeat_cost
                second = self.variable(cost, 1 if may else 0)
                before = [term for other in self.open if other < at for term in self.done(other, week)]
                self.row(-1, 0, (1, second), *((-f, name) for f, name in here))
                self.row(-len(before), 0, (1, second), *((-f, name) for f, name in before))
                first += [*here, (-1, second)]
                seconds.append((1, second))
                if gap:
                    again_after_gap.setdefault(week, []).append(second)
            self.row(1, 1, (1, dropped[week]), *first)
            if rules.on("twice"):
                self.row(0, 0, (-1, again[week]), *seconds)
            else:
                raise NotImplementedError("The model knows the rule 'twice' only as it stands.")
        if not rules.on("spread"):
            return
        for week in range(2, len(task.template) + 1):
            spared = [(-1.0, name) for name in again_after_gap.get(week, ())]
            side = self.variable(rules.side_by_side_cost)
            changed = [(1, dropped[week]), (1, again[week]), (1, dropped[week - 1]), (1, again[week - 1])]
            self.row(-9, 2, *changed, *spared, (1, started[week - 1]), (-1, side))

    def works(self, at: int) -> list[tuple[float, int]]:
        """Whether a calendar week is a working week."""
        if self.task.calendar[at].meets and self.rules.on("meet on the way"):
            return []
        loads = [week.number for week in self.task.template if week.role == "load"]
        return [term for week in loads for term in self.done(at, week)]

    def _runs(self) -> None:
        """A lighter week often enough, and extra ones between working weeks."""
        task, rules = self.task, self.rules
        number, last = len(task.calendar), len(task.template)
        most = max(rules.most_in_a_row, longest_run(task.template))
        if rules.on("lighter week"):
            for first in range(number - most):
                self.row(0, most, *(term for at in range(first, first + most + 1) for term in self.works(at)))
        for at, extra in self.extra.items():
            if task.calendar[at].meets:
                before = [
                    term
                    for other in self.open
                    if other < at
                    for w in range(1, last + 1)
                    for term in self.done(other, w)
                ]
                self.row(-len(before), 0, (1, extra), *((-f, name) for f, name in before))
                if at - 1 in self.extra and not task.calendar[at - 1].meets:
                    self.row(0, 1, (1, extra), (1, self.extra[at - 1]))
                continue
            for back in range(1, rules.extra_after + 1):
                working = self.works(at - back) if at >= back else []
                self.row(-1, 0, (1, extra), *((-f, name) for f, name in working))
            if not task.calendar[at + 1].blocked:
                self.row(-1, 0, (1, extra), *((-f, name) for f, name in self.works(at + 1)))

    def _loads(self) -> None:
        """The rise of lifts and of heavy lifts over the last working week."""
        task, rules = self.task, self.rules
        steps = written_steps(task.template)
        for which, rule in enumerate(("rise of lifts", "rise of heavy lifts")):
            if not rules.on(rule):
                continue
            amounts = [(week.lifts, week.heavy_lifts)[which] for week in task.template]
            top = max([task.start_load[which], *amounts])
            ref = [self.variable(upper=top) for _ in range(len(task.calendar) + 1)]
            self.row(task.start_load[which], task.start_load[which], (1, ref[0]))
            for at, (now, after) in enumerate(pairwise(ref)):
                if task.calendar[at].blocked:
                    self.row(-float("inf"), 0, (1000, after), (-rules.kept_permille, now))
                    continue
                working = self.works(at)
                self.row(-float("inf"), 0, (1, after), (-1, now), *((-top, name) for _, name in working))
                if not working:
                    continue
                done: list[tuple[float, int]] = []
                asked: list[tuple[float, int]] = []
                for week in (w for w in task.template if w.role == "load"):
                    for level, name in self.x.get((at, week.number), ()):
                        load = amounts[week.number - 1] * level // 1000
                        step = max(steps[week.number - 1][which], rules.rise_least[which])
                        least = next(
                            ref_load
                            for ref_load in range(load + 1)
                            if load <= ref_load + max(ref_load * rules.rise_permille[which] // 1000, step)
                        )
                        done.append((top - load, name))
                        asked.append((-least, name))
                self.row(-float("inf"), top, (1, after), *done)
                self.row(0, float("inf"), (1, now), *asked)

    def solved(self, limit_s: float) -> int | None:
        solver = highspy.Highs()
        solver.silent()
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("time_limit", limit_s)
        solver.setOptionValue("mip_rel_gap", 0.0)
        solver.setOptionValue("mip_abs_gap", 0.5)
        for cost, upper, whole in zip(self.costs, self.upper, self.whole, strict=True):
            solver.addVar(0.0, float(upper))
            name = solver.getNumCol() - 1
            solver.changeColCost(name, float(cost))
            if whole:
                solver.changeColIntegrality(name, highspy.HighsVarType.kInteger)
        for low, high, row in self.rows:
            solver.addRow(low, high, len(row), list(row), list(row.values()))
        solver.run()
        status = solver.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return None
        if status == highspy.HighsModelStatus.kTimeLimit:
            raise TimeoutError(f"The solver was not done in {limit_s:g} s.")
        if status != highspy.HighsModelStatus.kOptimal:
            raise RuntimeError(f"The solver ended with {status}.")
        return round(solver.getInfo().objective_function_value)
