"""Compares what was read of a line with the meaning that its author gave it.

Sets are compared one by one: reps, load, misses, holds, sides and intervals must agree. The same work written
otherwise is the same: neighbours that are alike are one group, a timed item without a count is one of it, a
cluster is its sum, and a heavy set has no count.
"""

from itertools import chain, islice, product
from typing import Any

Row = tuple[Any, tuple[Any, ...]]


def verdict(record: dict[str, Any], lines: list[dict[str, Any]]) -> str:
    """``right``, ``ambiguous`` with the right reading among them, ``part`` (a true part, the rest reported),
    ``note`` for words, ``leftover`` where words are reported beside sets that differ, ``misread``.

    A line without a meaning is ``note`` or ``read anyway``.
    """
    work = [line for line in lines if line["sets"] or line["readings"]]
    if not work:
        return "note"
    reported = any(line["leftover"] for line in lines if line not in work or line["leftover"])
    meanings = [record["meaning"]["sets"]] if record.get("meaning") else []
    meanings += record.get("alternatives", [])
    ambiguous = any(line["status"] == "ambiguous" for line in work)
    choices = [[line["sets"], *line["readings"]] for line in work]
    ways = [[*chain(*way)] for way in islice(product(*choices), 256)] if ambiguous else [_first(work)]
    for sets in meanings:
        wanted = _rows(sets)
        cluster = any(each.get("cluster") for each in sets)
        if any(_same(wanted, _rows(way, cluster=cluster)) for way in ways):
            return "ambiguous" if ambiguous else "right"
    if not record.get("meaning"):
        return "read anyway"
    if reported and any(_part(_rows(sets), _rows(way)) for sets in meanings for way in ways):
        return "part"
    return "leftover" if reported else "misread"


def _first(work: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [each for line in work for each in line["sets"]]


def _span(value: Any) -> Any:
    if isinstance(value, list):
        return value[0] if len(value) == 1 or value[0] == value[-1] else tuple(value)
    return value


def _load(load: dict[str, Any] | None) -> tuple[Any, ...]:
    kind = (load or {}).get("kind") or "open"
    if kind in ("none", "open"):
        return ("open", None, None)
    if kind in ("bodyweight", "bar", "max"):
        return (kind, None, None)
    return (
        kind,
        *(None if v is None else round(float(v), 2) for v in ((load or {}).get(k) for k in ("lo", "hi"))),
    )


def _rows(sets: list[dict[str, Any]], *, cluster: bool = False) -> list[Row]:
    rows: list[Row] = []
    for each in sets:
        reps = each["reps"] if isinstance(each["reps"], list) else [each["reps"]]
        if each.get("reps_kind") not in (None, "per_movement"):
            reps = [reps] if len(reps) > 1 else reps
        said: tuple[Any, ...] = tuple(_span(r) for r in reps) or (None,)
        if all(r is None for r in said):
            said = (None,)
        if cluster or each.get("cluster"):
            said = ("cluster", sum(r for r in said if isinstance(r, int)))
        load = _load(each.get("load"))
        hold = None if load[0] == "max" or each.get("cap_s") else _span(each.get("duration_s")) or None
        unit = (
            said,
            load,
            bool(each.get("missed")),
            hold,
            bool(each.get("per_side")),
            _span(each.get("every_s")) or None,
        )
        count = _span(each["count"])
        if load[0] == "max" and count in (None, 1):
            count = None
        elif count is None and (hold or unit[2]):
            count = 1
        if rows and rows[-1][1] == unit and isinstance(count, int) and isinstance(rows[-1][0], int):
            rows[-1] = (rows[-1][0] + count, unit)
        else:
            rows.append((count, unit))
    return rows


def _alike(wanted: tuple[Any, ...], got: tuple[Any, ...]) -> bool:
    climb = wanted[1][0] == got[1][0] and wanted[1][2] == got[1][2] and wanted[1][1] is None
    return wanted[0] == got[0] and (wanted[1] == got[1] or climb) and wanted[2:] == got[2:]


def _same(wanted: list[Row], got: list[Row]) -> bool:
    return len(wanted) == len(got) and all(
        _alike(w, g) and (n == m or w[1][0] == "max" or (n is None and m == 1 and w[0] == (None,)))
        for (n, w), (m, g) in zip(wanted, got, strict=True)
    )


def _part(wanted: list[Row], got: list[Row]) -> bool:
    left = [unit for count, unit in wanted for _ in range(count if isinstance(count, int) else 1)]
    for count, unit in got:
        for _ in range(count if isinstance(count, int) else 1):
            match = next((each for each in left if _alike(each, unit)), None)
            if match is None:
                return False
            left.remove(match)
    return bool(got)
