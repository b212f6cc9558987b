"""Bests derived from other lifts by the usual ratios: placeholders with a range, never a prescription.

The catalogue's ratios make a graph: a movement is so much of another, and read the other way, the other is
one part of so much. A missing best is taken along the fewest ratios from a lift that is known; among equally
few, along those that leave the narrowest range. Ranges multiply. Loads that people work with (pulls) are no
bests and lead nowhere.

Everything is exact in fractions; at the end the typical weight is rounded to 10 g (an exact half to the even
one), the low end down and the high end up.
"""

from fractions import Fraction
from functools import lru_cache
from math import ceil, floor

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import Best
from meetward.lifter.profile import Lifter
from meetward.strength.bests import Known, known_best, lift_said
from meetward.strength.repmax import about
from meetward.units import show_kg, show_percent
from meetward.why import Why

MOST_STEPS = 3

HALF_WIDTH = Fraction(13, 100)
"""Held 80 of 100 filled bests in a trial on simulated squads; real squads may be wider."""


class Step(msgspec.Struct, frozen=True):
    """One ratio of a path: ``to`` is ``typical`` times ``of``.

    inverted : the catalogue has it the other way round.
    """

    of: str
    to: str
    low: Fraction
    typical: Fraction
    high: Fraction
    source: str
    inverted: bool


class Derived(msgspec.Struct, frozen=True):
    """A best that nobody lifted.

    low_dag, high_dag : the wider of the ratios' range and ±13 %. [10 g]
    typical_dag : by the typical ratios. [10 g]
    source : the best that it was derived from.
    path : the ratios from there, in order.
    said : in words: "best front squat about 110 kg (derived from the back squat, 96 to 125 kg)".
    """

    lift: str
    low_dag: int
    typical_dag: int
    high_dag: int
    source: Best
    path: tuple[Step, ...]
    said: str
    why: Why


def working_best(
    lifter: Lifter, lift: str, catalogue: Catalogue, *, reps: int = 1, otherwise: str = ""
) -> Known | Derived | None:
    """What percentages of ``lift`` stand on: its best, else that of ``otherwise``, else a derived one.

    Where of ``lift`` only a lower bound is known, a heavier best of ``otherwise`` goes before it.

    otherwise : lift whose best coaches take instead, as it is (`Movement.reference_else`); empty for none.
    reps : for a best of more reps, which is never derived.
    """
    known = known_best(lifter, lift, catalogue, reps=reps)
    if otherwise and (known is None or known.at_least):
        stand_in = known_best(lifter, otherwise, catalogue, reps=reps)
        if stand_in is not None and (known is None or stand_in.dag > known.dag):
            known = stand_in
    if known is not None or reps > 1:
        return known
    return derive(lifter, lift, catalogue)


def derive(lifter: Lifter, lift: str, catalogue: Catalogue) -> Derived | None:
    """The best of ``lift`` by the other lifts, also where it is known itself; None when none leads there."""
    found: tuple[tuple[int, Fraction, int], _Route, Known] | None = None
    routes = _routes(catalogue, lift)
    for place, source in enumerate(dict.fromkeys(best.lift for best in lifter.bests)):
        route = routes.get(source)
        known = known_best(lifter, source, catalogue) if route is not None else None
        # "At least so much" says nothing about another lift.
        if route is None or known is None or known.at_least:
            continue
        width = route.high * known.high_dag / (route.low * known.low_dag)
        rank = (len(route.path), width, place)
        if found is None or rank < found[0]:
            found = rank, route, known
    return _derived(lift, found[1], found[2], catalogue) if found else None


def between(of: str, to: str, catalogue: Catalogue) -> tuple[Step, ...] | None:
    """The ratios that lead from the best of one lift to that of another, as `derive` would take them.

    Empty for a lift and itself; None where none lead there in `MOST_STEPS`.
    """
    if of == to:
        return ()
    route = _routes(catalogue, to).get(of)
    return route.path if route else None


