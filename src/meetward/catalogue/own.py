"""A coach's own catalogue file as text: one entry written or taken out, everything else left as it stands."""

import re
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Any, Literal, NamedTuple, get_args, get_origin

import msgspec
import tomli
import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Table as WrittenTable

from meetward.catalogue.drill import Drill
from meetward.catalogue.files import File
from meetward.catalogue.movement import Movement
from meetward.catalogue.words import normal

OwnKind = Literal["movement", "drill"]
"""What a form can write; warm-up sequences and shared texts are written in the text itself."""

TYPES: Mapping[OwnKind, type[Movement] | type[Drill]] = {"movement": Movement, "drill": Drill}

_HEADER = re.compile(r"\[\[\s*(\w+)\s*\]\]")
_HEADER_LIKE = re.compile(r"^\s*\[", re.MULTILINE)
_ID = re.compile(r"""^\s*id\s*=\s*["']([^"'\n]*)["']""", re.MULTILINE)
_VERSION = re.compile(r"^\s*version\s*=\s*(\d{1,9})\b", re.MULTILINE)
_WIDE = 90  # a list that is wider stands one item a line


class CannotWrite(Exception):
    """An entry of the text cannot be changed without harm; the message says why and what to do."""


class OwnEntry(NamedTuple):
    """An entry of an own file: what it is, and the line where it begins."""

    kind: str
    id: str
    line: int


class _Chunk(NamedTuple):
    """An entry of the text from its header to its last field; comments behind it belong to the next one.

    version : of a sequence, 1 where it gives none; 0 for the other kinds.
    """

    kind: str
    id: str
    version: int
    start: int
    end: int


def own_entries(text: str) -> tuple[OwnEntry, ...]:
    """The entries of a text in the order in which they stand, also those that cannot be read."""
    file = File("", text)
    return tuple(OwnEntry(chunk.kind, chunk.id, file.line(chunk.start)) for chunk in _chunks(text))


def own_fields(text: str, kind: str, id_: str) -> dict[str, Any] | None:
    """What the text itself gives of an entry, untyped; None when it does not stand there.

    Raises CannotWrite when it stands there and cannot be read.
    """
    chunk = _find(text, kind, id_)
    return None if chunk is None else _parsed(text, chunk)


def own_tables(text: str) -> dict[tuple[str, str], dict[str, Any] | None]:
    """What the text gives of each entry, untyped, by kind and id; None for one that cannot be read. Of
    several with one id the first, which is the one that counts."""
    found: dict[tuple[str, str], dict[str, Any] | None] = {}
    for chunk in _chunks(text):
        if (chunk.kind, chunk.id) not in found:
            found[chunk.kind, chunk.id] = _table(text, chunk)
    return found


def changes(kind: OwnKind, fields: Mapping[str, Any], base: Movement | Drill | None) -> dict[str, Any]:
    """The fields that have to be written: those that differ from ``base``, else from what a field is by
    itself. None stands for a field that need not be written."""
    told = {field.name: field for field in msgspec.structs.fields(TYPES[kind])}
    return {
        name: None if value is None or _same(value, told[name], base) else value
        for name, value in fields.items()
    }


def with_entry(text: str, kind: OwnKind, id_: str, fields: Mapping[str, Any]) -> str:
    """The text with these fields of an entry; a value of None takes a field out. Other fields, other entries
    and all comments stay. An entry that is not there yet is added at the end.

    Raises CannotWrite where the entry cannot be read.
    """
    chunk = _find(text, kind, id_)
    if chunk is None:
        table = tomlkit.table()
        table.add("id", id_)
        for name, value in fields.items():
            if value is not None:
                table.add(name, _item(value))
        before = text.rstrip("\n")
        return f"{before}\n\n" * bool(before) + _written(kind, table)
    expected = _parsed(text, chunk)
    try:
        document = tomlkit.parse(text[chunk.start : chunk.end])
        table = document[kind][0]
        for name, value in fields.items():
            if value is None:
                table.pop(name, None)
                expected.pop(name, None)
            elif expected.get(name) != value:
                table[name] = _item(value)
                expected[name] = value
        written = document.as_string()
    except (TOMLKitError, KeyError, IndexError, TypeError, ValueError) as error:
        raise _unreadable(text, chunk) from error
    changed = f"{text[: chunk.start]}{written.rstrip()}\n{text[chunk.end :]}"
    if own_fields(changed, kind, id_) != expected:
        raise _unreadable(text, chunk)
    return changed


def without_entry(text: str, kind: str, id_: str) -> str:
    """The text without an entry; unchanged when it is not there. Comments above it stay."""
    chunk = _find(text, kind, id_)
    if chunk is None:
        return text
    rest = [piece for piece in (text[: chunk.start].rstrip(), text[chunk.end :].strip("\n")) if piece]
    return "\n\n".join(rest) + "\n" * bool(rest)


