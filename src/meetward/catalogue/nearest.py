"""The nearest known name to a misspelt one. Only ever offered, never taken."""

from collections.abc import Sequence

from rapidfuzz import process
from rapidfuzz.distance import OSA

_LIKE_ENOUGH = 0.75


def nearest(key: str, keys: Sequence[str]) -> str | None:
    """The key most like ``key`` (both as `normal` gives them), or None when nothing is like it.

    First word by word, since a slip of the fingers stays inside a word; then as a whole. Swapped neighbours
    count as one slip (optimal string alignment).
    """
    known = set(keys)
    vocabulary = sorted({word for k in known for word in k.split()})
    repaired = " ".join(_word(word, vocabulary) for word in key.split())
    if repaired != key:
        if repaired in known:
            return repaired
        words = sorted(repaired.split())
        for k in keys:
            if sorted(k.split()) == words:
                return k
    best = process.extractOne(
        repaired, keys, scorer=OSA.normalized_similarity, processor=None, score_cutoff=_LIKE_ENOUGH
    )
    return best[0] if best else None


def _word(word: str, vocabulary: Sequence[str]) -> str:
    """The word itself when it is known or nothing is near."""
    if len(word) < 3 or word in vocabulary:
        return word
    slips = 1 if len(word) < 5 else 2
    near = process.extractOne(word, vocabulary, scorer=OSA.distance, processor=None, score_cutoff=slips)
    return near[0] if near else word
