"""SVG of drawn lifters: a strip of positions with the bar's path, or one position.

One element holds the whole strip with its words, because day sheet, page and paper can all take one picture
as it is, without a style sheet and without a network. ``columns`` breaks it into rows: four to a row stay
readable on a phone, seven on paper. Where a page wraps by itself, `apart` gives each position alone, to the
same scale. Lines and words take the colour of the text around (``currentColor``); bar and path are teal.

A style sheet can recolour by class: ``fig`` (the whole), ``fig-near``, ``fig-trunk`` and ``fig-far`` (the
lifter), ``fig-bar``, ``fig-disc`` and ``fig-path``, ``fig-floor``, ``fig-mid`` (the line over mid-foot),
``fig-prop`` (things), ``fig-arrow``, ``fig-name`` and ``fig-says`` (words). There are no ids and no style
attributes, so many stand in one page.
"""

from collections.abc import Sequence
from html import escape
from math import ceil

import msgspec
from msgspec.structs import replace

from meetward.body.drawings import Arrow, Drawing, Frame, figures
from meetward.body.figure import Arm, Figure, Leg, Prop, Spot
from meetward.body.flesh import scale
from meetward.body.outline import arm_path, fingertips, leg_path, trunk_path
from meetward.body.pen import PER_CM, Pen, units
from meetward.body.placing import joints, shifted
from meetward.body.segments import TYPICAL, Body
from meetward.body.spots import spot
from meetward.body.things import arrow, extent, thing

TEAL = "#14918A"
"""The accent, a shade lighter than on pages: it lies on paper and on ink of either scheme."""
DISC_OPACITY, FAR_OPACITY, TRUNK_OPACITY = ".12", ".38", ".66"
_SAME_CM = 0.5
"""Limbs of both sides nearer than this in the drawing are drawn once."""
TALLEST_PX, WIDEST_PX_PER_CM = 200, 1.1
"""No position is drawn larger than this at ``wide_px``."""
_NAME_PX, _SAYS_PX, _LINE = 12.0, 11.0, 1.22
_LETTER = 0.53
"""Mean width of a letter in its size; for breaking lines only."""


class _Cell(msgspec.Struct, frozen=True):
    """One position, ready: its figure with its zero at x = 0, how far it goes from there, its words."""

    figure: Figure
    left_cm: float
    right_cm: float
    top_cm: float
    name: tuple[str, ...]
    says: tuple[str, ...]
    arrows: tuple[Arrow, ...]
    path: tuple[Spot, ...]
    stands: bool


def strip(
    drawing: Drawing,
    body: Body = TYPICAL,
    *,
    columns: int = 0,
    wide_px: int = 360,
    title: str = "",
    words: bool = True,
) -> str:
    """All positions of a drawing side by side as one SVG element of at most 10 kB.

    body : whose lengths are drawn; solved positions are solved for it.
    columns : positions in a row; 0 chooses for a phone (up to four).
    wide_px : the width at which words have their natural size, 12 and 11 px.
    title : what is shown; left out, the drawing's own.
    words : the names and what to see below each position; they stand in the text alternative anyway.
    """
    columns = max(1, min(columns or _columns(len(drawing.frames)), len(drawing.frames)))
    cells = _cells(drawing, figures(drawing, body), wide_px / columns)
    if not words:
        cells = [replace(cell, name=(), says=()) for cell in cells]
    return _svg(
        cells, _fit(cells, wide_px / columns), columns, wide_px, title or drawing.title, described(drawing)
    )


def single(
    drawing: Drawing, body: Body = TYPICAL, *, frame: int = 0, wide_px: int = 200, title: str = ""
) -> str:
    """One position of a drawing as an SVG element, with its words below."""
    one = replace(drawing, frames=(drawing.frames[frame],))
    return strip(one, body, columns=1, wide_px=wide_px, title=title)


def apart(drawing: Drawing, body: Body = TYPICAL, *, wide_px: int = 90, title: str = "") -> tuple[str, ...]:
    """Each position of a strip as an SVG element of its own, to one scale, for pages that wrap by themselves.

    The bar's path grows from one to the next as it does in the strip. The first one carries the text
    alternative of the whole; the others carry their name and what to see.
    """
    cells = _cells(drawing, figures(drawing, body), wide_px)
    fit, said = _fit(cells, wide_px), title or drawing.title
    alts = [described(drawing), *(_told(n, f) for n, f in enumerate(drawing.frames[1:], 2))]
    return tuple(_svg([c], fit, 1, wide_px, said, alt) for c, alt in zip(cells, alts, strict=True))