class _Route(msgspec.Struct, frozen=True):
    """A path from a known lift to the one asked for, with its ratios multiplied."""

    path: tuple[Step, ...]
    low: Fraction = Fraction(1)
    typical: Fraction = Fraction(1)
    high: Fraction = Fraction(1)

    def before(self, step: Step) -> "_Route":
        """The route that starts one step earlier."""
        return _Route(
            (step, *self.path), step.low * self.low, step.typical * self.typical, step.high * self.high
        )


@lru_cache(maxsize=1024)
def _routes(catalogue: Catalogue, lift: str) -> dict[str, _Route]:
    """The best route to ``lift`` from every lift that is at most ``MOST_STEPS`` ratios away."""
    steps = _steps_to(catalogue)
    routes: dict[str, _Route] = {}
    edge = {lift: _Route(())}
    for _ in range(MOST_STEPS):
        farther: dict[str, _Route] = {}
        for here, route in edge.items():
            for step in steps.get(here, ()):
                if step.of == lift or step.of in routes:
                    continue
                longer = route.before(step)
                known = farther.get(step.of)
                if known is None or longer.high * known.low < known.high * longer.low:
                    farther[step.of] = longer
        routes |= farther
        edge = farther
    return routes


@lru_cache(maxsize=8)
def _steps_to(catalogue: Catalogue) -> dict[str, list[Step]]:
    """All ratios, both ways round, by the lift that they lead to; the catalogue's own way first."""
    steps: dict[str, list[Step]] = {}
    inverted: list[Step] = []
    for movement in catalogue.movements.values():
        for ratio in movement.ratios:
            if ratio.working_load or ratio.low_permille <= 0:
                continue
            low, typical, high = (
                Fraction(permille, 1000)
                for permille in (ratio.low_permille, ratio.typical_permille, ratio.high_permille)
            )
            steps.setdefault(movement.id, []).append(
                Step(ratio.of, movement.id, low, typical, high, ratio.source, False)
            )
            inverted.append(Step(movement.id, ratio.of, 1 / high, 1 / typical, 1 / low, ratio.source, True))
    for step in inverted:
        # Sources disagree now and then; what the catalogue says of a lift goes before what it says the other
        # way round.
        if all(known.of != step.of for known in steps.get(step.to, ())):
            steps.setdefault(step.to, []).append(step)
    return steps


def _derived(lift: str, route: _Route, known: Known, catalogue: Catalogue) -> Derived:
    exact = route.typical * known.dag
    low = floor(min(route.low * known.low_dag, exact * (1 - HALF_WIDTH)))
    high = ceil(max(route.high * known.high_dag, exact * (1 + HALF_WIDTH)))
    typical = round(exact)
    name = lift_said(lift, catalogue)
    spread = f"{about(low)} to {about(high)} kg"
    source = lift_said(known.lift, catalogue)
    said = f"best {name} about {about(typical)} kg (derived from the {source}, {spread})"
    why = Why(
        f"No best {name} is known. By the usual ratios the {known.said} points to about {about(typical)} kg, "
        f"somewhere from {spread}: a placeholder, so work up and see.",
        inputs=(
            (f"best {source}", f"{show_kg(known.dag)} kg"),
            *(
                (f"{lift_said(step.to, catalogue)} of {lift_said(step.of, catalogue)}", _share(step))
                for step in route.path
            ),
        ),
        rule=(
            "fewest ratios, then the narrowest range; ranges multiply, and the range is never narrower than "
            "±13 %, "
            "which held 80 of 100 filled bests in a trial on simulated data"
        ),
        source="; ".join(dict.fromkeys(step.source for step in route.path)),
        because=(known.why,),
    )
    return Derived(lift, low, typical, high, known.best, route.path, said, why)


def _share(step: Step) -> str:
    """``"85 % (83 to 90 %)"``."""
    low, typical, high = (show_percent(round(share * 1000)) for share in (step.low, step.typical, step.high))
    return f"{typical} % ({low} to {high} %)"
