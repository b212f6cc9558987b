"""Who asks, and what each role may do in a club."""

from typing import Literal

import msgspec

from meetward.web.store import people
from meetward.web.store.people import Seat

Right = Literal["read cycles", "write cycles", "read squad", "change squad", "write catalogue"]

RIGHTS: dict[str, frozenset[Right]] = {
    "owner": frozenset({"read cycles", "write cycles", "read squad", "change squad", "write catalogue"}),
    # An assistant writes and reads; the squad's own data, health data among them, stay with the owner.
    "assistant": frozenset({"read cycles", "write cycles", "read squad"}),
    "lifter": frozenset(),
}


class Hidden(Exception):
    """Not there, or not theirs to know of: answered as if it did not exist."""


class NotAllowed(Exception):
    """They belong to the club, but their role may not do this. The message says who may."""


class Who(msgspec.Struct, frozen=True):
    """Somebody who asks for something.

    user_id : None for somebody who is not signed in.
    seats : their clubs, the chosen one first.
    """

    user_id: int | None
    name: str = ""
    seats: tuple[Seat, ...] = ()

    @property
    def seat(self) -> Seat | None:
        """The club that they look at now."""
        return self.seats[0] if self.seats else None

    def may(self, right: Right) -> bool:
        """Whether they may do this in the club that they look at."""
        return self.seat is not None and right in RIGHTS[self.seat.role]


NOBODY = Who(None)


def who(user_id: int, name: str, *, club_id: int | None = None) -> Who:
    """The user with their clubs; ``club_id`` is the one they chose to look at, if they still belong to it."""
    mine = people.seats(user_id)
    chosen = tuple(seat for seat in mine if seat.club_id == club_id)
    return Who(user_id, name, chosen + tuple(seat for seat in mine if seat.club_id != club_id))


def seat_in(asks: Who, club_id: int) -> Seat:
    """Their seat in a club. Raises Hidden for a stranger."""
    for seat in asks.seats:
        if seat.club_id == club_id:
            return seat
    raise Hidden


def need(asks: Who, club_id: int, right: Right) -> Seat:
    """Raises Hidden for a stranger to the club, NotAllowed for a role without the right."""
    seat = seat_in(asks, club_id)
    if right not in RIGHTS[seat.role]:
        may = [role for role, rights in RIGHTS.items() if right in rights]
        raise NotAllowed(f"Only {' and '.join(_COACH[role] for role in may)} may do this. Ask them.")
    return seat


def need_here(asks: Who, right: Right) -> Seat:
    """The same for the club that they look at."""
    if asks.seat is None:
        raise Hidden
    return need(asks, asks.seat.club_id, right)


def need_lifter(asks: Who, key: str) -> Seat:
    """A coach of the club, or the lifter themself.

    Another lifter of the club is refused before anybody looks the key up, so the answer tells nothing.
    """
    if asks.seat is None:
        raise Hidden
    if asks.seat.lifter_key == key or "read squad" in RIGHTS[asks.seat.role]:
        return asks.seat
    raise NotAllowed("You can see your own days only. Ask your coach.")


def need_health(asks: Who, key: str, refusal: str) -> Seat:
    """The lifter themself or the owner coach; an assistant sees no health data and reads ``refusal``."""
    seat = need_lifter(asks, key)
    if seat.role == "owner" or seat.lifter_key == key:
        return seat
    raise NotAllowed(refusal)


_COACH = {"owner": "the owner coach", "assistant": "an assistant coach"}
