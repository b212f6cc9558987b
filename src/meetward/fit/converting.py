"""The load of a line when another movement takes the place of the written one.

Where the catalogue's ratios lead from the one to the other, the lifter works as hard as before: the same
share of what is usual for the new movement. Everything is exact in fractions and ends in whole permille or
decagrams, rounded down. Nothing goes above what the ratios make the best of the movement that is replaced.
Where no ratio leads there, there is no kilo but an effort, and the words say so.

A ratio of a *working load* (pulls, jumps with the bar) is no best. Between two of them the figures are
compared; from a lift onto one the bar stays as heavy as it was, or as light as people work with; off one
onto a lift nothing can be said.
"""

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor
from typing import NamedTuple

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import COMMON_PRACTICE, Movement
from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Load,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import SetGroup
from meetward.fit.standing import Standing, Standings
from meetward.fit.targets import Lift, Reference
from meetward.fit.words import lift_words, load_words
from meetward.strength.ratios import between
from meetward.units import KG_PER_LB, show_kg, show_percent
from meetward.why import Why

EFFORT = Effort("rpe", 60, 70)
"""What stands where no kilo can be said: three or four reps left. Common practice, no source."""

EFFORT_SAID = "RPE 6–7, three or four reps left"
_ONE = Fraction(1)


class Share(NamedTuple):
    """How much of one lift's best another is worth, low, usual and high.

    working : the figure is a load people work with, and no best.
    """

    low: Fraction = _ONE
    typical: Fraction = _ONE
    high: Fraction = _ONE
    working: bool = False
    source: str = ""


class Converted(msgspec.Struct, frozen=True):
    """A load for the movement that takes the other's place.

    said : in a sentence; empty where the load stays as it was written.
    kilos : False where a written kilo or percentage had to give way to an effort.
    """

    load: Load
    said: str
    kilos: bool
    why: Why


def converted(group: SetGroup, original: Movement, instead: Movement, standings: Standings) -> Converted:
    """The load of one set group, for ``instead`` in place of ``original``."""
    load = group.load
    catalogue = standings.catalogue
    if isinstance(load, ByCategory):
        mine = {"men": load.men, "women": load.women}.get(standings.lifter.category or "")
        load = mine or min(load.men, load.women, key=_dag)
    match load:
        case Percent(of=of) if of.kind in ("default", "lift"):
            return _percent(load, original, instead, standings)
        case Kilos() | Pounds():
            return _kilos(load, original, instead, standings)
        case Percent(of=of) if of.kind == "top" and not instead.barbell:
            return _by_effort(load, original, instead, catalogue)
        case Percent(of=of) if of.kind == "rep max":
            return _by_effort(load, original, instead, catalogue)
        case Heavy():
            said = f"A heavy set is not moved to another exercise: {EFFORT_SAID}."
            return Converted(EFFORT, said, False, _why(said, "no new maximum on a stand-in", COMMON_PRACTICE))
        case BarOnly() | Bodyweight() if instead.barbell != original.barbell:
            load = Open("light")
    return Converted(load, "", True, _why("The load stays as it is written.", "felt or open loads stay"))


def share_of(base: str, movement: Movement, catalogue: Catalogue) -> Share | None:
    """What ``movement`` is worth of the best of ``base``; None where no ratio says so."""
    steps = between(base, movement.id, catalogue)
    if steps is not None:
        low = typical = high = _ONE
        for step in steps:
            low, typical, high = low * step.low, typical * step.typical, high * step.high
        return Share(low, typical, high, False, _sources(step.source for step in steps))
    for ratio in movement.ratios:
        steps = between(base, ratio.of, catalogue) if ratio.working_load else None
        if steps is not None:
            way = [
                Fraction(permille, 1000)
                for permille in (ratio.low_permille, ratio.typical_permille, ratio.high_permille)
            ]
            for step in steps:
                way = [way[0] * step.low, way[1] * step.typical, way[2] * step.high]
            sources = _sources([*(step.source for step in steps), ratio.source])
            return Share(way[0], way[1], way[2], True, sources)
    return None