def drawn(figure: Figure, alt: str, *, title: str, wide_px: int = 200) -> str:
    """A figure that was solved elsewhere, without words below: a lifter's own positions."""
    cells = _cells(Drawing(id="figure", alt=alt, frames=()), (figure,), wide_px)
    return _svg(cells, _fit(cells, wide_px), 1, wide_px, title, alt)


def _columns(count: int) -> int:
    return count if count <= 4 else ceil(count / 2)


class _Fit(msgspec.Struct, frozen=True):
    """What all positions of a strip share: their largest reach to both sides, and the scale."""

    left_cm: float
    right_cm: float
    per_cm: float


def _fit(cells: Sequence[_Cell], cell_px: float) -> _Fit:
    left, right = max(c.left_cm for c in cells), max(c.right_cm for c in cells)
    tall = max(c.top_cm for c in cells)
    return _Fit(left, right, min((cell_px - 6) / (left + right), TALLEST_PX / tall, WIDEST_PX_PER_CM))


def _svg(cells: Sequence[_Cell], fit: _Fit, columns: int, wide_px: int, title: str, alt: str) -> str:
    cell_px = wide_px / columns
    layers, words, top = _Layers(fit.per_cm / PER_CM), _Words(), 0.0
    for start in range(0, len(cells), columns):
        row = cells[start : start + columns]
        floor = top + (max(c.top_cm for c in row) + 1.5) * fit.per_cm
        for i, cell in enumerate(row):
            middle = cell_px * (i + 0.5)
            layers.add(cell, middle + (fit.left_cm - fit.right_cm) / 2 * fit.per_cm, floor, middle, cell_px)
            words.add(cell, middle, floor)
        top = floor + max(_words_px(c) for c in row) + 10
    high = ceil(top)
    return (
        f'<svg class="fig" xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {wide_px} {high}" '
        f'width="{wide_px}" height="{high}" fill="currentColor"><title>{escape(title)}</title>'
        f"<desc>{escape(alt)}</desc>{layers}{words}</svg>"
    )


def described(drawing: Drawing) -> str:
    """The drawing in words: its text alternative, and each position's name with what to see."""
    if len(drawing.frames) == 1:
        says = drawing.frames[0].says
        return f"{drawing.alt} {says}." if says else drawing.alt
    return " ".join([drawing.alt, *(_told(n, frame) for n, frame in enumerate(drawing.frames, 1))])


def _told(number: int, frame: Frame) -> str:
    return f"{number} {frame.name}: {frame.says}." if frame.says else f"{number} {frame.name}."


# Layout


def _cells(drawing: Drawing, made: Sequence[Figure], cell_px: float) -> list[_Cell]:
    """Every position with its words. Bars stand over mid-foot alike; what lies down is put in its middle."""
    cells: list[_Cell] = []
    path: list[Spot] = []
    many = len(made) > 1
    frames: Sequence[Frame | None] = drawing.frames or (None,)
    for number, (frame, as_made) in enumerate(zip(frames, made, strict=True), 1):
        # Who sits or lies on something is not balanced over the foot.
        on_foot = not (frame and frame.pose and frame.pose.on) and (
            (frame is not None and frame.sought is not None)
            or min(as_made.near_leg.ball.y, as_made.far_leg.ball.y) < 1.0
        )
        standing = on_foot and as_made.bar is not None
        arrows = frame.arrows if frame else ()
        left, right = _left_right(as_made, arrows)
        zero = 0.0 if standing else (left + right) / 2
        figure = shifted(as_made, -zero)
        if figure.bar:
            path.append(Spot(figure.bar.at.x, figure.bar.at.y))
        name = frame.name if frame else ""
        cells.append(
            _Cell(
                figure=figure,
                left_cm=zero - left,
                right_cm=right - zero,
                top_cm=_top(figure, arrows),
                name=tuple(_broken(f"{number} {name}" if many else name, cell_px - 4, _NAME_PX)),
                says=tuple(_broken(frame.says if frame else "", cell_px - 4, _SAYS_PX)),
                arrows=arrows,
                path=tuple(path) if many and figure.bar else (),
                stands=standing,
            )
        )
    return cells


