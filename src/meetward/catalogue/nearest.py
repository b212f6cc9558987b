"""The nearest known name to one that is not known. Only ever offered, never taken."""

from collections import Counter
from collections.abc import Mapping, Sequence

from rapidfuzz import process
from rapidfuzz.distance import OSA

from meetward.catalogue.words import bag, head

_LIKE_ENOUGH = 0.75


def nearest(key: str, keys: Sequence[str]) -> str | None:
    """The key most like ``key`` (both as `normal` gives them), or None when nothing is like it.

    First word by word, since a slip of the fingers stays inside a word: swapped neighbours count as one slip
    (optimal string alignment). Words that are all known but make no name together lead to the longest name
    that is part of them ("slow snatch pull": "snatch pull"). Last, the names are compared as wholes.
    """
    known = set(keys)
    vocabulary = Counter(word for k in keys for word in k.split())
    repaired = " ".join(_word(word, vocabulary) for word in key.split())
    if repaired in known:
        return repaired
    unordered = bag(repaired)
    if not unordered:
        return None
    for k in keys:
        if bag(k) == unordered:
            return k
    if all(word in vocabulary for word in repaired.split()):
        return _longest_part(repaired, keys)
    best = process.extractOne(
        repaired, keys, scorer=OSA.normalized_similarity, processor=None, score_cutoff=_LIKE_ENOUGH
    )
    return best[0] if best else None


def _word(word: str, vocabulary: Mapping[str, int]) -> str:
    """The known word with the fewest slips, of equals the commonest; the word itself when none is near."""
    if len(word) < 3 or word in vocabulary:
        return word
    slips = 1 if len(word) < 5 else 2
    near = process.extract(
        word, list(vocabulary), scorer=OSA.distance, processor=None, score_cutoff=slips, limit=None
    )
    return min(near, key=lambda n: (n[1], -vocabulary[n[0]], n[0]))[0] if near else word


def _longest_part(key: str, keys: Sequence[str]) -> str | None:
    """The key of the same lift with the most words, all of them in ``key``, in its order where possible."""
    lift, written = head(key), key.split()
    if not lift:
        return None
    there = Counter(written)

    def merit(k: str) -> tuple[int, bool, int]:
        at = iter(written)
        words = k.split()
        return len(words), all(word in at for word in words), -keys.index(k)

    parts = [k for k in keys if head(k) == lift and not Counter(k.split()) - there]
    return max(parts, key=merit, default=None)
