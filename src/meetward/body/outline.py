"""The drawn lifter's outlines: tapering limbs, a trunk that bends, a head in profile, a shoe with its heel.

Widths are in cm for a lifter of 170 cm (see `flesh`), drawn from the eye.
"""

from math import hypot
from typing import NamedTuple

from meetward.body.figure import Arm, Figure, Leg, Spot
from meetward.body.flesh import ELBOW_CM, KNEE_CM, scale
from meetward.body.pen import Pen
from meetward.body.reaching import along, down, minus, up


class Taper(NamedTuple):
    """Half-widths of a segment: its start, its front a third and two thirds along, its back, its end."""

    start: float
    front: tuple[float, float]
    back: tuple[float, float]
    end: float


THIGH = Taper(9.4, (11.6, 7.2), (11.0, 6.6), KNEE_CM)
SHIN = Taper(KNEE_CM, (5.6, 3.4), (10.4, 3.8), 3.4)
UPPER_ARM = Taper(6.2, (6.8, 4.8), (6.6, 4.4), ELBOW_CM)
FOREARM = Taper(ELBOW_CM, (5.8, 3.0), (5.0, 2.8), 2.6)
FIST = Taper(2.6, (3.2, 3.8), (3.2, 3.8), 3.6)
OPEN_HAND = Taper(2.6, (3.6, 3.2), (3.2, 2.6), 1.4)
NECK = Taper(5.2, (5.2, 5.0), (5.6, 6.0), 6.4)
"""From the head down."""

_TRUNK = (
    # share of the way from hip to shoulder, half-width before and behind the line
    (-0.20, 3.0, 5.0),
    (0.0, 8.8, 11.8),
    (0.34, 8.8, 8.2),
    (0.70, 11.4, 10.4),
    (0.94, 8.8, 9.4),
    (1.08, 4.0, 5.0),
)
_HEAD = (
    # before the middle of the head and above it
    (1.0, 12.0), (8.6, 6.0), (10.8, -1.6), (8.4, -3.8), (7.6, -10.0), (2.6, -11.6), (-7.6, -5.6), (-8.4, 6.6),
)  # fmt: skip
_FRONT_TRUNK = (
    # share of the way from hip to shoulder, half-width
    (-0.24, 5.0), (-0.06, 15.0), (0.12, 15.6), (0.45, 12.6), (0.76, 16.6), (0.96, 18.0), (1.08, 6.4),
)  # fmt: skip
_FRONT_HEAD = ((0.0, 12.0), (6.8, 9.0), (8.4, 1.0), (5.8, -8.2), (0.0, -12.0))
"""Right half of the head from its crown to its chin."""
_FRONT_THIGH = Taper(8.6, (9.4, 7.0), (9.4, 6.6), KNEE_CM)
_FRONT_SHIN = Taper(KNEE_CM, (6.6, 3.8), (6.6, 3.8), 3.4)
_FRONT_SHOE = Taper(4.2, (4.6, 5.0), (4.6, 5.0), 4.4)
TOES_OUT_CM = 5.0

_CLOSED_CM = 7.0
"""A hand this near the bar is drawn around it."""


def limb(
    pen: Pen,
    start: Spot,
    end: Spot,
    taper: Taper,
    k: float,
    *,
    open_start: bool = False,
    open_end: bool = False,
) -> None:
    """One segment with round ends, or a flat start where its neighbour ends round (``open_start``).

    Its front is on the side that faces forwards when a standing lifter's limb hangs down.
    """
    dx, dy = end.x - start.x, end.y - start.y
    long = hypot(dx, dy)
    if long < 0.5:  # it points at the onlooker: its end is all that is seen
        dx, dy, long = 0.0, -0.5, 0.5
    front = Spot(-dy / long, dx / long)

    def at(share: float, wide: float) -> Spot:
        return Spot(start.x + dx * share + front.x * wide * k, start.y + dy * share + front.y * wide * k)

    pen.move(at(0, taper.start))
    pen.curve(at(1 / 3, taper.front[0]), at(2 / 3, taper.front[1]), at(1, taper.end))
    pen.cap(taper.end * k, at(1, -taper.end))
    pen.curve(at(2 / 3, -taper.back[1]), at(1 / 3, -taper.back[0]), at(0, -taper.start))
    if not open_start:
        pen.cap(taper.start * k, at(0, taper.start))
    pen.close()


