"""The catalogue that a club works with: the shipped one with the club's own text over it."""

from functools import lru_cache

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.files import at_entry
from meetward.catalogue.own import CannotWrite, OwnKind, changes, own_fields, with_entry, without_entry
from meetward.catalogue.reading import load_text, shipped
from meetward.problem import Problem, stops
from meetward.web.store import catalogues
from meetward.web.store.catalogues import ChangedMeanwhile, OwnRecord

from .who import Hidden, Who, need_here, seat_in

__all__ = ["CannotWrite", "ChangedMeanwhile", "Draft", "OwnKind", "OwnRecord"]

MOST_KEPT = 32
"""Catalogues of clubs that are kept ready; each is about 2 MB and takes some 50 ms to make."""


class Draft(msgspec.Struct, frozen=True):
    """A text that could become the next version.

    problems : what is wrong with it, with the entry and field in each place.
    lost : those that stop an entry and were not there before.
    """

    text: str
    catalogue: Catalogue
    problems: tuple[Problem, ...]
    lost: tuple[Problem, ...]

    def of(self, kind: str, id_: str) -> tuple[Problem, ...]:
        """The problems of one entry."""
        return tuple(one for one in self.problems if at_entry(one.place)[:2] == (kind, id_))


def catalogue_here(asks: Who) -> Catalogue:
    """The catalogue of the club that they look at; the shipped one for somebody without a club."""
    return shipped() if asks.seat is None else catalogue_of(asks, asks.seat.club_id)


def catalogue_of(asks: Who, club_id: int) -> Catalogue:
    """The catalogue of one of their clubs. Raises Hidden for a stranger to it."""
    number = seat_in(asks, club_id).own_catalogue
    return _kept(club_id, number) if number else shipped()


def own(asks: Who, number: int | None = None) -> OwnRecord:
    """The own catalogue of the club that they look at, in one version or the newest. Everybody in it may read
    it. Raises Hidden for somebody without a club, and for a version that is not there."""
    if asks.seat is None:
        raise Hidden
    try:
        club_id = asks.seat.club_id
        return catalogues.newest(club_id) if number is None else catalogues.version(club_id, number)
    except LookupError:
        raise Hidden from None


def versions(asks: Who):
    """Number, author and time of every version, the newest first."""
    if asks.seat is None:
        raise Hidden
    return catalogues.versions(asks.seat.club_id)


def need_to_write(asks: Who) -> None:
    """Raises where they may not change the catalogue of the club that they look at."""
    need_here(asks, "write catalogue")


def draft(text: str, before: OwnRecord) -> Draft:
    """What a text would make of the catalogue in place of the version before; nothing is saved."""
    catalogue, problems = load_text(text)
    if before.text == text:
        return Draft(text, catalogue, tuple(problems), ())
    had = {_said(one) for one in stops(load_text(before.text)[1])} if before.text.strip() else set()
    lost = tuple(one for one in stops(problems) if _said(one) not in had)
    return Draft(text, catalogue, tuple(problems), lost)


def with_changed(before: OwnRecord, kind: OwnKind, id_: str, fields: dict[str, object]) -> Draft:
    """The own catalogue with one entry as the fields have it; only what differs from the shipped is written.

    Raises CannotWrite.
    """
    base = (shipped().movements if kind == "movement" else shipped().drills).get(id_)
    written = changes(kind, fields, base)
    had = own_fields(before.text, kind, id_)
    if base is not None and had is None and not any(value is not None for value in written.values()):
        return draft(before.text, before)
    text = with_entry(before.text, kind, id_, written)
    if base is not None and own_fields(text, kind, id_) == {"id": id_}:
        text = without_entry(text, kind, id_)  # all of it is as shipped again
    return draft(text, before)


def without(before: OwnRecord, kind: OwnKind, id_: str) -> Draft:
    """The own catalogue without one entry, or with the shipped one as it was."""
    return draft(without_entry(before.text, kind, id_), before)


def save(asks: Who, text: str, *, after: int) -> int:
    """The number of the new version. Raises ChangedMeanwhile when somebody else saved after ``after``."""
    seat = need_here(asks, "write catalogue")
    try:
        return catalogues.save(seat.club_id, text, after=after, author_id=asks.user_id)
    except LookupError:
        raise Hidden from None


def forget_kept() -> None:
    """Read every club's catalogue anew; for a process in which another database took the place of one."""
    _kept.cache_clear()


@lru_cache(maxsize=MOST_KEPT)
def _kept(club_id: int, number: int) -> Catalogue:
    # A version never changes, so its catalogue is kept in every process that once needed it.
    return load_text(catalogues.version(club_id, number).text)[0]


def _said(problem: Problem) -> tuple[str, str, str]:
    """A problem without the line, which moves with every change above it."""
    return problem.place.said, problem.kind, problem.message
