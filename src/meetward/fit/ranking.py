"""Movements of the catalogue that can stand in another's place, the best first, and why.

The points are judgement and stand in one table; a coach sees the sentences and chooses. Nothing is offered
that a restriction reaches, that wants missing kit, or that is above the lifter's level.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Equipment, Family, Level, Movement, Position
from meetward.catalogue.taught import taught
from meetward.fit.converting import share_of
from meetward.fit.restrictions import rules_out
from meetward.lifter.restrictions import Limits
from meetward.strength.repmax import in_sentence
from meetward.units import show_percent

LEVELS: dict[Level, int] = {"first": 0, "regular": 1, "advanced": 2}


class Point(NamedTuple):
    """What a candidate gets for a reason. ``said`` may name the replaced movement as ``{it}``."""

    points: int
    said: str


POINTS = {
    "instead": Point(300, "the catalogue names it in place of the {it}"),
    "instead of it": Point(200, "the catalogue names the {it} in its place"),
    "easier": Point(200, "one step easier than the {it}"),
    "next but one": Point(100, "two steps from the {it} in the catalogue"),
    "family": Point(200, "same family"),
    "kindred": Point(100, "a family that trains the same"),
    "reference": Point(100, "stands on the same best"),
    "first": Point(50, "taught early"),
    "later in the list": Point(-60, ""),
    "positions": Point(500, "trains {share} % of its positions"),
    "kilos": Point(100, "a usual ratio leads to its load"),
    "new position": Point(-40, ""),
    "new kit": Point(-60, ""),
    "machine": Point(-120, "on a machine"),
    "no bar": Point(-250, "without the bar"),
    "harder": Point(-100, "one step harder, within the lifter's level"),
}
"""Judgement: common practice, no source."""

MOST_NEW_POSITIONS = 5

Place = Literal["alone", "first", "later"]
"""Alone on a line, or the first or a later part of a complex."""

_PULLED: frozenset[Position] = frozenset(
    {"start", "below the knee", "above the knee", "power position", "pull"}
)

_MACHINES: frozenset[Equipment] = frozenset({"machine", "cable", "sled"})
"""Not in every room."""

LEAST_POINTS = 150
"""With fewer a movement has too little to do with the one that it would replace."""

KINDRED: frozenset[tuple[Family, Family]] = frozenset(
    {
        ("snatch", "pull"), ("clean", "pull"), ("pull", "hinge"), ("hinge", "pull"), ("jerk", "press"),
        ("squat", "single leg"), ("single leg", "squat"), ("overhead", "squat"), ("overhead", "press"),
        ("clean and jerk", "clean"), ("clean and jerk", "jerk"),
    }
)  # fmt: skip
"""Of a pair the second can stand in for the first. Common practice, no source."""


class Candidate(msgspec.Struct, frozen=True):
    """A movement that can stand in another's place.

    because : short reasons, the weightiest first.
    """

    movement: str
    points: int
    because: tuple[str, ...]


def candidates(
    movement: str,
    limits: Limits,
    catalogue: Catalogue,
    *,
    level: Level = "regular",
    for_kit: bool = False,
    place: Place = "alone",
) -> tuple[Candidate, ...]:
    """All that can stand in place of ``movement``, best first; equal points in the order of the catalogue.

    limits : those that hold on the day.
    level : the lifter's; nothing above it is offered.
    for_kit : only kit is missing, so a step up the ladder is open to a lifter of the level.
    place : in a complex the bar stays in the same hands and no kit comes in; later in it, the bar is up.
    Raises KeyError for a movement that the catalogue does not know.
    """
    return _candidates(movement, limits, catalogue, level, for_kit, place)


@lru_cache(maxsize=4096)
def _candidates(
    id_: str, limits: Limits, catalogue: Catalogue, level: Level, for_kit: bool, place: Place
) -> tuple[Candidate, ...]:
    original = catalogue.movements[id_]
    above = _above(id_, catalogue)
    found = []
    for movement in catalogue.movements.values():
        if movement.id == id_ or LEVELS[movement.level] > LEVELS[level]:
            continue
        harder = movement.id in above
        if harder and not for_kit:
            continue
        kin = _kin(original, movement, catalogue)
        if kin is None or _unit(movement, catalogue) != _unit(original, catalogue):
            continue
        if place != "alone" and not _follows_on(original, movement, place):
            continue
        if rules_out(movement, limits, catalogue):
            continue
        found.append(_judged(original, movement, kin, harder, catalogue))
    return tuple(sorted((one for one in found if one.points >= LEAST_POINTS), key=lambda one: -one.points))


def _judged(
    original: Movement,
    movement: Movement,
    kin: str,
    harder: bool,
    catalogue: Catalogue,
) -> Candidate:
    it = in_sentence(original.name)
    got: list[Point] = []
    if kin:
        got.append(POINTS[kin])
    if kin == "instead":
        later = original.instead.index(movement.id)
        got.append(Point(POINTS["later in the list"].points * later, ""))
    shared = len(frozenset(original.positions) & frozenset(movement.positions))
    share_permille = 1000 * shared // max(len(original.positions), 1)
    whole = POINTS["positions"]
    if shared:
        said = whole.said.format(share=show_percent(share_permille // 10 * 10))
        got.append(Point(whole.points * share_permille // 1000, said))
    if movement.family == original.family:
        got.append(POINTS["family"])
    elif (original.family, movement.family) in KINDRED:
        got.append(POINTS["kindred"])
    if movement.level == "first":
        got.append(POINTS["first"])
    if movement.reference == original.reference:
        got.append(POINTS["reference"])
    if share_of(original.reference, movement, catalogue) is not None:
        got.append(POINTS["kilos"])
    if original.barbell and not movement.barbell:
        got.append(POINTS["no bar"])
    if harder:
        got.append(POINTS["harder"])
    new = len(frozenset(movement.positions) - frozenset(original.positions) - {"grip"})
    got.append(Point(POINTS["new position"].points * min(new, MOST_NEW_POSITIONS), ""))
    kit = frozenset(movement.equipment) - frozenset(original.equipment) - {"none", "mat", "wall"}
    got.append(Point(POINTS["new kit"].points * len(kit), ""))
    if kit & _MACHINES:
        got.append(POINTS["machine"])
    said_of = [point for point in got if point.said and point.points]
    because = [p.said.format(it=it) for p in sorted(said_of, key=lambda point: -abs(point.points))]
    return Candidate(movement.id, sum(point.points for point in got), tuple(because))


def _kin(original: Movement, movement: Movement, catalogue: Catalogue) -> str | None:
    """The row of `POINTS` for how the catalogue links them; empty for mere likeness, None for strangers."""
    if movement.id in original.instead:
        return "instead"
    if original.id in movement.instead:
        return "instead of it"
    if movement.id in original.easier:
        return "easier"
    if movement.id in _next_but_one(original.id, catalogue):
        return "next but one"
    if movement.family == original.family:
        return ""
    alike = (original.family, movement.family) in KINDRED or movement.reference == original.reference
    return "" if alike and frozenset(original.positions) & frozenset(movement.positions) else None


@lru_cache(maxsize=1024)
def _next_but_one(id_: str, catalogue: Catalogue) -> frozenset[str]:
    original = catalogue.movements[id_]
    near = [catalogue.movements[n] for n in (*original.instead, *original.easier) if n in catalogue.movements]
    return frozenset(far for one in near for far in (*one.instead, *one.easier))


@lru_cache(maxsize=1024)
def _above(id_: str, catalogue: Catalogue) -> frozenset[str]:
    """Everything up the ladder from a movement, by either movement's own word."""
    above: set[str] = set()
    edge = {id_}
    while edge:
        edge = {up for low in edge for up in _ups(catalogue).get(low, ())} - above - {id_}
        above |= edge
    return frozenset(above)


