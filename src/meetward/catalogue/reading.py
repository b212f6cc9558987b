"""Reading the catalogue: the shipped data files, and a coach's own on top.

A file holds any number of ``[[movement]]``, ``[[drill]]`` and ``[[sequence]]`` tables. A later layer (a file,
or a folder of files) adds entries, or changes one by giving its id and the fields that differ. Whatever
cannot be used is left out and reported; everything else loads.
"""

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

from meetward.catalogue.catalogue import Catalogue, Clash, Entry, kind_of
from meetward.catalogue.checks import flaws
from meetward.catalogue.drill import Drill
from meetward.catalogue.fields import type_faults
from meetward.catalogue.files import MOST_PROBLEMS, File, Source, Table, files, more, tables, written
from meetward.catalogue.flaw import Flaw
from meetward.catalogue.linking import Item, Layered, linked
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.problem import Problem, Severity

DATA = Path(__file__).parent / "data"
"""The shipped data files."""

OWN_FILE = "own-catalogue.toml"
"""What a coach's own file is called where it has no other name."""

_TYPES: Mapping[Table, type[Movement] | type[Drill] | type[Sequence] | type[Shared]] = {
    "movement": Movement, "drill": Drill, "sequence": Sequence, "shared": Shared,
}  # fmt: skip

# A coach's own entry is usable without teaching text and usual equipment; the loader says what is missing.
_MAY_COME_LATER: Mapping[Table, Mapping[str, Any]] = {
    "movement": {
        "positions": (), "equipment": ("bar", "discs"), "summary": "", "purpose": "", "setup": "",
        "execution": "", "cues": (), "faults": (), "cautions": (),
    },
    "drill": {
        "regions": (), "equipment": ("none",), "summary": "", "purpose": "", "how": "", "cues": (),
        "cautions": (),
    },
    "sequence": {"version": 1, "purpose": "", "cautions": ()},
    "shared": {},
}  # fmt: skip

_CLASHES_TOLD = 20  # of one name


def load(*paths: Path) -> tuple[Catalogue, list[Problem]]:
    """The shipped catalogue with a coach's files or folders laid over it in turn, and what was wrong.

    Raises nothing. A problem of severity ``stop`` left something out; ``look`` kept it.
    """
    return read_layers([DATA, *paths], shipped_layers=1)


@cache
def shipped() -> Catalogue:
    """The catalogue as shipped, read once."""
    return load()[0]


def load_text(text: str, name: str = OWN_FILE) -> tuple[Catalogue, list[Problem]]:
    """As `load`, from the text of a coach's file that nobody has written to a disk.

    name : what the messages call the text.
    """
    problems: list[Problem] = []
    layered = _shipped_layer().copy()
    _lay(layered, written(text, name, problems), True, problems)
    return _finished(layered, problems)


def read_layers(paths: Iterable[Path], shipped_layers: int = 0) -> tuple[Catalogue, list[Problem]]:
    """As `load`, from these layers only. Entries of layers after ``shipped_layers`` are the coach's own."""
    problems: list[Problem] = []
    layered = Layered()
    for n, path in enumerate(paths):
        _lay(layered, files(Path(path), problems), n >= shipped_layers, problems)
    return _finished(layered, problems)


@cache
def _shipped_layer() -> Layered:
    """The shipped entries before anything is laid over them; take a copy."""
    layered = Layered()
    _lay(layered, files(DATA, []), False, [])
    return layered


def _lay(layered: Layered, layer: Iterable[File], own: bool, problems: list[Problem]) -> None:
    """Put the entries of the files of one layer over what is there."""
    seen: dict[_Key, Source] = {}
    for file in layer:
        before, untold = len(problems), 0
        for source, table in tables(file, problems):
            telling = len(problems) - before < MOST_PROBLEMS
            entry, found = _entry(source, table, layered, seen, telling)
            if telling:
                problems += [
                    Problem(source.place(f.field), f.kind, f.message, f.repair, severity=f.severity)
                    for f in found
                ]
            if entry is not None:
                layered.put(entry, source.place, own=own)
            elif not telling:
                untold += 1
        if untold:
            problems.append(more(file, untold))


