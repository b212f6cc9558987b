"""A bar and its discs in a coach's words, and back: "15 kg" and "home: 2x20 2x10 2x5 2x2.5 2x1.25".

A list of discs counts single discs ("2x20" is one pair) unless it says pairs ("pairs 20, 15, 10x2, 5"). A
disc without a count stands for one pair. Where figures read both ways the reading with fewer discs is taken
and the doubt is told: better a bar that could have been finer than one that can't be loaded.
"""

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from meetward.barbell.discs import BarAndDiscs, Disc
from meetward.barbell.standard import (
    CLUB_DISCS,
    COMPETITION_COLLARS_DAG,
    COMPETITION_DISCS,
    LIGHT_DISCS,
    MENS_BAR_DAG,
    WOMENS_BAR_DAG,
)
from meetward.lifter.cell import LONGEST_CELL, Cell, Doubt, is_blank, words_of
from meetward.lifter.weights import Unit
from meetward.units import kg_to_dag, lb_to_dag, show_kg

HOME_DISCS = (
    Disc(2_000, 1, "blue", large=True),
    Disc(1_000, 1, "green", large=True),
    Disc(500, 1, "white"),
    Disc(250, 1, "red"),
    Disc(125, 1, "iron"),
)
"""A pair of each in a small room: common practice, no source."""

STOCK_DISCS: dict[str, tuple[Disc, ...]] = {
    "competition": COMPETITION_DISCS,
    "club": CLUB_DISCS,
    "home": HOME_DISCS,
    "light": LIGHT_DISCS,
    "none": (),
}
"""Sets that a sheet can name instead of listing discs."""

_OTHER_NAMES = {
    "comp": "competition", "full": "competition", "full set": "competition", "rule book": "competition",
    "meet": "competition",
    "gym": "club", "club set": "club", "standard": "club", "normal": "club", "all": "club",
    "garage": "home", "home set": "home", "home gym": "home",
    "youth": "light", "kids": "light", "technique": "light", "juniors": "light", "training": "light",
    "light set": "light",
    "bar only": "none", "no discs": "none", "no plates": "none", "no": "none", "0": "none",
}  # fmt: skip

_LOOKS = {
    disc.dag: (disc.colour, disc.large) for disc in (*LIGHT_DISCS[-5:], *CLUB_DISCS, *COMPETITION_DISCS)
}
_KNOWN_DAG = frozenset(_LOOKS) | {25, 75}

_COUNTED = re.compile(
    r"(?P<a>\d{1,3}(?:\.\d{1,3})?)(?P<aunit> ?(?:kgs?|lbs?|#))?"
    r"(?: ?[x×*] ?(?P<b>\d{1,3}(?:\.\d{1,3})?)(?P<bunit> ?(?:kgs?|lbs?|#))?)?"
    r"(?P<size> ?(?:large|bumpers?|full height|small|iron))?(?![\w.])",
    re.ASCII,
)
_BAR = re.compile(r"(\d{1,3}(?:[.,]\d{1,2})?) ?(kgs?|kilos?|k|lbs?|pounds?|#)?", re.ASCII)
_BAR_WORDS = {
    "men": MENS_BAR_DAG, "mens": MENS_BAR_DAG, "men's": MENS_BAR_DAG, "male": MENS_BAR_DAG, "m": MENS_BAR_DAG,
    "women": WOMENS_BAR_DAG, "womens": WOMENS_BAR_DAG, "women's": WOMENS_BAR_DAG, "ladies": WOMENS_BAR_DAG,
    "female": WOMENS_BAR_DAG, "w": WOMENS_BAR_DAG, "f": WOMENS_BAR_DAG,
    "technique": 1_000, "training": 1_000, "youth": 500, "kids": 500,
}  # fmt: skip
_FILLERS = re.compile(
    r"\b(?:pairs?|of|each|and|plates?|discs?|disks?|kgs?|lbs?|a|my|own|set)\b|[,;/+&|()\[\]:.=-]"
)
_MOST_OF_ONE = 16
_MOST_KINDS = 24
_MOST_PAIRS = 99
_HEAVIEST_BAR_KG = 30
_LONGEST_LIST = 600  # characters
_KNOWN_LB = frozenset(lb_to_dag(lb) for lb in ("55", "45", "35", "25", "15", "10", "5", "2.5", "1.25", "1"))


