"""Loads in words: of what, effort, heavy singles, the bar, the body, and what comes off the top set."""

from meetward.cycle.tree import Span

from . import words as w
from .chains import ChainForms
from .items import Item, Weight

_FIGURES = frozenset(("percent", "kg", "lb", "bare", "bodyweight"))
TOP = ("top", "", 0)
_BEST = frozenset(
    "your the a their best current max maximum pr pb personal record all-time recent 1rm estimated".split()
)
_TODAY = frozenset(
    "today's todays day's days daily today heavy top it that this the set single double triple day max best above last your from of weight".split()
)
_CLIMB = frozenset("work worked works built build ramp climb go find establish hit find warm build-up working building climbing ascending".split()
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
        elif self.kinds[j] == "n" and self.words[j + 1] == "rm" or self.words[j] in ("max", "pr", "pb"):
            pass
        elif self.words[j] and self.scan.parts:
            return self._named_base(weight, j, led=False)
        else:
            return False
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
        if {self.words[m] for m in range(start, k)} - {"the", "a", "your", "their"}:
            weight.of = ("default", self.line[self.tok(start).start : self.tok(k - 1).end], 0)
            self.i = k
            return True
        return False

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
        if cur is not None and cur.scheme and cur.load is not None and cur.load.kind in _FIGURES:
            if self.sep not in (";", "then") and not self.next_scheme():
                # The load is said already; how it should feel is kept in words.
                self.scan.leftover.append((self.tok(start).start, self.tok(end - 1).end))
                return True
        self.put_load(Weight("effort", low, high, word=scale))
        return True

    def climbing(self, i: int) -> bool:
        """ "work up to", "build to a", "up to": what follows is the top."""
        j = i
        word = self.words[j]
        if word in _CLIMB:
            j += 1
            if self.words[j] in ("your", "the") and self.words[j + 1] == "way":
                j += 2
            if self.words[j] == "up":
                j += 1
            if word in ("find", "establish", "hit"):
                if self.words[j] in ("a", "an", "your", "the", "today's", "new"):
                    j += 1
                if not (
                    self.words[j] in ("heavy", "max", "maximum", "daily", *w.TIMES_OF)
                    or (self.kinds[j] == "n" and self.words[j + 1] == "rm")
                ):
                    return False
            elif self.words[j] != "to" and word not in ("ascending", "climbing"):
                if self.words[j - 1] == "up" and self.words[j] in (
                    "in",
                    "over",
                    "across",
                    "each",
                    "by",
                    "weight",
                ):
                    return False
                return False
            elif self.words[j] == "to":
                j += 1
            elif word in ("ascending", "climbing"):
                self.item().climbing = True
                self.i = i + 1
                return True
        elif word == "upto":
            j += 1
        elif word == "up" and self.words[j + 1] == "to":
            j += 2
        elif word == "to" and self.kinds[j - 1] in (",", "", ":", "-", ";"):
            j += 1
        elif word == "to" and self.words[j + 1] in ("max", "heavy", "a"):
            j += 1
        elif word == "to" and self.kinds[j + 1] == "n" and (self.cur is None or self.cur.load is None):
            op = self.operand(j + 1)
            if op is None or not op.is_load:
                return False
            j += 1
        else:
            return False
        while self.words[j] in (
            "a",
            "an",
            "your",
            "the",
            "today's",
            "todays",
            "day's",
            "days",
            "daily",
            "new",
            "about",
            "around",
            "approx",
            "roughly",
            "tough",
            "hard",
            "technical",
        ):
            j += 1
        if self.kinds[j] == "~":
            j += 1
        if self.words[j] in ("max", "maximum") and self.words[j + 1] == "of":
            j += 2
        if self.words[j] == "top" and self.words[j + 1] in ("set", *w.TIMES_OF):
            j += 1
            if self.words[j] == "set":
                j += 1
                if self.words[j] == "of":
                    j += 1
                op = self.operand(j)
                amount = self.amount(op) if op is not None and op.unit in ("", "reps") else None
                self.i = op.end if op is not None and amount else j
                item = self.put_scheme(count=Span(1, 1), reps=(amount,) if amount else None, fill=False)
                item.unsure = "top"
                return True
            item = self.put_scheme(
                count=Span(1, 1), reps=((w.TIMES_OF[self.words[j]],) * 2 + (False,),), fill=False
            )
            item.unsure = "top"
            self.i = j + 1
            return True
        self.climb = True
        self.i = j
        if self.words[j] in ("heavy", "max", "maximum"):
            return self.heavy(j)
        if self.words[j] in w.TIMES_OF:
            reps = w.TIMES_OF[self.words[j]]
            self.i = j + 1
            self.heavy_item("heavy", reps)
            return True
        op = self.operand(j)
        if op is not None and op.kind == "num" and op.unit == "rm":
            return self.take_chain(j)
        if op is not None and op.unit in ("%", "kg", "lb") or (op is not None and op.kind == "sum"):
            if op.kind == "sum":
                reps = self.reps_of(op)
                self.i = op.end
                item = self.heavy_item("heavy", None)
                item.reps = reps
                return True
            return True
        if self.effort(j):
            return True
        if (
            op is not None
            and op.unit in ("", "reps")
            and self.amount(op)
            and (op.high <= 1_000 or op.unit == "reps")
        ):
            amount = self.amount(op)
            self.climb = False
            self.i = op.end
            item = self.heavy_item("heavy", amount[0] if amount else None)
            item.reps = (amount,) if amount else None
            return True
        if op is not None and self.heavyish(op):
            self.put_load(self.weight(op))
            self.i = op.end
            return True
        self.climb = False
        self.i = j if word != "to" else i
        if word == "to":
            return False
        self.doubt("climb", i, max(i, j - 1))
        return True

    def heavy(self, i: int) -> bool:
        """ "heavy single", "heavy 3", "max triple", "max", "heavy set of 4" at token ``i``."""
        word = "max" if self.words[i] in ("max", "maximum") else "heavy"
        j = i + 1
        if word == "max" and self.words[j] in w.REPS:
            self.put_scheme(reps=((None, None, True),))
            self.i = j + 1
            return True
        while (
            self.words[j] in ("effort", "out", "clean-looking", "technical", "good", "for", "the")
            and self.words[j] not in w.TIMES_OF
        ):
            if self.words[j] in ("for", "the") and self.words[j + 1] not in ("day", "the"):
                break
            j += 1
        if self.words[j] in ("set", "sets"):
            plural = self.words[j] == "sets"
            if self.words[j + 1] == "of":
                op = self.operand(j + 2)
                reps = self.reps_of(op) if op is not None and op.unit in ("", "reps") else None
                if op is None or reps is None:
                    return False
                self.i = op.end
                self._heavy_reps(word, reps, count=None if not plural else None)
                return True
            self.i = j + 1
            self.heavy_item(word, None)
            return True
        if self.words[j] in w.TIMES_OF:
            reps_n = w.TIMES_OF[self.words[j]]
            self.i = j + 1
            self._heavy_reps(word, ((reps_n, reps_n, False),), count=None)
            return True
        op = self.operand(j)
        if (
            op is not None
            and op.unit in ("", "reps", "rm")
            and op.kind in ("num", "sum")
            and (self.kinds[op.end] != "x" or op.unit == "rm")
        ):
            reps = self.reps_of(op)
            if reps is not None and (op.high <= 2_000):
                self.i = op.end
                self._heavy_reps(word, reps, count=None)
                return True
        if op is not None and self.kinds[op.end] == "x" and op.unit == "" and word == "max":
            self.doubt("numbers", i, op.end - 1)
            self.i = j
            return True
        if op is not None and self.kinds[op.end] == "x" and op.unit == "":
            self.i = j
            self.put_load(Weight("open", word="heavy")) if word == "heavy" else self.heavy_item("max", None)
            return True
        cur = self.cur
        if cur is not None and cur.scheme and cur.load is not None and not self.climb and self.sep != "then":
            return False
        if cur is not None and cur.scheme and cur.load is None and self.climb and self.sep not in ("then", ";"):
            # "1-1-1-1 (build to a max)": the sets climb to it.
            self.i = j
            self.put_load(Weight("heavy", word=word))
            return True
        self.i = j
        if cur is not None and cur.scheme and cur.load is None and not self.climb:
            self.put_load(Weight("open", word="heavy") if word == "heavy" else Weight("heavy", word="max"))
            return True
        self.heavy_item(word, 1 if word == "max" else None)
        return True

    def _heavy_reps(
        self, word: str, reps: tuple[tuple[int | None, int | None, bool], ...], count: Span | None
    ) -> Item:
        one = reps[0][0] if len(reps) == 1 else None
        cur = self.cur
        if cur is not None and self.climb and cur.scheme and cur.load is None and self.sep not in ("then", ";"):
            if cur.reps is None or cur.reps == reps:
                weight = Weight("heavy", word=word)
                weight.reps = one
                cur.reps = reps
                return self.put_load(weight)
        if cur is not None and cur.count is not None and cur.reps is None and cur.load is None:
            weight = Weight("heavy", word=word)
            weight.reps = one
            cur.load, cur.reps = weight, reps
            self.climb = False
            return cur
        item = self.heavy_item(word, one)
        item.reps = reps
        item.count = count
        return item

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
                self.i = j
                self.put_load(Weight("bar"))
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

    def is_back_off(self, i: int) -> bool:
        """Whether "back off", "back-off" or "backoff" stands at token ``i``."""
        return self.words[i] == "backoff" or (
            self.words[i] == "back"
            and (self.words[i + 1] == "off" or (self.kinds[i + 1] == "-" and self.words[i + 2] == "off"))
        )

    def drop(self, i: int) -> bool:
        """ "drop 15% and do 2x4", "-10% 3x3", "back off to 85 %", "drop sets" at token ``i``."""
        j = i
        word = self.words[i]
        if self.kinds[i] == "-":
            if not (self.kinds[i + 1] == "n" and self.glued(i + 1)) or self.kinds[i + 2] != "%":
                return False
            if i > 0 and self.glued(i) and self.kinds[i - 1] in ("n", "%"):
                return False
            j = i + 1
        elif word in ("drop", "reduce", "minus", "less", "subtract", "decrease", "lower", "remove", "take"):
            j += 1
            if word == "drop" and self.words[j] in ("set", "sets"):
                self.i = j + 1
                item = self.item() if self.cur is None or not self.sep else self.new_item()
                item.drop = True
                return True
            to = False
            while self.words[j] in ("the", "weight", "load", "by", "to", "back", "off", "down", "bar"):
                to = to or self.words[j] == "to"
                j += 1
            if to:
                self.sep = "then"
                self.i = j
                return self.kinds[j] == "n"
        elif self.is_back_off(i):
            j += 1 if word == "backoff" else 2 if self.words[i + 1] == "off" else 3
            if self.kinds[j] == "-":
                j += 1
            while self.words[j] in ("set", "sets", "by", "down", "to", "at"):
                if self.words[j] == "to":
                    self.sep = "then"
                    self.i = j + 1
                    return True
                j += 1
            if self.kinds[j] == ":":
                j += 1
            op = self.operand(j)
            self.sep = "then"
            if self.kinds[j] == "-" and self.drop(j):
                return True
            if op is None or op.unit != "%" or op.high > 4_000:
                self.i = j
                return True
        else:
            return False
        op = self.operand(j)
        if op is not None and op.unit in ("kg", "lb") and self.kinds[i] == "w":
            self.doubt("either", i, op.end - 1)
            self.i = op.end
            return True
        if op is None or op.kind != "num" or op.unit != "%" or not 0 < op.high < 6_000:
            return False
        self.i = op.end
        if self.words[self.i] == "off" or self.words[self.i] == "from":
            self.i += 1
            while self.words[self.i] in ("the", "bar", "top", "set", "weight", "single"):
                self.i += 1
        weight = Weight("percent", 10_000 - op.high, 10_000 - op.low, start=self.tok(i).start)
        weight.of = TOP
        self.sep = "then"
        self.new_item().load = weight
        return True
