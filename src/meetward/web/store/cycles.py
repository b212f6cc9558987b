"""Cycles and their versions. A version is written once and never again."""

from datetime import date, datetime
from functools import lru_cache
from uuid import uuid4

import msgspec
from django.db import IntegrityError, transaction
from django.db.models import Exists, OuterRef

from meetward.cycle.package import from_json, to_json
from meetward.cycle.tree import Cycle, Line
from meetward.web.models import Book, Version


class BookRecord(msgspec.Struct, frozen=True):
    """A cycle in a list, as its newest version has it."""

    id: int
    club_id: int
    title: str
    newest: int
    saved: datetime
    weeks: int
    meet: str
    meet_on: date | None


class VersionRecord(msgspec.Struct, frozen=True):
    """A saved version."""

    id: int
    book_id: int
    club_id: int
    number: int
    cycle: Cycle
    text: str
    author: str
    saved: datetime


class SavedMeanwhile(Exception):
    """Somebody else saved a version first; ``theirs`` is its number."""

    def __init__(self, book_id: int, theirs: int) -> None:
        super().__init__(f"Version {theirs} of cycle {book_id} was saved by somebody else meanwhile.")
        self.book_id, self.theirs = book_id, theirs


def books(club_id: int) -> tuple[BookRecord, ...]:
    """The cycles of a club that have a version, the newest cycle first."""
    newer = Version.objects.filter(book=OuterRef("book"), number__gt=OuterRef("number"))
    rows = (
        Version.objects.filter(~Exists(newer), book__club_id=club_id)
        .select_related("book")
        .order_by("-book_id")
    )
    return tuple(_listed(row) for row in rows)


def newest(book_id: int) -> VersionRecord:
    """The newest version of a cycle. Raises LookupError when there is none."""
    return _record(_versions(book_id).order_by("-number").first(), f"cycle {book_id}")


def version(book_id: int, number: int) -> VersionRecord:
    """One version of a cycle. Raises LookupError when there is none."""
    return _record(_versions(book_id).filter(number=number).first(), f"cycle {book_id}, version {number}")


def versions(book_id: int) -> tuple[tuple[int, str, datetime], ...]:
    """Number, author and time of every version, the newest first."""
    rows = _versions(book_id).defer("body", "text").order_by("-number")
    return tuple((row.number, _said(row), row.created) for row in rows)


def club_of(book_id: int) -> int:
    """The club that a cycle belongs to. Raises LookupError."""
    found = Book.objects.filter(pk=book_id).values_list("club_id", flat=True).first()
    if found is None:
        raise LookupError(f"There is no cycle {book_id}.")
    return found


def open_book(club_id: int, title: str, cycle: Cycle, text: str, *, author_id: int | None) -> int:
    """A new cycle with its first version; its id."""
    with transaction.atomic():
        book = Book.objects.create(club_id=club_id, title=title[:300])
        save_version(book.pk, cycle, text, after=0, author_id=author_id)
    return book.pk


def save_version(book_id: int, cycle: Cycle, text: str, *, after: int, author_id: int | None) -> int:
    """Append ``cycle`` as version ``after + 1``; versions are never edited.

    The unique (book, number) settles a race, alike on SQLite and PostgreSQL. Lines without an id get one.
    Raises SavedMeanwhile when somebody else saved first: the caller shows both. Raises LookupError when there
    is no version ``after``; 0 stands before the first. Raises ValueError for a cycle that could not be read
    again, before anything is written.
    """
    body = to_json(with_line_ids(cycle)).decode()
    kept = from_json(body)
    if not isinstance(kept, Cycle):
        raise ValueError(f"This cycle cannot be kept: {kept[0]}")
    try:
        with transaction.atomic():
            if after and not _versions(book_id).filter(number=after).exists():
                raise LookupError(f"There is no version {after} of cycle {book_id}.")
            Version.objects.create(
                book_id=book_id, number=after + 1, body=body, text=text, author_id=author_id
            )
            if cycle.title:
                Book.objects.filter(pk=book_id).update(title=cycle.title[:300])
    except IntegrityError:
        newest_now = _versions(book_id).order_by("-number").values_list("number", flat=True).first()
        if newest_now is None or newest_now <= after:
            raise  # not a race: the cycle itself is gone
        raise SavedMeanwhile(book_id, theirs=newest_now) from None
    return after + 1


def with_line_ids(cycle: Cycle) -> Cycle:
    """The same cycle with an id on every line; ids that are there stay."""

    def named(line: Line) -> Line:
        return line if line.id else msgspec.structs.replace(line, id=uuid4().hex)

    replace = msgspec.structs.replace
    return replace(
        cycle,
        phases=tuple(
            replace(
                phase,
                weeks=tuple(
                    replace(
                        week,
                        sessions=tuple(
                            replace(
                                session,
                                segments=tuple(
                                    replace(segment, lines=tuple(map(named, segment.lines)))
                                    for segment in session.segments
                                ),
                            )
                            for session in week.sessions
                        ),
                    )
                    for week in phase.weeks
                ),
            )
            for phase in cycle.phases
        ),
    )


def _versions(book_id: int):
    return Version.objects.filter(book_id=book_id).select_related("book", "author")


def _listed(row: Version) -> BookRecord:
    try:
        cycle = _cycle(row.pk, row.body)
    except LookupError:  # one damaged cycle must not hide the others: it stays in the list, with no weeks
        cycle = Cycle(phases=())
    weeks = sum(len(phase.weeks) for phase in cycle.phases)
    return BookRecord(
        row.book_id,
        row.book.club_id,
        row.book.title,
        row.number,
        row.created,
        weeks,
        cycle.meet,
        cycle.meet_on,
    )


def _record(row: Version | None, what: str) -> VersionRecord:
    if row is None:
        raise LookupError(f"There is no {what}.")
    cycle = _cycle(row.pk, row.body)
    return VersionRecord(
        row.pk, row.book_id, row.book.club_id, row.number, cycle, row.text, _said(row), row.created
    )


def _said(row: Version) -> str:
    return (row.author.first_name or row.author.username) if row.author else "somebody who has left"


@lru_cache(maxsize=32)
def _cycle(version_id: int, body: str) -> Cycle:
    """A version never changes, so its tree is kept and shared: what is computed from it can be kept too."""
    cycle = from_json(body, source=f"version {version_id}")
    if not isinstance(cycle, Cycle):
        raise LookupError(f"Version {version_id} cannot be read: {cycle[0]}")
    return cycle
