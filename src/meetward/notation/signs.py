"""Brackets, the at sign, times signs without a left side, plus, slash and colon."""

from meetward.cycle.tree import Span

from . import words as w
from .figure import Op
from .items import Weight
from .loads import TOP
from .marks import MarkForms


class SignForms(MarkForms):
    """Reads what begins with a sign."""

    def _at(self, i: int) -> None:
        j = i + 1
        if self.tempo(i):
            return
        if self.words[j] in ("rpe", "rir") and self.effort(j):
            return
        if self.effort(j):
            return
        if self.words[j] in (
            "bw",
            "bodyweight",
            "body",
            "empty",
            "bar",
            "just",
            "stick",
            "pvc",
        ) and self.body_or_bar(j):
            return
        if self.words[j] in ("max", "maximum"):
            most = self.operand(j + 1)
            if most is not None and most.is_load and most.kind == "num":
                weight = self.weight(most)
                weight.low = None
                self.i = most.end
                self.put_load(weight)
                return
        if self.kinds[j] == "-" and self.cur is not None and self.cur.scheme and self.cur.load is None:
            less = self.operand(j + 1)
            if less is not None and less.unit == "%" and less.kind == "num" and 0 < less.high < 6_000:
                weight = Weight("percent", 10_000 - less.high, 10_000 - less.low, start=self.tok(j).start)
                weight.of = TOP
                self.i = less.end
                self.put_load(weight)
                return
        if self.words[j] in ("heavy", "max", "maximum"):
            self.i = j
            weight = self._heavy_load(j)
            self.put_load(weight)
            return
        if self.words[j] == "pair" and self._hands(j):
            return
        if self.words[j] in w.SOFT:
            self.i = j + 1
            self.put_load(Weight("open", word=self.words[j]))
            return
        self.i = j
        while self.kinds[self.i] in ("~", "@", "=") or self.words[self.i] in (
            "approx",
            "about",
            "around",
            "a",
        ):
            self.i += 1
        if self.words[self.i] == "up" and self.climbing(self.i):
            return
        got = self.chain(self.i)
        if got is None:
            return
        op = got[0][0]
        if (
            op.kind == "num"
            and op.unit == "rm"
            and len(got[0]) == 1
            and op.low == op.high
            and op.low % 100 == 0
        ):
            weight = Weight("percent", 10_000, 10_000, start=self.tok(self.i).start)
            written = self.line[self.tok(self.i).start : self.tok(op.end - 1).end]
            weight.of = ("rep max", "", op.low // 100) if op.low > 100 else ("default", written, 0)
            self.i = op.end
            self.put_load(weight)
            return
        if self.kinds[op.end] == "x" and self.words[op.end + 1] in ("bw", "bodyweight", "body"):
            self.doubt("numbers", i, op.end + 1)
            self.i = op.end + 2
            return
        if op.kind == "num" and op.unit == "" and op.low < 200 and op.low % 100:
            self.doubt("numbers", i, op.end - 1)
            self.i = op.end
            return
        if self._reps_load_sets(got[0], got[1], got[2]):
            return
        if op.kind == "num" and (op.is_load or op.unit == "") and len(got[0]) == 1:
            self.i = got[2] if op.word else op.end
            self.put_load(self.weight(op))
            self._more_loads(op.unit)
            if self.cur is not None and self.cur.load is not None and self.cur.load.kind == "percent":
                self.of_base(self.cur.load)
            return
        mark = self.i
        if self.take_chain(mark):
            self._more_loads("")

    def _reps_load_sets(self, ops: list[Op], links: list[str], end: int) -> bool:
        """ "5 @ 80% x 3": the reps stand in front of the load, the sets behind it."""
        cur = self.cur
        if cur is None or cur.solo is None or cur.load is not None or len(ops) != 2 or links != ["x"]:
            return False
        load, sets = ops
        count = self.span(sets) if sets.unit in ("", "sets") else None
        heavy = load.kind == "num" and (load.is_load or self.heavyish(load))
        if not heavy or count is None:
            return False
        self.i = end
        cur.count, cur.reps, cur.solo = count, (cur.solo,), None
        self.put_load(self.weight(load))
        return True

    def _more_loads(self, unit: str) -> None:
        """ "3x5 @ 60, 65, 70%" is read by the list of weights."""

    def _heavy_load(self, j: int) -> Weight:
        word = "max" if self.words[j] in ("max", "maximum") else "heavy"
        weight = Weight("heavy", word=word)
        self.i = j + 1
        op = self.operand(j + 1)
        if op is not None and op.kind == "num" and op.unit in ("", "reps") and self.amount(op):
            weight.reps = op.low // 100
            self.i = op.end
        return weight

    def _hands(self, j: int) -> bool:
        """ "@ pair of 15 kg"."""
        if self.words[j + 1] != "of":
            return False
        op = self.operand(j + 2)
        if op is None or op.unit not in ("kg", "lb") or op.kind != "num":
            return False
        weight = self.weight(op)
        weight.implements = 2
        self.i = op.end
        self.put_load(weight)
        return True

    def _times(self, i: int) -> None:
        """A times sign with no number before it."""
        cur = self.cur
        got = self.chain(i + 1)
        if got is None or any(o.is_load for o in got[0][1:]):
            if cur is not None and cur.load is not None and cur.bare_list and self.glued(i):
                self._misses()
                return
            self.i = i + 1
            if self.words[i + 1] in w.TIMES_OF or self.kinds[i + 1] in ("", ")"):
                return
            self.skip(i)
            return
        ops, links, end = got
        first = ops[0]
        self.i = end
        if cur is not None and cur.bare_list and not self.sep:
            ok = (
                self._counted(Span(1, 1), first)
                if len(ops) == 1 and first.unit != "sets"
                else self._front_more(ops, links)
            )
            if not ok:
                self.doubt("numbers", i, end - 1)
            return
        if len(ops) == 1 and first.is_load and first.kind != "bar":
            self.put_load(self.weight(first))
            return
        if len(ops) == 1:
            count = self.span(first) if first.unit in ("", "sets") else None
            several = len(self.scan.items) > 1 or self.scan.waves
            if several and self.sep and count is not None and self.scan.waves:
                self.scan.waves = count.low
                if self.words[self.i] in ("wave", "waves", "times"):
                    self.i += 1
                return
            if several and self.words[self.i] in ("wave", "waves") and count is not None:
                self.scan.waves = count.low
                self.i += 1
                return
            if (
                cur is not None
                and not self.sep
                and cur.count is None
                and (cur.reps is not None or cur.hold_s is not None or cur.distance_m is not None)
                and count is not None
                and (len(self.scan.items) == 1)
            ):
                cur.count = count
                return
            if (
                cur is None
                and count is not None
                and self.scan.parts
                and (first.unit == "sets" or self.scan.sum_reps or any(p.reps_low for p in self.scan.parts))
            ):
                self.put_scheme(count=count)
                return
            if cur is None and first.unit in ("s", "min", "m", "reps") and self._counted(Span(1, 1), first):
                return
            if cur is None and first.kind == "many" and self._counted(Span(1, 1), first):
                return
            amount = self.amount(first)
            listed = cur is not None and cur.load is not None and self.sep == ","
            if listed and amount is not None and first.unit in ("", "reps") and self.kinds[self.i] == "@":
                self.put_scheme(count=Span(1, 1), reps=(amount,), fill=False)  # ", x5 @ 7"
                return
            if (
                cur is None
                and count is not None
                and len(self.scan.parts) > 1
                and self.kinds[i - 1] in (")", "]")
            ):
                self.put_scheme(count=count, reps=((1, 1, False),) * len(self.scan.parts))
                return
            if cur is None and first.unit == "" and amount is not None and self.scan.parts:
                item = self.put_scheme(solo=amount)
                item.unsure = "times"
                return
        self.doubt("numbers", i, end - 1)

    def _front_more(self, ops: list[Op], links: list[str]) -> bool:
        cur = self.cur
        if cur is None or cur.load is None:
            return False
        if len(ops) == 1:
            count = self.span(ops[0])
            if count is None:
                return False
            cur.count = count
            return True
        if len(ops) != 2 or links != ["x"]:
            return False
        first, second = ops
        if first.unit == "" == second.unit and first.kind == second.kind == "num":
            return self._pair(first, second, after_load=True)
        return self._two(first, second, "x")

    def _plus(self, i: int) -> None:
        if self.kinds[i + 1] in ("", ",", ";", ")") and self.cur is not None and self.cur.load is not None:
            self.doubt("added", max(0, i - 1), i)
            self.i = i + 1
            return
        held = (
            self.names.pause(self.line, self.toks, i + 1) if self.scan.parts and not self.scan.items else None
        )
        if held is not None:
            # "clean pull + pause at the knee + clean"
            self.scan.parts[-1].pauses.append(held[0])
            self.i = held[1]
            return
        op = self.operand(i + 1)
        if (
            self.cur is not None
            and self.cur.load is not None
            and self.cur.load.kind == "bodyweight"
            and op is not None
            and op.unit in ("kg", "lb")
        ):
            self.cur.load.high, self.cur.load.word = op.high, op.unit
            self.i = op.end
            return
        if (
            op is not None
            and op.unit in ("kg", "lb")
            and op.kind == "num"
            and len(op.values) == 1
            and self._body_moved()
        ):
            weight = Weight("bodyweight")
            weight.high, weight.word = op.high, op.unit
            self.i = op.end
            self.put_load(weight)
            return
        if op is not None and op.unit in ("kg", "lb", "%"):
            self.doubt("added", i, op.end - 1)
            self.i = op.end
            return
        if (
            op is not None
            and op.unit == ""
            and op.kind == "num"
            and self.kinds[op.end] not in ("x",)
            and not self.names.name(self.line, self.toks, op.end)
            and not self._letter(op.end)
        ) and not (self.kinds[op.end] == "n" or self.words[op.end] in (*w.TIMES_OF, "light")):
            self.doubt("added", i, op.end - 1)
            self.i = op.end
            return
        self.i = i + 1
        if self.scan.items:
            self.sep = "+"

    def _body_moved(self) -> bool:
        """Whether the movement lifts the body, so that "+ 10 kg" hangs on it."""
        if len(self.scan.parts) != 1 or (self.cur is not None and self.cur.load is not None):
            return False
        found = self.names.find(self.scan.parts[0].core)
        equipment = getattr(found.entry, "equipment", ()) if found is not None else ("bar",)
        return not {"bar", "dumbbell", "kettlebell", "cable"} & set(equipment)

    def _slash(self, i: int) -> None:
        """A slash with no number before it: a missed attempt, "/side", or two names."""
        if self.words[i + 1] in (*w.SIDE, "each") and self.cur is not None:
            self._side(i + 2)
            return
        op = self.operand(i + 1) if self.glued(i + 1) else None
        if (
            op is not None
            and op.kind in ("list", "num")
            and (op.unit in ("", "kg", "lb"))
            and op.low >= 2_000
            and (self.cur is None or self.cur.bare_list)
        ):
            if not op.missed:
                op.missed = [False] * len(op.values)
            op.missed[0] = True
            op.kind = "list"
            self.i = op.end
            self._weights(op)
            return
        if (
            self.cur is not None
            and self.kinds[i + 1] == "n"
            and self.cur.scheme
            and self.cur.load is not None
        ):
            self.sep = self.sep or ";"
        self.i = i + 1

    def _colon(self, i: int) -> None:
        self.i = i + 1
        if self.scan.items and self.sep == "" and self.cur is not None and self.cur.scheme:
            pass