class DiscsRead(NamedTuple):
    """Discs understood, and what is to be said about them. ``discs`` is None when nothing was."""

    discs: tuple[Disc, ...] | None
    doubts: tuple[Doubt, ...] = ()


def bar_for(category: str | None) -> int:
    """The bar of a category under the competition rules: 15 kg for women, else 20 kg. [10 g]"""
    return WOMENS_BAR_DAG if category == "women" else MENS_BAR_DAG


def read_bar(cell: Cell, *, unit: Unit | None = None) -> tuple[int | None, tuple[Doubt, ...]]:
    """The bare bar [10 g] from "20", "15 kg", "45 lb" or "women's"; None when blank or not understood.

    unit : of a bare number; where None, kilos, or pounds for what is too heavy for a bar in kilos.
    """
    if is_blank(cell):
        return None, ()
    said = words_of(cell)
    text = said.casefold().removesuffix(" bar")
    if text in _BAR_WORDS:
        return _BAR_WORDS[text], ()
    if len(text) <= LONGEST_CELL and (found := _BAR.fullmatch(text)):
        number = Decimal(found[1].replace(",", "."))
        if found[2]:
            unit = "kg" if found[2].startswith("k") else "lb"
        doubts: tuple[Doubt, ...] = ()
        if unit is None and number > _HEAVIEST_BAR_KG:
            unit = "lb"
            doubts = (
                _look("bar in pounds", f"A bar of {said} is read as {said} lb.", f"Write '{said} lb'."),
            )
        dag = lb_to_dag(number) if unit == "lb" else kg_to_dag(number)
        if 100 <= dag <= 5_000:
            return dag, doubts
    doubt = Doubt("bar", f"'{said[:60]}' is not a bar.", "Write its weight, such as 20 or 15 kg.", "stop")
    return None, (doubt,)


def read_collars(cell: Cell) -> tuple[int | None, tuple[Doubt, ...]]:
    """Both collars together [10 g] from "yes", "no", "2.5" (competition), "5 kg" (both) or "1.25 kg each".

    None when blank or not understood.
    """
    said = words_of(cell)
    text = " ".join(said.casefold().replace(",", ".").replace("kg", " ").split())
    if text in ("no", "n", "none", "0", "false", "light", "spring", "springs", "clips"):
        return 0, ()
    if text in ("yes", "y", "true", "competition", "comp", "2.5", "2x2.5", "2 x 2.5", "✓"):
        return COMPETITION_COLLARS_DAG, ()
    if is_blank(cell):
        return None, ()
    if found := re.fullmatch(r"(\d{1,2}(?:\.\d{1,2})?)( each)?", text, re.ASCII):
        dag = kg_to_dag(found[1]) * (2 if found[2] else 1)
        if dag <= 1_000 and dag % 2 == 0:
            return dag, ()
    return None, (Doubt("collars", f"'{said[:60]}' says nothing about collars.", "Write yes or no.", "stop"),)


def read_discs(cell: Cell, *, pounds: bool = False) -> DiscsRead:
    """Discs from the name of a set, a list, or a set "without" some discs. Never raises."""
    said = words_of(cell).replace("\n", " ")
    text = said.casefold()
    if text not in _OTHER_NAMES and text not in STOCK_DISCS and is_blank(cell):
        return DiscsRead(None)
    if len(text) > _LONGEST_LIST:
        return DiscsRead(None, (_unread(said[:60] + "…"),))
    named, _, listed = text.partition(":")
    if not listed.strip():
        named, listed = "", text
    if (stock := _stock(listed)) is not None:
        return DiscsRead(stock)
    without = re.fullmatch(r"(.+?),? (?:without|minus|but no|except|no) (.+)", listed)
    if without and (stock := _stock(without[1])) is not None:
        gone = _listed(without[2], pounds)
        if gone.discs:
            dags = {disc.dag for disc in gone.discs}
            return DiscsRead(tuple(disc for disc in stock if disc.dag not in dags))
    read = _listed(listed, pounds)
    if read.discs is None and named and (stock := _stock(named)) is not None:
        return DiscsRead(stock, read.doubts)
    return read


