"""The sets and loads of a line whose movements were replaced: on its own, or in a complex.

A complex has one load for all its parts, so the lightest newcomer decides; nothing is heavier than before.
"""

from fractions import Fraction
from typing import NamedTuple

import msgspec

from meetward.barbell.rounding import MILLIDAG_PER_DAG, load
from meetward.catalogue.movement import Movement
from meetward.cycle.load import Kilos, Load, Of, Percent
from meetward.cycle.tree import Line, Part, SetGroup
from meetward.fit.converting import EFFORT, EFFORT_SAID, converted, own_best_dag, share_of
from meetward.fit.kilos import kilos
from meetward.fit.standing import Standings
from meetward.fit.targets import reference_of, target
from meetward.units import show_kg


class Way(NamedTuple):
    """One answer for one touched part: a movement, or None for leaving it out."""

    movement: Movement | None
    points: int
    because: tuple[str, ...]


def groups_of(
    line: Line, ways: dict[int, Way], kept: list[int], standings: Standings
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


def _single(group: SetGroup, line: Line, way: Way, standings: Standings) -> tuple[Load, str]:
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


def _of_complex(group: SetGroup, line: Line, ways: dict[int, Way], standings: Standings) -> tuple[Load, str]:
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
    kit = standings.lifter.kit
    ends = [int(end * lowest) for end in (before.low_dag or 0, before.high_dag or 0)]
    low_dag, high_dag = (load(kit, end * MILLIDAG_PER_DAG, down=True).dag if end else 0 for end in ends)
    if not high_dag:
        return EFFORT, EFFORT_SAID
    said = f"The whole complex goes with its lightest part: {show_kg(high_dag)} kg at most."
    return Kilos(min(low_dag, high_dag) or None, high_dag), said


def _on_the_same_best(new_load: Percent | Kilos, line: Line, standings: Standings) -> Percent | Kilos:
    """A percentage that stands on the lift that decided before, whatever parts are left."""
    if not isinstance(new_load, Percent) or new_load.of.kind != "default":
        return new_load
    reference = reference_of(line, new_load.of, standings.catalogue)
    standing = standings.of(reference) if reference else None
    if standing is None:
        return new_load
    return msgspec.structs.replace(new_load, of=Of("lift", standing.lift))
