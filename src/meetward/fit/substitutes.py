"""What a lifter does in place of a line that a restriction or missing kit touches.

Each touched part gets the best replacements of the catalogue, its load converted; the coach chooses from up
to three, the first one is the default. A complex is looked at part by part, and a part may simply be left
out. Where nothing follows on, its main part is replaced on its own; where nothing fits at all, the line is
left out, with a word why.
"""

from datetime import date
from fractions import Fraction
from itertools import product
from typing import NamedTuple

import msgspec

from meetward.barbell.rounding import MILLIDAG_PER_DAG, load
from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import COMMON_PRACTICE, Level, Movement
from meetward.cycle.load import Kilos, Load, Of, Percent
from meetward.cycle.tree import Line, Part, SetGroup
from meetward.fit.converting import EFFORT, EFFORT_SAID, converted, own_best_dag, share_of
from meetward.fit.kilos import Weight, kilos
from meetward.fit.ranking import candidates
from meetward.fit.restrictions import (
    PAIN,
    Clash,
    clashes,
    later_in_complex,
    lifter_at_hand,
    picked_up,
    unknown_parts,
)
from meetward.fit.standing import Standings
from meetward.fit.targets import reference_of, target
from meetward.fit.words import line_words
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.problem import Place, Problem
from meetward.strength.repmax import in_sentence
from meetward.units import show_kg
from meetward.why import Why

MOST_OPTIONS = 3

_MOST_PARTS = 5
"""Of a complex with more parts touched than this, only the best answer for each part is looked at."""

LEFT_OUT_POINTS = 350
"""What leaving a part of a complex out is worth beside a replacement. Judgement, no source."""

AS_IT_IS_POINTS = 400
"""The same lift with what the discs make, where only weight is missing. Judgement, no source."""

SET_UP = "Take the bar from blocks or a rack, or have it handed to you, and put it down the same way."
"""Said with every hang and every lift without a rack while the floor is left out."""


class Option(msgspec.Struct, frozen=True):
    """One thing to do in place of the line.

    line : the line as it would be done; None where it is left out.
    instead : ids of the movements that come in, in the order of the parts; empty for a part left out.
    said : "Power clean in place of the clean."
    reasons : sentences; the first says why it is offered.
    weights : kilos of each set group for this lifter, with the kit at hand; empty where nothing is lifted.
    points : for the order only.
    """

    line: Line | None
    instead: tuple[str, ...]
    said: str
    reasons: tuple[str, ...]
    weights: tuple[Weight, ...]
    points: int
    why: Why


class Substitutes(msgspec.Struct, frozen=True):
    """What touches a line, and what to do instead.

    clashes : empty where the line may stay as it is; then there are no options.
    options : best first, one to three.
    cautions : sentences that go with every option.
    problems : parts that nobody can judge, and what the converted loads bring up.
    """

    line: Line
    clashes: tuple[Clash, ...]
    options: tuple[Option, ...]
    cautions: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


class _Way(NamedTuple):
    """One answer for one touched part: a movement, or None for leaving it out."""

    movement: Movement | None
    points: int
    because: tuple[str, ...]


def substitutes(
    line: Line,
    lifter: Lifter,
    limits: Limits,
    catalogue: Catalogue,
    *,
    on: date | None = None,
    level: Level = "regular",
    most: int = MOST_OPTIONS,
    place: Place | None = None,
) -> Substitutes:
    """What ``lifter`` does in place of ``line`` on a day.

    limits : the coach's restrictions and the kit that is missing; those that hold on the day count.
    level : what the lifter has learnt; nothing above it comes in.
    most : options at most, one to three.
    place : where the line stands, for problems.
    Raises ValueError for a ``most`` below one.
    """
    if most < 1:
        raise ValueError("Ask for at least one option.")
    at = place or Place(said=line_words(line, catalogue))
    holding = limits.on(on)
    standings = Standings(lifter_at_hand(lifter, holding), catalogue)
    touched = clashes(line, holding, catalogue)
    problems = unknown_parts(line, holding, catalogue, at)
    if not touched:
        touched = _too_heavy(line, lifter, holding, catalogue)
    if not touched:
        return Substitutes(line, (), (), (), tuple(problems))
    options = _options(line, touched, holding, standings, level, min(most, MOST_OPTIONS))
    cautions = [PAIN] if any(one.cause == "restriction" for one in touched) else []
    floor = any(one.kind == "no pulling from the floor" for one in holding.restrictions)
    if floor and any(_picked_up(option.line, catalogue) for option in options if option.line):
        cautions.append(SET_UP)
    problems += [problem for weight in options[0].weights for problem in weight.problems]
    return Substitutes(line, touched, options, tuple(cautions), tuple(dict.fromkeys(problems)))


