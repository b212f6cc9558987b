"""A whole text to a cycle, its problems, and what was understood of every line."""

from collections.abc import Callable, Sequence
from typing import TypeVar

import msgspec

from meetward.cycle.tree import Cycle, Phase, Session, Week
from meetward.problem import Problem

from . import problems as p
from .block import Block, BlockReader, Looked
from .conventions import Conventions
from .entry import ReadEntry, read_entry
from .fields import meet_of, misplaced, notes_of, raw_value, values_of, whole_minutes
from .grammar import scan_line
from .headings import Heading, as_date, heading, said
from .items import Scan
from .known import Catalogue
from .names import NameReader
from .reading import Kept, Opened, Reading

_SHAPE = frozenset(("phase", "week", "session"))
_MOST_KEPT = 20_000
_ORDERS = {
    "sets first": "sets-first",
    "sets-first": "sets-first",
    "sets": "sets-first",
    "reps first": "reps-first",
    "reps-first": "reps-first",
    "reps": "reps-first",
}
_UNITS = {
    "kg": "kg",
    "kilos": "kg",
    "kilo": "kg",
    "kilograms": "kg",
    "kgs": "kg",
    "lb": "lb",
    "lbs": "lb",
    "pounds": "lb",
}
_BARE = {**_UNITS, "percent": "percent", "%": "percent", "percentages": "percent"}
_DECLARED = {
    "order": (_ORDERS, "'sets first' or 'reps first'"),
    "loaded order": (_ORDERS, "'sets first' or 'reps first'"),
    "unit": (_UNITS, "'kg' or 'lb'"),
    "bare loads": (_BARE, "'percent', 'kilos' or 'pounds'"),
}
T = TypeVar("T")


