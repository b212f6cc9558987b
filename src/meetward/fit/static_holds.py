"""Static holding before heavy sets: for how long each muscle is held, and which sessions hold too long."""

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Region
from meetward.catalogue.movement import Movement
from meetward.cycle.load import Effort, Heavy, Kilos, Percent
from meetward.cycle.tree import Line, Session
from meetward.fit.minutes import line_sets
from meetward.fit.regions import WORKING, held_muscles, static_verdict
from meetward.fit.words import entry_of
from meetward.problem import Place, Problem

HEAVY_PERMILLE = 800


def static_seconds(session: Session, catalogue: Catalogue) -> dict[Region, int]:
    """Static seconds on each muscle that the session has before its last heavy set, as written. [s]"""
    heavy = [(s, n) for s, n, line in lines_of(session) if is_heavy(line)]
    last = heavy[-1] if heavy else (-1, -1)
    held: dict[Region, int] = {}
    for s, segment in enumerate(session.segments):
        for n, line in enumerate(segment.lines):
            if (s, n) > last:
                return held
            sets = len(list(line_sets(line, catalogue)))
            for drill, times in _drills_of(line, catalogue, sets):
                for muscle in held_muscles(drill) if drill.held_s else ():
                    held[muscle] = held.get(muscle, 0) + drill.held_s * times
    return held


def static_problems(session: Session, catalogue: Catalogue, place: Place) -> list[Problem]:
    """A note for each working muscle that a written session holds for a minute or more before heavy sets."""
    working: set[Region] = set()
    for _, _, line in lines_of(session):
        if is_heavy(line):
            for part in line.parts:
                entry = entry_of(part, catalogue)
                working.update(WORKING.get(entry.family, ()) if isinstance(entry, Movement) else ())
    problems = []
    for muscle, seconds in static_seconds(session, catalogue).items():
        allowed, said = static_verdict(seconds)
        if muscle in working and not allowed:
            problems.append(
                Problem(
                    place,
                    "held long before heavy sets",
                    f"The {muscle} are held for {seconds} s before the last heavy set.",
                    said,
                    severity="look",
                )
            )
    return problems


def is_heavy(line: Line) -> bool:
    """Whether a line has sets at 80 % and over, or as heavy as they go that day."""
    return any(
        isinstance(group.load, Heavy)
        or (isinstance(group.load, Percent) and group.load.high_permille >= HEAVY_PERMILLE)
        or (isinstance(group.load, Effort) and group.load.scale == "rpe" and group.load.high_tenths >= 80)
        or isinstance(group.load, Kilos)
        for group in line.groups
    )


def lines_of(session: Session) -> list[tuple[int, int, Line]]:
    """The lines of the lifts, each with the number of its segment and its own, from 0."""
    return [
        (s, n, line)
        for s, segment in enumerate(session.segments)
        if segment.kind == "lifts"
        for n, line in enumerate(segment.lines)
    ]


def _drills_of(line: Line, catalogue: Catalogue, sets: int) -> list[tuple[Drill, int]]:
    """Drills of a line with how often each is done: its own parts, and between-set work in every rest."""
    own = [(d, max(sets, 1)) for part in line.parts if isinstance(d := entry_of(part, catalogue), Drill)]
    between = [(d, max(sets - 1, 1)) for b in line.between if (d := catalogue.drills.get(b.drill))]
    return own + between