def _options(
    line: Line, touched: tuple[Clash, ...], limits: Limits, standings: Standings, level: Level, most: int
) -> tuple[Option, ...]:
    catalogue = standings.catalogue
    parts = sorted({clash.part for clash in touched})
    causes = {clash.cause for clash in touched}
    ways = []
    for number in parts:
        movement = catalogue.movements.get(line.parts[number].movement)
        found: list[_Way] = []
        if movement is not None:
            ranked = candidates(
                movement.id,
                later_in_complex(limits) if number else limits,
                catalogue,
                level=level,
                for_kit="restriction" not in causes,
                place="alone" if len(line.parts) == 1 else "later" if number else "first",
            )
            found = [_Way(catalogue.movements[c.movement], c.points, c.because) for c in ranked]
        if causes == {"too heavy"} and movement is not None:
            found = _light_enough(found, movement, line, standings)
        elif len(line.parts) > 1 or not found:
            found.append(_Way(None, LEFT_OUT_POINTS, ()))
        found.sort(key=lambda way: -way.points)
        ways.append(found[: most + 1 if len(parts) <= _MOST_PARTS else 1])
    made: list[Option] = []
    kept = {part.movement for n, part in enumerate(line.parts) if n not in parts}
    for chosen in sorted(product(*ways), key=lambda each: -sum(way.points for way in each)):
        new = [way.movement.id for way in chosen if way.movement is not None]
        if len(line.parts) > 1 and (len(set(new)) < len(new) or kept.intersection(new)):
            continue
        option = _option(line, dict(zip(parts, chosen, strict=True)), touched, standings)
        # Where the first part goes, the one behind it may need a rack after all.
        touched_again = option.line is not None and bool(clashes(option.line, limits, catalogue))
        if not touched_again and all(option.line != other.line for other in made):
            made.append(option)
        if len(made) == most:
            break
    if not made:
        gone = {n: _Way(None, 0, ()) for n in range(len(line.parts))}
        made.append(_option(line, gone, touched, standings))
    if len(line.parts) > 1 and all(option.line is None for option in made):
        alone = _main_part(line, catalogue)
        if alone is not None and alone != line:
            inner = tuple(msgspec.structs.replace(clash, part=0) for clash in touched)
            made = list(_options(alone, inner, limits, standings, level, most))
    return tuple(made)


def _main_part(line: Line, catalogue: Catalogue) -> Line | None:
    """The part that trains the most positions, on a line of its own; None where none is known."""
    known = [n for n, part in enumerate(line.parts) if part.movement in catalogue.movements]
    if not known:
        return None
    main = max(known, key=lambda n: len(catalogue.movements[line.parts[n].movement].positions))
    groups = tuple(
        msgspec.structs.replace(
            group, reps=group.reps[main : main + 1] if len(group.reps) > 1 else group.reps
        )
        for group in line.groups
    )
    return msgspec.structs.replace(line, parts=(line.parts[main],), groups=groups)


