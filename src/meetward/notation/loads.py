"""Loads in words: of what, effort, heavy singles, the bar, the body, and what comes off the top set."""

from . import words as w
from .chains import ChainForms
from .items import Weight

_BASES = frozenset(("max", "pr", "pb", "one"))
_FIGURES = frozenset(("percent", "kg", "lb", "bare", "bodyweight"))
TOP = ("top", "", 0)
_BEST = w.set_of(
    "your the a their best current max maximum pr pb personal record all-time recent 1rm estimated"
)
_TODAY = w.set_of(
    "today's todays day's days daily today heavy top it that this the set single double triple day max "
    "best above last your from of weight"
)


class LoadForms(ChainForms):
    """Reads loads."""

    def of_base(self, weight: Weight) -> bool:
        """Take "of clean", "of 1RM", "of today's top single" behind a percentage; False when nothing fits."""
        i = self.i
        j = i
        if self.words[j] in ("of", "from", "off") or (
            self.words[j] == "based" and self.words[j + 1] in ("on", "off")
        ):
            j += 2 if self.words[j] == "based" else 1
        elif (self.kinds[j] == "n" and self.words[j + 1] in ("rm", "rep")) or self.words[j] in _BASES:
            pass
        elif self.words[j] and self.scan.parts:
            return self._named_base(weight, j, led=False)
        else:
            return False
        if self.words[j] in ("one", "1") or self.kinds[j] == "n":
            single = self.words[j] == "one" or self.tok(j).value == 100
            if (
                single
                and self.words[j + 1] in ("rep", "repetition")
                and self.words[j + 2] in ("max", "maximum")
            ):
                weight.of = ("default", self.line[self.tok(j).start : self.tok(j + 2).end], 0)
                self.i = j + 3
                return True
        k = j
        if self.kinds[k] == "n" and self.words[k + 1] == "rm":
            return self._rep_max(weight, k, "")
        start = k
        while self.words[k] in _TODAY:
            k += 1
        if k > start:
            said = {self.words[m] for m in range(start, k)}
            if said & {"it", "that", "this", "above", "last"} or (
                said & {"today's", "todays", "day's", "days", "daily", "today", "heavy", "top"}
            ):
                if self.kinds[k] == "n" and self.words[k + 1] == "rm":
                    k += 2
                elif (
                    self.kinds[k] == "n"
                    and self.words[start] in ("the", "today's", "todays", "heavy")
                    and self.kinds[k + 1] not in ("x", "%")
                ):
                    k += 1
                weight.of = TOP
                self.i = k
                return True
            if said & {"single", "double", "triple", "set"}:
                weight.of = TOP
                self.i = k
                return True
        k = start
        while self.words[k] in _BEST:
            k += 1
        if self.kinds[k] == "n" and self.words[k + 1] == "rm":
            return self._rep_max(weight, k, "")
        if self.words[k] in ("bodyweight", "bw"):
            return False
        if self.words[k] and self._named_base(weight, k, led=True):
            return True
        if self.words[i] == "of" and self._strange_base(weight, k):
            return True
        if {self.words[m] for m in range(start, k)} - {"the", "a", "your", "their"}:
            weight.of = ("default", self.line[self.tok(start).start : self.tok(k - 1).end], 0)
            self.i = k
            return True
        return False

    def _strange_base(self, weight: Weight, k: int) -> bool:
        """ "95% of snacth": a lift that nobody knows is not the usual one."""
        end = k
        while self.words[end] and self.words[end] not in w.FILLER and end - k < 4:
            end += 1
        if end == k or self.words[k] in w.PROSE or self.words[k] in w.SIDE:
            return False
        words = self.line[self.tok(k).start : self.tok(end - 1).end]
        if self.names.suggest(words) is None:
            return False
        weight.of = ("lift", words, 0)
        self.i = end
        return True

    def _rep_max(self, weight: Weight, k: int, name: str) -> bool:
        value = self.tok(k).value
        if not isinstance(value, int) or value % 100 or not 0 < value <= 2_000:
            return False
        reps = value // 100
        written = self.line[self.tok(k).start : self.tok(k + 1).end]
        self.i = k + 2
        if self.words[self.i] in ("of", "for", "in"):
            got = self.names.name(self.line, self.toks, self.i + 1)
            if got and got[0].movement:
                name = got[0].core
                self.i = got[1]
        if reps == 1:
            weight.of = ("lift", name, 0) if name else ("default", written, 0)
        else:
            weight.of = ("rep max", name, reps)
        return True

    def _named_base(self, weight: Weight, k: int, *, led: bool) -> bool:
        got = self.names.name(self.line, self.toks, k)
        if got is None or not got[0].movement or got[0].kind != "movement":
            return False
        draft, nxt = got
        name = self.line[draft.start : draft.end] if not draft.pauses else draft.core
        if self.kinds[nxt] == "n" and self.words[nxt + 1] == "rm":
            value = self.tok(nxt).value
            if isinstance(value, int) and 100 <= value <= 2_000 and value % 100 == 0:
                weight.of = ("rep max", name, value // 100) if value > 100 else ("lift", name, 0)
                self.i = nxt + 2
                return True
        while self.words[nxt] in ("max", "pr", "pb", "best", "maximum"):
            nxt += 1
        if (
            not led
            and self.kinds[nxt] not in ("", ",", ";", ")", ".", "x", "-")
            and self.words[nxt] not in ("for", "x", "rest", "then")
        ):
            return False
        weight.of = ("lift", name, 0)
        self.scan.pauses += draft.pauses
        self.i = nxt
        return True

    def effort(self, i: int) -> bool:
        """ "RPE 8", "8 RPE", "@8 RPE", "2 RIR", "1-2 reps in reserve" at token ``i``."""
        word = self.words[i]
        if word in ("rpe", "rir"):
            j = i + 1
            while self.kinds[j] in ("@", ":", "=", ".") or self.words[j] == "of":
                j += 1
            op = self.operand(j)
            if op is None or op.kind != "num" or op.unit not in ("", "reps"):
                return False
            return self._felt(word, op.low, op.high, i, op.end)
        if self.kinds[i] == "n":
            value = self.tok(i).value
            j = i + 1
            high = value
            if self.kinds[j] == "-" and self.kinds[j + 1] == "n":
                high = self.tok(j + 1).value
                j += 2
            if not isinstance(value, int) or not isinstance(high, int):
                return False
            if self.words[j] in ("rpe", "rir"):
                return self._felt(self.words[j], value, high, i, j + 1)
            k = j + 1 if self.words[j] in w.REPS else j
            if (self.words[k] == "in" and self.words[k + 1] in ("reserve", "tank")) or (
                self.words[k] == "in"
                and self.words[k + 1] == "the"
                and self.words[k + 2] in ("tank", "reserve")
            ):
                return self._felt("rir", value, high, i, k + (2 if self.words[k + 1] != "the" else 3))
            if (
                self.words[k] == "left"
                and self.words[k + 1] == "in"
                and self.words[k + 2] == "the"
                and self.words[k + 3] == "tank"
            ):
                return self._felt("rir", value, high, i, k + 4)
        return False

    def _felt(self, scale: str, low: int, high: int, start: int, end: int) -> bool:
        if not (0 <= low <= high <= 1_000) or low % 10 or high % 10:
            return False
        self.climb = False
        self.i = end
        cur = self.cur
        said = cur is not None and cur.scheme and cur.load is not None and cur.load.kind in _FIGURES
        if said and self.sep not in (";", "then") and not self.next_scheme():
            # The load is said already; how it should feel is kept in words.
            self.scan.leftover.append((self.tok(start).start, self.tok(end - 1).end))
            return True
        self.put_load(Weight("effort", low, high, word=scale))
        return True

    def body_or_bar(self, i: int) -> bool:
        """ "empty bar", "bar only", "stick", "BW + 10 kg" at token ``i``."""
        word = self.words[i]
        j = i
        if word in ("empty", "just", "only", "with", "the", "at") or word == "bar":
            while self.words[j] in ("empty", "just", "only", "with", "the", "at"):
                j += 1
            if self.words[j] in ("bar", "barbell"):
                j += 1
                while self.words[j] in ("only", "weight"):
                    j += 1
                top = self.operand(j + 1) if self.words[j] == "to" else None
                if top is not None and top.is_load and top.kind == "num" and len(top.values) == 1:
                    # "empty bar to 50 %": the sets climb
                    self.climb = True
                    j = top.end
                self.i = j
                self.put_load(self.weight(top) if self.climb and top is not None else Weight("bar"))
                return True
            if self.words[j] in ("stick", "pvc", "dowel", "broomstick", "technique"):
                return False
        if word in ("stick", "pvc", "dowel", "broomstick"):
            j = i + 1
            while self.words[j] in ("only", "pipe"):
                j += 1
            self.i = j
            self.put_load(Weight("stick"))
            return True
        if word in ("bw", "bodyweight") or (word == "body" and self.words[i + 1] == "weight"):
            j = i + (2 if word == "body" else 1)
            if self.words[j] == "only":
                j += 1
            weight = Weight("bodyweight")
            if self.kinds[j] == "+" or self.words[j] == "plus":
                op = self.operand(j + 1)
                if op is None or op.kind != "num" or len(op.values) > 1 or op.unit not in ("kg", "lb"):
                    return False
                weight.high = op.high
                weight.word = op.unit
                j = op.end
            self.i = j
            self.put_load(weight)
            return True
        return False
