"""What stands in brackets: places, pauses, priorities, chains with their sets behind."""

from meetward.cycle.tree import Priority, Span

from . import words as w
from .items import Item
from .names import PartDraft
from .phrases import PhraseForms

_KEYS: dict[str, Priority] = {
    "key": "key",
    "optional": "could",
    "opt": "could",
    "could": "could",
    "must": "key",
    "should": "should",
    "if time": "could",
    "if time allows": "could",
    "if time permits": "could",
}


_OF_BEST = w.set_of("of best max the your 1rm rm pr pb") | {""}
_OTHER_DAYS = w.set_of("last prev previous previously was vs yesterday pr pb best")
"""A bracket that begins so speaks of another day; its numbers are no sets of this one."""


class BracketForms(PhraseForms):
    """Reads brackets."""

    def _bracket(self, i: int) -> None:
        self.bracket_depth += 1
        close = next((k for k in range(i + 1, min(self.n, i + 16)) if self.kinds[k] == ")"), self.n)
        inside = " ".join(str(self.toks[k].value) for k in range(i + 1, close) if self.toks[k].kind == "w")
        these = self.words[i + 2] in w.SETS or self.words[i + 2] in w.REPS or self.words[i + 2] in w.TIMES_OF
        if self.words[i + 1] in _OTHER_DAYS and self.scan.items and close < self.n and not these:
            self.scan.leftover.append((self.tok(i).start, self.tok(close).end))
            self.i = close + 1
            self.bracket_depth -= 1
            return
        only_words = close > i + 1 and all(self.toks[k].kind in ("w", "-", "&") for k in range(i + 1, close))
        if only_words and inside in _KEYS:
            self.scan.priority = _KEYS[inside]
            self.i = close + 1
            return
        cur = self.cur
        if cur is None and only_words and inside.removeprefix("in ") in (w.KG | w.LB):
            self.unit_hint = "kg" if inside.removeprefix("in ") in w.KG else "lb"
            self.i = close + 1
            return
        if close == i + 2 and self.kinds[i + 1] == "x" and cur is not None and cur.load is not None:
            cur.missed = True
            self.i = close + 1
            return
        if (
            only_words
            and inside in ("kg", "kilos", "lb", "lbs", "pounds")
            and cur is not None
            and cur.load is not None
            and cur.load.kind == "bare"
        ):
            for each in self.scan.items:
                if each.load is not None and each.load.kind == "bare":
                    each.load.kind = "kg" if inside in w.KG else "lb"
                    each.load.concluded = True
                    if each.load.other is not None:
                        each.load.other.kind = each.load.kind
            self.i = close + 1
            return
        if self._found_on_the_day(i, close) or self._percent_of_all(i, close):
            return
        if (cur is None or cur.cluster == ()) and self._cluster_rest(i, close):
            return
        if self.kinds[i + 1] == "n" and self.kinds[i + 2] == "=" and self._equals(i, close):
            return
        # "(75%/4)3", "(70% x 3) x 2": the sets stand behind the bracket.
        got = self.chain(i + 1) if self.kinds[i + 1] == "n" else None
        if got is not None and len(got[0]) == 2 and self.kinds[got[2]] == ")" and got[0][0].is_load:
            j = got[2] + 1
            if self.kinds[j] == "x":
                j += 1
            sets = self.operand(j)
            if (
                sets is not None
                and sets.kind == "num"
                and sets.unit in ("", "sets")
                and (j > got[2] + 1 or self.glued(j) or sets.unit)
            ):
                ops = [*got[0], sets]
                self.i = sets.end
                if not self._front(ops[0], ops[1:], ["/", "x"]):
                    self.doubt("numbers", i, sets.end - 1)
                self.bracket_depth -= 1
                return
        if cur is not None and (self._half_each(i, close, cur) or self._number_behind(i, cur)):
            return
        if self.apart_tempo(i + 1) or self._aside(i, cur):
            return
        op = self.operand(i)
        if op is not None and op.brackets and self.take_chain(i):
            self.bracket_depth -= 1
            return
        self.i = i + 1
        if only_words:
            self._words_in_brackets(i, close)

    def _percent_of_all(self, i: int, close: int) -> bool:
        """ "50/5, 60/5, 70/5 (% of best)": what the numbers before are."""
        rest = {self.words[k] for k in range(i + 2, close)}
        if self.kinds[i + 1] != "%" or not rest <= _OF_BEST or close >= self.n:
            return False
        if not self.bare_are_percent():
            return False
        self.i = close + 1
        self.bracket_depth -= 1
        return True

    def bare_are_percent(self) -> bool:
        """Take the weights without a sign as percentages; False where there is none."""
        bare = [i.load for i in self.scan.items if i.load is not None and i.load.kind == "bare"]
        for load in bare:
            load.kind, load.concluded = "percent", True
        return bool(bare)

    def _found_on_the_day(self, i: int, close: int) -> bool:
        """ "to max (112)": what a heavy set came to, or should; kept in words."""
        cur = self.cur
        if cur is None or cur.load is None or cur.load.kind != "heavy":
            return False
        op = self.operand(i + 1)
        if (
            op is None
            or op.kind != "num"
            or op.unit not in ("", "kg", "lb")
            or op.end != close
            or op.low < 2_000
        ):
            return False
        self.scan.leftover.append((self.tok(i).start, self.tok(min(close, self.n - 1)).end))
        self.i = close + 1
        self.bracket_depth -= 1
        return True

    def _conversion(self, i: int) -> bool:
        """ "76 (167.6#)", "60 kg / 132 lb": the same weight once more in the other unit."""
        cur = self.cur
        if cur is None or cur.load is None or self.kinds[i - 1] not in ("(", "/", "="):
            return False
        op = self.operand(i)
        if op is None or op.kind != "num" or len(op.values) != 1 or op.unit not in ("kg", "lb"):
            return False
        for item in self.scan.items:
            load = item.load
            if load is None or load.kind not in ("kg", "lb", "bare"):
                continue
            kilos, pounds = (load.high, op.low) if op.unit == "lb" else (op.low, load.high)
            if (
                load.kind != op.unit
                and abs(pounds * 45359237 - kilos * 100_000_000) <= max(kilos, 1) * 1_500_000
            ):
                if load.kind == "bare":
                    other = "kg" if op.unit == "lb" else "lb"
                    for each in self.scan.items:
                        if each.load is not None and each.load.kind == "bare":
                            each.load.kind = other
                            each.load.concluded = True
                self.i = op.end
                return True
        return False

    def _aside(self, i: int, cur: Item | None) -> bool:
        """ "90% (80 kg)": the load once more in another sign, kept in words."""
        if cur is None or cur.load is None or cur.load.kind not in ("percent", "kg", "lb"):
            return False
        op = self.operand(i + 1)
        if op is None or op.kind != "num" or op.unit not in ("%", "kg", "lb") or self.kinds[op.end] != ")":
            return False
        if "percent" not in (self.weight(op).kind, cur.load.kind):
            if self._conversion(i + 1):
                return True
            self.doubt("numbers", i, op.end)
        elif self.weight(op).kind == cur.load.kind:
            self.doubt("numbers", i, op.end)
        self.scan.leftover.append((self.tok(i + 1).start, self.tok(op.end - 1).end))
        self.i = op.end + 1
        self.bracket_depth -= 1
        return True

    def _number_behind(self, i: int, cur: Item) -> bool:
        """ "70% (3)", "65 (3) 70 (3)": sets or reps in brackets behind a load."""
        if self.kinds[i + 1 : i + 3] != ["n", ")"] or not cur.bare_list or cur.load is None or self.sep:
            return False
        op = self.operand(i + 1)
        amount = self.amount(op) if op is not None and op.unit == "" else None
        if (
            amount is None
            or amount[1] is None
            or amount[1] > 12
            or cur.load.kind in ("heavy", "open", "effort")
        ):
            return False
        cur.solo, cur.unsure = amount, "brackets"
        self.i = i + 3
        self.bracket_depth -= 1
        return True

    def _half_each(self, i: int, close: int, cur: Item) -> bool:
        """ "3x12 (6 per leg)": the same reps once more, side by side; or "(each side)"."""
        op = self.operand(i + 1)
        if op is None or op.kind != "num" or op.unit not in ("", "reps") or op.low != op.high:
            return False
        j = op.end
        if self.words[j] in ("per", "each", "on", "a") or self.kinds[j] == "/":
            j += 1
        if self.words[j] not in w.SIDE or j + 1 < close:
            return False
        both = (2 * op.low // 100, 2 * op.low // 100, False)
        if (cur.pair is not None and both in cur.pair) or cur.reps == (both,):
            self.i = close + 1
            self.bracket_depth -= 1
            return True
        return False

    def _words_in_brackets(self, i: int, close: int) -> None:
        """ "(from blocks)", "(floor, hang)", "(push, split)", or a remark."""
        j = i + 1
        if len(self.scan.parts) == 1 and not self.scan.parts[0].movement and not self.scan.items:
            got = self.names.name(self.line, self.toks, j)
            if got is not None and got[0].movement and not got[0].odd and got[1] == close:
                # "Stöt (clean & jerk)": the name once more in words that are known
                self.scan.leftover.append((self.scan.parts[0].start, self.scan.parts[0].end))
                self.scan.parts[0] = got[0]
                self.i = close + 1
                self.bracket_depth -= 1
                return
        if self.scan.parts:
            nxt = self.names.behind(
                self.line, self.toks, j, PartDraft("", self.toks[j].start, self.toks[j].start)
            )
            if nxt >= close and not self._list_of_places(j, close):
                draft = self.scan.parts[-1]
                odd = len(draft.odd)
                before = (
                    draft.end,
                    draft.written,
                    list(draft.variant),
                    list(draft.pauses),
                    draft.movement,
                    draft.kind,
                    draft.core,
                )
                end = self.names.behind(self.line, self.toks, j, draft)
                if len(draft.odd) == odd and end >= close:
                    if close < self.n:
                        draft.end = self.toks[close].end
                        draft.written = self.line[draft.start : draft.end]
                    self.i = close + 1
                    self.bracket_depth -= 1
                    return
                del draft.odd[odd:]
                (
                    draft.end,
                    draft.written,
                    draft.variant,
                    draft.pauses,
                    draft.movement,
                    draft.kind,
                    draft.core,
                ) = before

    def _list_of_places(self, j: int, close: int) -> bool:
        return any(d.positions for d in self.scan.parts) or any(self.kinds[k] == "," for k in range(j, close))

    def _cluster_rest(self, i: int, close: int) -> bool:
        """ "1+1+1 (15 s)": short breaks inside a set."""
        got = self.time_at(i + 1)
        if got is None or (got[1] < close and self.words[got[1]] not in ("rest", "between")):
            return False
        span = got[0]
        cur = self.cur
        sums = self.scan.sum_reps if cur is None else cur.reps
        if span.low != span.high or sums is None or len(sums) < 2 or len(self.scan.parts) > 1:
            return False
        numbers = tuple(a[0] or 0 for a in sums)
        total = sum(numbers)
        item = self.item()
        item.reps = ((total, total, False),)
        item.cluster = numbers
        item.cluster_rest_s = span.low
        self.scan.sum_reps = None
        self.i = close + 1
        return True

    def _equals(self, i: int, close: int) -> bool:
        """ "(3= ground, below knee, above knee)": the number is one from each place."""
        places = self._places(i + 3, close)
        value = self.tok(i + 1).value
        if places is None or value != len(places) * 100 or len(self.scan.parts) != 1:
            return False
        self.scan.positions = places
        self.scan.parts[0].positions = len(places)
        self.scan.waves = self.scan.waves
        self.scan.each_of = False
        for item in self.scan.items:
            if item.pair is not None:
                first, second = item.pair
                if second[0] == len(places) or first[0] == len(places):
                    sets = first if second[0] == len(places) else second
                    item.pair = None
                    if sets[0] is not None and sets[1] is not None:
                        item.count = Span(sets[0], sets[1])
                    item.reps = ((1, 1, False),) * len(places)
            elif item.reps and len(item.reps) == 1 and item.reps[0][0] == len(places):
                item.reps = ((1, 1, False),) * len(places)
        self.i = close + 1
        return True

    def _places(self, j: int, close: int) -> list[tuple[str, str]] | None:
        """Places separated by commas up to a bracket: as written, and the words that make a name of each."""
        places: list[tuple[str, str]] = []
        while j < close:
            best = max(
                (p for p in w.POSITIONS if all(self.words[j + k] == word for k, word in enumerate(p))),
                key=len,
                default=None,
            )
            if best is None:
                return None
            places.append((" ".join(best), w.POSITIONS[best]))
            j += len(best)
            while j < close and (self.kinds[j] in (",", "+", "/", "-") or self.words[j] == "and"):
                j += 1
        return places or None

    def places_here(self) -> bool:
        """Take a list of places for "2 position snatch" at the current token."""
        wanted = next((d.positions for d in self.scan.parts if d.positions), 0)
        if not wanted or self.scan.positions:
            return False
        stop = self.i
        while stop < self.n and self.kinds[stop] in ("w", ",", "+", "/", "-"):
            stop += 1
        places = self._places(self.i, stop)
        if places is None or len(places) != wanted:
            return False
        self.scan.positions = places
        self.i = stop
        return True

    def modes_here(self) -> bool:
        """Take "push, split" for "push jerk + jerk" at the current token: one word for each part."""
        parts = self.scan.parts
        if len(parts) < 2:
            return False
        said: list[str] = []
        j = self.i
        while self.kinds[j] == "w" and self.words[j] in (
            "push",
            "split",
            "power",
            "squat",
            "hang",
            "full",
            "floor",
            "tall",
            "muscle",
        ):
            said.append(self.words[j])
            j += 1
            if self.kinds[j] in (",", "/", "+"):
                j += 1
        if len(said) != len(parts) or not (self.kinds[j] == ")" or j >= self.n):
            return False
        for word, draft in zip(said, parts, strict=True):
            if word in draft.written.lower().split() or word in ("full", "floor"):
                continue
            found = self.names.find(f"{word} {draft.core}")
            if found is not None:
                draft.movement, draft.kind = found.entry.id, found.kind
            else:
                draft.variant.append(word)
            draft.exact = False
        self.i = j
        return True
