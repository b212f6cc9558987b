"""What was understood of a text, for programs (the JSON of ``meetward read``) and for people."""

from collections.abc import Iterator
from typing import Any

from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Load,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import Part, Reps, SetGroup, Span
from meetward.problem import with_caret

from .entry import Record
from .known import Catalogue
from .reading import Reading
from .settle import Settled
from .words_out import said


def as_data(reading: Reading, catalogue: Catalogue) -> dict[str, Any]:
    """The JSON of ``meetward read``: one entry for every source line that carries work.

    Percentages are 0 to 100, weights kilos or pounds, times seconds. A number that was written as a range
    is ``[low,
    high]``; what was not said is null. Keys beyond the common ones stand only where they say something:
    ``ascending``, ``on_the_way``,
    ``at_least``, ``amrap``, ``cluster``, ``distance_m``, ``within_s``, ``implements``, ``unit_stated``,
    ``wave``, ``drop``.
    """
    return {"lines": [_line(record, catalogue) for record in reading.lines]}


def _line(record: Record, catalogue: Catalogue) -> dict[str, Any]:
    parts = record.parts
    return {
        "line": record.line,
        "text": record.text,
        "status": record.status,
        "movements": [_movement(part, catalogue) for part in parts if part.written or part.movement],
        "sets": _sets(record.reading, catalogue),
        "readings": [_sets(each, catalogue) for each in record.readings],
        "leftover": record.leftover,
    }


def _movement(part: Part, catalogue: Catalogue) -> dict[str, Any]:
    data: dict[str, Any] = {
        "id": part.movement or None,
        "name": _name(part.movement, catalogue) or None,
        "written": part.written,
    }
    if part.variant:
        data["variant"] = list(part.variant)
    return data


def _name(movement: str, catalogue: Catalogue) -> str:
    for table in ("movements", "drills", "sequences"):
        entry = getattr(catalogue, table, {}).get(movement)
        if entry is not None:
            return str(entry.name)
    return ""


def _sets(reading: Settled | None, catalogue: Catalogue) -> list[dict[str, Any]]:
    if reading is None:
        return []
    pauses = [pause.seconds for part in reading.parts for pause in part.pauses if pause.seconds is not None]
    return [_group(group, reading, pauses[0] if pauses else None, catalogue) for group in reading.groups]


def _group(group: SetGroup, reading: Settled, pause_s: int | None, catalogue: Catalogue) -> dict[str, Any]:
    data: dict[str, Any] = {
        "count": _span(group.count),
        "reps": [_reps(reps) for reps in group.reps],
        "load": _load(group.load, reading, catalogue),
        "every_s": group.every_s,
        "rest_s": _span(group.rest_s),
        "duration_s": _span(group.hold_s),
        "tempo": group.tempo or None,
        "pause_s": pause_s,
        "per_side": group.per_side,
        "missed": group.missed,
    }
    more: dict[str, Any] = {
        "ascending": group.climbing,
        "on_the_way": group.on_the_way,
        "at_least": any(r is not None and r.or_more and r.low is not None for r in group.reps),
        "amrap": any(r is not None and r.or_more and r.low is None for r in group.reps),
        "cluster": list(group.cluster),
        "cluster_rest_s": group.cluster_rest_s,
        "distance_m": _span(group.distance_m),
        "within_s": group.within_s,
        "wave": group.wave,
        "drop": group.drop,
    }
    return data | {key: value for key, value in more.items() if value}


def _span(span: Span | None) -> int | list[int] | None:
    if span is None:
        return None
    return span.low if span.low == span.high else [span.low, span.high]


def _reps(reps: Reps | None) -> int | list[int] | None:
    if reps is None or reps.low is None or reps.high is None:
        return None
    return reps.low if reps.low == reps.high else [reps.low, reps.high]


def _number(value: int | None, per: int) -> int | float | None:
    if value is None:
        return None
    whole, rest = divmod(value, per)
    return value / per if rest else whole


