"""Names of the catalogue that hold words or numbers of the grammar: "One-arm hold", "Pull day warm-up".

Such a name is asked for first, and taken only where it stands whole: else its own words would be read as
sets, holds or days. Names with pauses or positions are left out: the grammar reads those of every
lift.
"""

from collections.abc import Iterable, Sequence

from . import words as w
from .tokens import Token, fold, tokens

_OF_THE_GRAMMAR = (
    frozenset((*w.NUMBERS, *w.TIMES_OF))
    | w.PROSE
    | w.DOUBT
    | w.SETS
    | w.REPS
    | w.set_of(
        """hold holds drop drops stop opener miss stick pvc dowel bar empty top bottom double with at for to
        between and how work per each every max rest build f hang choice relax"""
    )
)
_READ_ANYWHERE = w.set_of("pause pauses paused position positions pos")
Key = tuple[str, object]


class WholeNames:
    """The names of one catalogue that must be known before their words are read."""

    def __init__(self, names: Iterable[str]) -> None:
        self._by_first: dict[object, list[tuple[tuple[Key, ...], str]]] = {}
        for name in names:
            words = name.lower().replace("-", " ").split()
            if not _READ_ANYWHERE.isdisjoint(words):
                continue
            if "".join(words).isalpha() and _OF_THE_GRAMMAR.isdisjoint(words):
                continue
            keys = tuple(_key(tok) for tok in tokens(fold(name)) if tok.kind not in _SMALL)
            if len(keys) > 1:
                self._by_first.setdefault(keys[0][1], []).append((keys, name))
        for known in self._by_first.values():
            known.sort(key=lambda each: -len(each[0]))

    def at(self, toks: Sequence[Token], i: int) -> tuple[str, int] | None:
        """The longest of the names that stands whole at token ``i``, and the token behind it, or None."""
        if i >= len(toks):
            return None
        for keys, name in self._by_first.get(toks[i].value, ()):
            j = i
            for key in keys:
                while j < len(toks) and toks[j].kind in _SMALL:
                    j += 1
                if j >= len(toks) or _key(toks[j]) != key:
                    break
                j += 1
            else:
                return name, j
        return None


_SMALL = frozenset(("-", ".", "'", ","))


def _key(tok: Token) -> Key:
    return tok.kind, tok.value
