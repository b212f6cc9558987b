"""Between-set work from a mobility screen: at most a few drills, in the rests of the lines that need them.

Everything that may be placed is listed, every set of up to four is weighed, and the best one is taken: exact,
not searched by rule of thumb. No drill lengthens a rest or takes from it, none holds a muscle that the next
lift works with, and nothing is offered for what hurts.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from functools import lru_cache

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Kind, Region
from meetward.catalogue.movement import COMMON_PRACTICE, Movement
from meetward.cycle.tree import Between, Session
from meetward.fit.minutes import DRILL_REP_S, line_sets
from meetward.fit.regions import (
    DEMANDS,
    STATIC_LIMIT_S,
    STATIC_SOURCE,
    WORKING,
    Needs,
    held_muscles,
    needs,
    touches,
)
from meetward.fit.restrictions import rules_out
from meetward.fit.static_holds import lines_of, static_seconds
from meetward.fit.words import dose_words, entry_of, line_words
from meetward.lifter.restrictions import Limits
from meetward.lifter.screen import Screen, TestId
from meetward.units import show_seconds
from meetward.why import Why


class PlacementRule(msgspec.Struct, frozen=True):
    """A rule of what stands between sets. ``default`` is the number in it, where it has one."""

    id: str
    says: str
    because: str
    source: str
    default: int = 0


RULES: dict[str, PlacementRule] = {
    rule.id: rule
    for rule in (
        PlacementRule(
            "worth working on",
            "Only positions that the screen found below their mark; a test not done asks for nothing.",
            "A missing test is unknown, never a fault.",
            "judgement, no source",
        ),
        PlacementRule(
            "most drills",
            "Three drills a session, never more than four.",
            "Fewer than four exercises go with their being done at all.",
            "Bachmann 2018, review of 14 studies of home exercise",
            3,
        ),
        PlacementRule(
            "rest is not shortened",
            "A drill and half a minute of standing still fit into the rest as it is.",
            "The rest is there for the next set.",
            "judgement, no source",
            30,
        ),
        PlacementRule(
            "static hold",
            "No hold of a muscle that the next lift works with; of another 30 s at most, then a free minute.",
            "A muscle that was just held long is weaker for a while.",
            STATIC_SOURCE,
            30,
        ),
        PlacementRule(
            "static seconds",
            "Under 60 s of holding a muscle from the start of the session to its last heavy set.",
            "From a minute on the loss is likely.",
            STATIC_SOURCE,
            STATIC_LIMIT_S,
        ),
        PlacementRule(
            "kinds",
            "Slow and controlled through the range: no contract-relax, rolling, swings, nothing that tires.",
            "What tires or excites the muscle takes from the next set.",
            "Behm et al. 2016, Appl Physiol Nutr Metab 41:1-11 (contract-relax -4.4 %, dynamic +1.3 %)",
        ),
        PlacementRule(
            "two rests",
            "Each drill in two rests of its line, after the first work sets.",
            "A fixed place is kept; range gained lasts under half an hour.",
            "Behm et al. 2016 for the half hour; two rests: common practice, no source",
            2,
        ),
    )
}

KINDS: frozenset[Kind] = frozenset({"dynamic", "rehearsal", "activation", "loaded", "static stretch"})
NEVER_ABOVE = 4
MINUTES = 8
"""For all between-set work of a session. Common practice, no source."""

_FREE_AFTER_HOLD_S = 60
_ONE_DRILL, _SECOND_TEST = 100, 70
_HALF = 2
_NEAR = (30, 20, 10)
"""Points: for the first position worked on, for the second, for how much the lift asks for it; the last also
for a drill that begins with the joint in question, and for one that does nothing else."""


class Placed(msgspec.Struct, frozen=True):
    """A drill between the sets of a line.

    segment, line : numbers in the session, from 0.
    times : in how many rests.
    seconds : of all of them together. [s]
    between : as it stands in the line.
    """

    segment: int
    line: int
    drill: str
    times: int
    seconds: int
    between: Between
    why: Why


class BetweenSets(msgspec.Struct, frozen=True):
    """Between-set work of a session for one lifter.

    placed : in the order of the session.
    minutes : of all of it; inside the rests, so the session is no longer for it. [min]
    points : worth by the table above; for comparison only.
    said : what is worked on, what waits, and what is left alone.
    """

    placed: tuple[Placed, ...]
    minutes: float
    points: int
    said: tuple[str, ...]


class Spot(msgspec.Struct, frozen=True):
    """A drill that may stand between the sets of a line.

    need : number of the position that it serves, from 0.
    near : what the lift's asking for it is worth.
    """

    segment: int
    line: int
    drill: str
    need: int
    near: int
    times: int
    seconds: int


def between_sets(
    session: Session,
    screen: Screen | None,
    catalogue: Catalogue,
    *,
    minutes: int = MINUTES,
    most: int = RULES["most drills"].default,
    limits: Limits | None = None,
    on: date | None = None,
    first: Iterable[TestId] = (),
) -> BetweenSets:
    """The best between-set work for what a screen found.

    minutes : for all of it in this session. [min]
    most : drills at most, up to four.
    limits : restrictions and missing kit; those that hold on the day count.
    first : tests whose positions the coach wants worked on before the others.
    Raises ValueError for more than four drills, or minutes or drills below zero.
    """
    if not 0 <= most <= NEVER_ABOVE:
        raise ValueError(f"{most} drills between sets: take 0 to {NEVER_ABOVE}; more of them is not done.")
    if minutes < 0:
        raise ValueError(f"{minutes} min for between-set work: give 0 or more.")
    return _planned(session, needs(screen, first), catalogue, (limits or Limits()).on(on), most, minutes)


# Thousands of lifters share few answers: the same session, the same positions, the same kit.
@lru_cache(maxsize=4096)
def _planned(
    session: Session, asked: Needs, catalogue: Catalogue, limits: Limits, most: int, minutes: int
) -> BetweenSets:
    found = spots(session, asked, catalogue, limits)
    best = choose(found, most, minutes * 60)
    placed = tuple(_placed(spot, asked, session, catalogue) for spot in sorted(best, key=_place_of))
    said = list(asked.said)
    if asked.now and not placed:
        said.append(_why_nothing(found, most, minutes))
    elif served := {spot.need for spot in best}:
        said += [
            f"Nothing for {need.name.lower()} fits into the rests of this session."
            for n, need in enumerate(asked.now)
            if n not in served
        ]
    seconds = sum(spot.seconds for spot in best)
    return BetweenSets(placed, round(seconds / 60, 1), worth(best), tuple(said))


def spots(session: Session, asked: Needs, catalogue: Catalogue, limits: Limits) -> tuple[Spot, ...]:
    """Every drill that may stand between the sets of a line, by the rules."""
    found: list[Spot] = []
    held = static_seconds(session, catalogue)
    written = _written(session)
    for s, n, line in lines_of(session):
        rests = [int(each.rest_s) for each in line_sets(line, catalogue)][:-1]
        families = {m.family for part in line.parts if isinstance(m := entry_of(part, catalogue), Movement)}
        demands = [DEMANDS[family] for family in families if family in DEMANDS]
        working = frozenset(region for family in families for region in WORKING.get(family, ()))
        if not rests or not demands or line.between or line.turn:
            continue
        for drill in catalogue.drills.values():
            need = _serves(drill, asked)
            if need is None or drill.id in written or drill.kind not in KINDS:
                continue
            if "between sets" not in drill.uses or rules_out(drill, limits, catalogue):
                continue
            times = _times(drill, rests, working, held)
            if times:
                near = _near(drill, asked.now[need].regions, demands)
                found.append(Spot(s, n, drill.id, need, near, times, times * dose_s(drill)))
    return tuple(found)


def choose(found: tuple[Spot, ...], most: int, seconds: int) -> tuple[Spot, ...]:
    """The set of spots worth most: a drill once, a line once, in the time there is. Exact.

    Of equals the one with fewer drills, then the shorter one, then the earlier in the list.
    """
    ordered = sorted(found, key=lambda spot: -_alone(spot))
    best: tuple[tuple[int, int, int], tuple[Spot, ...]] = ((0, 0, 0), ())

    def deeper(start: int, chosen: tuple[Spot, ...], left_s: int) -> None:
        nonlocal best
        so_far = worth(chosen)
        rank = (so_far, -len(chosen), left_s - seconds)
        if rank > best[0]:
            best = rank, chosen
        more = most - len(chosen)
        for at in range(start, len(ordered)):
            spot = ordered[at]
            # What follows is worth no more than this one, each.
            if more <= 0 or so_far + more * _alone(spot) < best[0][0]:
                return
            clash = any(o.drill == spot.drill or _place_of(o) == _place_of(spot) for o in chosen)
            if not clash and spot.seconds <= left_s:
                deeper(at + 1, (*chosen, spot), left_s - spot.seconds)

    deeper(0, (), seconds)
    return best[1]


def worth(chosen: Iterable[Spot]) -> int:
    """Points of a set of spots: each further drill for the same position counts half of the one before."""
    total, seen = 0, [0, 0]
    for spot in sorted(chosen, key=lambda spot: (spot.need, -spot.near)):
        base = (_ONE_DRILL, _SECOND_TEST)[spot.need]
        total += base // _HALF ** seen[spot.need] + spot.near
        seen[spot.need] += 1
    return total


def dose_s(drill: Drill) -> int:
    """Seconds of one dose, both sides. [s]"""
    dose = drill.dose
    return (dose.seconds or dose.reps * DRILL_REP_S) * (2 if dose.per_side else 1) * dose.rounds


def with_between(session: Session, plan: BetweenSets) -> Session:
    """The session with the drills written between the sets of their lines; the written ones stay."""
    added: Mapping[tuple[int, int], Between] = {(p.segment, p.line): p.between for p in plan.placed}
    segments = tuple(
        msgspec.structs.replace(
            segment,
            lines=tuple(
                msgspec.structs.replace(line, between=(*line.between, added[s, n]))
                if (s, n) in added
                else line
                for n, line in enumerate(segment.lines)
            ),
        )
        for s, segment in enumerate(session.segments)
    )
    return msgspec.structs.replace(session, segments=segments)


def _written(session: Session) -> frozenset[str]:
    """Drills that the coach has asked for in the session already, between sets."""
    return frozenset(b.drill for segment in session.segments for line in segment.lines for b in line.between)


def _serves(drill: Drill, asked: Needs) -> int | None:
    """The first position that the drill works on; None for none, and for whatever touches what hurts."""
    if touches(drill, asked.painful):
        return None
    for number, need in enumerate(asked.now):
        if any(region in need.regions for region in drill.regions[:2]):
            return number
    return None


def _times(drill: Drill, rests: list[int], working: frozenset[Region], held: Mapping[Region, int]) -> int:
    """In how many rests the drill may stand: none where a rule forbids it."""
    spare_s = RULES["rest is not shortened"].default
    if drill.held_s:
        muscles = held_muscles(drill)
        if muscles & working or drill.held_s > RULES["static hold"].default:
            return 0
        spare_s = _FREE_AFTER_HOLD_S
    fitting = sum(dose_s(drill) + spare_s <= rest for rest in rests)
    times = min(fitting, RULES["two rests"].default)
    while (
        times
        and drill.held_s
        and any(
            held.get(muscle, 0) + drill.held_s * times >= STATIC_LIMIT_S for muscle in held_muscles(drill)
        )
    ):
        times -= 1
    return times


def _near(drill: Drill, wanted: tuple[Region, ...], demands: list[tuple[tuple[Region, ...], ...]]) -> int:
    """Points for how much the lift asks for the regions that the drill serves."""
    regions = frozenset(drill.regions[:2]) & frozenset(wanted)
    first_region = drill.regions[0] in wanted[:1]
    near = 0
    for demand in demands:
        for points, asked in zip(_NEAR, demand, strict=True):
            if regions & frozenset(asked):
                near = max(near, points)
    to_the_point = frozenset(drill.regions) <= frozenset(wanted)
    return near + _NEAR[-1] * (first_region + to_the_point)


def _alone(spot: Spot) -> int:
    return (_ONE_DRILL, _SECOND_TEST)[spot.need] + spot.near


def _place_of(spot: Spot) -> tuple[int, int]:
    return spot.segment, spot.line


def _placed(spot: Spot, asked: Needs, session: Session, catalogue: Catalogue) -> Placed:
    drill, need = catalogue.drills[spot.drill], asked.now[spot.need]
    line = session.segments[spot.segment].lines[spot.line]
    rests = "the first rest" if spot.times == 1 else f"the first {spot.times} rests"
    said = (
        f"{drill.name} for {need.name.lower()}, in {rests} of {line_words(line, catalogue).lower()}: "
        f"{show_seconds(spot.seconds // spot.times)} of each; the rest stays as long as it is."
    )
    why = Why(
        said,
        inputs=(("below its mark", need.name), ("regions", ", ".join(drill.regions))),
        rule="; ".join(
            RULES[id_].says for id_ in ("worth working on", "most drills", "rest is not shortened")
        ),
        source=COMMON_PRACTICE,
    )
    between = Between(drill.name, drill.id, f"{dose_words(drill.dose)}, in {rests}")
    return Placed(spot.segment, spot.line, drill.id, spot.times, spot.seconds, between, why)


def _why_nothing(found: tuple[Spot, ...], most: int, minutes: int) -> str:
    if not found:
        return "No drill fits into this session: no rest is long enough, or what would serve is ruled out."
    if most == 0 or minutes == 0:
        return "No between-set work was asked for today."
    return f"Nothing fits into {minutes} min; give a little more time."