def leg_path(pen: Pen, leg: Leg, figure: Figure) -> None:
    """Thigh, shin and shoe in one path."""
    k = scale(figure.body)
    if figure.view == "front":
        limb(pen, leg.hip, leg.knee, _FRONT_THIGH, k)
        limb(pen, leg.knee, leg.ankle, _FRONT_SHIN, k, open_start=True)
        rise = 4.4 * k  # the shoe is as thick as its outline, and its outline stands on the floor
        out = TOES_OUT_CM * k * (1.0 if leg.hip.x > figure.hip.x else -1.0)
        limb(pen, leg.ankle, Spot(leg.ball.x + out, leg.ball.y + rise), _FRONT_SHOE, k)
        return
    limb(pen, leg.hip, leg.knee, THIGH, k)
    limb(pen, leg.knee, leg.ankle, SHIN, k, open_start=True, open_end=True)
    _shoe(pen, leg, k)


def _shoe(pen: Pen, leg: Leg, k: float) -> None:
    """A shoe with a heel block and an arch before it."""
    long = hypot(leg.ball.x - leg.heel.x, leg.ball.y - leg.heel.y) or 1.0
    ahead = Spot((leg.ball.x - leg.heel.x) / long, (leg.ball.y - leg.heel.y) / long)
    over = Spot(-ahead.y, ahead.x)
    tip = hypot(leg.toe.x - leg.ball.x, leg.toe.y - leg.ball.y) or 1.0
    tip_ahead = Spot((leg.toe.x - leg.ball.x) / tip, (leg.toe.y - leg.ball.y) / tip)
    tip_over = Spot(-tip_ahead.y, tip_ahead.x)

    def rear(forwards: float, above: float) -> Spot:
        return Spot(
            leg.heel.x + ahead.x * forwards + over.x * above * k,
            leg.heel.y + ahead.y * forwards + over.y * above * k,
        )

    def front(forwards: float, above: float) -> Spot:
        return Spot(
            leg.ball.x + tip_ahead.x * forwards + tip_over.x * above * k,
            leg.ball.y + tip_ahead.y * forwards + tip_over.y * above * k,
        )

    ankle_x = (leg.ankle.x - leg.heel.x) * ahead.x + (leg.ankle.y - leg.heel.y) * ahead.y
    high = ((leg.ankle.x - leg.heel.x) * over.x + (leg.ankle.y - leg.heel.y) * over.y) / k + 1.2
    pen.move(rear(0, 0)).line(rear(-0.6, 1.5))
    pen.curve(rear(-0.2, 4.0), rear(ankle_x - 5.0 * k, 5), rear(ankle_x - 4.2 * k, high))
    pen.line(rear(ankle_x + 3.9 * k, high))
    pen.curve(rear(ankle_x + 5.5 * k, high - 2.5), rear(long - 1, 6.8), front(0.5, 5.0))
    pen.curve(front(tip * 0.6, 4.6), front(tip + 0.8, 3.8), front(tip, 1.0))
    pen.line(front(tip - 0.6, 0)).line(front(0, 0))
    pen.line(rear(long * 0.58, 0.9)).line(rear(long * 0.45, 0.9)).line(rear(long * 0.43, 0)).close()


