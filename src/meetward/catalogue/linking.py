"""Layers of entries, and the check that what they name is there."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple

import msgspec

from meetward.catalogue.catalogue import Entry, Kind, kind_of
from meetward.catalogue.fields import likely
from meetward.catalogue.movement import Movement, Ratio
from meetward.catalogue.sequence import Sequence
from meetward.problem import Place, Problem

MOST_PROBLEMS = 300
MOST_OF_ONE = 40
"""Names that lead nowhere are told one by one up to here, in all and of one entry."""

_Key = tuple[Kind, str, int]
_PlaceOf = Callable[[str], Place]


class Layered:
    """Entries by kind, id and version; a change keeps what it changed, so that it can be taken back."""

    def __init__(self) -> None:
        self._stacks: dict[_Key, list[tuple[Entry, _PlaceOf, bool]]] = {}

    def put(self, entry: Entry, place_of: _PlaceOf, own: bool) -> None:
        """Add an entry, or lay a changed one over the earlier. ``own``: it is a coach's and not shipped."""
        self._stacks.setdefault(_key(entry), []).append((entry, place_of, own))

    def own(self) -> set[str]:
        """Ids of the entries that now stand as a coach wrote them."""
        return {stack[-1][0].id for stack in self._stacks.values() if stack[-1][2]}

    def get(self, kind: Kind, id_: str, version: int) -> Entry | None:
        """The entry as it stands now."""
        stack = self._stacks.get((kind, id_, version))
        return stack[-1][0] if stack else None

    def drop(self, entry: Entry) -> None:
        """Take back the last layer of an entry."""
        stack = self._stacks[_key(entry)]
        stack.pop()
        if not stack:
            del self._stacks[_key(entry)]

    def swap(self, entry: Entry) -> None:
        """Put an entry in the place of the one with its id."""
        stack = self._stacks[_key(entry)]
        stack[-1] = (entry, *stack[-1][1:])

    def entries(self) -> list[Entry]:
        """All of them, in the order in which they first came."""
        return [stack[-1][0] for stack in self._stacks.values()]

    def place(self, entry: Entry, field: str) -> Place:
        """Where the entry was read."""
        return self._stacks[_key(entry)][-1][1](field)


def _key(entry: Entry) -> _Key:
    return kind_of(entry), entry.id, entry.version if isinstance(entry, Sequence) else 0


def linked(layered: Layered) -> list[Problem]:
    """Take out, again and again, what names something that is not there, until all names lead somewhere."""
    problems: list[Problem] = []
    untold = 0
    while True:
        movements = {e.id: e for e in layered.entries() if isinstance(e, Movement)}
        known = {e.id: e for e in layered.entries() if not isinstance(e, Sequence)}
        broken = [(e, found) for e in layered.entries() if (found := list(_dangling(e, movements, known)))]
        if not broken:
            break
        for entry, found in broken:
            for lost in found[:MOST_OF_ONE]:
                if len(problems) < MOST_PROBLEMS:
                    problems.append(lost.problem(layered.place(entry, lost.field)))
                else:
                    untold += 1
            layered.drop(entry)
    for movement in movements.values():
        for lost in _lost_ratios(movement, movements):
            if len(problems) < MOST_PROBLEMS:
                problems.append(lost.problem(layered.place(movement, lost.field)))
            else:
                untold += 1
        kept = tuple(ratio for ratio in movement.ratios if ratio.of in movements)
        if kept != movement.ratios:
            layered.swap(msgspec.structs.replace(movement, ratios=kept))
    if untold:
        said = f"{untold} more names lead nowhere."
        problems.append(Problem(Place(), "many problems", said, "Mend the ones above first."))
    problems += _disagreeing({e.id: e for e in layered.entries() if isinstance(e, Movement)}, layered)
    return problems


class _Lost(NamedTuple):
    """A name that leads nowhere; what was meant is only looked for when it is told."""

    field: str
    kind: str
    message: str
    id: str
    known: Iterable[str] = ()
    repair: str = ""

    def problem(self, place: Place) -> Problem:
        near = likely(self.id, self.known) if self.known else None
        repair = self.repair or "Add it to the catalogue, or check the spelling of the id."
        return Problem(
            place,
            self.kind,
            self.message,
            f"Did you mean '{near}'?" if near else repair,
            read=self.id[:60],
        )


def _dangling(entry: Entry, movements: Mapping[str, Movement], known: Mapping[str, Entry]) -> Iterator[_Lost]:
    if isinstance(entry, Movement):
        for field, id_ in (("reference", entry.reference), ("reference_else", entry.reference_else)):
            if not id_ and field == "reference_else":
                continue
            if id_ not in movements:
                said = f"'{id_[:60]}' is no movement of the catalogue."
                yield _Lost(field, "unknown movement", said, id_, movements)
            elif (base := movements[id_].reference) != id_:
                said = f"Percentages of '{id_}' themselves stand on '{base}'."
                repair = f"Name '{base}' or another lift that is tested."
                yield _Lost(field, "reference of a reference", said, id_, repair=repair)
    elif isinstance(entry, Sequence):
        for n, step in enumerate(entry.steps):
            if step.of not in known:
                said = f"'{step.of[:60]}' is neither a drill nor a movement."
                yield _Lost(f"steps[{n}].of", "unknown step", said, step.of, known)


def _lost_ratios(movement: Movement, movements: Mapping[str, Movement]) -> Iterator[_Lost]:
    """Ratios of movements that are not there are left out; the movement itself stays."""
    for n, ratio in enumerate(movement.ratios):
        if ratio.of not in movements:
            said = f"'{ratio.of[:60]}' is no movement of the catalogue, so this ratio is left out."
            yield _Lost(f"ratios[{n}].of", "unknown movement", said, ratio.of, movements)


def _disagreeing(movements: Mapping[str, Movement], layered: Layered) -> Iterator[Problem]:
    """Two ratios between the same lifts, one each way, have to leave room for both to be true."""
    for movement in movements.values():
        for n, ratio in enumerate(movement.ratios):
            for back in movements[ratio.of].ratios:
                if back.of == movement.id and movement.id < ratio.of and not _meet(ratio, back):
                    yield Problem(
                        layered.place(movement, f"ratios[{n}]"),
                        "ratios disagree",
                        f"{_range(ratio)} of '{ratio.of}' does not agree with its {_range(back)} of this.",
                        "Change one of them, or keep only one.",
                        severity="look",
                    )


def _meet(there: Ratio, back: Ratio) -> bool:
    """Whether some share lies in both ranges, one of them inverted."""
    return there.low_permille * back.low_permille <= 1_000_000 <= there.high_permille * back.high_permille


def _range(ratio: Ratio) -> str:
    return f"{ratio.low_permille} to {ratio.high_permille} permille"
