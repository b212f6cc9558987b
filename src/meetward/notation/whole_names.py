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
    """The names of one catalogue that must be known before their words are read: a tree of tokens."""

    def __init__(self, names: Iterable[str]) -> None:
        self._root = _Node()
        for name in names:
            words = name.lower().replace("-", " ").split()
            if not _READ_ANYWHERE.isdisjoint(words):
                continue
            if "".join(words).isalpha() and _OF_THE_GRAMMAR.isdisjoint(words):
                continue
            keys = [_key(tok) for tok in tokens(fold(name)) if tok.kind not in _SMALL]
            if len(keys) > 1:
                node = self._root
                for key in keys:
                    node = node.behind.setdefault(key, _Node())
                node.name = node.name or name

    def at(self, toks: Sequence[Token], i: int) -> tuple[str, int] | None:
        """The longest of the names that stands whole at token ``i``, and the token behind it, or None."""
        if i >= len(toks) or toks[i].kind in _SMALL:
            return None
        node, longest = self._root, None
        for j in range(i, len(toks)):
            if toks[j].kind in _SMALL:
                continue
            found = node.behind.get(_key(toks[j]))
            if found is None:
                break
            node = found
            if node.name:
                longest = node.name, j + 1
        return longest


class _Node:
    """A place in the tree: the name that ends here, if one does, and what may stand behind."""

    __slots__ = ("behind", "name")

    def __init__(self) -> None:
        self.name = ""
        self.behind: dict[Key, _Node] = {}


_SMALL = frozenset(("-", ".", "'", ","))


def _key(tok: Token) -> Key:
    return tok.kind, tok.value
