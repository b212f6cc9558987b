"""Where the reader stands in a line, and the item it is filling."""

from meetward.cycle.tree import Span

from . import words as w
from .items import ONE, Amount, Doubt, Item, Scan, Weight
from .names import NameReader
from .tokens import Token

END = Token("", "", -1, -1)
NOT_SAID: Amount = (None, None, False)
AS_MANY: Amount = (None, None, True)


class Cursor:
    """The tokens of one line, read from left to right.

    kinds, words : of every token, empty behind the end; ``words`` is empty for all that is no word.
    """

    def __init__(self, line: str, toks: list[Token], scan: Scan, names: NameReader) -> None:
        self.line, self.toks, self.scan, self.names = line, toks, scan, names
        self.n = len(toks)
        # Padded, so that a look behind the end (and at -1) finds nothing.
        pad = [""] * 24
        self.kinds = [t.kind for t in toks] + pad
        self.words = [str(t.value) if t.kind == "w" else "" for t in toks] + pad
        self.i = 0
        self.cur: Item | None = None
        self.sep = ""
        self.chain_number = 0
        self.climb = False
        self.skipped: list[int] = []
        self.bracket_depth = 0
        self.items_before = 0
        self.side_seen = False
        self.unit_hint = ""
        self.with_stick = False

    def tok(self, i: int) -> Token:
        """The token at ``i``, or an empty one."""
        return self.toks[i] if 0 <= i < self.n else END

    def glued(self, i: int) -> bool:
        """Whether no blank stands before token ``i``."""
        return 0 < i < self.n and self.toks[i - 1].end == self.toks[i].start

    def doubt(self, kind: str, first: int, last: int) -> None:
        """Something from token ``first`` to ``last`` may change the meaning and was not understood."""
        last = min(max(first, last), self.n - 1)
        self.scan.doubts.append(Doubt(kind, self.toks[first].start, self.toks[last].end))

    def skip(self, i: int) -> None:
        """Leave token ``i`` for the notes."""
        self.skipped.append(i)

    def new_item(self) -> Item:
        """Begin the next sets."""
        self.cur = Item(self.tok(min(self.i, self.n - 1)).start, self.chain_number)
        self.cur.apart = self.sep in (";", "then", "+")
        self.scan.items.append(self.cur)
        self.sep = ""
        return self.cur

    def item(self) -> Item:
        """The sets being read, begun if need be."""
        return self.cur if self.cur is not None else self.new_item()

    def put_load(self, weight: Weight) -> Item:
        """Give a load to the sets being read, or begin the next ones where they have one."""
        cur = self.cur
        if cur is None or (cur.load is not None and not self._overrides(cur, weight)):
            cur = self.new_item()
        elif self.sep and cur.scheme and weight.kind in ("bar", "stick") and self.next_scheme():
            cur = self.new_item()  # "2x10, empty bar 2x5"
        cur.load = weight
        if self.climb:
            cur.climbing = True
            weight.low = None
            self.climb = False
        chain = cur.chain
        if chain:
            for other in self.scan.items:
                if other.chain == chain and other.load is None:
                    other.load = weight
                    other.climbing = cur.climbing
        self.sep = ""
        return cur

    def _overrides(self, cur: Item, weight: Weight) -> bool:
        """ "Heavy single at RPE 8", "heavy single (95 %)": the figure says how heavy."""
        if cur.load is None or self.sep in (";", "then", "+"):
            return False
        if cur.load.kind == "open" and weight.kind != "open":
            return True
        if cur.load.kind != "heavy" or self.sep or cur.load.word != "heavy" or self.next_scheme():
            return False
        cur.solo = None
        return weight.kind in ("effort", "percent", "kg", "lb", "bare")

    def next_scheme(self) -> bool:
        """Whether sets of their own follow the load that was just read ("heavy single 80% x 2")."""
        j = self.i
        return self.kinds[j] in ("x", "n", "/", "(")

    def put_scheme(
        self,
        *,
        count: Span | None = None,
        reps: tuple[Amount, ...] | None = None,
        pair: tuple[Amount, Amount] | None = None,
        solo: Amount | None = None,
        hold: Span | None = None,
        distance: Span | None = None,
        fill: bool = True,
    ) -> Item:
        """Give sets and reps to the sets being read, or begin the next ones where they have some."""
        cur = self.cur
        if (
            pair is not None
            and cur is not None
            and cur.reps
            and cur.count is None
            and cur.load is None
            and len(cur.reps) == 1
        ):
            # "doubles 3x2": the word says which of the two is the reps.
            said = cur.reps[0]
            other = pair[0] if pair[1] == said else pair[1] if pair[0] == said else None
            if other is not None and other[0] is not None and other[1] is not None and not other[2]:
                cur.count = Span(other[0], other[1])
                return cur
        if cur is not None and fill and self._fits(cur, count, reps, pair, solo, hold, distance):
            self.sep = ""
        else:
            cur = self.new_item()
        if count is not None:
            cur.count = count
        if reps is not None:
            cur.reps = reps
        if pair is not None:
            cur.pair = pair
        if solo is not None:
            cur.solo = solo
        if hold is not None:
            cur.hold_s = hold
        if distance is not None:
            cur.distance_m = distance
        return cur

    def _fits(
        self,
        cur: Item,
        count: Span | None,
        reps: object,
        pair: object,
        solo: object,
        hold: object,
        distance: object,
    ) -> bool:
        if cur.pair is not None or cur.solo is not None:
            return False
        if count is not None and cur.count is not None and cur.count is not ONE:
            return False
        if (
            reps is not None
            and cur.reps is not None
            and not (cur.reps == reps and count is not None and cur.load is None)
        ):
            return False
        if (pair is not None or solo is not None) and cur.scheme:
            return False
        if (hold is not None and cur.hold_s is not None) or (
            distance is not None and cur.distance_m is not None
        ):
            return False
        if cur.load is not None and cur.load.kind == "heavy":
            return False
        if self.sep == "," and cur.climbing and cur.load is not None and not cur.scheme:
            # "work up to 90%, 3 singles": at the top, or on the way?
            self.doubt("numbers", max(0, self.i - 1), self.i - 1)
        if self.sep in (";", "then", "+"):
            return not cur.scheme and cur.load is None
        if self.sep and cur.load is not None and not cur.scheme and (pair or (count and reps)):
            # "70%, 3x3 @ 80%": the sets belong to the load behind them.
            return not self.load_follows()
        return True

    def load_follows(self) -> bool:
        """Whether a load stands right behind the sets."""
        j = self.i
        if self.kinds[j] == "(" or self.kinds[j] == "x":
            j += 1
        if self.kinds[j] == "@" or self.words[j] in ("at", "with"):
            return True
        if self.kinds[j] == "n":
            k = j + 1
            if self.kinds[k] == "-" and self.kinds[k + 1] == "n":
                k += 2
            return self.kinds[k] == "%" or self.words[k] in w.KG or self.words[k] in w.LB
        return False