def own_best_dag(original: Movement, base: str, standings: Standings) -> int | None:
    """What the ratios make the best of ``original`` from the best of ``base``, rounded down. [10 g]

    None where no best or no ratio is known, and for movements whose figure is a working load.
    """
    standing = _standing(base, standings)
    share = share_of(base, original, standings.catalogue)
    if standing is None or share is None or share.working:
        return None
    return floor(standing.dag * share.typical)


def _percent(load: Percent, original: Movement, instead: Movement, standings: Standings) -> Converted:
    catalogue = standings.catalogue
    base = load.of.movement if load.of.kind == "lift" else original.reference
    old, new = (share_of(base, each, catalogue) for each in (original, instead))
    if base not in catalogue.movements or old is None or new is None or (old.working and not new.working):
        return _by_effort(load, original, instead, catalogue)
    factor, low, high, rule = _factor(old, new, Fraction(load.high_permille, 1000))
    # Not above the best that the ratios give the replaced movement; of a working load, not above the load.
    most = Fraction(load.high_permille, 1000) if old.working else old.typical
    of = Of() if instead.reference == base else Of("lift", base)
    own = _standing(instead.reference, standings)
    known = _standing(base, standings)
    if not (old.working or new.working) and instead.reference != base and own is not None and not own.derived:
        # A best that was lifted says more than a ratio does.
        mine = share_of(instead.reference, instead, catalogue)
        if mine is not None and not mine.working:
            factor, low, high = mine.typical / old.typical, mine.low / old.high, mine.high / old.low
            of = Of()
            rule = f"as hard as before, of the best {lift_words(instead.reference, catalogue)}"
            if known is not None:
                most = most * known.dag / own.dag
            else:
                most = Fraction(load.high_permille, 1000)
    top = min(Fraction(load.high_permille, 1000) * factor, most)
    high_permille = floor(top * 1000)
    low_permille = None
    if load.low_permille is not None:
        low_permille = min(floor(load.low_permille * factor), high_permille)
    if high_permille < 1 or low_permille == 0:
        return _by_effort(load, original, instead, catalogue)
    answer = Percent(low_permille, high_permille, of)
    of_what = lift_words(instead.reference if of.kind == "default" else base, catalogue)
    ends = [load.high_permille * each for each in (low, high)]
    spread = f"{show_percent(floor(ends[0]))} to {show_percent(ceil(min(ends[1], most * 1000)))} %"
    verb = "stays" if load_words(load, catalogue) == _plain_words(answer) else "becomes"
    said = f"{load_words(load, catalogue)} {verb} {_plain_words(answer)} of {of_what}"
    said += f" (by the usual ratios {spread})." if ends[0] != ends[1] else "."
    why = _converted_why(said, load, rule, (original, old), (instead, new), base, catalogue)
    return Converted(answer, said, True, why)


def _converted_why(
    said: str,
    load: Load,
    rule: str,
    before: tuple[Movement, Share],
    after: tuple[Movement, Share],
    base: str,
    catalogue: Catalogue,
) -> Why:
    """The reason of a converted load: what was written, both lifts' shares of ``base``, rule and sources."""
    return Why(
        said,
        inputs=(
            ("load as written", load_words(load, catalogue)),
            *(
                (f"{movement.name} of {lift_words(base, catalogue)}", _share_words(share))
                for movement, share in (before, after)
            ),
        ),
        rule=f"{rule}; rounded down; never above the best of {lift_words(before[0].id, catalogue)}",
        source=_sources((before[1].source, after[1].source)) or COMMON_PRACTICE,
    )


