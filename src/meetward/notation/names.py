"""Movement names in a line: the longest one the catalogue knows, its variants and its pauses."""

from collections.abc import Sequence
from typing import Protocol

from meetward.cycle.tree import Pause

from . import words as w
from .tokens import Token


class Entry(Protocol):
    """What the reader needs of a movement, drill or sequence."""

    @property
    def id(self) -> str:
        """Its id."""

    @property
    def name(self) -> str:
        """Its usual name."""


class Found(Protocol):
    """What a catalogue answers when it knows a name."""

    @property
    def entry(self) -> Entry:
        """The movement, drill or sequence."""

    @property
    def kind(self) -> str:
        """``movement``, ``drill`` or ``sequence``."""


class Catalogue(Protocol):
    """What the reader needs of a catalogue. ``version`` tells one content from another."""

    @property
    def version(self) -> str:
        """Changes with the content."""

    def find(self, words: str, /) -> Found | None:
        """The entry of this very name, or None."""

    def suggest(self, words: str, /) -> str | None:
        """One name near a misspelling, or None."""


LONGEST_RUN = 10
"""Words of one name that are looked at."""


class PartDraft:
    """A movement of a line while it is being read.

    reps_low, reps_high : a number written before or behind the name; positions : of "2 position snatch".
    exact : given in braces, so nothing may be concluded for it. odd : words beside the name that nobody knows.
    """

    __slots__ = (
        "core", "end", "exact", "kind", "movement", "odd", "or_more", "pauses", "positions", "reps_high", "reps_low",
        "start", "variant", "version", "written",
    )  # fmt: skip

    def __init__(self, written: str, start: int, end: int) -> None:
        self.written = written
        self.start, self.end = start, end
        self.core = written
        self.movement = self.kind = ""
        self.variant: list[str] = []
        self.pauses: list[Pause] = []
        self.reps_low: int | None = None
        self.reps_high: int | None = None
        self.or_more = False
        self.positions = 0
        self.version = 0
        self.exact = False
        self.odd: list[Token] = []


