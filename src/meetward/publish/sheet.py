"""Day sheets on paper: one session a page, sized to fill it, and many of them in one document."""

from collections.abc import Iterable, Sequence
from math import ceil

import msgspec

from meetward.fit.fitted import DaySheet

from .paper import Paper, pages_of, typeset
from .shown import ShownDay, ShownLine, shown_day

SCALES = (1.2, 1.15, 1.1, 1.05, 1.0, 0.95, 0.9, 0.86, 0.82, 0.78)
"""Sizes of the type tried on a sheet, largest first; at 1 the body is 9.5 points and the kilos 27.5."""

OVERLEAF_SCALE = 0.86
"""A day that is too long for the smallest size goes on overleaf, at this size."""

_BODY_MM = 9.5 * 25.4 / 72
_ROOM_MM: dict[Paper, tuple[float, float]] = {"a4": (188.0, 278.0), "letter": (193.9, 260.4)}
"""Width and height inside the margins."""

_HOPE = 0.9
"""The count of lines comes out too high by a tenth, measured on sixty random sessions of 1 to 8 lines."""


class _Placed(msgspec.Struct, frozen=True):
    """A day with the size of its type; ``pages`` is 1 unless it goes on overleaf."""

    day: ShownDay
    scale: float
    pages: int = 1


def day_pdf(sheet: DaySheet, paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """The sheet of one lifter's day as PDF; one page, except for a session too long for any readable size."""
    return _placed(shown_day(sheet), paper, tags)[1]


def sheets_document(sheets: Iterable[DaySheet], paper: Paper = "a4", *, tags: bool = False) -> bytes:
    """Many day sheets in one PDF, each on a page of its own, in the given order; made for the printer.

    Raises ValueError when there is no sheet.
    """
    days = [shown_day(sheet) for sheet in sheets]
    if not days:
        raise ValueError("There is no sheet to print.")
    placed = [_Placed(day, _guess(day, paper)) for day in days]
    pdf = _document(placed, paper, tags)
    if pages_of(pdf) != len(days):  # somewhere a guess was too large: try each sheet alone
        placed = [_placed(day, paper, tags=False)[0] for day in days]
        pdf = _document(placed, paper, tags)
    return pdf


def _placed(day: ShownDay, paper: Paper, tags: bool) -> tuple[_Placed, bytes]:
    """The day at the largest size at which it stands on one page, with its PDF."""
    for scale in SCALES[SCALES.index(_guess(day, paper)) :]:
        placed = _Placed(day, scale)
        pdf = _document([placed], paper, tags)
        if pages_of(pdf) == 1:
            return placed, pdf
    # Page numbers are printed, so their number has to be known before; 2 is nearly always right.
    placed = _Placed(day, OVERLEAF_SCALE, pages=2)
    pdf = _document([placed], paper, tags)
    if (pages := pages_of(pdf)) != 2:
        placed = _Placed(day, OVERLEAF_SCALE, pages=pages)
        pdf = _document([placed], paper, tags)
    return placed, pdf


def _document(placed: Sequence[_Placed], paper: Paper, tags: bool) -> bytes:
    first = placed[0].day
    title = " · ".join(word for word in (first.lifter, first.where, first.when) if word)
    return typeset(
        "day",
        {"days": [msgspec.to_builtins(one) for one in placed]},
        title=title if len(placed) == 1 else f"{len(placed)} day sheets",
        paper=paper,
        tags=tags,
    )


def _guess(day: ShownDay, paper: Paper) -> float:
    """The largest size at which the day should fit, from counting its lines; typesetting has the last word.

    Trying a size in the typesetter costs a whole layout, so a good guess makes sheets three times as fast.
    """
    width_mm, height_mm = _ROOM_MM[paper]
    for scale in SCALES:
        em_mm = _BODY_MM * scale
        if _HOPE * _height_em(day, width_mm / em_mm) * em_mm <= height_mm:
            return scale
    return SCALES[-1]


def _height_em(day: ShownDay, width_em: float) -> float:
    """Height of the sheet's parts, measured by the lengths of their texts as the template sets them. [em]"""
    height = 5.0 + 1.2 * (_lines(f"{day.where} · {day.when}", width_em * 0.55) - 1)
    height += sum(0.4 + 1.2 * _lines(text, width_em) for text in (day.aim, *day.notes) if text)
    if day.problems:
        height += 2.2 + sum(1.2 * _lines(problem, width_em) for problem in day.problems)
    for segment in day.segments:
        height += 2.2
        for line in segment.lines:
            height += _lift_em(line, width_em) if segment.kind == "lifts" else _steps_em(line, width_em)
    height += 4.2 + 0.5 + 1.0 * _lines(" ".join(day.cautions), width_em / 0.88)
    half = ceil(len(day.whys) / 2)
    column_em = (width_em - 1.5) / 2 / 0.78
    height += 0.5 + max(
        sum(0.95 * _lines(why, column_em) for why in part) for part in (day.whys[:half], day.whys[half:])
    )
    return height


def _lift_em(line: ShownLine, width_em: float) -> float:
    left_em, right_em = (width_em - 1.2) * 0.66, (width_em - 1.2) * 0.34 / 0.88
    smaller = 0.8 if len(line.sets) > 4 else 1.0
    left = 1.05 + smaller * sum(5.2 if len(one.kilos) > 7 else 3.25 for one in line.sets)
    if line.ladder:
        left += 0.6 + 1.25 * _lines("Warm-up sets" + "   100 × 5" * len(line.ladder), left_em)
    left += sum(0.4 + 1.2 * _lines(text, left_em) for text in (line.turn, *line.notes) if text)
    left += sum(
        0.4 + 1.2 * _lines(words, left_em)
        for one in line.sets
        if (words := one.each + one.instruction + one.note)
    )
    right = 0.0
    for text in line.teaching:
        if text.again:
            right += 1.5
            continue
        fault = f"If: {text.faults[0].fault}  Then: {text.faults[0].fix}" if text.faults else ""
        said = (text.name if len(line.teaching) > 1 else "", text.summary, " · ".join(text.cues), fault)
        right += sum(0.15 + 1.0 * _lines(words, right_em) for words in said if words)
    for between in line.between:
        words = f"Between the sets: {between.name}, {between.dose}. {between.summary}"
        right += 0.15 + 1.0 * _lines(words, right_em)
    return 1.15 + max(left, right)


def _steps_em(line: ShownLine, width_em: float) -> float:
    words = line.name + "".join(
        f"   {n} {step.name}, {step.dose}" for n, step in enumerate(line.steps, start=1)
    )
    words += " ".join(line.notes) + " ".join(
        f"{one.kilos} {one.scheme} {one.instruction}" for one in line.sets
    )
    return 0.45 + 1.15 * _lines(words, width_em)


def _lines(text: str, width_em: float) -> int:
    """Lines of running text; a letter is half an em wide on average, and a line ends at a word."""
    return max(1, ceil((len(text) * 0.5 + 2) / width_em))
