"""What a load stands on: the reading of a written load that one lifter's kilos and a squad's arrays share.

A ``Target`` is a multiple of something that each lifter has (a best, a bar, or a plain decagram), so that a
cycle can be turned into numbers before anybody stands beside it. All multiples are integers: permille of a
best in decagrams, and for a weight as written its *millidag* (1 dag = 1,000 millidag).
"""

from enum import IntEnum
from math import ceil, floor
from typing import Literal, NamedTuple

from meetward.catalogue.movement import Movement
from meetward.cycle.load import BarOnly, ByCategory, Kilos, Of, Percent, Pounds
from meetward.cycle.tree import Line, SetGroup
from meetward.lifter.profile import Category
from meetward.units import KG_PER_LB
from meetward.workload.count import Movements

MOST_DAG = 65_535
"""Heaviest weight on a sheet: 655 kg, more than anybody lifts and just what two bytes hold."""

MILLIDAG = 1_000

MOST_CLIMBING_SETS = 100
"""Of more sets than this only the top is computed."""


class Lift(NamedTuple):
    """A lift that a percentage stands on.

    lift : catalogue id.
    otherwise : the lift that coaches count on where there is no best of the first; empty where there is none.
    """

    lift: str
    otherwise: str = ""


class Reference(NamedTuple):
    """What a target is a multiple of.

    kind : ``best`` of the lightest of ``lifts`` (of a complex each lift counts, and the lightest decides);
        ``written`` for weights as written, one decagram for everybody; ``bar`` for the lifter's bar.
    reps : for how many repetitions the best is.
    """

    kind: Literal["best", "written", "bar"]
    lifts: tuple[Lift, ...] = ()
    reps: int = 1


WRITTEN = Reference("written")
BAR = Reference("bar")


class Rounding(IntEnum):
    """How a multiple becomes the weight."""

    NEAREST = 0  # what this bar makes, nearest, a tie to the lighter
    DOWN = 1  # the heaviest that this bar makes at or under it
    CLIMB = 2  # one step of sets that climb on this bar
    HALF_KILO = 3  # not on the bar: to the nearest half kilo, a tie to the lighter, never to nothing
    PLAIN = 4  # not on the bar, as written


class Target(NamedTuple):
    """The load of a set group, before a lifter.

    low, high : multiples of the reference [permille]; ``low`` is None where only a top is said.
        Pounds come out uneven: the ``low`` end is rounded up and the ``high`` end of a range down to whole
        millidag, which changes no comparison with a weight that a bar makes.
    on_bar : loaded on the bar; otherwise on dumbbells, a machine or a belt.
    climb_sets : over how many sets the weight climbs; 0 where it does not.
    """

    reference: Reference
    low: int | None
    high: int
    on_bar: bool
    climb_sets: int = 0

    @property
    def single(self) -> bool:
        """Whether it is one weight and no range."""
        return self.low == self.high and not self.climb_sets


def target(group: SetGroup, line: Line, catalogue: Movements, category: Category | None) -> Target | None:
    """What the load of ``group`` stands on; None where it gives no kilos (felt, open, unknown).

    category : decides loads for men and women; None takes the lighter of the two.
    """
    load = group.load
    if group.on_the_way:
        return None  # the top is that of sets behind these; how far these come nobody said
    if isinstance(load, ByCategory):
        load = load.men if category == "men" else load.women if category == "women" else _lighter(load)
    on_bar = loaded_on_bar(line, load, catalogue)
    sets = group.count.high if group.climbing and group.count else 0
    sets = 0 if sets > MOST_CLIMBING_SETS else sets
    match load:
        case Percent(low, high, of):
            reference = reference_of(line, of, catalogue)
            return _made(reference, low, high, on_bar, sets) if reference else None
        case Kilos(low, high):
            return _made(WRITTEN, None if low is None else low * MILLIDAG, high * MILLIDAG, on_bar, sets)
        case Pounds(low, high) if on_bar:
            if low == high and not sets:
                return _made(WRITTEN, _millidag(high, up=True), _millidag(high, up=True), on_bar, 0)
            low_millidag = None if low is None else _millidag(low, up=not sets)
            return _made(WRITTEN, low_millidag, _millidag(high, up=False), on_bar, sets)
        case Pounds(low, high):
            low_millidag = None if low is None else _nearest_dag(low) * MILLIDAG
            return _made(WRITTEN, low_millidag, _nearest_dag(high) * MILLIDAG, on_bar, sets)
        case BarOnly(False):
            return Target(BAR, 1_000, 1_000, True)
        case _:
            return None


