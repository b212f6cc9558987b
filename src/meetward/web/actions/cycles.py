"""Reading, writing and choosing cycles."""

from meetward.cycle.tree import Cycle
from meetward.web.store import cycles, people
from meetward.web.store.cycles import BookRecord, SavedMeanwhile, VersionRecord
from meetward.web.store.people import ClubRecord

from .who import RIGHTS, Hidden, Who, need, need_here, seat_in

__all__ = ["BookRecord", "ClubRecord", "SavedMeanwhile", "VersionRecord"]


def club_here(asks: Who) -> ClubRecord:
    """The club that they look at. Raises Hidden for somebody without one."""
    if asks.seat is None:
        raise Hidden
    return people.club(asks.seat.club_id)


def club_of(asks: Who, club_id: int) -> ClubRecord:
    """One of their clubs. Raises Hidden for a stranger to it."""
    return people.club(seat_in(asks, club_id).club_id)


def cycles_here(asks: Who) -> tuple[BookRecord, ...]:
    """The cycles of the club that they look at, the newest first."""
    return cycles.books(need_here(asks, "read cycles").club_id)


def version(asks: Who, book_id: int, number: int | None = None) -> VersionRecord:
    """A version of a cycle, the newest when no number is given."""
    try:
        one = cycles.newest(book_id) if number is None else cycles.version(book_id, number)
    except LookupError:
        # A reader without the right learns nothing from a number that is not there.
        need(asks, _club_of(book_id), "read cycles")
        raise Hidden from None
    need(asks, one.club_id, "read cycles")
    return one


def versions(asks: Who, book_id: int):
    """Number, author and time of every version, the newest first."""
    need(asks, _club_of(book_id), "read cycles")
    return cycles.versions(book_id)


def need_to_write(asks: Who, book_id: int) -> None:
    """Raises where they may not write this cycle."""
    need(asks, _club_of(book_id), "write cycles")


def may_write(asks: Who, club_id: int) -> bool:
    """Whether they may write the cycles of this club."""
    return any(seat.club_id == club_id and "write cycles" in RIGHTS[seat.role] for seat in asks.seats)


def need_to_begin(asks: Who) -> None:
    """Raises where they may not begin a cycle in the club that they look at."""
    need_here(asks, "write cycles")


def save(asks: Who, book_id: int, cycle: Cycle, text: str, *, after: int) -> int:
    """The number of the new version. Raises SavedMeanwhile when somebody else saved after ``after``."""
    need(asks, _club_of(book_id), "write cycles")
    try:
        return cycles.save_version(book_id, cycle, text, after=after, author_id=asks.user_id)
    except LookupError:
        raise Hidden from None


def begin(asks: Who, cycle: Cycle, text: str) -> int:
    """A new cycle in the club that they look at; its id. The first one of a club is trained from at once."""
    seat = need_here(asks, "write cycles")
    title = cycle.title or "Cycle without a title"
    book_id = cycles.open_book(seat.club_id, title, cycle, text, author_id=asks.user_id)
    if people.club(seat.club_id).current_book_id is None:
        people.train_from(seat.club_id, book_id)
    return book_id


def train_from(asks: Who, book_id: int) -> None:
    """The squad of the cycle's club trains from it."""
    club_id = _club_of(book_id)
    need(asks, club_id, "write cycles")
    people.train_from(club_id, book_id)


def _club_of(book_id: int) -> int:
    try:
        return cycles.club_of(book_id)
    except LookupError:
        raise Hidden from None
