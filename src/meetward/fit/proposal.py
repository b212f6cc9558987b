"""The whole cycle fitted to one lifter: weeks, days, body and kit together. The coach decides on it.

The result is a cycle of its own, so that everything that reads a cycle (day sheets, counts, paper) reads it
as it is; beside it stands what was changed and why.
"""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle, Line, Phase, Role, Segment, Session, Week
from meetward.fit.dates import weekdays
from meetward.fit.layoff import Step, stepped
from meetward.fit.restricted_session import Change, restricted_session
from meetward.fit.week_days import DaysFitter
from meetward.fit.week_days_fitted import FittedDay, FittedDays, TrainingDay, WeekDays, day_session
from meetward.fit.week_rules import WeekRules
from meetward.fit.weeks import DEFAULT_RULES, fit_weeks
from meetward.fit.weeks_calendar import LifterCalendar
from meetward.fit.weeks_plan import FittedWeek, FittedWeeks
from meetward.fit.weeks_template import WeekMark, template_of
from meetward.fit.words import line_words, set_words
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.problem import Problem
from meetward.why import Why

_DAY = timedelta(days=1)


class ProposedLine(msgspec.Struct, frozen=True):
    """A line of a session as it would be done.

    sets : "5 × 2 at 70 %", in words.
    instead_of : name of the line that it takes the place of; empty where nothing was replaced.
    said : why, in a sentence; empty where nothing was replaced.
    """

    name: str
    sets: tuple[str, ...]
    instead_of: str = ""
    said: str = ""


class ProposedSession(msgspec.Struct, frozen=True):
    """A session on its day.

    template : week and session of the cycle that most of it comes from, both from 1.
    minutes : estimated. [min]
    left_out : lines of the cycle that find no place, in words.
    """

    on: date
    template: tuple[int, int]
    title: str
    minutes: int
    lines: tuple[ProposedLine, ...]
    left_out: tuple[str, ...]


class Proposal(msgspec.Struct, frozen=True):
    """A cycle fitted to one lifter, for the coach to say yes or no to.

    possible : whether every rule is kept; else ``weeks_fit`` says which collide, and ``cycle`` is None.
    cycle : the fitted cycle; its weeks without training have no sessions.
    weeks_fit : the weeks with their costs and the certificate.
    days_fit : for each week with training the days, in order.
    reasons : what changed and why, in plain sentences, the weeks first.
    """

    lifter: str
    lifter_key: str
    meet_on: date
    goal: str
    possible: bool
    cycle: Cycle | None
    weeks_fit: FittedWeeks
    days_fit: tuple[FittedDays, ...]
    sessions: tuple[ProposedSession, ...]
    reasons: tuple[str, ...]
    problems: tuple[Problem, ...]


def propose(
    cycle: Cycle,
    lifter: Lifter,
    calendar: LifterCalendar,
    catalogue: Catalogue,
    *,
    minutes: int | None = None,
    limits: Limits | None = None,
    marks: Iterable[WeekMark] = (),
    rules: WeekRules = DEFAULT_RULES,
    fitter: DaysFitter | None = None,
    today: date | None = None,
) -> Proposal:
    """``cycle`` as it fits ``lifter`` and their calendar.

    minutes : time for a session; the lifter's own where it is not given. [min]
    limits : restrictions and missing kit; each line they touch gets the first replacement that is offered.
    marks : what the coach says of single weeks.
    fitter : to share between lifters, so that each distinct week is solved once.
    today : a meet before it is refused.
    """
    template, problems = template_of(cycle, catalogue, marks)
    fitted = fit_weeks(template, calendar, rules, today)
    problems = (*problems, *fitted.problems)
    if not fitted.possible:
        return _not_possible(lifter, calendar, fitted, problems)
    maker = _Maker(cycle, lifter, calendar, catalogue, minutes or lifter.minutes, limits or Limits(), fitter)
    for week in fitted.weeks:
        maker.add(week)
    return Proposal(
        lifter=lifter.name,
        lifter_key=lifter.key,
        meet_on=calendar.meet_on,
        goal=calendar.goal,
        possible=True,
        cycle=maker.cycle_of(fitted.weeks),
        weeks_fit=fitted,
        days_fit=tuple(maker.days),
        sessions=tuple(maker.sessions),
        reasons=tuple(dict.fromkeys((*fitted.reasons, *maker.reasons))),
        problems=tuple(dict.fromkeys((*problems, *maker.problems))),
    )


def _not_possible(
    lifter: Lifter, calendar: LifterCalendar, fitted: FittedWeeks, problems: tuple[Problem, ...]
) -> Proposal:
    reasons = (*fitted.clash.said, *fitted.clash.facts) if fitted.clash else ()
    return Proposal(
        lifter.name, lifter.key, calendar.meet_on, calendar.goal, False, None, fitted, (), (), reasons,
        problems,
    )  # fmt: skip


