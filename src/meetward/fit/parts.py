"""What stands in a line of a day or a lesson: movements, drills and sequences with their entries."""

from collections.abc import Iterable, Iterator, Set
from typing import Protocol

from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.cycle.tree import Cycle, Line, Session
from meetward.fit.fitted import DayBetween, DayPart
from meetward.fit.words import detail_words, dose_words, entry_of, lift_words, part_words

Step = tuple[str, str, Movement | Drill | None]
"""A step of a warm-up sequence: name, dose with its note, entry."""


class WithParts(Protocol):
    """A line of a day or of a lesson."""

    @property
    def parts(self) -> tuple[DayPart, ...]:
        """Its movements, drills and sequences."""

    @property
    def between(self) -> tuple[DayBetween, ...]:
        """What to do between its sets."""

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of its sequences."""


def asked_before(cycle: Cycle, week: int, session: int) -> set[str]:
    """Ids of the movements, drills and sequences in the sessions before this one; numbers from 1."""
    ids: set[str] = set()
    for earlier_week, earlier, the_session in cycle.sessions():
        if (earlier_week, earlier) >= (week, session):
            break
        ids.update(asked_in(the_session))
    return ids


def asked_in(session: Session) -> Iterator[str]:
    """Ids of the movements, drills and sequences of a session; empty for what the catalogue does not know."""
    for segment in session.segments:
        for line in segment.lines:
            yield from (part.movement for part in line.parts)
            yield from (between.drill for between in line.between)


def parts_of(line: Line, catalogue: Catalogue, before: Set[str]) -> tuple[DayPart, ...]:
    """The movements, drills and sequences of a line; ``before``: ids that the cycle has asked for."""
    return tuple(
        DayPart(
            part_words(part, catalogue),
            detail_words(part),
            entry_of(part, catalogue),
            first=bool(part.movement) and part.movement not in before,
        )
        for part in line.parts
    )


def between_of(line: Line, catalogue: Catalogue, before: Set[str]) -> tuple[DayBetween, ...]:
    """The work between the sets of a line."""
    return tuple(
        DayBetween(
            drill.name if drill else between.written,
            between.dose or (dose_words(drill.dose) if drill else ""),
            drill,
            first=drill is not None and drill.id not in before,
        )
        for between in line.between
        for drill in (catalogue.drills.get(between.drill),)
    )


def steps_of(parts: tuple[DayPart, ...], catalogue: Catalogue) -> tuple[Step, ...]:
    """The steps of the sequences among the parts; none for a movement or drill."""
    return tuple(step for part in parts for step in _steps(part.entry, catalogue))


def shared_texts(lines: Iterable[WithParts], catalogue: Catalogue) -> tuple[Shared, ...]:
    """The texts that the entries of these lines share with their groups, each once."""
    entries: list[Entry | None] = []
    for line in lines:
        entries += [part.entry for part in line.parts]
        entries += [between.drill for between in line.between]
        entries += [entry for _, _, entry in line.steps]
    ids = {id_: None for entry in entries if isinstance(entry, Movement | Drill) for id_ in entry.shares}
    return tuple(catalogue.shared[id_] for id_ in ids if id_ in catalogue.shared)


def _steps(entry: Entry | None, catalogue: Catalogue) -> Iterator[Step]:
    if not isinstance(entry, Sequence):
        return
    for step in entry.steps:
        named = catalogue.drills.get(step.of) or catalogue.movements.get(step.of)
        dose = f"{step.dose} ({step.note})" if step.note else step.dose
        yield named.name if named else lift_words(step.of, catalogue), dose, named
