"""A club's own catalogue text. A version is written once and never again."""

from datetime import datetime

import msgspec
from django.db import IntegrityError, transaction

from meetward.web.models import OwnCatalogue


class OwnRecord(msgspec.Struct, frozen=True):
    """A saved version; number 0 with no text where a club has none yet."""

    club_id: int
    number: int
    text: str
    author: str = ""
    saved: datetime | None = None


class ChangedMeanwhile(Exception):
    """Somebody else saved a version of the own catalogue first; ``theirs`` is its number."""

    def __init__(self, club_id: int, theirs: int) -> None:
        super().__init__(f"Version {theirs} of the own catalogue of club {club_id} was saved meanwhile.")
        self.club_id, self.theirs = club_id, theirs


def newest(club_id: int) -> OwnRecord:
    """The newest version of a club."""
    row = _rows(club_id).order_by("-number").first()
    return _record(row) if row is not None else OwnRecord(club_id, 0, "")


def version(club_id: int, number: int) -> OwnRecord:
    """One version of a club; 0 stands before the first. Raises LookupError when there is none."""
    if number == 0:
        return OwnRecord(club_id, 0, "")
    row = _rows(club_id).filter(number=number).first()
    if row is None:
        raise LookupError(f"Club {club_id} has no version {number} of its own catalogue.")
    return _record(row)


def versions(club_id: int) -> tuple[tuple[int, str, datetime], ...]:
    """Number, author and time of every version, the newest first."""
    rows = _rows(club_id).defer("text").order_by("-number")
    return tuple((row.number, _said(row), row.created) for row in rows)


def save(club_id: int, text: str, *, after: int, author_id: int | None) -> int:
    """Append ``text`` as version ``after + 1``; its number.

    Raises ChangedMeanwhile when somebody else saved first. Raises LookupError when there is no version
    ``after``; 0 stands before the first.
    """
    try:
        with transaction.atomic():
            if after and not _rows(club_id).filter(number=after).exists():
                raise LookupError(f"Club {club_id} has no version {after} of its own catalogue.")
            OwnCatalogue.objects.create(club_id=club_id, number=after + 1, text=text, author_id=author_id)
    except IntegrityError:
        newest_now = _rows(club_id).order_by("-number").values_list("number", flat=True).first()
        if newest_now is None or newest_now <= after:
            raise  # not a race: the club itself is gone
        raise ChangedMeanwhile(club_id, theirs=newest_now) from None
    return after + 1


def _rows(club_id: int):
    return OwnCatalogue.objects.filter(club_id=club_id).select_related("author")


def _record(row: OwnCatalogue) -> OwnRecord:
    return OwnRecord(row.club_id, row.number, row.text, _said(row), row.created)


def _said(row: OwnCatalogue) -> str:
    return (row.author.first_name or row.author.username) if row.author else "somebody who has left"
