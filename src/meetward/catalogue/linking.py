"""Layers of entries, and the check that what they name is there."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, NamedTuple

import msgspec

from meetward.catalogue.catalogue import Entry, kind_of
from meetward.catalogue.drill import Drill
from meetward.catalogue.fields import likely
from meetward.catalogue.files import Table
from meetward.catalogue.movement import Movement, Ratio
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.problem import Place, Problem

MOST_PROBLEMS = 300
MOST_OF_ONE = 40
"""Names that lead nowhere are told one by one up to here, in all and of one entry."""

_Key = tuple[Table, str, int]
Item = Entry | Shared
"""Whatever a file can hold."""

_PlaceOf = Callable[[str], Place]


class Layered:
    """Entries by kind, id and version; a change keeps what it changed, so that it can be taken back."""

    def __init__(self) -> None:
        self._stacks: dict[_Key, list[tuple[Item, _PlaceOf, bool]]] = {}

    def copy(self) -> "Layered":
        """The same layers, to lay more over."""
        copy = Layered()
        copy._stacks = {key: list(stack) for key, stack in self._stacks.items()}
        return copy

    def put(self, entry: Item, place_of: _PlaceOf, own: bool) -> None:
        """Add an entry, or lay a changed one over the earlier. ``own``: it is a coach's and not shipped."""
        self._stacks.setdefault(_key(entry), []).append((entry, place_of, own))

    def own(self) -> set[str]:
        """Ids of the entries that now stand as a coach wrote them."""
        return {stack[-1][0].id for stack in self._stacks.values() if stack[-1][2]}

    def get(self, kind: Table, id_: str, version: int) -> Item | None:
        """The entry as it stands now."""
        stack = self._stacks.get((kind, id_, version))
        return stack[-1][0] if stack else None

    def drop(self, entry: Item) -> None:
        """Take back the last layer of an entry."""
        stack = self._stacks[_key(entry)]
        stack.pop()
        if not stack:
            del self._stacks[_key(entry)]

    def swap(self, entry: Item) -> None:
        """Put an entry in the place of the one with its id."""
        stack = self._stacks[_key(entry)]
        stack[-1] = (entry, *stack[-1][1:])

    def entries(self) -> list[Entry]:
        """All movements, drills and sequences, in the order in which they first came."""
        return [item for stack in self._stacks.values() if not isinstance(item := stack[-1][0], Shared)]

    def shared(self) -> dict[str, Shared]:
        """The shared texts by id."""
        tops = (stack[-1][0] for stack in self._stacks.values())
        return {item.id: item for item in tops if isinstance(item, Shared)}

    def place(self, entry: Item, field: str) -> Place:
        """Where the entry was read."""
        return self._stacks[_key(entry)][-1][1](field)


def _key(entry: Item) -> _Key:
    if isinstance(entry, Shared):
        return "shared", entry.id, 0
    return kind_of(entry), entry.id, entry.version if isinstance(entry, Sequence) else 0


def linked(layered: Layered) -> list[Problem]:
    """Take out, again and again, what names something that is not there, until all names lead somewhere."""
    problems: list[Problem] = []
    untold = 0
    while True:
        movements = {e.id: e for e in layered.entries() if isinstance(e, Movement)}
        known = {e.id: e for e in layered.entries() if isinstance(e, Movement | Drill)}
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
    shared = layered.shared()
    for entry in known.values():
        for lost in _left_out(entry, movements, known, shared):
            if len(problems) < MOST_PROBLEMS:
                problems.append(lost.problem(layered.place(entry, lost.field)))
            else:
                untold += 1
        kept = _without_lost(entry, movements, known, shared)
        if kept is not entry:
            layered.swap(kept)
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


_LADDERS = ("easier", "harder", "instead")


def _left_out(
    entry: Movement | Drill,
    movements: Mapping[str, Movement],
    known: Mapping[str, Movement | Drill],
    shared: Mapping[str, Shared],
) -> Iterator[_Lost]:
    """Ratios, replacements and shared texts that are not there are left out; the entry itself stays."""
    for n, ratio in enumerate(entry.ratios if isinstance(entry, Movement) else ()):
        if ratio.of not in movements:
            said = f"'{ratio.of[:60]}' is no movement of the catalogue, so this ratio is left out."
            yield _Lost(f"ratios[{n}].of", "unknown movement", said, ratio.of, movements)
    for field in _LADDERS:
        for n, id_ in enumerate(getattr(entry, field)):
            if id_ not in known:
                said = f"'{id_[:60]}' is not in the catalogue, so it is not offered as a replacement."
                yield _Lost(f"{field}[{n}]", "unknown replacement", said, id_, known)
    for n, id_ in enumerate(entry.shares):
        if id_ not in shared:
            said = f"There is no shared text '{id_[:60]}', so nothing is added from it."
            yield _Lost(f"shares[{n}]", "unknown shared text", said, id_, shared)


def _without_lost(
    entry: Movement | Drill,
    movements: Mapping[str, Movement],
    known: Mapping[str, Movement | Drill],
    shared: Mapping[str, Shared],
) -> Movement | Drill:
    """The entry with the names that lead somewhere; itself where all do."""
    kept: dict[str, Any] = {
        field: tuple(id_ for id_ in getattr(entry, field) if id_ in known) for field in _LADDERS
    }
    kept["shares"] = tuple(id_ for id_ in entry.shares if id_ in shared)
    if isinstance(entry, Movement):
        kept["ratios"] = tuple(ratio for ratio in entry.ratios if ratio.of in movements)
    same = all(getattr(entry, field) == value for field, value in kept.items())
    return entry if same else msgspec.structs.replace(entry, **kept)


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
