"""Day sheets on paper: one session a page, sized to fill it, and many of them in one document."""

from collections.abc import Iterable, Sequence
from math import ceil
from typing import Literal

import msgspec

from meetward.fit.fitted import DaySheet

from .paper import Paper, pages_of, typeset
from .shown import ShownBetween, ShownDay, ShownLine, ShownSegment, shown_day
from .shown_sets import ShownSet
from .shown_teaching import ShownTeaching

Form = Literal["wide", "narrow", "cues"]
"""wide: a lift takes the whole width, teaching beside it; narrow: two columns; cues: two, with cues only."""

SIZES: tuple[tuple[float, Form], ...] = (
    *((scale, "wide") for scale in (1.2, 1.15, 1.1, 1.05, 1.0, 0.95, 0.9)),
    *((scale, "narrow") for scale in (0.95, 0.9, 0.86, 0.82)),
    *((scale, "cues") for scale in (0.95, 0.9, 0.86, 0.82, 0.78)),
)
"""Sizes of the type and forms in the order in which they are tried.

At 1 the body is 9.5 points and the kilos 27.5.
"""

OVERLEAF_SCALE = 0.86
"""A day that is too long for the smallest size goes on overleaf, at this size."""

_BODY_MM = 9.5 * 25.4 / 72
_ROOM_MM: dict[Paper, tuple[float, float]] = {"a4": (188.0, 278.0), "letter": (193.9, 260.4)}
"""Width and height inside the margins."""

_HOPE, _SURE = 0.87, 0.95
"""The count of lines comes out too high, by 5 to 25 % on random sessions of 1 to 8 lines. A sheet alone is
tried with the first, since a second trial is cheap; a bundle with the second, since there it is dear."""


class _Placed(msgspec.Struct, frozen=True):
    """A day with the size of its type; ``pages`` is 1 unless it goes on overleaf.

    halves : for each segment, how many lifts stand in the first of two columns; 0 for one column.
    """

    day: ShownDay
    scale: float
    halves: tuple[int, ...]
    cues_only: bool
    pages: int = 1


