"""Files of a catalogue: their tables, and where in the text each entry and field stands."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Any, Literal, get_args

import tomli

from meetward.catalogue.fields import likely
from meetward.problem import Place, Problem

LARGEST_FILE_BYTES = 4_000_000
MOST_PROBLEMS = 300
"""Problems of one file that are told one by one; with more, it has one fault many times."""

Table = Literal["movement", "drill", "sequence", "shared"]
"""What a table of a file can hold; ``shared`` is text that entries have in common."""

KINDS: tuple[Table, ...] = get_args(Table)

_HEADER = re.compile(r"^\[\[\s*(movement|drill|sequence|shared)\s*\]\]", re.MULTILINE)
_AT_LINE = re.compile(r"\(at line (\d+), column (\d+)\)")
_ID = re.compile(r'^id\s*=\s*"([^"\n]*)"', re.MULTILINE)


class File:
    """The text of one file. Lines are only looked up when something is wrong."""

    def __init__(self, name: str, text: str) -> None:
        self.name, self.text = name, text

    @cached_property
    def headers(self) -> dict[Table, list[int]]:
        """Where the entries of each kind begin."""
        found: dict[Table, list[int]] = {kind: [] for kind in KINDS}
        for kind, starts in found.items():
            starts += [m.start() for m in _HEADER.finditer(self.text) if m[1] == kind]
        return found

    @cached_property
    def starts(self) -> list[int]:
        """Where entries of any kind begin."""
        return [m.start() for m in _HEADER.finditer(self.text)]

    @cached_property
    def _ends_of_lines(self) -> list[int]:
        return [m.start() for m in re.finditer("\n", self.text)]

    def line(self, at: int) -> int:
        """The line of a character, counted from 1."""
        return bisect_right(self._ends_of_lines, at - 1) + 1


class Source:
    """Where one entry was read: the ``number``-th of its kind in the file."""

    def __init__(self, file: File, kind: Table, number: int) -> None:
        self.file, self.kind, self.number, self.id = file, kind, number, ""

    def place(self, field: str = "") -> Place:
        """The entry, or one of its fields."""
        said = f"{self.kind} '{self.id}'" if self.id else f"{self.kind} number {self.number}"
        if field:
            said = f"{said}, field '{field}'"
        return Place(line=self._line(field), source=self.file.name, said=said)

    def _line(self, field: str) -> int:
        starts = self.file.headers[self.kind]
        if self.number > len(starts):
            return 0  # written in another way than with [[...]]
        start = starts[self.number - 1]
        name = re.match(r"\w+", field)
        if name:
            every = self.file.starts
            after = bisect_right(every, start)
            chunk = self.file.text[start : every[after] if after < len(every) else None]
            at = re.search(rf"^\s*(\[\[?\w+\.)?\"?{re.escape(name[0])}\b", chunk, re.MULTILINE)
            if at:
                return self.file.line(start + at.end())
        return self.file.line(start)


_AT_ENTRY = re.compile(r"(\w+) '([^']*)'(?:, field '(\w+)[^']*')?$")


def at_entry(place: Place) -> tuple[str, str, str]:
    """Kind, id and field of a place as `Source.place` says it; empty words for what it does not say."""
    found = _AT_ENTRY.match(place.said)
    return (found[1], found[2], found[3] or "") if found else ("", "", "")


def files(path: Path, problems: list[Problem]) -> Iterator[File]:
    """A file, or all TOML files in a folder in the order of their names."""
    try:
        found = sorted(path.rglob("*.toml")) if path.is_dir() else [path]
    except (OSError, ValueError) as e:
        problems.append(_unreadable(str(path), str(e)))
        return
    for one in found:
        name = str(one.relative_to(path)) if one != path else one.name
        try:
            if not one.is_file():
                problems.append(_unreadable(str(one), "there is no such file"))
                continue
            if one.stat().st_size > LARGEST_FILE_BYTES:
                problems.append(_too_large(name))
                continue
            raw = one.read_bytes()
        except (OSError, ValueError) as e:
            problems.append(_unreadable(name, str(e)))
            continue
        try:
            yield File(name, raw.decode("utf-8-sig").replace("\r\n", "\n"))
        except UnicodeDecodeError as e:
            place = Place(line=raw.count(b"\n", 0, e.start) + 1, source=name)
            problems.append(
                Problem(place, "not UTF-8", "The file is not UTF-8 text.", "Save it again as UTF-8.")
            )


def written(text: str, name: str, problems: list[Problem]) -> Iterator[File]:
    """A text as a file."""
    if len(text) > LARGEST_FILE_BYTES:
        problems.append(_too_large(name))
        return
    yield File(name, text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n"))


def tables(file: File, problems: list[Problem]) -> Iterator[tuple[Source, dict[str, Any]]]:
    """The entries of a file, untyped. Where the whole is no TOML, each entry is tried by itself."""
    counts: dict[Table, int] = dict.fromkeys(KINDS, 0)
    whole = _parsed(file, 0, len(file.text), whole=True)
    if isinstance(whole, dict):
        yield from _in_document(file, whole, counts, problems)
        return
    told = 0
    for start, end in zip([0, *file.starts], [*file.starts, len(file.text)], strict=True):
        part = _parsed(file, start, end, whole=False)
        if isinstance(part, dict):
            yield from _in_document(file, part, counts, problems)
            continue
        told += 1
        if told <= MOST_PROBLEMS:
            problems.append(part)
        header = _HEADER.match(file.text, start)
        for kind in KINDS:
            if header and header[1] == kind:
                counts[kind] += 1
    if not told:  # each part is well alone and the whole is not: say what the whole says
        problems.append(whole)
    if told > MOST_PROBLEMS:
        problems.append(more(file, told - MOST_PROBLEMS))


def more(file: File, count: int) -> Problem:
    """What stands for problems that are not told one by one."""
    said = f"{count} more entries of this file cannot be used."
    return Problem(Place(source=file.name), "many problems", said, "Mend the ones above first.")


def _too_large(name: str) -> Problem:
    said = f"The file is over {LARGEST_FILE_BYTES // 1_000_000} MB."
    return Problem(Place(source=name), "file too large", said, "Split it into several files.")


def _unreadable(name: str, why: str) -> Problem:
    said = f"The file could not be read: {why}."
    return Problem(Place(source=name), "file not read", said, "Check the name and the permissions.")


def _parsed(file: File, start: int, end: int, whole: bool) -> dict[str, Any] | Problem:
    chunk = file.text if whole else file.text[start:end]
    try:
        return tomli.loads(chunk)
    except RecursionError:
        return Problem(
            Place(source=file.name), "not TOML", "The file is nested too deeply.", "Write plain entries."
        )
    except ValueError as e:
        said = str(e)
    at = _AT_LINE.search(said)
    entry = None if whole else _ID.search(chunk)
    place = Place(
        line=file.line(start) + (int(at[1]) - 1 if at else 0),
        column=int(at[2]) if at else 0,
        source=file.name,
        said=f"entry '{entry[1][:60]}'" if entry else "",
    )
    what = _AT_LINE.sub("", said).replace("(at end of document)", "before the end").strip()[:160]
    return Problem(
        place,
        "not TOML",
        f"This cannot be read: {what}.",
        'Text stands in "quotes", long text in three quotes a side; see this line and the one above.',
    )


def _in_document(
    file: File, document: Mapping[str, Any], counts: dict[Table, int], problems: list[Problem]
) -> Iterator[tuple[Source, dict[str, Any]]]:
    """Entries of a parsed document; whatever else stands in it is reported."""
    unknown = 0
    for key, value in document.items():
        kind = next((k for k in KINDS if k == key), None)
        if kind is None:
            unknown += 1
            if unknown <= MOST_PROBLEMS:
                problems.append(_unknown_table(file, key))
            continue
        if not isinstance(value, list):
            problems.append(
                Problem(
                    Place(source=file.name, said=f"'{key}'"),
                    "single table",
                    f"'{key}' stands in single brackets.",
                    f"Write [[{key}]] above each entry.",
                    severity="look",
                )
            )
        for table in value if isinstance(value, list) else [value]:
            counts[kind] += 1
            source = Source(file, kind, counts[kind])
            if isinstance(table, dict):
                yield source, table
            elif counts[kind] <= MOST_PROBLEMS:
                said = f"A {kind} has to be a table of fields."
                problems.append(
                    Problem(source.place(), "no table", said, f"Write [[{kind}]] and its fields below.")
                )


def _unknown_table(file: File, key: str) -> Problem:
    near = likely(key, KINDS)
    return Problem(
        Place(source=file.name, said=f"'{key[:60]}'"),
        "unknown table",
        f"'{key[:60]}' is not a kind of entry.",
        f"Write [[{near or 'movement'}]] above each entry.",
        read=key[:60],
    )
