"""A written load as kilos on one lifter's bar, with the reason of every number.

The arithmetic is that of ``barbell.rounding`` on exact integers; ``squad`` does the same for many lifters.
"""

from decimal import Decimal

import msgspec

from meetward.barbell.rounding import MILLIDAG_PER_DAG, RULES, Loaded, load, load_range
from meetward.barbell.spread import spread
from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Movement
from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import Line, SetGroup
from meetward.fit.standing import Standing, Standings
from meetward.fit.targets import MOST_DAG, Rounding, Target, roundings, target
from meetward.fit.words import count_words, entry_of, lift_words, load_words, of_words
from meetward.lifter.profile import Lifter
from meetward.problem import Place, Problem
from meetward.units import DAG_PER_KG, show_kg, show_lb, show_percent
from meetward.why import Why

WORK_UP = "Work up and tell your coach"

_MOST_MILLIDAG = MOST_DAG * MILLIDAG_PER_DAG


class Weight(msgspec.Struct, frozen=True):
    """What to lift.

    low_dag, high_dag : on the bar, bar and discs together (or of one dumbbell); equal unless it is a range or
        the sets climb; None where there is no fixed kilo. [10 g]
    weights_dag : one weight for each set where they climb; empty otherwise. [10 g]
    on_bar : whether it is loaded on the bar.
    placeholder : the kilos stand on a derived best: a start to work up from.
    instruction : what to do where there is no fixed kilo, or besides it.
    why : the reason of the kilos, or of their absence.
    problems : what a person should see.
    """

    low_dag: int | None
    high_dag: int | None
    weights_dag: tuple[int, ...]
    on_bar: bool
    placeholder: bool
    instruction: str
    why: Why
    problems: tuple[Problem, ...] = ()


def kilos(group: SetGroup, line: Line, standings: Standings, place: Place | None = None) -> Weight:
    """Kilos of one set group of ``line`` for one lifter.

    place : where the line stands, for problems.
    """
    lifter, catalogue = standings.lifter, standings.catalogue
    at = place or Place()
    aim = target(group, line, catalogue, lifter.category)
    if aim is None:
        return _without_kilos(group, line, catalogue, at)
    if aim.reference.kind == "bar":
        bar = show_kg(lifter.kit.bar_dag)
        why = Why(f"The empty bar weighs {bar} kg.", inputs=(("bar", f"{bar} kg"),))
        return Weight(lifter.kit.bar_dag, lifter.kit.bar_dag, (), True, False, "", why)
    standing = standings.of(aim.reference) if aim.reference.kind == "best" else None
    best_dag = standings.best_dag(aim.reference)
    if not best_dag:
        return _without_best(group, line, aim, standings, at)
    return _weighed(aim, best_dag, standing, group, standings, at)


