"""The search field: entries for what somebody types, best first, misspelt or half typed."""

import re
from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from meetward.catalogue.drill import Drill, Region, Use
from meetward.catalogue.movement import Equipment, Family, Level, Movement, Position
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.words import joined, normal

if TYPE_CHECKING:
    from meetward.catalogue.catalogue import Catalogue, Entry, Found, Kind

LONGEST_QUERY = 100
"""Characters that are looked at; nobody types more to find a lift."""

_LAST = re.compile(r"[^\W_]+$")
_WORD = re.compile(r"[^\W_]+")


class Where(msgspec.Struct, frozen=True):
    """What an entry has to be besides its name. A filter that a kind of entry has no answer to leaves it out:
    ``family``, ``position`` and ``level`` leave movements, ``region`` and ``use`` leave drills."""

    kind: "Kind | None" = None
    family: Family | None = None
    position: Position | None = None
    equipment: Equipment | None = None
    level: Level | None = None
    region: Region | None = None
    use: Use | None = None

    def suits(self, entry: "Entry") -> bool:
        """Whether an entry passes."""
        if self.kind is not None and self.kind != _kind_of(entry):
            return False
        if isinstance(entry, Movement):
            return (
                (self.family is None or entry.family == self.family)
                and (self.position is None or self.position in entry.positions)
                and (self.equipment is None or self.equipment in entry.equipment)
                and (self.level is None or entry.level == self.level)
                and self.region is None
                and self.use is None
            )
        if self.family is not None or self.position is not None or self.level is not None:
            return False
        if isinstance(entry, Drill):
            return (
                (self.equipment is None or self.equipment in entry.equipment)
                and (self.region is None or self.region in entry.regions)
                and (self.use is None or self.use in entry.uses)
            )
        return self.equipment is None and self.region is None and self.use is None


class Results(NamedTuple):
    """What was found.

    found : best first, at most as many as were asked for.
    total : how many there are in all.
    nearest : nothing goes by these words; these are the nearest names.
    outside : how many the filters alone kept out, where they kept out all.
    """

    found: "tuple[Found, ...]"
    total: int
    nearest: bool = False
    outside: int = 0


class _Card(NamedTuple):
    """An entry as the search sees it: words of each of its names (the first is the name itself), words it is
    filed under, words of its text."""

    entry: "Entry"
    kind: "Kind"
    names: tuple[tuple[str, ...], ...]
    run_together: tuple[str, ...]
    filed: frozenset[str]
    said: frozenset[str]
    family: str
    order: tuple[int, int, str]


class Search:
    """The search of one catalogue. Names are brought to keys once, when it is made."""

    def __init__(self, catalogue: "Catalogue") -> None:
        self._catalogue = catalogue
        stands_on = Counter(m.reference for m in catalogue.movements.values())
        self._cards = [_card(entry, stands_on[entry.id], catalogue.own) for entry in catalogue]
        self._by_name = sorted(self._cards, key=lambda card: card.entry.name.casefold())
        self._holding: dict[str, set[int]] = {}
        for n, card in enumerate(self._cards):
            for word in set().union(*card.names, card.filed, card.said):
                self._holding.setdefault(word, set()).add(n)
        self._vocabulary = sorted(self._holding)
        self._named = sorted({word for card in self._cards for name in card.names for word in name})

    def __call__(self, words: str = "", where: Where | None = None, limit: int = 40) -> Results:
        """Entries for ``words``: every word has to begin a word of a name, of what an entry is filed under,
        or of its summary. All that suit, by name, when no words are given.

        words : as typed; the last word may be half typed, any may be abbreviated ("hang pwr sn") or, where
            nothing else is found, misspelt ("snacth blance").
        """
        where = where or Where()
        words = words[:LONGEST_QUERY]
        if not words.strip():
            found = [self._found(card, False) for card in self._by_name if where.suits(card.entry)]
            return Results(tuple(found[: max(0, limit)]), len(found))
        ranked, nearest = self._ranked(words), False
        if not ranked:
            ranked, nearest = self._nearest(words), True
        suited = [(card, exact) for card, exact in ranked if where.suits(card.entry)]
        return Results(
            tuple(self._found(card, exact and not nearest) for card, exact in suited[: max(0, limit)]),
            len(suited),
            nearest and bool(ranked),
            0 if suited else len(ranked),
        )

    def _ranked(self, words: str) -> list[tuple[_Card, bool]]:
        """The cards for a query, best first, each with whether its name is what was typed."""
        asked = [self._begun(written) for written in _ways(words)]
        holding = [self._all_of(query) for query in asked]
        meant = {id(found.entry) for kind in _KINDS if (found := self._catalogue.find(words, kind))}
        together = joined(normal(words))
        ranked: list[tuple[tuple[int, int], _Card]] = []
        for n, card in enumerate(self._cards):
            if id(card.entry) in meant:
                ranked.append(((0, 0), card))
                continue
            ranks = [_rank(card, query) for query, in_all in zip(asked, holding, strict=True) if n in in_all]
            if ranks:
                ranked.append((min(ranks), card))
            elif len(together) > 3 and any(name.startswith(together) for name in card.run_together):
                ranked.append(((4, 0), card))  # "frontsqu"
        key = normal(words)  # of two that fit alike, the clean pull comes before the face pull
        ranked.sort(key=lambda one: (one[0], one[1].family != key, one[1].order))
        return [(card, rank[0] == 0) for rank, card in ranked]

    def _nearest(self, words: str) -> list[tuple[_Card, bool]]:
        """Cards for what was probably meant."""
        key = normal(words)
        if not key:
            return []
        near = self._catalogue.nearest
        mended = " ".join(self._mended(word) for word in key.split())
        known = " ".join(word for word in mended.split() if self._starts(word, self._named))
        for guess in (mended, near.to(key), known):
            if guess and (ranked := self._ranked(guess)):
                return ranked
        return []

    def _mended(self, word: str) -> str:
        """A word that begins a word of a name, or the nearest one to it."""
        if self._starts(word, self._named):
            return word
        near = self._catalogue.nearest
        whole = near.word(word)
        return whole if whole != word else near.beginning(word, self._named)

    def _begun(self, query: tuple[str, ...]) -> list[frozenset[str]]:
        """For each word of a query the words of this catalogue that begin with it."""
        return [frozenset(self._starts(word, self._vocabulary)) for word in query]

    def _all_of(self, query: list[frozenset[str]]) -> set[int]:
        """The cards in which each word of a query begins some word."""
        found = [set().union(*(self._holding[word] for word in begun)) for begun in query]
        return set.intersection(*found) if found else set()

    @staticmethod
    def _starts(word: str, vocabulary: list[str]) -> list[str]:
        at = bisect_left(vocabulary, word)
        end = at
        while end < len(vocabulary) and vocabulary[end].startswith(word):
            end += 1
        return vocabulary[at:end]

    @staticmethod
    def _found(card: _Card, exact: bool) -> "Found":
        from meetward.catalogue.catalogue import Found

        return Found(card.entry, card.kind, exact)


