"""What was understood of a text, as its page shows it."""

import msgspec
from charset_normalizer import from_bytes

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Part, SetGroup
from meetward.fit.words import load_words, part_words, scheme_words
from meetward.notation import Reading

from .problems import ShownProblem, shown

MOST_PROBLEMS = 100
"""More than these tell nobody anything; the page says how many more there are."""

TWO_WAYS = "reads two ways"
MOST_OPEN, MOST_WAYS_OPEN = 40, 6
"""So many lines are shown unfolded: read ones, and ones that read two ways."""


class ReadLine(msgspec.Struct, frozen=True):
    """A source line and what it means; ``readings`` where it can mean several things."""

    number: int
    text: str
    meaning: str = ""
    readings: tuple[str, ...] = ()


class ShownFault(msgspec.Struct, frozen=True):
    """A line with all that is wrong in it: its first problem, and what the others say."""

    first: ShownProblem
    others: tuple[ShownProblem, ...]


class ShownReading(msgspec.Struct, frozen=True):
    """What was understood of a text.

    faults : problems by line, each line once.
    settle : how to settle what reads two ways.
    open, few_ways : whether the lines that were read, or that read two ways, are few enough to show at once.
    """

    summary: str
    faults: tuple[ShownFault, ...]
    more_problems: int
    settle: str
    read: tuple[ReadLine, ...]
    ambiguous: tuple[ReadLine, ...]
    notes: tuple[ReadLine, ...]
    open: bool
    few_ways: bool


def shown_reading(reading: Reading, text: str, catalogue: Catalogue) -> ShownReading:
    """``reading`` in words."""
    source = text.split("\n")
    read, ambiguous, notes = [], [], []
    for record in reading.lines:
        name = " + ".join(_name(part, catalogue) for part in record.parts)
        line = ReadLine(record.line, record.text)
        if record.status == "note":
            notes.append(line)
        elif record.status == "ambiguous":
            ways = tuple(_sets(way.groups, catalogue) for way in record.readings)
            ambiguous.append(msgspec.structs.replace(line, readings=ways))
        else:
            sets = _sets(record.reading.groups, catalogue) if record.reading else ""
            meaning = ": ".join(words for words in (name, sets) if words)
            if record.leftover:
                meaning += f" (kept as a note: {record.leftover})"
            read.append(msgspec.structs.replace(line, meaning=meaning))
    # What reads two ways has a table of its own, with both readings.
    told = [problem for problem in reading.problems if problem.kind != TWO_WAYS]
    by_line: dict[tuple[int, int], list[ShownProblem]] = {}
    for number, problem in enumerate(told[:MOST_PROBLEMS]):
        at = problem.place.line
        line_text = source[at - 1] if 0 < at <= len(source) else ""
        by_line.setdefault((at, 0 if line_text else number), []).append(shown(problem, line_text))
    return ShownReading(
        summary=_summary(reading, len(read), len(ambiguous), len(notes)),
        faults=tuple(ShownFault(first, tuple(others)) for first, *others in by_line.values()),
        more_problems=max(0, len(told) - MOST_PROBLEMS),
        settle=next((p.repair for p in reading.problems if p.kind == TWO_WAYS), ""),
        read=tuple(read),
        ambiguous=tuple(ambiguous),
        notes=tuple(notes),
        open=len(read) <= MOST_OPEN,
        few_ways=len(ambiguous) <= MOST_WAYS_OPEN,
    )


def decoded(data: bytes) -> str | None:
    """The text in a file of any usual encoding, with one kind of line end; None for what is no text."""
    found = from_bytes(data).best() if data else None
    if data and found is None:
        return None
    return str(found or "").lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")


def _summary(reading: Reading, read: int, ambiguous: int, notes: int) -> str:
    weeks = sum(1 for _ in reading.cycle.weeks())
    sessions = sum(1 for _ in reading.cycle.sessions())
    return (
        f"{_count(weeks, 'week')}, {_count(sessions, 'session')}: {_count(read, 'line')} read, "
        f"{ambiguous} that read{'s' if ambiguous == 1 else ''} two ways, {notes} kept as notes."
    )


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _name(part: Part, catalogue: Catalogue) -> str:
    return part_words(part, catalogue)


def _sets(groups: tuple[SetGroup, ...], catalogue: Catalogue) -> str:
    said = []
    for group in groups:
        load = load_words(group.load, catalogue)
        said.append(" at ".join(words for words in (scheme_words(group), load) if words))
    return "; ".join(said)
