"""Reading what a coach writes."""

from threading import Lock

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle, Line
from meetward.notation import Reader, Reading, print_cycle
from meetward.notation.headings import heading
from meetward.problem import Problem
from meetward.web.store.cycles import VersionRecord

from .timetable import Slot

_ORDERS = {"sets-first": "sets first", "reps-first": "reps first"}
_HANGING = frozenset(("between", "note"))
"""Headings of lines that belong to the lift above them."""

MOST_READERS = 4
"""Clubs whose lines are kept in mind; a reader remembers what it has read."""

_readers: dict[str, Reader] = {}
_one_at_a_time = Lock()


def read_text(text: str, catalogue: Catalogue) -> Reading:
    """What a text says. Lines that were read before are known, so a check after a small change is quick."""
    with _one_at_a_time:
        reader = _readers.pop(catalogue.version, None) or Reader(catalogue)
        _readers[catalogue.version] = reader  # the last one used stands last
        while len(_readers) > MOST_READERS:
            del _readers[next(iter(_readers))]
        return reader.read(text)


def declare_order(text: str, order: str) -> str:
    """The text with how it reads ``5x3`` declared at its head, in place of what it declared before."""
    kept = [line for line in text.split("\n") if (head := heading(line)) is None or head.kind != "order"]
    return "\n".join([f"Order: {_ORDERS[order]}", *kept])


def written(version: VersionRecord, catalogue: Catalogue) -> dict[str, str]:
    """The words of each line of a version, by the line's id.

    They are those of the coach where these still read as this version; else the version in our own notation.
    """
    source, reading = _source(version, catalogue)
    words = {record.path: _entry(source, record.line, record.count) for record in reading.lines}
    return {line.id: words.get(path, "") for path, line in _paths(version.cycle)}


def problems_in(version: VersionRecord, slot: Slot, catalogue: Catalogue) -> list[tuple[Problem, str]]:
    """What was not understood or should be seen in one session, each with its line of the text."""
    source, reading = _source(version, catalogue)
    place = f"Week {slot.week}, session {slot.session}"
    return [
        (problem, source[problem.place.line - 1] if 0 < problem.place.line <= len(source) else "")
        for problem in reading.problems
        if problem.place.said == place
    ]


def _source(version: VersionRecord, catalogue: Catalogue) -> tuple[list[str], Reading]:
    text = version.text
    reading = read_text(text, catalogue)
    if _shape(reading.cycle) != _shape(version.cycle):
        text = print_cycle(version.cycle, catalogue)
        reading = read_text(text, catalogue)
    return text.split("\n"), reading


def _entry(source: list[str], line: int, count: int) -> str:
    """The source lines of an entry with those that hang on it."""
    end = line - 1 + count
    while end < len(source) and (head := heading(source[end])) is not None and head.kind in _HANGING:
        end += 1
    return "\n".join(source[line - 1 : end]).strip()


def _paths(cycle: Cycle) -> list[tuple[tuple[int, ...], Line]]:
    return [
        ((p, w, s, g, n), line)
        for p, phase in enumerate(cycle.phases)
        for w, week in enumerate(phase.weeks)
        for s, session in enumerate(week.sessions)
        for g, segment in enumerate(session.segments)
        for n, line in enumerate(segment.lines)
    ]


def _shape(cycle: Cycle) -> list[tuple[object, ...]]:
    """Every line with its place and without its id."""
    return [(path, line.parts, line.groups, line.notes, line.between) for path, line in _paths(cycle)]
