"""One entry: the source lines that make one line of the cycle, with what was understood of them."""

import re
from collections.abc import Sequence
from typing import Literal

import msgspec

from meetward.cycle.integrity import refusal
from meetward.cycle.load import Open
from meetward.cycle.tree import Line, Part, Priority, SetGroup
from meetward.problem import Place, Problem

from . import problems as p
from .conventions import Conventions
from .items import Doubt, Scan
from .names import NameReader
from .settle import Settled, readings
from .tokens import LONGEST_LINE
from .weights import Entry
from .words_out import said

Status = Literal["read", "ambiguous", "note"]
_BY_KIND = {
    "unread number": p.unread_number, "numbers": p.unread_numbers, "negative": p.unread_number,
    "added": p.either_or,
    "words between": p.words_between, "either": p.either_or, "second movement": p.second_movement,
    "decayed": p.decayed_sign,
    "climb": p.unread_numbers, "rest": p.unread_number,
}  # fmt: skip
_DIGIT = re.compile(r"\d")


class Record(msgspec.Struct, frozen=True):
    """What was understood of the source lines that make one entry.

    line : number of the first, from 1; count : how many lines from it to the last.
    readings : every way to read it when it is ambiguous, the one in use first; empty otherwise.
    leftover : words that were not understood.
    path : phase, week, session, segment, line in the tree, from 0.
    """

    line: int
    count: int
    text: str
    status: Status
    parts: tuple[Part, ...]
    reading: Settled | None
    readings: tuple[Settled, ...]
    leftover: str
    path: tuple[int, ...] = ()


class ReadEntry(msgspec.Struct, frozen=True):
    """An entry read once: its line of the tree, its record and problems, all counted from its first source
    line."""

    line: Line
    record: Record
    problems: tuple[Problem, ...]


def read_entry(
    numbered: Sequence[tuple[int, Scan]], conventions: Conventions, names: NameReader, *, hangs: bool = False
) -> ReadEntry:
    """Read the scans of one entry. ``numbered``: line numbers from 0 for the first one, with what each line
    says."""
    scans = [scan for _, scan in numbered]
    text = "\n".join(scan.text.strip() for scan in scans)
    count = numbered[-1][0] + 1
    entry = Entry(scans)
    found: list[Problem] = []
    for number, scan in numbered:
        found += _problems_of(number + 1, scan)
    doubted = any(scan.doubts or scan.only_note for scan in scans)
    leftover = " / ".join(left for scan in scans if (left := _leftover(scan)))
    has_sets = bool(
        entry.items or entry.sum_reps or any(d.reps_low for d in entry.parts) or any(s.has_all for s in scans)
    )
    strange = [not d.movement and not d.exact for d in entry.parts]
    unsure_name = (bool(leftover) and any(strange)) or (len(strange) > 1 and all(strange))
    if unsure_name and not doubted:
        found += _unknown(numbered, names)
    if doubted or hangs or unsure_name or (leftover and not entry.parts) or not (entry.parts or has_sets):
        return _note(numbered, text, count, found)
    ways, answers, why = readings(entry, conventions, names)
    first_line, first_text = numbered[0][0] + 1, scans[0].text
    if why or not ways:
        line, words = next(((n + 1, s.text) for n, s in numbered if s.items), (first_line, first_text))
        return _note(numbered, text, count, [*found, p.misfit(line, words, why)])
    kept = [
        (way, given)
        for way, given in zip(ways, answers, strict=True)
        if not refusal(Line(way.parts, way.groups))
    ]
    if not kept:
        why = refusal(Line(ways[0].parts, ways[0].groups))
        return _note(numbered, text, count, [*found, p.misfit(first_line, first_text, why)])
    ways, answers = [way for way, _ in kept], [given for _, given in kept]
    reading = ways[0]
    if not entry.parts and reading.groups and all(map(_says_nothing, reading.groups)):
        return _note(numbered, text, count, found)
    if (
        not reading.groups
        and not any(part.movement for part in reading.parts)
        and not any(d.exact for d in entry.parts)
    ):
        return _note(numbered, text, count, found)
    found += _unknown(numbered, names)
    if reading.groups and not entry.parts:
        found.append(p.no_movement(first_line, first_text))
    status: Status = "read"
    if len(ways) > 1:
        status = "ambiguous"
        asked = [q for given in answers[:1] for q in given.asked.values()]
        line, words = next(((n + 1, s.text) for n, s in numbered if s.items), (first_line, first_text))
        found.append(p.two_ways(line, words, [said(way) for way in ways], asked))
    notes = (leftover,) if leftover else ()
    turn = next((s.turn for s in scans if s.turn), "")
    priority: Priority = next((s.priority for s in scans if s.priority), "should")
    tree = Line(reading.parts, reading.groups, notes=notes, turn=turn, priority=priority)
    record = Record(
        1, count, text, status, reading.parts, reading, tuple(ways) if len(ways) > 1 else (), leftover
    )
    return ReadEntry(tree, record, tuple(found))


def _says_nothing(group: SetGroup) -> bool:
    """Whether a group without a lift names neither reps nor a load nor a time: "EMOM 12" and nothing more."""
    said = any(group.reps) or group.hold_s is not None or group.distance_m is not None
    return not said and group.load == Open() and not group.cluster


def _unknown(numbered: Sequence[tuple[int, Scan]], names: NameReader) -> list[Problem]:
    """A problem for every name that the catalogue does not hold, of a lift or behind a percentage."""
    return [
        p.unknown_movement(number + 1, draft.start, draft.end, draft.written, names.suggest(draft.written))
        for number, scan in numbered
        for draft in scan.parts
        if not draft.movement and not draft.exact
    ] + [
        p.unknown_movement(number + 1, at, at + len(base), base, names.suggest(base))
        for number, scan in numbered
        for base in dict.fromkeys(i.load.of[1] for i in scan.items if i.load and i.load.of[0] == "lift")
        if names.find(base) is None and (at := scan.text.find(base)) >= 0
    ]


def _note(numbered: Sequence[tuple[int, Scan]], text: str, count: int, found: list[Problem]) -> ReadEntry:
    scans = [scan for _, scan in numbered]
    if not found and (_DIGIT.search(text) or any(d.movement for s in scans for d in s.parts)):
        found = [p.not_a_set_line(numbered[0][0] + 1, scans[0].text)]
    notes = tuple(scan.text.strip() for scan in scans)
    line = Line((), notes=notes)
    record = Record(1, count, text, "note", (), None, (), text)
    return ReadEntry(line, record, tuple(found))


def _leftover(scan: Scan) -> str:
    words = [" ".join(scan.text[start:end].split()).strip(" -,;:./") for start, end in scan.leftover]
    return ", ".join(word for word in words if word)


def _problems_of(line: int, scan: Scan) -> list[Problem]:
    if scan.only_note == "too long":
        return [p.too_long(line, scan.text, LONGEST_LINE)]
    found: list[Problem] = []
    seen: list[Doubt] = []
    for doubt in scan.doubts:
        if any(d.start <= doubt.start < d.end for d in seen):
            continue
        seen.append(doubt)
        make = _BY_KIND.get(doubt.kind, p.unread_numbers)
        found.append(make(line, doubt.start, doubt.end, scan.text[doubt.start : doubt.end]))
    return found


def moved(problem: Problem, lines: int, said_place: str = "") -> Problem:
    """The problem ``lines`` further down, with the place in the words of the trade."""
    at = problem.place
    place = Place(at.line + lines, at.column, at.width, at.source, at.path, said_place or at.said)
    return msgspec.structs.replace(problem, place=place)
