"""An entry's teaching text, put together from its own and from what it shares with its group."""

from collections.abc import Iterator, Mapping

import msgspec

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Asked, Movement, Usual
from meetward.catalogue.shared import Shared


class Passage(msgspec.Struct, frozen=True):
    """A paragraph or a caution. ``of`` says of which group it is true; empty for the entry's own."""

    text: str
    of: str = ""


class Taught(msgspec.Struct, frozen=True):
    """All of an entry's text in the order in which it is read, own words first."""

    setup: tuple[Passage, ...]
    execution: tuple[Passage, ...]
    scaling: tuple[Passage, ...]
    cautions: tuple[Passage, ...]
    asks: tuple[Asked, ...]
    usual: tuple[Usual, ...]


def taught(entry: Movement | Drill, shared: Mapping[str, Shared]) -> Taught:
    """The entry with the texts of the groups it belongs to.

    shared : all `Shared` texts by id; a name that is not there adds nothing (the loader has told it).
    Joint ranges of a group come in where the entry has none of that motion; usual sets and reps where it has
    none at all.
    """
    groups = [shared[id_] for id_ in entry.shares if id_ in shared]
    if isinstance(entry, Movement):
        setup, execution, asks, usual = entry.setup, entry.execution, list(entry.asks), entry.usual
    else:
        setup, execution, asks, usual = "", entry.how, [], ()
    for group in groups:
        asks += [one for one in group.asks if one.motion not in {had.motion for had in asks}]
    return Taught(
        setup=tuple(_passages(setup, groups, "setup")),
        execution=tuple(_passages(execution, groups, "execution")),
        scaling=tuple(_passages(entry.scaling, groups, "scaling")),
        cautions=(
            *(Passage(text) for text in entry.cautions),
            *(Passage(text, group.name) for group in groups for text in group.cautions),
        ),
        asks=tuple(asks),
        usual=usual or next((group.usual for group in groups if group.usual), ()),
    )


def _passages(own: str, groups: list[Shared], field: str) -> Iterator[Passage]:
    if own:
        yield Passage(own)
    for group in groups:
        if text := getattr(group, field):
            yield Passage(text, group.name)
