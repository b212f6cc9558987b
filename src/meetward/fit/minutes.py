"""How long a session takes: sets, rests, ladders and changes of weight on one clock.

Every set has its work and the rest that has to pass before the same exercise goes on. Work is reps times
the movement's seconds a rep, with its pauses and tempo, and the moment to get set. A rest is the coach's
where one is stated and customary otherwise; a change of weight and between-set work happen inside it, can
lengthen it, and never shorten it. Exercises done in turn share the clock: one works while the other rests.
Intervals take their intervals, and work with a time of its own takes that time.

All figures in capitals below are common practice, no source; so the result is given with a range.
"""

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import NamedTuple

import msgspec

from meetward.barbell.ladder import Ladder
from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Family, Movement
from meetward.catalogue.sequence import Sequence
from meetward.cycle.load import BarOnly, Bodyweight, Effort, Heavy, Load, Open, Percent
from meetward.cycle.tree import Between, Line, Part, Segment, Session, SetGroup
from meetward.fit.words import entry_of
from meetward.why import Why
from meetward.workload.count import reps_of, sets_of

REST_S: Mapping[Family, tuple[tuple[int, int], ...]] = {
    "snatch": ((0, 90), (700, 120), (800, 150), (900, 180)),
    "clean": ((0, 90), (700, 120), (800, 150), (900, 180)),
    "clean and jerk": ((0, 90), (700, 120), (800, 180), (900, 210)),
    "jerk": ((0, 90), (700, 120), (800, 150), (900, 180)),
    "pull": ((0, 90), (800, 120), (1000, 150)),
    "squat": ((0, 90), (600, 120), (700, 150), (800, 180), (900, 240)),
    "press": ((0, 90), (700, 120), (850, 150)),
    "overhead": ((0, 90), (700, 120), (850, 150)),
    "hinge": ((0, 90), (600, 120)),
    "upper back": ((0, 75),),
    "single leg": ((0, 75),),
    "trunk": ((0, 45),),
    "carry": ((0, 75),),
    "arms and shoulders": ((0, 60),),
    "jump": ((0, 60),),
}
"""Customary rest by family, from an intensity [permille] up. [s]"""

UNRATED_PERMILLE = 750
"""Intensity that stands for a load with no percentage when a rest is looked up."""

EFFORT_PERMILLE = ((90, 900), (80, 800), (0, 700))
"""The same for a felt effort, from so many tenths of RPE up."""

HEAVY_PERMILLE = 900
HEAVY_SETS = 6
"""Sets that it takes to work up to a heavy single, double or triple."""

OPEN_SETS = 3
OPEN_REPS = 8
DRILL_REP_S = 3
GET_SET_S = 15
"""Chalk, grip and breath before a set with the bar."""

GET_SET_LIGHT_S = 5
CHANGE_SIDES_S = 5
CHANGE_WEIGHT_S = 40
NEXT_EXERCISE_S = 75
"""Clearing one bar and loading the next."""

NEXT_LIGHT_S = 30
TURN_S = 15
"""Walking from one exercise to the other when two are done in turn."""

LADDER_REST_S = 45
BAR_REST_S = 20
CUSTOMARY_LADDER = (6, 3)
"""Warm-up sets for the first bar exercise of a day and for those after it, where no ladder is known."""

DRILL_REST_S = 10
WALK_M_PER_S = 1
RANGE = (0.85, 1.2)
"""What people need, as shares of the estimate: the quick ones and those who load, wait and talk."""


class SessionMinutes(msgspec.Struct, frozen=True):
    """Estimated length of a session. [min]

    low_minutes, high_minutes : range for people who are quick and who take their time.
    segments, lines : the parts of ``minutes``, in order; lines done in turn share their time equally.
    """

    minutes: float
    low_minutes: float
    high_minutes: float
    segments: tuple[float, ...]
    lines: tuple[tuple[float, ...], ...]
    why: Why


class _Set(NamedTuple):
    """One set on the clock: seconds of work, seconds before the same exercise goes on."""

    work_s: float
    rest_s: float


