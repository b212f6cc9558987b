"""The cycle as coaches draw it: days down, weeks across, the load above, the meet as a flag at the right."""

from datetime import date, timedelta

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Family, Movement
from meetward.cycle.tree import Cycle, Session
from meetward.lifter.calendar import DAYS
from meetward.publish.load_line import WeekLoad, load_line
from meetward.units import show_percent
from meetward.web.actions.timetable import Timetable
from meetward.workload.count import Count, CycleCount, count_line

WIDE_PX, NARROW_PX = 1140, 92
"""Room for all weeks on a laptop, and the least that a week needs."""


CLASSIC: frozenset[Family] = frozenset({"snatch", "clean", "clean and jerk", "jerk"})
"""Families of the lifts whose percentage says how heavy a session is."""


class Cell(msgspec.Struct, frozen=True):
    """A session in the grid.

    lifts : counted lifts, rounded; 0 where none are counted.
    top : highest percentage of a snatch, clean or jerk, rounded ("85 %"); in a session without them that of
        whatever is heaviest, with its kind ("pull 105 %"); empty when there is none.
    """

    week: int
    session: int
    title: str
    key: bool
    lifts: int
    top: str
    minutes: int | None


class Row(msgspec.Struct, frozen=True):
    """A day of all weeks: its name, and the sessions of each week on it."""

    name: str
    short: str
    weeks: tuple[tuple[Cell, ...], ...]


class WeekHead(msgspec.Struct, frozen=True):
    """The head of a week: role in words (empty for a plain load week), first and last day."""

    number: int
    role: str
    title: str
    monday: date | None
    sunday: date | None


class PhaseHead(msgspec.Struct, frozen=True):
    """A phase over its weeks."""

    title: str
    aim: str
    weeks: int


class Grid(msgspec.Struct, frozen=True):
    """Everything that the cycle's page draws. ``drawing`` is the load line as SVG; empty without weeks."""

    phases: tuple[PhaseHead, ...]
    weeks: tuple[WeekHead, ...]
    rows: tuple[Row, ...]
    drawing: str
    lifts: int
    average: str
    sessions: int


def grid(cycle: Cycle, count: CycleCount, catalogue: Catalogue) -> Grid:
    """The grid of a cycle."""
    weeks = [week for _, _, week in cycle.weeks()]
    times = Timetable(cycle)
    mondays = [times.monday(number + 1) for number in range(len(weeks))]
    places: dict[tuple[int, int], dict[int, list[Cell]]] = {}
    for week, number, session in cycle.sessions():
        place = (0, session.weekday) if session.weekday is not None else (1, number)
        cell = _cell(week, number, session, count.sessions[week - 1][number - 1], catalogue)
        places.setdefault(place, {}).setdefault(week, []).append(cell)
    rows = tuple(
        Row(
            *_row_name(place),
            tuple(tuple(places[place].get(week, ())) for week in range(1, len(weeks) + 1)),
        )
        for place in sorted(places)
    )
    return Grid(
        phases=tuple(PhaseHead(p.title, p.aim, len(p.weeks)) for p in cycle.phases if p.weeks),
        weeks=tuple(
            WeekHead(
                n,
                "" if week.role == "load" else week.role,
                week.title,
                monday,
                monday and monday + timedelta(days=6),
            )
            for n, (week, monday) in enumerate(zip(weeks, mondays, strict=True), start=1)
        ),
        rows=rows,
        drawing=_drawing(cycle, count),
        lifts=round(count.cycle.lifts),
        average=percent(count.cycle.average_permille),
        sessions=sum(len(week.sessions) for week in weeks),
    )


def percent(permille: float | None) -> str:
    """``742.3`` as ``"74 %"``; empty for None and 0."""
    return f"{show_percent(round(permille / 10) * 10)} %" if permille else ""


def _cell(week: int, number: int, session: Session, count: Count, catalogue: Catalogue) -> Cell:
    return Cell(
        week,
        number,
        session.title or f"Session {number}",
        session.key,
        round(count.lifts),
        heaviest(session, catalogue),
        session.minutes,
    )


def _whole(movement: Movement) -> bool:
    """Whether the lift is done to its end: a jerk dip or a jerk recovery is heavier than any jerk."""
    if movement.family == "jerk":
        return {"drive", "overhead"} <= set(movement.positions)
    return movement.family in CLASSIC


def heaviest(session: Session, catalogue: Catalogue) -> str:
    """The percentage that a coach looks for. Pulls and squats go over 100 % of a lift and would hide it."""
    classic, other = 0, (0, "")
    for line in (line for segment in session.segments if segment.kind == "lifts" for line in segment.lines):
        peak = count_line(line, catalogue).peak_permille
        known = [found for part in line.parts if (found := catalogue.movements.get(part.movement))]
        if any(map(_whole, known)):
            classic = max(classic, peak)
        elif known:
            other = max(other, (peak, known[0].family))
    return percent(classic) or (f"{other[1]} {percent(other[0])}" if other[0] else "")


def _row_name(place: tuple[int, int]) -> tuple[str, str]:
    by_number, which = place
    return (f"Session {which}", f"{which}") if by_number else (DAYS[which], DAYS[which][:3])


def _drawing(cycle: Cycle, count: CycleCount) -> str:
    weeks = [
        WeekLoad(round(one.lifts), _permille(one), week.role)
        for (_, _, week), one in zip(cycle.weeks(), count.weeks, strict=True)
    ]
    if not weeks:
        return ""
    return load_line(weeks, week_px=max(NARROW_PX, WIDE_PX / len(weeks)), height_px=130, foot=False)


def _permille(count: Count) -> int | None:
    return None if count.average_permille is None else round(count.average_permille)
