"""A session as another coach teaches it: percentages, not kilos, and every text with what can replace it."""

from collections.abc import Iterator, Mapping

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.shared import Shared
from meetward.cycle.tree import Cycle, Line, SegmentKind
from meetward.fit.cautions import class_cautions
from meetward.fit.day import session_head
from meetward.fit.fitted import DayBetween, DayPart, SessionHead
from meetward.fit.minutes import session_minutes
from meetward.fit.parts import Step, asked_before, between_of, parts_of, shared_texts, steps_of
from meetward.fit.words import line_words, load_words, scheme_words
from meetward.why import Why


class LessonSet(msgspec.Struct, frozen=True):
    """A set group: sets and reps, and the load as the coach wrote it."""

    scheme: str
    load: str


class LessonLine(msgspec.Struct, frozen=True):
    """One line of the session."""

    name: str
    parts: tuple[DayPart, ...]
    sets: tuple[LessonSet, ...]
    between: tuple[DayBetween, ...]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]
    turn: str
    priority: str
    minutes: float


class LessonSegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    kind: SegmentKind
    lines: tuple[LessonLine, ...]
    minutes: float


class Lesson(SessionHead, frozen=True):
    """A session for a coach who runs the cycle with a group.

    minutes : estimated length with customary warm-up sets. [min]
    cautions : those of the session; each movement's stand with its text.
    shared : texts that the entries share with their groups.
    names : of the movements and drills that the entries speak of (easier, harder, instead, reference), by id.
    """

    segments: tuple[LessonSegment, ...]
    minutes: float
    minutes_why: Why
    cautions: tuple[str, ...]
    shared: tuple[Shared, ...]
    names: Mapping[str, str]


def lesson(cycle: Cycle, week: int, session: int, catalogue: Catalogue, *, club: str = "") -> Lesson:
    """One session of ``cycle`` as a lesson.

    week, session : through the cycle and in the week, from 1.
    club : where the cycle names none.
    Raises NoSuchSession.
    """
    head, the_session = session_head(cycle, week, session, club)
    minutes = session_minutes(the_session, catalogue)
    before = asked_before(cycle, week, session)
    segments = tuple(
        LessonSegment(
            segment.kind,
            tuple(
                _line(line, minutes.lines[s][n], catalogue, before) for n, line in enumerate(segment.lines)
            ),
            minutes.segments[s],
        )
        for s, segment in enumerate(the_session.segments)
    )
    lines = [line for segment in segments for line in segment.lines]
    return Lesson(
        **msgspec.structs.asdict(head),
        segments=segments,
        minutes=minutes.minutes,
        minutes_why=minutes.why,
        cautions=class_cautions(the_session, catalogue),
        shared=shared_texts(lines, catalogue),
        names={
            id_: named.name
            for entry in _entries(lines)
            for id_ in (*entry.easier, *entry.harder, *entry.instead, *_of(entry))
            if (named := catalogue.movements.get(id_) or catalogue.drills.get(id_))
        },
    )


def _line(line: Line, minutes: float, catalogue: Catalogue, before: set[str]) -> LessonLine:
    parts = parts_of(line, catalogue, before)
    return LessonLine(
        name=line_words(line, catalogue),
        parts=parts,
        sets=tuple(LessonSet(scheme_words(one), load_words(one.load, catalogue)) for one in line.groups),
        between=between_of(line, catalogue, before),
        steps=steps_of(parts, catalogue),
        notes=line.notes,
        turn=line.turn,
        priority=line.priority,
        minutes=minutes,
    )


def _entries(lines: list[LessonLine]) -> Iterator[Movement | Drill]:
    for line in lines:
        for entry in (
            *(part.entry for part in line.parts),
            *(between.drill for between in line.between),
            *(entry for _, _, entry in line.steps),
        ):
            if isinstance(entry, Movement | Drill):
                yield entry


def _of(entry: Movement | Drill) -> tuple[str, ...]:
    """The lifts that its percentages and ratios stand on."""
    return (entry.reference, *(ratio.of for ratio in entry.ratios)) if isinstance(entry, Movement) else ()
