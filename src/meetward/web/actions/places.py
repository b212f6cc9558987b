"""Where a movement, drill or warm-up stands in the cycle that the club trains from."""

from collections.abc import Iterator
from datetime import date

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.sequence import Sequence
from meetward.cycle.tree import Cycle, Line, SegmentKind
from meetward.fit.words import entry_of, line_words, set_words
from meetward.web.store import cycles, people

from .catalogues import catalogue_of
from .days import training
from .timetable import Slot, Timetable
from .who import Who


class Place(msgspec.Struct, frozen=True):
    """One line of one session.

    on : None while the cycle has no dates.
    said : its sets and loads in words; of a warm-up's step and of work between sets its dose.
    inside : "in the jerk warm-up", of which it is a step; "between the sets of snatch"; else empty.
    """

    slot: Slot
    on: date | None
    title: str
    segment: SegmentKind
    said: str
    inside: str = ""


class Places(msgspec.Struct, frozen=True):
    """Every place in the cycle. ``ahead`` are those from today on, or all where there are no dates, the next
    one first; ``behind`` the rest, the last one first.

    own_key : key of the lifter who asks; empty for a coach, who is led to the session instead of the day.
    """

    book_id: int
    title: str
    ahead: tuple[Place, ...]
    behind: tuple[Place, ...]
    own_key: str = ""

    @property
    def count(self) -> int:
        """How many times it stands there."""
        return len(self.ahead) + len(self.behind)

    @property
    def weeks(self) -> int:
        """In how many weeks."""
        return len({place.slot.week for place in (*self.ahead, *self.behind)})


def places(asks: Who, id_: str, today: date) -> Places | None:
    """Where an entry stands in the current cycle of the club that they look at.

    None where the club trains from no cycle, or where they are neither a coach nor a lifter of it. A lifter
    gets the dates of their own days.
    """
    seat = asks.seat
    if seat is None:
        return None
    if asks.may("read cycles"):
        chosen = people.club(seat.club_id).current_book_id
        if chosen is None:
            return None
        version, own_key = cycles.newest(chosen), ""
        times = Timetable(version.cycle)
    else:
        one = training(asks, seat.lifter_key) if seat.lifter_key else None
        if one is None:
            return None
        version, own_key, times = one.version, seat.lifter_key, one.times
    found = list(_in_cycle(version.cycle, id_, times, catalogue_of(asks, seat.club_id)))
    behind = [place for place in found if place.on is not None and place.on < today]
    return Places(
        version.book_id,
        version.cycle.title or "the cycle",
        tuple(place for place in found if place.on is None or place.on >= today),
        tuple(reversed(behind)),
        own_key,
    )


def _in_cycle(cycle: Cycle, id_: str, times: Timetable, catalogue: Catalogue) -> Iterator[Place]:
    for week, number, session in cycle.sessions():
        slot = Slot(week, number)
        for segment in session.segments:
            for line in segment.lines:
                for said, inside in _in_line(line, id_, catalogue):
                    title = session.title or f"session {number}"
                    yield Place(slot, times.on(slot), title, segment.kind, said, inside)


def _in_line(line: Line, id_: str, catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    if any(part.movement == id_ for part in line.parts):
        sets = [set_words(group, catalogue) for group in line.groups]
        name = line_words(line, catalogue) if len(line.parts) > 1 else ""
        yield ": ".join(words for words in (name, "; ".join(filter(None, sets))) if words), ""
    for one in line.between:
        if one.drill == id_:
            yield one.dose, f"between the sets of {_inside(line_words(line, catalogue))}"
    for part in line.parts:
        entry = entry_of(part, catalogue)
        if isinstance(entry, Sequence):
            for step in entry.steps:
                if step.of == id_:
                    yield step.dose, f"in the {_inside(entry.name)}"


def _inside(name: str) -> str:
    """A name inside a sentence; abbreviations keep their capitals."""
    return name if name[1:2].isupper() else f"{name[:1].lower()}{name[1:]}"
