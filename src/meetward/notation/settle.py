"""From what a line says to sets: open points are settled by the conventions, or read in every way."""

from collections.abc import Sequence

import msgspec

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
from meetward.cycle.tree import Part, Pause, Reps, SetGroup, Span
from meetward.units import lb_to_dag

from .conventions import Answers, Conventions, every_reading
from .items import ONE, Amount, Doubt, Item, Scan, Weight
from .names import NameReader, PartDraft

SETTLE_ORDER = "Write 'sets of' (5 sets of 3), or declare 'Order: sets first' or 'Order: reps first' above."
SETTLE_UNIT = (
    "Write % or kg behind the number, or declare 'Bare loads: percent' or 'Bare loads: kilos' above."
)
SETTLE_SETS = "Write 'sets' or 'reps' behind the number."
MOST_PERMILLE = 2_000
MOST_KILOS = 60_000
MOST_POUNDS = 130_000


class Settled(msgspec.Struct, frozen=True):
    """A line in one way of reading."""

    parts: tuple[Part, ...]
    groups: tuple[SetGroup, ...]


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


def readings(
    entry: Entry, conventions: Conventions, names: NameReader
) -> tuple[list[Settled], list[Answers], str]:
    """All ways to read an entry, the customary first; the answers that each gave; why it cannot be read, if so."""
    found: list[Settled] = []
    answers: list[Answers] = []
    try:
        for settled, given in every_reading(lambda ask: _Settling(entry, conventions, names, ask).settle()):
            found.append(settled)
            answers.append(given)
    except Misfit as misfit:
        return [], [], str(misfit)
    return found, answers, ""


