"""One line of text to what it says, independent of what the rest of the text declares."""

import re

from meetward.cycle.tree import Pause, Span

from . import words as w
from .items import ONE, Item, Scan, Weight
from .names import NameReader, place_at, seconds_at
from .conventions import KG, LB, PERCENT
from .signs import SignForms
from .tokens import LONGEST_LINE, fold, tokens

_MARK = re.compile(
    r"""\s*(?:
        (?:[•▪◦‣●○■□☐✓✔➢➤►·>*]+|[-+–](?=\s))\s*
      | \[[ xX✓]?\]\s+
      | \(?\d{1,2}\)\s*(?=[^\s\d+x×/-])
      | \d{1,2}\.\s+(?=\S)
      | \d{1,2}\.(?=[A-Za-z])
      | \d{1,2}\s?[-:]\s+(?=[A-Za-z]{3})(?!pos)
    )""",
    re.VERBOSE,
)
_TURN = re.compile(
    r"\s*(?:\(?([A-H])([1-9])\s*(?:[.):]|-(?=\s)|\s(?=\s*[A-Za-z(\d]))|([A-H])\s*:(?=\s))\s*", re.IGNORECASE
)
_LETTER = re.compile(r"\s*(?:[A-Ha-h][.)]|\([A-Ha-h]\))\s+(?=\S)")
_HANGING = re.compile(
    r"(?:after|between|before|during|following|end|finish)\s+(?:each|every|all|the|your)\b", re.IGNORECASE
)


_COMPARED = frozenset(
    """heavier lighter more less over under increase increases jump jumps increment increments opener openers goal
    target""".split()
)


