"""Reading the catalogue: the shipped data files, and a coach's own on top.

A file holds any number of ``[[movement]]``, ``[[drill]]`` and ``[[sequence]]`` tables. A later layer (a
file, or a folder of files) adds entries, or changes one by giving its id and the fields that differ.
Whatever cannot be used is left out and reported; everything else loads.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import msgspec
import tomli

from meetward.catalogue.catalogue import Catalogue, Entry, Kind, kind_of
from meetward.catalogue.checks import flaws
from meetward.catalogue.drill import Drill
from meetward.catalogue.fields import likely, type_faults
from meetward.catalogue.linking import Layered, linked
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.problem import Place, Problem

DATA = Path(__file__).parent / "data"
"""The shipped data files."""

LARGEST_FILE_BYTES = 4_000_000

_TYPES: Mapping[Kind, type[Movement] | type[Drill] | type[Sequence]] = {
    "movement": Movement, "drill": Drill, "sequence": Sequence,
}  # fmt: skip

# A coach's own entry is usable without teaching text and usual equipment; the loader says what is still
# missing.
_MAY_COME_LATER: Mapping[Kind, Mapping[str, Any]] = {
    "movement": {
        "positions": [], "equipment": ["bar", "discs"], "summary": "", "purpose": "", "setup": "",
        "execution": "", "cues": [], "faults": [], "cautions": [],
    },
    "drill": {
        "regions": [], "equipment": ["none"], "summary": "", "purpose": "", "how": "", "cues": [],
        "cautions": [],
    },
    "sequence": {"version": 1, "purpose": "", "cautions": []},
}  # fmt: skip

_HEADER = re.compile(r"^\[\[\s*(movement|drill|sequence)\s*\]\]", re.MULTILINE)
_AT_LINE = re.compile(r"\(at line (\d+), column (\d+)\)")


def load(*paths: Path) -> tuple[Catalogue, list[Problem]]:
    """The shipped catalogue with a coach's files or folders laid over it in turn, and what was wrong.

    Raises nothing. A problem of severity ``stop`` left something out; ``look`` kept it.
    """
    return read_layers([DATA, *paths], shipped_layers=1)


@cache
def shipped() -> Catalogue:
    """The catalogue as shipped, read once."""
    return load()[0]


def read_layers(paths: Iterable[Path], shipped_layers: int = 0) -> tuple[Catalogue, list[Problem]]:
    """As `load`, from these layers only. Entries of layers after ``shipped_layers`` are the coach's own."""
    problems: list[Problem] = []
    layered = Layered()
    own: set[str] = set()
    for n, path in enumerate(paths):
        seen: dict[tuple[Kind, str, int], _Source] = {}
        for file in _files(Path(path), problems):
            for source, kind, table in _tables(file, problems):
                entry = _entry(source, kind, table, layered, seen, problems)
                if entry is None:
                    continue
                layered.put(entry, source.place)
                if n >= shipped_layers:
                    own.add(entry.id)
    problems += linked(layered)
    entries = layered.entries()
    catalogue = Catalogue(
        [e for e in entries if isinstance(e, Movement)],
        [e for e in entries if isinstance(e, Drill)],
        [e for e in entries if isinstance(e, Sequence)],
        own & {e.id for e in entries},
    )
    problems += _clashes(catalogue, layered)
    return catalogue, problems


class _Source:
    """Where an entry was read, so that lines are only looked up when something is wrong."""

    def __init__(self, file: str, text: str, kind: Kind, number: int) -> None:
        self.file, self.text, self.kind, self.number, self.id = file, text, kind, number, ""

    def place(self, field: str = "") -> Place:
        """The entry, or one of its fields."""
        said = f"{self.kind} '{self.id}'" if self.id else f"{self.kind} number {self.number}"
        return Place(
            line=self._line(field), source=self.file, said=f"{said}, field '{field}'" if field else said
        )

    def _line(self, field: str) -> int:
        headers = [m.start() for m in _HEADER.finditer(self.text) if m[1] == self.kind]
        if self.number > len(headers):
            return 0
        start = headers[self.number - 1]
        line = self.text.count("\n", 0, start) + 1
        name = re.match(r"\w+", field)
        if name:
            after = _HEADER.search(self.text, start + 2)
            chunk = self.text[start : after.start() if after else None]
            at = re.search(rf"^\s*(\[\[?\w+\.)?\"?{re.escape(name[0])}\b", chunk, re.MULTILINE)
            if at:
                line += chunk.count("\n", 0, at.start() + len(at[0]))
        return line


