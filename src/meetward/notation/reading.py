"""What a reader gives back, made ready only when it is looked at."""

from meetward.cycle.tree import Cycle, Session
from meetward.problem import Problem

from .block import Block
from .conventions import Conventions
from .entry import Record, moved


class Reading:
    """What a text says.

    cycle : the cycle, with everything that could be read in it.
    problems : everything that was not understood or should be seen, in the order of the text.
    lines : what was understood of each entry, in the order of the text.
    steps : lines looked at, entries read and blocks put together that were not known before (for tests of
    the caches).
    """

    __slots__ = ("_lines", "_parts", "_problems", "_top", "conventions", "cycle", "steps")

    def __init__(
        self,
        cycle: Cycle,
        conventions: Conventions,
        parts: list[tuple["Kept", int, tuple[int, ...], str]],
        top: list[Problem],
        steps: dict[str, int],
    ) -> None:
        self.cycle, self.conventions, self._parts, self._top, self.steps = (
            cycle,
            conventions,
            parts,
            top,
            steps,
        )
        self._lines: tuple[Record, ...] | None = None
        self._problems: tuple[Problem, ...] | None = None

    @property
    def lines(self) -> tuple[Record, ...]:
        """What was understood of each entry, in the order of the text."""
        if self._lines is None:
            self._lines = tuple(r for kept, line, path, _ in self._parts for r in kept.records(line, path))
        return self._lines

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Everything that was not understood or should be seen, in the order of the text."""
        if self._problems is None:
            found = [q for kept, line, _, place in self._parts for q in kept.problems(line, place)]
            if self._top:
                found = sorted([*found, *self._top], key=lambda q: (q.place.line, q.place.column))
            self._problems = tuple(found)
        return self._problems


class Kept:
    """A block that was read, and what was made of it; the same text gives the same objects."""

    __slots__ = ("_at_problems", "_at_records", "block", "session")

    def __init__(self, block: Block, session: Session | None) -> None:
        self.block, self.session = block, session
        self._at_records: tuple[int, tuple[int, ...], tuple[Record, ...]] | None = None
        self._at_problems: tuple[int, str, tuple[Problem, ...]] | None = None

    def records(self, line: int, path: tuple[int, ...]) -> tuple[Record, ...]:
        """The records as they stand in the whole text."""
        had = self._at_records
        if had is None or had[0] != line or had[1] != path:
            records = tuple(
                Record(
                    r.line + line + 1,
                    r.count,
                    r.text,
                    r.status,
                    r.parts,
                    r.reading,
                    r.readings,
                    r.leftover,
                    (*path, *r.path),
                )
                for r in self.block.records
            )
            had = self._at_records = (line, path, records)
        return had[2]

    def problems(self, line: int, place: str) -> tuple[Problem, ...]:
        """The problems as they stand in the whole text."""
        had = self._at_problems
        if had is None or had[0] != line or had[1] != place:
            had = self._at_problems = (line, place, tuple(moved(q, line, place) for q in self.block.problems))
        return had[2]


class Opened:
    """A phase or week being put together; ``kept`` is the block of its heading."""

    __slots__ = ("kept", "number", "sessions", "weeks")

    def __init__(self, kept: Kept | None) -> None:
        self.kept = kept
        self.number = kept.block.head.number if kept is not None and kept.block.head is not None else 0
        self.weeks: list[Opened] = []
        self.sessions: list[Session] = []
