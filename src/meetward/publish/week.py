"""The sheet for the wall: a lifter's week on one page, or a squad's kilos with a page for each session.

It is read from two metres: kilos on the squad's pages are never smaller than 15 points, mostly 20, so a large
squad or a long session takes more pages, and each says which one it is.
"""

from collections.abc import Iterable, Sequence
from itertools import groupby
from math import ceil
from typing import Any

import msgspec

from meetward.fit.fitted import DayLine, DaySet, DaySheet

from .paper import Paper, pages_of, typeset
from .words import show_day_short, show_kilos, split_range, split_scheme, time_to_meet

_SCALES = (1.25, 1.15, 1.05, 1.0, 0.95, 0.9, 0.85, 0.8)
_MOST_COLUMNS = 6

_PAPER_MM: dict[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
_MARGINS_MM = (22.0, 20.0)
"""Left and right together, top and bottom together."""
_NAME_MM, _COLUMN_MM, _ROW_MM, _TALL_ROW_MM, _WIDE_MM = 44.0, 22.0, 9.5, 13.0, 34.0

START_KEY = "from: this best is not known yet. Start at that weight, work up and tell your coach."


def lifter_week_pdf(sheets: Sequence[DaySheet], paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """The sessions of one lifter's week side by side, on one page as long as that can be read.

    Raises ValueError without a session.
    """
    if not sheets:
        raise ValueError("There is no session in this week.")
    first = sheets[0]
    across = len(sheets) if len(sheets) <= _MOST_COLUMNS else ceil(len(sheets) / 2)
    week = {
        "lifter": first.lifter,
        "club": first.club,
        "phase": first.phase,
        "where": _week_words(first),
        "dates": _dates(sheets),
        "to_meet": time_to_meet(first.on, first.meet, first.meet_on),
        "columns": across,
        "sessions": [_session(sheet) for sheet in sheets],
        "key": START_KEY if any(one.placeholder for sheet in sheets for one in _all_sets(sheet)) else "",
    }
    title = f"{first.lifter} · {_week_words(first)}"
    pdf = b""
    for scale in _SCALES:
        data = {"kind": "lifter", "flipped": True, "scale": scale, "week": week}
        pdf = typeset("week", data, title=title, paper=paper, tags=tags)
        if pages_of(pdf) == 1:
            break
    return pdf


def squad_week_pdf(sheets: Iterable[DaySheet], paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """A page of kilos for each session of the week, lifters down and lifts across; more pages where needed.

    sheets : of all lifters, for one week, in any order. Lifters stand in the order in which they come first.
    Raises ValueError without a sheet.
    """
    by_session: dict[int, list[DaySheet]] = {}
    for sheet in sheets:
        by_session.setdefault(sheet.session, []).append(sheet)
    if not by_session:
        raise ValueError("There is no session in this week.")
    flipped = any(
        _width_mm(_waves_together(_columns(group), group)) > _room_mm(paper)[0]
        for group in by_session.values()
    )
    pages = [
        page
        for _, group in sorted(by_session.items())
        for page in _session_pages(group, paper, flipped=flipped)
    ]
    first = next(iter(by_session.values()))[0]
    return typeset(
        "week",
        {"kind": "squad", "flipped": flipped, "scale": 1.0, "pages": pages},
        title=" · ".join(word for word in (first.club, _week_words(first)) if word),
        paper=paper,
        tags=tags,
    )


class _Column(msgspec.Struct, frozen=True):
    """A column of the squad's table: set group ``group`` of the ``nth`` line named ``line``."""

    line: str
    nth: int
    group: int
    scheme: str
    load: str
    kilos: bool
    waves: tuple[str, ...] = ()
    """Numbers of the waves that are alike and share the column."""


def _columns(sheets: Sequence[DaySheet]) -> list[_Column]:
    """Set groups of the session: of the lifter with most lines first, then what only others do."""
    columns: dict[tuple[str, int, int], _Column] = {}
    for sheet in sorted(sheets, key=lambda sheet: -len(_lift_lines(sheet))):
        for (name, nth), line in _named(sheet).items():
            for group, one in enumerate(line.sets):
                kilos = bool(show_kilos(one, sheet.unit))
                known = columns.get((name, nth, group))
                if known is None:
                    columns[name, nth, group] = _Column(name, nth, group, one.scheme, one.load_said, kilos)
                elif kilos and not known.kilos:
                    columns[name, nth, group] = msgspec.structs.replace(known, kilos=True)
    return sorted(columns.values(), key=lambda column: list(columns).index((column.line, column.nth, 0)))


def _waves_together(columns: Sequence[_Column], sheets: Sequence[DaySheet]) -> list[_Column]:
    """Waves that repeat the same sets at the same kilos for everybody take one column."""
    kept: dict[tuple[object, ...], _Column] = {}
    for column in columns:
        core, more = split_scheme(column.scheme)
        wave, _, rest = more.partition(", ")
        key: tuple[object, ...] = (column.line, column.nth, column.group)
        waves: tuple[str, ...] = ()
        if wave.startswith("wave "):
            cells = [_cell(sheet, column) for sheet in sheets]
            kilos = tuple((cell["lead"], cell["figure"]) for cell in cells)
            key, waves = (column.line, column.nth, core, rest, column.load, kilos), (wave[5:],)
        known = kept.get(key, column)
        kept[key] = msgspec.structs.replace(known, waves=known.waves + waves)
    return list(kept.values())


def _session_pages(sheets: Sequence[DaySheet], paper: Paper, *, flipped: bool) -> list[dict[str, Any]]:
    width_mm, height_mm = _room_mm(paper, flipped=flipped)
    all_columns = _waves_together(_columns(sheets), sheets)
    columns = [column for column in all_columns if column.kilos]
    also = [column for column in all_columns if not column.kilos]
    across = max(1, int((width_mm - _NAME_MM) // _COLUMN_MM))
    rows = [(sheet, _row_mm(sheet, columns)) for sheet in sheets]
    parts = [
        (chosen, lifters)
        for chosen in _even(columns, across)
        for lifters in _pages_of_rows(rows, height_mm - _head_mm(chosen, also, width_mm))
    ]
    first = sheets[0]
    return [
        {
            "title": f"Session {first.session}" + (f": {first.title}" if first.title else ""),
            "where": _week_words(first),
            "when": show_day_short(first.on) if first.on else "",
            "part": f"page {number} of {len(parts)}" if len(parts) > 1 else "",
            "to_meet": time_to_meet(first.on, first.meet, first.meet_on),
            "club": first.club,
            "phase": first.phase,
            "name_mm": _NAME_MM,
            "column_mm": _column_mm(chosen, width_mm),
            "lines": [
                {"name": name, "span": len(list(same))}
                for (name, _), same in groupby(chosen, key=lambda column: (column.line, column.nth))
            ],
            "groups": [_head(column) for column in chosen],
            "rows": [
                {
                    "name": sheet.lifter + ("" if sheet.unit == "kg" else f", {sheet.unit}"),
                    "height_mm": tall,
                    "cells": [_cell(sheet, column) for column in chosen],
                }
                for sheet, tall in lifters
            ],
            "also": _also_words(also),
            "key": START_KEY if any(_placeholder(s, c) for s, _ in lifters for c in chosen) else "",
        }
        for number, (chosen, lifters) in enumerate(parts, start=1)
    ]


def _also_words(also: Sequence[_Column]) -> str:
    return "; ".join(
        " ".join(word for word in (column.line, column.scheme, column.load) if word) for column in also
    )


def _column_mm(chosen: Sequence[_Column], width_mm: float) -> float:
    return min(_WIDE_MM, (width_mm - _NAME_MM) / max(len(chosen), 1))


def _head_mm(chosen: Sequence[_Column], also: Sequence[_Column], width_mm: float) -> float:
    """What title, heads of the columns and the lines under the table take, on the safe side. [mm]"""
    column_mm = _column_mm(chosen, width_mm)
    spans = [
        (name, len(list(same)))
        for (name, _), same in groupby(chosen, key=lambda column: (column.line, column.nth))
    ]
    # A letter is 2.8 mm wide in the names, 1.8 mm in the small print; words break badly in narrow columns.
    names = max((ceil(len(name) * 2.8 / (span * column_mm - 6)) for name, span in spans), default=1)
    small = max(
        (sum(ceil(len(words) * 1.8 / column_mm) for words in _head(one).values()) for one in chosen),
        default=1,
    )
    under = ceil(len(_also_words(also)) * 2.4 / width_mm) + 1
    return 20 + 5.2 * names + 4.2 * small + 5.5 * under


def _head(column: _Column) -> dict[str, str]:
    scheme, more = split_scheme(column.scheme)
    if len(column.waves) > 1:
        rest = more.partition(", ")[2]
        more = ", ".join(word for word in (f"waves {', '.join(column.waves)}", rest) if word)
    return {"scheme": scheme, "load": column.load, "more": more}


def _cell(sheet: DaySheet, column: _Column) -> dict[str, Any]:
    """What a lifter does in a column; their own sets and reps are named where they are not the column's."""
    one = _set_at(sheet, column)
    if one is None:
        return {"name": "", "lead": "", "figure": ("–", "", ""), "kilos": False}
    kilos = show_kilos(one, sheet.unit)
    lead = "from" if kilos and one.placeholder else ""
    return {
        "name": split_scheme(one.scheme)[0] if one.scheme != column.scheme else "",
        "lead": lead,
        "figure": split_range(kilos or one.load_said or one.instruction or "–"),
        "kilos": bool(kilos),
    }


def _row_mm(sheet: DaySheet, columns: Sequence[_Column]) -> float:
    """A row that has to break a range or carry a second line is taller. [mm]"""
    cells = [_cell(sheet, column) for column in columns]
    tall = any(cell["name"] or cell["lead"] or len("".join(cell["figure"])) > 5 for cell in cells)
    return _TALL_ROW_MM if tall else _ROW_MM


def _pages_of_rows(
    rows: Sequence[tuple[DaySheet, float]], room_mm: float
) -> list[list[tuple[DaySheet, float]]]:
    """Rows parted into as few pages as hold them, about equally full."""
    pages = ceil(sum(tall for _, tall in rows) / room_mm)
    while len(parted := _parted(rows, sum(tall for _, tall in rows) / pages, room_mm)) > pages:
        pages += 1
    return parted


def _parted(
    rows: Sequence[tuple[DaySheet, float]], wanted_mm: float, room_mm: float
) -> list[list[tuple[DaySheet, float]]]:
    """A page is full when it holds ``wanted_mm``; it never holds more than ``room_mm``."""
    parted: list[list[tuple[DaySheet, float]]] = [[]]
    full_mm = 0.0
    for row in rows:
        if parted[-1] and (full_mm >= wanted_mm - 0.01 or full_mm + row[1] > room_mm):
            parted.append([])
            full_mm = 0.0
        parted[-1].append(row)
        full_mm += row[1]
    return parted


def _room_mm(paper: Paper, *, flipped: bool = False) -> tuple[float, float]:
    """Width and height inside the margins. [mm]"""
    width_mm, height_mm = _PAPER_MM[paper][::-1] if flipped else _PAPER_MM[paper]
    return width_mm - _MARGINS_MM[0], height_mm - _MARGINS_MM[1]


def _even(columns: Sequence[_Column], most: int) -> list[list[_Column]]:
    """Columns parted into as few pages as hold them, about equally many on each; one empty part for none."""
    parts = max(1, ceil(len(columns) / most))
    size = max(1, ceil(len(columns) / parts))
    return [list(columns[start : start + size]) for start in range(0, max(len(columns), 1), size)]


def _width_mm(columns: Sequence[_Column]) -> float:
    return _NAME_MM + _COLUMN_MM * sum(column.kilos for column in columns)


def _session(sheet: DaySheet) -> dict[str, Any]:
    return {
        "title": f"Session {sheet.session}" + (f": {sheet.title}" if sheet.title else ""),
        "when": " · ".join(
            word
            for word in (show_day_short(sheet.on) if sheet.on else "", "key session" if sheet.key else "")
            if word
        ),
        "lines": [
            {
                "name": line.name,
                "detail": "; ".join(part.detail for part in line.parts if part.detail),
                "sets": [
                    {
                        "kilos": show_kilos(one, sheet.unit),
                        "lead": "from" if one.placeholder and one.low_dag is not None else "",
                        "unit": sheet.unit,
                        "scheme": split_scheme(one.scheme)[0],
                        "load": one.load_said,
                    }
                    for one in line.sets
                ],
            }
            for line in _lift_lines(sheet)
        ],
    }


def _lift_lines(sheet: DaySheet) -> list[DayLine]:
    return [line for segment in sheet.segments if segment.kind == "lifts" for line in segment.lines]


def _all_sets(sheet: DaySheet) -> Iterable[DaySet]:
    return (one for line in _lift_lines(sheet) for one in line.sets)


def _named(sheet: DaySheet) -> dict[tuple[str, int], DayLine]:
    """Lines of the lifts by name, and by number where a name comes again."""
    named: dict[tuple[str, int], DayLine] = {}
    for line in _lift_lines(sheet):
        nth = 0
        while (line.name, nth) in named:
            nth += 1
        named[line.name, nth] = line
    return named


def _set_at(sheet: DaySheet, column: _Column) -> DaySet | None:
    line = _named(sheet).get((column.line, column.nth))
    return line.sets[column.group] if line and column.group < len(line.sets) else None


def _placeholder(sheet: DaySheet, column: _Column) -> bool:
    return bool(_cell(sheet, column)["lead"].startswith("from"))


def _week_words(sheet: DaySheet) -> str:
    role = "" if sheet.week_role == "load" else f", {sheet.week_role}"
    return f"Week {sheet.week} of {sheet.weeks}{role}"


def _dates(sheets: Sequence[DaySheet]) -> str:
    days = sorted(sheet.on for sheet in sheets if sheet.on)
    if not days:
        return ""
    first, last = show_day_short(days[0]), show_day_short(days[-1])
    return f"{first} to {last} {days[-1].year}" if first != last else f"{first} {days[-1].year}"
