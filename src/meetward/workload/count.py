"""Counting the load: lifts, zones, average and peak intensity, from a set group up to the whole cycle.

What is counted, and how (definitions in tests/authorities/load-accounting.md):

*lift*
    one repetition of one barbell movement in the lifts segment; warm-up ladders, the warm-up segment and the
    recovery segment are not counted. A complex of 1 + 2 counts three, a clean and jerk one (the catalogue's
    ``lifts_per_rep``), an accessory without a bar none. Common practice, no source: the trade's texts leave
    both choices to whoever counts and ask only that they are stated.
*intensity*
    load over the best of the reference lift, in permille. A range counts at its middle, sets that climb at
    each of their steps. Loads in kilos, by effort or in words have none before a lifter stands beside them:
    their lifts are counted, but as *unrated*.
*zone*
    ten percent of intensity: 60 % up to but not including 70 %. Everything under 50 % is one zone, so that
    those who count from 50 % up can leave it out; 100 % and over is another.
*average intensity*
    mean of the intensities of all rated lifts, each lift counting once (relative intensity of the trade's
    texts). Peak: the highest of them.

Ranges of sets or reps count their middle, "5 or more" counts the five that are stated, and what is left open
counts nothing and is told in ``Count.open_groups``. So counts are whole, half or quarter lifts, which floats
carry exactly.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Protocol

import msgspec

from meetward.barbell.spread import START_PERMILLE
from meetward.catalogue.movement import Family, Movement
from meetward.cycle.load import Percent
from meetward.cycle.tree import Cycle, Line, Phase, Reps, Session, SetGroup, Week

ZONES = (
    "under 50 %", "50–59 %", "60–69 %", "70–79 %", "80–89 %", "90–99 %", "100 % and over", "no percentage",
)  # fmt: skip
"""Names of the zones, in the order of every row of ``Count.zones``."""

UNRATED = len(ZONES) - 1
_NOTHING = (0.0,) * len(ZONES)


class Movements(Protocol):
    """What counting needs of a catalogue."""

    @property
    def movements(self) -> Mapping[str, Movement]:
        """Movements by id."""


class Count(msgspec.Struct, frozen=True):
    """The load of some part of a cycle. Counts of parts add up: ``a + b``.

    families : lifts of each family, one number for each zone of ``ZONES``; families without lifts are absent.
    permille_lifts : sum over all rated lifts of their intensity. [permille x lifts]
    peak_permille : highest intensity of any lift; 0 where none is rated.
    sets : sets that hold counted lifts.
    open_groups : set groups of barbell lifts that count nothing, because sets or reps are left open.
    unknown_groups : set groups with a movement that is not in the catalogue; that movement counts nothing.
    """

    families: tuple[tuple[Family, tuple[float, ...]], ...] = ()
    permille_lifts: float = 0.0
    peak_permille: int = 0
    sets: float = 0.0
    open_groups: int = 0
    unknown_groups: int = 0

    @property
    def zones(self) -> tuple[float, ...]:
        """Lifts in each zone of ``ZONES``."""
        return tuple(map(sum, zip(*(row for _, row in self.families), strict=True))) or _NOTHING

    @property
    def lifts(self) -> float:
        """Number of lifts."""
        return sum(sum(row) for _, row in self.families)

    @property
    def rated_lifts(self) -> float:
        """Lifts whose intensity is known."""
        return sum(sum(row) - row[UNRATED] for _, row in self.families)

    @property
    def average_permille(self) -> float | None:
        """Mean intensity of the rated lifts; None where there is none. [permille]"""
        rated = self.rated_lifts
        return self.permille_lifts / rated if rated else None

    def family(self, family: Family) -> float:
        """Lifts of one family."""
        return sum(sum(row) for name, row in self.families if name == family)

    def __add__(self, other: "Count") -> "Count":
        return total((self, other))


class CycleCount(msgspec.Struct, frozen=True):
    """Counts of a cycle on every level.

    weeks, sessions : through the whole cycle; ``sessions[week - 1][session - 1]``.
    """

    cycle: Count
    phases: tuple[Count, ...]
    weeks: tuple[Count, ...]
    sessions: tuple[tuple[Count, ...], ...]


def total(counts: Iterable[Count]) -> Count:
    """The sum of counts; families in the order in which they come."""
    families: dict[Family, list[float]] = {}
    permille_lifts = sets = 0.0
    peak_permille = open_groups = unknown_groups = 0
    for count in counts:
        for family, row in count.families:
            mine = families.get(family)
            if mine is None:
                families[family] = list(row)
            else:
                for zone, lifts in enumerate(row):
                    mine[zone] += lifts
        permille_lifts += count.permille_lifts
        peak_permille = max(peak_permille, count.peak_permille)
        sets += count.sets
        open_groups += count.open_groups
        unknown_groups += count.unknown_groups
    rows = tuple((family, tuple(row)) for family, row in families.items())
    return Count(rows, permille_lifts, peak_permille, sets, open_groups, unknown_groups)


def count_group(group: SetGroup, line: Line, catalogue: Movements) -> Count:
    """The load of one set group of ``line``."""
    barbell: list[tuple[Family, float]] = []
    is_open = unknown = False
    sets = sets_of(group)
    for number, part in enumerate(line.parts):
        movement = catalogue.movements.get(part.movement)
        if movement is None:
            # A drill or a sequence has an id too, and holds no lifts.
            unknown = unknown or not part.movement
            continue
        if not movement.lifts_per_rep or group.missed:
            continue
        reps = reps_of(group, number)
        if reps is None or sets is None:
            is_open = is_open or (group.hold_s is None and group.distance_m is None)
            continue
        barbell.append((movement.family, sets * reps * movement.lifts_per_rep))
    families: dict[Family, list[float]] = {}
    permille_lifts, peak_permille = 0.0, 0
    steps = intensities(group, sets)
    for family, lifts in barbell:
        if not lifts:
            continue
        row = families.setdefault(family, list(_NOTHING))
        for step in steps:
            row[zone_of(step)] += lifts / len(steps)
            permille_lifts += lifts / len(steps) * (step or 0)
            peak_permille = max(peak_permille, step or 0)
    return Count(
        tuple((family, tuple(row)) for family, row in families.items()),
        permille_lifts,
        peak_permille,
        sets if sets and families else 0.0,
        int(is_open),
        int(unknown),
    )


def count_line(line: Line, catalogue: Movements) -> Count:
    """The load of a line."""
    return total(count_group(group, line, catalogue) for group in line.groups)


def count_session(session: Session, catalogue: Movements) -> Count:
    """The load of a session: its lifts segments."""
    return total(
        count_line(line, catalogue)
        for segment in session.segments
        if segment.kind == "lifts"
        for line in segment.lines
    )


def count_week(week: Week, catalogue: Movements) -> Count:
    """The load of a week."""
    return total(count_session(session, catalogue) for session in week.sessions)


def count_phase(phase: Phase, catalogue: Movements) -> Count:
    """The load of a phase."""
    return total(count_week(week, catalogue) for week in phase.weeks)


def count_cycle(cycle: Cycle, catalogue: Movements) -> CycleCount:
    """The load of a whole cycle. For a cycle that is being edited, keep a ``Counter``."""
    return Counter(catalogue).count(cycle)


class Counter:
    """Counts cycles that differ little: a session that is the same object as before is counted once."""

    def __init__(self, catalogue: Movements) -> None:
        self._catalogue = catalogue
        self._sessions: dict[int, tuple[Session, Count]] = {}

    def count(self, cycle: Cycle) -> CycleCount:
        """The load of ``cycle``."""
        kept: dict[int, tuple[Session, Count]] = {}
        sessions: list[tuple[Count, ...]] = []
        weeks: list[Count] = []
        phases: list[Count] = []
        for phase in cycle.phases:
            first = len(weeks)
            for week in phase.weeks:
                counts = tuple(self._session(session, kept) for session in week.sessions)
                sessions.append(counts)
                weeks.append(total(counts))
            phases.append(total(weeks[first:]))
        self._sessions = kept
        return CycleCount(total(phases), tuple(phases), tuple(weeks), tuple(sessions))

    def _session(self, session: Session, kept: dict[int, tuple[Session, Count]]) -> Count:
        # The session is held beside its count, so that its id cannot pass to another object.
        known = self._sessions.get(id(session)) or (session, count_session(session, self._catalogue))
        kept[id(session)] = known
        return known[1]


def sets_of(group: SetGroup) -> float | None:
    """How many sets to count: the middle of a range, the starts that fit into a time; None where open."""
    if group.count is not None:
        return group.count.middle
    if group.every_s and group.within_s is not None:
        return float(group.within_s // group.every_s)
    return None


def reps_of(group: SetGroup, part: int) -> float | None:
    """Repetitions of one part in one set, both sides together: the middle of a range, the stated minimum of
    "or more", the sum of a cluster. None where they are left open or where a hold stands for them."""
    reps = group.reps[part] if part < len(group.reps) else None
    if reps is None:
        if not group.cluster:
            return None
        one = float(sum(group.cluster))
    else:
        known = _counted(reps)
        if known is None:
            return None
        one = known
    return one * 2 if group.per_side else one


def _counted(reps: Reps) -> float | None:
    if reps.low is None or reps.high is None:
        return None
    return float(reps.low) if reps.or_more else (reps.low + reps.high) / 2


def intensities(group: SetGroup, sets: float | None) -> tuple[int | None, ...]:
    """Intensity of the sets of a group, one entry for each step that they climb; (None,) where not rated.

    [permille]. A percentage of today's top or of a rep max is no share of a best, so it is not rated; nor
    are sets on the way to a top that sets behind them reach.
    """
    load = group.load
    if not isinstance(load, Percent) or load.of.kind in ("top", "rep max") or group.on_the_way:
        return (None,)
    high = load.high_permille
    if not group.climbing:
        return (high if load.low_permille is None else (load.low_permille + high) // 2,)
    steps = max(int(sets or 1), 1)
    low = high * START_PERMILLE // 1000 if load.low_permille is None else load.low_permille
    return tuple(high - (high - low) * left // max(steps - 1, 1) for left in range(steps - 1, -1, -1))


def zone_of(permille: int | None) -> int:
    """Index in ``ZONES`` of an intensity."""
    if permille is None:
        return UNRATED
    return 0 if permille < 500 else min(permille // 100, 10) - 4


class Uncounted(msgspec.Struct, frozen=True):
    """A line that counts less than it may hold, with its place and the reason in words."""

    week: int
    session: int
    line: Line
    reason: str


def uncounted(cycle: Cycle, catalogue: Movements) -> Iterator[Uncounted]:
    """Every line of the cycle whose lifts are not all counted."""
    for week, number, session in cycle.sessions():
        for segment in session.segments:
            if segment.kind != "lifts":
                continue
            for line in segment.lines:
                count = count_line(line, catalogue)
                name = " + ".join(part.written for part in line.parts)
                if count.open_groups:
                    yield Uncounted(
                        week, number, line, f"{name}: sets or reps are left open, so they count 0."
                    )
                if count.unknown_groups:
                    yield Uncounted(week, number, line, f"{name}: not in the catalogue, so it counts 0.")
