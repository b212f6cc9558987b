"""A template week as blocks: what has to stay together, how long it takes, what it is worth.

A block is a line, or the lines done in turn; a line without a movement goes with the line before it. A
session without lifts is one block. Minutes are those of `minutes.session_minutes` with customary warm-up
ladders, so that lifters with the same days share one answer.
"""

from collections.abc import Iterable, Mapping
from functools import reduce
from itertools import groupby, pairwise
from math import ceil
from operator import or_

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Family, Movement
from meetward.cycle.load import BarOnly, Bodyweight, Effort, Load, Open, Percent
from meetward.cycle.tree import Line, Segment, Session, Week
from meetward.fit.minutes import session_minutes
from meetward.fit.week_days_case import WarmUp
from meetward.fit.week_days_patterns import MOST_BLOCKS
from meetward.fit.week_days_rules import FAMILIES, HEAVY, OTHER, Weighs
from meetward.fit.words import entry_of, line_words
from meetward.workload.count import Count, count_line, total


class LineAt(msgspec.Struct, frozen=True, order=True):
    """A line of the template week: session from 1, segment and line from 0."""

    session: int
    segment: int
    line: int


class WeekBlock(msgspec.Struct, frozen=True):
    """Lines that stay together.

    session : from 0.
    seconds : with the warm-up sets of an exercise that is not the first of the day. [s]
    place : where it belongs in a day; never before what its session has in front of it.
    heavy, lifts : bits of the heavy families and of the competition lifts (1 snatch, 2 clean and jerk).
    """

    lines: tuple[LineAt, ...]
    words: str
    session: int
    seconds: int
    points: int
    group: int
    place: int
    heavy: int
    lifts: int
    key: bool
    bar: bool
    count: Count


class WeekBlocks(msgspec.Struct, frozen=True):
    """A template week, ready to be fitted.

    units : for each session the day of the coach, numbered in the order of the sessions.

    warm_up, recovery : lines of each session with their seconds.
    first_bar_s : what the first bar exercise of a day takes more than a later one. [s]
    """

    blocks: tuple[WeekBlock, ...]
    units: tuple[int, ...]
    warm_ups: tuple[WarmUp, ...]
    warm_up: tuple[tuple[tuple[LineAt, int], ...], ...]
    recovery: tuple[tuple[tuple[LineAt, int], ...], ...]
    first_bar_s: int
    count: Count


def week_blocks(week: Week, catalogue: Catalogue, figures: Mapping[str, int]) -> WeekBlocks:
    """The blocks of a template week."""
    blocks: list[WeekBlock] = []
    warm_up: list[tuple[tuple[LineAt, int], ...]] = []
    recovery: list[tuple[tuple[LineAt, int], ...]] = []
    first_bar_s = 0
    for number, session in enumerate(week.sessions):
        minutes = session_minutes(session, catalogue).lines
        before: list[tuple[LineAt, int]] = []
        after: list[tuple[LineAt, int]] = []
        place = 0
        lifts = any(segment.kind == "lifts" and segment.lines for segment in session.segments)
        for s, segment in enumerate(session.segments):
            timed = [
                (LineAt(number + 1, s, n), ceil(spent * 60 - 1e-6)) for n, spent in enumerate(minutes[s])
            ]
            if lifts and segment.kind == "warm-up":
                before += timed
            elif lifts and segment.kind == "recovery":
                after += timed
            elif lifts:
                for together in _together(segment):
                    block, more_s = _block(number, session, s, together, place, catalogue, figures)
                    place = block.place
                    first_bar_s = max(first_bar_s, more_s)
                    blocks.append(block)
        if not lifts and any(segment.lines for segment in session.segments):
            blocks.append(_whole(number, session, sum(map(sum, minutes)), catalogue, figures))
        warm_up.append(tuple(before))
        recovery.append(tuple(after))
    blocks = _few(week, blocks)
    return WeekBlocks(
        tuple(blocks),
        tuple(units_of_week(week)),
        tuple(_warm_up(week.sessions[n], lines, figures) for n, lines in enumerate(warm_up)),
        tuple(warm_up),
        tuple(recovery),
        first_bar_s,
        total(block.count for block in blocks),
    )