def _weighed(
    aim: Target, best_dag: int, standing: Standing | None, group: SetGroup, standings: Standings, at: Place
) -> Weight:
    """Kilos of a target whose reference is known."""
    kit = standings.lifter.kit
    high = min(best_dag * aim.high, _MOST_MILLIDAG)
    low = None if aim.low is None else min(best_dag * aim.low, _MOST_MILLIDAG)
    weights: tuple[int, ...] = ()
    rounded: tuple[Loaded, ...]
    if not aim.on_bar:
        how = roundings(aim)[0]
        ends = (high,) if low in (None, high) else (low, high)
        rounded = tuple(_off_bar(end, how) for end in ends)
    elif aim.climb_sets:
        low_dag = None if low is None else low // MILLIDAG_PER_DAG or None
        weights = spread(kit, low_dag, max(high // MILLIDAG_PER_DAG, 1), aim.climb_sets)
        top = load(kit, high, down=True)
        rounded = (msgspec.structs.replace(top, dag=weights[0]), top)
    elif aim.single:
        rounded = (load(kit, high, top_millidag=_MOST_MILLIDAG),)
    elif low is None:
        rounded = (load(kit, high, down=True),)
    else:
        rounded = load_range(kit, low, high)
    low_dag, high_dag = rounded[0].dag, rounded[-1].dag
    said = _said(aim, group, standing, (low, high), rounded, weights, standings.catalogue)
    problems = _loading_problems(rounded, aim, (low, high), standings, at)
    instruction = ""
    if standing and standing.only_a_start:
        instruction = f"{WORK_UP}: start at {weight_words(low_dag, standings.lifter)}. "
        instruction += _what_is_not_known(standing, standings.catalogue)
        if standing.unknown:
            problems = (*problems, _no_best(standing.unknown, "", standings, at))
    elif isinstance(group.load, ByCategory) and standings.lifter.category is None:
        instruction = "The profile names no category, so this is the lighter of the two weights."
    placeholder = bool(standing and standing.only_a_start)
    return Weight(low_dag, high_dag, weights, aim.on_bar, placeholder, instruction, said, problems)


def _what_is_not_known(standing: Standing, catalogue: Catalogue) -> str:
    if standing.unknown:
        names = " and ".join(lift_words(lift, catalogue) for lift in standing.unknown)
        return f"Nothing is known of the {names}, which may be the lighter part."
    name = lift_words(standing.lift, catalogue)
    return f"No best {name} is known; it lies probably between {range_words(standing)} kg."


def _said(
    aim: Target,
    group: SetGroup,
    standing: Standing | None,
    ends: tuple[int | None, int],
    rounded: tuple[Loaded, ...],
    weights: tuple[int, ...],
    catalogue: Catalogue,
) -> Why:
    """The reason of kilos: "70 % of best snatch 85 kg (tested 3 Oct 2026) is 59.5 kg; ...: 60 kg."."""
    low, high = ends
    written = load_words(group.load, catalogue)
    exact = _kg(high) if low in (None, high) else f"{_kg(low or 0)} to {_kg(high)}"
    if standing and isinstance(group.load, Percent):
        share = load_words(msgspec.structs.replace(group.load, of=_PLAIN), catalogue)
        of = f"{show_kg(standing.dag)} kg, the low end of " if standing.derived else ""
        start = f"{share} of {of}{standing.said} is {'up to ' if low is None else ''}{exact} kg"
    elif isinstance(group.load, Pounds | ByCategory):
        start = f"{written} as written is {exact} kg"
    else:
        start = f"{written} as written"
    result = f"{show_kg(rounded[-1].dag)} kg"
    if weights:
        end = f"in even jumps as this bar makes them: {', '.join(map(show_kg, weights))} kg"
    elif len(rounded) == 2:
        end = f"on this bar {show_kg(rounded[0].dag)} to {result}, never above the top of the range"
        if rounded[0].dag == rounded[1].dag:
            end = f"all that this bar makes there, not above the top of the range: {result}"
    elif not aim.on_bar:
        end = "" if rounded[0].exact else f"nearest half kilo: {result}"
    elif rounded[0].exact:
        end = "the bar makes it exactly"
    else:
        end = f"{RULES[rounded[0].reason]}: {result}"
        if rounded[0].reason == "nearest":
            end += " (a tie would go to the lighter)"
    inputs = [("load", written), ("exact", f"{exact} kg")]
    if standing:
        inputs.insert(0, ("best", standing.said))
    rules = dict.fromkeys(RULES[each.reason] for each in rounded)
    return Why(
        f"{start}; {end}." if end else f"{start}.",
        inputs=tuple(inputs),
        rule="; ".join(rules),
        source="common practice, no source",
        because=(standing.why,) if standing else (),
    )


def weight_words(dag: int, lifter: Lifter) -> str:
    """A weight for a lifter's eyes: "60 kg", or "132.3 lb (60 kg)" for one who counts in pounds."""
    kg = f"{show_kg(dag)} kg"
    return f"{show_lb(dag)} lb ({kg})" if lifter.unit == "lb" else kg


def range_words(standing: Standing) -> str:
    """The range of a derived best in whole kilograms, rounded outwards: "115 and 151"."""
    low_kg, high_kg = standing.low_dag // DAG_PER_KG, -(-standing.high_dag // DAG_PER_KG)
    return f"{low_kg} and {high_kg}"


def _off_bar(millidag: int, how: Rounding) -> Loaded:
    """A weight that is no bar: as written, or to the nearest half kilo (at least one), a tie down."""
    if how is Rounding.PLAIN:
        return Loaded(millidag // MILLIDAG_PER_DAG, True, "exact")
    dag = max((millidag + 24_999) // 50_000, 1) * 50
    return Loaded(dag, dag * MILLIDAG_PER_DAG == millidag, "nearest")


def _loading_problems(
    rounded: tuple[Loaded, ...], aim: Target, ends: tuple[int | None, int], standings: Standings, at: Place
) -> tuple[Problem, ...]:
    """The bar is too heavy for the load, or the discs too few."""
    if not aim.on_bar:
        return ()
    wanted, got = _kg(ends[1]), show_kg(rounded[-1].dag)
    if rounded[-1].reason == "bar is heavier":
        message = f"{wanted} kg is wanted, but the bar alone weighs {got} kg."
        return (
            Problem(
                at,
                "bar too heavy",
                message,
                "Take a lighter bar, or change it in the profile.",
                severity="look",
            ),
        )
    if rounded[-1].reason == "heaviest on hand":
        message = f"{wanted} kg is wanted, but the bar and the discs on hand make {got} kg at most."
        return (
            Problem(at, "too few discs", message, "Add discs to the profile, or lift less.", severity="look"),
        )
    return ()


def _without_best(group: SetGroup, line: Line, aim: Target, standings: Standings, at: Place) -> Weight:
    """A percentage of something that is not known and cannot be derived."""
    catalogue = standings.catalogue
    names = " or ".join(lift_words(lift.lift, catalogue) for lift in aim.reference.lifts)
    reps = f" for {aim.reference.reps} reps" if aim.reference.reps > 1 else ""
    said = load_words(group.load, catalogue)
    why = Why(
        f"{said} of what is not known: there is no best {names}{reps}, and none can be derived.",
        inputs=(("load", said), (f"best {names}{reps}", "not known")),
        rule="no best, no kilo",
    )
    lifts = tuple(lift.lift for lift in aim.reference.lifts)
    instruction = f"{WORK_UP}: a weight with clean reps and some in reserve. No best {names}{reps} is known."
    problem = _no_best(lifts, reps, standings, at)
    return Weight(None, None, (), aim.on_bar, False, instruction, why, (problem,))


def _no_best(lifts: tuple[str, ...], reps: str, standings: Standings, at: Place) -> Problem:
    names = " or ".join(lift_words(lift, standings.catalogue) for lift in lifts)
    return Problem(
        at,
        kind="no best",
        message=f"{standings.lifter.name} has no best {names}{reps}, so loads that stand on it are open.",
        repair=f"Enter a best {names}{reps} in the profile, or a lift that it can be derived from.",
        severity="look",
    )


def _without_kilos(group: SetGroup, line: Line, catalogue: Catalogue, at: Place) -> Weight:
    """A load that is felt, open, of today's top, or not understood."""
    said = load_words(group.load, catalogue)
    bar = any(isinstance(e := entry_of(part, catalogue), Movement) and e.barbell for part in line.parts)
    problems: tuple[Problem, ...] = ()
    match group.load:
        case _ if group.on_the_way:
            instruction = f"On the way {said}: climb in even jumps; the top comes in the sets below."
        case Effort("rpe", low, high):
            left = "nothing" if high >= 100 else _left(100 - high, 100 - low)
            instruction = f"Choose the weight so that the set ends at {said}: {left} more would go."
        case Effort():
            instruction = f"Choose the weight so that the set ends with {said}."
        case Heavy(reps, limit):
            what = f"{limit} {count_words(reps)}" if reps else f"{limit} set"
            stop = "while every rep stays clean" if limit == "heavy" else "and stop at the first miss"
            instruction = f"Work up to a {what} {stop}, then tell your coach."
        case BarOnly():
            instruction = "With a stick."
        case Bodyweight(plus):
            instruction = f"Bodyweight with {show_kg(plus)} kg added." if plus else "Bodyweight."
        case Percent(low, high, of) if of.kind == "top":
            share = (
                show_percent(high)
                if low in (None, high)
                else f"{show_percent(low or 0)}–{show_percent(high)}"
            )
            instruction = f"Take {share} % of your heaviest set of this line today."
        case Percent(_, high, of) if high > 0:
            instruction = f"{WORK_UP}: a weight with clean reps and some in reserve."
            problems = (_unknown_reference(line, said, of_words(of, catalogue), at),)
        case Open(word):
            instruction = _open(word, bar)
        case Kilos() | Pounds() | ByCategory() | Percent():
            instruction = "The weight as written cannot be lifted: ask your coach."
            problems = (
                Problem(
                    at,
                    "no weight",
                    f"'{said}' is no weight that anybody lifts.",
                    "Write the load again.",
                    said,
                ),
            )
    rule = "felt on the day" if isinstance(group.load, Effort | Heavy | Open) else "no fixed kilo"
    why = Why(
        f"No fixed kilo: {said or 'no load is written'}.",
        inputs=(("load", said or "none written"),),
        rule=rule,
    )
    return Weight(None, None, (), bar, False, instruction, why, problems)


def _unknown_reference(line: Line, said: str, of: str, at: Place) -> Problem:
    name = of.removeprefix(" of ") or " + ".join(part.written for part in line.parts)
    return Problem(
        at,
        kind="unknown reference",
        message=f"'{name}' is not in the catalogue, so it is not known what {said} stands on.",
        repair="Write the lift as the catalogue has it, or add it to your catalogue.",
        read=name,
        severity="look",
    )


def _left(low_tenths: int, high_tenths: int) -> str:
    """Reps in reserve: "about 2", "about 1–2"."""
    low, high = show_percent(low_tenths), show_percent(high_tenths)
    return f"about {low if low == high else f'{low}–{high}'}"


def _open(word: str, bar: bool) -> str:
    if word:
        return f"Choose the weight: {word}."
    return "No load is written: choose a weight that leaves clean reps, or ask your coach." if bar else ""


def _kg(millidag: int) -> str:
    """Millidag as kilograms, as many places as needed."""
    text = f"{Decimal(millidag) / 100_000:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


_PLAIN = Percent(None, 0).of