def show_discs(discs: Iterable[Disc]) -> str:
    """The name of a stock set, or the list as `read_discs` reads it: ``"2x20kg 2x10kg 2x1.25kg"``."""
    discs = tuple(discs)
    for name, stock in STOCK_DISCS.items():
        if discs == stock:
            return name
    return " ".join(
        f"{2 * one.pairs}x{show_kg(one.dag)}kg"
        + ("" if one.large == _usual(one.dag)[1] else " large" if one.large else " small")
        for one in discs
    )


def show_collars(collars_dag: int) -> str:
    """``"yes"`` for competition collars, ``"no"`` for none, else ``"1.25 kg each"``."""
    if not collars_dag:
        return "no"
    return "yes" if collars_dag == COMPETITION_COLLARS_DAG else f"{show_kg(collars_dag // 2)} kg each"


def show_kit(kit: BarAndDiscs) -> str:
    """A kit on one line: ``"15 kg bar, club discs"``."""
    discs = show_discs(kit.discs)
    said = "no discs" if discs == "none" else f"{discs} discs" if discs in STOCK_DISCS else discs
    collars = "" if not kit.collars_dag else f", collars {show_kg(kit.collars_dag)} kg"
    return f"{show_kg(kit.bar_dag)} kg bar, {said}{collars}"


def disc(dag: int, pairs: int = 1, *, large: bool | None = None) -> Disc:
    """A disc of a weight with its usual colour and size, unless ``large`` says otherwise. [10 g]"""
    colour, usually_large = _usual(dag)
    return Disc(dag, pairs, colour, usually_large if large is None else large)


def kit_of(bar_dag: int, discs: tuple[Disc, ...], collars_dag: int = 0) -> BarAndDiscs:
    """A kit, with discs of one kind that were listed apart put together."""
    pairs: dict[tuple[int, bool], Disc] = {}
    for one in discs:
        key = (one.dag, one.large)
        before = pairs[key].pairs if key in pairs else 0
        pairs[key] = Disc(one.dag, min(99, before + one.pairs), one.colour, one.large)
    return BarAndDiscs(bar_dag, collars_dag, tuple(pairs.values()))


class _Listed(NamedTuple):
    """A list of discs in one reading.

    strange : weights that no disc has, and counts that nobody owns; the reading with none of these is the
        meant one.
    """

    discs: tuple[Disc, ...]
    strange: int
    doubts: tuple[Doubt, ...] = ()

    @property
    def total(self) -> int:
        """All discs together."""
        return sum(2 * one.pairs for one in self.discs)


def _listed(text: str, pounds: bool) -> DiscsRead:
    """A list of discs; commas are decimal signs where that makes known discs, else they part the list."""
    pounds = pounds or bool(re.search(r"\d ?(?:lbs?|#)|\blbs?\b|\bpounds?\b", text))
    text = re.sub(r"(\d)['’]?s\b", r"\1", text)
    as_written = text
    text = re.sub(r"(\d) ?pairs? (?:of )?(?=\d)", r"\1x", text)
    in_pairs = text != as_written or bool(re.search(r"\bpairs?\b", text))
    decimal = re.sub(r"(?<=\d),(?=\d)", ".", text)
    best: tuple[_Listed, _Listed | None] | None = None
    for written in dict.fromkeys((decimal, text.replace(",", " "))):
        read = _better_order(written, pounds, in_pairs)
        if read is not None and (best is None or read[0].strange < best[0].strange):
            best = read
    if best is None:
        return DiscsRead(None, (_unread(as_written),))
    taken, other = best
    if other is None:
        return DiscsRead(taken.discs, taken.doubts)
    doubt = _look(
        "discs read two ways",
        f"'{as_written.strip()}' is taken as {show_discs(taken.discs)}; it could be "
        f"{show_discs(other.discs)}.",
        "Write the count first: 2x20 for two discs of 20 kg.",
    )
    return DiscsRead(taken.discs, (*taken.doubts, doubt))


