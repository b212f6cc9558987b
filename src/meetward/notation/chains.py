"""What a run of linked numbers means: which is the load, which the sets, which the reps."""

from meetward.cycle.tree import Span

from . import words as w
from .items import ONE, Amount, Item, Weight
from .numbers import NumberForms, Op


class ChainForms(NumberForms):
    """Turns chains of operands into sets."""

    def take_chain(self, i: int) -> bool:
        """Read the chain at token ``i``; False when nothing there can be read as sets or loads."""
        got = self.chain(i)
        if got is None:
            return False
        ops, links, end = got
        self.i = end
        side = self.side_seen
        done = self._by_length(ops, links, i)
        if side and self.cur is not None:
            self.cur.per_side = True
            self.i = max(self.i, end)
        if not done:
            self.i = end
            self.doubt("numbers", i, end - 1)
            return True
        if self.cur is not None:
            self.i = self.extra(self.cur, self.i)
        return True

    def _by_length(self, ops: list[Op], links: list[str], i: int) -> bool:
        if len(ops) == 1:
            return self._one(ops[0], i)
        if len(ops) == 2:
            return self._two(ops[0], ops[1], links[0])
        if all(link == "/" for link in links) and all(o.kind == "num" and len(o.values) == 1 for o in ops):
            return self._slashes(ops)
        if len(ops) == 3:
            return self._three(ops, links)
        return False

    def _one(self, op: Op, i: int) -> bool:
        unit = op.unit
        if op.kind == "bar":
            self.put_load(self.weight(op))
            return True
        if op.kind == "many":
            self.put_scheme(reps=((None, None, True),))
            return True
        if op.kind == "cluster":
            return self._cluster(op, None)
        if op.kind == "sum":
            reps = self.reps_of(op)
            if reps is None:
                return False
            self._sum_reps(reps)
            return True
        if op.kind == "list":
            return self._list_of(op)
        if unit == "sets":
            return self._sets(op)
        if unit == "reps":
            amount = self.amount(op)
            if amount is None:
                return False
            self.put_scheme(reps=(amount,)).unsure = "reps"
            return True
        if unit == "singles":
            count = self.span(op)
            if count is None:
                return False
            self.put_scheme(
                count=count,
                reps=((w.TIMES_OF[self.words[op.end]],) * 2 + (False,),),
                fill=self.cur is not None and not self.cur.scheme,
            )
            self.i = op.end + 1
            return True
        if unit in ("s", "min"):
            span = self.seconds(op)
            cur = self.cur
            if span is None or (cur is not None and (cur.reps or cur.pair or cur.solo or cur.bare_list)):
                return False
            if (
                op.low <= 1_000
                and unit == "s"
                and self.words[op.start + 1] == "s"
                and self.kinds[i - 1] not in ("x", "@")
            ):
                # "5s: 60, 70, 80 kg" are fives, not seconds.
                if self.words[i - 1] not in ("hold", "for", "of"):
                    return False
            self.put_scheme(hold=span).unsure = "time"
            return True
        if unit == "m":
            metres = self.metres(op)
            if metres is None:
                return False
            self.put_scheme(distance=metres).unsure = "way"
            return True
        if unit == "rm":
            amount = self.amount(op)
            if amount is None or amount[0] is None:
                return False
            self.heavy_item("max", amount[0])
            return True
        if unit in ("%", "kg", "lb"):
            self.put_load(self.weight(op))
            return True
        return self._plain(op, i)

    def _sets(self, op: Op) -> bool:
        """ "5 sets of 3", "5 sets x 3", "5 sets, 3 reps", "5 sets"."""
        count = self.span(op)
        if count is None:
            return False
        j = op.end
        if self.words[j] in ("of", "by", "at", "with") and (
            self.kinds[j + 1] in ("n", "c", "(", "t")
            or self.words[j + 1] in (*w.NUMBERS, "amrap", "max", "as", *w.TIMES_OF)
        ):
            if self.words[j] in ("of", "by"):
                j += 1
            else:
                self.put_scheme(count=count)
                return True
        elif self.kinds[j] in ("-", ",", ":") and self.kinds[j + 1] == "n":
            later = self.operand(j + 1)
            if later is None or later.unit not in ("reps", "s", "min"):
                self.put_scheme(count=count)
                return True
            j += 1
        elif self.kinds[j] != "n":
            self.put_scheme(count=count)
            return True
        if self.words[j] in w.TIMES_OF:
            self.put_scheme(count=count, reps=((w.TIMES_OF[self.words[j]],) * 2 + (False,),))
            self.i = j + 1
            return True
        ladder = self.comma_ladder(j)
        if ladder is not None and count == Span(len(ladder.values), len(ladder.values)):
            self.i = ladder.end
            return self._ladder(ladder, None)
        later = self.operand(j)
        if later is None or (later.is_load and later.kind != "bar"):
            self.put_scheme(count=count)
            return True
        if later.unit == "singles":
            return False
        self.i = later.end
        return self._counted(count, later)

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
        rising = all(a < b for a, b in zip(numbers, numbers[1:], strict=False))
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
            all(a >= b for a, b in zip(numbers, numbers[1:], strict=False))
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

    def _plain(self, op: Op, i: int) -> bool:
        """A number with no sign and no link."""
        before = self.kinds[i - 1]
        lead = self.words[i - 1]
        if before == "@" or lead == "at" or (lead == "with" and op.low >= 1_000):
            self.put_load(self.weight(op))
            return True
        amount = self.amount(op)
        if lead == "for" and self.cur is not None and self.cur.bare_list and amount and op.high <= 2_000:
            return self._counted(ONE, op)
        if self.words[op.end] == "at" and not self.heavyish(op) and amount is not None:
            later = self.operand(op.end + 1)
            if later is not None and (later.is_load or self.heavyish(later)):
                self.put_scheme(solo=amount, fill=False)
                return True
        after = self.kinds[op.end]
        if after == "@" and not self.heavyish(op):
            amount = self.amount(op)
            if amount is None:
                return False
            self.put_scheme(solo=amount, fill=False)
            return True
        if op.more or (self.heavyish(op) is False and self.climb and self.amount(op)):
            amount = self.amount(op)
            if amount is None:
                return False
            if self.climb and not op.more:
                self.climb = False
                self.put_scheme(reps=(amount,), count=None).load = Weight("heavy", word="heavy")
            else:
                self.put_scheme(reps=(amount,))
            return True
        if (
            op.brackets
            and len(op.values) == 2
            and self.cur is not None
            and self.cur.load is not None
            and self.cur.reps is None
        ):
            amount = self.amount(op)
            if amount is None:
                return False
            self.cur.solo = amount
            self.cur.unsure = "brackets"
            return True
        if self._in_weight_list(op):
            self.put_load(self.weight(op)) if not self._needs_new() else self._next_weight(op)
            if self.kinds[self.i] in ("x", "X") and self.glued(self.i):
                self._misses()
            return True
        return False

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

    def _needs_new(self) -> bool:
        return self.cur is not None and self.cur.load is not None

    def _next_weight(self, op: Op) -> None:
        item = self.new_item()
        item.load = self.weight(op)

    def _in_weight_list(self, op: Op) -> bool:
        """Whether a bare number stands in a list of weights: its neighbours behind the comma are numbers too."""
        if op.low < 1_000 or len(op.values) > 2:
            return False
        last = self.cur.load if self.cur is not None else None
        if last is not None and last.kind in ("bare", "kg", "lb", "percent") and last.high < 3 * op.low:
            return self.sep == "," or self.kinds[op.start - 1] in ("n", "x", "X", "w", ",", "/", ")", "%")
        j = op.end
        if self.kinds[j] in ("x", "X"):
            return self.kinds[j + 1] not in ("n", "(") or self.heavyish(op)
        if self.kinds[j] == ",":
            j += 1
        later = self.tok(j)
        if (
            later.kind == "n"
            and isinstance(later.value, int)
            and op.low <= 4 * later.value
            and later.value >= 1_000
            and self.kinds[j + 1] != "x"
        ):
            return True
        if later.kind == "n" and isinstance(later.value, int) and op.low >= 2_000 and later.value >= 2_000:
            return True
        return (
            self.heavyish(op)
            and self.cur is not None
            and self.cur.scheme
            and self.cur.load is None
            and self.kinds[j] in ("", ",", ";", ")")
        )

    def _two(self, a: Op, b: Op, link: str) -> bool:
        if (
            a.kind == "list"
            and b.kind == "num"
            and b.unit == ""
            and link == "x"
            and not any(a.missed)
            and a.unit == ""
        ):
            count = self.span(b)
            return count is not None and self._ladder(a, count)
        if a.is_load or (a.unit == "" and link == "/" and self._bare_front(a, b)):
            return self._front(a, [b], [link])
        if link == "/":
            bare = a.unit == b.unit == "" and a.kind == b.kind == "num" and 1_000 < b.low < a.low <= 2 * b.low
            if bare and self.cur is not None and self.cur.scheme and self.cur.load is None:
                return self.kinds[a.start - 1] in ("(", "@") and self._men_women(a, b)
            if (
                b.unit in ("kg", "lb")
                and a.unit == ""
                and a.kind == b.kind == "num"
                and b.low < a.low <= 3 * b.low
            ):
                return self._men_women(a, b)
            return False
        if a.unit == b.unit == "" and self.heavyish(b) and not self.heavyish(a) and self._barbell():
            # "2x70 2x75": reps at a weight; nobody snatches seventy reps.
            return self._times_load(a, b)
        if a.kind == "num" and b.is_load:
            return self._number_times_load(a, b)
        if self.heavyish(a) and b.kind in ("num", "sum") and b.unit in ("", "reps") and b.high <= 2_000 and not b.more:
            return self._front(a, [b], [link])
        units = (a.unit, b.unit)
        if a.unit == "sets":
            count = self.span(a)
            return count is not None and self._counted(count, b)
        if b.unit == "sets":
            count = self.span(b)
            return count is not None and self._counted(count, a)
        if b.unit == "reps" and b.kind == "num" and a.unit == "":
            count = self.span(a)
            return count is not None and self._counted(count, b)
        if a.unit == "reps" and b.unit == "":
            count = self.span(b)
            return count is not None and self._counted(count, a)
        if b.kind in ("sum", "cluster", "list", "many") or b.more or b.unit in ("s", "min", "m"):
            count = self.span(a)
            return count is not None and self._counted(count, b)
        if a.kind in ("sum", "cluster", "many") or a.more or a.unit in ("s", "min", "m"):
            count = self.span(b)
            return count is not None and self._counted(count, a)
        if units == ("", ""):
            return self._pair(a, b, after_load=False)
        if b.unit == "singles" or a.unit == "singles":
            return False
        return False

    def _pair(self, a: Op, b: Op, *, after_load: bool) -> bool:
        one, two = self.amount(a), self.amount(b)
        if one is None or two is None:
            return False
        item = self.put_scheme(pair=(one, two))
        item.after_load = after_load
        return True

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
            len(rest) == 1
            and cur is not None
            and cur.count is not None
            and cur.count is not ONE
            and first.unit == ""
        ):
            if cur.reps is None and cur.pair is None and cur.load is None and self.sep not in (";", "then"):
                # "3 sets @ 70% x 5"
                reps = self.reps_of(first)
                if reps is None:
                    return False
                self.put_load(weight)
                cur.reps = reps
                return True
        if len(rest) == 1:
            self._start_loaded(weight)
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
            sets, reps = (first, second) if first.unit == "sets" or second.unit == "reps" else (second, first)
            count = self.span(sets)
            self._start_loaded(weight)
            return count is not None and self._counted(count, reps)
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

    def _barbell(self) -> bool:
        """Whether the movement is surely a barbell lift."""
        found = self.names.find(self.scan.parts[0].core) if len(self.scan.parts) == 1 else None
        return found is not None and "bar" in getattr(found.entry, "equipment", ())

    def _in_hands(self) -> bool:
        """Whether the movement is done with something in each hand."""
        found = self.names.find(self.scan.parts[0].core) if len(self.scan.parts) == 1 else None
        equipment = set(getattr(found.entry, "equipment", ())) if found is not None else set()
        return bool(equipment & {"dumbbell", "kettlebell"})

    def _men_women(self, a: Op, b: Op) -> bool:
        unit = b.unit or a.unit
        kind = unit or "bare"
        weight = Weight(kind, a.low, a.low, start=self.tok(a.start).start)
        weight.other = Weight(kind, b.low, b.low)
        self.put_load(weight)
        return True

    def _slashes(self, ops: list[Op]) -> bool:
        """``3/3/2/2/1/1`` is a ladder, ``70/3/5`` load, reps, sets; ``90/110/140`` could be anything."""
        first, rest = ops[0], ops[1:]
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

    def _three(self, ops: list[Op], links: list[str]) -> bool:
        a, b, c = ops
        if a.is_load or (links[0] == "/" and self._bare_front(a, b)):
            return self._front(a, [b, c], links)
        if "/" in links:
            return False
        if c.is_load or (self.heavyish(c) and not self.heavyish(a) and c.unit == ""):
            mark = self.i
            if not self._two(a, b, "x"):
                return False
            self.i = mark
            self.put_load(self.weight(c))
            return True
        if self.heavyish(a) and b.kind == "num" and not b.is_load:
            return self._front(a, [b, c], links)
        return False

    def heavy_item(self, limit: str, reps: int | None) -> Item:
        """Begin "a heavy 3", "3RM"."""
        weight = Weight("heavy", word=limit)
        weight.reps = reps
        self.climb = False
        cur = self.cur
        amount = ((reps, reps, False),) if reps is not None else None
        if (
            cur is not None
            and cur.load is None
            and cur.reps is None
            and cur.pair is None
            and self.sep not in (";", "then")
        ):
            cur.load = weight
            cur.reps = amount
            return cur
        item = self.new_item()
        item.load, item.reps = weight, amount
        return item


FEWEST_IN_A_LIST = 2_000
FEWEST_KILOS_SLASH = 2_500