def _ends(figure: Figure, arrows: Sequence[Arrow]) -> list[Spot]:
    """Whatever may reach furthest: joints, fingertips and the ends of arrows."""
    ends = [*joints(figure), fingertips(figure.near_arm), fingertips(figure.far_arm)]
    for kept in arrows:
        ends += _arrow_ends(figure, kept)
    return ends


def _left_right(figure: Figure, arrows: Sequence[Arrow]) -> tuple[float, float]:
    """How far a figure goes back and forwards, with its bar, things and arrows. [cm]"""
    k = scale(figure.body)
    xs = [s.x for s in _ends(figure, arrows)]
    thick = [figure.hip.x, figure.waist.x, figure.shoulder.x, figure.head.x]
    left, right = min(*xs, min(thick) - 8 * k) - 5 * k, max(*xs, max(thick) + 8 * k) + 5 * k
    if figure.bar:
        r = max(3, figure.bar.disc_cm / 2)
        left, right = min(left, figure.bar.at.x - r), max(right, figure.bar.at.x + r)
    for prop in figure.props:
        start, end, _ = extent(prop)
        left, right = min(left, start), max(right, end)
    return left, right


def _top(figure: Figure, arrows: Sequence[Arrow]) -> float:
    """Height of a figure with its bar, things and arrows. [cm]"""
    k = scale(figure.body)
    tops = [s.y + 4 * k for s in _ends(figure, arrows)] + [
        s.y + 12.5 * k for s in (figure.hip, figure.waist, figure.shoulder, figure.head)
    ]
    tops += [extent(p)[2] for p in figure.props]
    if figure.bar:
        tops.append(figure.bar.at.y + max(3, figure.bar.disc_cm / 2))
    return max(tops)


def _broken(text: str, wide_px: float, size_px: float) -> list[str]:
    """Words in lines that fit."""
    lines: list[str] = []
    for word in text.split():
        if lines and (len(lines[-1]) + 1 + len(word)) * _LETTER * size_px <= wide_px:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines


def _words_px(cell: _Cell) -> float:
    return 6 + _LINE * (_NAME_PX * len(cell.name) + _SAYS_PX * len(cell.says))


class _Words:
    """The names and what to see, below the floors: one text element for each kind, in lines."""

    def __init__(self) -> None:
        self._names: list[str] = []
        self._says: list[str] = []

    def add(self, cell: _Cell, x: float, floor: float) -> None:
        """Write below the floor; ``x`` is the middle of the cell."""
        y = floor + 4
        for lines, size, into in ((cell.name, _NAME_PX, self._names), (cell.says, _SAYS_PX, self._says)):
            for line in lines:
                y += size * _LINE
                into.append(f'<tspan x="{x:.0f}" y="{y:.0f}">{escape(line, quote=False)}</tspan>')

    def __str__(self) -> str:
        if not self._names and not self._says:
            return ""
        names, says = "".join(self._names), "".join(self._says)
        return (
            '<g font-family="Atkinson Hyperlegible Next, sans-serif" text-anchor="middle">'
            f'<text class="fig-name" font-size="{_NAME_PX:g}" font-weight="700">{names}</text>'
            f'<text class="fig-says" font-size="{_SAYS_PX:g}">{says}</text></g>'
        )


# Ink


