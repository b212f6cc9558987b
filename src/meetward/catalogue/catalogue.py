"""The catalogue: every movement, drill and sequence under the names people use."""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeVar

import msgspec

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.catalogue.words import bag, head, joined, listed, normal

if TYPE_CHECKING:
    from meetward.catalogue.nearest import Nearest
    from meetward.catalogue.search import Search

Entry = Movement | Drill | Sequence
Kind = Literal["movement", "drill", "sequence"]

_MEMO_SIZE = 8192  # names as written that are kept; a hostile text must not fill the memory
_K = TypeVar("_K")
_SHARED: int = -1  # stands where two entries claim one key: neither is taken


class Found(NamedTuple):
    """What a name stands for.

    exact : False when the words stood in another order, or were joined or split differently.
    """

    entry: Entry
    kind: Kind
    exact: bool


class Clash(NamedTuple):
    """A name that more than one entry claims. ``winner`` is None when none of them gets it."""

    words: str
    kind: Kind
    winner: Entry | None
    losers: tuple[Entry, ...]


class Hidden(NamedTuple):
    """A name of an entry that a plain `find` never reaches, because an entry of another kind has it too."""

    entry: Entry
    found: Entry


class Catalogue:
    """Movements, drills and sequences by id, and the finding of them by name. Never changes once made.

    movements, drills : by id.
    sequences : the current version, by id.
    versions : all versions of a sequence, oldest first, by id.
    shared : texts that entries have in common, by id; `taught` puts them together.
    clashes : names that two entries of one kind claim.
    hidden : names of drills and sequences that are names of a movement or drill as well.

    own : ids of entries that come from a coach's file. Where a coach's entry and a shipped one claim the
        same name, the coach's has it.
    """

    __slots__ = (
        "_entries",
        "_index",
        "_memo",
        "_nearest",
        "_search",
        "_version",
        "clashes",
        "drills",
        "hidden",
        "movements",
        "own",
        "sequences",
        "shared",
        "versions",
    )

    movements: Mapping[str, Movement]
    drills: Mapping[str, Drill]
    sequences: Mapping[str, Sequence]
    versions: Mapping[str, tuple[Sequence, ...]]
    shared: Mapping[str, Shared]
    own: frozenset[str]
    clashes: tuple[Clash, ...]
    hidden: tuple[Hidden, ...]

    def __init__(
        self,
        movements: Iterable[Movement] = (),
        drills: Iterable[Drill] = (),
        sequences: Iterable[Sequence] = (),
        own: Iterable[str] = (),
        shared: Iterable[Shared] = (),
    ) -> None:
        self.movements = MappingProxyType({m.id: m for m in movements})
        self.drills = MappingProxyType({d.id: d for d in drills})
        versions: dict[str, tuple[Sequence, ...]] = {}
        for s in sorted(sequences, key=lambda s: s.version):
            versions[s.id] = (*versions.get(s.id, ()), s)
        self.versions = MappingProxyType(versions)
        self.sequences = MappingProxyType({id_: all_[-1] for id_, all_ in versions.items()})
        self.shared = MappingProxyType({text.id: text for text in shared})
        self.own = frozenset(own)
        self._version = ""
        self._entries: tuple[Entry, ...] = (
            *self.movements.values(), *self.drills.values(), *self.sequences.values()
        )  # fmt: skip
        self._index: dict[Kind, _Index] = {}
        clashes: list[Clash] = []
        for kind in _KINDS:
            index = _Index()
            clashes += _fill(index, kind, self._entries, self.own)
            self._index[kind] = index
        self.clashes = tuple(clashes)
        self.hidden = tuple(_hidden(self._index, self._entries))
        self._memo: dict[str, Found | None] = {}
        self._nearest: Nearest | None = None
        self._search: Search | None = None

    @property
    def version(self) -> str:
        """Hash of the whole content, for keys of caches; equal content has an equal version."""
        if not self._version:
            # Here and not above: most runs of the command never ask, and the library costs 2 ms to import.
            from hashlib import blake2b

            content = (
                sorted(self.movements.items()),
                sorted(self.drills.items()),
                sorted(self.versions.items()),
                sorted(self.shared.items()),
            )
            said = msgspec.json.encode((content, sorted(self.own)))
            self._version = blake2b(said, digest_size=8).hexdigest()
        return self._version

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Catalogue) and self.version == other.version

    def __hash__(self) -> int:
        return hash(self.version)

    def __repr__(self) -> str:
        counts = f"{len(self.movements)} movements, {len(self.drills)} drills"
        return f"<Catalogue {self.version}: {counts}, {len(self.sequences)} sequences>"

    def __reduce__(self) -> tuple[object, ...]:
        every = tuple(s for all_ in self.versions.values() for s in all_)
        return Catalogue, (
            tuple(self.movements.values()),
            tuple(self.drills.values()),
            every,
            self.own,
            tuple(self.shared.values()),
        )

    def __iter__(self) -> Iterator[Entry]:
        return iter(self._entries)

    def __len__(self) -> int:
        return len(self._entries)

    def find(self, words: str, kind: Kind | None = None) -> Found | None:
        """The entry that a name means, or None. A misspelling is not found: ask `suggest`.

        Case, hyphens, plurals and usual abbreviations don't matter; neither does the order of the words
        while the lift stays last ("power hang snatch") or the name is a list ("Snatch, power, hang"). A
        name that two entries claim is not found. Without ``kind``, movements come before drills and drills
        before sequences.
        """
        if kind is not None:
            return self._find(words, kind)
        try:
            return self._memo[words]
        except KeyError:
            pass
        found = next((f for each in _KINDS if (f := self._find(words, each))), None)
        if len(self._memo) >= _MEMO_SIZE:
            self._memo.clear()
        if len(words) <= 200:
            self._memo[words] = found
        return found

    def suggest(self, words: str) -> str | None:
        """The name of the one entry nearest to a misspelling ("snacth blance": "Snatch balance"), or None."""
        key = normal(words)
        if not key:
            return None
        near = self.nearest.to(key)
        found = self.find(near) if near else None
        return found.entry.name if found else None

    @property
    def search(self) -> "Search":
        """The search field over this catalogue: ``catalogue.search("hang pwr sn")``."""
        if self._search is None:
            from meetward.catalogue.search import Search

            self._search = Search(self)
        return self._search

    @property
    def nearest(self) -> "Nearest":
        """The names of this catalogue, ready to be compared with a misspelling."""
        if self._nearest is None:
            # Here and not above: the matcher takes longer to import than the catalogue to load.
            from meetward.catalogue.nearest import Nearest

            self._nearest = Nearest(
                k for each in _KINDS for k, at in self._index[each].keys.items() if at >= 0
            )
        return self._nearest

    def _find(self, words: str, kind: Kind) -> Found | None:
        key = normal(words)
        if not key:
            return None
        index = self._index[kind]
        at = index.keys.get(key)
        if at is not None:
            return None if at == _SHARED else Found(self._entries[at], kind, exact=True)
        loose = index.loose
        at = loose.joined.get(joined(key))
        if at is None and " " in key:
            unordered = bag(key)
            at = loose.bags.get(unordered)
            if at is not None and not listed(words) and head(key) not in loose.heads[unordered]:
                return None
        if at is None and "barbell" in key.split():
            plain = self._find(" ".join(w for w in key.split() if w != "barbell"), kind)
            return plain._replace(exact=False) if plain else None
        return None if at is None or at == _SHARED else Found(self._entries[at], kind, exact=False)


