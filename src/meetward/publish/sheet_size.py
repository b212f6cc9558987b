"""How large a day sheet can be set: forms and sizes, and a count of lines that nearly knows which fits."""

import re
from collections.abc import Iterator
from math import ceil
from typing import Literal

from .paper import Paper
from .shown import ShownBetween, ShownDay, ShownLine, ShownSegment
from .shown_sets import ShownSet
from .shown_teaching import ShownTeaching

Form = Literal["drawn", "narrow drawn", "wide", "narrow", "cues"]
"""wide: a lift takes the whole width, its teaching beside it; narrow: two columns; cues: two, with cues only.
Drawn: with the drawings of what is new, as wide or narrow."""

SIZES: tuple[tuple[float, Form], ...] = (
    *((scale, "drawn") for scale in (1.2, 1.15, 1.1, 1.05, 1.0, 0.95, 0.9, 0.86)),
    *((scale, "narrow drawn") for scale in (0.95, 0.9, 0.86, 0.82)),
    *((scale, "wide") for scale in (1.2, 1.15, 1.1, 1.05, 1.0, 0.95, 0.9)),
    *((scale, "narrow") for scale in (0.95, 0.9, 0.86, 0.82)),
    *((scale, "cues") for scale in (0.95, 0.9, 0.86, 0.82, 0.78)),
)
"""Sizes of the type and forms in the order in which they are tried.

At 1 the body is 9.5 points and the kilos 27.5.
"""

BODY_MM = 9.5 * 25.4 / 72
ROOM_MM: dict[Paper, tuple[float, float]] = {"a4": (188.0, 278.0), "letter": (193.9, 260.4)}
"""Width and height inside the margins."""

DRAWN_EM_PER_PX = 0.045
"""Largest scale of a drawing: a single position must not fill the column."""

_SIZE = re.compile(r' width="([\d.]+)" height="([\d.]+)"')

HOPE, SURE = 0.87, 0.95
"""The count of lines comes out too high, by 5 to 25 % on random sessions of 1 to 8 lines. A sheet alone is
tried with the first, since a second trial is cheap; a bundle with the second, since there it is dear."""


def sizes(day: ShownDay) -> tuple[tuple[float, Form], ...]:
    """The sizes that differ for this day: without anything new there is nothing to draw."""
    return SIZES if any(map(draws, _texts(day))) else tuple(size for size in SIZES if "drawn" not in size[1])


def draws(text: ShownTeaching) -> bool:
    """Whether its drawing stands on the sheet: it is new in the cycle and has not stood above."""
    return bool(text.drawing) and text.first and not text.again


def _texts(day: ShownDay) -> Iterator[ShownTeaching]:
    for segment in day.segments:
        for line in segment.lines if segment.kind == "lifts" else ():
            yield from line.teaching


def half(segment: ShownSegment, width_em: float, form: Form) -> int:
    """How many lifts to put in the first column so that the two are about equally high; at least one."""
    heights = [_narrow_lift_em(line, (width_em - 1.4) / 2, form) for line in segment.lines]
    return min(
        range(1, len(heights) + 1),
        key=lambda first: max(sum(heights[:first]), sum(heights[first:])),
        default=0,
    )


def guess(day: ShownDay, paper: Paper, share: float) -> tuple[float, Form]:
    """The first of ``SIZES`` at which the day should fit by its lines; typesetting has the last word.

    share : of the counted height that is taken for real.
    Trying a size in the typesetter costs a whole layout, so a good guess makes sheets three times as fast.
    """
    width_mm, height_mm = ROOM_MM[paper]
    for scale, form in sizes(day):
        em_mm = BODY_MM * scale
        if share * _height_em(day, width_mm / em_mm, form) * em_mm <= height_mm:
            return scale, form
    return SIZES[-1]


def _height_em(day: ShownDay, width_em: float, form: Form) -> float:
    """Height of the sheet's parts, measured by the lengths of their texts as the template sets them. [em]"""
    height = 5.0 + 1.2 * (_lines(f"{day.where} · {day.when}", width_em * 0.55) - 1)
    height += sum(0.4 + 1.2 * _lines(text, width_em) for text in (day.aim, *day.notes) if text)
    if day.problems:
        height += 2.2 + sum(1.1 * _lines(problem, width_em / 0.88) for problem in day.problems)
    height += sum(2.2 + _segment_em(segment, width_em, form) for segment in day.segments)
    height += 4.2 + 0.5 + 1.0 * _lines(" ".join(day.cautions), width_em / 0.88)
    half = ceil(len(day.whys) / 2)
    column_em = (width_em - 1.5) / 2 / 0.78
    height += 0.5 + max(
        sum(0.95 * _lines(why, column_em) for why in part) for part in (day.whys[:half], day.whys[half:])
    )
    return height