class NameReader:
    """Finds names with one catalogue and remembers what it found."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._memo: dict[str, Found | None] = {}
        self._near: dict[str, str | None] = {}

    def find(self, words: str) -> Found | None:
        """The catalogue's answer, remembered."""
        try:
            return self._memo[words]
        except KeyError:
            if len(self._memo) > 20_000:
                self._memo.clear()
            found = self._memo[words] = self.catalogue.find(words)
            return found

    def suggest(self, words: str) -> str | None:
        """One near name, remembered."""
        if words not in self._near:
            if len(self._near) > 2_000:
                self._near.clear()
            self._near[words] = self.catalogue.suggest(words[:80])
        return self._near[words]

    def name(self, line: str, toks: Sequence[Token], i: int) -> tuple[PartDraft, int] | None:
        """The name that begins at token ``i`` and the token behind it, or None where no name begins."""
        run = self._run(toks, i)
        if not run:
            return None
        best = self._longest(line, toks, run)
        if best is None:
            return self._unknown(line, toks, run)
        first, last, found = best
        odd = self._odd_before(toks, run[:first])
        if odd is None:
            return None
        end = run[last]
        draft = PartDraft(line[toks[run[0]].start : toks[end].end], toks[run[0]].start, toks[end].end)
        draft.core = line[toks[run[first]].start : toks[end].end]
        draft.movement, draft.kind, draft.odd = found.entry.id, found.kind, odd
        draft.variant += [
            str(toks[j].value)
            for j in run[:first]
            if toks[j].kind == "w" and toks[j] not in odd and toks[j].value not in w.FILLER
        ]
        if end + 1 < len(toks) and toks[end + 1].value in ("hold", "holds"):
            held = self.find(line[draft.start : toks[end + 1].end])
            if held is not None:
                end += 1
                draft.core = draft.written = line[draft.start : toks[end].end]
                draft.end = toks[end].end
                draft.movement, draft.kind = held.entry.id, held.kind
        nxt = self.behind(line, toks, end + 1, draft)
        if draft.odd:
            return self._doubted(line, draft), nxt
        return draft, nxt

    def behind(self, line: str, toks: Sequence[Token], i: int, draft: PartDraft) -> int:
        """Take the variants and pauses behind a name; the token where they end."""
        n = len(toks)
        while i < n:
            got = self.pause(line, toks, i)
            if got:
                draft.pauses.append(got[0])
                draft.end = toks[got[1] - 1].end
                draft.written = line[draft.start : draft.end]
                i = got[1]
                continue
            tok = toks[i]
            k = i
            if tok.kind == "," and i + 1 < n and toks[i + 1].kind == "w" and not _stops(toks, i + 1):
                k = i + 1
            phrase = _phrase(toks, k)
            if phrase and (k == i or phrase in w.POSITIONS or phrase in _AFTER_COMMA):
                stop = k + len(phrase)
                refined = self.find(line[draft.start : toks[stop - 1].end])
                if refined and not draft.variant:
                    draft.movement, draft.kind = refined.entry.id, refined.kind
                    draft.core = line[draft.start : toks[stop - 1].end]
                else:
                    draft.variant.append(" ".join(phrase))
                draft.end = toks[stop - 1].end
                draft.written = line[draft.start : draft.end]
                i = stop
                continue
            if tok.kind != "w" or k != i or _stops(toks, i):
                break
            word = str(tok.value)
            if word in w.PROSE or word in w.MANNER or word in w.SOFT or word in w.DOUBT or word in w.FILLER:
                break
            draft.odd.append(tok)
            draft.end = tok.end
            draft.written = line[draft.start : draft.end]
            i += 1
        return i

    def pause(self, line: str, toks: Sequence[Token], i: int) -> tuple[Pause, int] | None:
        """A pause that begins at token ``i`` ("with a 2 s pause at the knee", "paused in the dip 3 sec") or None."""
        n = len(toks)
        j = i
        while j < n and toks[j].kind == "w" and toks[j].value in ("with", "a", "an", "and"):
            j += 1
        seconds: int | None = None
        if j < n and toks[j].kind in ("n", "t"):
            got = seconds_at(toks, j)
            if not got:
                return None
            seconds, j = got
            while j < n and (toks[j].kind == "-" or toks[j].value in ("full", "static", "isometric")):
                j += 1
            if not (
                j < n
                and toks[j].kind == "w"
                and toks[j].value in ("pause", "pauses", "paused", "stop", "hold", "holds")
            ):
                return None
            word = str(toks[j].value)
            j += 1
        elif j < n and toks[j].kind == "w" and toks[j].value in ("pause", "pauses", "paused", "pausing"):
            word = "pause"
            j += 1
        else:
            return None
        place, j2 = place_at(line, toks, j)
        if seconds is None:
            k = j2
            if k < n and toks[k].kind == "w" and toks[k].value == "for":
                k += 1
            if k < n and toks[k].kind == "(":
                k += 1
            late = seconds_at(toks, k) if k < n and toks[k].kind in ("n", "t") else None
            if late:
                seconds, j2 = late
                if j2 < n and toks[j2].kind == ")":
                    j2 += 1
                if not place:
                    place, j2 = place_at(line, toks, j2)
            elif not place:
                return None
        if word in ("hold", "holds") and not place:
            return None
        return Pause(seconds, place), j2

    def _run(self, toks: Sequence[Token], i: int) -> list[int]:
        run: list[int] = []
        n = len(toks)
        j = i
        while j < n and len(run) < LONGEST_RUN:
            tok = toks[j]
            if tok.kind == "w":
                if _stops(toks, j) or tok.value in w.DOUBT or (run and tok.value in w.PROSE):
                    break
                run.append(j)
            elif run and tok.kind in ("-", "&", "'") and j + 1 < n and toks[j + 1].kind == "w":
                if tok.kind == "-" and not (toks[j - 1].end == tok.start and toks[j + 1].start == tok.end):
                    break
                if _stops(toks, j + 1):
                    break
            elif (
                run
                and tok.kind == "."
                and toks[j - 1].end == tok.start
                and tok.end - toks[j - 1].start <= 4
                and j + 1 < n
            ):
                pass
            else:
                break
            j += 1
        while run and toks[run[-1]].value in (
            "with",
            "and",
            "of",
            "from",
            "the",
            "a",
            "at",
            "in",
            "on",
            "for",
            "to",
        ):
            run.pop()
        return run

    def _longest(self, line: str, toks: Sequence[Token], run: list[int]) -> tuple[int, int, Found] | None:
        k = len(run)
        for length in range(k, 0, -1):
            for first in range(k - length + 1):
                last = first + length - 1
                found = self.find(line[toks[run[first]].start : toks[run[last]].end])
                if found:
                    return first, last, found
        return None

    def _odd_before(self, toks: Sequence[Token], before: list[int]) -> list[Token] | None:
        """Words before a name that belong to nothing known; None when the line speaks in sentences."""
        odd: list[Token] = []
        for j in before:
            word = toks[j].value
            if word in w.PROSE:
                return None
            if (
                word in w.FILLER
                or word in w.MANNER
                or word in w.SOFT
                or (word,) in w.BY_FIRST.get(str(word), ())
            ):
                continue
            odd.append(toks[j])
        return odd

    def _unknown(self, line: str, toks: Sequence[Token], run: list[int]) -> tuple[PartDraft, int] | None:
        values = [str(toks[j].value) for j in run]
        if values[0] in w.PROSE or all(
            v in w.FILLER or v in w.MANNER or v in w.SOFT or v in w.PLACE_WORDS for v in values
        ):
            return None
        if len(values) > 6 or all(len(v) == 1 for v in values):
            return None
        draft = PartDraft(line[toks[run[0]].start : toks[run[-1]].end], toks[run[0]].start, toks[run[-1]].end)
        return draft, run[-1] + 1

    def _doubted(self, line: str, draft: PartDraft) -> PartDraft:
        """A known name with strange words beside it may be another movement: it stays without an id."""
        draft.movement = draft.kind = ""
        draft.variant = []
        return draft


