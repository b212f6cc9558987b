"""The best that a lifter is known to have of a lift, and how it is known.

A single counts before an estimate, since an estimate from reps is no lift. Only where a set of more reps was
done with more than the single does the set count, for then the single is known to be out of date.
"""

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import Best
from meetward.lifter.profile import Lifter
from meetward.strength.repmax import Estimate, about, from_set, in_sentence
from meetward.units import show_kg
from meetward.why import Why

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class Known(msgspec.Struct, frozen=True):
    """A best that somebody lifted or stated, or that a set of more reps points to.

    lift : catalogue id of the lift whose best it is.
    dag : the weight to count on. [10 g]
    low_dag, high_dag : equal to ``dag`` for a single; the spread of the equations for an estimate. [10 g]
    best : the entry of the profile that it comes from.
    at_least : the true best is ``dag`` or more: a set of more reps of a lift for which nothing better can be
        said.
    said : in words: "best snatch 85 kg (tested 3 Oct 2026)".
    """

    lift: str
    dag: int
    low_dag: int
    high_dag: int
    best: Best
    at_least: bool
    said: str
    why: Why


def known_best(lifter: Lifter, lift: str, catalogue: Catalogue, *, reps: int = 1) -> Known | None:
    """The best of a lift for a number of reps; None when the profile has nothing to go by.

    For more than one rep only a best of exactly so many reps counts. For a single see the module. A lift
    that the catalogue does not know has singles only.
    """
    single = lifter.best(lift, reps)
    movement = catalogue.movements.get(lift)
    if reps > 1 or movement is None:
        return _lifted(single, catalogue) if single else None
    heaviest = single.dag if single else 0
    sets = [best for best in lifter.bests if best.lift == lift and best.reps > 1 and best.dag > heaviest]
    answers = [(from_set(best.dag, best.reps, movement), best) for best in sets]
    estimates = [(answer, best) for answer, best in answers if isinstance(answer, Estimate)]
    if estimates:
        # Fewer reps say more; of equally many the heavier set.
        estimate, best = min(estimates, key=lambda pair: (pair[1].reps, -pair[1].dag))
        return _estimated(estimate, best, catalogue)
    if sets:
        return _at_least(max(sets, key=lambda best: best.dag), catalogue)
    return _lifted(single, catalogue) if single else None


def lift_said(lift: str, catalogue: Catalogue) -> str:
    """The name of a lift inside a sentence: "clean and jerk"."""
    movement = catalogue.movements.get(lift)
    return in_sentence(movement.name) if movement else lift.replace("_", " ")


def how_known(best: Best) -> str:
    """Kind and day: "tested 3 Oct 2026", "stated, day not given"."""
    if best.on is None:
        return f"{best.kind}, day not given"
    return f"{best.kind} {best.on.day} {_MONTHS[best.on.month - 1]} {best.on.year}"


def _lifted(best: Best, catalogue: Catalogue) -> Known:
    reps = f" for {best.reps} reps" if best.reps > 1 else ""
    said = f"best {lift_said(best.lift, catalogue)}{reps} {show_kg(best.dag)} kg ({how_known(best)})"
    why = Why(
        f"The {said} stands in the profile.",
        inputs=(
            (f"best {lift_said(best.lift, catalogue)}{reps}", f"{show_kg(best.dag)} kg, {how_known(best)}"),
        ),
        rule="heaviest best of the profile; at equal weight tested before estimated before stated",
    )
    return Known(best.lift, best.dag, best.dag, best.dag, best, False, said, why)


def _estimated(estimate: Estimate, best: Best, catalogue: Catalogue) -> Known:
    said = (
        f"best {lift_said(best.lift, catalogue)} about {about(estimate.typical_dag)} kg "
        f"(estimated from {show_kg(best.dag)} kg × {best.reps}, {how_known(best)})"
    )
    why = Why(
        f"The {said} lies between {about(estimate.low_dag)} and {about(estimate.high_dag)} kg by seven "
        "equations.",
        inputs=((f"best for {best.reps} reps", f"{show_kg(best.dag)} kg, {how_known(best)}"),),
        rule="a set of more reps counts only where no single as heavy is known; the middle of seven "
        "equations",
        source=estimate.why.source,
        because=(estimate.why,),
    )
    return Known(best.lift, estimate.typical_dag, estimate.low_dag, estimate.high_dag, best, False, said, why)


def _at_least(best: Best, catalogue: Catalogue) -> Known:
    said = (
        f"best {lift_said(best.lift, catalogue)} at least {show_kg(best.dag)} kg "
        f"({show_kg(best.dag)} kg × {best.reps}, {how_known(best)})"
    )
    why = Why(
        f"The {said} stands in the profile; no equation for reps holds for it, so the set's own weight "
        "counts.",
        inputs=((f"best for {best.reps} reps", f"{show_kg(best.dag)} kg, {how_known(best)}"),),
        rule="no estimate from reps on the classical lifts or above ten reps; the set's weight is a lower "
        "bound",
        source="judgement: none of the published equations was made on these lifts",
    )
    return Known(best.lift, best.dag, best.dag, best.dag, best, True, said, why)
