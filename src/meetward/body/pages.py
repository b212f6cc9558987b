"""Files of drawings: their entries, and where in the text each entry, position and field stands."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal

import msgspec
import tomli

from meetward.problem import Place, Problem

Kind = Literal["drawing", "pose"]
LARGEST_FILE_BYTES = 2_000_000

_HEADER = re.compile(r"^\[\[\s*(drawing|pose)\s*\]\]", re.MULTILINE)
_AT_LINE = re.compile(r"\(at line (\d+), column (\d+)\)")


class Page:
    """One file: its text and its entries in order."""

    def __init__(self, name: str, text: str) -> None:
        self.name, self.text = name, text
        self._starts = [(m.start(), m[1]) for m in _HEADER.finditer(text)]
        self.entries: list[Entry] = []

    def chunk(self, kind: Kind, number: int) -> tuple[int, str]:
        """Where the ``number``-th entry of a kind begins, and its text; 0 and none where it is not found."""
        starts = [i for i, (_, found) in enumerate(self._starts) if found == kind]
        if number > len(starts):
            return 0, ""
        i = starts[number - 1]
        end = self._starts[i + 1][0] if i + 1 < len(self._starts) else len(self.text)
        return self._starts[i][0], self.text[self._starts[i][0] : end]

    def line(self, at: int) -> int:
        """The line of a character, counted from 1."""
        return self.text.count("\n", 0, at) + 1


class Entry(msgspec.Struct, frozen=True):
    """One entry as it was read, untyped."""

    page: Page
    kind: Kind
    number: int
    table: dict[str, Any]

    @property
    def id(self) -> str:
        """Its id; empty where it has none that is text."""
        found = self.table.get("id")
        return found if isinstance(found, str) else ""

    def place(self, frame: str = "", field: str = "") -> Place:
        """The entry, one of its positions, or a field of either."""
        said = f"{self.kind} '{self.id}'" if self.id else f"{self.kind} number {self.number}"
        start, chunk = self.page.chunk(self.kind, self.number)
        at = 0
        if frame:
            said += f", position '{frame}'"
            found = re.search(rf'name\s*=\s*"{re.escape(frame)}"', chunk)
            at = found.start() if found else 0
        if field:
            said += f", field '{field}'"
            first = re.match(r"\w+", field)
            # Only in the line of the position, or below it where it is written over several lines.
            found = re.search(rf"\b{re.escape(first[0])}\b", chunk[at:]) if first else None
            if found and (not frame or "[[" not in chunk[at : at + found.start()]):
                at += found.start()
        line = self.page.line(start + at) if chunk else 0
        return Place(line=line, source=self.page.name, said=said)


def pages(path: Path, problems: list[Problem]) -> Iterator[Page]:
    """A file, or all TOML files in a folder in the order of their names. What cannot be read is told."""
    try:
        found = sorted(path.rglob("*.toml")) if path.is_dir() else [path]
    except OSError as e:
        problems.append(_unreadable(str(path), str(e)))
        return
    for one in found:
        name = str(one.relative_to(path)) if one != path else one.name
        try:
            if one.stat().st_size > LARGEST_FILE_BYTES:
                said = f"The file is over {LARGEST_FILE_BYTES // 1_000_000} MB."
                problems.append(
                    Problem(Place(source=name), "file too large", said, "Split it into several files.")
                )
                continue
            text = one.read_bytes().decode("utf-8-sig").replace("\r\n", "\n")
        except UnicodeDecodeError:
            problems.append(
                Problem(
                    Place(source=name), "not UTF-8", "The file is not UTF-8 text.", "Save it again as UTF-8."
                )
            )
            continue
        except (OSError, ValueError) as e:
            problems.append(_unreadable(name, str(e)))
            continue
        yield page(name, text, problems)


def page(name: str, text: str, problems: list[Problem]) -> Page:
    """The entries of one text. Where the whole is no TOML, each entry is tried by itself."""
    made = Page(name, text)
    whole = _parsed(made, text, 0)
    if isinstance(whole, dict):
        for kind, entries in _entries(made, whole, problems):
            made.entries += [Entry(made, kind, n, table) for n, table in enumerate(entries, 1)]
        return made
    faults: list[Problem] = []
    starts = [m.start() for m in _HEADER.finditer(text)]
    counts: dict[Kind, int] = {"drawing": 0, "pose": 0}
    for start, end in zip([0, *starts], [*starts, len(text)], strict=True):
        if header := _HEADER.match(text, start):
            counts["pose" if header[1] == "pose" else "drawing"] += 1
        part = _parsed(made, text[start:end], start)
        if isinstance(part, Problem):
            faults.append(part)
            continue
        for found, entries in _entries(made, part, faults):
            made.entries += [Entry(made, found, counts[found], table) for table in entries]
    problems += faults or [whole]
    return made


def _parsed(made: Page, chunk: str, start: int) -> dict[str, Any] | Problem:
    try:
        return tomli.loads(chunk)
    except RecursionError:
        return Problem(
            Place(source=made.name), "not TOML", "The file is nested too deeply.", "Write plain entries."
        )
    except ValueError as e:
        said = str(e)
    at = _AT_LINE.search(said)
    place = Place(
        line=made.line(start) + (int(at[1]) - 1 if at else 0),
        column=int(at[2]) if at else 0,
        source=made.name,
    )
    what = _AT_LINE.sub("", said).replace("(at end of document)", "before the end").strip()[:160]
    return Problem(
        place,
        "not TOML",
        f"This cannot be read: {what}.",
        'Text stands in "quotes", a position { in braces } on one line; see this line and the one above.',
    )


def _entries(
    made: Page, document: dict[str, Any], problems: list[Problem]
) -> Iterator[tuple[Kind, list[dict[str, Any]]]]:
    for key, value in document.items():
        kind: Kind
        if key == "drawing":
            kind = "drawing"
        elif key == "pose":
            kind = "pose"
        else:
            problems.append(
                Problem(
                    Place(source=made.name, said=f"'{key[:60]}'"),
                    "unknown table",
                    f"'{key[:60]}' is no kind of entry.",
                    "Write [[drawing]] or [[pose]] above each entry.",
                )
            )
            continue
        tables = value if isinstance(value, list) else [value]
        good = [t for t in tables if isinstance(t, dict)]
        if len(good) < len(tables):
            problems.append(
                Problem(
                    Place(source=made.name, said=f"'{key}'"),
                    "no table",
                    f"A {key} has to be a table of fields.",
                    f"Write [[{key}]] and its fields below.",
                )
            )
        yield kind, good


def _unreadable(name: str, why: str) -> Problem:
    said = f"The file could not be read: {why}."
    return Problem(Place(source=name), "file not read", said, "Check the name and the permissions.")
