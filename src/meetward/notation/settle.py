"""From what a line says to sets: open points are settled by the conventions, or read in every way."""

import msgspec

from meetward.cycle.load import (
    Heavy,
    Open,
)
from meetward.cycle.tree import Part, Reps, SetGroup, Span

from .conventions import Answers, Conventions, every_reading
from .items import ONE, Amount, Item
from .names import NameReader, PartDraft
from .spread import SpreadRules, _whole
from .weights import SETTLE_SETS, Entry, Misfit


class Settled(msgspec.Struct, frozen=True):
    """A line in one way of reading."""

    parts: tuple[Part, ...]
    groups: tuple[SetGroup, ...]


def readings(
    entry: Entry, conventions: Conventions, names: NameReader
) -> tuple[list[Settled], list[Answers], str]:
    """All ways to read an entry, the customary first; the answers that each gave; why it cannot be read, if
    so."""
    found: list[Settled] = []
    answers: list[Answers] = []
    try:
        for settled, given in every_reading(lambda ask: _Settling(entry, conventions, names, ask).settle()):
            found.append(settled)
            answers.append(given)
    except Misfit as misfit:
        return [], [], str(misfit)
    return found, answers, ""


class _Settling(SpreadRules):
    """One reading of one entry."""

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
        if len(groups) > 1 and any(_naked(group) for group in groups):
            raise Misfit("Something stands alone beside the sets: a load, or a number of sets.")
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

    # groups

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
        if every is None and all_.count is not None and not item.missed:
            # "3 rounds:" above
            if count not in (None, ONE, all_.count) or len(items) > 1:
                raise Misfit("The number of sets stands in it twice.")
            count = all_.count
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
        if count is None and len(items) > 1 and reps is not None and len(reps) > 1 and item.bare_sum:
            count = ONE  # "60% 2+1, 70% (2+1)2"
        cluster = item.cluster
        if cluster and len(parts) == len(cluster) and reps is not None and len(reps) == 1:
            reps, cluster = tuple((k, k, False) for k in cluster), ()
        elif (
            cluster
            and item.unsure == "dots"
            and count is None
            and (
                self.ask.ask(
                    "dots",
                    ("cluster", "sets"),
                    "Write 3-3-3 for sets, (3.3.3) for one set with short breaks.",
                )
                == "sets"
            )
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
                count=count, reps=shown, load=self._load(item, items), climbing=item.climbing,
                on_the_way=item.on_the_way,
                drop=item.drop, wave=item.wave,
                cluster=cluster, cluster_rest_s=item.cluster_rest_s, every_s=every, within_s=within,
                rest_s=item.rest_s or all_.rest_s, hold_s=item.hold_s, distance_m=item.distance_m,
                tempo=item.tempo or all_.tempo, per_side=item.per_side or all_.per_side, missed=item.missed,
                note=item.note,
            )
        ]  # fmt: skip

    def _solo(self, item: Item, items: list[Item]) -> tuple[Span | None, tuple[Amount, ...] | None]:
        """One number with a load: reps of one set, or sets of one."""
        amount = item.solo or (None, None, False)
        several = sum(1 for i in items if i.solo is not None) > 1
        if item.unsure == "brackets" and sum(1 for i in items if i.unsure == "brackets") > 1:
            return ONE, (amount,)
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
        if load is None or item.climbing or (not several and not item.missed):
            return count, None
        if load.kind == "percent" or load.kind in ("effort", "open", "heavy"):
            return (ONE if several and load.kind == "percent" and load.of[0] != "top" else count), None
        return ONE, ((1, 1, False),)

    # loads

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


def _joined(groups: list[SetGroup]) -> tuple[SetGroup, ...]:
    """Neighbours that differ in nothing become one group: "100x10, 100x10" is two sets."""
    out: list[SetGroup] = []
    for group in groups:
        last = out[-1] if out else None
        if last is not None and last.count is not None and _once_more(last, group):
            total = last.count.low + 1
            out[-1] = msgspec.structs.replace(last, count=Span(total, total))
        else:
            out.append(group)
    return tuple(out)


def _once_more(last: SetGroup, group: SetGroup) -> bool:
    """Whether a group is one more set of the group before it."""
    if group.count != ONE or last.count is None or last.count.low != last.count.high:
        return False
    if group.missed or group.drop or group.load == Open():
        return False
    return msgspec.structs.replace(last, count=group.count) == group


def _naked(group: SetGroup) -> bool:
    """Whether a group beside others says a load or a number of sets and nothing else."""
    if (
        group.hold_s is not None
        or group.distance_m is not None
        or any(group.reps)
        or group.climbing
        or group.note
    ):
        return False
    if isinstance(group.load, Heavy):
        return False
    return group.count is None or group.count != ONE