def _files(path: Path, problems: list[Problem]) -> Iterator[tuple[str, str]]:
    """(name, text) of a file, or of all TOML files in a folder, in order of their names."""
    try:
        found = sorted(path.rglob("*.toml")) if path.is_dir() else [path]
    except (OSError, ValueError) as e:
        problems.append(_unreadable(str(path), str(e)))
        return
    for file in found:
        name = str(file.relative_to(path)) if file != path else file.name
        try:
            if not file.is_file():
                problems.append(_unreadable(str(file), "there is no such file"))
                continue
            raw = file.read_bytes() if file.stat().st_size <= LARGEST_FILE_BYTES else None
        except (OSError, ValueError) as e:
            problems.append(_unreadable(name, str(e)))
            continue
        if raw is None:
            problems.append(
                Problem(
                    Place(source=name),
                    "file too large",
                    f"The file is over {LARGEST_FILE_BYTES // 1_000_000} MB.",
                    "Split it into several files.",
                )
            )
            continue
        try:
            yield name, raw.decode("utf-8-sig").replace("\r\n", "\n")
        except UnicodeDecodeError as e:
            line = raw.count(b"\n", 0, e.start) + 1
            problems.append(
                Problem(
                    Place(line=line, source=name),
                    "not UTF-8",
                    "The file is not UTF-8 text.",
                    "Save it again as UTF-8.",
                )
            )


def _unreadable(name: str, why: str) -> Problem:
    return Problem(
        Place(source=name),
        "file not read",
        f"The file could not be read: {why}.",
        "Check the name and the permissions.",
    )


def _tables(file: tuple[str, str], problems: list[Problem]) -> Iterator[tuple[_Source, Kind, dict[str, Any]]]:
    """The tables of a file. Where the whole is no TOML, each entry is tried by itself."""
    name, text = file
    whole = _parsed(name, text, 0, None)
    if isinstance(whole, dict):
        yield from _in_document(name, text, whole, dict.fromkeys(_TYPES, 0), problems)
        return
    starts = [m.start() for m in _HEADER.finditer(text)]
    found_any = False
    counts: dict[Kind, int] = dict.fromkeys(_TYPES, 0)
    for start, end in zip([0, *starts], [*starts, len(text)], strict=True):
        chunk = text[start:end]
        part = _parsed(name, chunk, text.count("\n", 0, start), chunk)
        if isinstance(part, dict):
            yield from _in_document(name, text, part, counts, problems)
        else:
            found_any = True
            problems.append(part)
            if header := _HEADER.match(chunk):
                counts[header[1]] += 1  # type: ignore[index]
    if not found_any:  # each part is fine alone and the whole is not: say what the whole says
        problems.append(whole)


def _parsed(name: str, text: str, lines_before: int, chunk: str | None) -> dict[str, Any] | Problem:
    try:
        return tomli.loads(text)
    except RecursionError:
        return Problem(
            Place(source=name), "not TOML", "The file is nested too deeply.", "Write plain entries."
        )
    except ValueError as e:
        said = str(e)
        at = _AT_LINE.search(said)
        line = int(at[1]) + lines_before if at else lines_before + 1
        if chunk is not None and at is None and "end of document" in said:
            line = lines_before + 1
        what = _AT_LINE.sub("", said).replace("(at end of document)", "before the end").strip()
        entry = re.search(r'^id\s*=\s*"([^"\n]*)"', chunk, re.MULTILINE) if chunk else None
        place = Place(
            line=line,
            column=int(at[2]) if at else 0,
            source=name,
            said=f"entry '{entry[1]}'" if entry else "",
        )
        return Problem(
            place,
            "not TOML",
            f"This cannot be read: {what[:160]}.",
            'Text stands in "quotes", long text in three quotes a side; see this line and the one above.',
        )