class _Settling:
    """One reading of one entry."""

    def __init__(self, entry: Entry, conventions: Conventions, names: NameReader, ask: Answers) -> None:
        self.entry, self.conventions, self.names, self.ask = entry, conventions, names, ask

    def settle(self) -> Settled:
        entry = self.entry
        if entry.clash or entry.all.unsure == "tempo":
            raise Misfit("Two values for the same thing stand in it.")
        parts = self._parts()
        items = self._items(len(parts))
        parts = self._fit_parts(parts, items)
        n = max(1, len(parts))
        groups: list[SetGroup] = []
        for item in items:
            groups += self._groups(item, items, parts, n)
        groups = self._waves(groups)
        if groups and not parts:
            parts = [Part(written="") for _ in range(len(groups[0].reps))]
        return Settled(tuple(parts), _joined(groups))

    # parts

    def _parts(self) -> list[Part]:
        parts: list[Part] = []
        for draft in self.entry.parts:
            if draft.positions and self.entry.positions:
                parts += self._from_places(draft)
                continue
            pauses = list(draft.pauses)
            parts.append(
                Part(draft.written, draft.movement, tuple(draft.variant), tuple(pauses), draft.version)
            )
        extra = self.entry.pauses
        if extra and parts and not any(d.exact for d in self.entry.parts):
            last = parts[-1]
            parts[-1] = msgspec.structs.replace(last, pauses=(*last.pauses, *extra))
        return parts

    def _from_places(self, draft: PartDraft) -> list[Part]:
        """ "2 position snatch (floor, hang)" as snatch + hang snatch."""
        base = draft.core
        parts = []
        for written, words in self.entry.positions:
            name = (
                base
                if not words
                else f"{words} {base}"
                if not words.endswith("knee")
                else f"hang {base} {words}"
            )
            found = self.names.find(name) or (self.names.find(f"{base} {words}") if words else None)
            if found is not None:
                parts.append(Part(name[:1].upper() + name[1:], found.entry.id))
            else:
                known = self.names.find(base)
                parts.append(
                    Part(f"{base} from {written}", known.entry.id if known else "", (f"from {written}",))
                )
        return parts

    def _fit_parts(self, parts: list[Part], items: list[Item]) -> list[Part]:
        """ "C&J 2+1" is a clean and a jerk with reps of their own."""
        sums = {len(i.reps) for i in items if i.reps and len(i.reps) > 1}
        if len(sums) == 1 and len(parts) == 1 and self._is_clean_and_jerk(parts[0]) and sums == {2}:
            clean, jerk = self.names.find("clean"), self.names.find("jerk")
            return [
                Part("Clean", clean.entry.id if clean else ""),
                Part("Jerk", jerk.entry.id if jerk else ""),
            ]
        return parts

    def _is_clean_and_jerk(self, part: Part) -> bool:
        both = self.names.find("clean and jerk")
        return both is not None and part.movement == both.entry.id

    # items

    def _items(self, n: int) -> list[Item]:
        entry, all_ = self.entry, self.entry.all
        items = list(entry.items)
        own = self._own_reps()
        if entry.sum_reps is not None:
            own = entry.sum_reps
            for item in items:
                if item.reps is not None or item.solo is not None:
                    raise Misfit("Reps stand in it twice.")
        said = (
            own is not None or all_.count is not None or all_.every_s is not None or all_.within_s is not None
        )
        if not items and said:
            item = Item()
            if (
                own is not None
                and all_.every_s is None
                and all_.within_s is None
                and not entry.sum_reps
                and len(own) == 1
            ):
                item.count = ONE
            if own is None and all_.within_s is not None and all_.unsure == "amrap" and len(entry.parts) == 1:
                item.count, item.reps = ONE, ((None, None, True),)
            items = [item]
        if (
            len(items) > 1
            and own is not None
            and all(i.bare_list for i in items)
            and not any(i.climbing for i in items)
        ):
            items = [_one_of(i, None, None) for i in items]
            for item in items:
                item.count = None if item.load is not None and item.load.kind == "effort" else ONE
        if (
            all_.count is not None
            and len(items) > 1
            and all(i.count is ONE and not i.scheme or i.bare_list or i.count is ONE for i in items)
        ):
            if all_.count != Span(len(items), len(items)):
                raise Misfit("The number of loads is not the number of sets.")
        items = self._lists(items)
        fresh: list[Item] = []
        for item in items:
            copy = _copy(item)
            if own is not None:
                self._take_own(copy, own)
            fresh.append(copy)
        self._shared_load(fresh)
        return fresh

    def _own_reps(self) -> tuple[Amount, ...] | None:
        """Reps written at the names: "2 power clean + 1 jerk", "Hang snatch + 2 OHS"."""
        drafts = self.entry.parts
        if not any(d.reps_low for d in drafts):
            return None
        return tuple((d.reps_low or 1, d.reps_high or d.reps_low or 1, d.or_more) for d in drafts)

    def _take_own(self, item: Item, own: tuple[Amount, ...]) -> None:
        if item.load is not None and item.load.kind == "heavy" and item.reps == ((1, 1, False),):
            item.reps = own
            return
        if item.reps is None and item.pair is None and item.solo is None:
            item.reps = own
            if item.count is ONE:
                return
            if item.count is None and len(own) == 1 and not item.climbing and self.entry.all.every_s is None:
                item.count = ONE if self.entry.all.within_s is None and self.entry.sum_reps is None else None
            return
        if item.solo is not None and item.unsure == "times":
            item.count = _whole(item.solo)
            item.solo, item.reps = None, own
            return
        if item.pair is not None and len(own) > 1:
            sets, reps = self._order(item, item.pair)
            item.pair = None
            item.count = _whole(sets)
            times = reps[0]
            if times is None or reps[1] != times:
                raise Misfit("Reps stand in it twice.")
            item.reps = tuple((low and low * times, high and high * times, more) for low, high, more in own)
            return
        if item.reps is not None and len(item.reps) == 1 and item.reps[0][0] == 1:
            item.reps = own
            return
        raise Misfit("Reps stand in it twice.")

    def _lists(self, items: list[Item]) -> list[Item]:
        """Lists of loads with sets said once, before or behind them."""
        if len(items) < 2:
            return items
        bare = [i.bare_list for i in items]
        if all(bare):
            return items
        first = next(k for k, b in enumerate(bare) if not b)
        out: list[Item] = []
        k = 0
        if first > 0:
            # Loads without sets stand before the first sets: "60, 70, 80 % x 2".
            head, lead = items[:first], items[first]
            if (
                lead.load is not None
                and self._same_sort(head, lead)
                and not any(i.missed or i.climbing for i in head)
            ):
                answer = self.ask.ask("list", ("all", "last"), "Write the sets and reps behind every weight.")
                out += [_with_scheme(i, lead) if answer == "all" else i for i in head]
            else:
                out += head
            k = first
        while k < len(items):
            lead = items[k]
            follow = k + 1
            while follow < len(items) and bare[follow] and not items[follow].climbing:
                follow += 1
            tail = items[k + 1 : follow]
            if tail and lead.load is None:
                out += self._spread(lead, tail)
            elif tail and lead.load is not None and self._same_sort(tail, lead):
                out += self._spread(lead, [_only_load(lead), *tail])
            else:
                out += [lead, *tail]
            k = follow
        return out

    @staticmethod
    def _same_sort(loads: list[Item], lead: Item) -> bool:
        return (
            lead.load is not None
            and lead.load.kind in ("percent", "kg", "lb", "bare")
            and all(
                i.load is not None
                and i.load.kind in ("percent", "kg", "lb", "bare")
                and i.load.of[0] != "top"
                for i in loads
            )
        )

    def _spread(self, lead: Item, loads: list[Item]) -> list[Item]:
        """One scheme over several loads."""
        k = len(loads)
        if lead.pair is not None:
            one, two = lead.pair
            declared = self.conventions.order or "sets-first"
            sets, each = (one, two) if declared == "sets-first" and not lead.after_load else (two, one)
            if sets[:2] == (k, k):
                return [_one_of(i, lead, (each,)) for i in loads]
            raise Misfit("The number of loads is not the number of sets.")
        if lead.solo is not None:
            return [_one_of(i, lead, (lead.solo,)) for i in loads]
        count = lead.count
        if count is None or (count is not ONE and count == Span(k, k)):
            return [_one_of(i, lead, lead.reps) for i in loads]
        if count == ONE and lead.load is not None and lead.load.start <= lead.start and lead.reps is not None:
            if (
                self.ask.ask("bare in list", ("single", "same"), "Write the reps behind every weight.")
                == "same"
            ):
                return [_one_of(i, lead, lead.reps) for i in loads]
            return [lead, *(_one_of(i, None, ((1, 1, False),)) for i in loads[1:])]
        if count == ONE:
            return [_one_of(i, lead, lead.reps) for i in loads]
        raise Misfit("The number of loads is not the number of sets.")

    def _shared_load(self, items: list[Item]) -> None:
        """ "3x5, 2x3 @ 70 %": whose load is it?"""
        for one, two in zip(items, items[1:], strict=False):
            load = one.load
            if (
                load is None
                or load.start > one.start
                or load.kind not in ("percent", "kg", "lb", "bare")
                or not one.pair
            ):
                continue
            if two.load is None and two.scheme and not two.apart:
                if (
                    self.ask.ask("next load", ("same", "open"), "Write the load behind each of the sets.")
                    == "same"
                ):
                    two.load = load
        if len(items) < 2 or items[-1].load is None or any(i.load is not None for i in items[:-1]):
            return
        if not all(i.scheme for i in items) or items[-1].load.kind in ("heavy", "open"):
            return
        if self.ask.ask("shared load", ("all", "last"), "Write the load behind each of the sets.") == "all":
            for item in items[:-1]:
                item.load = items[-1].load

    # groups

    def _order(self, item: Item, pair: tuple[Amount, Amount]) -> tuple[Amount, Amount]:
        """(sets, reps) of two numbers."""
        one, two = pair
        if one == two:
            return one, two
        if item.after_load:
            first = self.conventions.loaded_order or "reps-first"
            return (two, one) if first == "reps-first" else (one, two)
        if self.conventions.order:
            return (one, two) if self.conventions.order == "sets-first" else (two, one)
        if one[0] and two[0] and two[1] and one[1]:
            if two[0] >= 15 and one[1] <= 6:
                return one, two
            if two[1] > two[0] >= 5 and one[0] == one[1] and one[1] <= 6:
                return one, two
            if self._accessory() and two[0] >= 8 and one[1] <= 5:
                return one, two
        if self.ask.ask("order", ("sets first", "reps first"), SETTLE_ORDER) == "sets first":
            return one, two
        return two, one

    def _accessory(self) -> bool:
        drafts = self.entry.parts
        if len(drafts) != 1 or not drafts[0].movement:
            return False
        found = self.names.find(drafts[0].core)
        entry = found.entry if found is not None else None
        return getattr(entry, "lifts_per_rep", 1) == 0 or (found is not None and found.kind == "drill")

    def _groups(self, item: Item, items: list[Item], parts: list[Part], n: int) -> list[SetGroup]:
        all_ = self.entry.all
        if item.unsure in ("time", "way") and (item.pair or item.reps or item.solo):
            raise Misfit("Reps stand together with a time or a distance.")
        count, reps = item.count, item.reps
        every = item.every_s if item.every_s is not None else all_.every_s
        if item.pair is not None:
            sets, each = self._order(item, item.pair)
            count, reps = _whole(sets), (each,)
        elif item.solo is not None:
            count, reps = self._solo(item, items)
        if (
            count is None
            and item.unsure == "reps"
            and not item.climbing
            and every is None
            and all_.within_s is None
        ):
            count = ONE
        if item.climbing and count is ONE:
            count = None
        if every is not None and len(items) == 1 and (count is None or count is ONE):
            count = self._interval_count(every, all_, count)
        if reps is None and item.hold_s is None and item.distance_m is None:
            if item.bare_list and item.load is not None:
                count, reps = self._bare_load(item, items, count)
            if (
                reps is None
                and n > 1
                and len(parts) == n
                and item.load is not None
                and item.load.kind not in ("open", "heavy")
            ):
                reps = ((1, 1, False),) * n
            if (
                every is not None
                and reps is None
                and (item.load is None or item.load.kind != "open")
                and (item.load or item.unsure == "minutes")
            ):
                reps = ((1, 1, False),)
        cluster = item.cluster
        if cluster and len(parts) == len(cluster) and reps is not None and len(reps) == 1:
            reps, cluster = tuple((k, k, False) for k in cluster), ()
        elif cluster and item.unsure == "dots" and count is None:
            if (
                self.ask.ask(
                    "dots",
                    ("cluster", "sets"),
                    "Write 3-3-3 for sets, (3.3.3) for one set with short breaks.",
                )
                == "sets"
            ):
                if len(set(cluster)) > 1:
                    raise Misfit("The dots can mean sets or breaks.")
                count, reps, cluster = (
                    Span(len(cluster), len(cluster)),
                    ((cluster[0], cluster[0], False),),
                    (),
                )
        if reps is not None and len(reps) > 1 and len(reps) != len(parts):
            if len(parts) == 1 and all(a == (1, 1, False) for a in reps) and not cluster:
                cluster = (1,) * len(reps)
                reps = ((len(reps), len(reps), False),)
            elif parts:
                raise Misfit("The reps in the sum are not as many as the movements.")
        if reps is None:
            shown: tuple[Reps | None, ...] = (None,) * n
        elif len(reps) == 1:
            shown = (_reps(reps[0]),) * n
        else:
            shown = tuple(_reps(a) for a in reps)
        within = item.within_s if item.within_s is not None else (all_.within_s if every is None else None)
        return [
            SetGroup(
                count=count, reps=shown, load=self._load(item, items), climbing=item.climbing, drop=item.drop, wave=item.wave,
                cluster=cluster, cluster_rest_s=item.cluster_rest_s, every_s=every, within_s=within,
                rest_s=item.rest_s or all_.rest_s, hold_s=item.hold_s, distance_m=item.distance_m,
                tempo=item.tempo or all_.tempo, per_side=item.per_side or all_.per_side, missed=item.missed, note=item.note,
            )
        ]  # fmt: skip

    def _solo(self, item: Item, items: list[Item]) -> tuple[Span | None, tuple[Amount, ...] | None]:
        """One number with a load: reps of one set, or sets of one."""
        amount = item.solo or (None, None, False)
        several = sum(1 for i in items if i.solo is not None) > 1
        if item.unsure == "brackets":
            if self.ask.ask("number in brackets", ("sets", "reps"), SETTLE_SETS) == "sets":
                return _whole(amount), ((1, 1, False),)
            return ONE, (amount,)
        if (
            several
            or amount[2]
            or amount[0] is None
            or amount[0] >= 7
            or (item.every_s or self.entry.all.every_s)
        ):
            return ONE, (amount,)
        if amount == (1, 1, False):
            return ONE, (amount,)
        if self.ask.ask("one number", ("reps", "sets"), SETTLE_SETS) == "reps":
            return ONE, (amount,)
        return _whole(amount), ((1, 1, False),)

    def _interval_count(self, every: int, all_: Item, count: Span | None) -> Span | None:
        if all_.unsure.startswith("every "):
            number = int(all_.unsure.split()[1])
            sets = number * 60 // every if number * 60 % every == 0 else number
            if sets == number or sets == 0:
                return Span(number, number)
            answer = self.ask.ask("interval", ("sets", "minutes"), "Write 'for 5 sets' or 'for 10 minutes'.")
            return Span(number, number) if answer == "sets" else Span(sets, sets)
        return all_.count if all_.count is not None else count

    def _bare_load(
        self, item: Item, items: list[Item], count: Span | None
    ) -> tuple[Span | None, tuple[Amount, ...] | None]:
        """A load without sets: one of a list, or alone."""
        load = item.load
        several = len(items) > 1
        if load is None or item.climbing or not several and not item.missed:
            return count, None
        if load.kind == "percent" or load.kind in ("effort", "open", "heavy"):
            return (ONE if several and load.kind == "percent" and load.of[0] != "top" else count), None
        return ONE, ((1, 1, False),)

    # loads

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
        settled = self.conventions.bare
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

    def _waves(self, groups: list[SetGroup]) -> list[SetGroup]:
        waves = self.entry.waves
        if not waves or any(g.wave for g in groups):
            return groups
        number = max(1, waves)
        if number * len(groups) > 200:
            raise Misfit("There are too many waves.")
        return [msgspec.structs.replace(g, wave=k) for k in range(1, number + 1) for g in groups]


