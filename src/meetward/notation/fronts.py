"""Numbers with their load: in front of reps and sets, behind them, one for men and one for women."""

from . import words as w
from .figure import Op
from .items import ONE, Weight
from .lists import ListForms

FEWEST_KILOS_SLASH = 2_500


class FrontForms(ListForms):
    """Reads loads with the numbers linked to them."""

    def _front(self, load: Op, rest: list[Op], links: list[str]) -> bool:
        """The load stands in front: reps, and then sets."""
        weight = self.weight(load)
        if load.kind == "list":
            return False
        first = rest[0]
        if links[0] == "/" and load.unit in ("kg", "lb") and first.unit == load.unit and first.low < load.low:
            return len(rest) == 1 and self._men_women(load, first)
        if first.is_load:
            return False
        if len(rest) == 1 and first.unit == "singles":
            count = self.span(first)
            reps_n = w.TIMES_OF[self.words[first.end]]
            self._start_loaded(weight)
            self.i = first.end + 1
            if count is None:
                return False
            self.put_scheme(count=count, reps=((reps_n, reps_n, False),))
            return True
        if any(o.unit == "singles" for o in rest):
            return False
        cur = self.cur
        if (
            (
                len(rest) == 1
                and cur is not None
                and cur.count is not None
                and cur.count is not ONE
                and first.unit == ""
            )
            and cur.reps is None
            and cur.pair is None
            and cur.load is None
            and self.sep not in (";", "then")
        ):
            # "3 sets @ 70% x 5"
            reps = self.reps_of(first)
            if reps is None:
                return False
            self.put_load(weight)
            cur.reps = reps
            return True
        if len(rest) == 1:
            self._start_loaded(weight)
            if first.kind == "num" and first.high == 0 and self.cur is not None:
                # "62 x 0": not lifted
                self.cur.count, self.cur.reps, self.cur.missed = ONE, ((1, 1, False),), True
                return True
            if first.unit == "sets":
                count = self.span(first)
                if count is None:
                    return False
                self.put_scheme(count=count)
                return True
            if first.kind == "list":
                return self._ladder(first, None)
            return self._counted(ONE, first)
        second = rest[1]
        if "sets" in (first.unit, second.unit) or "reps" in (first.unit, second.unit):
            sets_first = first.unit == "sets" or second.unit == "reps"
            count = self.span(first if sets_first else second)
            self._start_loaded(weight)
            return count is not None and self._counted(count, second if sets_first else first)
        if (
            links[0] == "/"
            or first.kind in ("sum", "cluster", "many")
            or first.unit in ("s", "min", "m")
            or first.more
        ):
            count = self.span(second)
            self._start_loaded(weight)
            return count is not None and self._counted(count, first)
        if second.kind in ("sum", "cluster", "many") or second.unit in ("s", "min", "m") or second.more:
            count = self.span(first)
            self._start_loaded(weight)
            return count is not None and self._counted(count, second)
        if second.unit == "" and first.unit == "" and second.kind == first.kind == "num":
            self._start_loaded(weight)
            return self._pair(first, second, after_load=True)
        return False

    def _start_loaded(self, weight: Weight) -> None:
        cur = self.cur
        if cur is not None and (cur.scheme or cur.load is not None or cur.hold_s):
            self.new_item()
        self.put_load(weight)
        self.sep = ""

    def _men_women(self, a: Op, b: Op) -> bool:
        unit = b.unit or a.unit
        kind = unit or "bare"
        weight = Weight(kind, a.low, a.low, start=self.tok(a.start).start)
        weight.other = Weight(kind, b.low, b.low)
        self.put_load(weight)
        return True

    def _in_hands(self) -> bool:
        """Whether the movement is done with something in each hand."""
        found = self.names.find(self.scan.parts[0].core) if len(self.scan.parts) == 1 else None
        equipment = set(getattr(found.entry, "equipment", ())) if found is not None else set()
        return bool(equipment & {"dumbbell", "kettlebell"})

    def _barbell(self) -> bool:
        """Whether the movement is surely a barbell lift."""
        found = self.names.find(self.scan.parts[0].core) if len(self.scan.parts) == 1 else None
        return found is not None and "bar" in getattr(found.entry, "equipment", ())

    def _number_times_load(self, a: Op, b: Op) -> bool:
        if b.unit in ("kg", "lb") and self.heavyish(a) and b.high <= 1_500:
            # "175x5 lbs": the unit was written behind the reps.
            a.unit, b.unit = b.unit, ""
            return self._front(a, [b], ["x"])
        return self._times_load(a, b)

    def _times_load(self, a: Op, b: Op) -> bool:
        """``3 x 100kg``: reps or sets at a load; ``2x15kg`` dumbbells."""
        j = b.end
        hands = self.words[j] in (
            "db",
            "dbs",
            "dumbbell",
            "dumbbells",
            "kb",
            "kbs",
            "kettlebell",
            "kettlebells",
            "plates",
            "plate",
        ) or (
            self.kinds[j] == ")"
            and any(
                p.core.lower().startswith(("dumbbell", "db", "kettlebell", "kb")) for p in self.scan.parts
            )
        )
        weight = self.weight(b)
        if self.cur is not None and self.cur.scheme and self.cur.load is None and self._in_hands():
            hands = True
        if hands and a.low == 200 and b.unit in ("kg", "lb"):
            weight.implements = 2
            self.put_load(weight)
            self.i = j + 1 if self.words[j] else j
            return True
        amount = self.amount(a)
        if amount is None:
            return False
        if self.cur is not None and self.cur.scheme and self.cur.load is None and not self.sep:
            return False
        self.put_scheme(solo=amount, fill=False)
        self.put_load(weight)
        return True

    @staticmethod
    def _reps_over_load(a: Op, b: Op) -> bool:
        """ "3/60": reps, and behind the slash a weight many times as large."""
        if a.kind != "num" or b.kind != "num" or a.unit or a.more or len(a.values) > 1 or len(b.values) > 1:
            return False
        return a.high <= 1_000 and b.unit in ("", "%", "kg", "lb") and b.low >= max(3_500, 4 * a.high)

    def _bare_front(self, a: Op, b: Op) -> bool:
        """``70/3``: a bare weight, then reps."""
        return (
            a.kind == "num"
            and not a.more
            and a.low >= 2_000
            and b.kind in ("num", "sum", "cluster")
            and b.unit in ("", "reps")
            and b.high <= 2_000
            and b.high * 3 <= a.low
        )

    def _slashes(self, ops: list[Op]) -> bool:
        """``3/3/2/2/1/1`` is a ladder, ``@ 70/75/80%`` loads for sets that were said, ``70/3/5`` load, reps,
        sets; ``90/110/140`` could be anything."""
        first, rest = ops[0], ops[1:]
        if self._slashed_loads(ops):
            loads = Op("list", [o.low for o in ops], first.start)
            loads.missed = [False] * len(ops)
            loads.unit = ops[-1].unit
            return self._weights(loads)
        small = all(o.unit == "" and o.high <= 1_200 for o in rest)
        if first.is_load or (first.low >= FEWEST_KILOS_SLASH and small):
            return len(rest) == 2 and small and self._front(first, rest, ["x", "x"])
        if (
            first.unit == ""
            and first.high <= 2_000
            and all(o.unit in ("", "reps") and o.high <= 2_000 for o in rest)
        ):
            ladder = Op("list", [o.low for o in ops], first.start)
            ladder.missed = [False] * len(ops)
            if any(o.more for o in ops[:-1]):
                return False
            ladder.more = ops[-1].more
            return self._ladder(ladder, None)
        return False

    def _slashed_loads(self, ops: list[Op]) -> bool:
        """Whether three and more numbers are the loads of sets that stand before them."""
        said = self.cur is not None and self.cur.scheme and self.cur.load is None
        units = {o.unit for o in ops[:-1]} | {ops[-1].unit}
        alike = (
            max(o.high for o in ops) * 2 <= 3 * min(o.low for o in ops) and min(o.low for o in ops) >= 1_500
        )
        one_unit = (
            len(units - {""}) <= 1 and units <= {"", "%", "kg", "lb"} and (ops[-1].unit or units == {""})
        )
        return bool(said and alike and one_unit)

    def _pair(self, a: Op, b: Op, *, after_load: bool) -> bool:
        one, two = self.amount(a), self.amount(b)
        if one is None or two is None:
            return False
        item = self.put_scheme(pair=(one, two))
        item.after_load = after_load
        return True
