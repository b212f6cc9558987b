"""Two clubs and everybody who may ask: owner, assistant, lifter, stranger and nobody."""

from types import SimpleNamespace

import pytest
from django.test import Client

from meetward.web.actions.catalogues import forget_kept
from meetward.web.actions.who import who
from meetward.web.store import cycles, people, squad
from tests.web import club as values
from tests.web.browsing import chromium, opened, site

__all__ = ["chromium", "opened", "site"]  # fixtures of the browser, for every test here

ROLES = ("owner", "assistant", "lifter", "other lifter", "stranger", "no club", "nobody")
PASSWORD = "chalk and iron 1"


@pytest.fixture
def club(db) -> SimpleNamespace:
    """Harrow Lane with a cycle, three lifters and a user for each role; the stranger owns another club."""
    forget_kept()  # another test's club had the same number
    cycle = values.cycle()
    here = people.add_club("Harrow Lane Weightlifting", "Eskmouth")
    elsewhere = people.add_club("Quarry Bank Barbell", "Stonebeck")
    users = {
        role: people.add_user(role.replace(" ", "-"), shown=f"The {role}", password=PASSWORD)
        for role in ROLES
        if role != "nobody"
    }
    for role in ("owner", "assistant"):
        people.seat_user(users[role], here, role)
    for role in ("lifter", "other lifter"):
        people.seat_user(users[role], here, "lifter")
    people.seat_user(users["stranger"], elsewhere, "owner")
    book = cycles.open_book(here, cycle.title, cycle, values.TEXT, author_id=users["owner"])
    people.train_from(here, book)
    squad.save(
        here,
        [
            values.lifter("anouk-varley", "Anouk Varley", notes="Left wrist: short sets"),
            values.lifter("ben-osei", "Ben Osei", 10_000, category="men"),
            values.lifter("carys-hope", "Carys Hope", bests=()),
        ],
    )
    squad.give_account(here, "anouk-varley", users["lifter"])
    squad.give_account(here, "ben-osei", users["other lifter"])
    return SimpleNamespace(id=here, elsewhere=elsewhere, book=book, users=users, cycle=cycle)


@pytest.fixture
def browse(club):
    """A signed-in test client for a role."""

    def one(role: str) -> Client:
        client = Client()
        if role != "nobody":
            assert client.login(username=role.replace(" ", "-"), password=PASSWORD)
        return client

    return one


@pytest.fixture
def asks(club):
    """The ``Who`` of a role."""
    return lambda role: who(club.users[role], role)
