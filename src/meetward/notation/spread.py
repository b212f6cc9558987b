"""Sets of an entry that belong together: lists of loads with one scheme, reps at the names, the order of
AxB."""

import itertools

from meetward.cycle.tree import Span

from .items import ONE, Amount, Item
from .weights import SETTLE_ORDER, Misfit, WeightRules


class SpreadRules(WeightRules):
    """Settles sets."""

    def _items(self, n: int) -> list[Item]:
        entry, all_ = self.entry, self.entry.all
        items = list(entry.items)
        own = self._own_reps()
        if entry.sum_reps is not None:
            if own is not None:
                raise Misfit("Reps stand in it twice.")
            own = entry.sum_reps
            for item in items:
                if item.reps is not None or (item.solo is not None and item.load is None):
                    raise Misfit("Reps stand in it twice.")
        said = own is not None or any(m is not None for m in (all_.count, all_.every_s, all_.within_s))
        if entry.parts and (all_.rest_s is not None or all_.tempo):
            said = True  # "Front squat, tempo 30X0": nothing else was said
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
        if all_.count is not None and len(items) > 1:
            self._all_counted(items, all_.count)
        if all_.unsure.startswith("every ") and any(
            i.count is not None and i.count is not ONE for i in items
        ):
            number = int(all_.unsure.split()[1])
            if any(i.count not in (None, Span(number, number)) for i in items):
                raise Misfit("The number of sets stands in it twice.")
        only = items[0] if len(items) == 1 and not items[0].chain else None
        if only is not None and only.count == ONE and all_.count is not None and all_.every_s is not None:
            # "Snatch double 70%, E90S x 7": the double is done each time.
            items = [only := _copy(only)]
            only.count = None
        timed = all_.count if all_.within_s and all_.every_s else None
        if only is not None and timed is not None and only.count not in (None, ONE, timed):
            raise Misfit("The sets are not as many as the time holds.")
        items = self._lists(items)
        fresh: list[Item] = []
        for item in items:
            copy = _copy(item)
            if own is not None:
                self._take_own(copy, own)
            fresh.append(copy)
        self._shared_load(fresh)
        for one, two in itertools.pairwise(fresh):
            # "3-2-1-1 up to 85 %" is one climb: only its last sets come to the top.
            rising = one.climbing or (one.load is not None and one.load.kind == "heavy")
            if one.chain and one.chain == two.chain and one.load is two.load and rising:
                one.on_the_way = True
        return fresh

    @staticmethod
    def _all_counted(items: list[Item], count: Span) -> None:
        """The sets of an interval must be as many as were said; what has no number of its own is one set."""
        paired = any(i.pair is not None for i in items)
        numbers = [i.count.low if i.count is not None else 1 for i in items]
        if not paired and count != Span(sum(numbers), sum(numbers)):
            raise Misfit("The number of loads is not the number of sets.")

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
        if item.solo is not None and (item.unsure == "times" or (len(own) > 1 and item.load is not None)):
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
        if item.reps is not None and len(item.reps) == 1 and item.reps[0][0] == 1 and len(own) > 1:
            item.reps = own
            return
        raise Misfit("Reps stand in it twice.")

    def _lists(self, items: list[Item]) -> list[Item]:
        """Lists of loads with sets said once, before or behind them."""
        if len(items) < 2:
            return items
        cut = next((k for k, item in enumerate(items) if k and item.apart), 0)
        if cut:
            return [*self._lists(items[:cut]), *self._lists(items[cut:])]
        ladder = self._ladder_of_loads(items)
        if ladder:
            return ladder
        bare = [i.bare_list for i in items]
        if all(bare):
            return items
        first = next(k for k, b in enumerate(bare) if not b)
        out: list[Item] = []
        k = 0
        if first > 0:
            # Loads without sets stand before the first sets: "60, 70, 80 % x 2".
            head, lead = items[:first], items[first]
            if len(head) == 1 and lead.load is None and not head[0].missed:
                items[first] = _loaded(lead, head[0])
                head = []
                lead = items[first]
            if (
                lead.load is not None
                and self._same_sort(head, lead)
                and not any(i.missed or i.climbing for i in head)
            ):
                # "80%, 85%, 90% singles" says it of all; "60, 70, 80% x 2" may not.
                every = lead.count is None and lead.reps is not None
                settle = "Write the sets and reps behind every weight."
                if every or self.ask.ask("list", ("all", "last"), settle) == "all":
                    out += [_with_scheme(i, lead) for i in head]
                    items[first] = _with_scheme(lead, lead)
                else:
                    out += head
            else:
                out += head
            k = first
        while k < len(items):
            lead = items[k]
            follow = k + 1
            while follow < len(items) and bare[follow] and not items[follow].climbing:
                follow += 1
            tail = items[k + 1 : follow]
            if len(tail) == 1 and lead.load is None:
                out.append(_loaded(lead, tail[0]))  # the load stands on the line below
            elif tail and lead.load is None:
                out += self._spread(lead, tail)
            elif tail and lead.load is not None and self._same_sort(tail, lead):
                out += self._spread(lead, [_only_load(lead), *tail])
            else:
                out += [lead, *tail]
            k = follow
        return out

    @staticmethod
    def _ladder_of_loads(items: list[Item]) -> list[Item]:
        """ "3-2-1-1 @ 70-75-80-85 %": a load for each set of a ladder; empty where it is something else."""
        rungs = list(itertools.takewhile(lambda i: i.chain and not i.bare_list, items))
        if len(rungs) < 2 or rungs[-1].load is None:
            return []
        loads = [rungs[-1], *items[len(rungs) :]]
        if len(loads) < 2 or not all(i.bare_list for i in loads[1:]):
            return []
        if any(i.load not in (None, rungs[-1].load) for i in rungs):
            return []
        reps = [i.reps for i in rungs for _ in range(i.count.low if i.count is not None else 1)]
        if len(reps) != len(loads):
            if any(i.load is None for i in rungs):
                raise Misfit("The number of loads is not the number of sets.")
            return []
        return [_one_of(load, rungs[0], each) for load, each in zip(loads, reps, strict=True)]

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
        if len({i.load.kind for i in loads if i.load is not None} - {"bare"}) > 1:
            raise Misfit("Loads of two sorts stand in one list.")
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
        for one, two in itertools.pairwise(items):
            load = one.load
            if (
                load is None
                or load.start > one.start
                or load.kind not in ("percent", "kg", "lb", "bare")
                or not one.pair
            ):
                continue
            if (
                two.load is None
                and two.scheme
                and not two.apart
                and (
                    self.ask.ask("next load", ("same", "open"), "Write the load behind each of the sets.")
                    == "same"
                )
            ):
                two.load = load
        if any(i.apart for i in items):
            return
        if len(items) < 2 or items[-1].load is None or any(i.load is not None for i in items[:-1]):
            return
        if not all(i.scheme for i in items) or items[-1].load.kind in ("heavy", "open"):
            return
        if self.ask.ask("shared load", ("all", "last"), "Write the load behind each of the sets.") == "all":
            for item in items[:-1]:
                item.load = items[-1].load
                item.climbing = item.on_the_way = items[-1].climbing

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
    if fresh.count is None and fresh.pair is None and fresh.solo is None:
        fresh.count = ONE
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
    fresh.rest_s, fresh.every_s = item.rest_s or fresh.rest_s, item.every_s or fresh.every_s
    fresh.tempo, fresh.per_side = item.tempo or fresh.tempo, item.per_side or fresh.per_side
    return fresh


def _loaded(lead: Item, load: Item) -> Item:
    """Sets and the load that was written on another line."""
    fresh = _copy(lead)
    fresh.load, fresh.climbing, fresh.missed = load.load, load.climbing or lead.climbing, load.missed
    return fresh