def _few(week: Week, blocks: list[WeekBlock]) -> list[WeekBlock]:
    """No more blocks on a day of the coach than can be weighed: the least neighbours are put together."""
    units = units_of_week(week)
    while True:
        counts = [units[block.session] for block in blocks]
        pairs = [
            (one.points + other.points, n)
            for n, (one, other) in enumerate(pairwise(blocks))
            if one.session == other.session and counts.count(counts[n]) > MOST_BLOCKS
        ]
        if not pairs:
            return blocks
        _, n = min(pairs)
        one, other = blocks[n], blocks[n + 1]
        lead = max(one, other, key=lambda block: block.points)
        both = msgspec.structs.replace(
            one,
            lines=one.lines + other.lines,
            words=f"{one.words}, {other.words}",
            seconds=one.seconds + other.seconds,
            points=one.points + other.points,
            group=lead.group,
            place=other.place,
            heavy=one.heavy | other.heavy,
            lifts=one.lifts | other.lifts,
            key=one.key or other.key,
            bar=one.bar or other.bar,
            count=one.count + other.count,
        )
        blocks = [*blocks[:n], both, *blocks[n + 2 :]]


def units_of_week(week: Week) -> list[int]:
    """The coach's day of each session, numbered in order; a session with no weekday has one of its own."""
    numbers: dict[tuple[str, int], int] = {}
    for n, session in enumerate(week.sessions):
        key = ("open", n) if session.weekday is None else ("weekday", session.weekday)
        numbers.setdefault(key, len(numbers))
    return [
        numbers["open", n] if session.weekday is None else numbers["weekday", session.weekday]
        for n, session in enumerate(week.sessions)
    ]


def short_warm_up(lines: tuple[tuple[LineAt, int], ...]) -> tuple[tuple[LineAt, int], ...]:
    """The part of a warm-up that is never cut: its last entry."""
    return lines[-1:]


def _warm_up(session: Session, lines: tuple[tuple[LineAt, int], ...], figures: Mapping[str, int]) -> WarmUp:
    full_s = sum(seconds for _, seconds in lines)
    short_s = sum(seconds for _, seconds in short_warm_up(lines))
    return WarmUp(full_s, short_s, figures["short warm-up"] * ceil((full_s - short_s) / 60))


def _together(segment: Segment) -> list[list[tuple[int, Line]]]:
    """Lines of a segment that stay together, with their numbers."""
    groups: list[list[tuple[int, Line]]] = []
    for turn, lines in groupby(enumerate(segment.lines), key=lambda numbered: numbered[1].turn):
        if turn:
            groups.append(list(lines))
        else:
            groups += [[numbered] for numbered in lines]
    joined: list[list[tuple[int, Line]]] = []
    for group in groups:
        only_words = not any(line.parts for _, line in group)
        if joined and (only_words or not any(line.parts for _, line in joined[-1])):
            joined[-1] += group
        else:
            joined.append(group)
    return joined


