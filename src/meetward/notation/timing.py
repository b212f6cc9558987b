"""Time in a line: rest, intervals, holds, tempo, time limits."""

from meetward.cycle.tree import Span

from . import words as w
from .tempo import TempoForms


class TimeForms(TempoForms):
    """Reads time."""

    def rest(self, i: int) -> bool:
        """ "rest 2:00", "r90", "rest: 2-3 min" at token ``i``."""
        j = i + 1
        while self.kinds[j] in (":", ".", "=", "-") or self.words[j] in (
            "of",
            "for",
            "about",
            "time",
            "between",
            "sets",
            "period",
            "is",
            "interval",
            "set",
        ):
            j += 1
        if self.words[i] == "rest" and self.words[j] in ("as", "needed"):
            k = j
            while self.words[k] in ("as", "needed", "required", "necessary", "long"):
                k += 1
            for m in range(i, k):
                self.skip(m)
            self.i = k
            return True
        got = self.time_at(j, bare_s=True)
        if got is None:
            return False
        span, self.i = got
        self._tail_of_rest()
        self.set_rest(span)
        return True

    def rest_behind(self, i: int) -> bool:
        """ "2-3 min rest", ":90 of active rest between sets" at token ``i``."""
        got = self.time_at(i)
        if got is None:
            return False
        span, j = got
        while self.words[j] in ("of", "active", "full", "complete", "passive", "seated", "easy"):
            j += 1
        if (
            self.cur is not None
            and self.cur.cluster
            and self.words[j] in ("between", "btw", "in", "inside", "intra")
            and span.low == span.high
        ):
            k = j + 1
            while self.words[k] in ("rep", "reps", "each", "clusters", "cluster", "mini", "sets", "between"):
                k += 1
            if self.words[k - 1] not in ("sets",):
                self.cur.cluster_rest_s = span.low
                self.i = k
                return True
        if self.words[j] == "rest" or (
            self.words[j] in ("between", "btw", "btwn", "b/w")
            and self.words[j + 1] in ("set", "sets", "each", "efforts", "rounds")
        ):
            self.i = j + 1 if self.words[j] == "rest" else j
            self._tail_of_rest()
            self.set_rest(span)
            return True
        return False

    def _tail_of_rest(self) -> None:
        j = self.i
        if self.words[j] in ("rest", "break"):
            j += 1
        if self.words[j] in ("between", "btw", "btwn", "after"):
            k = j + 1
            while self.words[k] in (
                "all",
                "each",
                "every",
                "set",
                "sets",
                "rounds",
                "round",
                "efforts",
                "working",
                "the",
            ):
                k += 1
            if k > j + 1:
                j = k
        self.i = j

    def set_rest(self, span: Span) -> None:
        """The rest of the sets before, or of all of them."""
        if self.cur is None or self.sep or len(self.scan.items) == 1:
            if self.scan.all.rest_s is None:
                self.scan.all.rest_s = span
            elif self.scan.all.rest_s != span:
                self.doubt("rest", max(0, self.i - 1), self.i - 1)
        else:
            self.cur.rest_s = span

    def time_at(self, i: int, *, bare_s: bool = False) -> tuple[Span, int] | None:
        """A time or a range of times at token ``i``, in seconds, and the token behind it."""
        tok = self.tok(i)
        if tok.kind == "t":
            low = int(str(tok.value))
            if self.kinds[i + 1] == "-" and self.kinds[i + 2] == "t":
                return Span(low, int(str(self.tok(i + 2).value))), i + 3
            if self.kinds[i + 1] == "-" and self.kinds[i + 2] == "n":
                later = self.tok(i + 2).value
                if isinstance(later, int) and later * 60 // 100 > low:
                    return Span(low, later * 60 // 100), i + 3
            end = i + 1
            if self.words[end] in (*w.SECONDS, *w.MINUTES):
                end += 1
            return Span(low, low), end
        if tok.kind == "w" and tok.value in w.NUMBERS:
            values, j = [w.NUMBERS[str(tok.value)] * 100], i + 1
        elif tok.kind == "n" and isinstance(tok.value, int):
            values, j = [tok.value], i + 1
        else:
            return None
        unit, end = self.unit(j)
        if unit == "" and self.words[j] == "m" and bare_s:
            unit, end = "min", j + 1
        if (self.kinds[end] == "-" or self.words[end] == "to") and self.kinds[end + 1] == "n":
            value = self.tok(end + 1).value
            later, far = self.unit(end + 2)
            if isinstance(value, int) and (later in ("s", "min", "m") or (not later and bare_s and not unit)):
                per = {"s": 1, "min": 60, "m": 60}
                low = values[0] * per.get(unit or later, 1) // 100
                if later:
                    return _span(low, value * per[later] // 100, far)
                values.append(value)
                end = far
        if self.kinds[end] == "n" and unit == "min" and self.unit(end + 1)[0] == "s" and len(values) == 1:
            value = self.tok(end).value
            if isinstance(value, int):
                total = values[0] * 60 // 100 + value // 100
                return Span(total, total), self.unit(end + 1)[1]
        if unit == "m" and bare_s:
            unit = "min"
        if unit == "s":
            return _span(values[0] // 100, values[-1] // 100, end)
        if unit == "min":
            return _span(values[0] * 60 // 100, values[-1] * 60 // 100, end)
        if bare_s and not unit and self.kinds[end] not in ("x", "%"):
            if values[0] >= 2_000:
                return _span(values[0] // 100, values[-1] // 100, end)
            if values[-1] <= 600:
                return _span(values[0] * 60 // 100, values[-1] * 60 // 100, end)
        return None

    def every(self, i: int) -> bool:
        """ "every 90 s for 8 sets", "EMOM 10", "E2MOM x 5", "on the minute for 10 minutes" at token ``i``."""
        j = i
        if self.kinds[i] == "E":
            seconds = int(str(self.tok(i).value))
            j = i + 1
        elif self.words[i] in ("emom", "otm", "emotm"):
            seconds = 60
            j = i + 1
        elif self.words[i] == "on" and self.words[i + 1] == "the" and self.words[i + 2] in ("minute", "min"):
            seconds, j = 60, i + 3
        elif self.words[i] == "on" and self.words[i + 1] in ("a", "the") and self.kinds[i + 2] in ("n", "t"):
            got = self.time_at(i + 2)
            if (
                got is None
                or got[0].low != got[0].high
                or self.words[got[1]] not in ("clock", "interval", "timer")
            ):
                return False
            seconds, j = got[0].low, got[1] + 1
        elif self.words[i] == "every":
            j = i + 1
            if self.words[j] in ("minute", "min"):
                seconds = 60
                j += 1
                if self.words[j : j + 3] == ["and", "a", "half"]:
                    seconds, j = 90, j + 3
            else:
                if self.words[j] in ("other", "second", "third", "rep", "set", "week", "day", "time"):
                    if self.words[j] == "other" and self.words[j + 1] in ("minute", "min"):
                        seconds, j = 120, j + 2
                    else:
                        return False
                else:
                    got = self.time_at(j)
                    if got is None or got[0].low != got[0].high:
                        return False
                    seconds, j = got[0].low, got[1]
            if self.words[j : j + 2] == ["on", "the"] and self.words[j + 2] in ("minute", "min"):
                j += 3
        else:
            return False
        if not 0 < seconds <= 3_600:
            return False
        return self._interval(seconds, j)

    def every_behind(self, i: int) -> bool:
        """ "10 min EMOM", "32 Min. E2MOTM" at token ``i``."""
        got = self.time_at(i)
        if got is None:
            return False
        span, j = got
        while self.kinds[j] in ("-", ":") or self.words[j] in ("of", "an"):
            j += 1
        if self.words[j] not in ("emom", "otm", "emotm") and self.kinds[j] != "E":
            if self.words[j] in ("amrap", "amap"):
                self.i = j + 1
                self.scan.all.within_s = span.high
                if self.kinds[self.i] == ":":
                    self.i += 1
                return True
            return False
        seconds = 60 if self.kinds[j] != "E" else int(str(self.tok(j).value))
        if not seconds:
            return False
        if self.scan.all.every_s not in (None, seconds):
            self.doubt("numbers", i, j)
        self.scan.all.every_s = seconds
        self.i = j + 1
        self._total(span.high, seconds)
        return True

    def _interval(self, seconds: int, j: int) -> bool:
        all_ = self.scan.all
        own = self.cur is not None and not self.sep and len(self.scan.items) > 1
        k = j
        if self.kinds[k] == "," and self.words[k + 1] == "for":
            k += 1
        if self.kinds[k] in ("x", ":", ",", "-") and self.kinds[k + 1] in ("n", "t"):
            led = self.kinds[k]
            k += 1
        else:
            led = ""
        while self.words[k] in ("for", "x", "of"):
            led = "for"
            k += 1
        got = self.time_at(k) if led not in (":", ",") else None
        total: int | None = None
        count: Span | None = None
        if got is not None and got[0].low == got[0].high and self.words[got[1]] != "rest":
            total, j = got[0].low, got[1]
        elif self.kinds[k] == "n" and led not in (":", ","):
            op = self.operand(k)
            if op is not None and op.kind == "num" and op.unit == "sets":
                count = self.span(op)
                j = op.end
            elif (
                op is not None
                and op.kind == "num"
                and op.unit == ""
                and op.low == op.high
                and self.kinds[op.end] not in (("x", "/") if led == "for" else ("x", "/", "@"))
                and (
                    led in ("x", "for")
                    or self.kinds[op.end] in (":", "", ",", "-", ")")
                    or not self.names.name(self.line, self.toks, op.end)
                )
            ):
                number = self.span(op)
                if number is not None:
                    j = op.end
                    if seconds == 60 or led == "x":
                        count = number
                    else:
                        all_.count = None
                        all_.unsure = f"every {number.low}"
        if own and self.cur is not None:
            self.cur.every_s = seconds
            if count is not None and self.cur.count is None:
                self.cur.count = count
        else:
            if all_.every_s not in (None, seconds):
                self.doubt("numbers", max(0, j - 1), max(0, j - 1))
            all_.every_s = seconds
            if count is not None:
                all_.count = count
            if total is not None:
                self._total(total, seconds)
        self.i = j
        if self.kinds[self.i] in (":", "-", ","):
            self.i += 1
            self.sep = ""
        return True

    def _total(self, total: int, seconds: int) -> None:
        self.scan.all.within_s = total
        if seconds and total % seconds == 0 and 0 < total // seconds <= 120:
            self.scan.all.count = Span(total // seconds, total // seconds)
        else:
            self.doubt("numbers", max(0, self.i - 1), max(0, self.i))

    def within(self, i: int) -> bool:
        """ "AMRAP 8 min", "within 10 minutes", "in 8 min" at token ``i``."""
        j = i + 1
        while self.words[j] in ("in", "for", "of") or self.kinds[j] in (":", "-", "x"):
            j += 1
        got = self.time_at(j)
        if got is None:
            return False
        self.scan.all.within_s = got[0].high
        if self.words[i] in ("amrap", "amap"):
            self.scan.all.unsure = self.scan.all.unsure or "amrap"
        self.i = got[1]
        if self.kinds[self.i] == ":":
            self.i += 1
        return True


def _span(low: int, high: int, end: int) -> tuple[Span, int] | None:
    return (Span(low, high), end) if 0 < low <= high <= 36_000 else None
