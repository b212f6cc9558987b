"""From the fields of a table to typed values, one by one, so that one slip hides no other."""

import re
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from functools import cache
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

import msgspec

from meetward.catalogue.flaw import Flaw

MOST_FAULTS = 40
"""Faults of one entry that are told one by one."""

_TYPE_WORDS = {
    "str": "text in quotes", "int": "a whole number", "float": "a number", "array": "a list in [ ]",
    "bool": "true or false",
    "object": "fields in { }", "null": "nothing", "datetime": "a date", "date": "a date", "time": "a time",
}  # fmt: skip

_EXPECTED = re.compile(r"Expected `([^`]+)`, got `([^`]+)`")
_MISSING = re.compile(r"missing required field `([^`]+)`")
_UNKNOWN = re.compile(r"contains unknown field `([^`]*)`")
_ENUM = re.compile(r"Invalid enum value (.+?)(?: - at|$)", re.DOTALL)
_PATH = re.compile(r" - at `\$([^`]*)`$")


def likely(word: str, known: Iterable[str]) -> str | None:
    """The known word that was probably meant."""
    near = get_close_matches(word[:80], list(known), n=1, cutoff=0.6)
    return near[0] if near else None


def type_faults(
    type_: type[msgspec.Struct],
    table: Mapping[str, Any],
    *,
    optional: frozenset[str] = frozenset(),
    partial: bool = False,
    suggest: bool = True,
) -> tuple[list[Flaw], dict[str, Any] | None]:
    """The faults of a table, and its values when it can be used.

    optional : required fields that may still be missing; a missing one is a fault to look at.
    partial : the table changes an entry that is there, so nothing is missing.
    suggest : whether to look for the words that were probably meant; it takes most of the time.
    """
    fields = _fields(type_)
    if not partial:
        try:  # nearly always nothing is wrong, and the whole at once takes a fifth of the time
            whole = msgspec.convert(table, type_)
            return [], {name: getattr(whole, name) for name in fields}
        except (msgspec.ValidationError, RecursionError, OverflowError):
            pass
    faults: list[Flaw] = []
    values: dict[str, Any] = {}
    for name, raw in table.items():
        if len(faults) >= MOST_FAULTS:
            faults.append(
                Flaw(name[:60], "many faults", "There are more faults.", "Mend the ones above first.")
            )
            break
        if name not in fields:
            near = likely(name, fields) if suggest else None
            repair = (
                f"Did you mean '{near}'?"
                if near
                else "Take it out; the fields are " + ", ".join(fields) + "."
            )
            faults.append(
                Flaw(name[:60], "unknown field", f"There is no field '{name[:60]}'.", repair, "look")
            )
            continue
        try:
            values[name] = msgspec.convert(raw, fields[name].type)
        except (msgspec.ValidationError, RecursionError, OverflowError) as e:
            faults.append(_explained(name, fields[name].type, str(e), suggest))
    given = {fault.field.partition("[")[0] for fault in faults if fault.severity == "stop"} | set(values)
    for name, field in fields.items():
        if partial or name in given or not field.required or name == "reference":
            continue
        if name in optional:
            faults.append(
                Flaw(
                    name,
                    "missing field",
                    f"The field '{name}' is missing.",
                    "Add it when you can; the entry works without.",
                    "look",
                )
            )
        else:
            faults.append(
                Flaw(
                    name,
                    "missing field",
                    f"The field '{name}' is missing.",
                    f"Add a line that begins {name} = .",
                )
            )
    return faults, None if any(f.severity == "stop" for f in faults) else values


@cache
def _fields(type_: type[msgspec.Struct]) -> dict[str, msgspec.structs.FieldInfo]:
    return {field.name: field for field in msgspec.structs.fields(type_)}


def _explained(field: str, type_: Any, said: str, suggest: bool) -> Flaw:
    """A message of the converter in plain words."""
    path = _PATH.search(said)
    at = f"{field}{path[1] if path else ''}"
    if unknown := _UNKNOWN.search(said):
        allowed = _names_inside(type_)
        near = likely(unknown[1], allowed) if suggest else None
        return Flaw(
            at,
            "unknown field",
            f"There is no field '{unknown[1]}' here.",
            f"Did you mean '{near}'?" if near else f"The fields are {', '.join(allowed)}.",
        )
    if missing := _MISSING.search(said):
        return Flaw(
            at, "missing field", f"The field '{missing[1]}' is missing here.", f"Add {missing[1]} = ."
        )
    if enum := _ENUM.search(said):
        allowed = _choices(type_)
        word = enum[1].strip("'")[:60]
        near = likely(word, allowed) if suggest else None
        return Flaw(
            at,
            "not a choice",
            f"'{word}' is not one of the words allowed here.",
            f"Did you mean '{near}'? " * bool(near) + f"Allowed: {', '.join(allowed)}.",
        )
    if expected := _EXPECTED.search(said):
        want, got = (
            " or ".join(_TYPE_WORDS.get(p.strip(), p.strip()) for p in e.split("|"))
            for e in expected.groups()
        )
        return Flaw(at, "wrong type", f"It has to be {want}; here stands {got}.", f"Write {want}.")
    return Flaw(
        at, "wrong value", f"The value cannot be used: {said[:120]}.", "Compare it with a shipped entry."
    )


def _choices(type_: Any) -> list[str]:
    """All words that a type allows, in the type itself or inside it."""
    if get_origin(type_) is Literal:
        return [str(choice) for choice in get_args(type_)]
    if isinstance(type_, type) and issubclass(type_, msgspec.Struct):
        return [word for field in _fields(type_).values() for word in _choices(field.type)]
    return [word for inner in get_args(type_) for word in _choices(inner)]


def _names_inside(type_: Any) -> list[str]:
    """Field names of the struct that a type holds."""
    if isinstance(type_, type) and issubclass(type_, msgspec.Struct):
        return list(_fields(type_))
    if get_origin(type_) in (tuple, list, Union, UnionType):
        return [name for inner in get_args(type_) for name in _names_inside(inner)]
    return []