class _Layers:
    """The picture from the back to the front, all positions of a layer in one element, in units of 2.5 mm."""

    def __init__(self, shrink: float) -> None:
        self._shrink = shrink
        self._thin = 1.1 / shrink
        self._floor: list[str] = []
        self._mid: list[str] = []
        self._far: list[str] = []
        self._trunk: list[str] = []
        self._near: list[str] = []
        self._path: list[str] = []
        self._things: list[str] = []
        self._held: list[str] = []
        self._arrows: list[str] = []
        self._discs: list[str] = []
        self._bars: list[str] = []

    def add(self, cell: _Cell, x_px: float, floor_px: float, middle_px: float, cell_px: float) -> None:
        """Draw one position with mid-foot at ``x_px`` on a floor at ``floor_px``."""
        figure = cell.figure
        zero = round(x_px / self._shrink), round(floor_px / self._shrink)
        wide = round((cell_px - 6) / self._shrink)
        self._floor.append(f"M{round(middle_px / self._shrink) - wide // 2} {zero[1]}h{wide}")
        if cell.stands:
            self._mid.append(f"M{zero[0]} {zero[1]}v-{units(cell.top_cm)}")
        at = f'<g transform="translate({zero[0]} {zero[1]})">'
        if figure.props:
            for held, layer in ((False, self._things), (True, self._held)):
                some = "".join(thing(p) for p in figure.props if _is_held(p) == held)
                if some:
                    layer.append(f"{at}{some}</g>")
        if cell.arrows:
            self._arrows.append(f"{at}{''.join(arrow(*_arrow_ends(figure, a)) for a in cell.arrows)}</g>")
        far, trunk, near, path = Pen(zero), Pen(zero), Pen(zero), Pen(zero)
        other = near if figure.view == "front" else far
        if _differs(figure.near_leg, figure.far_leg):
            leg_path(other, figure.far_leg, figure)
        if _differs(figure.near_arm, figure.far_arm):
            arm_path(other, figure.far_arm, figure)
        trunk_path(trunk, figure)
        leg_path(near, figure.near_leg, figure)
        arm_path(near, figure.near_arm, figure)
        if len(cell.path) > 1:
            path.smooth(cell.path)
            for at_frame in cell.path[:-1]:
                path.tick(at_frame, 4.0)
        for layer, pen in ((self._far, far), (self._trunk, trunk), (self._near, near), (self._path, path)):
            layer.append(str(pen))
        if figure.bar:
            x, y = near.place(figure.bar.at)
            if figure.bar.disc_cm:
                self._discs.append(f'<circle cx="{x}" cy="{y}" r="{units(figure.bar.disc_cm / 2)}"/>')
            self._bars.append(f'<circle cx="{x}" cy="{y}" r="{max(units(1.4), round(self._thin * 2))}"/>')

    def __str__(self) -> str:
        thin = self._thin
        dash = round(thin * 3)
        mid, far, trunk = "".join(self._mid), "".join(self._far), "".join(self._trunk)
        near, path = "".join(self._near), "".join(self._path)
        parts = [
            f'<g class="fig-prop">{"".join(self._things)}</g>' if self._things else "",
            f'<path class="fig-floor" d="{"".join(self._floor)}" stroke="currentColor"/>',
            f'<path class="fig-mid" d="{mid}" stroke="currentColor" stroke-opacity=".6" '
            f'stroke-dasharray="{dash}"/>' if mid else "",
            f'<g class="fig-far" opacity="{FAR_OPACITY}"><path d="{far}"/></g>' if far else "",
            f'<path class="fig-trunk" fill-opacity="{TRUNK_OPACITY}" d="{trunk}"/>',
            f'<path class="fig-near" d="{near}"/>',
            f'<g class="fig-prop">{"".join(self._held)}</g>' if self._held else "",
            f'<g class="fig-arrow" fill="none" stroke="currentColor" stroke-width="{thin * 1.6:.3g}">'
            f'{"".join(self._arrows)}</g>' if self._arrows else "",
            f'<g class="fig-disc" fill-opacity="{DISC_OPACITY}" stroke="currentColor" '
            f'stroke-width="{thin * 1.2:.3g}">{"".join(self._discs)}</g>' if self._discs else "",
            f'<path class="fig-path" d="{path}" fill="none" stroke="{TEAL}" stroke-width="{thin * 1.5:.3g}"/>'
            if path else "",
            f'<g class="fig-bar" fill="{TEAL}">{"".join(self._bars)}</g>' if self._bars else "",
        ]  # fmt: skip
        return f'<g transform="scale({self._shrink:.4g})" stroke-width="{thin:.3g}">{"".join(parts)}</g>'


def _is_held(prop: Prop) -> bool:
    """Whether a thing is in a hand on the onlooker's side, so that it is seen before the body."""
    return prop.kind in ("dumbbell", "kettlebell", "ball", "stick") and prop.at.z >= 0 and prop.at.y > 12


def _differs(a: Leg | Arm, b: Leg | Arm) -> bool:
    return any(
        abs(getattr(a, n).x - getattr(b, n).x) + abs(getattr(a, n).y - getattr(b, n).y) > _SAME_CM
        for n in a.__struct_fields__
    )


def _arrow_ends(figure: Figure, kept: Arrow) -> tuple[Spot, Spot]:
    start = spot(figure, kept.at)
    start = Spot(start.x + kept.off[0], start.y + kept.off[1])
    return start, Spot(start.x + kept.go[0], start.y + kept.go[1])
