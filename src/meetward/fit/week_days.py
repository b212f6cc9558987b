"""The sessions of a week onto the lifter's days and minutes.

`DaysFitter` keeps what it has worked out: a template week is taken apart once, and lifters whose days differ
in name only share one answer. `fit_days` is the short way for one lifter and one week.
"""

from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Week
from meetward.fit.week_days_blocks import WeekBlocks, week_blocks
from meetward.fit.week_days_case import Answer, Case
from meetward.fit.week_days_collide import collisions
from meetward.fit.week_days_fitted import FittedDays, WeekDays
from meetward.fit.week_days_proof import TIME_LIMIT_S, possible, prove
from meetward.fit.week_days_quick import PatternBook, improved, quick
from meetward.fit.week_days_rules import figures
from meetward.fit.week_days_said import fitted
from meetward.fit.week_days_score import lift_days
from meetward.fit.week_days_setting import Setting, setting

NO_DAY = "training days"
"""The rule that is broken where there is no day to train on."""


class _Solved(msgspec.Struct, frozen=True):
    """An answer, with the needs that it was sought for and the rules that collided."""

    answer: Answer
    needs: tuple[int, ...]
    collisions: tuple[str, ...] = ()


def fit_days(
    asked: WeekDays, catalogue: Catalogue, rules: Mapping[str, int] | None = None, *, proof: bool = False
) -> FittedDays:
    """The best plan found for one week of one lifter, at once; with ``proof`` proven by the solver.

    rules : figures that the coach changed, by the id of the rule. Raises ValueError for an unknown rule.
    """
    fitter = DaysFitter(catalogue, rules or {})
    return fitter.prove(asked) if proof else fitter.fit(asked)


class DaysFitter:
    """Fits weeks to days with one catalogue and one set of rules, and solves each distinct case once."""

    def __init__(self, catalogue: Catalogue, rules: Mapping[str, int] | None = None) -> None:
        self.catalogue = catalogue
        self.figures = figures(rules or {})
        self._weeks: dict[int, tuple[Week, WeekBlocks]] = {}
        self._same_weeks: dict[Week, WeekBlocks] = {}
        self._book = PatternBook()
        self._cases: dict[Case, Case] = {}
        self._solved: dict[Case, _Solved] = {}
        self._fitted: dict[tuple[object, ...], FittedDays] = {}
        self._settings: dict[tuple[object, ...], Setting] = {}

    @property
    def cases(self) -> int:
        """How many distinct cases were solved."""
        return len(self._solved)

    def prepare(self, asked: WeekDays) -> None:
        """Take the week apart and find what its days can hold, which all lifters of the week share."""
        self._book.days(self._setting(asked).case)

    def fit(self, asked: WeekDays) -> FittedDays:
        """The best plan found, at once."""
        key = self._key(asked)
        known = self._fitted.get(key)
        if known is None:
            at = self._setting(asked)
            solved = self._solved.get(at.case)
            if solved is None:
                solved = self._solved[at.case] = _settled(at.case, self._book)
            known = self._fitted[key] = self._shown(at, solved)
        return known

    def prove(self, asked: WeekDays, time_limit_s: float = TIME_LIMIT_S) -> FittedDays:
        """The best plan there is, or one with its distance from the best as far as the solver came in time.

        The answer is kept, so `fit` gives it from then on.
        """
        self.fit(asked)
        at = self._setting(asked)
        solved = self._solved[at.case]
        case = msgspec.structs.replace(at.case, needs=solved.needs)
        answer = prove(case, solved.answer, time_limit_s, self._book)
        if answer != solved.answer:
            # Other days with the same case show the new plan too.
            solved = self._solved[at.case] = msgspec.structs.replace(solved, answer=answer)
            for key, other in self._settings.items():
                if other.case is at.case:
                    self._fitted.pop(key, None)
        return self.fit(asked)

    def unproven(self, asked: Iterable[WeekDays]) -> list[WeekDays]:
        """One of each distinct case whose answer is not proven, for a task in the background."""
        first: dict[Case, WeekDays] = {}
        for each in asked:
            if self.fit(each).proof.known != "proven":
                first.setdefault(self._setting(each).case, each)
        return list(first.values())

    def fit_many(self, asked: Iterable[WeekDays], workers: int = 1) -> list[FittedDays]:
        """A plan for each of many lifters and weeks.

        workers : processes that share the cases which are not solved yet.
        """
        asked = list(asked)
        if workers > 1:
            self._solve_apart(asked, workers)
        return [self.fit(each) for each in asked]

    def _shown(self, at: Setting, solved: _Solved) -> FittedDays:
        none = not at.days and at.case.content.blocks and at.meet_session is None
        return fitted(at, solved.answer, (NO_DAY,) if none else solved.collisions, self.catalogue)

    def _solve_apart(self, asked: Sequence[WeekDays], workers: int) -> None:
        new: dict[Case, None] = {}
        for each in asked:
            if self._key(each) not in self._fitted:
                case = self._setting(each).case
                if case not in self._solved:
                    new[case] = None
        if not new:
            return
        with ProcessPoolExecutor(workers) as pool:
            self._solved.update(zip(new, pool.map(_settled, new, chunksize=4), strict=True))

    def _blocks(self, week: Week) -> WeekBlocks:
        known = self._weeks.get(id(week))
        if known is None:
            blocks = self._same_weeks.get(week)
            if blocks is None:
                blocks = self._same_weeks[week] = week_blocks(week, self.catalogue, self.figures)
            # The week is held beside its blocks, so that its id cannot pass to another.
            known = self._weeks[id(week)] = (week, blocks)
        return known[1]

    def _key(self, asked: WeekDays) -> tuple[object, ...]:
        return id(self._blocks(asked.week)), asked.days, asked.blocked, asked.meet_weekday, asked.week.role

    def _setting(self, asked: WeekDays) -> Setting:
        key = self._key(asked)
        known = self._settings.get(key)
        if known is None:
            known = setting(asked, self._blocks(asked.week), self.figures)
            case = self._cases.setdefault(known.case, known.case)
            known = self._settings[key] = msgspec.structs.replace(known, case=case)
        return known


def _settled(case: Case, book: PatternBook | None = None) -> _Solved:
    """A quick answer; where it misses competition lifts, whether that can be helped, and if not why."""
    book = book or _BOOK
    answer = quick(case, book)
    if not answer.short:
        return _Solved(answer, case.needs)
    plan = possible(case, book=book)
    if plan is not None:
        return _Solved(improved(case, plan, book), case.needs)
    there = tuple(map(min, case.needs, lift_days(case, list(answer.days))))
    return _Solved(answer, there, collisions(case))


_BOOK = PatternBook()
"""Of a process that solves a share of many cases."""
