"""A lesson in the words that are printed: what the teaching edition's page and paper both draw."""

from collections.abc import Iterable, Mapping

import msgspec

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.shared import Shared
from meetward.fit.lesson import Lesson, LessonLine, LessonSegment

from .picture import Size
from .shown_entry import ShownEntry, shown_entry
from .words import (
    PRIORITIES,
    SEGMENT_TITLES,
    show_details,
    show_facts,
    show_minutes,
    show_turn,
    split_scheme,
)


class ShownWork(msgspec.Struct, frozen=True):
    """A set group: sets and reps, the load, and what else is said."""

    scheme: str
    load: str
    more: str


class ShownSmall(msgspec.Struct, frozen=True):
    """A step of a warm-up, or work between sets: ``entry`` is None where the catalogue does not know it."""

    name: str
    dose: str
    entry: ShownEntry | None


class ShownLessonLine(msgspec.Struct, frozen=True):
    """A line; ``texts`` are those that no earlier line has shown, ``seen`` names the others."""

    mark: str
    name: str
    detail: str
    turn: str
    priority: str
    minutes: str
    work: tuple[ShownWork, ...]
    between: tuple[ShownSmall, ...]
    steps: tuple[ShownSmall, ...]
    notes: tuple[str, ...]
    texts: tuple[ShownEntry, ...]
    seen: tuple[str, ...]
    new: tuple[str, ...]


class ShownLessonSegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    kind: str
    title: str
    minutes: str
    lines: tuple[ShownLessonLine, ...]


class ShownLesson(msgspec.Struct, frozen=True):
    """The whole lesson. ``new`` names the lifts that the cycle asks for the first time."""

    cycle: str
    club: str
    where: str
    title: str
    facts: tuple[str, ...]
    aim: str
    notes: tuple[str, ...]
    minutes: str
    minutes_why: str
    new: tuple[str, ...]
    segments: tuple[ShownLessonSegment, ...]
    cautions: tuple[str, ...]


class _Shown:
    """What earlier lines have shown, and where names and shared texts come from."""

    def __init__(self, lesson: Lesson, size: Size) -> None:
        self.size = size
        self.names: Mapping[str, str] = lesson.names
        self.shared: Mapping[str, Shared] = {text.id: text for text in lesson.shared}
        self.ids: set[str] = set()
        self.groups: set[str] = set()

    def entry(self, entry: Movement | Drill, *, in_full: bool = False) -> ShownEntry:
        """The entry; with its whole text, what it shares is said once and only named later."""
        shown = shown_entry(
            entry,
            self.shared,
            lambda id_: self.names.get(id_, id_.replace("_", " ")),
            self.groups,
            size=self.size if in_full else "single",
        )
        if in_full:
            self.groups.update(self.shared[id_].name for id_ in entry.shares if id_ in self.shared)
        return shown


def shown_lesson(lesson: Lesson, size: Size = "strip") -> ShownLesson:
    """``lesson`` in words; ``size`` of the drawings of its lifts."""
    shown = _Shown(lesson, size)
    segments = tuple(_segment(segment, shown) for segment in lesson.segments if segment.lines)
    return ShownLesson(
        cycle=lesson.cycle,
        club=lesson.club,
        where=f"Week {lesson.week} of {lesson.weeks}, session {lesson.session}",
        title=lesson.title,
        facts=show_facts(lesson.phase, lesson.week_role, lesson.key),
        aim=lesson.aim,
        notes=lesson.notes,
        minutes=show_minutes(lesson.minutes),
        minutes_why=lesson.minutes_why.said,
        new=tuple(
            dict.fromkeys(
                name for one in segments if one.kind == "lifts" for line in one.lines for name in line.new
            )
        ),
        segments=segments,
        cautions=lesson.cautions,
    )


def _segment(segment: LessonSegment, shown: _Shown) -> ShownLessonSegment:
    return ShownLessonSegment(
        segment.kind,
        SEGMENT_TITLES[segment.kind],
        show_minutes(segment.minutes),
        tuple(_line(line, n, segment, shown) for n, line in enumerate(segment.lines, start=1)),
    )


def _line(line: LessonLine, number: int, segment: LessonSegment, shown: _Shown) -> ShownLessonLine:
    entries = list(_entries(line))
    in_full = segment.kind == "lifts"
    texts = tuple(shown.entry(entry, in_full=in_full) for entry in entries if entry.id not in shown.ids)
    seen = tuple(entry.name for entry in entries if entry.id in shown.ids)
    if in_full:
        shown.ids.update(entry.id for entry in entries)
    return ShownLessonLine(
        mark=str(number),
        name=line.name,
        detail=show_details(line),
        turn=show_turn(line, segment.lines),
        priority=PRIORITIES.get(line.priority, ""),
        minutes=show_minutes(line.minutes),
        work=tuple(
            ShownWork(scheme, one.load, more)
            for one in line.sets
            for scheme, more in (split_scheme(one.scheme),)
        ),
        between=tuple(
            ShownSmall(one.name, one.dose, shown.entry(one.drill) if one.drill else None)
            for one in line.between
        ),
        steps=tuple(
            ShownSmall(name, dose, shown.entry(entry) if entry else None) for name, dose, entry in line.steps
        ),
        notes=line.notes,
        texts=texts,
        seen=seen,
        new=tuple(part.name for part in line.parts if part.first and part.entry),
    )


def _entries(line: LessonLine) -> Iterable[Movement | Drill]:
    """The movements and drills of a line, each once."""
    found = [part.entry for part in line.parts if isinstance(part.entry, Movement | Drill)]
    return {entry.id: entry for entry in found}.values()