def _reps(amount: Amount) -> Reps | None:
    low, high, more = amount
    return None if low is None and not more else Reps(low, high, more)


def _whole(amount: Amount) -> Span:
    low, high, more = amount
    if low is None or high is None or more or not 0 < low <= high <= 60:
        raise Misfit("The number of sets is not a plain number.")
    return Span(low, high)


def _copy(item: Item) -> Item:
    fresh = Item(item.start, item.chain)
    for field in Item.__slots__:
        setattr(fresh, field, getattr(item, field))
    return fresh


def _with_scheme(item: Item, lead: Item) -> Item:
    fresh = _copy(lead)
    fresh.load = item.load
    fresh.missed = item.missed
    return fresh


def _only_load(lead: Item) -> Item:
    fresh = Item(lead.start)
    fresh.load = lead.load
    fresh.missed = lead.missed
    return fresh


def _one_of(item: Item, lead: Item | None, reps: tuple[Amount, ...] | None) -> Item:
    fresh = _copy(lead) if lead is not None else Item(item.start)
    fresh.load, fresh.missed = item.load, item.missed
    fresh.pair = fresh.solo = None
    fresh.count, fresh.reps = ONE, reps
    return fresh


def _joined(groups: list[SetGroup]) -> tuple[SetGroup, ...]:
    """Neighbours that differ in nothing become one group: "100x10, 100x10" is two sets."""
    out: list[SetGroup] = []
    for group in groups:
        last = out[-1] if out else None
        if (
            last is not None and last.count is not None and group.count is not None and not group.missed and not group.drop
            and last.count.low == last.count.high and group.count.low == group.count.high
            and msgspec.structs.replace(last, count=group.count) == group and last.load != Open()
        ):  # fmt: skip
            total = last.count.low + group.count.low
            out[-1] = msgspec.structs.replace(last, count=Span(total, total))
        else:
            out.append(group)
    return tuple(out)