_KINDS: "tuple[Kind, ...]" = ("movement", "drill", "sequence")


def _kind_of(entry: "Entry") -> "Kind":
    if isinstance(entry, Movement):
        return "movement"
    return "drill" if isinstance(entry, Drill) else "sequence"


def _card(entry: "Entry", stands_on: int, own: frozenset[str]) -> _Card:
    filed: tuple[str, ...] = ("warm-up",)
    if isinstance(entry, Movement):
        filed = (entry.family, *entry.positions, *entry.equipment)
    elif isinstance(entry, Drill):
        filed = (entry.kind, *entry.uses, *entry.regions, *entry.equipment)
    names = dict.fromkeys(tuple(normal(words).split()) for words in (entry.name, *entry.names))
    text = entry.purpose if isinstance(entry, Sequence) else entry.summary
    return _Card(
        entry,
        _kind_of(entry),
        tuple(name for name in names if name),
        tuple("".join(name) for name in names),
        frozenset(word for words in filed for word in normal(words).split()),
        frozenset(_WORD.findall(text.casefold())),
        entry.family if isinstance(entry, Movement) else "",
        # The coach's own entries, then the lifts that others stand on.
        (0 if entry.id in own else 1, -stands_on, entry.name.casefold()),
    )


def _ways(words: str) -> Iterator[tuple[str, ...]]:
    """A query as words: abbreviations written out, and once more with the last word as the start of one.

    "sn" is the snatch, and may also become "snap".
    """
    key = tuple(normal(words).split())
    if key:
        yield key
    last = _LAST.search(words.casefold())
    if last is not None:
        begun = (*normal(words[: last.start()]).split(), last[0])
        if begun != key:
            yield begun


def _rank(card: _Card, query: list[frozenset[str]]) -> tuple[int, int]:
    """How well an entry that has the words of a query fits, lower is better, with the words that its name has
    beyond them.

    1 and 2: the name, another name, begins or ends so. 3 and 4: has the words. 5: with what it is filed
    under. 6: with its summary.
    """
    best: tuple[int, int] | None = None
    for n, name in enumerate(card.names):
        more = len(name) - len(query)
        if more >= 0 and (_in_turn(name, query) or _in_turn(name[more:], query)):
            rank = (1 if n == 0 else 2, more)
        elif all(not begun.isdisjoint(name) for begun in query):
            rank = (3 if n == 0 else 4, max(0, more))
        else:
            continue
        if best is None or rank < best:
            best = rank
    if best is not None:
        return best
    every = {word for name in card.names for word in name} | card.filed
    return (5 if all(not begun.isdisjoint(every) for begun in query) else 6), 0


def _in_turn(name: tuple[str, ...], query: list[frozenset[str]]) -> bool:
    return all(word in begun for word, begun in zip(name, query, strict=False))
