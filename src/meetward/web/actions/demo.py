"""The invented club in the database."""

from django.contrib.auth.models import AbstractUser

from meetward import demo
from meetward.catalogue.reading import shipped
from meetward.notation import read
from meetward.web.store import cycles, fits, people, positions, squad
from meetward.web.store.fits import FitWish
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
    version_id = cycles.newest(book_id).id
    for wish in demo.wishes(catalogue):
        number = fits.save_wish(club_id, wish.key, _wish(wish.before or wish), after=0)
        if wish.approved:
            number = fits.approve(club_id, wish.key, version_id, user_id=coach_id, after=number)
        if wish.before is not None:
            fits.save_wish(club_id, wish.key, _wish(wish), after=number)
    return f"{invented.name} of {invented.town}: two cycles and {len(lifters)} lifters filled in."


def _wish(one: demo.Wish) -> FitWish:
    return FitWish(
        one.starts_on, one.meet_on, one.meet, one.days, one.minutes, one.blocks, one.meets, one.limits
    )