_KINDS: tuple[Kind, ...] = ("movement", "drill", "sequence")


class _Index:
    """Keys of one kind of entry; each leads to a place in the list of entries."""

    __slots__ = ("_loose", "keys")

    def __init__(self) -> None:
        self.keys: dict[str, int] = {}
        self._loose: _Loose | None = None

    @property
    def loose(self) -> "_Loose":
        """The keys joined and without order; made when somebody first writes a name that way."""
        if self._loose is None:
            self._loose = _Loose(self.keys)
        return self._loose


class _Loose:
    __slots__ = ("bags", "heads", "joined")

    def __init__(self, keys: Mapping[str, int]) -> None:
        self.joined: dict[str, int] = {}
        self.bags: dict[tuple[str, ...], int] = {}
        self.heads: dict[tuple[str, ...], set[str]] = {}
        for key, at in keys.items():
            _put(self.joined, joined(key), at)
            if unordered := bag(key):
                _put(self.bags, unordered, at)
                self.heads.setdefault(unordered, set()).add(head(key))


def kind_of(entry: Entry) -> Kind:
    """Movement, drill or sequence."""
    if isinstance(entry, Movement):
        return "movement"
    return "drill" if isinstance(entry, Drill) else "sequence"


def _fill(index: _Index, kind: Kind, entries: tuple[Entry, ...], own: frozenset[str]) -> list[Clash]:
    """Put the names of all entries of a kind into the index; the names that two of them claim."""
    claims: dict[str, dict[int, tuple[int, str]]] = {}
    for at, entry in enumerate(entries):
        if kind_of(entry) != kind:
            continue
        # A coach's own entry before a shipped one, then a name before an alias before an id.
        first = 3 if entry.id in own else 0
        for rank, words in (
            (first + 3, entry.name), *((first + 2, alias) for alias in entry.names), (first + 1, entry.id)
        ):  # fmt: skip
            if key := normal(words):
                claims.setdefault(key, {}).setdefault(at, (rank, words))  # the highest rank comes first

    clashes = []
    for key, claimed in claims.items():
        at, losers = next(iter(claimed)), []
        if len(claimed) > 1:
            best = max(rank for rank, _ in claimed.values())
            winners = [a for a, (rank, _) in claimed.items() if rank == best]
            at = winners[0] if len(winners) == 1 else _SHARED
            losers = [a for a, (rank, _) in claimed.items() if a != at and rank not in (1, 4)]
        index.keys[key] = at
        if losers:
            winner = None if at == _SHARED else entries[at]
            clashes.append(Clash(claimed[losers[0]][1], kind, winner, tuple(entries[a] for a in losers)))
    return clashes


def _hidden(index: Mapping[Kind, _Index], entries: tuple[Entry, ...]) -> Iterator[Hidden]:
    for n, first in enumerate(_KINDS):
        for later in _KINDS[n + 1 :]:
            for key in sorted(index[first].keys.keys() & index[later].keys.keys()):
                found, entry = index[first].keys[key], index[later].keys[key]
                if _SHARED not in (found, entry):
                    yield Hidden(entries[entry], entries[found])


def _put(index: dict[_K, int], key: _K, at: int) -> None:
    index[key] = at if index.get(key, at) == at else _SHARED
