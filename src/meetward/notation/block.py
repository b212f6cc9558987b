"""The lines under one heading: put together into entries, and read."""

import re
from collections.abc import Callable, Sequence

import msgspec

from meetward.cycle.tree import Between, Line, Segment, SegmentKind, Span
from meetward.problem import Problem

from . import problems as p
from .conventions import Conventions
from .draft import Draft
from .entry import ReadEntry, Record, moved
from .headings import Heading, said
from .items import Scan
from .names import NameReader
from .quoted import ids_in, unquoted

Looked = Heading | Scan | None
"""What a source line is at first sight: a heading, something to read, or blank."""

_OF_EACH = re.compile(r"\b(?:of|each)\s*:?\s*$", re.IGNORECASE)
_GOES_ON = re.compile(r"\W*(?:then|followed by|drop|back[- ]?off|straight into)\b", re.IGNORECASE)
_ROUNDS = re.compile(r"\W*[\w-]+\s*(?:rounds?|sets?)\b[^:]*(?::|of|$)\s*$", re.IGNORECASE)
_SUPERSET = re.compile(
    r"\W*(?:supersets?|circuit|giant set|tri-?set)\W*(?:x|×|for)?\s*(\d{1,2})\s*(?:rounds?|sets?|times)?\W*$",
    re.IGNORECASE,
)
_ROUNDS_ONLY = re.compile(r"\W*(\d{1,2})\s+rounds?\b[^\d:]*:?\s*$", re.IGNORECASE)
_ROUNDS_FIRST = re.compile(r"\W*\d{1,2}\s*(?:rounds?|sets?)\b", re.IGNORECASE)
_line_decoder = msgspec.json.Decoder(Line)


class Field(msgspec.Struct, frozen=True):
    """Something said about the part that a block belongs to."""

    line: int
    heading: Heading


class Block(msgspec.Struct, frozen=True):
    """What stands under one heading, with line numbers from 0 at the heading.

    texts : lines above the first session that hold no sets, as notes on the part that the block belongs to.
    """

    head: Heading | None
    fields: tuple[Field, ...]
    texts: tuple[str, ...]
    segments: tuple[Segment, ...]
    records: tuple[Record, ...]
    problems: tuple[Problem, ...]


