"""Drills in place of drills: in warm-ups step by step, between sets, and on lines of their own."""

from collections.abc import Iterable
from functools import lru_cache

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Use
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.cycle.tree import Between, Line, Part
from meetward.fit.ranking import candidates
from meetward.fit.restrictions import BETWEEN, Clash, rules_out, without_rack
from meetward.fit.words import dose_words, entry_of, part_words
from meetward.lifter.restrictions import Limits
from meetward.strength.repmax import in_sentence


def drill_instead(drill: Drill, limits: Limits, catalogue: Catalogue, use: Use) -> Drill | None:
    """The drill that takes another's place for a use: one that the catalogue names, else one for the region.

    None where every one is ruled out.
    """
    return _instead(drill.id, limits, catalogue, use)


@lru_cache(maxsize=4096)
def _instead(id_: str, limits: Limits, catalogue: Catalogue, use: Use) -> Drill | None:
    drill = catalogue.drills[id_]
    named = [catalogue.drills[n] for n in (*drill.instead, *drill.easier) if n in catalogue.drills]
    alike = [other for other in catalogue.drills.values() if other.regions[:1] == drill.regions[:1]]
    for other in (*named, *alike):
        # What the catalogue names may be of another kind; for a region only the same kind will do.
        fits = use in other.uses and (other in named or other.kind == drill.kind)
        if fits and other.id != id_ and not rules_out(other, limits, catalogue):
            return other
    return None


def sequence_without(
    line: Line, part: int, touched: Iterable[Clash], limits: Limits, catalogue: Catalogue
) -> tuple[str, ...]:
    """What changes in a warm-up sequence, a sentence for each step; the sequence itself stays."""
    sequence = entry_of(line.parts[part], catalogue)
    taken = {step.of for step in sequence.steps} if isinstance(sequence, Sequence) else set()
    said = []
    for step in dict.fromkeys(clash.step for clash in touched if clash.part == part and clash.step):
        entry = catalogue.drills.get(step) or catalogue.movements[step]
        other = _step_instead(entry, taken, limits, catalogue)
        if other is None:
            said.append(f"Leave out {in_sentence(entry.name)}.")
            continue
        taken.add(other.id)
        dose = dose_words(other.dose) if isinstance(other, Drill) else ""
        said.append(f"{other.name}{f', {dose},' if dose else ''} in place of {in_sentence(entry.name)}.")
    return tuple(said)


def _step_instead(
    entry: Drill | Movement, taken: set[str], limits: Limits, catalogue: Catalogue
) -> Drill | Movement | None:
    """A drill for a drill, a lift with the bar for a lift; nothing that the warm-up has already."""
    if isinstance(entry, Drill):
        other = drill_instead(entry, limits, catalogue, "warm-up")
        return other if other and other.id not in taken else None
    ranked = candidates(entry.id, without_rack(limits), catalogue, level="first", place="first")
    return next((catalogue.movements[one.movement] for one in ranked if one.movement not in taken), None)


def between_without(
    line: Line, touched: Iterable[Clash], limits: Limits, catalogue: Catalogue
) -> tuple[tuple[Between, ...], tuple[str, ...]]:
    """The between-set work of a line with what is ruled out replaced or left out, and the sentences."""
    out = {clash.entry for clash in touched if clash.part == BETWEEN}
    kept: list[Between] = []
    said = []
    for between in line.between:
        if between.drill not in out:
            kept.append(between)
            continue
        drill = catalogue.drills[between.drill]
        other = drill_instead(drill, limits, catalogue, "between sets")
        if other is None or any(one.drill == other.id for one in (*kept, *line.between)):
            said.append(f"Between the sets: leave out {in_sentence(drill.name)}.")
        else:
            kept.append(Between(other.name, other.id, dose_words(other.dose)))
            said.append(f"Between the sets: {in_sentence(other.name)} in place of {in_sentence(drill.name)}.")
    return tuple(kept), tuple(said)


def line_of_drill(
    line: Line, part: int, limits: Limits, catalogue: Catalogue, use: Use
) -> tuple[Line, str] | None:
    """The line with another drill for one of its parts, and the sentence; None where there is none.

    Sets and reps of one drill are nothing for another: the new one goes by its usual dose.
    """
    drill = entry_of(line.parts[part], catalogue)
    other = drill_instead(drill, limits, catalogue, use) if isinstance(drill, Drill) else None
    if other is None:
        return None
    parts = tuple(Part(other.name, other.id) if n == part else each for n, each in enumerate(line.parts))
    dose = dose_words(other.dose)
    notes = (*line.notes, dose) if dose else line.notes
    said = f"{other.name} in place of {in_sentence(part_words(line.parts[part], catalogue))}."
    return msgspec.structs.replace(line, parts=parts, groups=(), notes=notes), said
