"""A best from a set of more reps: seven published equations, one function each, and what they say together.

Each takes the load ``w`` of a set taken to the last possible rep [10 g] and its reps ``r``, and returns the
single that the equation expects [10 g], rounded to 10 g (an exact half to the even one). Transcendental
functions are computed to 28 decimal digits, so that rounding is the only loss.

All were fitted on presses, squats and pulls of mixed groups, none on the snatch or the clean and jerk, and
all get worse as reps rise (Whisenant et al. 2003, J Strength Cond Res 17(2):221-227; Reynolds, Gordon and
Robergs 2006, J Strength Cond Res 20(3):584-592, who advise no more than ten reps). So every function here
takes 1 to 10 reps, and a single is always itself, also where the equation would say more. Equations as
restated in tests/authorities/repmax.md.
"""

from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from fractions import Fraction
from statistics import median

import msgspec

from meetward.catalogue.movement import Family, Movement
from meetward.units import show_kg
from meetward.why import Why

MOST_REPS = 10
"""Above this the equations part; see the module's sources."""

_PROPER = frozenset(("Romanian", "Bulgarian", "Russian", "Cossack", "Nordic", "Pallof", "Turkish", "Sots"))

FAMILIES: frozenset[Family] = frozenset({"squat", "press", "pull"})
"""Where an estimate is made. A judgement: no equation was made on the classical lifts, few on others."""


def epley_dag(load_dag: int, reps: int) -> int:
    """``w (1 + r / 30)`` (Epley 1985, poundage chart). Unguarded, a single would grow by 3.3 %."""
    return _single(load_dag, reps) or round(Fraction(load_dag) * (30 + reps) / 30)


def brzycki_dag(load_dag: int, reps: int) -> int:
    """``36 w / (37 - r)`` (Brzycki 1993, JOPERD 64(1):88-90)."""
    return _single(load_dag, reps) or round(Fraction(load_dag) * 36 / (37 - reps))


def lander_dag(load_dag: int, reps: int) -> int:
    """``100 w / (101.3 - 2.67123 r)`` (Lander 1985, NSCA Journal 6(6):60-61)."""
    return _single(load_dag, reps) or round(load_dag * 100 / (Fraction("101.3") - Fraction("2.67123") * reps))


def lombardi_dag(load_dag: int, reps: int) -> int:
    """``w r**0.10`` (Lombardi 1989, Beginning Weight Training)."""
    with localcontext() as exact:
        exact.prec = 28
        return _single(load_dag, reps) or _rounded(load_dag * Decimal(reps) ** Decimal("0.10"))


def mayhew_dag(load_dag: int, reps: int) -> int:
    """``100 w / (52.2 + 41.9 exp(-0.055 r))`` (Mayhew et al. 1992, J Appl Sport Sci Res 6:200-206)."""
    return _single(load_dag, reps) or _exponential(load_dag, reps, "52.2", "41.9", "0.055")


def oconner_dag(load_dag: int, reps: int) -> int:
    """``w (1 + 0.025 r)`` (O'Conner, Simmons and O'Shea 1989, Weight Training Today)."""
    return _single(load_dag, reps) or round(Fraction(load_dag) * (40 + reps) / 40)


def wathan_dag(load_dag: int, reps: int) -> int:
    """``100 w / (48.8 + 53.8 exp(-0.075 r))`` (Wathan 1994).

    In Baechle (ed.), Essentials of Strength Training and Conditioning; spelt Wathen there, Wathan in most
    papers.
    """
    return _single(load_dag, reps) or _exponential(load_dag, reps, "48.8", "53.8", "0.075")


EQUATIONS = {
    "Epley": epley_dag,
    "Brzycki": brzycki_dag,
    "Lander": lander_dag,
    "Lombardi": lombardi_dag,
    "Mayhew": mayhew_dag,
    "O'Conner": oconner_dag,
    "Wathan": wathan_dag,
}
"""All seven by name, for a table or a spread; a caller that wants one calls that one."""


class Estimate(msgspec.Struct, frozen=True):
    """What a set of more reps says about a single.

    low_dag, high_dag : least and most that an equation gives; no confidence interval. [10 g]
    typical_dag : the middle one of the seven. [10 g]
    by : each equation's answer. [10 g]
    """

    lift: str
    load_dag: int
    reps: int
    low_dag: int
    typical_dag: int
    high_dag: int
    by: tuple[tuple[str, int], ...]
    why: Why


class Refusal(msgspec.Struct, frozen=True):
    """No estimate is made, and why not, in a sentence."""

    said: str


def from_set(load_dag: int, reps: int, movement: Movement) -> Estimate | Refusal:
    """The single that a set of ``reps`` at ``load_dag`` [10 g] points to, or the reason why none is named.

    Raises ValueError for a load or a number of reps under one.
    """
    set_said = f"{show_kg(load_dag)} kg × {reps}"
    if reps != 1 and movement.family not in FAMILIES:
        return Refusal(
            f"No equation for reps was made on the {in_sentence(movement.name)} or its kind, so {set_said} "
            "says only "
            f"that the best is at least {show_kg(load_dag)} kg."
        )
    if reps > MOST_REPS:
        return Refusal(
            f"{set_said} is more than {MOST_REPS} reps, where the equations part too far to name a best."
        )
    by = tuple((name, equation(load_dag, reps)) for name, equation in EQUATIONS.items())
    answers = [dag for _, dag in by]
    low, typical, high = min(answers), int(median(answers)), max(answers)
    if reps == 1:
        said = f"{show_kg(load_dag)} kg was lifted once: it is the best itself."
    else:
        said = (
            f"{set_said} on the {in_sentence(movement.name)} points to about {about(typical)} kg once "
            f"({about(low)} to {about(high)} kg by seven equations)."
        )
    why = Why(
        said,
        inputs=(("set", set_said), *((name, f"{show_kg(dag)} kg") for name, dag in by)),
        rule="middle of seven equations; the range is the least and the most of them",
        source="Epley 1985, Brzycki 1993, Lander 1985, Lombardi 1989, Mayhew et al. 1992, O'Conner et al. "
        "1989, "
        "Wathan 1994",
    )
    return Estimate(movement.id, load_dag, reps, low, typical, high, by, why)


def in_sentence(name: str) -> str:
    """A movement's name inside a sentence: "back squat", "Romanian deadlift"."""
    first = name.split(" ")[0].split("-")[0]
    return name if first in _PROPER else name[:1].lower() + name[1:]


def about(dag: int) -> str:
    """Whole kilos: an estimate is shown no finer than it can be meant."""
    return str(round(Fraction(dag, 100)))


def _single(load_dag: int, reps: int) -> int:
    """The load itself for a single, 0 otherwise; ValueError for what no equation is for."""
    if load_dag < 1:
        raise ValueError(f"The load is {show_kg(load_dag)} kg; give the weight that was lifted.")
    if not 1 <= reps <= MOST_REPS:
        raise ValueError(f"{reps} reps: the equations are used for 1 to {MOST_REPS} reps only.")
    return load_dag if reps == 1 else 0


def _exponential(load_dag: int, reps: int, base: str, rise: str, rate: str) -> int:
    """``100 w / (base + rise exp(-rate r))``, rounded."""
    with localcontext() as exact:
        exact.prec = 28
        share = Decimal(base) + Decimal(rise) * (-Decimal(rate) * reps).exp()
        return _rounded(100 * load_dag / share)


def _rounded(dag: Decimal) -> int:
    return int(dag.to_integral_value(ROUND_HALF_EVEN))
