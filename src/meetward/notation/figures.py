"""A number at the beginning of something: tried in turn as everything that begins with one."""

from meetward.cycle.tree import Pause, Span

from . import words as w
from .items import ONE, Item
from .places import place_at, seconds_at
from .signs import SignForms

_COMPARED = w.set_of("""heavier lighter more less over under increase increases jump jumps increment
increments opener openers goal
    target""")
_TIMED = frozenset(("hold", "holds", "rest", "emom", "amrap", "of", "cap"))


class FigureForms(SignForms):
    """Reads what begins with a number."""

    def _number(self, i: int) -> None:
        if self._positions(i) or self._minutes(i):
            return
        if (
            self.tok(i).value == 100
            and self.words[i + 1] in ("set", "rep", "single")
            and (self.words[i + 2] == "every" or self.kinds[i + 2] == "E")
        ) and self.every(i + 2):
            return
        one = self.tok(i).value == 100 and self.kinds[i - 1] == "(" and self.cur is not None
        if one and self.words[i + 1] == "every" and self.every(i + 1):
            return  # "8 x 1 (1 every 90 s)"
        if self.time_at(i) is not None:
            got = self.names.pause(self.line, self.toks, i)
            if got is not None:
                self.scan.pauses.append(got[0])
                self.i = got[1]
                return
            if self._work_and_rest(i):
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
        if self._more_at_the_load(i):
            return
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
                if name is None or not name[0].movement:
                    name = self._letter(j) or name
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

    def _more_at_the_load(self, i: int) -> bool:
        """ "140 x 5, 5, 5, 4": more sets at the load that stands in front."""
        cur = self.cur
        value = self.tok(i).value
        if cur is None or cur.load is None or self.sep != "," or cur.count is not ONE or not cur.reps:
            return False
        if cur.load.kind not in ("kg", "lb", "percent", "bare") or cur.load.start > cur.start:
            return False
        if (
            not isinstance(value, int)
            or value % 100
            or not 100 <= value <= 2_000
            or value * 2 > cur.load.high
        ):
            return False
        if self.kinds[i + 1] not in (",", "", ";", ")") or self.kinds[i - 1] != ",":
            return False
        load = cur.load
        item = self.new_item()
        item.load, item.count, item.reps = load, ONE, ((value // 100, value // 100, False),)
        self.i = i + 1
        return True

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
        if cur.hold_s is not None and self.words[self.i] in ("on", "work"):
            self._rest_between_holds()
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

    def _work_and_rest(self, i: int) -> bool:
        """ "20 s on / 10 s off": a hold and its rest."""
        on = self.time_at(i)
        if on is None or self.words[on[1]] not in ("on", "work"):
            return False
        self.put_scheme(hold=on[0]).unsure = "time"
        self.i = on[1]
        self._rest_between_holds()
        return True

    def _rest_between_holds(self) -> None:
        """Take "on / 10 s off"."""
        j = self.i + 1
        while self.kinds[j] in ("/", ",", "-"):
            j += 1
        off = self.time_at(j)
        if off is not None and self.words[off[1]] in ("off", "rest"):
            self.set_rest(off[0])
            self.i = off[1] + 1

    def _time_to(self, i: int) -> bool:
        """ "20 min to find a heavy single", "15 min: work up to ...": a limit for all of it."""
        got = self.time_at(i)
        if got is None or got[0].low != got[0].high:
            return False
        j = got[1]
        while self.kinds[j] in (":", ",", "-") or self.words[j] in ("to", "and", "a"):
            j += 1
        if j == got[1] or self.words[j] not in (
            "heavy",
            "max",
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

    def _pause_length(self, i: int) -> bool:
        """ "Paused front squat (3 sec)", "2 seconds in the hole": how long a pause is."""
        got = seconds_at(self.toks, i)
        if got is None or not self.scan.parts:
            return False
        seconds, end = got
        place, after = place_at(self.line, self.toks, end)
        said = "paus" in self.scan.parts[-1].written.lower()
        right_behind = self.scan.parts[-1].end == self.tok(i - 1).end and not self.scan.items
        if (said and (right_behind or (self.kinds[i - 1] == "(" and (place or self.kinds[end] == ")")))) or (
            place and (self.cur is None or self.cur.scheme)
        ):
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

    def _clock(self, i: int) -> bool:
        """ "At 0:00, ...": a time on the clock."""
        late = self.kinds[i] == "t" and i == 0 and int(str(self.tok(i).value)) >= 300
        if late and self.kinds[1] == "w" and self.words[1] not in _TIMED:
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

    @staticmethod
    def _counts(item: Item, number: int) -> bool:
        """Whether nothing was said yet but this very number of sets."""
        return (
            item.count == Span(number, number)
            and item.reps is None
            and item.pair is None
            and item.load is None
        )

    def _number_word(self, i: int) -> bool:
        op = self.operand(i)
        if op is None or (
            op.unit == "" and self.words[op.end] not in ("by", "x") and self.kinds[op.end] != "x"
        ):
            return False
        return self.take_chain(i)


def _count(number: int) -> Span:
    return Span(number, number)