def reference_of(line: Line, of: Of, catalogue: Movements) -> Reference | None:
    """What a percentage on ``line`` stands on; None where that is not known before the day or not at all."""
    movements = [m for part in line.parts if (m := catalogue.movements.get(part.movement))]
    match of.kind:
        case "top":
            return None
        case "lift":
            named = catalogue.movements.get(of.movement)
            return Reference("best", (_lift(named.id, named, catalogue),)) if named else None
        case "rep max":
            ids = [of.movement] if of.movement else [m.id for m in movements]
            lifts = tuple(dict.fromkeys(Lift(id_) for id_ in ids if id_ in catalogue.movements))
            return Reference("best", lifts, of.reps or 1) if lifts else None
        case _:
            barbell = [m for m in movements if m.barbell] or movements
            lifts = tuple(dict.fromkeys(_lift(m.reference, m, catalogue) for m in barbell))
            return Reference("best", lifts) if lifts else None


def loaded_on_bar(line: Line, load: object, catalogue: Movements) -> bool:
    """Whether the weight goes on the bar.

    For a movement that the catalogue does not know, only a percentage of a bar lift says so.
    """
    if isinstance(load, Kilos | Pounds) and load.implements > 1:
        return False
    movements = [m for part in line.parts if (m := catalogue.movements.get(part.movement))]
    if not movements and isinstance(load, Percent):
        movements = [m for m in (catalogue.movements.get(load.of.movement),) if m]
    return any(m.barbell for m in movements)


def roundings(aim: Target) -> tuple[Rounding, Rounding]:
    """How a single weight or the low end of a range is rounded, and how the top of a range is."""
    if aim.reference.kind == "bar":
        return Rounding.PLAIN, Rounding.PLAIN
    if aim.on_bar:
        return Rounding.NEAREST, Rounding.DOWN
    plain = Rounding.PLAIN if aim.reference.kind == "written" else Rounding.HALF_KILO
    return plain, plain


def _lift(lift: str, movement: Movement, catalogue: Movements) -> Lift:
    """A reference with the lift that stands in for it, by the movement or else by the reference itself."""
    named = catalogue.movements.get(lift)
    otherwise = movement.reference_else or (named.reference_else if named else "")
    return Lift(lift, "" if otherwise == lift else otherwise)


def _made(reference: Reference, low: int | None, high: int, on_bar: bool, sets: int) -> Target | None:
    """A target, or None where it says no weight or one that nobody can lift."""
    if high <= 0 or (reference.kind == "written" and high > MOST_DAG * MILLIDAG):
        return None
    if low is not None and not 0 < low <= high:
        low = None if low <= 0 else high
    return Target(reference, low, high, on_bar, sets if on_bar else 0)


def _lighter(load: ByCategory) -> Kilos | Pounds:
    def millidag(one: Kilos | Pounds) -> int:
        return one.high_dag * MILLIDAG if isinstance(one, Kilos) else _millidag(one.high_clb, up=False)

    return min(load.women, load.men, key=millidag)


def _millidag(clb: int, *, up: bool) -> int:
    """Hundredths of a pound in whole millidag, rounded up or down. 1 clb = 0.45359237 dag exactly."""
    exact = clb * KG_PER_LB * MILLIDAG
    return ceil(exact) if up else floor(exact)


def _nearest_dag(clb: int) -> int:
    return round(clb * KG_PER_LB)