def _better_order(text: str, pounds: bool, in_pairs: bool) -> tuple[_Listed, _Listed | None] | None:
    """The likelier of count first and weight first, and the other one where it could as well be meant."""
    count_first = _counted(text, True, pounds, in_pairs)
    weight_first = _counted(text, False, pounds, in_pairs)
    if count_first is None or weight_first is None:
        only = count_first or weight_first
        return (only, None) if only else None
    if count_first.strange != weight_first.strange:
        return min(count_first, weight_first, key=lambda read: read.strange), None
    if weight_first.total < count_first.total:
        return weight_first, count_first
    return count_first, None


def _counted(text: str, count_first: bool, pounds: bool, in_pairs: bool) -> _Listed | None:
    """The list with the count before the weight or after it; None when that reading makes no sense at all."""
    items: list[tuple[str, str | None, str]] = []  # weight, count, size
    for found in _COUNTED.finditer(text):
        first, second, size = found["a"], found["b"], (found["size"] or "").strip()
        weight_is_first = count_first is False
        if bool(found["aunit"]) != bool(found["bunit"]):
            weight_is_first = bool(found["aunit"])
        if second is None or weight_is_first:
            items.append((first, second, size))
        else:
            items.append((second, first, size))
    if not items:
        return None
    # Nobody lists single discs that no bar can use: "1x20 1x10" means a pair of each.
    in_pairs = in_pairs or all(count == "1" for _, count, _ in items if count)
    discs: list[Disc] = []
    doubts: list[Doubt] = []
    strange = 0
    for weight, count, size in items:
        dag = lb_to_dag(weight) if pounds else kg_to_dag(weight)
        if not 1 <= dag <= 10_000 or (count is not None and not (count.isdigit() and 1 <= int(count) <= 198)):
            return None
        number = 1 if count is None else int(count)
        pairs, odd = (number, 0) if count is None or in_pairs else divmod(number, 2)
        if pairs > _MOST_PAIRS:
            return None
        strange += (dag not in (_KNOWN_LB if pounds else _KNOWN_DAG)) + (number > _MOST_OF_ONE) + odd
        if odd:
            doubts.append(
                _look(
                    "odd disc",
                    f"{number} discs of {weight} leave one over.",
                    "Give the discs that make pairs.",
                )
            )
        if pairs:
            discs.append(disc(dag, pairs, large=size not in ("small", "iron") if size else None))
    if len({(one.dag, one.large) for one in discs}) > _MOST_KINDS:
        return None
    left = " ".join(_FILLERS.sub(" ", _COUNTED.sub(" ", text)).split())
    if left:
        doubts.append(
            _look("discs", f"'{left[:60]}' among the discs was not understood.", "List discs as 2x20 2x10.")
        )
    return _Listed(kit_of(MENS_BAR_DAG, tuple(discs)).discs, strange, tuple(doubts))


def _stock(words: str) -> tuple[Disc, ...] | None:
    name = " ".join(_FILLERS.sub(" ", words).split())
    return STOCK_DISCS.get(_OTHER_NAMES.get(words.strip(), _OTHER_NAMES.get(name, name)))


def _usual(dag: int) -> tuple[str, bool]:
    """Colour and full height of a disc of that weight."""
    return _LOOKS.get(dag, ("", dag >= 1_000))


def _unread(text: str) -> Doubt:
    return Doubt(
        "discs", f"'{text[:60]}' is no list of discs.", "Write 'club', or list them: 2x20 2x10 2x5.", "stop"
    )


def _look(kind: str, message: str, repair: str) -> Doubt:
    return Doubt(kind, message, repair)
