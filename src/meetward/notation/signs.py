"""Brackets, the at sign, times signs without a left side, plus, slash and colon."""

import re

from meetward.cycle.tree import Span

from . import words as w
from .items import Item, Weight
from .loads import TOP
from .names import PartDraft
from .phrases import PhraseForms
from .quoted import ids_in, unquoted

_KEYS = {
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


class SignForms(PhraseForms):
    """Reads what begins with a sign."""

    def _bracket(self, i: int) -> None:
        self.bracket_depth += 1
        close = next((k for k in range(i + 1, min(self.n, i + 16)) if self.kinds[k] == ")"), self.n)
        inside = " ".join(str(self.toks[k].value) for k in range(i + 1, close) if self.toks[k].kind == "w")
        only_words = close > i + 1 and all(self.toks[k].kind in ("w", "-") for k in range(i + 1, close))
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
            self.i = close + 1
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
        if cur is not None and self._half_each(i, close, cur):
            return
        if self.apart_tempo(i + 1):
            return
        op = self.operand(i)
        if op is not None and op.brackets and self.take_chain(i):
            self.bracket_depth -= 1
            return
        self.i = i + 1
        if only_words:
            self._words_in_brackets(i, close)

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
        if cur.pair is not None and both in cur.pair or cur.reps == (both,):
            self.i = close + 1
            self.bracket_depth -= 1
            return True
        return False

    def _words_in_brackets(self, i: int, close: int) -> None:
        """ "(from blocks)", "(floor, hang)", "(push, split)", or a remark."""
        j = i + 1
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
        if got is None or got[1] < close and self.words[got[1]] not in ("rest", "between"):
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
        if op.kind == "num" and (op.is_load or op.unit == "") and len(got[0]) == 1:
            self.i = op.end
            self.put_load(self.weight(op))
            self._more_loads(op.unit)
            if self.cur is not None and self.cur.load is not None and self.cur.load.kind == "percent":
                self.of_base(self.cur.load)
            return
        mark = self.i
        if self.take_chain(mark):
            self._more_loads("")

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
            if cur is None and count is not None and len(self.scan.parts) > 1 and self.kinds[i - 1] in (")", "]"):
                self.put_scheme(count=count, reps=((1, 1, False),) * len(self.scan.parts))
                return
            if cur is None and first.unit == "" and amount is not None and self.scan.parts:
                item = self.put_scheme(solo=amount)
                item.unsure = "times"
                return
        self.doubt("numbers", i, end - 1)

    def _front_more(self, ops: list, links: list[str]) -> bool:  # type: ignore[type-arg]
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
        ):
            if not (self.kinds[op.end] == "n" or self.words[op.end] in (*w.TIMES_OF, "light")):
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

    def _square(self, i: int) -> None:
        """What holds for these sets only: "[rest 2:00; tempo 30X0]"."""
        close = next((k for k in range(i + 1, self.n) if self.kinds[k] == "]"), -1)
        if close < 0 or self.cur is None:
            self.i = i + 1
            return
        item = self.cur
        j = i + 1
        ok = True
        while j < close and ok:
            word, nxt = self.words[j], j + 1
            if self.kinds[j] in (",", ";"):
                j += 1
                continue
            if word == "rest":
                got = self.time_at(nxt)
                ok = got is not None
                if got:
                    item.rest_s, nxt = got
            elif word in ("every", "within", "break"):
                got = self.time_at(nxt)
                ok = got is not None
                if got:
                    nxt = got[1]
                    if word == "every":
                        item.every_s = got[0].low
                    elif word == "within":
                        item.within_s = got[0].low
                    else:
                        item.cluster_rest_s = got[0].low
            elif word == "held":
                got = self.time_at(nxt)
                ok = got is not None
                if got:
                    item.hold_s, nxt = got
            elif word == "tempo":
                found = re.compile(r"[0-9X]{4}(?![\w])").match(self.line, self.tok(nxt).start)
                ok = found is not None
                if found:
                    item.tempo = found.group()
                    while nxt < close and self.toks[nxt].start < found.end():
                        nxt += 1
            elif word == "wave":
                value = self.tok(nxt).value
                ok = self.kinds[nxt] == "n" and isinstance(value, int) and value % 100 == 0
                if ok and isinstance(value, int):
                    item.wave = value // 100
                nxt += 1
            elif word == "walked":
                op = self.operand(nxt)
                metres = self.metres(op) if op is not None else None
                ok = metres is not None
                if op is not None and metres is not None:
                    item.distance_m, nxt = metres, op.end
            elif word == "cluster":
                numbers = self.tok(nxt).value
                ok = self.kinds[nxt] == "c" and isinstance(numbers, tuple)
                if isinstance(numbers, tuple):
                    item.cluster = numbers
                nxt += 1
            elif word in ("climbing", "drop", "missed"):
                setattr(item, word, True)
            elif word == "flat":
                item.climbing = False
            elif word == "per" and self.words[nxt] == "side":
                item.per_side = True
                nxt += 1
            elif word == "note" and self.kinds[nxt] == "q":
                item.note = unquoted(str(self.tok(nxt).value))
                nxt += 1
            else:
                ok = False
            j = nxt
        if not ok:
            self.doubt("numbers", i, close)
        self.i = close + 1

    def _braces(self, i: int) -> None:
        """ "{snatch; variant "from blocks"}" behind a name: exactly this movement."""
        self.i = i + 1
        got = ids_in(str(self.tok(i).value))
        if got is None or not self.scan.parts and self.kinds[i - 1] != "q":
            self.skip(i)
            return
        draft = self.scan.parts[-1]
        draft.exact = True
        draft.movement, draft.variant, draft.pauses, draft.version = got
        draft.odd = []
        draft.positions = 0

    def _quoted(self, i: int) -> None:
        """ "Quoted words": the name of a part, exactly as written; behind "load" an open load in words."""
        text = unquoted(str(self.tok(i).value))
        self.i = i + 1
        if self.words[i - 1] == "load":
            self.skipped = [k for k in self.skipped if k != i - 1]
            self.put_load(Weight("open", word=text))
            return
        if self.kinds[i + 1] == "b" or not self.scan.parts and not self.scan.items:
            self.scan.parts.append(PartDraft(text, self.tok(i).start, self.tok(i).end))
            self.scan.parts[-1].exact = True
            return
        self.skip(i)