def merged(text: str, other: str) -> str:
    """The text with the entries of another one in the place of those with the same id (and version), new ones
    at the end with the comments above them. Into an empty text the other goes as it is."""
    other = other.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        return other
    brought: dict[tuple[str, str, int], str] = {}
    added: dict[tuple[str, str, int], str] = {}
    ours = {chunk[:3] for chunk in _chunks(text) if chunk.id}
    behind = 0
    for chunk in _chunks(other):
        key, written = chunk[:3], other[chunk.start : chunk.end].rstrip("\n") + "\n"
        if key in ours:
            brought[key] = written
        else:
            above = other[behind : chunk.start].strip("\n")
            added[key] = f"{above}\n{written}" if above else written
        behind = chunk.end
    pieces, at = [], 0
    for chunk in _chunks(text):
        if chunk.id and (instead := brought.pop(chunk[:3], None)):
            pieces += [text[at : chunk.start], instead]
            at = chunk.end
    pieces.append(text[at:])
    whole = "".join(pieces)
    return "\n".join([whole.rstrip("\n") + "\n", *added.values()]) if added else whole


def new_id(name: str, taken: Mapping[str, object]) -> str:
    """An id for a new entry from its name; with a number behind where that one is taken."""
    words = re.findall(r"[a-z0-9]+", normal(name))
    id_ = "_".join(words)[:60] or "own"
    number, free = 2, id_
    while free in taken:
        number, free = number + 1, f"{id_}_{number}"
    return free


def _chunks(text: str) -> Iterator[_Chunk]:
    starts = File("", text).starts
    for start, end in pairwise([*starts, len(text)]):
        lines = text[start:end].split("\n")
        while len(lines) > 1 and (not lines[-1].strip() or lines[-1].lstrip().startswith("#")):
            lines.pop()
        last = min(start + len("\n".join(lines)) + 1, end)
        header, id_ = _HEADER.match(text, start), _ID.search(text, start, last)
        kind = header[1] if header else ""
        version = _VERSION.search(text, start, last) if kind == "sequence" else None
        number = int(version[1]) if version else int(kind == "sequence")
        yield _Chunk(kind, id_[1] if id_ else "", number, start, last)


def _find(text: str, kind: str, id_: str) -> _Chunk | None:
    return next((chunk for chunk in _chunks(text) if (chunk.kind, chunk.id) == (kind, id_)), None)


def _parsed(text: str, chunk: _Chunk) -> dict[str, Any]:
    table = _table(text, chunk)
    if table is None:
        raise _unreadable(text, chunk)
    return table


def _table(text: str, chunk: _Chunk) -> dict[str, Any] | None:
    try:
        table = tomli.loads(text[chunk.start : chunk.end])[chunk.kind][0]
    except (ValueError, KeyError, IndexError, RecursionError):
        return None
    return table if isinstance(table, dict) and table.get("id") == chunk.id else None


def _unreadable(text: str, chunk: _Chunk) -> CannotWrite:
    line = File("", text).line(chunk.start)
    return CannotWrite(
        f"The {chunk.kind} '{chunk.id}' in line {line} of your own catalogue is written in a way that the "
        "form cannot change. Change it in the text."
    )


def _same(value: Any, field: msgspec.structs.FieldInfo, base: Movement | Drill | None) -> bool:
    """Whether a value says what the entry, or the field by itself, says already."""
    try:
        typed = msgspec.convert(value, field.type)
    except msgspec.ValidationError:
        return False
    if base is not None:
        had = getattr(base, field.name)
        if _of_choices(field.type):  # a form knows no order of boxes
            return sorted(typed) == sorted(had)
        return bool(typed == had)
    if field.default is not msgspec.NODEFAULT:
        return bool(typed == field.default)
    return not value  # of a new entry nothing is written where nothing stands yet


def _of_choices(type_: Any) -> bool:
    """Whether a field lists words of a fixed set, as positions do."""
    inside = get_args(type_)
    return bool(inside) and get_origin(inside[0]) is Literal


def _item(value: Any) -> Any:
    """A value as a coach would write it: long lists and lists of tables one item a line."""
    if isinstance(value, str):
        # A line in it that looks like the head of an entry must not be taken for one.
        return tomlkit.string(value, multiline="\n" in value and not _HEADER_LIKE.search(value))
    if isinstance(value, dict):
        inline = tomlkit.inline_table()
        for name, inner in value.items():
            inline.append(name, _item(inner))
        return inline
    if isinstance(value, list | tuple):
        array = tomlkit.array()
        for inner in value:
            array.append(_item(inner))
        wide = len(array.as_string()) > _WIDE or any(isinstance(inner, dict) for inner in value)
        return array.multiline(bool(value) and wide)
    return tomlkit.item(value)


def _written(kind: str, table: WrittenTable) -> str:
    tables = tomlkit.aot()
    tables.append(table)
    document = tomlkit.document()
    document.append(kind, tables)
    return document.as_string().rstrip() + "\n"
