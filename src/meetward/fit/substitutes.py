"""What a lifter does in place of a line that a restriction or missing kit touches.

Each touched part gets the best replacements of the catalogue, its load converted; the coach chooses from up
to three, the first one is the default. A complex is looked at part by part, and a part may simply be left
out. Where nothing follows on, its main part is replaced on its own; where nothing fits at all, the line is
left out, with a word why.
"""

from datetime import date
from itertools import product

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Use
from meetward.catalogue.movement import COMMON_PRACTICE, Level, Movement
from meetward.cycle.tree import Between, Line, Part
from meetward.fit.converting import converted
from meetward.fit.drill_substitutes import between_without, line_of_drill, sequence_without
from meetward.fit.kilos import Weight, kilos
from meetward.fit.ranking import candidates
from meetward.fit.replaced_loads import Way, groups_of
from meetward.fit.restrictions import (
    BETWEEN,
    PAIN,
    Clash,
    clashes,
    lifter_at_hand,
    picked_up,
    unknown_parts,
    without_rack,
)
from meetward.fit.standing import Standings
from meetward.fit.targets import target
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
    lifts = tuple(c for c in touched if c.part != BETWEEN and c.entry in catalogue.movements)
    if not lifts and (too_heavy := _too_heavy(line, lifter, holding, catalogue)):
        lifts, touched = too_heavy, (*too_heavy, *touched)
    if not touched:
        return Substitutes(line, (), (), (), tuple(problems))
    options = _options(line, lifts, holding, standings, level, min(most, MOST_OPTIONS)) if lifts else ()
    options = _drills(line, options, touched, holding, standings)
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
        found: list[Way] = []
        if movement is not None:
            ranked = candidates(
                movement.id,
                without_rack(limits) if number else limits,
                catalogue,
                level=level,
                for_kit="restriction" not in causes,
                place="alone" if len(line.parts) == 1 else "later" if number else "first",
            )
            found = [Way(catalogue.movements[c.movement], c.points, c.because) for c in ranked]
        if causes == {"too heavy"} and movement is not None:
            found = _light_enough(found, movement, line, standings)
        elif len(line.parts) > 1 or not found:
            found.append(Way(None, LEFT_OUT_POINTS, ()))
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
        again = clashes(option.line, limits, catalogue) if option.line is not None else ()
        touched_again = any(c.part != BETWEEN and c.entry in catalogue.movements for c in again)
        if not touched_again and all(option.line != other.line for other in made):
            made.append(option)
        if len(made) == most:
            break
    if not made:
        gone = {n: Way(None, 0, ()) for n in range(len(line.parts))}
        made.append(_option(line, gone, touched, standings))
    if len(line.parts) > 1 and all(option.line is None for option in made):
        alone = _main_part(line, catalogue)
        if alone is not None and alone != line:
            inner = tuple(msgspec.structs.replace(clash, part=0) for clash in touched)
            made = [
                msgspec.structs.replace(one, said=f"{one.said} The rest of the complex is left out.")
                if one.line is not None
                else one
                for one in _options(alone, inner, limits, standings, level, most)
            ]
    return tuple(made)


def _drills(
    line: Line,
    options: tuple[Option, ...],
    touched: tuple[Clash, ...],
    limits: Limits,
    standings: Standings,
) -> tuple[Option, ...]:
    """The options, with what drills are ruled out replaced or left out; one where no lift is touched."""
    catalogue = standings.catalogue
    between, said = between_without(line, touched, limits, catalogue)
    causes = tuple(dict.fromkeys(clash.said for clash in touched))
    if options:
        return tuple(_with_between(option, between, said) for option in options)
    new = msgspec.structs.replace(line, between=between)
    for part in sorted({clash.part for clash in touched if clash.part != BETWEEN}):
        if steps := sequence_without(line, part, touched, limits, catalogue):
            said = (*said, *steps)
            new = msgspec.structs.replace(new, notes=(*new.notes, *steps))
            continue
        use: Use = "warm-up" if "warm-up" in catalogue.drills[line.parts[part].movement].uses else "recovery"
        other = line_of_drill(new, part, limits, catalogue, use)
        if other is None:
            words = f"{line_words(line, catalogue)} is left out today: no drill for the same is open."
            return (Option(None, (), words, causes, (), 0, Why(words, rule="left out")),)
        new, words = other
        said = (*said, words)
    weights = tuple(kilos(group, new, standings) for group in new.groups)
    why = Why(" ".join(said), rule="drills that the catalogue names, then one of a kind for the region")
    return (Option(new, (), " ".join(said), causes, weights, 0, why),)


def _with_between(option: Option, between: tuple[Between, ...], said: tuple[str, ...]) -> Option:
    if option.line is None or not said:
        return option
    new = msgspec.structs.replace(option.line, between=between)
    return msgspec.structs.replace(option, line=new, reasons=(*option.reasons, *said))


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


def _option(line: Line, ways: dict[int, Way], touched: tuple[Clash, ...], standings: Standings) -> Option:
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
    groups, load_words = groups_of(line, ways, kept, standings)
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


def _light_enough(found: list[Way], movement: Movement, line: Line, standings: Standings) -> list[Way]:
    """Ways that need no more than there is, and the movement itself with what there is."""
    most_dag = standings.lifter.kit.bar_dag + 2 * sum(d.dag * d.pairs for d in standings.lifter.kit.discs)
    kept = [Way(movement, AS_IT_IS_POINTS, ("the same lift with all that bar and discs make",))]
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


def _part(part: Part, way: Way | None) -> Part:
    if way is None or way.movement is None or way.movement.id == part.movement:
        return part
    return Part(
        way.movement.name, way.movement.id, pauses=part.pauses if "pause" in part.written.lower() else ()
    )


def _said(part: Part, way: Way, catalogue: Catalogue) -> str:
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