class Reader:
    """Reads texts with one catalogue and remembers lines, entries, sessions and weeks.

    Reading a text again after one line was edited reads that line; sessions, weeks and phases whose text did
    not change are the same objects as before. Not for use by two threads at once.
    """

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._begin()

    def _begin(self) -> None:
        """Know the catalogue's names as they are now, and nothing of any text."""
        self._names = NameReader(self.catalogue)
        self._version = self.catalogue.version
        self._looked: dict[str, Looked] = {}
        self._entries: dict[tuple[object, ...], ReadEntry] = {}
        self._blocks: dict[tuple[object, ...], Kept] = {}
        self._shared: dict[tuple[object, ...], tuple[object, object]] = {}
        self._scans: dict[str, Scan] = {}
        self._steps = {"lines": 0, "entries": 0, "blocks": 0}

    def read(self, text: str, conventions: Conventions | None = None) -> Reading:
        """The cycle in a text. ``conventions`` hold where the text itself declares nothing. Never raises
        for what was typed."""
        if self.catalogue.version != self._version:
            self._begin()
        for cache in (self._looked, self._entries, self._blocks, self._shared, self._scans):
            if len(cache) > _MOST_KEPT:
                cache.clear()
        self._steps = {"lines": 0, "entries": 0, "blocks": 0}
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        looked = self._look(lines)
        given = conventions or Conventions()
        declared, top = self._declared(lines, looked)
        whole = declared.over(given)
        starts = [
            0,
            *(k for k, each in enumerate(looked) if k and type(each) is Heading and each.kind in _SHAPE),
        ]
        kept = [
            (self._block(tuple(lines[start:end]), looked[start:end], whole), start)
            for start, end in zip(starts, [*starts[1:], len(lines)], strict=True)
        ]
        return self._assemble(kept, whole, declared, given, top)

    def _look(self, lines: Sequence[str]) -> list[Looked]:
        known = self._looked
        out: list[Looked] = []
        for line in lines:
            try:
                out.append(known[line])
            except KeyError:
                self._steps["lines"] += 1
                looked: Looked
                if not line.strip():
                    looked = None
                else:
                    looked = heading(line) or self._scan(line)
                known[line] = looked
                out.append(looked)
        return out

    def _scan(self, line: str) -> Scan:
        scan = self._scans.get(line)
        if scan is None:
            scan = self._scans[line] = scan_line(line, self._names)
        return scan

    def _declared(self, lines: Sequence[str], looked: Sequence[Looked]) -> tuple[Conventions, list[Problem]]:
        shown = 0
        values: dict[str, str] = {}
        top: list[Problem] = []
        for number, each in enumerate(looked):
            if type(each) is Scan:
                shown |= each.signs
            elif type(each) is Heading:
                if each.kind in ("order", "loaded order", "unit", "bare loads"):
                    table, wanted = _DECLARED[each.kind]
                    value = table.get(each.value.lower().rstrip("."))
                    if value is None:
                        top.append(
                            p.wrong_value(
                                number + 1,
                                each.at,
                                each.at + len(each.value),
                                each.value,
                                each.kind.capitalize(),
                                wanted,
                            )
                        )
                    else:
                        values[each.kind] = value
                elif each.value or each.also is not None:
                    work = self._work_behind(lines[number], each)
                    if work is not None:
                        shown |= work.signs
        declared = msgspec.convert(
            {
                "order": values.get("order"),
                "loaded_order": values.get("loaded order"),
                "unit": values.get("unit"),
                "bare_load": values.get("bare loads"),
                "shown": shown,
            },
            Conventions,
        )
        return declared, top

    def _work_behind(self, line: str, head: Heading) -> Scan | None:
        """Sets on the line of a heading ("Week 1: 100x10"), or None where its text is a title."""
        inner = head.also or head
        if (
            head.kind not in ("week", "session")
            or not inner.value
            or inner.value.startswith('"')
            or inner.role
        ):
            return None
        scan = self._scan(" " * inner.at + inner.value)
        titled = bool(scan.doubts) or not any(c.isdigit() for c in inner.value)
        titled = titled or (not scan.parts and bool(scan.leftover or inner.kind == "session"))
        if titled:
            return None
        if (scan.items or scan.sum_reps or any(d.reps_low for d in scan.parts)) and not scan.only_note:
            return scan
        return None

    def _sounds_like_work(self, head: Heading) -> bool:
        """Whether a title with nothing below it could be the session: "Test day: snatch to max"."""
        inner = head.also or head
        if inner.kind != "session" or not inner.value or inner.value.startswith('"'):
            return False
        scan = self._scan(" " * inner.at + inner.value)
        return bool(scan.parts) and bool(scan.items or scan.doubts)

    def _block(self, lines: tuple[str, ...], looked: Sequence[Looked], conventions: Conventions) -> Kept:
        key = (conventions, lines)
        kept = self._blocks.get(key)
        if kept is not None:
            return kept
        self._steps["blocks"] += 1
        first = looked[0] if looked else None
        head = first if isinstance(first, Heading) and first.kind in _SHAPE else None
        work = self._work_behind(lines[0], head) if head is not None else None
        reader = BlockReader(lines, looked, conventions, self._names, self._scan, self._entry)
        block = reader.block(head, 1 if head is not None else 0, work)
        alone = not any(type(each) is Scan for each in looked)
        if head is not None and work is None and alone and self._sounds_like_work(head):
            inner = head.also or head
            hidden = p.kept_as_title(1, inner.at, inner.at + len(inner.value), inner.value)
            block = msgspec.structs.replace(block, problems=(hidden, *block.problems))
        session = self._session(block, titled=work is None)
        kept = self._blocks[key] = Kept(block, session)
        return kept

    def _entry(self, numbered: tuple[tuple[int, Scan], ...], conventions: Conventions) -> ReadEntry:
        key = (conventions, *((n, scan.text) for n, scan in numbered))
        entry = self._entries.get(key)
        if entry is None:
            self._steps["entries"] += 1
            entry = self._entries[key] = read_entry(numbered, conventions, self._names)
        return entry

    def _session(self, block: Block, *, titled: bool) -> Session | None:
        head = block.head
        if head is not None and head.kind == "week":
            head = head.also
        if head is None or head.kind != "session":
            return Session(block.segments) if block.segments else None
        values = values_of(block, ("aim", "minutes"))
        minutes = values.get("minutes", "")
        return Session(
            block.segments,
            title=said(head.value) if titled else "",
            weekday=head.weekday,
            key=head.key,
            minutes=whole_minutes(minutes),
            aim=values.get("aim", ""),
            notes=notes_of(block),
        )

    def _assemble(
        self,
        kept: list[tuple[Kept, int]],
        conventions: Conventions,
        declared: Conventions,
        given: Conventions,
        top: list[Problem],
    ) -> Reading:
        parts: list[tuple[Kept, int, tuple[int, ...], str]] = []
        phases: list[Opened] = []
        problems = list(top)
        number = 0
        for one, start in kept:
            head = one.block.head
            kind = head.kind if head is not None else ""
            if kind == "phase":
                phases.append(Opened(one))
            if kind == "week" and head is not None:
                if not phases:
                    phases.append(Opened(None))
                weeks = phases[-1].weeks
                # "Week 2 Day 2" goes on with week 2.
                if not (weeks and head.also is not None and weeks[-1].number == head.number):
                    weeks.append(Opened(one))
                    number += 1
            place = ""
            path: tuple[int, ...] = ()
            if one.session is not None:
                if not phases:
                    phases.append(Opened(None))
                if not phases[-1].weeks:
                    phases[-1].weeks.append(Opened(None))
                    number += 1
                sessions = phases[-1].weeks[-1].sessions
                sessions.append(one.session)
                path = (len(phases) - 1, len(phases[-1].weeks) - 1, len(sessions) - 1)
                place = f"Week {number}, session {len(sessions)}"
            elif kind == "week":
                place = f"Week {number}"
            parts.append((one, start, path, place))
            problems += misplaced(one.block, start)
        built = tuple(self._phase(each) for each in phases)
        first = kept[0][0].block
        cycle = self._cycle(first if first.head is None else None, built, declared, given, problems)
        return Reading(cycle, conventions, parts, problems, dict(self._steps))

    def _phase(self, opened: "Opened") -> Phase:
        weeks = tuple(self._week(each) for each in opened.weeks)
        key = ("phase", id(opened.kept), *map(id, weeks))

        def make() -> Phase:
            block = opened.kept.block if opened.kept is not None else None
            title = said(block.head.value) if block is not None and block.head is not None else ""
            return Phase(weeks, title, values_of(block, ("aim",)).get("aim", ""), notes_of(block))

        return self._share(key, (opened.kept, weeks), make)

    def _week(self, opened: "Opened") -> Week:
        sessions = tuple(opened.sessions)
        key = ("week", id(opened.kept), *map(id, sessions))

        def make() -> Week:
            block = opened.kept.block if opened.kept is not None else None
            head = block.head if block is not None else None
            if head is None or block is None:
                return Week(sessions)
            own = head.also is None
            title = said(head.value) if own and not (head.value and self._is_work(head)) else ""
            role = head.role or "load"
            notes = notes_of(block) if own else ()
            return Week(sessions, role, title, notes)  # type: ignore[arg-type]  # the pattern of a week names roles only

        return self._share(key, (opened.kept, sessions), make)

    def _is_work(self, head: Heading) -> bool:
        return self._work_behind("", head) is not None

    def _share(self, key: tuple[object, ...], alive: object, make: Callable[[], T]) -> T:
        """The value made for the same objects before, or a new one. What the key names by identity is kept
        alive."""
        had = self._shared.get(key)
        if had is not None:
            return had[1]  # type: ignore[return-value]  # the key says which kind of value was made
        value = make()
        self._shared[key] = (alive, value)
        return value

    def _cycle(
        self,
        block: Block | None,
        phases: tuple[Phase, ...],
        declared: Conventions,
        given: Conventions,
        problems: list[Problem],
    ) -> Cycle:
        values = values_of(block, ("cycle", "club", "coach", "aim", "emphasis", "meet", "start"))
        meet, meet_on = meet_of(values.get("meet", ""), raw=raw_value(block, "meet"))
        start = values.get("start", "")
        starts_on = as_date(start)
        if start and starts_on is None and block is not None:
            field = next(f for f in block.fields if f.heading.kind == "start")
            problems.append(
                p.wrong_value(
                    field.line + 1,
                    field.heading.at,
                    field.heading.at + len(start),
                    start,
                    "Start",
                    "the Monday of week 1 as 2026-12-28",
                )
            )
        both = declared.over(given)
        return Cycle(
            phases,
            title=values.get("cycle", ""),
            club=values.get("club", ""),
            coach=values.get("coach", ""),
            aim=values.get("aim", ""),
            emphasis=values.get("emphasis", ""),
            meet=meet,
            meet_on=meet_on,
            starts_on=starts_on,
            order=both.order,
            loaded_order=both.loaded_order,
            unit=both.unit or "kg",
            bare_load=both.bare_load,
            notes=(*notes_of(block), *((f"Start: {start}",) if start and starts_on is None else ())),
        )


def read(text: str, catalogue: Catalogue, conventions: Conventions | None = None) -> Reading:
    """The cycle in a text, its problems and what was understood of every line. Never raises for what was
    typed."""
    return Reader(catalogue).read(text, conventions)