def _option(line: Line, ways: dict[int, _Way], touched: tuple[Clash, ...], standings: Standings) -> Option:
    catalogue = standings.catalogue
    kept = [n for n in range(len(line.parts)) if n not in ways or ways[n].movement is not None]
    points = sum(way.points for way in ways.values())
    causes = tuple(dict.fromkeys(clash.said for clash in touched))
    instead = tuple(way.movement.id if way.movement else "" for way in ways.values())
    if not kept:
        name = line_words(line, catalogue)
        said = f"{name} is left out: nothing in the catalogue trains the same and can be done."
        if any(n in ways and not _is_movement(line.parts[n], catalogue) for n in range(len(line.parts))):
            said = f"{name} is left out today."
        return Option(
            None, instead, said, causes, (), points, Why(said, rule="left out", source=COMMON_PRACTICE)
        )
    groups, load_words = _groups(line, ways, kept, standings)
    parts = tuple(_part(line.parts[n], ways.get(n)) for n in kept)
    new = msgspec.structs.replace(line, parts=parts, groups=groups, between=line.between)
    weights = tuple(kilos(group, new, standings) for group in groups)
    said = " ".join(_said(line.parts[n], way, catalogue) for n, way in ways.items())
    because = [
        f"{way.movement.name}: {', '.join(way.because)}."
        for way in ways.values()
        if way.movement and way.because
    ]
    why = Why(
        said,
        inputs=tuple(("why not as written", cause) for cause in causes),
        rule="the catalogue's links, positions, family and ratios, by points; the coach chooses",
        source=COMMON_PRACTICE,
    )
    reasons = (*causes, *because, *dict.fromkeys(word for word in load_words if word))
    return Option(new, instead, said, reasons, weights, points, why)


def _groups(
    line: Line, ways: dict[int, _Way], kept: list[int], standings: Standings
) -> tuple[tuple[SetGroup, ...], list[str]]:
    """The set groups of the new line, and the sentences about their loads."""
    found, said = [], []
    for group in line.groups:
        reps = tuple(group.reps[n] for n in kept) if len(group.reps) == len(line.parts) else group.reps
        if len(line.parts) == 1:
            new_load, words = _single(group, line, next(iter(ways.values())), standings)
        else:
            new_load, words = _of_complex(group, line, ways, standings)
        said.append(words)
        found.append(msgspec.structs.replace(group, reps=reps, load=new_load))
    return tuple(found), said


def _single(group: SetGroup, line: Line, way: _Way, standings: Standings) -> tuple[Load, str]:
    original = standings.catalogue.movements[line.parts[0].movement]
    if way.movement is None or way.movement.id == original.id:
        return group.load, ""
    answer = converted(group, original, way.movement, standings)
    new_load, said = answer.load, answer.said
    most_dag = own_best_dag(original, original.reference, standings)
    if most_dag is not None and isinstance(new_load, Percent | Kilos):
        new_load = _under(most_dag, new_load, group, line, way.movement, standings)
    return new_load, said


def _under(
    most_dag: int,
    new_load: Percent | Kilos,
    group: SetGroup,
    line: Line,
    movement: Movement,
    standings: Standings,
) -> Percent | Kilos:
    """The load, taken down where the bar would be rounded up past the best of what it replaces."""
    part = Part(movement.name, movement.id)
    new = msgspec.structs.replace(group, load=new_load, reps=group.reps)
    weight = kilos(new, msgspec.structs.replace(line, parts=(part,)), standings)
    kit = standings.lifter.kit
    if not weight.on_bar or weight.high_dag is None or weight.high_dag <= most_dag or most_dag < kit.bar_dag:
        return new_load
    loadable_dag = load(kit, most_dag * MILLIDAG_PER_DAG, down=True).dag
    if isinstance(new_load, Kilos):
        low_dag = None if new_load.low_dag is None else min(new_load.low_dag, loadable_dag)
        return msgspec.structs.replace(new_load, low_dag=low_dag, high_dag=loadable_dag)
    aim = target(
        new, msgspec.structs.replace(line, parts=(part,)), standings.catalogue, standings.lifter.category
    )
    best_dag = standings.best_dag(aim.reference) if aim else 0
    top = loadable_dag * 1000 // best_dag if best_dag else new_load.high_permille
    low = None if new_load.low_permille is None else min(new_load.low_permille, top)
    return msgspec.structs.replace(new_load, low_permille=low, high_permille=top)


def _of_complex(group: SetGroup, line: Line, ways: dict[int, _Way], standings: Standings) -> tuple[Load, str]:
    """The load of a complex: as it was, or what the lightest newcomer allows; never heavier than before."""
    catalogue = standings.catalogue
    if not isinstance(group.load, Percent | Kilos):
        return group.load, ""
    before = kilos(group, line, standings)
    lowest: Fraction | None = None
    for number, way in ways.items():
        original = catalogue.movements.get(line.parts[number].movement)
        if way.movement is None or original is None or way.movement.id == original.id:
            continue
        old, new = (share_of(original.reference, each, catalogue) for each in (original, way.movement))
        if before.high_dag is None or old is None or new is None:
            return EFFORT, f"The load of the changed complex is felt: {EFFORT_SAID}."
        share = min(new.typical / old.typical, Fraction(1))
        lowest = share if lowest is None else min(lowest, share)
    if lowest is None or lowest == 1:
        return _on_the_same_best(group.load, line, standings), ""
    high_dag = int(before.high_dag * lowest) if before.high_dag else 0
    low_dag = int((before.low_dag or before.high_dag or 0) * lowest)
    said = f"The whole complex goes with its lightest part: {show_kg(high_dag)} kg at most."
    return (Kilos(low_dag, high_dag), said) if high_dag else (EFFORT, EFFORT_SAID)


