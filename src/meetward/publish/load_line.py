"""The load line: the wave of the weeks above their columns, with the meet as a flag at the right edge."""

from collections.abc import Sequence
from html import escape

import msgspec

from meetward.units import show_percent

ACCENT, ACCENT_PALE = "#0F6B66", "#8FB9B5"

_TOP_PX, _FOOT_PX = 20, 40
"""Room above the line for its figures, and under the columns for the number and role of the week."""
_FLAG_PX = 96


class WeekLoad(msgspec.Struct, frozen=True):
    """One week of the line.

    lifts : repetitions of barbell lifts planned.
    average_permille : lift-weighted average intensity; None where no lift stands on a percentage.
    role : "load", "lighter", "test", "taper" or "meet"; the drawing names every role but "load".
    """

    lifts: int
    average_permille: int | None = None
    role: str = "load"


def said_load_line(weeks: Sequence[WeekLoad], meet: str = "") -> str:
    """The facts of the drawing in words, week by week."""
    words = [
        f"week {number}{'' if week.role == 'load' else f' ({week.role})'}: {week.lifts} lifts"
        + (
            ""
            if week.average_permille is None
            else f" at {show_percent(_whole_percent(week.average_permille))} %"
        )
        for number, week in enumerate(weeks, start=1)
    ]
    return "; ".join(words) + (f"; then {meet}" if meet else "") + "."


def load_line(
    weeks: Sequence[WeekLoad],
    *,
    meet: str = "",
    week_px: float = 72,
    height_px: float = 150,
    foot: bool = True,
) -> str:
    """Lifts of each week as columns, average intensity as a line over them, the meet as a flag: an SVG.

    week_px : width of a week, so that the drawing can stand exactly above the columns of a table. [px]
    height_px : of the whole drawing, at least 120. [px]
    foot : number and role under each week; False above a table whose heads say them.
    Lines and figures take the colour of the text around. Raises ValueError without weeks.
    """
    if not weeks:
        raise ValueError("There is no week to draw.")
    height_px = max(height_px, 120)
    width = week_px * len(weeks) + (_FLAG_PX if meet else 0)
    floor = height_px - (_FOOT_PX if foot else 2)
    drawn = [_columns(weeks, week_px, floor), _line(weeks, week_px, floor)]
    if foot:
        drawn.append(_foot(weeks, week_px, floor))
    drawn.append(
        f'<path d="M0 {floor:g}H{week_px * len(weeks):g}" stroke="currentColor" stroke-width="1.5"/>'
    )
    if meet:
        drawn.append(_flag(meet, week_px * len(weeks) + 6, floor))
    return (
        f'<svg class="load-line" xmlns="http://www.w3.org/2000/svg" role="img" width="{width:g}" '
        f'height="{height_px:g}" viewBox="0 0 {width:g} {height_px:g}">'
        f"<title>Load of the weeks: lifts as columns, average intensity as a line</title>"
        f"<desc>{escape(said_load_line(weeks, meet))}</desc>"
        f'<g font-family="Atkinson Hyperlegible Next, sans-serif" font-size="13" fill="currentColor">'
        f"{''.join(drawn)}</g></svg>"
    )


def _middle(index: int, week_px: float) -> float:
    return (index + 0.5) * week_px


def _columns(weeks: Sequence[WeekLoad], week_px: float, floor: float) -> str:
    """Columns take the lower part; the number of lifts stands on each, in words for a week without any."""
    most = max((week.lifts for week in weeks), default=0) or 1
    room = (floor - _TOP_PX) * 0.52
    wide = min(week_px * 0.62, 48)
    drawn = []
    for index, week in enumerate(weeks):
        high = room * week.lifts / most
        x = _middle(index, week_px)
        if week.lifts:
            drawn.append(
                f'<rect x="{x - wide / 2:.5g}" y="{floor - high:.5g}" width="{wide:.4g}" height="{high:.4g}" '
                f'fill="{ACCENT_PALE}" class="column"/>'
            )
        drawn.append(
            f'<text x="{x:.5g}" y="{floor - high - 4:.5g}" text-anchor="middle">{week.lifts or "none"}</text>'
        )
    return "".join(drawn)


def _line(weeks: Sequence[WeekLoad], week_px: float, floor: float) -> str:
    """Average intensity over the columns; a week without one leaves a gap."""
    known = [week.average_permille for week in weeks if week.average_permille is not None]
    if not known:
        return ""
    low, high = min(known), max(known)
    top, room = _TOP_PX, (floor - _TOP_PX) * 0.22
    strokes, points, pen_down = [], [], False
    for index, week in enumerate(weeks):
        if week.average_permille is None:
            pen_down = False
            continue
        share = (week.average_permille - low) / (high - low) if high > low else 0.5
        x, y = _middle(index, week_px), top + room * (1 - share)
        strokes.append(f"{'L' if pen_down else 'M'}{x:.5g} {y:.4g}")
        pen_down = True
        points.append(
            f'<circle cx="{x:.5g}" cy="{y:.4g}" r="3.5" fill="{ACCENT}" class="dot"/>'
            f'<text x="{x:.5g}" y="{y - 7:.4g}" text-anchor="middle" font-weight="700">'
            f"{show_percent(_whole_percent(week.average_permille))} %</text>"
        )
    return (
        f'<path d="{"".join(strokes)}" class="line" fill="none" stroke="{ACCENT}" stroke-width="2.5" '
        f'stroke-linejoin="round"/>' + "".join(points)
    )


def _foot(weeks: Sequence[WeekLoad], week_px: float, floor: float) -> str:
    return "".join(
        f'<text x="{_middle(index, week_px):.5g}" y="{floor + 16:g}" text-anchor="middle" font-weight="700">'
        f"{index + 1}</text>"
        + (
            ""
            if week.role == "load"
            else f'<text x="{_middle(index, week_px):.5g}" y="{floor + 33:g}" text-anchor="middle">'
            f"{escape(week.role)}</text>"
        )
        for index, week in enumerate(weeks)
    )


def _flag(meet: str, x: float, floor: float) -> str:
    """A pole with a pennant; the name of the meet under it, on two lines at most."""
    first, second = _two_lines(meet, 14)
    return (
        f'<path d="M{x:g} {floor:g}V6" stroke="currentColor" stroke-width="2" fill="none"/>'
        f'<path d="M{x:g} 6l34 11l-34 11z" fill="{ACCENT}" class="dot"/>'
        f'<text x="{x:g}" y="{floor + 16:g}" font-weight="700">{escape(first)}</text>'
        + (f'<text x="{x:g}" y="{floor + 33:g}" font-weight="700">{escape(second)}</text>' if second else "")
    )


def _two_lines(words: str, letters: int) -> tuple[str, str]:
    """``words`` broken once after at most ``letters``; what is too long ends in an ellipsis."""
    if len(words) <= letters:
        return words, ""
    cut = words.rfind(" ", 0, letters + 1)
    cut = cut if cut > 0 else letters
    rest = words[cut:].strip()
    return words[:cut], rest if len(rest) <= letters else rest[: letters - 1].rstrip() + "…"


def _whole_percent(permille: int) -> int:
    """To the nearest whole percent, for a figure above a week."""
    return (permille + 5) // 10 * 10