class BlockReader:
    """Reads the lines of one block."""

    def __init__(
        self,
        lines: Sequence[str],
        looked: Sequence[Looked],
        conventions: Conventions,
        names: NameReader,
        scan: Callable[[str], Scan],
        read: Callable[[tuple[tuple[int, Scan], ...], Conventions], ReadEntry],
    ) -> None:
        self.lines = lines
        self.looked, self.conventions, self.names, self.scan, self.read = (
            looked,
            conventions,
            names,
            scan,
            read,
        )
        self.fields: list[Field] = []
        self.segments: list[tuple[SegmentKind, list[Draft]]] = []
        self.problems: list[Problem] = []
        self.open: Draft | None = None
        self.last: Draft | None = None
        self.pending: list[tuple[int, Scan]] = []
        self.gap = False
        self.rounds: Scan | None = None

    def block(self, head: Heading | None, first: int, work: Scan | None) -> Block:
        """Read from line ``first``; ``work`` stands on the heading's own line."""
        if work is not None:
            self._scan(0, work)
        for number in range(first, len(self.looked)):
            looked = self.looked[number]
            if looked is None:
                self.gap = True
                continue
            if isinstance(looked, Heading):
                self._heading(number, looked)
            else:
                self._scan(number, looked)
            self.gap = False
        self._flush_pending()
        return self._finish(head)

    def _lines(self) -> list[Draft]:
        if not self.segments:
            self.segments.append(("lifts", []))
        return self.segments[-1][1]

    def _start(self, number: int) -> Draft:
        draft = Draft(number)
        self._lines().append(draft)
        self.last = draft
        return draft

    def _heading(self, number: int, head: Heading) -> None:
        kind = head.kind
        if kind == "segment":
            self._flush_pending()
            self.segments.append((head.role, []))  # type: ignore[arg-type]  # a segment's, by its kind
            self.open = self.last = None
            if head.value:
                self._scan(number, self.scan(" " * head.at + head.value))
            return
        if kind in ("note", "between", "priority", "text", "exact"):
            self._hanging(number, head)
            return
        self.fields.append(Field(number, head))

    def _hanging(self, number: int, head: Heading) -> None:
        last = self.last
        if head.kind == "text":
            self._flush_pending()
            draft = self._start(number)
            draft.texts = [said(head.value)] if head.value else []
            self.open = None
        elif head.kind == "exact":
            self._flush_pending()
            try:
                line = _line_decoder.decode(head.value)
            except msgspec.MsgspecError as error:
                self.problems.append(
                    p.wrong_value(
                        number + 1,
                        head.at,
                        head.at + len(head.value),
                        head.value[:60],
                        "Exact",
                        f"a line of the cycle as JSON ({error})",
                    )
                )
                draft = self._start(number)
                draft.texts = [head.value]
                self.open = None
                return
            draft = self._start(number)
            draft.exact = line
            self.open = None
        elif last is None:
            if head.kind == "note":
                self.fields.append(Field(number, head))
            else:
                self.problems.append(p.wrong_place(number + 1, 0, head.at, head.kind, "part without lines"))
                self.fields.append(Field(number, Heading("note", f"{head.kind}: {head.value}", head.at)))
        elif head.kind == "note":
            last.notes.append(said(head.value))
        elif head.kind == "priority":
            if head.value.lower() in ("key", "should", "could"):
                last.priority = head.value.lower()
            else:
                self.problems.append(
                    p.wrong_value(
                        number + 1,
                        head.at,
                        head.at + len(head.value),
                        head.value,
                        "priority",
                        "key, should or could",
                    )
                )
                last.notes.append(f"priority: {head.value}")
        else:
            last.between.append(self.between(head.value))

    def between(self, value: str) -> Between:
        """ "ankle rock, 5 each side": a drill and its dose."""
        if value.startswith('"'):
            found = re.match(
                r'("(?:[^"\\]|\\.)*")\s*(\{(?:[^{}"]|"(?:[^"\\]|\\.)*")*\})?\s*(?:,\s*("(?:[^"\\]|\\.)*"))?$',
                value,
            )
            if found:
                got = ids_in(found[2]) if found[2] else None
                written = unquoted(found[1])
                drill = got[0] if got else self._drill(written)
                return Between(written, drill, unquoted(found[3]) if found[3] else "")
        written, _, dose = value.partition(",")
        written = written.strip()
        return Between(written, self._drill(written), dose.strip())

    def _drill(self, written: str) -> str:
        found = self.names.find(written)
        return found.entry.id if found is not None else ""

    def _scan(self, number: int, scan: Scan) -> None:
        lifts = (scan, *scan.more)
        if scan.whole is not None and any(
            self.read(((0, lift),), self.conventions).record.status == "note" for lift in lifts
        ):
            self._one(number, scan.whole)
            return
        for lift in lifts:
            self._one(number, lift)

    def _one(self, number: int, scan: Scan) -> None:
        """Take one lift, or what a line says of the lifts around it."""
        if self.gap:
            self.rounds = None
        rounds = self._rounds_of(scan)
        if rounds is not None:
            # "3 rounds:" holds for every line below it, up to the next gap; the words themselves are kept.
            self._flush_pending()
            note = Scan(scan.text)
            note.only_note = "holds for the lines below"
            self._start(number).scans = [(number, note)]
            self.open, self.rounds = None, Scan(scan.text)
            self.rounds.all.count = rounds
            self.rounds.all.every_s, self.rounds.all.rest_s = scan.all.every_s, scan.all.rest_s
            return
        parts, items = bool(scan.parts), bool(scan.items or scan.sum_reps)
        if scan.only_note or scan.doubts or not (parts or items or scan.has_all or scan.positions):
            if self.open is not None and self.open.each_of:
                self.open = None
            self._flush_pending()
            self._start(number).scans.append((number, scan))
            self.open = None
            return
        opened = self.open
        if opened is not None and opened.doubted:
            opened = self.open = None
        if not parts and not items:
            if opened is not None and self._belongs_back(opened, scan):
                opened.scans.append((number, scan))
            else:
                self._flush_pending() if self.pending and self.gap else None
                self.pending.append((number, scan))
            return
        if opened is not None and not self.pending:
            if opened.each_of and parts and not items:
                opened.scans.append((number, scan))
                return
            if (
                not parts
                and (opened.has_parts or (self._minutes(opened) and self._is_minutes(scan)))
                and (not opened.has_items or (not self.gap and self._goes_on(opened, number, scan)))
            ):
                opened.scans.append((number, scan))
                return
        draft = self._start(self.pending[0][0] if self.pending else number)
        draft.scans = [*self.pending, (number, scan)]
        if self.rounds is not None and parts:
            draft.scans.insert(0, (draft.number, self.rounds))
        self.pending = []
        self.open = draft
        draft.each_of = not parts and bool(_OF_EACH.search(scan.text))

    @staticmethod
    def _rounds_of(scan: Scan) -> Span | None:
        """The number of rounds that a line says for the lines below it; None where it says anything else."""
        found = _SUPERSET.match(scan.text) or _ROUNDS_ONLY.match(scan.text)
        if found and 0 < int(found[1]) < 60:
            return Span(int(found[1]), int(found[1]))
        if scan.parts or scan.doubts or len(scan.items) != 1:
            return None
        clocked = scan.all.every_s is not None and _ROUNDS_FIRST.match(scan.text)
        if not (clocked or _ROUNDS.match(scan.text)):
            return None
        item = scan.items[0]
        alone = item.reps is None and item.pair is None and item.load is None and item.hold_s is None
        return item.count if alone else None

    def _goes_on(self, opened: Draft, number: int, scan: Scan) -> bool:
        """Whether sets without a name say that they belong to the line above, which has sets already."""
        line, first = self.lines[number], self.lines[opened.scans[0][0]]
        if opened.own_reps:
            return False
        above = opened.scans[0][1].items
        named_above = not above or (self._minutes(opened) and self._is_minutes(scan))
        if above and all(i.bare_list for i in above) and all(i.load is None for i in scan.items):
            return len(above) == 1  # "Front squat @ 75%", and the sets below
        if all(i.load is None for i in above) and all(i.bare_list for i in scan.items):
            return True  # "Split jerk singles", and the weights below
        deeper = len(line) - len(line.lstrip()) > len(first) - len(first.lstrip())
        return named_above or deeper or _GOES_ON.match(line) is not None

    @staticmethod
    def _minutes(draft: Draft) -> bool:
        return all(BlockReader._is_minutes(s) for _, s in draft.scans if s.items)

    @staticmethod
    def _is_minutes(scan: Scan) -> bool:
        return bool(scan.items) and all(i.unsure == "minutes" for i in scan.items)

    def _belongs_back(self, opened: Draft, scan: Scan) -> bool:
        """Whether a line of times only speaks of the entry above."""
        if self.gap or scan.text.rstrip().endswith(":"):
            return False
        for _, other in opened.scans:
            for field in ("every_s", "rest_s", "tempo"):
                if getattr(other.all, field) and getattr(scan.all, field):
                    return False
        return opened.has_items or any(d.movement for _, s in opened.scans for d in s.parts)

    def _flush_pending(self) -> None:
        """Times that no sets followed are kept as notes."""
        for number, scan in self.pending:
            draft = self._start(number)
            draft.scans.append((number, scan))
            draft.hangs = True
            self.open = None
        self.pending = []

    def _finish(self, head: Heading | None) -> Block:
        records: list[Record] = []
        segments: list[Segment] = []
        for s, (kind, drafts) in enumerate(self.segments):
            lines: list[Line] = []
            for draft in sorted(drafts, key=lambda d: d.number):
                line = self._line(draft, (s, len(lines)), records)
                lines.append(line)
            segments.append(Segment(kind, tuple(lines)))
        records.sort(key=lambda r: r.line)
        self.problems.sort(key=lambda q: (q.place.line, q.place.column))
        texts: tuple[str, ...] = ()
        if (head is None or (head.kind != "session" and head.also is None)) and self._only_text(segments):
            # A title or remark above the sessions is no session of its own.
            texts = tuple(note for segment in segments for line in segment.lines for note in line.notes)
            segments = []
            records = [msgspec.structs.replace(record, path=()) for record in records]
        return Block(head, tuple(self.fields), texts, tuple(segments), tuple(records), tuple(self.problems))

    @staticmethod
    def _only_text(segments: list[Segment]) -> bool:
        return (
            len(segments) == 1
            and segments[0].kind == "lifts"
            and all(
                line.notes and not (line.parts or line.between or line.turn) for line in segments[0].lines
            )
        )

    def _line(self, draft: Draft, at: tuple[int, int], records: list[Record]) -> Line:
        if draft.exact is not None:
            return self._with(draft, draft.exact)
        if draft.texts is not None:
            return self._with(draft, Line((), notes=tuple(draft.texts)))
        first = draft.scans[0][0]
        numbered = tuple((number - first, scan) for number, scan in draft.scans)
        got = self.read(numbered, self.conventions)
        self.problems += [moved(problem, first) for problem in got.problems]
        text = "\n".join(self.lines[number].strip() for number in dict.fromkeys(n for n, _ in draft.scans))
        records.append(msgspec.structs.replace(got.record, line=first, text=text, path=at))
        return self._with(draft, got.line)

    @staticmethod
    def _with(draft: Draft, line: Line) -> Line:
        if not (draft.between or draft.notes or draft.priority):
            return line
        return msgspec.structs.replace(
            line,
            between=(*line.between, *draft.between),
            notes=(*line.notes, *draft.notes),
            priority=draft.priority or line.priority,
        )
