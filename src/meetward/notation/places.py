"""Words around a name: lengths of pauses, places, ways of doing a lift, and where a name ends."""

from collections.abc import Sequence

from . import words as w
from .tokens import Token

AFTER_COMMA = frozenset(
    phrase for phrase in w.VARIANTS if len(phrase) > 1 or phrase[0] in ("ak", "bk", "btn", "paused", "power")
)
_STOP = (
    w.SETS
    | w.REPS
    | w.set_of("""heavy max maximum amrap amap rest every emom otm rpe rir then superset supersets
    supersetted followed x
    each per empty missed miss fail failed bodyweight failure wave waves cluster clusters s sec secs min
    mins kg lb lbs
    kgs kilos ladder within afap unbroken find @ triples doubles singles triple drop drops top opener plus
    until""")
)
_LOADED = w.set_of(
    "heavy max rpe rir bodyweight bw bar empty about approx a ~ around your today's up opener the light"
    " moderate"
)


def seconds_at(toks: Sequence[Token], i: int) -> tuple[int, int] | None:
    """A number of seconds with its unit at token ``i`` ("2 s", "2-second", '2"', "0:02") and the token
    behind."""
    tok = toks[i]
    if tok.kind == "t":
        return int(str(tok.value)), i + 1
    if not isinstance(tok.value, int) or tok.value % 100:
        return None
    j = i + 1
    if j < len(toks) and toks[j].kind == "-" and toks[j].start == tok.end:
        j += 1
    if j >= len(toks):
        return None
    unit = toks[j]
    if unit.kind == "w" and unit.value in w.SECONDS:
        j += 1
        if j < len(toks) and toks[j].kind == "." and toks[j].start == unit.end:
            j += 1
        return tok.value // 100, j
    if unit.kind == '"' and unit.start == tok.end:
        return tok.value // 100, j + 1
    return None


def place_at(line: str, toks: Sequence[Token], i: int) -> tuple[str, int]:
    """Words that say where ("at the knee", "in dip"), and the token behind them; empty where there are
    none."""
    n = len(toks)
    j = i
    while j < n and toks[j].kind == "w" and toks[j].value in w.PLACE_LEADS:
        j += 1
    led = j > i
    while j < n and toks[j].kind == "w" and toks[j].value in ("the", "a", "each"):
        j += 1
    first = j
    while j < n and (toks[j].kind == "w" and toks[j].value in w.PLACE_WORDS):
        j += 1
        if (
            j + 1 < n
            and toks[j].kind == "-"
            and toks[j + 1].value in w.PLACE_WORDS
            and toks[j].start == toks[j - 1].end
        ):
            j += 1
    if j == first or not led:
        return "", i
    return line[toks[i].start : toks[j - 1].end], j


def phrase_at(toks: Sequence[Token], i: int) -> tuple[str, ...]:
    """The longest known way of doing a lift that stands at token ``i`` ("from the blocks"); empty for
    none."""
    if i >= len(toks) or toks[i].kind != "w":
        return ()
    first = str(toks[i].value)
    best: tuple[str, ...] = ()
    for phrase in (*w.BY_FIRST.get(first, ()), *(p for p in w.POSITIONS if p[0] == first)):
        if (
            len(phrase) > len(best)
            and i + len(phrase) <= len(toks)
            and all(toks[i + k].kind == "w" and toks[i + k].value == word for k, word in enumerate(phrase))
        ):
            best = phrase
    if best == ("light",) or best in (("slow",), ("tempo",), ("controlled",)):
        return ()
    return best


def stops_name(toks: Sequence[Token], i: int) -> bool:
    """Whether the word at ``i`` begins something else than a name."""
    word = str(toks[i].value)
    nxt = toks[i + 1] if i + 1 < len(toks) else None
    nword = str(nxt.value) if nxt is not None and nxt.kind == "w" else ""
    if word in w.NUMBERS and word != "one":
        behind = toks[i + 2] if nxt is not None and nxt.kind == "-" and i + 2 < len(toks) else nxt
        return behind is None or behind.value not in ("arm", "position", "leg", "hand", "part")
    if word in ("single", "double", "triple", "one"):
        after = toks[i + 2] if nxt is not None and nxt.kind == "-" and i + 2 < len(toks) else None
        return (str(after.value) if after is not None else nword) not in w.ONE_SIDED
    if word == "drop":
        return (
            nxt is None
            or nxt.kind == "n"
            or nword in ("sets", "set", "to", "by", "the", "back", "weight", "down")
        )
    if word == "top":
        return nword not in ("half", "down")
    if word == "bodyweight":
        return not nword or nword in ("x", "for", "only", "plus")
    if word == "on" and i + 2 < len(toks) and toks[i + 2].value in ("min", "minute"):
        return True
    if word in ("each", "per"):
        return nword in w.SIDE or nword in w.SETS or not nword or nword in w.REPS
    if word == "max":
        return True
    if word == "rest":
        return True
    if word == "every":
        return True
    if word in _STOP:
        return True
    if word in ("at", "with", "for", "to", "of", "by"):
        return (
            nxt is None
            or nxt.kind in ("n", "t", "T", "(", "E")
            or nword in _LOADED
            or nword in w.NUMBERS
            or nword in w.SETS
        )
    if word in ("tempo", "hold", "holds", "pause", "paused"):
        return (
            nxt is None or nxt.kind in ("n", "T", "t", ":", "(") or (word in ("hold", "holds") and not nword)
        )
    if word in ("work", "worked", "works", "build", "built", "ramp", "climb", "go", "warm"):
        return nword in ("up", "to")
    if word == "up":
        return nword in ("to",)
    if word == "back":
        return nword == "off" or (
            nxt is not None and nxt.kind == "-" and i + 2 < len(toks) and toks[i + 2].value == "off"
        )
    if word in ("backoff", "bw", "stick", "pvc", "dowel", "broomstick"):
        return word != "stick" or not nword or nword in w.SETS
    if word == "bar":
        return nword == "only" or nxt is None or nxt.kind in ("x",)
    return word in ("just", "only")
