"""The drawn bar: one sleeve with its discs, as a small SVG that pages and printed sheets share.

Heights follow the rule book: large discs are 450 mm, the small ones smaller, by weight. Widths leave room for
the number that every disc carries, so that no weight is told by colour alone.
"""

from collections.abc import Sequence
from html import escape
from math import sqrt
from typing import Literal

from meetward.barbell.discs import Disc, SidePlan
from meetward.units import show_kg, show_lb

Unit = Literal["kg", "lb"]

INK, WHITE, STEEL = "#1B2230", "#FFFFFF", "#8A919C"

# The colours are those that the international rule book gives the discs (tests/authorities/bar-and-discs.md);
# the shades are ours, dark or light enough for their number.
_FILL = {
    "red": "#B3261E",
    "blue": "#1F4E9E",
    "yellow": "#F2C230",
    "green": "#1E7440",
    "white": WHITE,
    "black": "#2A2F3A",
}
_RULE_BOOK = {
    2500: "red", 2000: "blue", 1500: "yellow", 1000: "green", 500: "white",
    250: "red", 200: "blue", 150: "yellow", 100: "green", 50: "white",
}  # fmt: skip
_IRON = "#4A5160"
_DARK_NUMBER = {_FILL["yellow"], WHITE}

_HEIGHT_PX, _LARGE_PX, _LARGE_WIDE_PX = 56, 52, 24
_SHAFT_PX, _SLEEVE_STOP_PX, _COLLAR_PX, _SLEEVE_END_PX = 12, 5, 9, 10


def said_bar(bar_dag: int, plan: SidePlan, unit: Unit = "kg") -> str:
    """What the drawing shows, in words: ``20 kg bar, each side: 20, 1.5, collar``."""
    side = [show_weight(dag, unit) for dag in plan.discs_dag] + (["collar"] if plan.collars_dag else [])
    bar = f"{show_weight(bar_dag, unit)} {unit} bar"
    return f"{bar}, each side: {', '.join(side)}" if side else f"{bar}, no discs"


def drawn_bar(bar_dag: int, plan: SidePlan, unit: Unit = "kg") -> str:
    """One sleeve of the bar with its discs, inside to outside from left to right, as an SVG element.

    bar_dag : the bare bar. [10 g]
    plan : discs of one side, with the collars.
    The drawing is 56 px high and as wide as its discs; it may be scaled to 120 to 300 px of width. Lines
    take the colour of the text around (``currentColor``), so it stands on light and on dark paper.
    """
    parts: list[str] = []
    x: float = _SHAFT_PX + _SLEEVE_STOP_PX
    for disc, label in zip(plan.discs, _labels(plan.discs, unit), strict=True):
        drawn, wide = _disc(disc, label, x)
        parts.append(drawn)
        x += wide
    if plan.collars_dag:
        parts.append(_upright(x, _COLLAR_PX, 22, STEEL))
        x += _COLLAR_PX
    end = max(x + _SLEEVE_END_PX, 90)
    middle = _HEIGHT_PX / 2
    steel = (
        f'<path d="M0 {middle - 2:g}h{_SHAFT_PX}v4h-{_SHAFT_PX}z'
        f'M{_SHAFT_PX} {middle - 4:g}H{end:g}v8H{_SHAFT_PX}z" fill="{STEEL}"/>'
    )
    stop = _upright(_SHAFT_PX, _SLEEVE_STOP_PX, 16, STEEL)
    total = f"{show_weight(plan.total_dag, unit)} {unit} together."
    return (
        f'<svg class="bar" xmlns="http://www.w3.org/2000/svg" role="img" '
        f'width="{end:g}" height="{_HEIGHT_PX}" viewBox="0 0 {end:g} {_HEIGHT_PX}">'
        f"<title>{escape(said_bar(bar_dag, plan, unit))}</title><desc>{escape(total)}</desc>"
        f'{steel}{stop}<g font-family="Atkinson Hyperlegible Next, sans-serif" font-weight="700" '
        f'text-anchor="middle" stroke-width="1">{"".join(parts)}</g></svg>'
    )


def show_weight(dag: int, unit: Unit) -> str:
    """A weight in the lifter's unit, without the unit."""
    return show_lb(dag) if unit == "lb" else show_kg(dag)


def _labels(discs: Sequence[Disc], unit: Unit) -> list[str]:
    return [show_weight(disc.dag, unit) for disc in discs]


def _disc(disc: Disc, label: str, x: float) -> tuple[str, float]:
    """The disc at ``x`` with its number, and its width."""
    if disc.large:
        high, wide, size = float(_LARGE_PX), _LARGE_WIDE_PX if len(label) < 4 else 32, 15
    else:
        # 0.5 kg is drawn 25 px high, 5 kg 36 px; a small heavy disc grows on, but stays under the large ones.
        high, wide, size = (
            min(46.0, 20 + 16 * sqrt(disc.dag / 500)),
            (16, 20, 24, 29)[min(len(label), 4) - 1],
            13,
        )
    fill = _FILL.get(disc.colour.lower() or _RULE_BOOK.get(disc.dag, ""), _IRON)
    ink = INK if fill in _DARK_NUMBER else WHITE
    number = (
        f'<text x="{x + wide / 2:g}" y="{_HEIGHT_PX / 2 + size * 0.35:g}" font-size="{size}" fill="{ink}">'
        f"{escape(label)}</text>"
    )
    return _upright(x, wide, high, fill) + number, wide


def _upright(x: float, wide: float, high: float, fill: str) -> str:
    """A rounded block that stands across the bar."""
    return (
        f'<rect x="{x + 0.5:g}" y="{(_HEIGHT_PX - high) / 2:.4g}" width="{wide - 1:g}" height="{high:.4g}" '
        f'rx="2" fill="{fill}" stroke="currentColor"/>'
    )