def _load(load: Load, reading: Settled, catalogue: Catalogue) -> dict[str, Any]:
    data: dict[str, Any] = {"kind": "open", "lo": None, "hi": None, "of": None}
    match load:
        case Percent():
            data |= {
                "kind": "percent",
                "lo": _number(load.low_permille, 10),
                "hi": _number(load.high_permille, 10),
                "of": _of(load.of, reading, catalogue),
            }
        case Kilos():
            data |= {"kind": "kg", "lo": _number(load.low_dag, 100), "hi": _number(load.high_dag, 100)}
        case Pounds():
            data |= {"kind": "lb", "lo": _number(load.low_clb, 100), "hi": _number(load.high_clb, 100)}
        case ByCategory():
            men, women = _load(load.men, reading, catalogue), _load(load.women, reading, catalogue)
            data |= {
                "kind": men["kind"],
                "lo": women["hi"],
                "hi": men["hi"],
                "men": men["hi"],
                "women": women["hi"],
            }
        case Effort():
            data |= {
                "kind": load.scale,
                "lo": _number(load.low_tenths, 10),
                "hi": _number(load.high_tenths, 10),
            }
        case Heavy():
            data |= {"kind": "max", "rm": load.reps, "effort": load.limit}
        case BarOnly():
            data |= (
                {"kind": "open", "word": "stick", "stick": True}
                if load.stick
                else {"kind": "bar", "stick": False}
            )
        case Bodyweight():
            data |= {"kind": "bodyweight", "plus_kg": _number(load.plus_dag, 100)}
        case Open():
            if load.word:
                data["word"] = load.word
    if isinstance(load, Kilos | Pounds):
        if not load.unit_stated:
            data["unit_stated"] = False
        if load.implements != 1:
            data["implements"] = load.implements
    return data


def _of(of: Of, reading: Settled, catalogue: Catalogue) -> str | None:
    if of.kind == "top":
        return "today's top set"
    if of.kind == "default":
        if not of.written or not reading.parts:
            return None
        movement = getattr(catalogue, "movements", {}).get(reading.parts[0].movement)
        reference = _name(getattr(movement, "reference", ""), catalogue)
        return reference.lower() or of.written
    name = _name(of.movement, catalogue).lower() or of.written
    return name if of.kind == "lift" else f"{name} {of.reps}RM".strip()


def counted(reading: Reading) -> str:
    """ "12 read, 1 ambiguous, 3 kept as notes"."""
    counts = {"read": 0, "ambiguous": 0, "note": 0}
    for record in reading.lines:
        counts[record.status] += 1
    kept = f"{counts['note']} kept as note{'' if counts['note'] == 1 else 's'}"
    return f"{counts['read']} read, {counts['ambiguous']} ambiguous, {kept}"


def in_words(reading: Reading, text: str, catalogue: Catalogue) -> Iterator[str]:
    """What was understood, line by line, for a terminal; problems follow with the place marked."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    width = len(str(len(lines)))
    for record in reading.lines:
        names = " + ".join(
            _part_said(part, catalogue) for part in record.parts if part.written or part.movement
        )
        if record.status == "note":
            yield f"{record.line:>{width}}  note       {_one_line(record.text)}"
            continue
        sets = said(record.reading) if record.reading is not None else ""
        yield f"{record.line:>{width}}  {record.status:<9}  {names + ': ' if names else ''}{sets}"
        for other in record.readings[1:]:
            yield f"{'':>{width}}  or         {said(other)}"
        if record.leftover:
            yield f"{'':>{width}}  not understood: {_one_line(record.leftover)}"
    yield ""
    for problem in reading.problems:
        line = lines[problem.place.line - 1] if 0 < problem.place.line <= len(lines) else ""
        yield _visible(with_caret(problem, line))
        yield ""
    yield counted(reading)


def _part_said(part: Part, catalogue: Catalogue) -> str:
    name = _name(part.movement, catalogue) or f"{part.written} (not in the catalogue)"
    extra = [
        *part.variant,
        *(
            f"{p.seconds} s pause {p.at}".strip() if p.seconds else f"pause {p.at}".strip()
            for p in part.pauses
        ),
    ]
    return f"{name} ({', '.join(extra)})" if extra else name


def _one_line(text: str) -> str:
    flat = " / ".join(line.strip() for line in text.split("\n"))
    return _visible(flat if len(flat) <= 200 else flat[:199] + "…")


def _visible(text: str) -> str:
    """Without signs that would upset a terminal."""
    return "".join(c if c.isprintable() or c == "\n" else "·" for c in text)
