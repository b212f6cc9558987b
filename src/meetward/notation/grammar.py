"""One line of text to what it says, independent of what the rest of the text declares."""

import re

from . import words as w
from .conventions import KG, LB, PERCENT
from .figures import FigureForms
from .items import ONE, Scan, Weight
from .names import NameReader
from .pieces import cuts, label
from .rows import as_line
from .tokens import LONGEST_LINE, Token, fold, tokens

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
_STICKS = frozenset(("stick", "pvc", "dowel"))
_CLAUSE_ENDS = frozenset((",", ";", "(", ")", ":", ".", "[", "]", "|"))
_HANGING = re.compile(
    r"(?:after|between|before|during|following|end|finish)\s+(?:each|every|all|the|your)\b", re.IGNORECASE
)


class Scanner(FigureForms):
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
        if self.with_stick:
            for item in self.scan.items:
                item.load = item.load or Weight("stick")
        for item in self.scan.items if self.unit_hint else ():
            if item.load is not None and item.load.kind == "bare":
                item.load.kind = self.unit_hint
        self._leave()

    def _weights_in_front(self) -> None:
        """ "20x10, 40x8, 60x5": among weights in front of reps, a small number in front is a weight as
        well."""
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
        if kind in ("w", "n") and (not self.scan.parts or self.kinds[i - 1] == "+") and self._whole_name(i):
            return
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
            if not (self.tempo(i) or self._no_reps(i) if kind == "T" else self.every(i)):
                self.doubt("numbers", i, i)
                self.i = i + 1
        elif kind == "R":
            if not self.rest(i):
                self.skip(i)
                self.i = i + 1
        elif kind == "S":
            self._side(i + 1)
        elif kind == "-" and self.kinds[i + 1] == ">" and self._sets_behind_arrow(i + 2):
            self.sep = "then"
            self.i = i + 2
        elif kind == "-":
            if not self.drop(i) and not self._minus(i):
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
        elif kind == "%" and self.kinds[i - 1] == ")" and self.bare_are_percent():
            self.i = i + 1
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
            if self.line[tok.start] in "≤≥±≠" or (
                0 < i < self.n - 1 and self.kinds[i - 1] == "n" == self.kinds[i + 1]
            ):
                self.doubt("decayed", i, i)
            self.i = i + 1
        else:
            self.skip(i)
            self.i = i + 1

    def _sets_behind_arrow(self, i: int) -> bool:
        """Whether an arrow leads to a load with sets of its own: "70% 3x2 -> 75% 2x2"."""
        op = self.operand(i)
        return op is not None and op.is_load and self.kinds[op.end] in ("n", "x", "/")

    def _whole_name(self, i: int) -> bool:
        """Take a name that holds words or numbers of the grammar where a lift is due."""
        got = self.names.whole(self.line, self.toks, i)
        if got is None or not self._name(i):
            return False
        self.with_stick = not _STICKS.isdisjoint(got[0].written.lower().split())
        return True

    def _minus(self, i: int) -> bool:
        """Take "75 kg, 78 kg, -80 kg": as result sheets mark a lift that was not good."""
        last = self.cur
        if last is None or not last.bare_list or last.load is None or not self.glued(i + 1):
            return False
        op = self.operand(i + 1)
        tight = self.glued(i) and self.kinds[i - 1] not in (",", "/", ";")
        if op is None or op.kind != "num" or len(op.values) != 1 or tight or self.kinds[op.end] == "x":
            return False
        weight = self.weight(op)
        near = last.load.high * 7 <= weight.high * 10 <= last.load.high * 13
        if not near or weight.kind not in ("kg", "lb", "bare") or last.load.kind not in ("kg", "lb", "bare"):
            return False
        item = self.new_item()
        item.load, item.missed = weight, True
        self.i = op.end
        return True

    def _no_reps(self, i: int) -> bool:
        """Take "62x0" among weights with their reps: a miss."""
        if not self._weight_without_reps(i):
            return False
        last, weight = self.cur, int(self.line[self.tok(i).start : self.tok(i).start + 2]) * 100
        kind = last.load.kind if last is not None and last.load is not None else "bare"
        item = self.new_item()
        item.load = Weight(kind, weight, weight, start=self.tok(i).start)
        item.count, item.reps, item.missed = ONE, ((1, 1, False),), True
        self.i = i + 1
        return True

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

    def _leave(self) -> None:
        """Sort what was skipped: words that mean nothing beside sets, words that are kept, words that raise
        doubts."""
        scan = self.scan
        doubted = [(d.start, d.end) for d in scan.doubts]
        kept: list[int] = []
        for k in sorted(set(self.skipped)):
            tok = self.toks[k]
            figures = tok.kind in ("b", "q") and any(c.isdigit() for c in self.line[tok.start : tok.end])
            numeric = tok.kind in ("n", "t", "c") or figures
            if numeric and not any(s <= tok.start < e for s, e in doubted):
                self.doubt("unread number", k, k)
            kept.append(k)
        left = set(kept)
        numbers = [k for k in range(self.n) if self.toks[k].kind in ("n", "t", "c") and k not in left]
        clauses = self._clauses() if kept and numbers else [0] * self.n
        spans: dict[int, tuple[int, int]] = {}
        for m in numbers:
            spans[clauses[m]] = (spans.get(clauses[m], (m, m))[0], m)
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
            first, last = spans.get(clauses[k], (k, k))
            if first < k < last:
                self.doubt("words between", k, k)
            elif k < first and scan.parts and any(c < clauses[k] for c in spans) and self._sets_at(k + 1):
                # "Snatch pull 4x3 95%, CP 4x3 95%": a word before the next sets may be the next lift.
                self.doubt("second movement", k, k)
        runs: list[list[int]] = []
        for k in kept:
            if runs and all(
                self.toks[m].kind not in ("n", "t", "x")
                and (m in left or self.toks[m].kind in ("-", "'", ".", "&", "/"))
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

    def _sets_at(self, i: int) -> bool:
        """Whether numbers of sets begin at token ``i``, not a time or a remark."""
        if self.kinds[i] != "n":
            return False
        unit, end = self.unit(i + 1)
        return unit in ("sets", "reps", "%", "kg", "lb") or (
            not unit and self.kinds[end] in ("x", "@", "/", "")
        )

    def _clauses(self) -> list[int]:
        """The number of the clause that each token stands in."""
        clause, out = 0, []
        for tok in self.toks:
            if tok.kind in _CLAUSE_ENDS:
                clause += 1
            out.append(clause)
        return out


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
        if letter and names.whole(line, [t for t in tokens(line) if t.start >= at], 0) is None:
            at = letter.end()  # "F. squat" is a name, "F. Squat on the box" a list
    if _HANGING.match(line, at):
        scan.only_note = "hangs on another line"
        return scan
    toks = [t for t in tokens(line) if t.start >= at] if at else tokens(line)
    if len(toks) > MOST_TOKENS:
        scan.only_note = "too long"
        return scan
    _read_tokens(scan, line, toks, names)
    if scan.doubts or (scan.parts and not scan.parts[0].movement):
        return _second_look(scan, line, toks, names) or scan
    return scan


def _read_tokens(scan: Scan, line: str, toks: list[Token], names: NameReader) -> None:
    Scanner(line, toks, scan, names).run()
    for item in scan.items:
        load = item.load
        if load is not None and not load.concluded:
            scan.signs |= {"percent": PERCENT, "kg": KG, "lb": LB}.get(load.kind, 0)


def _second_look(scan: Scan, line: str, toks: list[Token], names: NameReader) -> Scan | None:
    """A line that raises doubts read without the label in front, or as several lifts; None where that
    leaves doubts as well."""
    row = as_line(scan.text, line, toks, names)
    if row is not None:
        table = Scan(scan.text)
        table.turn = scan.turn
        _read_tokens(table, line, row, names)
        return None if table.doubts else table
    begin = label(line, toks, names)
    if begin:
        fresh = _alone(scan, line, toks, begin, len(toks), names)
        if fresh is None:
            fresh = _several(scan, line, toks[begin:], names)
        if fresh is not None and (fresh.items or any(part.reps_low for part in fresh.parts)):
            fresh.leftover.insert(0, (toks[0].start, toks[begin - 1].start))
            return fresh
    return _several(scan, line, toks, names)


def _several(scan: Scan, line: str, toks: list[Token], names: NameReader) -> Scan | None:
    """The line as several lifts, each with sets of its own."""
    found = cuts(line, toks, names)
    if not found:
        return None
    begins = [0, *(begin for _, begin in found)]
    ends = [*(end for end, _ in found), len(toks)]
    pieces: list[Scan] = []
    for begin, end in zip(begins, ends, strict=True):
        piece = _alone(scan, line, toks, begin, end, names)
        if piece is None or not piece.items or any(part.reps_low for part in piece.parts):
            return None  # "3 sets of 10 push-ups and 10 sit-ups" is one round of two
        pieces.append(piece)
    loaded = [any(i.load is not None for i in piece.items) for piece in pieces]
    if loaded != sorted(loaded, reverse=True) or any(map(_of_all, pieces)):
        return None  # the load of the last, or the clock, may be meant for all of them
    if any(tok.value in _TOGETHER for tok in toks):
        return None
    first = pieces[0]
    first.more = tuple(pieces[1:])
    first.whole = scan
    for piece in first.more:
        first.signs |= piece.signs
    return first


_TOGETHER = frozenset(
    ("round", "rounds", "circuit", "each", "both", "all", "alternate", "alternating", "total")
)


def _of_all(piece: Scan) -> bool:
    said = piece.all
    return bool(piece.waves or said.every_s or said.within_s or said.count)


def _alone(scan: Scan, line: str, toks: list[Token], begin: int, end: int, names: NameReader) -> Scan | None:
    """A piece of a line read on its own; None where it is no lift with sets, or raises doubts."""
    if begin >= end:
        return None
    stop = toks[end - 1].end
    piece = Scan(" " * toks[begin].start + scan.text[toks[begin].start : stop])
    piece.turn = scan.turn
    _read_tokens(piece, line[:stop], toks[begin:end], names)
    sure = piece.parts and all(part.movement or part.exact for part in piece.parts)
    return piece if sure and not piece.doubts else None


MOST_TOKENS = 300
