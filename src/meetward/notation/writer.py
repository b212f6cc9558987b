"""A cycle as text in the one canonical form: ``read(print_cycle(cycle)).cycle == cycle``.

Every line is written plainly first and read back. Where the plain words would be read as something else, the
names are given in braces and what holds for single sets in square brackets; a line that no words can hold is
written as ``Exact:`` with its JSON. Only ids of lines are left out.
"""

from collections.abc import Iterator

import msgspec

from meetward.cycle.tree import Between, Cycle, Line, Segment, Session, Week

from .conventions import Conventions, of_cycle
from .headings import heading, said
from .known import Catalogue
from .names import NameReader
from .quoted import quoted
from .reader import Reader
from .writing import line_forms

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_SEGMENTS = {"warm-up": "Warm-up:", "lifts": "Lifts:", "recovery": "Recovery:"}
_encoder = msgspec.json.Encoder()


def print_cycle(cycle: Cycle, catalogue: Catalogue | None = None) -> str:
    """The canonical text of a cycle. ``catalogue`` is the one it will be read with; the shipped one unless
    given."""
    if catalogue is None:
        # Loaded only here: most callers have a catalogue at hand, and loading it takes time.
        from meetward.catalogue.reading import shipped

        catalogue = shipped()
    return Writer(catalogue).cycle(cycle)


