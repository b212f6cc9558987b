"""The exact forms: square brackets for single sets, braces for a movement, quoted words."""

import re

from .brackets import BracketForms
from .items import Weight
from .names import PartDraft
from .quoted import ids_in, unquoted


class MarkForms(BracketForms):
    """Reads exact forms."""

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
            elif word == "on" and self.words[nxt : nxt + 2] == ["the", "way"]:
                item.on_the_way = True
                nxt += 2
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
        if got is None or (not self.scan.parts and self.kinds[i - 1] != "q"):
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
        if self.kinds[i + 1] == "b" or (not self.scan.parts and not self.scan.items):
            self.scan.parts.append(PartDraft(text, self.tok(i).start, self.tok(i).end))
            self.scan.parts[-1].exact = True
            return
        self.skip(i)
