"""The things around a lifter as SVG elements: outlines in the colour of the text, lightly filled."""

from math import atan2, cos, hypot, pi, sin

from meetward.body.figure import Prop, PropKind, Spot
from meetward.body.pen import PER_CM, Pen, units

_SIZES: dict[PropKind, tuple[float, float]] = {
    "box": (50, 45), "block": (35, 20), "bench": (110, 43), "wall": (6, 190), "mat": (180, 2),
    "roller": (14, 14), "ball": (9, 9), "stick": (3, 3), "band": (0, 0), "dumbbell": (16, 16),
    "kettlebell": (20, 26), "pull-up bar": (3, 3), "rack": (6, 150), "rings": (18, 18), "cable": (0, 0),
    "bag": (45, 28), "wedge": (30, 6), "rope": (0, 0), "sled": (70, 60),
}  # fmt: skip
"""Width and height where a prop gives none. [cm]"""

IRON = "#8A919C"
"""Of things in the hand: seen on paper and before the ink of a limb, in either scheme."""
_SOLID = 'fill="currentColor" fill-opacity=".14" stroke="currentColor"'


def size(prop: Prop) -> tuple[float, float]:
    """Width and height of a prop as it is drawn. [cm]"""
    wide, high = _SIZES[prop.kind]
    wide = prop.wide_cm or wide
    return wide, prop.high_cm or (wide if prop.kind in ROUND else high)


ROUND = ("roller", "ball", "stick", "dumbbell", "pull-up bar", "rings")


def extent(prop: Prop) -> tuple[float, float, float]:
    """Left, right and top of a prop. [cm]"""
    wide, high = size(prop)
    xs, ys = [prop.at.x - wide / 2, prop.at.x + wide / 2], [prop.at.y + high]
    if prop.to:
        xs.append(prop.to.x)
        ys.append(prop.to.y)
    return min(xs), max(xs), max(ys)


def thing(prop: Prop) -> str:
    """A prop as SVG elements in drawing units; line widths come from the group around."""
    wide, high = size(prop)
    at = prop.at
    if prop.to is not None:
        return _from_to(prop, at, prop.to)
    if prop.kind in ("dumbbell", "roller", "ball", "stick", "pull-up bar", "rings"):
        return _round(prop.kind, at, wide)
    if prop.kind == "kettlebell":
        return _kettlebell(at, wide)
    if prop.kind == "bench":
        return _bench(at, wide, high)
    if prop.kind == "wedge":
        left, right = at.x - wide / 2, at.x + wide / 2
        pen = Pen().move(Spot(left, at.y)).line(Spot(right, at.y)).line(Spot(left, at.y + high)).close()
        return f'<path d="{pen}" {_SOLID}/>'
    if prop.kind == "rack":
        pen = Pen().move(Spot(at.x, at.y)).line(Spot(at.x, at.y + high))
        pen.move(Spot(at.x - wide * 3, at.y)).line(Spot(at.x + wide * 3, at.y))
        return f'<path d="{pen}" fill="none" stroke="currentColor" stroke-width="18" stroke-opacity=".4"/>'
    if prop.kind == "sled":
        pen = Pen().move(Spot(at.x - wide / 2, at.y + 2)).line(Spot(at.x + wide / 2, at.y + 2))
        pen.move(Spot(at.x - wide * 0.36, at.y + 2)).line(Spot(at.x - wide * 0.36, at.y + high))
        return f'<path d="{pen}" fill="none" stroke="currentColor" stroke-width="20" stroke-opacity=".5"/>'
    round_ = 12 if prop.kind == "bag" else 3
    return (
        f'<rect x="{units(at.x - wide / 2)}" y="{-units(at.y + high)}" width="{units(wide)}" '
        f'height="{units(high)}" rx="{round_}" {_SOLID}/>'
    )


def _round(kind: PropKind, at: Spot, wide: float) -> str:
    x, y, r = units(at.x), -units(at.y), max(2, units(wide / 2))
    circle = f'<circle cx="{x}" cy="{y}" r="{r}"'
    if kind in ("stick", "pull-up bar"):
        return f'{circle} fill="currentColor"/>'
    if kind == "rings":
        strap = f'<path d="M{x} {y - r}v-{20 * PER_CM}" stroke="currentColor"/>'
        return f'{circle} fill="none" stroke="currentColor"/>{strap}'
    inner = f'<circle cx="{x}" cy="{y}" r="{max(1, r // 3)}" fill="currentColor"/>' if kind != "ball" else ""
    return f'{circle} fill="{IRON}" stroke="currentColor"/>{inner}'


def _kettlebell(at: Spot, wide: float) -> str:
    """``at`` is the middle of the handle; the ball hangs below."""
    r = wide / 2
    left, right, high, low = at.x - r * 0.6, at.x + r * 0.6, at.y + r * 0.3, at.y - r * 0.8
    pen = Pen().move(Spot(left, low))
    pen.curve(Spot(left - r * 0.2, high), Spot(right + r * 0.2, high), Spot(right, low))
    ball = (
        f'<circle cx="{units(at.x)}" cy="{-units(at.y - r * 1.5)}" r="{units(r)}" fill="{IRON}" '
        f'stroke="currentColor"/>'
    )
    return f'<path d="{pen}" fill="none" stroke="currentColor"/>{ball}'


def _bench(at: Spot, wide: float, high: float) -> str:
    left, right, pad = at.x - wide / 2, at.x + wide / 2, 8.0
    pen = Pen()
    for x in (left + 0.12 * wide, right - 0.12 * wide):
        pen.move(Spot(x, at.y)).line(Spot(x, at.y + high - pad))
    top = (
        f'<rect x="{units(left)}" y="{-units(at.y + high)}" width="{units(wide)}" height="{units(pad)}" '
        f'rx="12" {_SOLID}/>'
    )
    return f'<path d="{pen}" fill="none" stroke="currentColor"/>{top}'


def _from_to(prop: Prop, at: Spot, to: Spot) -> str:
    """What stretches between two places. A bench or wedge so drawn is a board that slants."""
    pen = Pen().move(at).line(to)
    if prop.kind == "band":
        return f'<path d="{pen}" fill="none" stroke="currentColor" stroke-width="16" stroke-opacity=".55"/>'
    if prop.kind in ("stick", "sled"):
        return f'<path d="{pen}" fill="none" stroke="currentColor" stroke-width="12" stroke-linecap="round"/>'
    if prop.kind in ("bench", "box", "wedge", "mat"):
        return f'<path d="{pen}" stroke="currentColor" stroke-width="36" stroke-opacity=".35"/>'
    return f'<path d="{pen}" fill="none" stroke="currentColor"/>'


def arrow(start: Spot, end: Spot) -> str:
    """Where something moves to: a line with an open head."""
    long = hypot(end.x - start.x, end.y - start.y) or 1.0
    turn = atan2(end.y - start.y, end.x - start.x)
    wing = min(6.0, long * 0.4)
    pen = Pen().move(start).line(end)
    for aside in (pi * 0.84, -pi * 0.84):
        pen.move(Spot(end.x + wing * cos(turn + aside), end.y + wing * sin(turn + aside))).line(end)
    return f'<path class="fig-arrow" d="{pen}" fill="none" stroke="currentColor" stroke-linecap="round"/>'