def arm_path(pen: Pen, arm: Arm, figure: Figure) -> None:
    """Upper arm, forearm and hand in one path; the hand closes where it holds the bar."""
    k = scale(figure.body)
    limb(pen, arm.shoulder, arm.elbow, UPPER_ARM, k)
    limb(pen, arm.elbow, arm.wrist, FOREARM, k, open_start=True)
    bar = figure.bar
    if bar and hypot(arm.grip.x - bar.at.x, arm.grip.y - bar.at.y) < _CLOSED_CM:
        limb(pen, arm.wrist, arm.grip, FIST, k, open_start=True)
    else:
        limb(pen, arm.wrist, fingertips(arm), OPEN_HAND, k, open_start=True)


def fingertips(arm: Arm) -> Spot:
    """Where an open hand ends in the drawing."""
    way = minus(arm.grip, arm.wrist)
    return along(arm.wrist, way, 1.9)


def trunk_path(pen: Pen, figure: Figure) -> None:
    """Trunk, neck and head in one path."""
    k = scale(figure.body)
    if figure.view == "front":
        _front_trunk(pen, figure, k)
        return
    before: list[Spot] = []
    behind: list[Spot] = []
    for share, front, back in _TRUNK:
        at, way = _on_the_spine(figure, share)
        ahead = Spot(way.y, -way.x)
        before.append(Spot(at.x + ahead.x * front * k, at.y + ahead.y * front * k))
        behind.append(Spot(at.x - ahead.x * back * k, at.y - ahead.y * back * k))
    pen.smooth([*behind, *reversed(before)], closed=True)
    limb(pen, figure.head, figure.shoulder, NECK, k, open_start=True)
    gaze, crown = down(90 + figure.looks_degrees), up(-figure.looks_degrees)
    middle = figure.head
    pen.smooth(
        [
            Spot(middle.x + (gaze.x * a + crown.x * b) * k, middle.y + (gaze.y * a + crown.y * b) * k)
            for a, b in _HEAD
        ],
        closed=True,
    )


def _front_trunk(pen: Pen, figure: Figure, k: float) -> None:
    """Trunk, neck and head as seen by somebody whom the lifter faces."""
    left, right = [], []
    for share, half in _FRONT_TRUNK:
        at, way = _on_the_spine(figure, share)
        left.append(Spot(at.x - way.y * half * k, at.y + way.x * half * k))
        right.append(Spot(at.x + way.y * half * k, at.y - way.x * half * k))
    pen.smooth([*left, *reversed(right)], closed=True)
    limb(pen, figure.head, figure.shoulder, NECK, k, open_start=True)
    dx, dy = figure.head.x - figure.shoulder.x, figure.head.y - figure.shoulder.y
    long = hypot(dx, dy) or 1.0
    crown, aside = Spot(dx / long, dy / long), Spot(dy / long, -dx / long)
    round_ = [*_FRONT_HEAD, *((-a, b) for a, b in reversed(_FRONT_HEAD[1:-1]))]
    head = figure.head
    pen.smooth(
        [
            Spot(head.x + (aside.x * a + crown.x * b) * k, head.y + (aside.y * a + crown.y * b) * k)
            for a, b in round_
        ],
        closed=True,
    )


def _on_the_spine(figure: Figure, share: float) -> tuple[Spot, Spot]:
    """A place on the line hip, waist, shoulder and its way up; the bend is spread over the middle third."""
    hip, waist, shoulder = figure.hip, figure.waist, figure.shoulder
    half = figure.body.trunk_cm / 2
    lower = Spot((waist.x - hip.x) / half, (waist.y - hip.y) / half)
    upper = Spot((shoulder.x - waist.x) / half, (shoulder.y - waist.y) / half)
    blend = min(1.0, max(0.0, (share - 1 / 3) * 3))
    way = Spot(lower.x + (upper.x - lower.x) * blend, lower.y + (upper.y - lower.y) * blend)
    size = hypot(way.x, way.y) or 1.0
    if share <= 0.5:
        at = Spot(hip.x + lower.x * half * 2 * share, hip.y + lower.y * half * 2 * share)
    else:
        beyond = half * 2 * (share - 0.5)
        at = Spot(waist.x + upper.x * beyond, waist.y + upper.y * beyond)
    return at, Spot(way.x / size, way.y / size)
