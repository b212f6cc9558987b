"""Words of the trade in a line, each with what it governs."""

from meetward.cycle.tree import Pause, Span

from . import words as w
from .items import Weight
from .names import PartDraft
from .parts import PartForms

_NTH = w.set_of("last final first second third fourth fifth")
_RISING = w.set_of("climbing ascending increasing increase building build ramping rising")
_RISING_TAIL = w.set_of("each every set sets in weight load up the over by feel as you go")
_MADE = w.set_of("good ok make made")
_ADDED = w.set_of("weight load each every set sets a little some to the bar as you go")
_LESS = w.set_of("drop reduce minus less subtract decrease lower remove take")


class PhraseForms(PartForms):
    """Reads words that are not names."""

    def _keyword(self, i: int) -> bool:
        word = self.words[i]
        nxt = self.words[i + 1]
        if word in ("rest", "resting"):
            return self.rest(i)
        if word in ("every", "emom", "otm", "emotm") or (
            word == "on" and (self.words[i + 2].startswith("min") or self.kinds[i + 2] in ("n", "t"))
        ):
            return self.every(i)
        if word in ("rpe", "rir"):
            return self.effort(i)
        if word == "tempo":
            return self.tempo(i)
        limb = self.words[i + 2] if self.kinds[i + 1] == "-" else nxt
        if word in w.TIMES_OF and limb not in w.ONE_SIDED:
            return self._times_of(i)
        if word == "ladder" or word == "ladders":
            self.i = i + 1
            return True
        if word in ("set", "sets") and (nxt == "of" or self.kinds[i + 1] in ("x", ":")):
            op = self.operand(i + 2) if nxt == "of" or self.kinds[i + 1] == "x" else None
            if op is not None and not op.is_load and op.unit != "sets":
                self.i = op.end
                return self._counted(None, op)
            return False
        if word in ("heavy", "max", "maximum"):
            if (
                self.names.name(self.line, self.toks, i + 1)
                and not self.scan.parts
                and nxt not in ("effort", "set", "sets", "reps", "rep")
            ):
                self.i = i + 1
                self.heavy_item("max" if word != "heavy" else "heavy", 1 if word != "heavy" else None)
                self.cur = None
                return True
            return self.heavy(i)
        if self.climbing(i):
            return True
        if word == "top" and nxt in ("set", *w.TIMES_OF):
            j = i + 1
            at = i + 3 if self.words[i + 2] == "of" else i + 2
            op = self.operand(at) if nxt == "set" else None
            if op is not None and op.unit not in ("", "reps"):
                op = None
            amount = self.amount(op) if op is not None else None
            reps_n = w.TIMES_OF.get(nxt)
            self.i = op.end if op is not None and amount else j + 1
            item = self.put_scheme(
                reps=(amount,) if amount else ((reps_n, reps_n, False),) if reps_n else None,
                count=Span(1, 1) if amount or reps_n else None,
            )
            if item.load is None:
                item.unsure = "top"
            return True
        if word in _LESS or self.is_back_off(i):
            return self.drop(i)
        if word in ("empty", "just", "only", "stick", "pvc", "dowel", "broomstick", "bw", "bodyweight") or (
            word in ("with", "the", "at")
            and nxt in ("empty", "bar", "just", "the", "stick", "pvc")
            and self.words[i + 2] not in ("knee", "hip")
        ):
            if word == "bodyweight" and not self.scan.parts and self.names.name(self.line, self.toks, i):
                return False
            if word in ("with", "at") and nxt in ("stick", "pvc"):
                return self.body_or_bar(i + 1)
            return self.body_or_bar(i)
        if word == "body" and nxt == "weight":
            return self.body_or_bar(i)
        if (
            word in ("bar", "barbell")
            and (nxt in ("only", "weight") or self.kinds[i + 1] in ("x", "", ",", ")", "/"))
            and (self.scan.parts or self.kinds[i + 1] == "x" or nxt == "only")
        ):
            return self.take_chain(i) if self.kinds[i + 1] == "x" and word == "bar" else self.body_or_bar(i)
        if word in ("amrap", "amap", "as") or (word == "max" and nxt in w.REPS):
            if word == "amrap" and self.within(i):
                return True
            return (word != "as" or nxt == "many") and self.take_chain(i)
        if word in ("within", "in") and self.kinds[i + 1] in ("n", "t"):
            return self.within(i)
        if word == "failure" or (word == "to" and nxt == "failure"):
            self.i = i + (1 if word == "failure" else 2)
            self.put_scheme(reps=((None, None, True),))
            return True
        if word in ("each", "per", "a", "e", "ea", "es", "both"):
            return self._each(i)
        if (
            word in ("miss", "missed", "misses", "fail", "failed", "f")
            and self.cur is not None
            and self.cur.load is not None
            and self.glued_or_bracket(i)
        ):
            self.cur.missed = True
            self.i = i + 1
            return True
        if word in _MADE and self.cur is not None and self.cur.bare_list and self.glued_or_bracket(i):
            self.i = i + 1  # "98 good": as is understood of a weight without a word
            return True
        if word == "no" and nxt in ("lift", "rep", "good") and self._no_lift(i):
            return True
        if word in ("wave", "waves"):
            return self._wave(i)
        if word in ("hold", "holds", "held"):
            got = self.time_at(i + 1) or (self.time_at(i + 2) if self.words[i + 1] == "for" else None)
            if got is not None:
                self.i = got[1]
                if (
                    self.cur is not None
                    and (self.cur.reps or self.cur.pair)
                    and word != "held"
                    and self.scan.parts
                ):
                    self.scan.pauses.append(Pause(got[0].high, "hold"))
                else:
                    self.put_scheme(hold=got[0])
                return True
            return False
        if word in ("then", "followed", "next", "afterwards"):
            self.sep = "then"
            self.i = i + (2 if nxt in ("by", "with") else 1)
            return True
        if word in ("touch", "tng") and self.scan.parts and (i - 1) not in self.skipped:
            aside = PartDraft("", 0, 0)
            end = self.names.behind(self.line, self.toks, i, aside)
            if end > i and not aside.odd:
                self.scan.parts[-1].variant += aside.variant
                self.i = end
                return True
        if word in _NTH and nxt in (*w.SETS, *w.REPS, *w.TIMES_OF):
            self.doubt("either", i, i + 1)
            return False
        if (
            word in _RISING
            and self.cur is not None
            and self.words[i - 1] not in ("not", "no", "don't", "without")
        ):
            self.cur.climbing = True
            self.i = i + 1
            while self.words[self.i] in _RISING_TAIL:
                self.i += 1
            return True
        if word in ("add", "adding") and self._heavier_each_set(i):
            return True
        if (
            word in w.SOFT
            and (self.cur.load is None if self.cur is not None else bool(self.scan.parts))
            and not self.names.name(self.line, self.toks, i + 1)
        ):
            self.i = i + 1
            self.put_load(Weight("open", word=word))
            return True
        if (
            word in ("of", "based")
            and self.cur is not None
            and self.cur.load is not None
            and self.cur.load.kind == "percent"
            and self.cur.load.of[0] == "default"
        ):
            self.i = i
            return self.of_base(self.cur.load)
        if word in ("missing", "x") and self.cur is not None:
            return False
        return self._pair_words(i)

    def glued_or_bracket(self, i: int) -> bool:
        """Whether a word for a miss belongs to the weight before it."""
        if self.words[i] == "f":
            alone = self.kinds[i + 1] in ("", ",", ";", ")") and self.kinds[i - 1] == "n"
            return self.glued(i) or alone
        j = i - 1
        return self.kinds[j] in ("n", "%", "(", "x") or self.words[j] in w.KG or self.words[j] in w.LB

    def _heavier_each_set(self, i: int) -> bool:
        """ "5x5, add weight each set": the sets climb, nobody says how far."""
        end = i + 1
        while self.words[end] in _ADDED:
            end += 1
        plain = self.kinds[end] in ("", ",", ";", ".", ")") and end > i + 1
        if not plain or self.cur is None or not self.cur.scheme or self.cur.load is not None:
            return False
        self.cur.climbing = True
        self.i = end
        return True

    def _no_lift(self, i: int) -> bool:
        """ "98 no lift": the weight before was not good."""
        if self.cur is None or not self.cur.bare_list or not self.glued_or_bracket(i):
            return False
        self.cur.missed = True
        self.i = i + 2
        return True

    def _pair_words(self, i: int) -> bool:
        """ "M 60 / W 40", "men 60 kg, women 40 kg"."""
        word = self.words[i]
        sexes = {
            "m": "m",
            "men": "m",
            "man": "m",
            "male": "m",
            "males": "m",
            "w": "w",
            "women": "w",
            "woman": "w",
            "female": "w",
            "females": "w",
            "ladies": "w",
            "f": "w",
        }
        if word not in sexes:
            return False
        j = i + 1
        if self.kinds[j] in (":", "-", "="):
            j += 1
        op = self.operand(j)
        if op is None or op.kind != "num" or len(op.values) != 1 or op.unit not in ("", "kg", "lb"):
            return False
        k = op.end
        while self.kinds[k] in ("/", ",", ";", "|", ")", "(", "-") or self.words[k] == "and":
            k += 1
        if sexes.get(self.words[k]) == sexes[word] or self.words[k] not in sexes:
            return False
        k += 1
        if self.kinds[k] in (":", "-", "="):
            k += 1
        other = self.operand(k)
        if (
            other is None
            or other.kind != "num"
            or len(other.values) != 1
            or other.unit not in ("", "kg", "lb")
        ):
            return False
        if not op.unit:
            op.unit = other.unit
        if not other.unit:
            other.unit = op.unit
        if op.unit != other.unit:
            return False
        men, women = (op, other) if sexes[word] == "m" else (other, op)
        kind = op.unit or "bare"
        weight = Weight(kind, men.low, men.low, start=self.tok(i).start)
        weight.other = Weight(kind, women.low, women.low)
        self.i = other.end
        self.put_load(weight)
        return True

    def _times_of(self, i: int) -> bool:
        reps_n = w.TIMES_OF[self.words[i]]
        plural = self.words[i].endswith("s")
        self.i = i + 1
        last = self.scan.items[-1].load if self.scan.items and self.kinds[i - 1] != "," else None
        if (
            last is not None
            and last.kind == "heavy"
            and last.reps is None
            and self.scan.items[-1].reps is None
        ):
            # "a heavy power clean single"
            last.reps = reps_n
            self.scan.items[-1].reps = ((reps_n, reps_n, False),)
            return True
        if (
            self.cur is not None
            and self.cur.reps is None
            and self.cur.pair is None
            and self.cur.count is not None
            and not self.cur.solo
        ):
            self.cur.reps = ((reps_n, reps_n, False),)
            return True
        if self.climb:
            self.heavy_item("heavy", reps_n)
            return True
        if self.cur is not None and self.cur.climbing and not self.cur.scheme and not plural:
            self.cur.reps = ((reps_n, reps_n, False),)  # "work up to 80% for a double"
            return True
        # "E90S x 7: snatch double" is a double each time; alone, a double is one set.
        count = None if plural or self.scan.all.every_s is not None else Span(1, 1)
        if self.kinds[self.i] == "x" or self.words[self.i] in ("for",):
            op = self.operand(self.i + 1)
            if op is not None and op.unit in ("", "sets") and self.span(op):
                self.i = op.end
                count = self.span(op)
        self.put_scheme(count=count, reps=((reps_n, reps_n, False),))
        return True

    def _each(self, i: int) -> bool:
        word, nxt = self.words[i], self.words[i + 1]
        if word == "both" and nxt not in w.SIDE:
            return False
        if word in ("ea", "es") or (word == "e" and nxt == "s"):
            self._side(i + 1)
            return True
        if nxt in w.SIDE and nxt != "es" and (word != "a" or nxt in ("side", "leg", "arm")):
            self._side(i + 2)
            return True
        said = self.cur is not None and (self.cur.scheme or self.cur.hold_s is not None)
        if word == "each" and said and not nxt and self.kinds[i + 1] != "n":
            self._side(i + 1)
            return True
        return False

    def _side(self, end: int) -> None:
        self.i = end
        if self.cur is not None:
            self.cur.per_side = True
        else:
            self.scan.all.per_side = True

    def _wave(self, i: int) -> bool:
        j = i + 1
        if (
            self.kinds[i - 1] == "n"
            and self.kinds[i - 2] in ("", ",", ":", "x")
            and self.skipped
            and self.skipped[-1] == i - 1
        ):
            value = self.tok(i - 1).value
            if isinstance(value, int) and 100 <= value <= 2_000 and value % 100 == 0:
                self.skipped.pop()
                self.scan.doubts = [d for d in self.scan.doubts if d.start != self.tok(i - 1).start]
                self.scan.waves = value // 100
        else:
            self.scan.waves = self.scan.waves or -1
        if self.words[j] == "of" or self.kinds[j] == ":":
            j += 1
        op = self.operand(j) if self.scan.waves > 0 else None
        self.i = j
        if (
            op is not None
            and op.kind == "num"
            and op.unit == ""
            and self.words[i] == "wave"
            and self.kinds[i - 1] != "n"
        ):
            return True
        return True
