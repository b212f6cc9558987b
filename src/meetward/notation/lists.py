"""Lists of numbers: ladders of reps, rows of weights, attempts, clusters."""

import itertools

from meetward.cycle.tree import Span

from .figure import Op
from .items import Amount, Weight
from .numbers import NumberForms

FEWEST_IN_A_LIST = 2_000


class ListForms(NumberForms):
    """Reads lists."""

    def comma_ladder(self, i: int) -> Op | None:
        """ "5, 5, 5, 3, 3": three and more small numbers with nothing but commas (or blanks, four and more)
        between."""
        values: list[int] = []
        j = i
        commas = self.kinds[i + 1] == ","
        while self.kinds[j] == "n" and len(values) < 60:
            value = self.tok(j).value
            if not isinstance(value, int) or value % 100 or not 100 <= value <= 2_000:
                return None
            values.append(value)
            j += 1
            if (
                commas
                and self.kinds[j] == ","
                and self.kinds[j + 1] == "n"
                and self.unit(j + 2)[0] not in ("%", "kg", "lb", "s", "min")
                and self.kinds[j + 2] not in ("x", "/")
            ):
                j += 1
            elif commas or self.kinds[j] != "n":
                break
        unit, end = self.unit(j)
        if (
            len(values) < (3 if commas else 4)
            or unit not in ("", "reps")
            or self.kinds[j] in ("x", "X", "/")
            or (self.kinds[j] == "-" and (self.glued(j) or self.glued(j + 1)))
            or (self.kinds[j] == "+" and self.kinds[j + 1] == "n")
        ):
            return None
        op = Op("list", values, i)
        op.missed = [False] * len(values)
        op.end = end
        if self.kinds[j] == "+" and self.glued(j):
            op.more = True
            op.end = j + 1
        return op

    def _cluster(self, op: Op, count: Span | None) -> bool:
        numbers = tuple(v // 100 for v in op.values)
        if not all(0 < v < 50 for v in numbers):
            return False
        total = sum(numbers)
        item = self.put_scheme(count=count, reps=((total, total, False),))
        item.cluster = numbers
        if count is None and not op.brackets and self.kinds[self.i] != "x":
            item.unsure = "dots"
        return True

    def _sum_reps(self, reps: tuple[Amount, ...]) -> None:
        cur = self.cur
        if cur is not None and cur.scheme and cur.reps is None and cur.pair is None and not self.sep:
            cur.reps = reps
        elif self.kinds[self.i] in ("x",) or cur is not None:
            self.put_scheme(reps=reps)
        else:
            self.scan.sum_reps = reps

    def _list_of(self, op: Op) -> bool:
        """A list joined by dashes: reps, weights, or the attempts of a meet."""
        numbers = op.values
        if (
            len(numbers) == 4
            and max(numbers) < 1_000
            and op.unit == ""
            and self.cur is not None
            and self.cur.scheme
            and not self.sep
        ):
            return False  # a tempo more likely than four sets
        if any(op.missed) or op.unit in ("kg", "lb", "%"):
            return self._weights(op)
        rising = all(a <= b for a, b in itertools.pairwise(numbers)) and numbers[0] < numbers[-1]
        if op.unit == "reps":
            return self._ladder(op, None)
        if len(numbers) == 2 and numbers[0] > numbers[1]:
            return False
        if max(numbers) <= 1_200:
            return self._ladder(op, None)
        if min(numbers) >= FEWEST_IN_A_LIST and (rising or min(numbers) * 3 > max(numbers) * 2):
            if self.cur is not None and self.cur.scheme and self.cur.load is None:
                return self._weights(op)
            if max(numbers) <= 3_000:
                return False
            return self._weights(op)
        if (
            all(a >= b for a, b in itertools.pairwise(numbers))
            and max(numbers) <= 5_000
            and min(numbers) < 2_000
        ):
            return self._ladder(op, None)
        return max(numbers) <= 2_000 and self._ladder(op, None)

    def _weights(self, op: Op) -> bool:
        kind = {"%": "percent", "kg": "kg", "lb": "lb"}.get(op.unit, "bare")
        climb, self.climb = self.climb, False
        for n, (value, missed) in enumerate(zip(op.values, op.missed, strict=False)):
            weight = Weight(kind, value, value, start=self.tok(op.start).start)
            item = self.put_load(weight) if n == 0 else self.new_item()
            item.load, item.missed = weight, missed
        self.climb = climb
        return True

    def _ladder(self, op: Op, count: Span | None) -> bool:
        """ "3-3-2-2-1-1": a set of each. ``count`` waves of it where a number stands before."""
        if any(v % 100 or not 0 < v <= 10_000 for v in op.values):
            return False
        numbers = [v // 100 for v in op.values]
        if count is not None and count.low != count.high:
            return False
        self.chain_number += 1
        waves = count.low if count is not None else 1
        if waves * len(numbers) > 100:
            return False
        carried = self.cur if self.cur is not None and self.cur.bare_list and not self.sep else None
        for wave in range(1, waves + 1):
            k = 0
            while k < len(numbers):
                same = k
                while same < len(numbers) and numbers[same] == numbers[k]:
                    same += 1
                item = carried if carried is not None and wave == 1 and k == 0 else self.new_item()
                item.chain = self.chain_number
                if carried is not None:
                    item.load = carried.load
                    item.climbing = carried.climbing
                last = same == len(numbers)
                if op.more and last and same - k > 1:
                    same -= 1
                item.count = Span(same - k, same - k)
                item.reps = ((numbers[k], numbers[k], op.more and last and same == len(numbers)),)
                item.wave = wave if waves > 1 else 0
                k = same
        return True

    def _counted(self, count: Span | None, op: Op) -> bool:
        """Sets of ``op``: reps, a sum, a hold, a distance, a cluster, a ladder."""
        if op.kind == "cluster":
            return self._cluster(op, count)
        if op.kind == "list" and op.unit in ("", "reps") and not any(op.missed):
            return self._ladder(op, count)
        span = self.seconds(op)
        if span is not None:
            self.put_scheme(count=count, hold=span).unsure = "time"
            return True
        metres = self.metres(op)
        if metres is not None:
            self.put_scheme(count=count, distance=metres).unsure = "way"
            return True
        reps = self.reps_of(op)
        if reps is None or op.unit in ("sets", "rm", "%", "kg", "lb"):
            return False
        self.put_scheme(count=count, reps=reps)
        return True

    def _misses(self) -> None:
        item = self.cur
        if item is None:
            return
        times = int(str(self.tok(self.i).value)) if self.kinds[self.i] == "X" else 1
        item.missed = True
        for _ in range(times - 1):
            again = self.new_item()
            again.load, again.missed = item.load, True
        self.i += 1
