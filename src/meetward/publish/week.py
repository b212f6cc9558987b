"""The sheet for the wall: a lifter's week on one page, or a squad's kilos with a page for each session.

It is read from two metres: kilos on the squad's pages are never smaller than 15 points, mostly 20, so a large
squad or a long session takes more pages, and each says which one it is.
"""

from collections.abc import Iterable, Sequence
from itertools import groupby
from math import ceil
from typing import Any

from meetward.fit.fitted import DaySet, DaySheet

from .columns import Column, cell_of, columns_of, head_of, lift_lines, of_all, waves_together
from .paper import Paper, pages_of, typeset
from .shown import shown_day
from .words import show_day_short, time_to_meet

_SCALES = (1.25, 1.15, 1.05, 1.0, 0.95, 0.9, 0.85, 0.8)
_MOST_COLUMNS = 6

_PAPER_MM: dict[Paper, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
_MARGINS_MM = (22.0, 20.0)
"""Left and right together, top and bottom together."""
_NAME_MM, _COLUMN_MM, _ROW_MM, _TALL_ROW_MM, _WIDE_MM = 44.0, 22.0, 9.5, 13.0, 36.0
_MM_PER_POINT = 25.4 / 72
_NAME_POINTS = (11.0, 15.0, 17.0)
"""Least, wanted and most. [pt]"""
_KILO_POINTS, _LEAST_KILO_POINTS, _MOST_STRETCH = 20.0, 15.0, 1.5
_FIGURE_EM, _NAME_EM = 0.61, 0.55
"""Width of a bold figure, and of a letter of a name on average. [em]"""

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
        _width_mm(waves_together(columns_of(group), group)) > _room_mm(paper)[0]
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


def _session_pages(sheets: Sequence[DaySheet], paper: Paper, *, flipped: bool) -> list[dict[str, Any]]:
    width_mm, height_mm = _room_mm(paper, flipped=flipped)
    all_columns = waves_together(columns_of(sheets), sheets)
    columns = [column for column in all_columns if column.kilos]
    also = [column for column in all_columns if not column.kilos]
    across = max(1, int((width_mm - _NAME_MM) // _COLUMN_MM))
    longest = max(len(_row_name(sheet)) for sheet in sheets)
    parts = []
    for chosen in _even(columns, across):
        column_mm = _column_mm(chosen, width_mm, longest)
        rows = [(sheet, _row_mm(sheet, chosen, column_mm)) for sheet in sheets]
        room_mm = height_mm - _title_mm(sheets[0], width_mm) - _head_mm(chosen, also, width_mm, column_mm)
        parts += [(chosen, part, column_mm, room_mm) for part in _pages_of_rows(rows, room_mm)]
    return [
        _page(chosen, lifters, column_mm, (width_mm, room_mm), also)
        | {"part": f"page {number} of {len(parts)}" if len(parts) > 1 else ""}
        for number, (chosen, lifters, column_mm, room_mm) in enumerate(parts, start=1)
    ]


def _page(
    chosen: Sequence[Column],
    lifters: Sequence[tuple[DaySheet, float]],
    column_mm: float,
    room_mm: tuple[float, float],
    also: Sequence[Column],
) -> dict[str, Any]:
    """A page of the squad's week. Rows and kilos grow to fill the room that a short list leaves."""
    first = lifters[0][0]
    name_mm = min(room_mm[0] - column_mm * len(chosen), 70.0)
    names = [_row_name(sheet) for sheet, _ in lifters]
    stretch = min(_MOST_STRETCH, max(1.0, 0.98 * room_mm[1] / sum(tall for _, tall in lifters)))
    return {
        "title": _title(first),
        "where": _week_words(first),
        "when": show_day_short(first.on) if first.on else "",
        "to_meet": time_to_meet(first.on, first.meet, first.meet_on),
        "club": first.club,
        "phase": first.phase,
        "name_mm": name_mm,
        "name_pt": _name_points(names, name_mm),
        "column_mm": column_mm,
        "kilo_pt": _kilo_points(chosen, [sheet for sheet, _ in lifters], column_mm, stretch),
        "lines": _lines(chosen),
        "groups": [head_of(column, chosen) for column in chosen],
        "rows": [
            {
                "name": name,
                "height_mm": tall * stretch,
                "cells": [cell_of(sheet, column) for column in chosen],
            }
            for name, (sheet, tall) in zip(names, lifters, strict=True)
        ],
        "also": _also_words(also),
        "key": START_KEY if any(_placeholder(s, c) for s, _ in lifters for c in chosen) else "",
    }


def _kilo_points(
    chosen: Sequence[Column], sheets: Sequence[DaySheet], column_mm: float, stretch: float
) -> float:
    """One size for all single figures of a page; a range may be smaller. [pt]"""
    cells = [cell_of(sheet, column) for sheet in sheets for column in chosen]
    longest = max(
        (len(cell["figure"][0]) for cell in cells if cell["kilos"] and not cell["figure"][2]), default=1
    )
    fitting = column_mm * 0.92 / (_FIGURE_EM * longest) / _MM_PER_POINT
    return max(_LEAST_KILO_POINTS, min(_KILO_POINTS * stretch, fitting))


def _row_name(sheet: DaySheet) -> str:
    return sheet.lifter + ("" if sheet.unit == "kg" else f", {sheet.unit}")


def _name_points(names: Sequence[str], name_mm: float) -> float:
    """One size for all names of a page: the longest in one line, as long as it can be read. [pt]"""
    longest = max(map(len, names))
    least, _, most = _NAME_POINTS
    return max(least, min(most, (name_mm - 2) / (longest * _NAME_EM) / _MM_PER_POINT))


def _lines(chosen: Sequence[Column]) -> list[dict[str, Any]]:
    """Heads over the columns of a lift: its name, and what is said of all its sets."""
    return [
        {"name": name, "span": len(list(same)), "more": ", ".join(of_all(name, nth, chosen))}
        for (name, nth), same in groupby(chosen, key=lambda column: (column.line, column.nth))
    ]


def _also_words(also: Sequence[Column]) -> str:
    return "; ".join(
        " ".join(word for word in (column.line, column.scheme, column.load) if word) for column in also
    )


def _column_mm(chosen: Sequence[Column], width_mm: float, longest_name: int) -> float:
    """Columns share what the names leave; names give way before columns get too narrow for their kilos."""
    names_mm = max(_NAME_MM, 2 + longest_name * _NAME_EM * _NAME_POINTS[1] * _MM_PER_POINT)
    each_mm = (width_mm - min(names_mm, 62.0)) / max(len(chosen), 1)
    if each_mm < _COLUMN_MM:
        each_mm = min(_COLUMN_MM, (width_mm - _NAME_MM) / max(len(chosen), 1))
    return min(_WIDE_MM, each_mm)


def _title_mm(sheet: DaySheet, width_mm: float) -> float:
    """Lines that a long title takes beyond its first, beside the days to the meet. [mm]"""
    left_mm = width_mm - 3.4 * len(time_to_meet(sheet.on, sheet.meet, sheet.meet_on)) - 6
    return 6.5 * (ceil(len(_title(sheet)) * 4.3 / max(left_mm, 30.0)) - 1)


def _title(sheet: DaySheet) -> str:
    return f"Session {sheet.session}" + (f": {sheet.title}" if sheet.title else "")


def _head_mm(chosen: Sequence[Column], also: Sequence[Column], width_mm: float, column_mm: float) -> float:
    """What title, heads of the columns and the lines under the table take, on the safe side. [mm]"""
    spans = [
        (name, len(list(same)))
        for (name, _), same in groupby(chosen, key=lambda column: (column.line, column.nth))
    ]
    # A letter is 2.8 mm wide in the names, 1.8 mm in the small print; words break badly in narrow columns.
    names = max((ceil(len(name) * 2.8 / (span * column_mm - 6)) for name, span in spans), default=1)
    small = max(
        (
            sum(ceil(len(words) * 1.8 / column_mm) for words in head_of(one, chosen).values())
            for one in chosen
        ),
        default=1,
    )
    more = max(
        (ceil(len(one["more"]) * 1.8 / (one["span"] * column_mm)) for one in _lines(chosen)), default=0
    )
    under = ceil(len(_also_words(also)) * 2.4 / width_mm) + 1
    return 21.5 + 5.2 * names + 4.2 * (small + more) + 5.5 * under


def _row_mm(sheet: DaySheet, columns: Sequence[Column], column_mm: float) -> float:
    """A row that has to break a range or carry a second line is taller. [mm]"""
    cells = [cell_of(sheet, column) for column in columns]
    letters = column_mm * 0.92 / (_FIGURE_EM * _LEAST_KILO_POINTS * _MM_PER_POINT)
    tall = any(cell["name"] or cell["lead"] or len("".join(cell["figure"])) > letters - 2 for cell in cells)
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


def _even(columns: Sequence[Column], most: int) -> list[list[Column]]:
    """Columns parted into as few pages as hold them, about equally many on each; one empty part for none."""
    parts = max(1, ceil(len(columns) / most))
    size = max(1, ceil(len(columns) / parts))
    return [list(columns[start : start + size]) for start in range(0, max(len(columns), 1), size)]


def _width_mm(columns: Sequence[Column]) -> float:
    return _NAME_MM + _COLUMN_MM * sum(column.kilos for column in columns)


def _session(sheet: DaySheet) -> dict[str, Any]:
    return {
        "title": _title(sheet),
        "when": " · ".join(
            word
            for word in (show_day_short(sheet.on) if sheet.on else "", "key session" if sheet.key else "")
            if word
        ),
        "lines": [
            {
                "name": line.name,
                "detail": line.detail,
                "sets": [
                    {
                        "kilos": one.kilos,
                        "lead": one.lead,
                        "unit": one.unit,
                        "scheme": one.scheme,
                        "load": one.load,
                        "round": one.round,
                    }
                    for one in line.sets
                ],
            }
            for segment in shown_day(sheet).segments
            if segment.kind == "lifts"
            for line in segment.lines
        ],
    }


def _all_sets(sheet: DaySheet) -> Iterable[DaySet]:
    return (one for line in lift_lines(sheet) for one in line.sets)


def _placeholder(sheet: DaySheet, column: Column) -> bool:
    return bool(cell_of(sheet, column)["lead"].startswith("from"))


def _week_words(sheet: DaySheet) -> str:
    role = "" if sheet.week_role == "load" else f", {sheet.week_role}"
    return f"Week {sheet.week} of {sheet.weeks}{role}"


def _dates(sheets: Sequence[DaySheet]) -> str:
    days = sorted(sheet.on for sheet in sheets if sheet.on)
    if not days:
        return ""
    first, last = show_day_short(days[0]), show_day_short(days[-1])
    return f"{first} to {last} {days[-1].year}" if first != last else f"{first} {days[-1].year}"