class _Maker:
    """Puts the weeks together, one after the other."""

    def __init__(
        self,
        cycle: Cycle,
        lifter: Lifter,
        calendar: LifterCalendar,
        catalogue: Catalogue,
        minutes: int | None,
        limits: Limits,
        fitter: DaysFitter | None,
    ) -> None:
        self.of: Mapping[int, tuple[Phase, Week]] = {n: (phase, week) for n, phase, week in cycle.weeks()}
        self.cycle, self.lifter, self.calendar, self.catalogue = cycle, lifter, calendar, catalogue
        self.minutes, self.limits = minutes, limits
        self.fitter = fitter or DaysFitter(catalogue)
        self.weeks: list[tuple[int | None, Week]] = []
        self.days: list[FittedDays] = []
        self.sessions: list[ProposedSession] = []
        self.reasons: list[str] = []
        self.problems: list[Problem] = []

    def add(self, fitted: FittedWeek) -> None:
        """One calendar week."""
        number = fitted.template_week or fitted.leans_on
        if number is None:
            self.weeks.append(
                (None, Week((), role="lighter", notes=(fitted.why.said,) if fitted.why.said else ()))
            )
            return
        week = self.of[number][1]
        days = self._fit_days(fitted, week)
        self.days.append(days)
        self.problems += days.problems
        self.reasons += (f"Week of {fitted.monday:%-d %B}: {reason}" for reason in days.reasons)
        left: dict[int, list[str]] = {}
        for one in days.left_out:
            left.setdefault(one.lines[0].session, []).append(one.words)
        made: list[Session] = []
        for day in days.days:
            if not day.session:
                continue
            session, lines = self._session(fitted, week, day)
            made.append(session)
            gone = [words for number_ in day.sessions for words in left.pop(number_, ())]
            self.sessions.append(
                ProposedSession(
                    fitted.monday + day.weekday * _DAY,
                    (number, day.session),
                    session.title,
                    day.minutes,
                    lines,
                    tuple(gone),
                )
            )
        if made and left:  # lines of sessions that no day takes anything from
            last = self.sessions[-1]
            rest = tuple(words for some in left.values() for words in some)
            self.sessions[-1] = msgspec.structs.replace(last, left_out=last.left_out + rest)
        role: Role = "lighter" if fitted.kind == "extra lighter" else week.role
        notes = (*week.notes, *((fitted.why.said,) if fitted.why.said else ()))
        self.weeks.append(
            (number, msgspec.structs.replace(week, sessions=tuple(made), role=role, notes=notes))
        )

    def cycle_of(self, fitted: tuple[FittedWeek, ...]) -> Cycle:
        """The fitted cycle. A week without training stands in the phase of the week before it."""
        phases: list[tuple[Phase | None, list[Week]]] = []
        for number, week in self.weeks:
            phase = self.of[number][0] if number else phases[-1][0] if phases else None
            if phases and (phases[-1][0] is phase or phases[-1][0] is None):
                phases[-1] = (phase, [*phases[-1][1], week])
            else:
                phases.append((phase, [week]))
        return msgspec.structs.replace(
            self.cycle,
            phases=tuple(
                msgspec.structs.replace(phase, weeks=tuple(weeks)) if phase else Phase(tuple(weeks))
                for phase, weeks in phases
            ),
            meet=self.calendar.goal,
            meet_on=self.calendar.meet_on,
            starts_on=fitted[0].monday,
        )

    def _fit_days(self, fitted: FittedWeek, week: Week) -> FittedDays:
        mine = {day.weekday() for day in fitted.open_days}
        if not self.calendar.days:  # nobody said when they train: the days that the coach has in mind
            meant = {day for day in weekdays(week, self.lifter.days) if day is not None}
            mine &= meant or mine
        meets = [
            meet.on for meet in self.calendar.meets if fitted.monday <= meet.on < fitted.monday + 7 * _DAY
        ]
        if fitted.monday <= self.calendar.meet_on < fitted.monday + 7 * _DAY:
            meets.append(self.calendar.meet_on)
        return self.fitter.fit(
            WeekDays(
                week,
                tuple(TrainingDay(day, self.minutes) for day in sorted(mine)),
                meet_weekday=meets[-1].weekday() if meets else None,
            )
        )

    def _session(
        self, fitted: FittedWeek, week: Week, day: FittedDay
    ) -> tuple[Session, tuple[ProposedLine, ...]]:
        """The day as a session, with what takes the place of lines that the lifter's limits touch."""
        on = fitted.monday + day.weekday * _DAY
        asked = day_session(day, week)
        changed: dict[tuple[int, int], Change] = {}
        if self.limits:
            place = f"{on:%-d %B}"
            answer = restricted_session(asked, self.lifter, self.limits, self.catalogue, on=on, place=place)
            changed = {(change.segment, change.line): change for change in answer.changes}
            self.problems += answer.problems
            self.reasons += answer.said
        lighter = (
            _fewer_sets(fitted.level_permille) if fitted.level_permille < 1000 and not day.meet else None
        )
        segments: list[Segment] = []
        said: list[ProposedLine] = []
        for s, segment in enumerate(asked.segments):
            lines: list[Line] = []
            for n, line in enumerate(segment.lines):
                change = changed.get((s, n))
                done = change.option.line if change else line
                if done is not None and lighter and segment.kind == "lifts":
                    done = stepped(done, lighter)
                if done is not None:
                    lines.append(done)
                if segment.kind == "lifts":
                    said.append(self._told(line, done, change))
            if lines:
                segments.append(msgspec.structs.replace(segment, lines=tuple(lines)))
        return msgspec.structs.replace(asked, segments=tuple(segments)), tuple(said)

    def _told(self, line: Line, done: Line | None, change: Change | None) -> ProposedLine:
        """A line in words, with what it takes the place of."""
        name = line_words(done, self.catalogue) if done is not None else "left out"
        sets = self._sets(done) if done is not None else ()
        if change is None:
            return ProposedLine(name, sets)
        return ProposedLine(name, sets, line_words(line, self.catalogue), change.option.said)

    def _sets(self, line: Line) -> tuple[str, ...]:
        return tuple(set_words(group, self.catalogue) for group in line.groups)


def _fewer_sets(level_permille: int) -> Step:
    """The share of the sets that is done in a week that was made lighter."""
    said = f"{level_permille / 10:g} % of the sets."
    return Step(1, "week", 1000, level_permille, 1000, said, Why(said))