def _segment_em(segment: ShownSegment, width_em: float, form: Form) -> float:
    if segment.kind != "lifts":
        return sum(_steps_em(line, width_em) for line in segment.lines)
    if form in ("drawn", "wide"):
        return sum(_lift_em(line, width_em, drawn=form == "drawn") for line in segment.lines)
    heights = [_narrow_lift_em(line, (width_em - 1.4) / 2, form) for line in segment.lines]
    first = half(segment, width_em, form)
    return max(sum(heights[:first]), sum(heights[first:]))


def _lift_em(line: ShownLine, width_em: float, *, drawn: bool) -> float:
    right_em = (width_em - 1.2) * 0.34 / 0.88
    names = [text.name for text in line.teaching if len(line.teaching) > 1]
    said = [*names, *(words for text in line.teaching for words in _taught(text))]
    said += [_between_words(between) for between in line.between]
    right = sum(0.15 + _lines(words, right_em) for words in said if words)
    if drawn:
        right += _drawings_em(line, (width_em - 1.2) * 0.34)
    return 1.15 + max(_work_em(line, (width_em - 1.2) * 0.66), right)


def _drawing_em(svg: str, width_em: float) -> float:
    """Height of a drawing as wide as its column, but no larger than half its natural size. [em]"""
    size = _SIZE.search(svg)
    assert size is not None, "a drawing says how large it is"
    wide, high = map(float, size.groups())
    return min(width_em, wide * DRAWN_EM_PER_PX) * high / wide


def _narrow_lift_em(line: ShownLine, width_em: float, form: Form) -> float:
    if form == "cues":
        said = [" · ".join(text.cues) + text.name for text in line.teaching if not text.again]
        said += [f"Between the sets: {between.name}, {between.dose}" for between in line.between]
    else:
        said = [f"{text.name} {' '.join(_taught(text)[:2])}" for text in line.teaching]
        said += [_taught(text)[-1] for text in line.teaching if text.faults and not text.again]
        said += [_between_words(between) for between in line.between]
    height = 1.15 + _work_em(line, width_em) + sum(0.5 + _lines(words, width_em / 0.88) for words in said)
    return height + (_drawings_em(line, width_em) if form == "narrow drawn" else 0)


def _drawings_em(line: ShownLine, width_em: float) -> float:
    return sum(0.5 + _drawing_em(text.drawing, width_em) for text in line.teaching if draws(text))


def _taught(text: ShownTeaching) -> tuple[str, ...]:
    """What the sheet says of a movement: summary, cues, the top fault with its fix."""
    if text.again:
        return ("cues as above",)
    fault = f"If: {text.faults[0].fault}  Then: {text.faults[0].fix}" if text.faults else ""
    return text.summary, " · ".join(text.cues), fault


def _between_words(between: ShownBetween) -> str:
    return f"Between the sets: {between.name}, {between.dose}. {between.summary}"


def _work_em(line: ShownLine, width_em: float) -> float:
    """Heading, warm-up sets, work sets and what is said under them."""
    height = 1.05 * _lines(f"{line.name} {line.detail} {line.priority}", width_em / 1.4)
    height += (0.8 if len(line.sets) > 4 else 1.0) * sum(map(_row_em, line.sets))
    if line.ladder:
        height += 0.6 + 1.25 * _lines("Warm-up sets" + "   100 × 5" * len(line.ladder), width_em)
    said = [line.turn, *line.notes, *(one.each + one.instruction + one.note for one in line.sets)]
    return height + sum(0.4 + 1.2 * _lines(words, width_em) for words in said if words)


def _row_em(one: ShownSet) -> float:
    head = 1.5 if one.round else 0.0
    if len(one.kilos) > 7:
        return head + 5.2
    return head + (3.25 if one.kilos or one.boxes > 4 else 2.5)


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
