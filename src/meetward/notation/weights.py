"""Loads of an entry: signs that are missing, bases, and limits of what can be meant."""

from collections.abc import Sequence

from meetward.cycle.load import (
    DEFAULT,
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Load,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import Pause
from meetward.units import lb_to_dag

from .conventions import Answers, Conventions
from .items import Amount, Doubt, Item, Scan, Weight
from .names import NameReader, PartDraft

SETTLE_ORDER = "Write 'sets of' (5 sets of 3), or declare 'Order: sets first' or 'Order: reps first' above."
SETTLE_UNIT = (
    "Write % or kg behind the number, or declare 'Bare loads: percent' or 'Bare loads: kilos' above."
)
SETTLE_SETS = "Write 'sets' or 'reps' behind the number."
LEAST_PERMILLE = 200
MOST_PERMILLE = 1_600
MOST_KILOS = 60_000
MOST_POUNDS = 130_000


class Misfit(Exception):
    """The parts of a line do not go together; the words say how."""


class Entry:
    """Source lines that make one line of the cycle, put together."""

    def __init__(self, scans: Sequence[Scan]) -> None:
        self.scans = scans
        self.parts: list[PartDraft] = [p for s in scans for p in s.parts]
        self.items: list[Item] = [i for s in scans for i in s.items]
        self.doubts: list[Doubt] = [d for s in scans for d in s.doubts]
        self.pauses: list[Pause] = [p for s in scans for p in s.pauses]
        self.all = Item()
        self.positions: list[tuple[str, str]] = []
        self.waves = 0
        self.sum_reps: tuple[Amount, ...] | None = None
        self.clash = False
        for scan in scans:
            self.positions = self.positions or scan.positions
            self.waves = self.waves or scan.waves
            self.sum_reps = self.sum_reps or scan.sum_reps
            for field in ("every_s", "within_s", "rest_s", "tempo", "count", "unsure"):
                value, had = getattr(scan.all, field), getattr(self.all, field)
                if value and had and value != had:
                    self.clash = True
                if value and not had:
                    setattr(self.all, field, value)
            self.all.per_side = self.all.per_side or scan.all.per_side


class WeightRules:
    """Settles loads."""

    def __init__(self, entry: Entry, conventions: Conventions, names: NameReader, ask: Answers) -> None:
        self.entry, self.conventions, self.names, self.ask = entry, conventions, names, ask

    def _load(self, item: Item, items: list[Item]) -> Load:
        weight = item.load
        if weight is None:
            return Open()
        kind = weight.kind
        stated = not weight.concluded
        if kind == "bare":
            kind, stated = self._bare_kind(items)
        if kind == "rpe":
            return Effort("rpe", (weight.low or weight.high) // 10, weight.high // 10)
        if kind == "percent":
            if weight.other is not None or any(
                v is not None and (v % 10 or not 0 < v <= MOST_PERMILLE * 10)
                for v in (weight.low or weight.high, weight.high)
            ):
                raise Misfit("The percentage is finer than a tenth or too large.")
            if weight.high < LEAST_PERMILLE * 10:
                raise Misfit("So small a percentage is no load; it may be meant to come off another.")
            return Percent(
                None if weight.low is None else weight.low // 10, weight.high // 10, self._of(weight)
            )
        if kind in ("kg", "lb"):
            most = MOST_KILOS if kind == "kg" else MOST_POUNDS
            if not 0 < weight.high <= most or weight.low == 0:
                raise Misfit("Nobody lifts that weight.")
            if weight.other is not None:
                men = (
                    Kilos(weight.high, weight.high, stated)
                    if kind == "kg"
                    else Pounds(weight.high, weight.high, stated)
                )
                other = weight.other.high
                women = Kilos(other, other, stated) if kind == "kg" else Pounds(other, other, stated)
                return ByCategory(men, women)
            if kind == "kg":
                return Kilos(weight.low, weight.high, stated, weight.implements)
            return Pounds(weight.low, weight.high, stated, weight.implements)
        if kind == "effort":
            low = weight.high if weight.low is None else weight.low
            return Effort("rpe" if weight.word == "rpe" else "rir", low // 10, weight.high // 10)
        if kind == "heavy":
            return Heavy(weight.reps, "max" if weight.word == "max" else "heavy")
        if kind in ("bar", "stick"):
            return BarOnly(stick=kind == "stick")
        if kind == "bodyweight":
            plus = weight.high
            if weight.word == "lb":
                plus = lb_to_dag(f"{plus / 100:.2f}")
            return Bodyweight(plus)
        return Open(weight.word)

    def _of(self, weight: Weight) -> Of:
        kind, words, reps = weight.of
        if kind == "default":
            return Of("default", written=words) if words else DEFAULT
        if kind == "top":
            return Of("top")
        found = self.names.find(words) if words else None
        movement = found.entry.id if found is not None else ""
        if kind == "lift":
            return Of("lift", movement, words)
        return Of("rep max", movement, words, reps)

    def _bare_kind(self, items: list[Item]) -> tuple[str, bool]:
        """What a weight without a sign means here, and whether it was stated in the line."""
        loads = [i.load for i in items if i.load is not None]
        kinds = {w.kind for w in loads if w.kind in ("percent", "kg", "lb") and w.of[0] != "top"}
        bare = [w for w in loads if w.kind == "bare"]
        highest = max(w.high for w in bare)
        if len(kinds) == 1:
            only = kinds.pop()
            if only != "percent" or highest <= 13_000:
                return only, True
        felt = {w.word for w in loads if w.kind == "effort"}
        if felt == {"rpe"} and 500 <= min(w.high for w in bare) <= highest <= 1_000:
            return "rpe", True  # "x5 @ RPE 6, x5 @ 7"
        settled = self.conventions.bare
        log = any(i.missed for i in items) or (len(bare) >= 3 and all(i.bare_list for i in items))
        if log and settled == "percent" and not self.conventions.bare_load:
            settled = None  # percentages on other lines never turn a log into percentages
        if highest <= 1_000 and not any(i.bare_list for i in items):
            # "3x5 @8" is most likely effort, but says nothing of the kind.
            options = ("rpe", settled) if settled else ("rpe", "kg", "lb")
            return self.ask.ask("unit", options, "Write 'RPE 8', '8 kg' or '80%'."), False
        if settled and not (settled == "percent" and highest > 13_000 and not self.conventions.bare_load):
            return settled, False
        if any(i.missed for i in items) or (len(bare) >= 3 and all(i.bare_list for i in items)):
            odd = any(w.high % 500 for w in bare)
            if odd and any(w.high % 1_100 for w in bare):
                return "kg", False
            if any(i.missed for i in items):
                answer = self.ask.ask("unit", ("kg", "lb"), SETTLE_UNIT)
                return answer, False
        can_be_percent = highest <= 11_000 and not any(w.other is not None for w in bare)
        sliced = (
            can_be_percent
            and all(w.high % 250 == 0 and w.high >= 4_000 for w in bare)
            and any(i.reps or i.pair for i in items)
        )
        options = (
            ("percent", "kg", "lb") if sliced else ("kg", "percent", "lb") if can_be_percent else ("kg", "lb")
        )
        return self.ask.ask("unit", options, SETTLE_UNIT), False