class Writer:
    """Writes cycles to be read with one catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._reader = Reader(catalogue)
        self._names = NameReader(catalogue)
        self._lines: dict[tuple[Conventions, Line], str] = {}

    def cycle(self, cycle: Cycle) -> str:
        """The canonical text, ending in a line break."""
        conventions = of_cycle(cycle)
        out = list(self._head(cycle))
        number = 0
        for phase in cycle.phases:
            alone = len(cycle.phases) == 1 and phase.weeks and not (phase.title or phase.aim or phase.notes)
            if not alone:
                out += ["", _titled("Phase", phase.title)]
                out += _fields(("Aim", phase.aim))
                out += _notes(phase.notes)
            for week in phase.weeks:
                number += 1
                out += ["", *self._week(week, number, conventions)]
        while out and not out[0]:
            out.pop(0)
        return "\n".join(out) + "\n"

    def line(self, line: Line, conventions: Conventions | None = None) -> str:
        """One line of the cycle with what hangs on it."""
        return self._line(_without_id(line), conventions or Conventions())

    def _head(self, cycle: Cycle) -> Iterator[str]:
        yield from _fields(("Cycle", cycle.title), ("Club", cycle.club), ("Coach", cycle.coach))
        if cycle.meet or cycle.meet_on:
            on = f", {cycle.meet_on.isoformat()}" if cycle.meet_on else ""
            plain = f"Meet: {cycle.meet}{on}"
            safe = (_plain(cycle.meet) and "," not in cycle.meet) or not cycle.meet
            yield plain if safe else f"Meet: {quoted(cycle.meet)}{on}"
        if cycle.starts_on:
            yield f"Start: {cycle.starts_on.isoformat()}"
        if cycle.order:
            yield f"Order: {cycle.order.replace('-', ' ')}"
        if cycle.loaded_order:
            yield f"Loaded order: {cycle.loaded_order.replace('-', ' ')}"
        if cycle.unit == "lb":
            yield "Unit: lb"
        if cycle.bare_load:
            yield f"Bare loads: { {'percent': 'percent', 'kg': 'kilos', 'lb': 'pounds'}[cycle.bare_load] }"
        yield from _fields(("Aim", cycle.aim), ("Emphasis", cycle.emphasis))
        yield from _notes(cycle.notes)

    def _week(self, week: Week, number: int, conventions: Conventions) -> Iterator[str]:
        yield _week_heading(week, number)
        yield from _notes(week.notes)
        for k, session in enumerate(week.sessions, start=1):
            yield ""
            yield from self._session(session, k, conventions)

    def _session(self, session: Session, number: int, conventions: Conventions) -> Iterator[str]:
        yield self._session_heading(session, number)
        if session.minutes is not None:
            yield f"Minutes: {session.minutes}"
        yield from _fields(("Aim", session.aim))
        yield from _notes(session.notes)
        only = session.segments[0] if len(session.segments) == 1 else None
        if only is not None and only.kind == "lifts" and only.lines:
            yield from self._lines_of(only, conventions)
            return
        for segment in session.segments:
            yield _SEGMENTS[segment.kind]
            yield from self._lines_of(segment, conventions)

    def _session_heading(self, session: Session, number: int) -> str:
        day = session.weekday
        name = _DAYS[day] if day is not None and 0 <= day < 7 else f"Session {number}"
        key = " (key)" if session.key else ""
        weekday = day if day is not None and 0 <= day < 7 else None
        if not session.title:
            return f"{name}:{key}"
        plain = f"{name}: {session.title}{key}"
        if _plain(session.title):
            got = heading(plain)
            if got is not None and (got.kind, got.value, got.weekday, got.key) == (
                "session",
                session.title,
                weekday,
                session.key,
            ):
                back = self._reader.read(plain).cycle
                if [s for _, _, s in back.sessions()] == [Session((), session.title, weekday, session.key)]:
                    return plain
        return f"{name}: {quoted(session.title)}{key}"

    def _lines_of(self, segment: Segment, conventions: Conventions) -> Iterator[str]:
        for line in segment.lines:
            yield self._line(_without_id(line), conventions)

    def _line(self, line: Line, conventions: Conventions) -> str:
        key = (conventions, line)
        text = self._lines.get(key)
        if text is None:
            if len(self._lines) > 20_000:
                self._lines.clear()
            text = self._lines[key] = self._written(line, conventions)
        return text

    def _written(self, line: Line, conventions: Conventions) -> str:
        hanging = [self._between(b) for b in line.between] + [f"  note: {_value(n)}" for n in line.notes]
        if line.priority != "should":
            hanging.append(f"  priority: {line.priority}")
        if not line.parts:
            first = [f"Text: {_value(line.notes[0])}".rstrip()] if line.notes else ["Text:"]
            rest = [h for h in hanging if not h.startswith("  note: ")] + [
                f"  note: {_value(n)}" for n in line.notes[1:]
            ]
            forms: Iterator[str] = iter(["\n".join([*first, *rest])])
        else:
            forms = ("\n".join([form, *hanging]) for form in line_forms(line, conventions))
        for form in forms:
            if self._reads_back(form, line, conventions):
                return form
        return "Exact: " + _encoder.encode(line).decode()

    def _reads_back(self, form: str, line: Line, conventions: Conventions) -> bool:
        cycle = self._reader.read("Session 1:\nLifts:\n" + form, conventions).cycle
        session = cycle.phases[0].weeks[0].sessions[0]
        return session == Session((Segment("lifts", (line,)),))

    def _between(self, between: Between) -> str:
        found = self._names.find(between.written)
        drill = found.entry.id if found is not None else ""
        if drill == between.drill and _plain(between.written) and "," not in between.written:
            if not between.dose:
                return f"  between: {between.written}"
            if _plain(between.dose):
                return f"  between: {between.written}, {between.dose}"
        dose = f", {quoted(between.dose)}" if between.dose else ""
        return f"  between: {quoted(between.written)} {{{_id(between.drill)}}}{dose}"


def _without_id(line: Line) -> Line:
    return msgspec.structs.replace(line, id="") if line.id else line


def _plain(text: str) -> bool:
    return bool(text) and text == text.strip() and text.isprintable() and text[0] != '"'


def _value(text: str) -> str:
    return text if _plain(text) else quoted(text)


def _id(movement: str) -> str:
    simple = (movement.isascii() and movement.replace("_", "a").isalnum()) or not movement
    return movement if simple else quoted(movement)


def _fields(*pairs: tuple[str, str]) -> Iterator[str]:
    for name, text in pairs:
        if text:
            yield f"{name}: {_value(text)}"


def _notes(notes: tuple[str, ...]) -> Iterator[str]:
    for note in notes:
        yield f"Note: {_value(note)}"


def _titled(name: str, title: str) -> str:
    if not title:
        return f"{name}:"
    plain = f"{name}: {title}"
    if _plain(title):
        got = heading(plain)
        if got is not None and got.kind == name.lower() and got.value == title:
            return plain
    return f"{name}: {quoted(title)}"


def _week_heading(week: Week, number: int) -> str:
    if not week.title:
        return f"Week {number}: {week.role}"
    plain = f"Week {number}: {week.role}, {week.title}"
    if _plain(week.title):
        got = heading(plain)
        if got is not None and (got.kind, got.role, said(got.value), got.also) == (
            "week",
            week.role,
            week.title,
            None,
        ):
            return plain
    return f"Week {number}: {week.role}, {quoted(week.title)}"