def _on_the_same_best(new_load: Percent | Kilos, line: Line, standings: Standings) -> Percent | Kilos:
    """A percentage that stands on the lift that decided before, whatever parts are left."""
    if not isinstance(new_load, Percent) or new_load.of.kind != "default":
        return new_load
    reference = reference_of(line, new_load.of, standings.catalogue)
    standing = standings.of(reference) if reference else None
    if standing is None:
        return new_load
    return msgspec.structs.replace(new_load, of=Of("lift", standing.lift))


def _too_heavy(line: Line, lifter: Lifter, limits: Limits, catalogue: Catalogue) -> tuple[Clash, ...]:
    """Parts whose bar is heavier than what bar and discs at hand make."""
    most_dag = limits.heaviest_dag
    if most_dag is None:
        return ()
    standings = Standings(lifter, catalogue)
    wanted = max((w.high_dag or 0 for g in line.groups if (w := kilos(g, line, standings)).on_bar), default=0)
    if wanted <= most_dag:
        return ()
    weights = f"{show_kg(wanted)} kg is written, {show_kg(most_dag)} kg is all that bar and discs make"
    why = Why(
        f"{weights}.", inputs=(("wanted", f"{show_kg(wanted)} kg"), ("at hand", f"{show_kg(most_dag)} kg"))
    )
    return tuple(
        Clash(n, m.id, "too heavy", "discs", f"{m.name}: {weights}.", why)
        for n, part in enumerate(line.parts)
        if (m := catalogue.movements.get(part.movement)) and m.barbell
    )


def _light_enough(found: list[_Way], movement: Movement, line: Line, standings: Standings) -> list[_Way]:
    """Ways that need no more than there is, and the movement itself with what there is."""
    most_dag = standings.lifter.kit.bar_dag + 2 * sum(d.dag * d.pairs for d in standings.lifter.kit.discs)
    kept = [_Way(movement, AS_IT_IS_POINTS, ("the same lift with all that bar and discs make",))]
    for way in found[:12]:
        if way.movement is None or not way.movement.barbell or len(line.parts) > 1:
            continue
        new = msgspec.structs.replace(line, parts=(Part(way.movement.name, way.movement.id),))
        loads = [(group, converted(group, movement, way.movement, standings)) for group in line.groups]
        if not all(answer.kilos for _, answer in loads):
            continue
        aims = [
            target(msgspec.structs.replace(group, load=answer.load), new, standings.catalogue, None)
            for group, answer in loads
        ]
        tops = [standings.best_dag(aim.reference) * aim.high // 1000 for aim in aims if aim]
        if max(tops, default=0) <= most_dag:
            kept.append(way)
    return kept


def _part(part: Part, way: _Way | None) -> Part:
    if way is None or way.movement is None or way.movement.id == part.movement:
        return part
    return Part(
        way.movement.name, way.movement.id, pauses=part.pauses if "pause" in part.written.lower() else ()
    )


def _said(part: Part, way: _Way, catalogue: Catalogue) -> str:
    old = catalogue.movements.get(part.movement)
    name = in_sentence(old.name) if old else part.written
    if way.movement is None:
        return f"Without the {name}; the rest stays."
    if old is not None and way.movement.id == old.id:
        return f"{old.name} as written, with the weight that there is."
    return f"{way.movement.name} in place of the {name}."


def _is_movement(part: Part, catalogue: Catalogue) -> bool:
    return part.movement in catalogue.movements


def _picked_up(line: Line, catalogue: Catalogue) -> bool:
    return any(picked_up(m) for part in line.parts if (m := catalogue.movements.get(part.movement)))
