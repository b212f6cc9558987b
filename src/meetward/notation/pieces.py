"""Several lifts on one line, and words in front that only label it: where such a line is cut."""

from collections.abc import Sequence

from .names import NameReader
from .tokens import Token

MOST_PIECES = 8
MOST_TOKENS = 120
_SIGNS = frozenset((",", ";", "/", "|", "-", "."))
_WORDS = frozenset(
    ("then", "plus", "and", "superset", "supersetted", "superseted", "with", "followed", "by", "into", "also")
)
_BETWEEN_SETS_AND_NAME = frozenset(("sets", "set", "reps", "rep", "of", "x"))
_COUNTED_LABELS = frozenset(
    (
        "part",
        "section",
        "group",
        "level",
        "option",
        "piece",
        "station",
        "block",
        "u",
        "m",
        "w",
        "over",
        "under",
    )
)


def cuts(line: str, toks: Sequence[Token], names: NameReader) -> list[tuple[int, int]]:
    """Where the next lifts of a line begin: for each the token where the lift before ends and its own first.

    A lift begins behind a sign or word that parts things, outside brackets, with a name that the catalogue
    knows (or with its sets: "3x5 back squat"). Whether the pieces can stand alone is not looked at.
    """
    if len(toks) > MOST_TOKENS:
        return []
    found: list[tuple[int, int]] = []
    depth = 0
    for i, tok in enumerate(toks):
        if tok.kind in ("(", "["):
            depth += 1
        elif tok.kind in (")", "]"):
            depth -= 1
        if depth > 0 or not i or tok.kind not in ("w", "n") or not _parts(toks, i - 1):
            continue
        if tok.value in _WORDS or not _lift_begins(line, toks, i, names):
            continue
        end = i
        while end > 0 and _parts(toks, end - 1):
            end -= 1
        found.append((end, i))
        if len(found) >= MOST_PIECES:
            break
    return found


def _parts(toks: Sequence[Token], i: int) -> bool:
    """Whether the token at ``i`` parts two lifts; a dash or slash inside a word does not."""
    tok = toks[i]
    if tok.kind == "w":
        return tok.value in _WORDS
    if tok.kind not in _SIGNS:
        return False
    tight = tok.kind in ("-", ".", "/") and i > 0 and toks[i - 1].end == tok.start
    return not (tight and i + 1 < len(toks) and toks[i + 1].start == tok.end)


def _lift_begins(line: str, toks: Sequence[Token], i: int, names: NameReader) -> bool:
    if toks[i].kind == "n":
        k = i + 1
        while (
            k < len(toks)
            and k < i + 6
            and (toks[k].kind in ("n", "x") or toks[k].value in _BETWEEN_SETS_AND_NAME)
        ):
            k += 1
        if k >= len(toks) or toks[k].kind != "w":
            return False
        i = k
    got = names.name(line, toks, i)
    return got is not None and bool(got[0].movement) and got[0].kind in ("movement", "drill")


def label(line: str, toks: Sequence[Token], names: NameReader) -> int:
    """The token behind words that only label the line ("Optional:", "Part A (20 min):"); 0 for none.

    Words that name a lift are no label, nor are words with numbers that could be sets.
    """
    depth = 0
    for i, tok in enumerate(toks[:12]):
        if tok.kind in ("(", "["):
            depth += 1
        elif tok.kind in (")", "]"):
            depth -= 1
        elif tok.kind == ":" and depth <= 0:
            return i + 1 if 0 < i < len(toks) - 1 else 0
        elif tok.kind == "w" and not depth:
            got = names.name(line, toks, i)
            if got is not None and got[0].movement:
                return 0
        elif tok.kind == "n":
            if not depth and not (i == 1 and toks[0].value in _COUNTED_LABELS):
                return 0
        elif tok.kind not in ("w", "n", "-", "&", "'", ".", ","):
            return 0
    return 0