def session_minutes(
    session: Session, catalogue: Catalogue, ladders: Mapping[tuple[int, int], Ladder | None] | None = None
) -> SessionMinutes:
    """How long ``session`` takes.

    ladders : warm-up ladders by (segment, line), both from 0; a line of the lifts segment that is not named
        gets a customary one, and None stands for no ladder.
    """
    bars_before = 0
    segments: list[float] = []
    lines: list[tuple[float, ...]] = []
    work_sets = ladder_sets = 0
    for s, segment in enumerate(session.segments):
        each: list[float] = []
        for turn in _turns(segment):
            plans = []
            for n, line in turn:
                rungs: list[_Set] = []
                if segment.kind == "lifts" and _on_bar(line, catalogue):
                    known = ladders is not None and (s, n) in ladders
                    ladder = ladders[s, n] if ladders is not None and known else None
                    rungs = _rungs(ladder, None if known else CUSTOMARY_LADDER[min(bars_before, 1)])
                    bars_before += 1
                sets = list(line_sets(line, catalogue))
                work_sets += len(sets) if segment.kind == "lifts" else 0
                ladder_sets += len(rungs)
                plans.append(rungs + sets)
            seconds = _in_turn(plans) + sum(_set_up_s(line, catalogue, segment) for _, line in turn)
            each += [seconds / len(turn) / 60] * len(turn)
        lines.append(tuple(each))
        segments.append(sum(each))
    minutes = sum(segments)
    low, high = (minutes * share for share in RANGE)
    return SessionMinutes(
        minutes,
        low,
        high,
        tuple(segments),
        tuple(lines),
        _why(session, minutes, (low, high), segments, work_sets, ladder_sets),
    )


def line_sets(line: Line, catalogue: Catalogue) -> Iterator[_Set]:
    """The work sets of a line in order, each with the rest that follows it."""
    entries = [entry_of(part, catalogue) for part in line.parts]
    if not line.groups:
        if entries:
            yield _Set(sum(_whole_s(entry) for entry in entries), 0)
        return
    between_s = sum(_between_s(between, catalogue) for between in line.between)
    change_s = CHANGE_WEIGHT_S if _on_bar(line, catalogue) else 0
    for number, group in enumerate(line.groups):
        after = line.groups[number + 1] if number + 1 < len(line.groups) else None
        if group.every_s and (sets := sets_of(group)):
            yield _Set(sets * group.every_s, rest_s(group, entries))
            continue
        if group.within_s:
            yield _Set(group.within_s, rest_s(group, entries))
            continue
        sets = sets_of(group)
        if sets is None:
            once = group.hold_s or group.distance_m
            sets = HEAVY_SETS if isinstance(group.load, Heavy) else 1 if once else OPEN_SETS
        elif isinstance(group.load, Heavy):
            sets = max(sets, HEAVY_SETS)
        work_s = set_s(group, line, entries)
        rest = max(rest_s(group, entries), between_s)
        changes = group.climbing or isinstance(group.load, Heavy)
        rests = [max(rest, change_s) if changes else rest] * int(sets)
        if rests and after:
            rests[-1] = 0 if after.drop else rest if after.load == group.load else max(rest, change_s)
        yield from (_Set(work_s, each) for each in rests)
        if part := sets - int(sets):
            yield _Set(work_s * part, rest * part)


def set_s(group: SetGroup, line: Line, entries: list[Entry | None]) -> float:
    """Seconds of one set: the reps with their pauses and tempo, or the hold, and the moment to get set."""
    bar = any(isinstance(entry, Movement) and entry.barbell for entry in entries)
    seconds = float(GET_SET_S if bar else GET_SET_LIGHT_S)
    sides = 2 if group.per_side else 1
    if group.hold_s:
        seconds += group.hold_s.middle * sides
    elif group.distance_m:
        seconds += group.distance_m.middle * sides / WALK_M_PER_S
    else:
        for number, (part, entry) in enumerate(zip(line.parts, entries, strict=True)):
            reps = reps_of(group, number)
            seconds += (OPEN_REPS * sides if reps is None else reps) * _rep_s(part, entry, group.tempo)
    if group.cluster and group.cluster_rest_s:
        seconds += (len(group.cluster) - 1) * group.cluster_rest_s
    return seconds + CHANGE_SIDES_S * (sides - 1)


def rest_s(group: SetGroup, entries: list[Entry | None]) -> float:
    """Rest after a set of the group: the stated one, else the longest customary for its movements. [s]"""
    if group.rest_s is not None:
        return group.rest_s.middle
    movements = [entry for entry in entries if isinstance(entry, Movement)]
    if not movements:
        return DRILL_REST_S
    permille = _permille(group.load)
    return max(next(s for start, s in reversed(REST_S[m.family]) if permille >= start) for m in movements)


