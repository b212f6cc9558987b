"""Harrow Lane Weightlifting of Eskmouth: a club that does not exist, as values.

Nothing here is taken from a real club, person or meet. The texts and the sheet beside this module are what a
coach would keep in files; these functions only read them.
"""

from datetime import date
from importlib.resources import files

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.profile import Lifter
from meetward.lifter.reading import SquadReading, read_squad

TODAY = date(2026, 12, 27)
"""The eve of the spring cycle: the day on which the coach has the squad's sheet read."""

SQUAD_FILE = "squad.csv"


class Club(msgspec.Struct, frozen=True):
    """A club and who coaches it."""

    name: str
    town: str
    coach: str


def club() -> Club:
    """The invented club."""
    return Club("Harrow Lane Weightlifting", "Eskmouth", "Ida Thorne")


def cycle_text() -> str:
    """The spring cycle in our notation: twelve weeks to the club's own meet."""
    return _text("cycle.txt")


def cycle_before_text() -> str:
    """The autumn cycle before it: more pulls, fewer jerks, older warm-ups."""
    return _text("cycle_before.txt")


def pasted_text() -> str:
    """Three weeks as somebody pastes them from a web page, with all that comes along."""
    return _text("pasted.txt")


def squad_reading(catalogue: Catalogue) -> SquadReading:
    """The squad's sheet, read, with what is to be said about it."""
    data = files(__package__).joinpath(SQUAD_FILE).read_bytes()
    return read_squad(data, name=SQUAD_FILE, catalogue=catalogue, today=TODAY)


def squad(catalogue: Catalogue) -> tuple[Lifter, ...]:
    """The 24 lifters, in the order of the sheet."""
    return squad_reading(catalogue).lifters


def _text(name: str) -> str:
    return files(__package__).joinpath(name).read_text(encoding="utf-8")