def _block(
    number: int,
    session: Session,
    segment: int,
    together: list[tuple[int, Line]],
    place: int,
    catalogue: Catalogue,
    figures: Mapping[str, int],
) -> tuple[WeekBlock, int]:
    """The block, and the seconds it takes more where it stands first in a day."""
    lines = tuple(line for _, line in together)
    same = Segment("lifts", lines)
    # Once as the first of a day and once behind another.
    timed = session_minutes(Session((same, same)), catalogue)
    first_s, seconds = (max(1, ceil(spent * 60 - 1e-6)) for spent in timed.segments)
    weighs = [_weighs(line, catalogue) for line in lines]
    shares = [spent * 60 for spent in timed.lines[1]]
    points = sum(
        _points(share, weigh, line, session, figures)
        for share, weigh, line in zip(shares, weighs, lines, strict=True)
    )
    lead = next((w for w, line in zip(weighs, lines, strict=True) if line.parts), OTHER)
    return WeekBlock(
        tuple(LineAt(number + 1, segment, n) for n, _ in together),
        " and ".join(line_words(line, catalogue) for line in lines if line.parts) or "a note",
        number,
        seconds,
        max(1, round(points)),
        lead.group,
        max(place, lead.place),
        _bits(heavy_bits(line, catalogue, figures) for line in lines),
        _bits(competition_bits(line, catalogue) for line in lines),
        any(line.priority == "key" for line in lines),
        any(_on_bar(line, catalogue) for line in lines),
        total(count_line(line, catalogue) for line in lines),
    ), first_s - seconds


def _whole(
    number: int, session: Session, minutes: float, catalogue: Catalogue, figures: Mapping[str, int]
) -> WeekBlock:
    """A session without lifts (mobility, recovery) as one block."""
    at = [
        (LineAt(number + 1, s, n), line)
        for s, segment in enumerate(session.segments)
        for n, line in enumerate(segment.lines)
    ]
    words = session.title or ", ".join(line_words(line, catalogue) for _, line in at)
    points = sum(_points(minutes * 60 / len(at), OTHER, line, session, figures) for _, line in at)
    return WeekBlock(
        tuple(where for where, _ in at),
        words,
        number,
        max(1, ceil(minutes * 60 - 1e-6)),
        max(1, round(points)),
        OTHER.group,
        OTHER.place,
        0,
        0,
        any(line.priority == "key" for _, line in at),
        False,
        Count(),
    )


def _points(
    seconds: float, weighs: Weighs, line: Line, session: Session, figures: Mapping[str, int]
) -> float:
    points = seconds / 60 * weighs.points
    if line.priority == "could":
        points *= figures["could"] / 100
    return points * (figures["key session"] / 100 if session.key else 1)


def _weighs(line: Line, catalogue: Catalogue) -> Weighs:
    """Of a complex its weightiest movement; of two alike the first."""
    known = [FAMILIES[family] for family in _families(line, catalogue)]
    return max(known, key=lambda weighs: weighs.points, default=OTHER)


def heavy_bits(line: Line, catalogue: Catalogue, figures: Mapping[str, int]) -> int:
    """The heavy families of a line, one bit each in the order of ``HEAVY``."""
    permille = max((_permille(group.load) for group in line.groups), default=0)
    families = set(_families(line, catalogue))
    return sum(
        1 << bit
        for bit, (name, wanted) in enumerate(HEAVY)
        if families & set(wanted) and permille >= figures[name]
    )


def competition_bits(line: Line, catalogue: Catalogue) -> int:
    """1 for a line with a snatch, 2 for one with a clean and a jerk."""
    families = set(_families(line, catalogue))
    both = "clean and jerk" in families or {"clean", "jerk"} <= families
    return ("snatch" in families) + 2 * both


def _families(line: Line, catalogue: Catalogue) -> list[Family]:
    entries = [entry_of(part, catalogue) for part in line.parts]
    return [entry.family for entry in entries if isinstance(entry, Movement)]


def _on_bar(line: Line, catalogue: Catalogue) -> bool:
    return any(isinstance(e := entry_of(part, catalogue), Movement) and e.barbell for part in line.parts)


def _permille(load: Load) -> int:
    """Intensity by which work counts as heavy; what nobody can know without the lifter counts as heavy."""
    match load:
        case Percent(_, high, _):
            return high
        case BarOnly() | Bodyweight():
            return 0
        case Effort("rpe", _, high):
            return 1000 if high >= 80 else 0
        case Effort(_, low, _):
            return 1000 if low <= 20 else 0
        case Open(word):
            return 1000 if word == "heavy" else 0
        case _:
            return 1000


def _bits(each: Iterable[int]) -> int:
    return reduce(or_, each, 0)
