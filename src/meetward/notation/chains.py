"""What a run of linked numbers means: which is the load, which the sets, which the reps."""

from meetward.cycle.tree import Span

from . import words as w
from .figure import Op
from .fronts import FrontForms
from .items import ONE, Item, Weight

_OUTCOMES = w.set_of("no good ok make made miss missed fail failed")
_CAME_TO = w.set_of("got did made hit was lifted reached managed today yesterday prev previous last pr pb")
_BARS = w.set_of("technique training junior women's womens men's mens youth light")


class ChainForms(FrontForms):
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
        unit, lead_word = op.unit, self.words[i - 1]
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
                and self.words[i - 1] not in ("hold", "for", "of")
            ):
                return False  # "5s: 60, 70, 80 kg" are fives, not seconds
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
        if unit in ("kg", "lb") and lead_word in _CAME_TO and self._heavy_now():
            self.scan.leftover.append((self.tok(i).start, self.tok(op.end - 1).end))
            return True
        if unit in ("%", "kg", "lb"):
            self.put_load(self.weight(op))
            self._bar_of_that_weight(op.end)
            return True
        return self._plain(op, i)

    def _heavy_now(self) -> bool:
        """Whether the sets being read are found on the day."""
        return self.cur is not None and self.cur.load is not None and self.cur.load.kind == "heavy"

    def _bar_of_that_weight(self, j: int) -> None:
        """ "a 10 kg technique bar", "the 15 kg bar": the bar is the weight."""
        k = j + 1 if self.words[j] in _BARS else j
        if self.words[k] in ("bar", "barbell", "bell", "kettlebell") and self.kinds[k + 1] != "x":
            self.i = k + 1

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

    def _plain(self, op: Op, i: int) -> bool:
        """A number with no sign and no link."""
        before = self.kinds[i - 1]
        lead = self.words[i - 1]
        if before == "@" or lead == "at" or (lead == "with" and op.low >= 1_000):
            self.put_load(self.weight(op))
            return True
        if self.words[op.end] in _OUTCOMES and op.low >= 2_000 and len(op.values) == 1 and not op.more:
            self.put_load(self.weight(op)) if not self._needs_new() else self._next_weight(op)
            return True
        j = op.end
        if self.heavyish(op) and self.kinds[j : j + 3] == ["(", "n", ")"] and len(op.values) == 1:
            # "65 (3) 70 (3)": what stands in brackets behind a weight is read with it
            self.put_load(self.weight(op)) if not self._needs_new() else self._next_weight(op)
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

    def _needs_new(self) -> bool:
        return self.cur is not None and self.cur.load is not None

    def _next_weight(self, op: Op) -> None:
        item = self.new_item()
        item.load = self.weight(op)

    def _in_weight_list(self, op: Op) -> bool:
        """Whether a bare number stands in a list of weights: its neighbours behind the comma are numbers
        too."""
        if op.low < 1_000 or len(op.values) > 2:
            return False
        if (
            self.heavyish(op)
            and self.cur is None
            and self.kinds[op.end] == "n"
            and self.kinds[op.end + 1] == "x"
        ):
            return bool(self.scan.parts) and self.scan.parts[-1].end <= self.tok(op.start).start
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
        if link == "/" and b.unit in ("kg", "lb") and a.unit == "" and b.high <= 1_200 and a.low > 3 * b.high:
            # "95/1 kg": the unit was written behind the reps.
            a.unit, b.unit = b.unit, ""
            return self._front(a, [b], [link])
        if link == "/" and self._reps_over_load(a, b):
            return self._times_load(a, b)
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
        if (
            self.heavyish(a)
            and b.kind in ("num", "sum")
            and b.unit in ("", "reps")
            and b.high <= 2_000
            and not b.more
        ):
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

    def _three(self, ops: list[Op], links: list[str]) -> bool:
        a, b, c = ops
        if a.is_load or (links[0] == "/" and self._bare_front(a, b)):
            return self._front(a, [b, c], links)
        if links == ["x", "/"] and b.unit == c.unit == "" and b.values == c.values and b.kind == "num":
            # "3x8/8": eight on each side
            count = self.span(a)
            if count is None or not self._counted(count, b) or self.cur is None:
                return False
            self.cur.per_side = True
            return True
        if links == ["x", "/"] and self._reps_over_load(b, c):
            count, reps = self.span(a), self.amount(b)
            if count is None or reps is None or a.unit not in ("", "sets"):
                return False
            self.put_scheme(count=count, reps=(reps,))
            self.put_load(self.weight(c))
            return True
        if "/" in links:
            return False
        if c.is_load or (self.heavyish(c) and not self.heavyish(a) and c.unit == ""):
            mark = self.i
            if not self._two(a, b, "x"):
                return False
            self.i = mark
            self.put_load(self.weight(c))
            return True
        if self.heavyish(a) and b.kind in ("num", "sum") and not b.is_load:
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
