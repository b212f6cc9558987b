"""The invented club in the database."""

from django.contrib.auth.models import AbstractUser

from meetward import demo
from meetward.catalogue.reading import shipped
from meetward.notation import read
from meetward.web.store import cycles, people, positions, squad
from meetward.web.store.positions import Positions

COACH = "demo-coach"


def coach() -> AbstractUser | None:
    """The account of the demo coach, for signing in."""
    return people.account(COACH)


def fill() -> str:
    """Put the club, its two cycles and its squad into the database, once; what is there stays as it is.

    Says in a sentence what was done.
    """
    invented = demo.club()
    if people.find_club(invented.name, invented.town) is not None:
        return f"{invented.name} is there already and stays as it is (--fresh fills it anew)."
    catalogue = shipped()
    club_id = people.add_club(invented.name, invented.town)
    coach_id = people.add_user(COACH, shown=invented.coach)
    people.seat_user(coach_id, club_id, "owner")
    book_id = 0
    for text in (demo.cycle_before_text(), demo.cycle_text()):
        cycle = read(text, catalogue).cycle
        book_id = cycles.open_book(club_id, cycle.title, cycle, text, author_id=coach_id)
    people.train_from(club_id, book_id)
    lifters = demo.squad(catalogue)
    squad.save(club_id, lifters)
    for one in demo.positions():
        positions.save(club_id, one.key, Positions(one.measures, one.screens), after=0)
    return f"{invented.name} of {invented.town}: two cycles and {len(lifters)} lifters filled in."
