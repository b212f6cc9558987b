"""The recovery segment for the minutes that a lifter has: 3, 8, 15 or 30, and one drill rather than none.

What it is worth is comfort, and range in the long run; nobody has shown that it repairs anything. The choice
is exact: a knapsack over drills, one of a region, each once or twice over.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import NamedTuple

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Kind, Region
from meetward.catalogue.movement import COMMON_PRACTICE, Family, Movement
from meetward.cycle.tree import Line, Part, Segment, Session
from meetward.fit.regions import WORKING, Needs, held_muscles, needs, touches
from meetward.fit.restrictions import rules_out
from meetward.fit.words import dose_words, entry_of
from meetward.lifter.restrictions import Limits
from meetward.lifter.screen import Screen, TestId
from meetward.why import Why

COMFORT = (
    "Comfort, not repair: it may ease soreness a little, and nobody has shown that it makes anyone stronger."
)

HONEST: Mapping[Kind, tuple[str, str]] = {
    "static stretch": (
        "for range only; stretching afterwards does next to nothing for soreness",
        "Dupuy et al. 2018, 99 studies: not among the means that eased soreness",
    ),
    "contract-relax": (
        "for range only; stretching afterwards does next to nothing for soreness",
        "Dupuy et al. 2018, 99 studies: not among the means that eased soreness",
    ),
    "soft tissue": (
        "a little less soreness, next to nothing else",
        "Wiewelhove et al. 2019, Front Physiol 10:376, 21 studies: soreness 6.0 % less",
    ),
    "breathing": (
        "calming; faster recovery is not shown",
        "a trial of 40 students, 2025, and a review, 2023",
    ),
    "loaded": (
        "strength through the range, as good for range as stretching",
        "Afonso et al. 2021, 11 trials, 452 people",
    ),
    "raise": ("easy movement eases soreness a little", "Dupuy et al. 2018, 99 studies; critics doubt them"),
    "dynamic": ("easy movement, for comfort", COMMON_PRACTICE),
    "activation": ("easy work for comfort", COMMON_PRACTICE),
    "rehearsal": ("easy work for comfort", COMMON_PRACTICE),
}
"""What may honestly be said of each kind of drill, and where it comes from."""

MOST_DRILLS = 4
"""Fewer than four exercises go with their being done at all (Bachmann 2018, review of 14 studies of home
exercise); four at most."""

MOST_HELD_S = 240
"""Static seconds on a muscle in one sitting; range gains level off there (Ingram et al. 2024, Sports Med, 189
studies, as restated)."""

MOST_HELD_WEEK_S = 600
"""The same for a week."""

_BASE, _WHOLE_BODY = 10, 14
_NEED = (60, 40)
_WORKED = 20
_SKIPPED, _MOST_SKIPPED = 8, 3
_AGAIN = 2
_A_MINUTE, _LONGEST_TENTHS = 4, 100
"""Points: any drill; one for the whole body; the first and second position worked on; what was trained today;
each time that it was skipped lately; a second round counts half; each minute up to ten. Judgement, no
source."""

LONGEST_MINUTES = 120


class Skipped(msgspec.Struct, frozen=True):
    """A drill that was offered lately and not done.

    painful : left out because of pain. That is no miss, and it is not offered again before the coach says so.
    """

    drill: str
    times: int = 1
    painful: bool = False


class Chosen(msgspec.Struct, frozen=True):
    """A drill of the segment.

    rounds : how often the usual dose is done.
    """

    drill: str
    name: str
    dose: str
    rounds: int
    minutes: float
    points: int
    why: Why


class Recovery(msgspec.Struct, frozen=True):
    """A recovery segment.

    drills : in the order in which they are done.
    minutes : of all of them. [min]
    points : worth of the whole; for comparison only.
    said : what it is for, what it cannot do, what was left alone.
    """

    drills: tuple[Chosen, ...]
    minutes: float
    points: int
    said: tuple[str, ...]


class Item(NamedTuple):
    """A drill with its rounds, as the choice sees it.

    region : of these at most one is taken.
    held : static seconds on each muscle. [s]
    """

    drill: str
    region: Region
    tenths: int
    points: int
    rounds: int
    held: tuple[tuple[Region, int], ...] = ()

    @property
    def score(self) -> int:
        """Points; of equals fewer drills, then less time."""
        return self.points * 100_000 - 2_000 - self.tenths


def trained_regions(session: Session, catalogue: Catalogue) -> frozenset[Region]:
    """Muscles that the lifts of a session worked."""
    families: set[Family] = set()
    for segment in session.segments:
        if segment.kind == "lifts":
            for line in segment.lines:
                entries = (entry_of(part, catalogue) for part in line.parts)
                families.update(entry.family for entry in entries if isinstance(entry, Movement))
    return frozenset(region for family in families for region in WORKING.get(family, ()))


def as_segment(plan: Recovery) -> Segment:
    """The recovery segment as it stands in a session: a line for each drill, with its dose as a note."""
    lines = tuple(
        Line((Part(one.name, one.drill),), notes=(one.dose,) if one.dose else ()) for one in plan.drills
    )
    return Segment("recovery", lines)


def recovery(
    minutes: float,
    catalogue: Catalogue,
    *,
    screen: Screen | None = None,
    trained: Iterable[Region] = (),
    skipped: Iterable[Skipped] = (),
    painful: Iterable[Region] = (),
    held_this_week_s: Mapping[Region, int] | None = None,
    limits: Limits | None = None,
    on: date | None = None,
    most: int = MOST_DRILLS,
    first: Iterable[TestId] = (),
) -> Recovery:
    """The best recovery drills for the time that there is; one is offered even where none fits.

    minutes : what the lifter has; used to the tenth, rounded down. [min]
    trained : muscles that worked today, as `trained_regions` gives them.
    skipped : drills offered lately and not done.
    painful : regions that hurt today; nothing that touches them is offered.
    held_this_week_s : static seconds that each muscle has had this week. [s]
    Raises ValueError for minutes below zero, no number, or more than two hours, and for ``most`` below 1 or
    above 4.
    """
    if not 0 <= minutes <= LONGEST_MINUTES:
        raise ValueError(f"{minutes:g} min for recovery: give 0 to {LONGEST_MINUTES}.")
    if not 1 <= most <= MOST_DRILLS:
        raise ValueError(f"{most} recovery drills: take 1 to {MOST_DRILLS}; more of them is not done.")
    asked = needs(screen, first)
    hurts = asked.painful | frozenset(painful)
    misses = {one.drill: one for one in skipped}
    drills = {
        drill.id: drill
        for drill in catalogue.drills.values()
        if "recovery" in drill.uses
        and not touches(drill, hurts)
        and not (drill.id in misses and misses[drill.id].painful)
        and not rules_out(drill, (limits or Limits()).on(on), catalogue)
    }
    found = items(drills.values(), asked, frozenset(trained), misses, held_this_week_s or {})
    best = pack(found, int(minutes * 10 + 1e-9), most)
    said = [COMFORT, *asked.said]
    if not best and found:
        short = [item for item in found if item.tenths <= 10] or [min(found, key=lambda item: item.tenths)]
        one = max(short, key=lambda item: item.score)
        best = (one,)
        said.append(f"One drill rather than none: it takes {one.tenths / 10:g} min.")
    elif not best:
        said.append("Nothing is offered today: what there is would touch what hurts or what is left out.")
    if hurts:
        said.append(
            f"Nothing for {', '.join(sorted(hurts))}: that hurts. A physiotherapist or doctor has the word."
        )
    spent = sum(item.tenths for item in best)
    if best and minutes * 10 - spent >= 50:
        said.append("That is enough: more drills are mostly left undone, and longer holds add nothing shown.")
    ordered = sorted(best, key=lambda item: _order(drills[item.drill]))
    chosen = tuple(_chosen(item, drills[item.drill], asked, frozenset(trained), misses) for item in ordered)
    return Recovery(chosen, spent / 10, sum(item.points for item in best), tuple(said))


def items(
    drills: Iterable[Drill],
    asked: Needs,
    trained: frozenset[Region],
    skipped: Mapping[str, Skipped],
    held_this_week_s: Mapping[Region, int],
) -> tuple[Item, ...]:
    """Every drill with one round and with two, where the limits on holding allow it, and its worth."""
    worth_of = {drill: _points(drill, asked, trained, skipped) for drill in drills}
    # Where there is a reason for some, a drill that nothing speaks for only fills time.
    reasons = any(points > _WHOLE_BODY for points in worth_of.values())
    found = []
    for drill, points in worth_of.items():
        if reasons and points <= _BASE:
            continue
        region = drill.regions[0] if drill.regions else "whole body"
        for rounds in (1, 2):
            held = drill.held_s * rounds
            week = max((held_this_week_s.get(muscle, 0) for muscle in held_muscles(drill)), default=0)
            if held and (held > MOST_HELD_S or held + week > MOST_HELD_WEEK_S):
                continue
            worth = points if rounds == 1 else points + points // _AGAIN
            tenths = max(round(drill.minutes * 10), 1) * rounds
            worth += _A_MINUTE * min(tenths, _LONGEST_TENTHS) // 10
            muscles = tuple((muscle, held) for muscle in sorted(held_muscles(drill))) if held else ()
            found.append(Item(drill.id, region, tenths, worth, rounds, muscles))
    return tuple(found)


def pack(found: tuple[Item, ...], tenths: int, most: int) -> tuple[Item, ...]:
    """The items worth most in ``tenths`` of a minute: one of a region, ``most`` at most, and no muscle held
    for longer than the limit of a sitting. Exact.

    Of equals the one with fewer drills, then the shorter one.
    """
    # Without the limit on holding it is a plain knapsack; its answer nearly always keeps the limit as well.
    best = _knapsack(found, tenths, most)
    return best if _held_within(best) else _searched(found, tenths, most)


def _knapsack(found: tuple[Item, ...], tenths: int, most: int) -> tuple[Item, ...]:
    by_region: dict[Region, list[Item]] = {}
    for item in found:
        by_region.setdefault(item.region, []).append(item)
    # rows[k][t]: the best choice of k items in exactly t tenths, with its score.
    rows: list[dict[int, tuple[int, tuple[Item, ...]]]] = [{0: (0, ())}, *({} for _ in range(most))]
    for group in by_region.values():
        for k in range(most, 0, -1):
            row = dict(rows[k])
            for t, (score, chosen) in rows[k - 1].items():
                for item in group:
                    after = t + item.tenths
                    if after <= tenths and (after not in row or score + item.score > row[after][0]):
                        row[after] = score + item.score, (*chosen, item)
            rows[k] = row
    return max((answer for row in rows for answer in row.values()), key=lambda answer: answer[0])[1]


def _searched(found: tuple[Item, ...], tenths: int, most: int) -> tuple[Item, ...]:
    """As `pack`, by looking at every choice that could still be the best."""
    ordered = sorted(found, key=lambda item: -item.score)
    best: tuple[int, tuple[Item, ...]] = (0, ())

    def deeper(start: int, chosen: tuple[Item, ...], score: int, left: int) -> None:
        nonlocal best
        if score > best[0]:
            best = score, chosen
        more = most - len(chosen)
        for at in range(start, len(ordered)):
            item = ordered[at]
            if more <= 0 or score + sum(next_.score for next_ in ordered[at : at + more]) <= best[0]:
                return
            fits = item.tenths <= left and all(item.region != one.region for one in chosen)
            if fits and _held_within((*chosen, item)):
                deeper(at + 1, (*chosen, item), score + item.score, left - item.tenths)

    deeper(0, (), 0, tenths)
    return best[1]


def _held_within(chosen: Iterable[Item]) -> bool:
    held: dict[Region, int] = {}
    for item in chosen:
        for muscle, seconds in item.held:
            held[muscle] = held.get(muscle, 0) + seconds
    return max(held.values(), default=0) <= MOST_HELD_S


def stretch_week(sittings: int, holds: int, hold_s: int) -> str:
    """What a week of holding one muscle comes to, in a sentence.

    sittings : in the week.
    holds, hold_s : holds of a sitting, and the seconds of each. [s]
    Raises ValueError for numbers below zero.
    """
    if min(sittings, holds, hold_s) < 0:
        raise ValueError("Sittings, holds and seconds are 0 or more.")
    total = sittings * holds * hold_s
    minutes = f"{total / 60:g} min a week"
    if total > MOST_HELD_WEEK_S:
        return f"{minutes}: no added gain shown beyond {MOST_HELD_WEEK_S // 60}; do less."
    return f"{minutes}: at the plateau." if total == MOST_HELD_WEEK_S else f"{minutes}."


def _points(drill: Drill, asked: Needs, trained: frozenset[Region], skipped: Mapping[str, Skipped]) -> int:
    points = _WHOLE_BODY if {"whole body", "breathing"} & set(drill.regions) else _BASE
    for weight, need in zip(_NEED, asked.now, strict=False):
        if drill.regions and drill.regions[0] in need.regions:
            points += weight
            break
        if frozenset(drill.regions) & frozenset(need.regions):
            points += weight // 2
            break
    if trained & (frozenset(drill.regions) | held_muscles(drill)):
        points += _WORKED
    if drill.id in skipped:
        points += _SKIPPED * min(skipped[drill.id].times, _MOST_SKIPPED)
    return points


def _order(drill: Drill) -> tuple[int, str]:
    """Easy movement first, breathing last, holds between them."""
    first: tuple[Kind, ...] = ("raise", "dynamic", "activation", "rehearsal", "soft tissue", "loaded")
    last: tuple[Kind, ...] = ("static stretch", "contract-relax", "breathing")
    return (*first, *last).index(drill.kind), drill.id


def _chosen(
    item: Item, drill: Drill, asked: Needs, trained: frozenset[Region], skipped: Mapping[str, Skipped]
) -> Chosen:
    reasons = [
        f"{need.name.lower()} is below its mark"
        for need in asked.now
        if frozenset(drill.regions) & frozenset(need.regions)
    ]
    if worked := [r for r in drill.regions if r in trained] or sorted(trained & held_muscles(drill)):
        reasons.append(f"{worked[0]} worked today")
    if drill.id in skipped:
        reasons.append("left out lately")
    words, source = HONEST[drill.kind]
    because = "; ".join(reasons) or "it fits the time"
    why = Why(
        f"{drill.name}: {because}; {words}.",
        inputs=(("regions", ", ".join(drill.regions)), ("points", str(item.points))),
        rule="most points in the time there is, one drill of a region, four drills at most",
        source=source,
    )
    dose = dose_words(drill.dose)
    if item.rounds > 1:
        dose = f"{dose}, twice over" if dose else "twice over"
    return Chosen(drill.id, drill.name, dose, item.rounds, item.tenths / 10, item.points, why)
