"""What a session means, line by line, beside what is written."""

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Line, Part, Segment, Session
from meetward.fit.fitted import DayLine, DaySheet
from meetward.fit.minutes import SessionMinutes, session_minutes
from meetward.fit.words import detail_words, entry_of, load_words, scheme_words
from meetward.publish.words import SEGMENT_TITLES, show_date, show_kilos, show_minutes
from meetward.units import show_percent
from meetward.web.actions.timetable import Slot, Timetable
from meetward.workload.count import count_line, count_session

from .grid import heaviest


class ShownPart(msgspec.Struct, frozen=True):
    """A movement, drill or sequence. ``entry`` is its page in the catalogue; empty where there is none."""

    name: str
    detail: str
    entry: str


class ShownGroup(msgspec.Struct, frozen=True):
    """Sets that are alike; kilos and their reason only where a lifter was chosen."""

    scheme: str
    load: str
    kilos: str = ""
    placeholder: bool = False
    instruction: str = ""
    why: str = ""


class ShownLine(msgspec.Struct, frozen=True):
    """A line: as written, and what it means."""

    written: str
    parts: tuple[ShownPart, ...]
    groups: tuple[ShownGroup, ...]
    between: tuple[str, ...]
    notes: tuple[str, ...]
    turn: str
    lifts: int


class ShownSegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    title: str
    minutes: str
    lines: tuple[ShownLine, ...]


class Meaning(msgspec.Struct, frozen=True):
    """A session's meaning. ``facts`` are its counts and minutes in a sentence."""

    facts: str
    minutes_why: str
    segments: tuple[ShownSegment, ...]


def meaning(
    session: Session, written: dict[str, str], sheet: DaySheet | None, catalogue: Catalogue
) -> Meaning:
    """What the session means.

    written : the words of each line by the line's id.
    sheet : the day of the chosen lifter; its segments and lines stand in the same order as the session's.
    """
    estimate = session_minutes(session, catalogue)
    segments = []
    for at, segment in enumerate(session.segments):
        day = sheet.segments[at] if sheet else None
        segments.append(
            ShownSegment(
                SEGMENT_TITLES[segment.kind],
                show_minutes(day.minutes if day else estimate.segments[at]),
                tuple(
                    _line(line, segment, written, day.lines[n] if day else None, sheet, catalogue)
                    for n, line in enumerate(segment.lines)
                ),
            )
        )
    why = sheet.minutes_why if sheet else estimate.why
    return Meaning(_facts(session, estimate, sheet, catalogue), why.said, tuple(segments))


def said(times: Timetable, slot: Slot) -> str:
    """``Week 3, session 2, Tuesday 12 January 2027``."""
    on = times.on(slot)
    return f"Week {slot.week}, session {slot.session}" + (f", {show_date(on)}" if on else "")


def _facts(session: Session, estimate: SessionMinutes, sheet: DaySheet | None, catalogue: Catalogue) -> str:
    count = count_session(session, catalogue)
    words = [f"{round(count.lifts)} lifts" if count.lifts else "No counted lifts"]
    if count.average_permille:
        words.append(f"{show_percent(round(count.average_permille / 10) * 10)} % on average")
    if found := heaviest(session, catalogue):
        # "70 %" is of the snatch, clean or jerk; anything else brings its kind along.
        words.append(f"heaviest snatch, clean or jerk {found}" if found[0].isdigit() else f"heaviest {found}")
    if session.minutes:
        words.append(f"meant for {session.minutes} minutes")
    if sheet and sheet.minutes:
        words.append(f"{show_minutes(sheet.minutes)} for {sheet.lifter}")
    elif estimate.minutes:
        low, high = round(estimate.low_minutes), round(estimate.high_minutes)
        words.append(f"{show_minutes(estimate.minutes)} ({low} to {high})")
    return ", ".join(words) + "."


def _line(
    line: Line,
    segment: Segment,
    written: dict[str, str],
    day: DayLine | None,
    sheet: DaySheet | None,
    catalogue: Catalogue,
) -> ShownLine:
    lifts = round(count_line(line, catalogue).lifts) if segment.kind == "lifts" else 0
    return ShownLine(
        written=written.get(line.id, ""),
        parts=tuple(_part(part, catalogue) for part in line.parts),
        groups=_groups(line, day, sheet, catalogue),
        between=tuple(", ".join(filter(None, (one.written, one.dose))) for one in line.between),
        notes=line.notes,
        turn=line.turn,
        lifts=lifts,
    )


def _part(part: Part, catalogue: Catalogue) -> ShownPart:
    entry = entry_of(part, catalogue)
    return ShownPart(entry.name if entry else part.written, detail_words(part), entry.id if entry else "")


def _groups(
    line: Line, day: DayLine | None, sheet: DaySheet | None, catalogue: Catalogue
) -> tuple[ShownGroup, ...]:
    if day is None or sheet is None:
        return tuple(
            ShownGroup(scheme_words(group), load_words(group.load, catalogue)) for group in line.groups
        )
    shown = []
    for one in day.sets:
        kilos = show_kilos(one, sheet.unit)
        shown.append(
            ShownGroup(
                one.scheme,
                one.load_said,
                f"{kilos} {sheet.unit}" if kilos else "",
                one.placeholder,
                one.instruction,
                # "No load is written" is no news for sets that have none.
                one.why.said if kilos or one.load_said else "",
            )
        )
    return tuple(shown)
