"""A lifter's day, assembled on demand: every line in kilos and words, with ladders, cautions and minutes."""

from collections.abc import Iterator, Set
from datetime import date

import msgspec

from meetward.barbell.discs import plan
from meetward.barbell.ladder import Ladder, ladder
from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.load import Percent
from meetward.cycle.tree import Cycle, Line, Phase, Segment, Session, SetGroup, Week
from meetward.fit.cautions import cautions
from meetward.fit.dates import week_dates
from meetward.fit.fitted import DayLine, DaySegment, DaySet, DaySheet, SessionHead
from meetward.fit.kilos import Weight, kilos, range_words
from meetward.fit.minutes import SessionMinutes, session_minutes
from meetward.fit.parts import asked_before, asked_in, between_of, parts_of, shared_texts, steps_of
from meetward.fit.standing import Standings
from meetward.fit.words import (
    entry_of,
    lift_words,
    line_words,
    load_words,
    scheme_words,
)
from meetward.lifter.profile import Lifter
from meetward.problem import Place, Problem

_Weighed = tuple[Line, tuple[tuple[SetGroup, Weight], ...]]


STEPS = 6
"""Most steps of a ladder above the empty bar. Common practice, no source, as is the next."""

STEPS_WHEN_LIFTED_AGAIN = 2
"""The same for a movement that was lifted before on the day."""


class NoSuchSession(ValueError):
    """A week or session that the cycle does not have."""


def day_sheet(
    cycle: Cycle,
    week: int,
    session: int,
    lifter: Lifter,
    catalogue: Catalogue,
    *,
    on: date | None = None,
    club: str = "",
    standings: Standings | None = None,
    before: Set[str] | None = None,
) -> DaySheet:
    """What ``lifter`` does in one session of ``cycle``.

    week, session : through the cycle and in the week, from 1.
    on : the day; where it is not given it is counted from the cycle's dates and the lifter's days.
    club : where the cycle names none.
    standings : of this lifter, where several of their days are wanted: bests are looked up once.
    before : ids that the cycle has asked for before this session, where the caller has them already.
    Raises NoSuchSession.
    """
    head, the_session = session_head(cycle, week, session, club)
    mine = standings or Standings(lifter, catalogue)
    day = on or week_dates(cycle, lifter.days)[week - 1][session - 1]
    weighed = [
        (segment, [_weigh(line, mine, _place(week, session, line, catalogue)) for line in segment.lines])
        for segment in the_session.segments
    ]
    ladders = _ladders(weighed, lifter, catalogue)
    minutes = session_minutes(the_session, catalogue, ladders)
    if before is None:
        before = asked_before(cycle, week, session)
    segments = tuple(
        DaySegment(
            segment.kind,
            tuple(
                _line(line, sets, ladders.get((s, n)), minutes.lines[s][n], lifter, catalogue, before)
                for n, (line, sets) in enumerate(lines)
            ),
            minutes.segments[s],
        )
        for s, (segment, lines) in enumerate(weighed)
    )
    found = [
        *(problem for _, lines in weighed for _, sets in lines for _, w in sets for problem in w.problems),
        *_unknown(week, session, the_session, catalogue),
        *_derived(mine, weighed),
        *_too_long(week, session, the_session, lifter, minutes),
    ]
    return DaySheet(
        **msgspec.structs.asdict(head),
        lifter=lifter.name,
        lifter_key=lifter.key,
        on=day,
        meet=cycle.meet,
        meet_on=cycle.meet_on,
        segments=segments,
        minutes=minutes.minutes,
        minutes_why=minutes.why,
        unit=lifter.unit,
        bar_dag=lifter.kit.bar_dag,
        collars_dag=lifter.kit.collars_dag,
        cautions=cautions(the_session, lifter, catalogue, day),
        problems=tuple({(p.kind, p.message): p for p in found}.values()),
        shared=shared_texts((line for segment in segments for line in segment.lines), catalogue),
    )


