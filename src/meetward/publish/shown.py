"""A day sheet in the words and figures that are printed: what the paper and the page both draw.

Nothing is computed here; kilos, dates and names are put into words once, for paper and page alike.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

import msgspec

from meetward.barbell.ladder import Ladder
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.shared import Shared
from meetward.fit.fitted import DayBetween, DayLine, DaySegment, DaySheet, Entry
from meetward.problem import Problem

from .bar import Unit, show_weight
from .picture import Size
from .shown_sets import ShownSet, shown_sets
from .shown_teaching import ShownTeaching, each_once, teaching
from .words import (
    PRIORITIES,
    SEGMENT_TITLES,
    show_date,
    show_details,
    show_facts,
    show_minutes,
    show_turn,
    time_to_meet,
)

DERIVED = "derived best"
"""Kind of the problems that ``fit`` reports for a best that is not known."""


class ShownRung(msgspec.Struct, frozen=True):
    """A warm-up set: weight without unit, reps, and what is on each side in words."""

    weight: str
    reps: int
    side: str


class ShownBetween(msgspec.Struct, frozen=True):
    """Work between the sets."""

    name: str
    dose: str
    summary: str
    teaching: ShownTeaching | None


class ShownStep(msgspec.Struct, frozen=True):
    """A step of a warm-up or recovery."""

    name: str
    dose: str
    summary: str
    teaching: ShownTeaching | None


class ShownLine(msgspec.Struct, frozen=True):
    """A line of the day; ``mark`` is its number in the segment, ``turn`` says what it takes turns with."""

    mark: str
    name: str
    detail: str
    turn: str
    priority: str
    minutes: str
    ladder: tuple[ShownRung, ...]
    ladder_why: str
    sets: tuple[ShownSet, ...]
    between: tuple[ShownBetween, ...]
    steps: tuple[ShownStep, ...]
    notes: tuple[str, ...]
    teaching: tuple[ShownTeaching, ...]


class ShownSegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    kind: str
    title: str
    minutes: str
    lines: tuple[ShownLine, ...]


class ShownDay(msgspec.Struct, frozen=True):
    """The whole day.

    where : "Week 6 of 12, session 3"; ``when`` the date; ``to_meet`` how long to the meet. May be empty.
    facts : short facts under the title: phase, kind of week, key session.
    whys : footnotes in the order of their marks.
    """

    lifter: str
    club: str
    cycle: str
    title: str
    where: str
    when: str
    to_meet: str
    facts: tuple[str, ...]
    aim: str
    notes: tuple[str, ...]
    bar: str
    unit: str
    minutes: str
    minutes_why: str
    segments: tuple[ShownSegment, ...]
    whys: tuple[str, ...]
    cautions: tuple[str, ...]
    problems: tuple[str, ...]


class _Seen(NamedTuple):
    """What earlier lines of the day have shown: footnotes with their marks, names of the movements taught.

    shared : texts that entries have in common, by id.
    """

    whys: dict[str, int]
    taught: set[str]
    shared: Mapping[str, Shared]
    size: Size


def shown_day(sheet: DaySheet, size: Size = "strip") -> ShownDay:
    """``sheet`` in words and figures; ``size`` of the drawings of its lifts."""
    seen = _Seen({}, set(), {text.id: text for text in sheet.shared}, size)
    segments = tuple(_segment(segment, sheet, seen) for segment in sheet.segments if segment.lines)
    collars = f", collars {show_weight(sheet.collars_dag, sheet.unit)}" if sheet.collars_dag else ""
    return ShownDay(
        lifter=sheet.lifter,
        club=sheet.club,
        cycle=sheet.cycle,
        title=sheet.title,
        where=f"Week {sheet.week} of {sheet.weeks}, session {sheet.session}",
        when=show_date(sheet.on) if sheet.on else "",
        to_meet=time_to_meet(sheet.on, sheet.meet, sheet.meet_on),
        facts=show_facts(sheet.phase, sheet.week_role, sheet.key),
        aim=sheet.aim,
        notes=sheet.notes,
        bar=f"bar {show_weight(sheet.bar_dag, sheet.unit)} {sheet.unit}{collars}",
        unit=sheet.unit,
        minutes=show_minutes(sheet.minutes),
        minutes_why=sheet.minutes_why.said,
        segments=segments,
        whys=tuple(seen.whys),
        cautions=sheet.cautions,
        problems=_problems(sheet.problems),
    )


def _problems(problems: Iterable[Problem]) -> tuple[str, ...]:
    """Problems as sentences; unknown bests, which their lines explain, are counted in a single one."""
    rest = list(problems)
    derived = [problem for problem in rest if problem.kind == DERIVED]
    said = [str(problem) for problem in rest if problem.kind != DERIVED]
    if derived:
        said.insert(
            0,
            f"{len(derived)} {'best is' if len(derived) == 1 else 'bests are'} not known yet: a weight "
            "after 'from' is only a start. Work up and tell your coach, who enters the best.",
        )
    return tuple(said)


def _segment(segment: DaySegment, sheet: DaySheet, seen: _Seen) -> ShownSegment:
    return ShownSegment(
        kind=segment.kind,
        title=SEGMENT_TITLES[segment.kind],
        minutes=show_minutes(segment.minutes),
        lines=tuple(
            _line(line, str(number), segment, sheet, seen)
            for number, line in enumerate(segment.lines, start=1)
        ),
    )


def _line(line: DayLine, mark: str, segment: DaySegment, sheet: DaySheet, seen: _Seen) -> ShownLine:
    return ShownLine(
        mark=mark,
        name=line.name,
        detail=show_details(line),
        turn=show_turn(line, segment.lines),
        priority=PRIORITIES.get(line.priority, ""),
        minutes=show_minutes(line.minutes),
        ladder=_ladder(line.ladder, sheet.unit),
        ladder_why=line.ladder.why.said if line.ladder else "",
        sets=tuple(shown_sets(line.sets, sheet, seen.whys)),
        between=tuple(_between(between, seen) for between in line.between),
        steps=tuple(
            ShownStep(name, dose, _summary(entry), teaching(entry, seen.shared))
            for name, dose, entry in line.steps
        ),
        notes=line.notes,
        teaching=tuple(
            each_once(
                (teaching(part.entry, seen.shared, first=part.first, size=seen.size) for part in line.parts),
                seen.taught,
            )
        ),
    )


def _ladder(ladder: Ladder | None, unit: Unit) -> tuple[ShownRung, ...]:
    if ladder is None:
        return ()
    return tuple(
        ShownRung(
            show_weight(step.dag, unit),
            step.reps,
            " + ".join(show_weight(dag, unit) for dag in step.plan.discs_dag) or "no discs",
        )
        for step in ladder.steps
    )


def _between(between: DayBetween, seen: _Seen) -> ShownBetween:
    text = teaching(between.drill, seen.shared, first=between.first)
    return ShownBetween(between.name, between.dose, _summary(between.drill), text)


def _summary(entry: Entry | None) -> str:
    return entry.summary if isinstance(entry, Movement | Drill) else ""
