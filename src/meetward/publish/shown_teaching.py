"""The teaching text of an entry with its drawing: what paper, page and teaching edition all draw."""

from collections.abc import Iterable, Mapping

import msgspec

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Fault, Movement
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.catalogue.taught import Passage, taught

from .picture import Size, picture


class ShownTeaching(msgspec.Struct, frozen=True):
    """The teaching text of one movement, drill or sequence; ``how`` is what to do, in full.

    setup, how, scaling, cautions : the entry's own words first, then those it shares with its group.
    drawing : SVG of its key positions; empty where there is none.
    first : the lifter has not met it before in this cycle.
    again : it stood on an earlier line of this day, so paper only says "as above".
    """

    name: str
    summary: str = ""
    cues: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    purpose: str = ""
    setup: tuple[Passage, ...] = ()
    how: tuple[Passage, ...] = ()
    scaling: tuple[Passage, ...] = ()
    cautions: tuple[Passage, ...] = ()
    link: str = ""
    drawing: str = ""
    first: bool = False
    again: bool = False


def teaching(
    entry: Movement | Drill | Sequence | None,
    shared: Mapping[str, Shared],
    *,
    first: bool = False,
    size: Size = "strip",
) -> ShownTeaching | None:
    """The text of ``entry`` with what it shares; None where there is no entry.

    size : of a movement's drawing; a drill's stands small beside its words.
    """
    if entry is None:
        return None
    if isinstance(entry, Sequence):
        cautions = tuple(Passage(caution) for caution in entry.cautions)
        return ShownTeaching(
            entry.name, purpose=entry.purpose, cautions=cautions, link=entry.link, first=first
        )
    text = taught(entry, shared)
    return ShownTeaching(
        name=entry.name,
        summary=entry.summary,
        cues=entry.cues,
        faults=entry.faults,
        purpose=entry.purpose,
        setup=text.setup,
        how=text.execution,
        scaling=text.scaling,
        cautions=text.cautions,
        link=entry.link,
        drawing=picture(entry, size if isinstance(entry, Movement) else "single"),
        first=first,
    )


def each_once(texts: Iterable[ShownTeaching | None], seen: set[str]) -> Iterable[ShownTeaching]:
    """A movement that stands twice in a complex is taught once; on a later line it is marked as seen.

    seen : names that earlier lines of the day have taught; new ones are added.
    """
    for text in {text.name: text for text in texts if text}.values():
        yield msgspec.structs.replace(text, again=text.name in seen)
        seen.add(text.name)