def _in_document(
    name: str, text: str, document: Mapping[str, Any], counts: dict[Kind, int], problems: list[Problem]
) -> Iterator[tuple[_Source, Kind, dict[str, Any]]]:
    """Entries of a parsed document; whatever else stands in it is reported."""
    for key, value in document.items():
        kind = next((k for k in _TYPES if k == key), None)
        if kind is None:
            near = likely(key, _TYPES)
            problems.append(
                Problem(
                    Place(source=name, said=f"'{key[:60]}'"),
                    "unknown table",
                    f"'{key[:60]}' is not a kind of entry.",
                    f"Write [[{near or 'movement'}]] above each entry.",
                    read=key[:60],
                )
            )
            continue
        tables = value if isinstance(value, list) else [value]
        if not isinstance(value, list):
            problems.append(
                Problem(
                    Place(source=name, said=f"'{key}'"),
                    "single table",
                    f"'{key}' stands in single brackets.",
                    f"Write [[{key}]] above each entry.",
                    severity="look",
                )
            )
        for table in tables:
            counts[kind] += 1
            source = _Source(name, text, kind, counts[kind])
            if isinstance(table, dict):
                yield source, kind, table
            else:
                problems.append(
                    Problem(
                        source.place(),
                        "no table",
                        f"A {kind} has to be a table of fields.",
                        f"Write [[{kind}]] and its fields below.",
                    )
                )


def _entry(
    source: _Source,
    kind: Kind,
    table: dict[str, Any],
    layered: Layered,
    seen: dict[tuple[Kind, str, int], _Source],
    problems: list[Problem],
) -> Entry | None:
    """The entry that a table holds, complete or as a change of an earlier layer's."""
    id_ = table.get("id")
    if not isinstance(id_, str) or not id_:
        problems.append(
            Problem(
                source.place("id"),
                "no id",
                f"The {kind} has no id.",
                'Give it one, as in id = "hang_snatch".',
            )
        )
        return None
    source.id = id_[:60]
    type_ = _TYPES[kind]
    version = table.get("version", 1) if kind == "sequence" else 0
    key = (kind, id_, version if isinstance(version, int) else 0)
    earlier = layered.get(*key) if key not in seen else None
    if key in seen:
        first = seen[key].place()
        where = f"{first.source}, line {first.line}" if first.line else first.source
        said = f"'{id_[:60]}' version {version}" if kind == "sequence" else f"'{id_[:60]}'"
        problems.append(
            Problem(
                source.place("id"),
                "duplicate id",
                f"{said} stands twice; the first is in {where}.",
                "Give one of them another id.",
                read=id_[:60],
            )
        )
        return None
    seen[key] = source

    later = _MAY_COME_LATER[kind] if earlier is None else {}
    faults, values = type_faults(type_, table, optional=frozenset(later), partial=earlier is not None)
    if faults:
        problems += [
            Problem(source.place(f.field), f.kind, f.message, f.repair, severity=f.severity) for f in faults
        ]
    if values is None:
        return None
    entry: Entry
    if earlier is not None:
        entry = msgspec.structs.replace(earlier, **values)
    else:
        blanks = {k: type_faults(type_, {k: v}, partial=True)[1] for k, v in later.items() if k not in values}
        merged = {k: v for blank in blanks.values() if blank for k, v in blank.items()} | values
        if kind == "movement":
            merged.setdefault("reference", id_)
        entry = type_(**merged)
    stop = False
    missing = {f.field for f in faults}
    for flaw in flaws(entry):
        if flaw.severity == "stop":
            stop = True
        elif flaw.field in missing:
            continue  # said already
        problems.append(
            Problem(source.place(flaw.field), flaw.kind, flaw.message, flaw.repair, severity=flaw.severity)
        )
    return None if stop else entry


def _clashes(catalogue: Catalogue, layered: Layered) -> Iterator[Problem]:
    """Names that two entries claim, and names of one kind that hide those of another."""
    for clash in catalogue.clashes:
        for loser in clash.losers:
            others = [e for e in (clash.winner, *clash.losers) if e is not None and e is not loser]
            got = f"; '{clash.winner.id}' has it" if clash.winner else ", so none of them has it"
            yield Problem(
                layered.place(loser, "names"),
                "name claimed twice",
                f"'{clash.words}' is also a name of {' and '.join(repr(o.id) for o in others)}{got}.",
                "Take it out of one of them.",
                read=clash.words,
                severity="look" if clash.winner is not None else "stop",
            )
    for hidden in catalogue.hidden:
        kind, found = kind_of(hidden.found), hidden.found
        yield Problem(
            layered.place(hidden.entry, "names"),
            "name of another kind",
            f"It shares a name with the {kind} '{found.id}' ('{found.name}'), which is found first.",
            "Give this one a name of its own.",
            read=hidden.entry.name,
            severity="look",
        )