@lru_cache(maxsize=8)
def _ups(catalogue: Catalogue) -> dict[str, set[str]]:
    ups: dict[str, set[str]] = {}
    for low, high in _rungs(catalogue):
        ups.setdefault(low, set()).add(high)
    return ups


def _rungs(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    for movement in catalogue.movements.values():
        yield from ((movement.id, harder) for harder in movement.harder)
        yield from ((easier, movement.id) for easier in movement.easier)


@lru_cache(maxsize=4096)
def _unit_of(id_: str, catalogue: Catalogue) -> str:
    usual = taught(catalogue.movements[id_], catalogue.shared).usual
    if not usual or any(one.reps for one in usual):
        return "reps"
    return "seconds" if usual[0].seconds else "metres"


def _unit(movement: Movement, catalogue: Catalogue) -> str:
    """What its sets are counted in: sets and reps of one are nothing for a carry."""
    return _unit_of(movement.id, catalogue)


def _follows_on(original: Movement, movement: Movement, place: Place) -> bool:
    """Whether it can stand at the same place of a complex: bar in the same hands, up or down as before."""
    kit = frozenset(original.equipment) | {"bar", "discs"}
    if place == "later":
        pulled = bool(_PULLED.intersection(movement.positions))
        if pulled and not _PULLED.intersection(original.positions):
            return False
        kit |= {"rack"}
    return movement.barbell and _grip(movement) == _grip(original) and frozenset(movement.equipment) <= kit


def _grip(movement: Movement) -> str:
    """Wide for what stands on the snatch; a squat from the back rack follows on from nothing."""
    if "back rack" in movement.positions and "behind the neck" not in movement.positions:
        return "back"
    wide = movement.reference in ("snatch", "overhead_squat", "snatch_balance")
    return "wide" if wide else "narrow"
