"""Movement names in a line: the longest one the catalogue knows, its variants and its pauses."""

from collections.abc import Sequence

from meetward.catalogue.words import normal
from meetward.cycle.tree import Pause

from . import words as w
from .known import Catalogue, Found, gathered
from .places import AFTER_COMMA, phrase_at, place_at, seconds_at, stops_name
from .tokens import Token

LONGEST_RUN = 10
"""Words of one name that are looked at."""


class PartDraft:
    """A movement of a line while it is being read.

    reps_low, reps_high : a number written before or behind the name; positions : of "2 position snatch".
    exact : given in braces, so nothing may be concluded for it. odd : words beside the name that nobody
    knows.
    """

    __slots__ = (
        "core", "end", "exact", "kind", "movement", "odd", "or_more", "pauses", "positions", "reps_high",
        "reps_low",
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

    def copied(self) -> "PartDraft":
        """The name as it was found, to fill in further."""
        fresh = PartDraft(self.written, self.start, self.end)
        fresh.core, fresh.movement, fresh.kind, fresh.version = (
            self.core,
            self.movement,
            self.kind,
            self.version,
        )
        fresh.variant, fresh.pauses, fresh.odd = [*self.variant], [*self.pauses], [*self.odd]
        return fresh


class NameReader:
    """Finds names with one catalogue and remembers what it found."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._memo: dict[str, Found | None] = {}
        self._near: dict[str, str | None] = {}
        self._strange: dict[str, bool] = {}
        self._letters, self._whole = gathered(catalogue)
        self._toks: Sequence[Token] = ()
        self._at: dict[int, tuple[PartDraft, int] | None] = {}
        self._dead: Sequence[Token] | None = None
        self._dead_end = -1

    def find(self, words: str) -> Found | None:
        """The catalogue's answer, remembered."""
        try:
            return self._memo[words]
        except KeyError:
            if len(self._memo) > 20_000:
                self._memo.clear()
            found = self._memo[words] = self.catalogue.find(words)
            return found

    def _stands_in_no_name(self, word: str) -> bool:
        """Whether a word is part of no name of the catalogue, not even of one written in one word."""
        known = self._strange.get(word)
        if known is None:
            if len(self._strange) > 20_000:
                self._strange.clear()
            key = normal(word).replace(" ", "")
            known = self._strange[word] = bool(key and self._letters) and key not in self._letters
        return known

    def suggest(self, words: str) -> str | None:
        """One near name, remembered."""
        if words not in self._near:
            if len(self._near) > 2_000:
                self._near.clear()
            self._near[words] = self.catalogue.suggest(words[:80])
        return self._near[words]

    def name(self, line: str, toks: Sequence[Token], i: int) -> tuple[PartDraft, int] | None:
        """The name that begins at token ``i`` and the token behind it, or None where no name begins."""
        if toks is not self._toks:
            self._toks, self._at = toks, {}
        if i in self._at:
            got = self._at[i]
        else:
            got = self._at[i] = self._name(line, toks, i)
        return None if got is None else (got[0].copied(), got[1])

    def _name(self, line: str, toks: Sequence[Token], i: int) -> tuple[PartDraft, int] | None:
        whole = self.whole(line, toks, i)
        if whole is not None:
            return whole
        run = self._run(toks, i)
        if not run:
            return None
        best = self._over_prose(line, toks, i, run) or self._longest(line, toks, run)
        if best is not None and best[1] >= len(run):
            run = self._run(toks, i, over_prose=True)
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

    def whole(self, line: str, toks: Sequence[Token], i: int) -> tuple[PartDraft, int] | None:
        """A name that holds words of the grammar and stands whole at token ``i``, and what is behind it."""
        got = self._whole.at(toks, i)
        found = self.find(got[0]) if got is not None else None
        if got is None or found is None:
            return None
        bare, _, tool = got[0].partition(" with ")
        if tool.split()[-1:] in (["stick"], ["dowel"]) and self.find(bare) is not None:
            return None  # the lift, and a stick in place of the bar
        end = toks[got[1] - 1].end
        draft = PartDraft(line[toks[i].start : end], toks[i].start, end)
        draft.movement, draft.kind = found.entry.id, found.kind
        nxt = self.behind(line, toks, got[1], draft)
        return None if draft.odd else (draft, nxt)

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
            version = _version_at(toks, i)
            if version is not None:
                draft.version, i = version
                continue
            tok = toks[i]
            k = i
            if tok.kind == "," and i + 1 < n and toks[i + 1].kind == "w" and not stops_name(toks, i + 1):
                k = i + 1
            phrase = phrase_at(toks, k)
            if phrase and (k == i or phrase in w.POSITIONS or phrase in AFTER_COMMA):
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
            if tok.kind != "w" or k != i or stops_name(toks, i):
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
        """A pause that begins at token ``i`` ("with a 2 s pause at the knee", "paused in the dip 3 sec") or
        None."""
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

    def _over_prose(
        self, line: str, toks: Sequence[Token], i: int, run: list[int]
    ) -> tuple[int, int, Found] | None:
        """A name that goes on over words of prose or a hold: "Meet day warm-up", "Snatch overhead hold"."""
        nxt = toks[run[-1] + 1].value if run[-1] + 1 < len(toks) else ""
        if nxt not in w.PROSE and nxt not in ("hold", "holds"):
            return None
        longer = self._run(toks, i, over_prose=True)
        for last in range(len(longer) - 1, len(run) - 1, -1):
            found = self.find(line[toks[longer[0]].start : toks[longer[last]].end])
            if found:
                return 0, last, found
        return None

    def _run(self, toks: Sequence[Token], i: int, *, over_prose: bool = False) -> list[int]:
        run: list[int] = []
        n = len(toks)
        j = i
        while j < n and len(run) < LONGEST_RUN:
            tok = toks[j]
            if tok.kind == "w":
                held = over_prose and run and tok.value in ("hold", "holds")
                prose = run and tok.value in w.PROSE and not over_prose
                if prose or (not held and (stops_name(toks, j) or tok.value in w.DOUBT)):
                    break
                run.append(j)
            elif run and tok.kind in ("-", "&", "'") and j + 1 < n and toks[j + 1].kind == "w":
                if tok.kind == "-" and not (toks[j - 1].end == tok.start and toks[j + 1].start == tok.end):
                    break
                if stops_name(toks, j + 1):
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
        # Every span up to the end of a run without a name was looked up already: prose stays linear.
        dead = self._dead_end if self._dead is toks else -1
        strange = [k for k, j in enumerate(run) if self._stands_in_no_name(str(toks[j].value))]
        for length in range(k, 0, -1):
            for first in range(k - length + 1):
                last = first + length - 1
                if run[last] <= dead or any(first <= k <= last for k in strange):
                    continue
                found = self.find(line[toks[run[first]].start : toks[run[last]].end])
                if found:
                    return first, last, found
        self._dead, self._dead_end = toks, run[-1]
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
        if values[0] in w.PROSE or all(v in w.FILLER or v in w.MANNER or v in w.SOFT for v in values):
            return None
        if run[0] > 0 and all(v in w.FILLER or v in w.PLACE_WORDS for v in values):
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


def _version_at(toks: Sequence[Token], i: int) -> tuple[int, int] | None:
    """ "version 2" or "v2" behind the name of a sequence, and the token behind it."""
    if toks[i].kind == "," and i + 1 < len(toks):
        i += 1
    if toks[i].value not in ("version", "v") or i + 1 >= len(toks):
        return None
    value = toks[i + 1].value
    if toks[i + 1].kind != "n" or not isinstance(value, int) or value % 100 or not value:
        return None
    return value // 100, i + 2