def seconds_at(toks: Sequence[Token], i: int) -> tuple[int, int] | None:
    """A number of seconds with its unit at token ``i`` ("2 s", "2-second", '2"', "0:02") and the token behind."""
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
    """Words that say where ("at the knee", "in dip"), and the token behind them; empty where there are none."""
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


_AFTER_COMMA = frozenset(
    phrase for phrase in w.VARIANTS if len(phrase) > 1 or phrase[0] in ("ak", "bk", "btn", "paused", "power")
)


def _phrase(toks: Sequence[Token], i: int) -> tuple[str, ...]:
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


_STOP = (
    w.SETS
    | w.REPS
    | frozenset(
        """heavy max maximum amrap amap rest every emom otm rpe rir then superset supersets supersetted followed x
    each per empty missed miss fail failed bodyweight failure wave waves cluster clusters s sec secs min mins kg lb lbs
    kgs kilos ladder within afap unbroken find @ triples doubles singles triple drop drops top opener plus until""".split()
    )
)
_LOADED = frozenset(
    "heavy max rpe rir bodyweight bw empty about approx a ~ around your today's up opener the light moderate".split()
)


def _stops(toks: Sequence[Token], i: int) -> bool:
    """Whether the word at ``i`` begins something else than a name."""
    word = str(toks[i].value)
    nxt = toks[i + 1] if i + 1 < len(toks) else None
    nword = str(nxt.value) if nxt is not None and nxt.kind == "w" else ""
    if word in w.NUMBERS and word != "one":
        return nword not in ("arm", "position", "leg", "hand", "part")
    if word in ("single", "double", "triple", "one"):
        return not (
            nword
            in (
                "leg",
                "arm",
                "legged",
                "armed",
                "under",
                "unders",
                "side",
                "extension",
                "kettlebell",
                "dumbbell",
                "knee",
                "hand",
                "foot",
            )
        )
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
    if word in ("just", "only"):
        return True
    return False