def day_pdf(sheet: DaySheet, paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """The sheet of one lifter's day as PDF; one page, except for a session too long for any readable size."""
    return _placed(_for_paper(shown_day(sheet)), paper, tags)[1]


def sheets_document(sheets: Iterable[DaySheet], paper: Paper = "a4", *, tags: bool = False) -> bytes:
    """Many day sheets in one PDF, each on a page of its own, in the given order; made for the printer.

    Raises ValueError when there is no sheet.
    """
    days = [_for_paper(shown_day(sheet)) for sheet in sheets]
    if not days:
        raise ValueError("There is no sheet to print.")
    placed = [_sized(day, paper, *_guess(day, paper, _SURE)) for day in days]
    pdf = _document(placed, paper, tags)
    if pages_of(pdf) != len(days):  # somewhere a guess was too large
        pdf = _document(_fitting(placed, paper), paper, tags)
    return pdf


def _fitting(placed: list[_Placed], paper: Paper) -> list[_Placed]:
    """The days with those sized anew that take more than a page; halved until they are found."""
    if len(placed) == 1:
        return [_placed(placed[0].day, paper, tags=False)[0]]
    half = len(placed) // 2
    return [
        one
        for part in (placed[:half], placed[half:])
        for one in (
            part if pages_of(_document(part, paper, tags=False)) == len(part) else _fitting(part, paper)
        )
    ]


def _placed(day: ShownDay, paper: Paper, tags: bool) -> tuple[_Placed, bytes]:
    """The day at the largest size at which it stands on one page, with its PDF."""
    for scale, form in SIZES[SIZES.index(_guess(day, paper, _HOPE)) :]:
        placed = _sized(day, paper, scale, form)
        pdf = _document([placed], paper, tags)
        if pages_of(pdf) == 1:
            return placed, pdf
    # Page numbers are printed, so their number has to be known before; 2 is nearly always right.
    placed = msgspec.structs.replace(_sized(day, paper, OVERLEAF_SCALE, "wide"), pages=2)
    pdf = _document([placed], paper, tags)
    if (pages := pages_of(pdf)) != 2:
        placed = msgspec.structs.replace(placed, pages=pages)
        pdf = _document([placed], paper, tags)
    return placed, pdf


def _for_paper(day: ShownDay) -> ShownDay:
    """The day without the texts that only the page shows: the typesetter reads half as much."""
    replace = msgspec.structs.replace

    def taught(text: ShownTeaching) -> ShownTeaching:
        return replace(
            text, purpose="", setup=(), how=(), scaling=(), cautions=(), link="", faults=text.faults[:1]
        )

    return replace(
        day,
        segments=tuple(
            replace(
                segment,
                lines=tuple(
                    replace(
                        line,
                        ladder_why="",
                        sets=tuple(replace(one, why="", why_more=()) for one in line.sets),
                        between=tuple(replace(between, teaching=None) for between in line.between),
                        steps=tuple(replace(step, summary="", teaching=None) for step in line.steps),
                        teaching=tuple(map(taught, line.teaching)),
                    )
                    for line in segment.lines
                ),
            )
            for segment in day.segments
        ),
    )


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


def _sized(day: ShownDay, paper: Paper, scale: float, form: Form) -> _Placed:
    width_em = _ROOM_MM[paper][0] / (_BODY_MM * scale)
    halves = tuple(
        _half(segment, width_em, form) if form != "wide" and segment.kind == "lifts" else 0
        for segment in day.segments
    )
    return _Placed(day, scale, halves, form == "cues")


def _half(segment: ShownSegment, width_em: float, form: Form) -> int:
    """How many lifts to put in the first column so that the two are about equally high; at least one."""
    heights = [_narrow_lift_em(line, (width_em - 1.4) / 2, form) for line in segment.lines]
    return min(
        range(1, len(heights) + 1),
        key=lambda first: max(sum(heights[:first]), sum(heights[first:])),
        default=0,
    )


def _guess(day: ShownDay, paper: Paper, share: float) -> tuple[float, Form]:
    """The first of ``SIZES`` at which the day should fit by its lines; typesetting has the last word.

    share : of the counted height that is taken for real.
    Trying a size in the typesetter costs a whole layout, so a good guess makes sheets three times as fast.
    """
    width_mm, height_mm = _ROOM_MM[paper]
    for scale, form in SIZES:
        em_mm = _BODY_MM * scale
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
    if form == "wide":
        return sum(_lift_em(line, width_em) for line in segment.lines)
    heights = [_narrow_lift_em(line, (width_em - 1.4) / 2, form) for line in segment.lines]
    first = _half(segment, width_em, form)
    return max(sum(heights[:first]), sum(heights[first:]))


def _lift_em(line: ShownLine, width_em: float) -> float:
    right_em = (width_em - 1.2) * 0.34 / 0.88
    names = [text.name for text in line.teaching if len(line.teaching) > 1]
    said = [*names, *(words for text in line.teaching for words in _taught(text))]
    said += [_between_words(between) for between in line.between]
    right = sum(0.15 + _lines(words, right_em) for words in said if words)
    return 1.15 + max(_work_em(line, (width_em - 1.2) * 0.66), right)


def _narrow_lift_em(line: ShownLine, width_em: float, form: Form) -> float:
    if form == "cues":
        said = [" · ".join(text.cues) + text.name for text in line.teaching if not text.again]
        said += [f"Between the sets: {between.name}, {between.dose}" for between in line.between]
    else:
        said = [f"{text.name} {' '.join(_taught(text)[:2])}" for text in line.teaching]
        said += [_taught(text)[-1] for text in line.teaching if text.faults and not text.again]
        said += [_between_words(between) for between in line.between]
    return 1.15 + _work_em(line, width_em) + sum(0.5 + _lines(words, width_em / 0.88) for words in said)


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
