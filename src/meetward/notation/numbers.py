"""Numbers and how they hang together: ``4x3``, ``75%/5x3``, ``5x(2+1)``, ``3-3-2-2-1-1``, ``66-71-76``."""

from . import words as w
from .figure import Op
from .items import Item
from .measures import MeasureForms

FEWEST_KILOS = 3_000
"""Hundredths. In ``100x10`` and ``70/3`` a number from here on is a weight: nobody does thirty sets."""
_BRACKETED = frozenset(("sum", "cluster", "list", "bar"))


class NumberForms(MeasureForms):
    """Reads numbers into sets."""

    def operand(self, i: int, *, left_load: bool = False) -> Op | None:
        """The operand at token ``i``; its ``end`` is the token behind it. None where none begins."""
        tok = self.tok(i)
        if tok.kind == "(":
            op = self.operand(i + 1)
            closed = op is not None and op.unit != "%" and (self.kinds[op.end] == ")" or op.end >= self.n)
            if (
                op is not None
                and closed
                and (op.kind in _BRACKETED or (op.kind == "num" and len(op.values) == 2))
            ):
                op.brackets = True
                op.end += 1
                return op
            return None
        if tok.kind == "c":
            values = [v * 100 for v in tok.value] if isinstance(tok.value, tuple) else []
            return Op("cluster", values, i)
        if tok.kind == "t":
            op = Op("num", [int(str(tok.value)) * 100], i)
            op.unit = "s"
            if self.kinds[i + 1] == "-" and self.kinds[i + 2] == "t":
                op.values.append(int(str(self.tok(i + 2).value)) * 100)
                op.end = i + 3
            return op
        if tok.kind == "w":
            return self._word_operand(i)
        if tok.kind != "n" or not isinstance(tok.value, int):
            return None
        op = Op("num", [tok.value], i)
        op.missed = [False]
        op.unit, op.end = self.unit(i + 1)
        j = op.end
        if op.unit == "" and self.kinds[j] == "+":
            if self.kinds[j + 1] == "n" and self._is_sum(j + 1):
                return self._sum(op, j)
            if (self.glued(j) and self.kinds[j + 1] not in ("n", "w")) or (
                self.glued(j) and not self.glued(j + 1) and self.kinds[j + 1] != "w"
            ):
                op.more = True
                op.end = j + 1
                op.unit, op.end = self.unit(op.end)
                return op
        if op.unit in ("", "%", "kg", "lb") and (self.kinds[j] in ("-", "x") or self.words[j] == "to"):
            self._list(op)
        return op

    def _is_sum(self, j: int) -> bool:
        """Whether the number at ``j`` behind a plus is the second of a sum and not the reps of the next
        name."""
        nxt = self.words[j + 1]
        if (
            not nxt
            or nxt in w.SETS
            or nxt in w.REPS
            or nxt in ("at", "x", "up", "with", "for", "rest", "every", "per", "each", "then")
        ):
            return True
        return self.glued(j) and self.glued(j - 1)

    def _sum(self, op: Op, j: int) -> Op:
        op.kind = "sum"
        while self.kinds[j] == "+" and self.kinds[j + 1] == "n" and self._is_sum(j + 1):
            value = self.tok(j + 1).value
            if not isinstance(value, int):
                break
            op.values.append(value)
            j += 2
        op.unit, op.end = self.unit(j)
        return op

    def _list(self, op: Op) -> None:
        """Take the numbers behind dashes: a range, or a list of three and more."""
        j = op.end
        if self._missed_at(j):
            op.missed[-1] = True
            j += 1
        units = [op.unit]
        while (self.kinds[j] == "-" or (len(op.values) == 1 and self.words[j] == "to")) and len(
            op.values
        ) < 60:
            k = j + 1
            missed = self.kinds[k] == "/" and self.glued(k + 1)
            if missed:
                k += 1
            value = self.tok(k).value
            if self.kinds[k] != "n" or not isinstance(value, int):
                break
            unit, end = self.unit(k + 1)
            if not self._goes_on(op, units, j, k, value, unit, end):
                break
            op.values.append(value)
            op.missed.append(missed)
            units.append(unit)
            op.end = j = end
            if self._missed_at(j):
                op.missed[-1] = True
                op.end = j = j + 1
        given = [u for u in units if u]
        if given:
            op.unit = given[-1]
        more = self.kinds[op.end] == "+" and self.glued(op.end) and self.kinds[op.end + 1] != "n"
        if more and op.unit in ("", "reps"):
            op.more = True
            op.end += 1
        if len(op.values) > 2 or any(op.missed) or (len(op.values) == 2 and op.low >= op.high):
            op.kind = "list"

    def _goes_on(self, op: Op, units: list[str], j: int, k: int, value: int, unit: str, end: int) -> bool:
        """Whether the number at ``k`` continues the range or list, and is not the beginning of something
        else."""
        glued = self.glued(j) and self.glued(k)
        if unit == "%" and not units[-1] and not self.glued(j) and self.glued(k) and self.kinds[j] == "-":
            return False  # "2x5 -8%": what comes off
        if unit in ("sets", "reps", "s", "m", "rm", "singles"):
            if unit in ("reps", "singles") and glued and not units[-1] and len(op.values) >= 2:
                return True
            return not units[-1] and value > op.high and unit != "rm"
        if units[-1] and not unit:
            return glued and (self.kinds[end] == "-" or any(op.missed))
        if glued and len(op.values) >= 2:
            return True
        last = op.high
        if value > last:
            wide = value > 4 * last and value > 1_500 if glued else value > 3 * last and value > 1_500
            if unit == "%" or units[-1]:
                wide = value > 2.5 * last and not (glued and last >= 2_000)
            return not wide or (glued and unit != "%" and not units[-1] and self.kinds[end] == "-")
        if glued:
            return True
        if len(op.values) == 1 and self.kinds[end] != "-":
            return False  # "EMOM 5 - 2 cleans": two falling numbers with blanks between are no ladder
        # With blanks around the dash, equal or falling numbers are a ladder only when all are small.
        return (not unit and last <= 3_000 and value * 6 > last and self.kinds[end] not in ("x", "%")) or (
            last >= 2_000 and value >= last * 0.7 and self.kinds[end] != "x"
        )

    def _missed_at(self, j: int) -> bool:
        return (
            self.kinds[j] == "x"
            and self.glued(j)
            and not (self.kinds[j + 1] == "n" and self.glued(j + 1))
            and self.kinds[j + 1] == "-"
        )

    def _word_operand(self, i: int) -> Op | None:
        word = self.words[i]
        if word in w.NUMBERS:
            op = Op("num", [w.NUMBERS[word] * 100], i)
            op.missed = [False]
            j = i + 1
            if word in w.TENS and word != "hundred":
                k = j + 1 if self.kinds[j] == "-" and self.glued(j) else j
                ones = w.NUMBERS.get(self.words[k], 0)
                if 0 < ones < 10:
                    op.values = [op.low + ones * 100]
                    j = k + 1
            op.unit, op.end = self.unit(j)
            return op
        if word == "f" and self.kinds[i - 1] == "x" and self.kinds[i + 1] in ("", ",", ";", ")"):
            return Op("num", [0], i)  # "70xF": a miss
        if (
            word in ("amrap", "amap", "failure")
            or (word == "max" and self.kinds[i - 1] == "x")
            or (word in ("max", "maximum") and self.words[i + 1] in w.REPS)
        ):
            op = Op("many", [0], i)
            op.more = True
            op.end = i + 2 if self.words[i + 1] in w.REPS else i + 1
            if word in ("max", "maximum") and self.words[i + 1] in ("effort", "out"):
                return None
            return op
        if word == "as" and self.words[i + 1] == "many" and "as" in (self.words[i + 2], self.words[i + 3]):
            j = i + 3 if self.words[i + 2] == "as" else i + 4
            op = Op("many", [0], i)
            op.more = True
            op.end = j + 1 if self.words[j] in ("possible", "you") else j
            if self.words[op.end] == "can":
                op.end += 1
            return op
        if word == "bar" and (
            self.kinds[i - 1] in ("", "(", "@", ",", ":", "-") or self.kinds[i + 1] in ("x", ")", "/")
        ):
            op = Op("bar", [0], i)
            op.end = i + 1
            return op
        return None

    def heavyish(self, op: Op) -> bool:
        """Whether a number without a sign is surely a weight."""
        return op.kind == "num" and op.unit == "" and not op.more and op.low >= FEWEST_KILOS

    def chain(self, i: int) -> tuple[list[Op], list[str], int] | None:
        """Operands linked by times signs and slashes from token ``i``: operands, links, the token behind."""
        first = self.operand(i)
        if first is None:
            return None
        ops, links = [first], []
        self.side_seen = False
        op: Op | None
        j = first.end
        while len(ops) < 6:
            if self.kinds[j] == "/" and (self.words[j + 1] in w.SIDE or self.words[j + 1] == "each"):
                if ops[-1].unit in ("kg", "lb") and self.words[j + 1] == "hand":
                    ops[-1].word = "hand"  # "32kg/hand": one in each
                    j += 2
                    continue
                self.side_seen = True
                if ops[-1].unit == "" and ops[-1].kind == "num":
                    ops[-1].unit = "reps"  # "8/side" can only be reps
                j += 2
                continue
            kind = self.kinds[j]
            inner = (
                self.operand(j)
                if kind == "(" and self.glued(j) and ops[-1].kind == "num" and ops[-1].unit == ""
                else None
            )
            if inner is None and kind == "(" and len(ops) == 1 and (first.is_load or self.heavyish(first)):
                inner = self.operand(j)  # "70% (2+1)2"
            if inner is not None and inner.kind in ("sum", "cluster"):
                op = inner
                kind = "x"
            elif kind == "n" and self.glued(j) and ops[-1].brackets and len(ops) == 2:
                op = self.operand(j)
                kind = "x"
            elif kind == "x":
                if self.glued(j) and not self.glued(j + 1) and self.kinds[j + 1] == "n":
                    nxt = self.tok(j + 1).value
                    if (
                        ops[-1].kind == "num"
                        and ops[-1].high >= 2_000
                        and isinstance(nxt, int)
                        and nxt >= 2_000
                    ):
                        break  # "61x 59": a miss, then the next weight
                op = self.operand(j + 1)
            elif self.words[j] == "by" and ops[-1].kind == "num" and ops[-1].unit == "":
                op = self.operand(j + 1)
                if op is None or op.kind != "num" or op.unit not in ("", "reps"):
                    break
                kind = "x"
            elif (
                kind == "/"
                and self.kinds[j + 1] in ("n", "(")
                and ops[-1].unit not in ("sets", "reps")
                and self.kinds[j - 1] != "-"
            ):
                op = self.operand(j + 1)
                if op is not None and self.kinds[op.end] == "@" and self.kinds[i - 1] == "@":
                    break  # "3 @ 70/2 @ 75"
            else:
                break
            if op is None:
                break
            ops.append(op)
            links.append("x" if kind == "x" else "/")
            j = op.end
        return ops, links, j

    def extra(self, item: Item, j: int) -> int:
        """Take "/side" and the like right behind a chain."""
        if self.kinds[j] == "/" and self.words[j + 1] in (*w.SIDE, "each"):
            item.per_side = True
            return j + 2
        return j