def _factor(old: Share, new: Share, top: Fraction) -> tuple[Fraction, Fraction, Fraction, str]:
    """What a written share is multiplied by, with its low and high end, and the rule in words."""
    if not old.working and not new.working:
        rule = "as hard as before: the same share of what is usual for the new movement"
        return new.typical / old.typical, new.low / old.high, new.high / old.low, rule
    if old.working:
        factor = min(new.typical / old.typical, _ONE)
        return factor, factor, factor, "usual working loads compared; never heavier than written"
    factor = min(new.low / top, _ONE) if top else _ONE
    rule = "the bar as heavy as before, or as light as people begin with there: its figure is a working load"
    return factor, factor, factor, rule


def _kilos(load: Kilos | Pounds, original: Movement, instead: Movement, standings: Standings) -> Converted:
    catalogue = standings.catalogue
    base = original.reference
    old, new = (share_of(base, each, catalogue) for each in (original, instead))
    on_bars = load.implements == 1 and original.barbell and instead.barbell
    top_dag = _dag(load)
    if not on_bars or not top_dag or old is None or new is None or (old.working and not new.working):
        return _by_effort(load, original, instead, catalogue)
    best = _standing(base, standings)
    factor, low, high, rule = _factor(old, new, top_dag / best.dag if best else old.typical)
    most_dag = own_best_dag(original, base, standings)
    if most_dag is None:
        most_dag = floor(top_dag)
    high_dag = min(floor(top_dag * factor), most_dag)
    written_low = _low_dag(load)
    low_dag = None if written_low is None else min(floor(written_low * factor), high_dag)
    if high_dag < 1:
        return _by_effort(load, original, instead, catalogue)
    answer = Kilos(low_dag, high_dag)
    said = f"{load_words(load, catalogue)} becomes {load_words(answer, catalogue)}"
    if low != high:
        ends = show_kg(floor(top_dag * low)), show_kg(min(ceil(top_dag * high), most_dag))
        said += f" (by the usual ratios {ends[0]} to {ends[1]} kg)"
    why = _converted_why(f"{said}.", load, rule, (original, old), (instead, new), base, catalogue)
    return Converted(answer, f"{said}.", True, why)


def _by_effort(load: Load, original: Movement, instead: Movement, catalogue: Catalogue) -> Converted:
    names = lift_words(original.id, catalogue), lift_words(instead.id, catalogue)
    said = f"No ratio leads from the {names[0]} to the {names[1]}, so there is no kilo: {EFFORT_SAID}."
    inputs = (("load as written", load_words(load, catalogue)),)
    return Converted(EFFORT, said, False, Why(said, inputs, "no ratio, no kilo", COMMON_PRACTICE))


def _standing(lift: str, standings: Standings) -> Standing | None:
    movement = standings.catalogue.movements.get(lift)
    if movement is None:
        return None
    otherwise = movement.reference_else if movement.reference_else != lift else ""
    return standings.of(Reference("best", (Lift(lift, otherwise),)))


def _dag(load: Kilos | Pounds) -> Fraction:
    """The top of a written weight, exact. [10 g]"""
    return Fraction(load.high_dag) if isinstance(load, Kilos) else load.high_clb * KG_PER_LB


def _low_dag(load: Kilos | Pounds) -> Fraction | None:
    if isinstance(load, Kilos):
        return None if load.low_dag is None else Fraction(load.low_dag)
    return None if load.low_clb is None else load.low_clb * KG_PER_LB


def _plain_words(load: Percent) -> str:
    low, high = load.low_permille, load.high_permille
    if low == high:
        return f"{show_percent(high)} %"
    return f"up to {show_percent(high)} %" if low is None else f"{show_percent(low)}–{show_percent(high)} %"


def _share_words(share: Share) -> str:
    ends = [show_percent(round(each * 1000)) for each in (share.typical, share.low, share.high)]
    return f"{ends[0]} % ({ends[1]} to {ends[2]} %)" + (", a working load" if share.working else "")


def _sources(sources: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(source for source in sources if source))


def _why(said: str, rule: str, source: str = "") -> Why:
    return Why(said, rule=rule, source=source)