def _permille(load: Load) -> int:
    """The intensity by which a customary rest is looked up."""
    match load:
        case Percent(_, high, of):
            return HEAVY_PERMILLE if of.kind == "top" and high >= HEAVY_PERMILLE else high
        case Effort(scale, low, high):
            tenths = high if scale == "rpe" else 100 - low
            return next(permille for start, permille in EFFORT_PERMILLE if tenths >= start)
        case Heavy():
            return HEAVY_PERMILLE
        case BarOnly() | Bodyweight():
            return 0
        case Open("light" | "easy" | "technique"):
            return 0
        case _:
            return UNRATED_PERMILLE


def _rep_s(part: Part, entry: Entry | None, tempo: str) -> float:
    one = entry.seconds_per_rep if isinstance(entry, Movement) else DRILL_REP_S
    if tempo:
        one = max(one, sum(int(sign) if sign.isdigit() else 1 for sign in tempo))
    return one + sum(pause.seconds or 0 for pause in part.pauses)


def _whole_s(entry: Entry | None) -> float:
    """Seconds of an entry that stands with no sets."""
    if isinstance(entry, Drill | Sequence):
        return entry.minutes * 60
    return OPEN_SETS * (OPEN_REPS * (entry.seconds_per_rep if entry else DRILL_REP_S) + GET_SET_LIGHT_S)


def _between_s(between: Between, catalogue: Catalogue) -> float:
    """Seconds of between-set work: one dose of the drill."""
    drill = catalogue.drills.get(between.drill)
    if drill is None:
        return 2 * DRILL_REST_S
    dose = drill.dose
    return (dose.seconds or dose.reps * DRILL_REP_S) * (2 if dose.per_side else 1) * dose.rounds


def _on_bar(line: Line, catalogue: Catalogue) -> bool:
    return any(isinstance(e := entry_of(part, catalogue), Movement) and e.barbell for part in line.parts)


def _set_up_s(line: Line, catalogue: Catalogue, segment: Segment) -> float:
    if not line.parts:
        return 0
    return NEXT_EXERCISE_S if segment.kind == "lifts" and _on_bar(line, catalogue) else NEXT_LIGHT_S


def _rungs(ladder: Ladder | None, customary: int | None) -> list[_Set]:
    """Warm-up sets: those of the ladder, or so many customary ones."""
    if customary is not None:
        return [_Set(GET_SET_S + 3 * DRILL_REP_S, LADDER_REST_S)] * customary
    if ladder is None:
        return []
    return [
        _Set(GET_SET_S + step.reps * DRILL_REP_S, LADDER_REST_S if step.plan.discs else BAR_REST_S)
        for step in ladder.steps
    ]


def _turns(segment: Segment) -> Iterator[list[tuple[int, Line]]]:
    """Lines with their numbers, those done in turn together."""
    for turn, lines in groupby(enumerate(segment.lines), key=lambda numbered: numbered[1].turn):
        if turn:
            yield list(lines)
        else:
            yield from ([numbered] for numbered in lines)


def _in_turn(plans: list[list[_Set]]) -> float:
    """Seconds until all sets are done, one of each exercise after the other; no rest is cut short."""
    now, ready = 0.0, [0.0] * len(plans)
    for number in range(max(map(len, plans), default=0)):
        for exercise, sets in enumerate(plans):
            if number < len(sets):
                step = TURN_S if len(plans) > 1 and now else 0
                now = max(now + step, ready[exercise]) + sets[number].work_s
                ready[exercise] = now + sets[number].rest_s
    return now


def _why(
    session: Session,
    minutes: float,
    span: tuple[float, float],
    segments: list[float],
    work_sets: int,
    ladder_sets: int,
) -> Why:
    parts = ", ".join(
        f"{segment.kind} {each:.0f}" for segment, each in zip(session.segments, segments, strict=True)
    )
    return Why(
        f"About {minutes:.0f} min, usually {span[0]:.0f} to {span[1]:.0f}: {parts or 'nothing to do'}.",
        inputs=(("work sets", str(work_sets)), ("warm-up sets with the bar", str(ladder_sets))),
        rule="work and rest of every set on one clock; rests as stated, customary ones where none are",
        source="common practice, no source",
    )
