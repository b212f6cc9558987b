"""Day sheets on paper: one session a page, sized to fill it, and many of them in one document."""

from collections.abc import Iterable, Sequence

import msgspec

from meetward.fit.fitted import DaySheet

from .paper import Paper, pages_of, typeset
from .sheet_size import BODY_MM, HOPE, ROOM_MM, SURE, Form, draws, guess, half, sizes
from .shown import ShownDay, shown_day
from .shown_teaching import ShownTeaching

OVERLEAF_SCALE = 0.86
"""A day that is too long for the smallest size goes on overleaf, at this size."""


class _Placed(msgspec.Struct, frozen=True):
    """A day with the size of its type; ``pages`` is 1 unless it goes on overleaf.

    halves : for each segment, how many lifts stand in the first of two columns; 0 for one column.
    """

    day: ShownDay
    scale: float
    halves: tuple[int, ...]
    cues_only: bool
    drawn: bool
    pages: int = 1


def day_pdf(sheet: DaySheet, paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """The sheet of one lifter's day as PDF; one page, except for a session too long for any readable size."""
    return _placed(_for_paper(shown_day(sheet, "bare")), paper, tags)[1]


def sheets_document(sheets: Iterable[DaySheet], paper: Paper = "a4", *, tags: bool = False) -> bytes:
    """Many day sheets in one PDF, each on a page of its own, in the given order; made for the printer.

    Raises ValueError when there is no sheet.
    """
    days = [_for_paper(shown_day(sheet, "bare")) for sheet in sheets]
    if not days:
        raise ValueError("There is no sheet to print.")
    placed = [_sized(day, paper, *guess(day, paper, SURE)) for day in days]
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
    tried = sizes(day)
    for scale, form in tried[tried.index(guess(day, paper, HOPE)) :]:
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
            text,
            purpose="",
            setup=(),
            how=(),
            scaling=(),
            cautions=(),
            link="",
            faults=text.faults[:1],
            drawing=text.drawing if draws(text) else "",
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
    width_em = ROOM_MM[paper][0] / (BODY_MM * scale)
    halves = tuple(
        half(segment, width_em, form) if form not in ("drawn", "wide") and segment.kind == "lifts" else 0
        for segment in day.segments
    )
    return _Placed(day, scale, halves, form == "cues", "drawn" in form)
