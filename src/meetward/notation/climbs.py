"""Loads that are found on the day: work up to a heavy one, and what comes off it."""

from meetward.cycle.tree import Span

from . import words as w
from .items import Amount, Item, Weight
from .loads import TOP, LoadForms

_CLIMB = w.set_of(
    "work worked works built build ramp climb go find establish hit find warm build-up working building "
    "climbing ascending"
)


_TRIES = w.set_of("miss misses fail fails failures attempts tries")


class ClimbForms(LoadForms):
    """Reads what climbs and what comes down."""

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
        elif (word == "to" and self.kinds[j - 1] in (",", "", ":", "-", ";")) or (
            word == "to" and self.words[j + 1] in ("max", "heavy", "a")
        ):
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
            self.i = j + 1
            self.heavy_item("heavy", w.TIMES_OF[self.words[j]])
            return True
        op = self.operand(j)
        if op is not None and op.kind == "num" and op.unit == "rm":
            return self.take_chain(j)
        if (op is not None and op.unit in ("%", "kg", "lb")) or (op is not None and op.kind == "sum"):
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
        if word == "max" and self.words[j] in ("hold", "holds", "time", "distance"):
            self.doubt("numbers", i, j)
            self.i = j + 1
            return True
        misses = self.operand(j)
        if misses is not None and self.words[misses.end] in _TRIES:
            self.scan.leftover.append((self.tok(i).start, self.tok(misses.end).end))
            self.i = misses.end + 1
            return True
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
            if self.words[j + 1] == "of":
                op = self.operand(j + 2)
                reps = self.reps_of(op) if op is not None and op.unit in ("", "reps") else None
                if op is None or reps is None:
                    return False
                self.i = op.end
                self._heavy_reps(word, reps)
                return True
            self.i = j + 1
            self.heavy_item(word, None)
            return True
        if self.words[j] in w.TIMES_OF:
            reps_n = w.TIMES_OF[self.words[j]]
            self.i = j + 1
            self._heavy_reps(word, ((reps_n, reps_n, False),))
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
                self._heavy_reps(word, reps)
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
        if (
            cur is not None
            and cur.scheme
            and cur.load is None
            and self.climb
            and self.sep not in ("then", ";")
        ):
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

    def _heavy_reps(self, word: str, reps: tuple[Amount, ...]) -> Item:
        one = reps[0][0] if len(reps) == 1 else None
        cur = self.cur
        if (
            cur is not None
            and self.climb
            and cur.scheme
            and cur.load is None
            and self.sep not in ("then", ";")
        ) and (cur.reps is None or cur.reps == reps):
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
        return item

    def _drop_sets(self, j: int) -> None:
        """ "15-12-10, drop sets" is said of the sets before; "drop set to 65 % x 8" begins one."""
        self.i = j
        if self.words[j] in ("to", "at", "with") or self.kinds[j] in ("@", "n", ":"):
            self.sep = "then"
            self.new_item().drop = True
            if self.words[j] or self.kinds[j] == ":":
                self.i = j + 1
            return
        cur = self.cur
        rungs = [r for r in self.scan.items if cur is not None and r.chain and r.chain == cur.chain]
        if len(rungs) > 1:
            for rung in rungs[1:]:
                rung.drop = True
        else:
            self.item().drop = True

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
                self._drop_sets(j + 1)
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
            j += 1 if word in ("backoff", "backoffs") else 2 if self.words[i + 1] in ("off", "offs") else 3
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
        cur = self.cur
        if self.kinds[i] == "-" and cur is not None and cur.apart and cur.scheme and cur.load is None:
            self.put_load(weight)  # "top set of 5, back-offs 2x5 -8 %"
            return True
        self.sep = "then"
        self.new_item().load = weight
        return True
