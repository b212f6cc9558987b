"""The tempo of a lift: four signs, together or apart, told from sets and weights that look like it."""

import re

from . import words as w
from .climbs import ClimbForms

TEMPO = re.compile(r"(?<![\w.])[0-9xX×][0-9xX×][0-9xX×][0-9xX×](?![\w%])")
TEMPO_TORN = re.compile(r"\d\d[xX×] \d(?![\w%.]| ?[xX×])")
TEMPO_APART = re.compile(r"(?<![\w.])\d([-/. ])\d\1[\dxX](?:\1[\dxX])?(?![\w%])")


class TempoForms(ClimbForms):
    """Reads tempo."""

    def tempo(self, i: int) -> bool:
        """ "tempo 30X0", "@ 21X1", "30X0 tempo", "tempo 3-1-1" at token ``i``."""
        j = i
        named = False
        if self.words[j] == "tempo" or self.kinds[j] == "@":
            named = self.words[j] == "tempo"
            j += 1
            while self.kinds[j] in (":", "@", "(", "=") or self.words[j] in ("of", "is", "tempo"):
                named = named or self.words[j] == "tempo"
                j += 1
        if self.kinds[j] not in ("n", "T", "x", "t", "w", "c"):
            return False
        start = self.tok(j).start
        found = TEMPO.match(self.line, start)
        sep = ""
        if not found and (self.cur is None or self.cur.scheme) and self.kinds[i] == "@":
            found = TEMPO_TORN.match(self.line, start)  # "@ 20X 1"
        if not found and named:
            found = TEMPO_APART.match(self.line, start)
            sep = "apart"
        if not found:
            return False
        end = j
        while end < self.n and self.toks[end].start < found.end():
            end += 1
        if self.toks[end - 1].end != found.end() or self.unit(end)[0] in ("%", "kg", "lb"):
            return False
        if found.group()[1] in "x×":
            return False  # "@ 2x15": two times fifteen
        if (
            self.kinds[i] == "@"
            and self.cur is not None
            and self.cur.solo is not None
            and "x" in found.group()
        ):
            return False  # "1@80x3": a weight and its sets
        if self.kinds[i] == "T" and self._weight_without_reps(i):
            return False
        behind = self.words[end] == "tempo"
        text = found.group()
        signs = "".join(c for c in text.upper().replace("×", "X") if c.isalnum())
        if not (named or behind or self.kinds[i] == "T"):
            if self.kinds[i] != "@":
                return False
            # "@ 21X1" and "@ 3010" are no weights; "@ 20x1" could be, so other sets must stand beside it.
            if (
                "X" in signs
                and signs[2] == "X"
                and not signs.endswith("0")
                and "X" not in text
                and "x" in text
                and not self._scheme_elsewhere(end)
            ):
                self.scan.all.unsure = self.scan.all.unsure or "tempo"
        if len(signs) == 3 and sep:
            signs += "0"
        if len(signs) != 4:
            return False
        self.i = end + 1 if behind else end
        if self.scan.all.tempo not in ("", signs):
            self.doubt("numbers", i, end - 1)
        if self.cur is not None and not self.sep and len(self.scan.items) > 1:
            self.cur.tempo = signs
        else:
            self.scan.all.tempo = signs
        return True

    def apart_tempo(self, i: int) -> bool:
        """ "(5-1-5-1)" or "3-1-X-1 tempo" on a line that speaks of a tempo; "31X1" beside other sets."""
        start = self.tok(i).start
        says = "tempo" in self.words
        found = TEMPO_APART.match(self.line, start)
        if found is not None and not says and not ("0" in found.group() and len(found.group()) == 7):
            found = None
        if found is None:
            found = TEMPO.match(self.line, start)
            if found is None or self.scan.all.tempo or self.kinds[i - 1] == "@":
                return False
            text = found.group()
            plain = text.isdigit() and says and self.kinds[i - 1] != "x"
            marked = (
                "X" in text[1:]
                and text[:2].isdigit()
                and any(
                    (t.kind == "x" and self.line[t.start] != "X") or (t.kind == "w" and t.value in w.SETS)
                    for t in self.toks
                )
            )
            if not (plain or marked):
                return False
        signs = "".join(c for c in found.group().upper() if c.isalnum())
        signs += "0" if len(signs) == 3 else ""
        end = i
        while end < self.n and self.toks[end].start < found.end():
            end += 1
        if len(signs) != 4 or self.toks[end - 1].end != found.end() or self.scan.all.tempo:
            return False
        self.i = end + 1 if self.words[end] == "tempo" else end
        self.scan.all.tempo = signs
        return True

    def _weight_without_reps(self, i: int) -> bool:
        """ "60x1, 62x0, 62x1": a weight that was not lifted, among weights with their reps."""
        last = self.cur.load if self.cur is not None else None
        if last is None or last.kind not in ("bare", "kg", "lb"):
            return False
        weight = int(self.line[self.tok(i).start : self.tok(i).start + 2]) * 100
        return last.high * 7 <= weight * 10 <= last.high * 13

    def _scheme_elsewhere(self, end: int) -> bool:
        return bool(self.scan.items and self.scan.items[0].scheme) or any(
            self.kinds[k] == "x" or self.words[k] in w.SETS for k in range(end, self.n)
        )