def day_sheets(
    cycle: Cycle, lifter: Lifter, catalogue: Catalogue, *, weeks: range | None = None, club: str = ""
) -> Iterator[DaySheet]:
    """Every day of ``lifter`` in order, or those of some weeks (numbers from 1)."""
    standings = Standings(lifter, catalogue)
    before: set[str] = set()
    for week, session, the_session in cycle.sessions():
        if weeks is None or week in weeks:
            yield day_sheet(
                cycle, week, session, lifter, catalogue, club=club, standings=standings, before=before
            )
        before.update(asked_in(the_session))


def session_head(cycle: Cycle, week: int, session: int, club: str) -> tuple[SessionHead, Session]:
    """What stands above a session, and the session. ``club`` where the cycle names none.

    Raises NoSuchSession.
    """
    phase, the_week, the_session = find_session(cycle, week, session)
    head = SessionHead(
        cycle=cycle.title,
        club=cycle.club or club,
        week=week,
        weeks=sum(len(p.weeks) for p in cycle.phases),
        week_role=the_week.role,
        phase=phase.title,
        session=session,
        title=the_session.title,
        key=the_session.key,
        aim=the_session.aim,
        notes=the_week.notes + the_session.notes,
    )
    return head, the_session


def find_session(cycle: Cycle, week: int, session: int) -> tuple[Phase, Week, Session]:
    """A session with its week and phase, numbers from 1. Raises NoSuchSession."""
    weeks = list(cycle.weeks())
    if not 1 <= week <= len(weeks):
        raise NoSuchSession(f"There is no week {week}: the cycle has {_counted(len(weeks), 'week')}.")
    _, phase, the_week = weeks[week - 1]
    if not 1 <= session <= len(the_week.sessions):
        sessions = _counted(len(the_week.sessions), "session")
        raise NoSuchSession(f"There is no session {session} in week {week}: it has {sessions}.")
    return phase, the_week, the_week.sessions[session - 1]


def _counted(number: int, what: str) -> str:
    return f"{number or 'no'} {what}{'' if number == 1 else 's'}"


def _place(week: int, session: int, line: Line, catalogue: Catalogue) -> Place:
    return Place(said=f"Week {week}, session {session}, {line_words(line, catalogue)}")


def _weigh(line: Line, standings: Standings, place: Place) -> _Weighed:
    return line, tuple((group, kilos(group, line, standings, place)) for group in line.groups)


def _ladders(
    weighed: list[tuple[Segment, list[_Weighed]]], lifter: Lifter, catalogue: Catalogue
) -> dict[tuple[int, int], Ladder | None]:
    """The ladder of each line with the bar whose first weight is known, by segment and line.

    None for lines that need no warm-up: the empty bar, and accessories that count as no lift.
    """
    found: dict[tuple[int, int], Ladder | None] = {}
    lifted: set[str] = set()
    for s, (segment, lines) in enumerate(weighed):
        for n, (line, sets) in enumerate(lines):
            movements = [m for part in line.parts if (m := catalogue.movements.get(part.movement))]
            if segment.kind != "lifts" or not any(m.barbell for m in movements):
                continue
            first = _first_work(sets)
            if not any(m.barbell and m.lifts_per_rep for m in movements):
                found[s, n] = None
            elif first is not None:
                group, start_dag = first
                again = bool(lifted.intersection(m.id for m in movements))
                needed = start_dag > lifter.kit.bar_dag
                found[s, n] = _ladder(lifter, start_dag, group, bool(lifted), again) if needed else None
            lifted.update(m.id for m in movements if m.lifts_per_rep)
    return found


def _first_work(sets: tuple[tuple[SetGroup, Weight], ...]) -> tuple[SetGroup, int] | None:
    """The first set group that is loaded on the bar, with its weight."""
    for group, weight in sets:
        if weight.on_bar and weight.low_dag is not None:
            return group, weight.low_dag
    return None


