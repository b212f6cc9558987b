"""All that the catalogue says of a movement or drill, in words: for the teaching edition and the shelf."""

from collections.abc import Callable, Mapping, Set

import msgspec

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Asked, Movement, Ratio, Usual
from meetward.catalogue.shared import Shared
from meetward.catalogue.taught import Passage, taught
from meetward.fit.words import dose_words
from meetward.units import show_percent, show_seconds

from .picture import Size, picture
from .shown_teaching import ShownTeaching, teaching

NameOf = Callable[[str], str]
"""The name of an entry by its id; the id itself where it is not known."""

_SHARE = {"full": "the whole range", "most": "most of the range", "some": "a middle range"}
_LEVEL = {
    "first": "taught in the first weeks",
    "regular": "with some months of training",
    "advanced": "with a coach at hand",
}


class ShownEntry(msgspec.Struct, frozen=True):
    """The teaching text with what stands around it.

    wide_drawing : all positions in one row, for a wide page; empty where the text's drawing is one already.
    easier, harder, instead : names.
    usual, asks, ratios : sentences without a full stop; each names its source where it has one.
    groups : names of the groups whose texts stand elsewhere and are true of it too.
    trains : the positions, or the regions and the uses of a drill.
    """

    id: str
    text: ShownTeaching
    wide_drawing: str
    names: tuple[str, ...]
    groups: tuple[str, ...]
    easier: tuple[str, ...]
    harder: tuple[str, ...]
    instead: tuple[str, ...]
    usual: tuple[str, ...]
    asks: tuple[str, ...]
    ratios: tuple[str, ...]
    trains: str
    needs: str
    level: str


def shown_entry(
    entry: Movement | Drill,
    shared: Mapping[str, Shared],
    name_of: NameOf,
    said: Set[str] = frozenset(),
    *,
    size: Size = "strip",
) -> ShownEntry:
    """``entry`` in words.

    said : names of the groups whose shared texts stand elsewhere; they are named instead of said again.
    """
    text = teaching(entry, shared, size=size)
    assert text is not None
    text = msgspec.structs.replace(
        text,
        setup=_unsaid(text.setup, said),
        how=_unsaid(text.how, said),
        scaling=_unsaid(text.scaling, said),
        cautions=_unsaid(text.cautions, said),
    )
    groups = [shared[id_].name for id_ in entry.shares if id_ in shared]
    facts = taught(entry, shared)
    if isinstance(entry, Movement):
        usual = tuple(usual_words(one, entry, name_of) for one in facts.usual)
        ratios = tuple(ratio_words(one, name_of) for one in entry.ratios)
        trains, level = ", ".join(entry.positions), _LEVEL[entry.level]
    else:
        usual, ratios, level = (f"{dose_words(entry.dose)}, about {entry.minutes:g} min",), (), ""
        trains = f"{', '.join(entry.regions)}; {', '.join(entry.uses)}"
    return ShownEntry(
        id=entry.id,
        text=text,
        wide_drawing=row if size == "strip" and (row := picture(entry, "row")) != text.drawing else "",
        names=entry.names,
        groups=tuple(name for name in groups if name in said),
        easier=tuple(map(name_of, entry.easier)),
        harder=tuple(map(name_of, entry.harder)),
        instead=tuple(map(name_of, entry.instead)),
        usual=usual,
        asks=tuple(asked_words(one) for one in facts.asks),
        ratios=ratios,
        trains=trains,
        needs=", ".join(entry.equipment),
        level=level,
    )


def _unsaid(passages: tuple[Passage, ...], said: Set[str]) -> tuple[Passage, ...]:
    return tuple(one for one in passages if one.of not in said)


def usual_words(usual: Usual, movement: Movement, name_of: NameOf) -> str:
    """ "3–5 sets of 1–3 at 70–90 % of snatch (strength)"."""
    sets = f"{_ends(usual.sets)} {'set' if usual.sets == (1, 1) else 'sets'}"
    if usual.seconds:
        low, high = map(show_seconds, usual.seconds)
        each = low if low == high else f"{low.removesuffix(' s') if high.endswith(' s') else low}–{high}"
    elif usual.metres:
        each = f"{_ends(usual.metres)} m"
    else:
        each = _ends(usual.reps) if usual.reps else ""
    words = f"{sets} of {each}" + (" each side" if usual.per_side else "")
    if usual.load_permille:
        low, high = map(show_percent, usual.load_permille)
        of = name_of(movement.reference)
        words += f" at {low if low == high else f'{low}–{high}'} % of {of[:1].lower()}{of[1:]}"
    return f"{words} ({usual.when})" if usual.when else words


def asked_words(asked: Asked) -> str:
    """ "ankle dorsiflexion: most of the range, in the bottom"."""
    words = f"{asked.motion}: {_SHARE[asked.share]}"
    if asked.at:
        words += f" ({asked.at})"
    if asked.degrees:
        words += f", {_ends(asked.degrees)} degrees. Source: {asked.source}"
    return words


def ratio_words(ratio: Ratio, name_of: NameOf) -> str:
    """ "usual best 80–92 % of snatch. Source: ..."."""
    kind = "usual load" if ratio.working_load else "usual best"
    low, high = show_percent(ratio.low_permille), show_percent(ratio.high_permille)
    of = name_of(ratio.of)
    return f"{kind} {low}–{high} % of {of[:1].lower()}{of[1:]}. Source: {ratio.source}"


def _ends(pair: tuple[int, int]) -> str:
    low, high = pair
    return str(low) if low == high else f"{low}–{high}"