def _finished(layered: Layered, problems: list[Problem]) -> tuple[Catalogue, list[Problem]]:
    """The catalogue of all layers; ``problems`` gets what is wrong between the entries."""
    problems += linked(layered)
    entries = layered.entries()
    catalogue = Catalogue(
        [e for e in entries if isinstance(e, Movement)],
        [e for e in entries if isinstance(e, Drill)],
        [e for e in entries if isinstance(e, Sequence)],
        layered.own(),
        layered.shared().values(),
    )
    problems += _shared_names(catalogue, layered)
    return catalogue, problems


_Key = tuple[Table, str, int]


def _entry(
    source: Source, table: dict[str, Any], layered: Layered, seen: dict[_Key, Source], telling: bool
) -> tuple[Item | None, list[Flaw]]:
    """The entry that a table holds, complete or as a change of an earlier one, and what is wrong with it."""
    kind, id_ = source.kind, table.get("id")
    if not isinstance(id_, str) or not id_:
        return None, [Flaw("id", "no id", f"The {kind} has no id.", 'Give it one, as in id = "hang_snatch".')]
    source.id = id_[:60]
    version = table.get("version", 1) if kind == "sequence" else 0
    key = (kind, id_, version if isinstance(version, int) else 0)
    if key in seen:
        return None, [_duplicate(source, seen[key], version)] if telling else []
    seen[key] = source
    earlier = layered.get(*key)

    later = _MAY_COME_LATER[kind] if earlier is None else {}
    found, values = type_faults(
        _TYPES[kind], table, optional=frozenset(later), partial=earlier is not None, suggest=telling
    )
    if values is None:
        return None, found
    if earlier is not None:
        entry: Item = msgspec.structs.replace(earlier, **values)
    else:
        values = {**later, **values}
        if kind == "movement":
            values.setdefault("reference", id_)
        entry = _TYPES[kind](**values)
    missing = {flaw.field for flaw in found}  # has been said; that nothing stands there need not be
    own = list(flaws(entry))
    stop = any(flaw.severity == "stop" for flaw in own)
    return None if stop else entry, [*found, *(flaw for flaw in own if flaw.field not in missing)]


def _duplicate(source: Source, earlier: Source, version: object) -> Flaw:
    first = earlier.place()
    where = f"{first.source}, line {first.line}" if first.line else first.source
    what = f"'{source.id}' version {version}" if source.kind == "sequence" else f"'{source.id}'"
    said = f"{what} stands twice; the first is in {where}."
    return Flaw("id", "duplicate id", said, "Give one of them another id.")


def _shared_names(catalogue: Catalogue, layered: Layered) -> Iterator[Problem]:
    """Names that two entries claim, and names of one kind that hide those of another."""
    for clash in catalogue.clashes:
        for loser in clash.losers[:_CLASHES_TOLD]:
            yield _clash(clash, loser, catalogue, layered)
    for hidden in catalogue.hidden:
        found = hidden.found
        yield Problem(
            layered.place(hidden.entry, "names"),
            "name of another kind",
            f"It shares a name with the {kind_of(found)} '{found.id}' ('{found.name}'), found first.",
            "Give this one a name of its own.",
            read=hidden.entry.name,
            severity="look",
        )


def _clash(clash: Clash, loser: Entry, catalogue: Catalogue, layered: Layered) -> Problem:
    winner = clash.winner
    if winner is not None and winner.id in catalogue.own and loser.id not in catalogue.own:
        place = layered.place(winner, "names")
        message = f"'{clash.words}' was a name of '{loser.id}'; now it means '{winner.id}'."
        repair = "Take it out if that is not meant."
    else:
        rivals = (
            [e.id for e in clash.losers[:_CLASHES_TOLD] if e is not loser] if winner is None else [winner.id]
        )
        place = layered.place(loser, "names")
        message = f"'{clash.words}' is also a name of {' and '.join(map(repr, rivals[:3]))}"
        message += ", which has it." if winner else ", so none of them has it."
        repair = "Take it out of one of them."
    severity: Severity = "look" if winner else "stop"
    return Problem(place, "name claimed twice", message, repair, read=clash.words, severity=severity)
