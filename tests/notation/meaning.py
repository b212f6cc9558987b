"""Compares what was read with a meaning written by hand."""

from typing import Any

from meetward.notation import Record
from meetward.notation.shown import as_data

SET_KEYS = (
    "every_s",
    "rest_s",
    "duration_s",
    "per_side",
    "missed",
    "ascending",
    "cluster",
    "at_least",
    "amrap",
)


def read_lines(reader: Any, text: str, **declared: Any) -> list[dict[str, Any]]:
    """The entries of a text as ``meetward read --json`` shows them."""
    from meetward.notation import Conventions

    return as_data(reader.read(text, Conventions(**declared)), reader.catalogue)["lines"]


def flat(sets: list[dict[str, Any]], parts: int) -> list[tuple[Any, ...]]:
    """Sets one by one, so that 3 x 5 and 5, 5, 5 compare equal; a meaning by hand may leave out what is
    usual."""
    out: list[tuple[Any, ...]] = []
    for each in sets:
        reps = each.get("reps")
        if not isinstance(reps, list) or each.get("reps_kind") == "range":
            reps = [reps] * max(1, parts)
        reps_key = tuple(tuple(r) if isinstance(r, list) else r for r in reps)
        key = (
            reps_key,
            load(each.get("load", {})),
            *(_hashable(each.get(k) or None) for k in SET_KEYS),
        )
        count = each.get("count")
        if isinstance(count, int):
            out += [(1, *key)] * count
        else:
            out.append((_hashable(count), *key))
    return out


def load(given: dict[str, Any]) -> tuple[Any, ...]:
    """A load as one comparable value."""
    kind = given.get("kind", "none")
    if kind in ("none", "open"):
        return ("open", given.get("word"))
    if kind == "max":
        return ("max", given.get("rm"))
    if kind in ("bar", "bodyweight"):
        return (kind, given.get("plus_kg") or None)
    return (
        kind,
        given.get("lo"),
        given.get("hi"),
        given.get("men"),
        given.get("women"),
        given.get("implements", 1),
    )


def _hashable(value: Any) -> Any:
    return tuple(value) if isinstance(value, list) else value


def records(reader: Any, text: str) -> tuple[Record, ...]:
    """The records of a text."""
    return reader.read(text).lines
