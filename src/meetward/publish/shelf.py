"""The whole catalogue as a book for the gym's shelf: by family, with contents and an index of names."""

from collections.abc import Iterable
from typing import Any, get_args

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Kind
from meetward.catalogue.movement import Family, Movement
from meetward.catalogue.sequence import Sequence

from .paper import Paper, typeset
from .shown_entry import ShownEntry, shown_entry

CAUTIONS = (
    "Sharp, spreading or lasting pain, numbness, dizziness or chest pain: stop, and see a doctor or "
    "physiotherapist before you go on.",
    "Learn to bail with an empty bar, lift on a clear platform, check collars and rack; nobody spots a "
    "snatch or a clean and jerk by hand.",
    "Under 18: lift only under a qualified coach, technique first.",
    "A coach who stands beside you sees more than a book. Local rules come first.",
)
"""On the first page. Common practice, no source."""


class Chapter(msgspec.Struct, frozen=True):
    """A family of movements or a kind of drills."""

    title: str
    entries: tuple[ShownEntry, ...]


class Group(msgspec.Struct, frozen=True):
    """What a group of movements or drills has in common; it stands once, before the chapters."""

    name: str
    setup: str
    how: str
    scaling: str
    cautions: tuple[str, ...]


class ShelfStep(msgspec.Struct, frozen=True):
    """A step of a warm-up."""

    name: str
    dose: str
    note: str


class ShelfSequence(msgspec.Struct, frozen=True):
    """A warm-up sequence in its current version."""

    name: str
    minutes: int
    version: str
    purpose: str
    steps: tuple[ShelfStep, ...]
    cautions: tuple[str, ...]


def catalogue_pdf(
    catalogue: Catalogue, paper: Paper = "a4", *, title: str = "How is it done?", tags: bool = False
) -> bytes:
    """Every movement, drill and warm-up of ``catalogue`` as one PDF.

    title : on the first page; a club puts its name there.
    tags : structure for screen readers; multiplies the size, so left out of the book unless asked for.
    """
    data: dict[str, Any] = {
        "chapters": msgspec.to_builtins(chapters(catalogue)),
        "sequences": msgspec.to_builtins(
            tuple(_sequence(s, catalogue) for s in _named(catalogue.sequences.values()))
        ),
        "groups": msgspec.to_builtins(groups(catalogue)),
        "cautions": CAUTIONS,
        "counts": (
            f"{len(catalogue.movements)} movements, {len(catalogue.drills)} drills, "
            f"{len(catalogue.sequences)} warm-ups"
        ),
    }
    return typeset("shelf", data, title=title, paper=paper, tags=tags)


def chapters(catalogue: Catalogue) -> tuple[Chapter, ...]:
    """Movements by family, then drills by kind, each by name; those without an entry are left out."""
    names = {entry.id: entry.name for entry in catalogue}
    said = {group.name for group in groups(catalogue)}

    def shown(entries: Iterable[Any]) -> tuple[ShownEntry, ...]:
        return tuple(
            shown_entry(entry, catalogue.shared, lambda id_: names.get(id_, id_), said, size="row")
            for entry in _named(entries)
        )

    found = [
        (family, shown(m for m in catalogue.movements.values() if m.family == family))
        for family in get_args(Family)
    ]
    found += [
        (f"drills: {kind}", shown(d for d in catalogue.drills.values() if d.kind == kind))
        for kind in get_args(Kind)
    ]
    return tuple(Chapter(title[:1].upper() + title[1:], entries) for title, entries in found if entries)


def groups(catalogue: Catalogue) -> tuple[Group, ...]:
    """The texts that entries have in common; those with facts only are left out."""
    return tuple(
        Group(one.name, one.setup, one.execution, one.scaling, one.cautions)
        for one in _named(catalogue.shared.values())
        if one.setup or one.execution or one.scaling or one.cautions
    )


def _named(entries: Iterable[Any]) -> list[Any]:
    return sorted(entries, key=lambda entry: entry.name.casefold())


def _sequence(sequence: Sequence, catalogue: Catalogue) -> ShelfSequence:
    known: dict[str, Movement | Drill] = {**catalogue.drills, **catalogue.movements}
    several = len(catalogue.versions[sequence.id]) > 1
    return ShelfSequence(
        sequence.name,
        sequence.minutes,
        f"version {sequence.version}" if several else "",
        sequence.purpose,
        tuple(
            ShelfStep(known[step.of].name if step.of in known else step.of, step.dose, step.note)
            for step in sequence.steps
        ),
        sequence.cautions,
    )