def _ladder(lifter: Lifter, first_work_dag: int, group: SetGroup, second: bool, again: bool) -> Ladder:
    """The ladder to a first work weight; ``second`` lift of the day, or a movement lifted ``again``."""
    reps = [r.low for r in group.reps if r and r.low]
    load = group.load
    stands_on_best = isinstance(load, Percent) and load.of.kind in ("default", "lift")
    low = load.low_permille if isinstance(load, Percent) and stands_on_best else None
    return ladder(
        lifter.kit,
        first_work_dag,
        reps_of_work=max(reps, default=3),
        second_lift_of_the_day=second,
        intensity_permille=low or None,
        max_steps=STEPS_WHEN_LIFTED_AGAIN if again else STEPS,
    )


def _line(
    line: Line,
    sets: tuple[tuple[SetGroup, Weight], ...],
    climb: Ladder | None,
    minutes: float,
    lifter: Lifter,
    catalogue: Catalogue,
    before: Set[str],
) -> DayLine:
    parts = parts_of(line, catalogue, before)
    return DayLine(
        name=line_words(line, catalogue),
        parts=parts,
        sets=tuple(_set(group, weight, lifter, catalogue) for group, weight in sets),
        ladder=climb,
        between=between_of(line, catalogue, before),
        steps=steps_of(parts, catalogue),
        notes=line.notes,
        turn=line.turn,
        priority=line.priority,
        minutes=minutes,
    )


def _set(group: SetGroup, weight: Weight, lifter: Lifter, catalogue: Catalogue) -> DaySet:
    loaded = weight.high_dag if weight.on_bar else None
    return DaySet(
        group=group,
        scheme=scheme_words(group),
        load_said=load_words(group.load, catalogue),
        low_dag=weight.low_dag,
        high_dag=weight.high_dag,
        weights_dag=weight.weights_dag,
        placeholder=weight.placeholder,
        instruction=weight.instruction,
        discs=None if loaded is None else plan(lifter.kit, loaded),
        why=weight.why,
    )


def _unknown(week: int, session: int, the_session: Session, catalogue: Catalogue) -> Iterator[Problem]:
    """Movements and between-set work that the catalogue does not know: they have no teaching text."""
    for segment in the_session.segments:
        for line in segment.lines:
            names = [part.written for part in line.parts if entry_of(part, catalogue) is None]
            names += [b.written for b in line.between if b.drill not in catalogue.drills]
            for name in names:
                near = catalogue.suggest(name)
                yield Problem(
                    _place(week, session, line, catalogue),
                    kind="not in the catalogue",
                    message=f"'{name}' is not in the catalogue, so the sheet has no text for it.",
                    repair=f"Did you mean {near}?"
                    if near
                    else "Add it to your catalogue, or leave it as it is.",
                    read=name,
                    severity="look",
                )


def _derived(standings: Standings, weighed: list[tuple[Segment, list[_Weighed]]]) -> Iterator[Problem]:
    """One line for each best that was derived and that weights of the day stand on."""
    if not any(w.placeholder for _, lines in weighed for _, sets in lines for _, w in sets):
        return
    for standing in standings.derived():
        name = lift_words(standing.lift, standings.catalogue)
        yield Problem(
            Place(said=f"Profile of {standings.lifter.name}"),
            kind="derived best",
            message=(
                f"No best {name} is known. Weights that stand on it are only a start: "
                f"it lies probably between {range_words(standing)} kg."
            ),
            repair=f"Work up, then enter the best {name} in the profile.",
            severity="look",
        )


def _too_long(
    week: int, session: int, the_session: Session, lifter: Lifter, minutes: SessionMinutes
) -> Iterator[Problem]:
    """The session takes longer than the coach means it to, or than the lifter has, even for quick people."""
    limits = (("is meant to take", the_session.minutes), (f"has to fit into {lifter.name}'s", lifter.minutes))
    for words, limit in limits:
        if limit is not None and minutes.low_minutes > limit:
            yield Problem(
                Place(said=f"Week {week}, session {session}"),
                kind="too long",
                message=(
                    f"The session {words} {limit} min; it is estimated at {minutes.minutes:.0f}, "
                    f"{minutes.low_minutes:.0f} for a quick lifter."
                ),
                repair="Leave out what could be left out, or allow more time.",
                severity="look",
            )
            return
