"""The nearest known name to one that is not known. Only ever offered, never taken."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence

from rapidfuzz import process
from rapidfuzz.distance import OSA

from meetward.catalogue.words import bag, head

_LIKE_ENOUGH = 0.75


class Nearest:
    """All keys of a catalogue (as `normal` gives them), made ready to be compared with."""

    def __init__(self, keys: Iterable[str]) -> None:
        self._keys = list(dict.fromkeys(keys))
        self._known = set(self._keys)
        self._in_names = Counter(word for key in self._keys for word in key.split())
        self._vocabulary = list(self._in_names)
        self._bags: dict[tuple[str, ...], str] = {}
        self._of_lift: dict[str, list[str]] = defaultdict(list)
        for key in self._keys:
            self._bags.setdefault(bag(key), key)
            self._of_lift[head(key)].append(key)

    def to(self, key: str) -> str | None:
        """The key most like ``key``, or None when nothing is like it.

        First word by word, since a slip of the fingers stays inside a word: swapped neighbours count as one
        slip (optimal string alignment). Words that are all known but make no name together lead to the
        longest name that is part of them ("slow snatch pull": "snatch pull"). Last, the names are compared
        as wholes.
        """
        repaired = " ".join(self.word(word) for word in key.split())
        if repaired in self._known:
            return repaired
        unordered = bag(repaired)
        if not unordered:
            return None
        if unordered in self._bags:
            return self._bags[unordered]
        if all(word in self._in_names for word in repaired.split()):
            return self._longest_part(repaired)
        best = process.extractOne(
            repaired, self._keys, scorer=OSA.normalized_similarity, processor=None, score_cutoff=_LIKE_ENOUGH
        )
        return best[0] if best else None

    def word(self, word: str) -> str:
        """The known word with the fewest slips, of equals the commonest; itself when none is near."""
        if len(word) < 3 or word in self._in_names:
            return word
        slips = 1 if len(word) < 5 else 2
        near = process.extract(
            word, self._vocabulary, scorer=OSA.distance, processor=None, score_cutoff=slips, limit=None
        )
        return min(near, key=lambda n: (n[1], -self._in_names[n[0]], n[0]))[0] if near else word

    def beginning(self, word: str, vocabulary: Sequence[str]) -> str:
        """The start of a word of ``vocabulary`` that a half typed one is nearest to; itself when none is."""
        if len(word) < 4:
            return word
        starts = dict.fromkeys(known[: len(word)] for known in vocabulary if len(known) >= len(word))
        near = process.extractOne(word, list(starts), scorer=OSA.distance, processor=None, score_cutoff=1)
        return near[0] if near else word

    def _longest_part(self, key: str) -> str | None:
        """The key of the same lift with the most words, all of them in ``key``, in its order if possible."""
        lift, written = head(key), key.split()
        if not lift:
            return None
        there = Counter(written)
        best, most = None, (0, False)
        for k in self._of_lift[lift]:
            words = k.split()
            if len(words) < most[0] or Counter(words) - there:
                continue
            at = iter(written)
            merit = len(words), all(word in at for word in words)
            if merit > most:
                best, most = k, merit
        return best
