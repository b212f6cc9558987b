"""The unit behind a number, and a number as sets, reps, a time, a distance or a load."""

from meetward.cycle.tree import Span

from . import words as w
from .cursor import AS_MANY, Cursor
from .figure import Op
from .items import Amount, Weight

_HEIGHT = w.set_of("off above below deficit box boxes block blocks plate plates riser")
"""Behind these a double prime is inches, not seconds."""
MOST_SETS = 60
MOST_REPS = 1_000


class MeasureForms(Cursor):
    """Reads units, and tells what an operand can be."""

    def unit(self, i: int) -> tuple[str, int]:
        """The unit at token ``i`` and the token behind it."""
        tok = self.tok(i)
        if tok.kind == "%":
            return "%", i + 1
        if tok.kind == "#":
            return ("lb", i + 1) if self.glued(i) or self.kinds[i + 1] != "n" else ("", i)
        if tok.kind == '"' and self.glued(i) and self.words[i + 1] not in _HEIGHT:
            return "s", i + 1
        if tok.kind == "'" and self.glued(i):
            return ("s", i + 2) if self.kinds[i + 1] == "'" and self.glued(i + 1) else ("min", i + 1)
        if tok.kind == "-" and self.glued(i) and self.words[i + 1] in (*w.SECONDS, *w.MINUTES):
            return self.unit(i + 1)
        if tok.kind != "w":
            return "", i
        word = str(tok.value)
        end = i + 1
        if self.kinds[end] == "." and self.glued(end) and len(word) <= 4:
            end += 1
        if word in w.KG:
            return "kg", end
        if word in w.LB:
            return "lb", end
        if word in ("percent", "pct", "prozent"):
            return "%", end
        if word == "per" and self.words[end] == "cent":
            return "%", end + 1
        if word in w.SECONDS and word not in ("count", "counts"):
            return "s", end
        if word in w.MINUTES:
            return "min", end
        if word in w.METRES:
            return "m", end
        if word == "rm":
            return "rm", end
        if word in w.SETS:
            return "sets", end
        if word == "r" and self.glued(i) and self.kinds[end] == "@":
            return "reps", end
        if word in w.REPS or (word == "times" and self._times_are_reps(i)):
            return "reps", end
        if word in w.TIMES_OF and self.words[i + 1] not in ("leg", "arm", "legged", "under", "unders"):
            return "singles", i
        if self.is_back_off(i):
            j = i + (1 if word == "backoff" else 2 if self.words[i + 1] == "off" else 3)
            if self.words[j] in w.TIMES_OF:
                return "singles", j
        j = i
        while self.words[j] in w.MANNER or self.words[j] in (
            "hard",
            "total",
            "more",
            "back-off",
            "backoff",
            "straight",
            "top",
        ):
            j += 1
            if j - i > 2:
                return "", i
        if j > i and (self.words[j] in w.SETS or self.words[j] in w.REPS):
            self.skipped += [k for k in range(i, j) if k not in self.skipped]
            return self.unit(j)
        return "", i

    def _times_are_reps(self, i: int) -> bool:
        """ "3 times x 5 groups", "5 groups each 3 times": whether "times" at ``i`` counts repetitions."""
        if self.kinds[i + 1] == "n" or self.kinds[i + 1] == "x":
            return self.words[i + 2 if self.kinds[i + 1] == "n" else i + 3] in w.SETS
        return self.words[i - 2] in ("each", "每组")

    def is_back_off(self, i: int) -> bool:
        """Whether "back off", "back-off" or "backoff" stands at token ``i``."""
        return self.words[i] in ("backoff", "backoffs") or (
            self.words[i] == "back"
            and (
                self.words[i + 1] in ("off", "offs")
                or (self.kinds[i + 1] == "-" and self.words[i + 2] in ("off", "offs"))
            )
        )

    def amount(self, op: Op) -> Amount | None:
        """The operand as repetitions; None when it cannot be some."""
        if op.kind == "many":
            return AS_MANY
        if op.kind != "num" or any(v % 100 or not 0 < v <= MOST_REPS * 100 for v in op.values):
            return None
        return op.low // 100, op.high // 100, op.more

    def span(self, op: Op) -> Span | None:
        """The operand as a number of sets; None when it cannot be one."""
        if op.kind != "num" or op.more or any(v % 100 or not 0 < v <= MOST_SETS * 100 for v in op.values):
            return None
        return Span(op.low // 100, op.high // 100)

    def seconds(self, op: Op) -> Span | None:
        """The operand as seconds."""
        if op.kind != "num" or op.unit not in ("s", "min"):
            return None
        per = 100 if op.unit == "s" else 0
        low, high = (op.low // per, op.high // per) if per else (op.low * 60 // 100, op.high * 60 // 100)
        return Span(low, high)

    def metres(self, op: Op) -> Span | None:
        """The operand as metres."""
        if op.kind != "num" or op.unit != "m" or op.low % 100 or op.high % 100:
            return None
        return Span(op.low // 100, op.high // 100)

    def reps_of(self, op: Op) -> tuple[Amount, ...] | None:
        """The operand as the reps of one set: of one movement, or of each movement of a complex."""
        if op.kind == "sum":
            if any(v % 100 or v > MOST_REPS * 100 for v in op.values):
                return None
            return tuple((v // 100, v // 100, False) for v in op.values)
        one = self.amount(op)
        return (one,) if one is not None else None

    def weight(self, op: Op) -> Weight:
        """The operand as a load."""
        if op.kind == "bar":
            return Weight("bar", start=self.tok(op.start).start)
        kind = {"%": "percent", "kg": "kg", "lb": "lb"}.get(op.unit, "bare")
        weight = Weight(kind, op.low, op.high, start=self.tok(op.start).start)
        weight.implements = 2 if op.word == "hand" else 1
        return weight