class Scanner(SignForms):
    """Reads the tokens of one line."""

    def run(self) -> None:
        """Read to the end of the line."""
        while self.i < self.n:
            before = self.i
            self.step()
            if self.i <= before:
                self.skip(before)
                self.i = before + 1
        self._weights_in_front()
        for item in self.scan.items if self.unit_hint else ():
            if item.load is not None and item.load.kind == "bare":
                item.load.kind = self.unit_hint
        self._leave()

    def _weights_in_front(self) -> None:
        """ "20x10, 40x8, 60x5": among weights in front of reps, a small number in front is a weight as well."""
        items = self.scan.items
        if not any(i.load is not None and i.load.kind == "bare" and i.load.start <= i.start for i in items):
            return
        for item in items:
            if item.pair is None or item.load is not None or item.after_load:
                continue
            (low, high, more), reps = item.pair
            if low is not None and low == high and not more and low >= 15 and (reps[1] or 99) <= 20:
                item.load = Weight("bare", low * 100, low * 100, start=item.start)
                item.pair, item.count, item.reps = None, ONE, (reps,)

    def step(self) -> None:
        """Read what stands at the current token."""
        i = self.i
        tok = self.toks[i]
        kind = tok.kind
        if kind == "w":
            self._word(i)
        elif kind in ("n", "t", "c"):
            self._number(i)
        elif kind == "(":
            self._bracket(i)
        elif kind in (",", ";", "|"):
            self.sep = self.sep if self.sep in (";", "then") else ("," if kind == "," else ";")
            self.i = i + 1
        elif kind == "@":
            self._at(i)
        elif kind == "x":
            self._times(i)
        elif kind == "X":
            if self.cur is not None and self.glued(i) and self.cur.load is not None:
                self._misses()
            else:
                self.skip(i)
                self.i = i + 1
        elif kind in ("T", "E"):
            if not (self.tempo(i) if kind == "T" else self.every(i)):
                self.doubt("numbers", i, i)
                self.i = i + 1
        elif kind == "R":
            if not self.rest(i):
                self.skip(i)
                self.i = i + 1
        elif kind == "S":
            self._side(i + 1)
        elif kind == "-":
            if not self.drop(i):
                tight = self.kinds[i + 1] == "n" and self.glued(i + 1) and not self.glued(i)
                listed = self.kinds[i + 2] in (",", "/", "", ")") or self.kinds[i - 1] in (",", "/")
                if tight and i > 0 and self.kinds[i - 1] != ")" and (self.cur is not None or listed):
                    self.doubt("negative", i, i + 1)
                self.i = i + 1
        elif kind == "+":
            self._plus(i)
        elif kind == "/":
            self._slash(i)
        elif kind == ":":
            self._colon(i)
        elif kind == "[":
            self._square(i)
        elif kind == "b":
            self._braces(i)
        elif kind == "q":
            self._quoted(i)
        elif kind in (")", "]", ".", "&", "*", "=", "!", "'", '"', "~"):
            if kind == ")":
                self.bracket_depth -= 1
            elif kind == "." and self.scan.items and not self.glued(i + 1):
                self.sep = self.sep or ","
            self.i = i + 1
        elif (
            kind in ("<", ">")
            and self.kinds[i + 1] in ("n", "=")
            and not (self.glued(i) and self.kinds[i - 1] not in ("@", "<", ">", "-"))
        ):
            self.doubt("either", i, i + 1)
            self.i = i + 1
        elif kind in ("<", ">"):
            self.i = i + 1
        elif kind == "?":
            if (
                self.line[tok.start] in "≤≥±≠"
                or 0 < i < self.n - 1
                and self.kinds[i - 1] == "n" == self.kinds[i + 1]
            ):
                self.doubt("decayed", i, i)
            self.i = i + 1
        else:
            self.skip(i)
            self.i = i + 1

    def _word(self, i: int) -> None:
        if self.places_here() or self.modes_here():
            return
        if self._keyword(i):
            return
        if self.words[i] in w.NUMBERS and self._number_word(i):
            return
        if self._name(i):
            return
        if self.kinds[i - 1] == "+" and self.scan.parts:
            self.doubt("second movement", i, i)
        if self.words[i] in w.DOUBT:
            self.doubt("either", i, i)
        self.skip(i)
        self.i = i + 1

    def _number_word(self, i: int) -> bool:
        op = self.operand(i)
        if op is None or (
            op.unit == "" and self.words[op.end] not in ("by", "x") and self.kinds[op.end] != "x"
        ):
            return False
        return self.take_chain(i)

    def _number(self, i: int) -> None:
        if self._positions(i) or self._minutes(i):
            return
        if (
            self.tok(i).value == 100
            and self.words[i + 1] == "set"
            and (self.words[i + 2] == "every" or self.kinds[i + 2] == "E")
        ):
            if self.every(i + 2):
                return
        if self.time_at(i) is not None:
            got = self.names.pause(self.line, self.toks, i)
            if got is not None:
                self.scan.pauses.append(got[0])
                self.i = got[1]
                return
            if self._time_to(i) or self._pause_length(i) or self._slow(i) or self.rest_behind(i):
                return
            if self.every_behind(i) or self._clock(i) or self._held(i):
                return
        if self.apart_tempo(i) or self.effort(i) or self._conversion(i) or self._waves_before(i):
            return
        ladder = self.comma_ladder(i)
        if ladder is not None and self.cur is not None and self._counts(self.cur, len(ladder.values)):
            # "3 sets: 8, 7, 6"
            self.scan.items.pop()
            self.cur = None
        if ladder is not None and not (
            self.cur is not None and self.cur.scheme and self.cur.load is None and not self.sep
        ):
            self.i = ladder.end
            self._ladder(ladder, None)
            return
        if self._height(i):
            return
        op = self.operand(i)
        if (
            op is not None
            and op.kind == "num"
            and op.unit == ""
            and not op.brackets
            and self.kinds[op.end] == "w"
        ):
            amount = self.amount(op)
            j = op.end
            while self.words[j] in ("light", "a", "of"):
                j += 1
            if amount is not None and self.words[j] not in ("x", "each", "per") and self.kinds[i - 1] != "@":
                name = self.names.name(self.line, self.toks, j)
                if (
                    name is not None
                    and (name[0].movement or j == op.end)
                    and (not self.scan.parts or self._joined(j))
                    and self._name(j, amount)
                ):
                    return
        if self.take_chain(i):
            self._behind_chain()
            return
        self.doubt("unread number", i, i)
        self.skip(i)
        self.i = i + 1

    def _behind_chain(self) -> None:
        """What may stand right behind a load: its base; a miss."""
        cur = self.cur
        if cur is None:
            return
        if (
            self.kinds[self.i] == "x"
            and cur.load is not None
            and self.glued(self.i)
            and not self.glued(self.i + 1)
            and cur.bare_list
        ):
            nxt = self.tok(self.i + 1)
            if nxt.kind != "n" or (isinstance(nxt.value, int) and nxt.value >= 2_000):
                self._misses()
                return
        if self.kinds[self.i] == "X" and cur.load is not None:
            self._misses()
            return
        if (
            cur.load is not None
            and cur.load.kind == "percent"
            and cur.load.of[0] == "default"
            and not cur.load.of[1]
        ):
            self.of_base(cur.load)
        if self.words[self.i] in _COMPARED:
            self.doubt("either", self.i, self.i)

    def _minutes(self, i: int) -> bool:
        """ "1-3min: 50kg": minutes of an interval."""
        if i != 0 and self.kinds[i - 1] not in (",", ";"):
            return False
        values = [self.tok(i).value]
        j = i + 1
        if self.kinds[j] == "-" and self.kinds[j + 1] == "n":
            values.append(self.tok(j + 1).value)
            j += 2
        if self.words[j] not in w.MINUTES or self.kinds[j + 1] != ":" or self.operand(j + 2) is None:
            return False
        low, high = values[0], values[-1]
        if (
            not isinstance(low, int)
            or not isinstance(high, int)
            or low % 100
            or high % 100
            or not 0 < low <= high <= 9_000
        ):
            return False
        op = self.operand(j + 2)
        if op is None or not op.is_load or op.kind != "num":
            return False
        self.i = op.end
        item = self.put_scheme(count=_count(high // 100 - low // 100 + 1), fill=False)
        item.load = self.weight(op)
        item.every_s = 60
        item.unsure = "minutes"
        return True

    def _clock(self, i: int) -> bool:
        """ "At 0:00, ...": a time on the clock."""
        if self.kinds[i] == "t" and i == 0 and int(str(self.tok(i).value)) >= 300 and self.kinds[1] == "w":
            if self.words[1] not in ("hold", "holds", "rest", "emom", "amrap", "of", "cap"):
                self.scan.leftover.append((self.tok(i).start, self.tok(i).end))
                self.i = i + 1
                return True
        if self.kinds[i] == "t" and self.words[i - 1] == "at" and i <= 1:
            self.i = i + 1
            self.skipped = [k for k in self.skipped if k != i - 1]
            return True
        return False

    def _held(self, i: int) -> bool:
        """ "30 s hold", "hold" behind a time."""
        got = self.time_at(i)
        if got is None or self.words[got[1]] not in ("hold", "holds"):
            return False
        span, end = got
        self.i = end + 1
        if self.cur is not None and (self.cur.reps or self.cur.pair) and self.scan.parts:
            self.scan.pauses.append(Pause(span.high, "hold"))
        else:
            self.put_scheme(hold=span)
        return True

    def _time_to(self, i: int) -> bool:
        """ "20 min to find a heavy single", "15 min: work up to ...": a limit for all of it."""
        got = self.time_at(i)
        if got is None or got[0].low != got[0].high:
            return False
        j = got[1]
        while self.kinds[j] in (":", ",", "-") or self.words[j] in ("to", "and"):
            j += 1
        if j == got[1] or self.words[j] not in (
            "find",
            "build",
            "work",
            "establish",
            "reach",
            "hit",
            "ramp",
            "climb",
            "get",
        ):
            return False
        self.scan.all.within_s = got[0].high
        self.i = j
        return True

    @staticmethod
    def _counts(item: Item, number: int) -> bool:
        """Whether nothing was said yet but this very number of sets."""
        return (
            item.count == Span(number, number)
            and item.reps is None
            and item.pair is None
            and item.load is None
        )

    def _pause_length(self, i: int) -> bool:
        """ "Paused front squat (3 sec)", "2 seconds in the hole": how long a pause is."""
        got = seconds_at(self.toks, i)
        if got is None or not self.scan.parts:
            return False
        seconds, end = got
        place, after = place_at(self.line, self.toks, end)
        said = "paus" in self.scan.parts[-1].written.lower()
        if self.kinds[i - 1] == "(" and said and (place or self.kinds[end] == ")"):
            self.scan.pauses.append(Pause(seconds, place))
        elif place and (self.cur is None or self.cur.scheme):
            self.scan.pauses.append(Pause(seconds, place))
        else:
            return False
        self.i = after if place else end
        return True

    def _slow(self, i: int) -> bool:
        """ "3 s eccentric", "5 sec lowering": kept in words; it changes no set and no load."""
        got = self.time_at(i)
        if got is None or self.words[got[1]] not in (
            "eccentric",
            "eccentrics",
            "negative",
            "negatives",
            "lowering",
            "descent",
            "down",
            "up",
            "concentric",
        ):
            return False
        self.scan.leftover.append((self.tok(i).start, self.tok(got[1]).end))
        self.i = got[1] + 1
        return True

    def _height(self, i: int) -> bool:
        """ "60 cm", "24 inch": the height of a box; kept in words."""
        if self.words[i + 1] not in ("cm", "inch", "inches", "ft", "feet") or self.kinds[i] != "n":
            return False
        self.scan.leftover.append((self.tok(i).start, self.tok(i + 1).end))
        self.i = i + 2
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

    def _waves_before(self, i: int) -> bool:
        """ "2 waves of 3-2-1", "3 waves: 70x3, ..."."""
        value = self.tok(i).value
        if (
            self.words[i + 1] not in ("wave", "waves")
            or not isinstance(value, int)
            or value % 100
            or not 100 <= value <= 2_000
        ):
            return False
        self.scan.waves = value // 100
        self.i = i + 2
        if self.words[self.i] == "of" or self.kinds[self.i] == ":":
            self.i += 1
        return True

    def _leave(self) -> None:
        """Sort what was skipped: words that mean nothing beside sets, words that are kept, words that raise doubts."""
        scan = self.scan
        doubted = [(d.start, d.end) for d in scan.doubts]
        kept: list[int] = []
        for k in sorted(set(self.skipped)):
            tok = self.toks[k]
            if tok.kind in ("n", "t", "c") and not any(s <= tok.start < e for s, e in doubted):
                self.doubt("unread number", k, k)
            kept.append(k)
        numbers = [k for k in range(self.n) if self.toks[k].kind in ("n", "t", "c") and k not in kept]
        for k in kept:
            word = self.words[k]
            if (word in w.NUMBERS and word != "one") or (word and self.glued(k) and self.kinds[k - 1] == "n"):
                self.doubt("unread number", k, k)
                continue
            if word in w.KG or word in w.LB or word in ("percent", "pct"):
                self.doubt("words between", k, k)
                continue
            if not word or word in w.FILLER or word in w.MANNER or word in w.SOFT:
                continue
            clause = self._clause(k)
            if any(clause[0] <= m < k for m in numbers) and any(k < m <= clause[1] for m in numbers):
                self.doubt("words between", k, k)
        runs: list[list[int]] = []
        for k in kept:
            if runs and all(
                self.toks[m].kind not in ("n", "t", "x")
                and (m in kept or self.toks[m].kind in ("-", "'", ".", "&", "/"))
                for m in range(runs[-1][1] + 1, k)
            ):
                runs[-1][1] = k
            else:
                runs.append([k, k])
        for first, last in runs:
            words = [self.words[m] for m in range(first, last + 1)]
            if all(v in w.FILLER or not v for v in words) and not any(
                self.toks[m].kind in ("n", "t", "c") for m in range(first, last + 1)
            ):
                continue
            scan.leftover.append((self.toks[first].start, self.toks[last].end))
        scan.leftover.sort()

    def _clause(self, k: int) -> tuple[int, int]:
        first = last = k
        stops = (",", ";", "(", ")", ":", ".", "[", "]", "|")
        while first > 0 and self.toks[first - 1].kind not in stops:
            first -= 1
        while last < self.n - 1 and self.toks[last + 1].kind not in stops:
            last += 1
        return first, last


def _count(number: int) -> Span:
    return Span(number, number)


def scan_line(text: str, names: NameReader) -> Scan:
    """What one source line says. Never raises, whatever the text."""
    scan = Scan(text)
    if len(text) > LONGEST_LINE:
        scan.only_note = "too long"
        return scan
    line = fold(text)
    at = 0
    while True:
        mark = _MARK.match(line, at)
        if mark and mark.end() > at and (mark.group().strip() or at == 0):
            at = mark.end()
            continue
        break
    turn = _TURN.match(line, at)
    if turn:
        scan.turn = (turn[1] or turn[3]).upper()
        at = turn.end()
    else:
        letter = _LETTER.match(line, at)
        if letter:
            at = letter.end()
    if _HANGING.match(line, at):
        scan.only_note = "hangs on another line"
        return scan
    toks = [t for t in tokens(line) if t.start >= at] if at else tokens(line)
    if len(toks) > MOST_TOKENS:
        scan.only_note = "too long"
        return scan
    scanner = Scanner(line, toks, scan, names)
    scanner.run()
    scan.text = text
    for item in scan.items:
        load = item.load
        if load is not None and not load.concluded:
            scan.signs |= {"percent": PERCENT, "kg": KG, "lb": LB}.get(load.kind, 0)
    return scan


MOST_TOKENS = 600
