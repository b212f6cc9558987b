"""What to be careful about on a day: the lines that every sheet carries, and those that this day asks for.

Common practice, no source; every sheet defers to doctors, coaches and local rules.
"""

from collections.abc import Iterator
from datetime import date

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Movement
from meetward.cycle.load import Heavy, Percent
from meetward.cycle.tree import Line, Session
from meetward.lifter.profile import Lifter

ALWAYS = (
    "Sharp, spreading or lasting pain, numbness, dizziness or chest pain: stop, and see a doctor or "
    "physiotherapist before you go on.",
    "Clear the platform, put the collars on, check bar and rack. Learn to bail with an empty bar first; "
    "nobody spots a snatch or a clean and jerk by hand.",
    "Your coach's word and local rules come before this sheet.",
)

MINOR = (
    "Under 18: lift only under a qualified coach, technique first; no maximum that the coach has not agreed."
)

AGE_NOT_KNOWN = "Anyone under 18 lifts only under a qualified coach."

NEAR_LIMIT = "Heavy today: not alone. Squat inside a rack with safety bars; stop when technique goes."

NEAR_LIMIT_PERMILLE = 950

OF_AGE = 18


def cautions(session: Session, lifter: Lifter, catalogue: Catalogue, on: date | None) -> tuple[str, ...]:
    """Cautions of a day, the general ones first; each once.

    Of each movement with the bar the first caution is on the sheet; all others stand in the teaching text.
    on : the day, for the lifter's age.
    """
    return tuple(dict.fromkeys(_cautions(session, lifter, catalogue, on)))


def class_cautions(session: Session, catalogue: Catalogue) -> tuple[str, ...]:
    """Cautions for a coach who teaches the session to a class; those of movements stand with their texts."""
    near = any(_near_limit(line, catalogue) for line in _lifts(session))
    return (*ALWAYS, MINOR, *((NEAR_LIMIT,) if near else ()))


def _lifts(session: Session) -> list[Line]:
    return [line for segment in session.segments if segment.kind == "lifts" for line in segment.lines]


def _cautions(session: Session, lifter: Lifter, catalogue: Catalogue, on: date | None) -> Iterator[str]:
    yield from ALWAYS
    minor = may_be_minor(lifter, on)
    if minor:
        yield MINOR
    elif minor is None:
        yield AGE_NOT_KNOWN
    lines = _lifts(session)
    if any(_near_limit(line, catalogue) for line in lines):
        yield NEAR_LIMIT
    for line in lines:
        for movement in _movements(line, catalogue):
            for caution in movement.cautions[:1] if movement.barbell else ():
                yield f"{movement.name}: {caution}"


def may_be_minor(lifter: Lifter, on: date | None) -> bool | None:
    """Whether the lifter is under 18 on that day, or turns 18 in that year; None when that is not known."""
    if lifter.birth_year is None or on is None:
        return None
    return on.year - lifter.birth_year <= OF_AGE


def _movements(line: Line, catalogue: Catalogue) -> list[Movement]:
    return [m for part in line.parts if (m := catalogue.movements.get(part.movement))]


def _near_limit(line: Line, catalogue: Catalogue) -> bool:
    """Whether the line goes to what can be lifted; a pull at 100 % of the clean does not."""
    if all(movement.family in ("pull", "hinge") for movement in _movements(line, catalogue)):
        return False
    return any(
        isinstance(group.load, Heavy)
        or (
            isinstance(group.load, Percent)
            and group.load.of.kind in ("default", "lift")
            and group.load.high_permille >= NEAR_LIMIT_PERMILLE
        )
        for group in line.groups
    )
