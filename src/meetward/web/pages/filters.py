"""The filters of the catalogue's search as a form has them."""

from typing import Any, get_args

import msgspec
from django.http import QueryDict

from meetward.catalogue.drill import Region, Use
from meetward.catalogue.movement import Equipment, Family, Position
from meetward.catalogue.search import Where

KINDS = {"movement": "movements", "drill": "drills", "sequence": "warm-ups"}
LEVELS = {"first": "first weeks", "regular": "some months in", "advanced": "with a coach at hand"}


class Choice(msgspec.Struct, frozen=True):
    """An answer that a filter allows."""

    value: str
    said: str
    chosen: bool


class Filter(msgspec.Struct, frozen=True):
    """A filter: its name in the form, its label, and its answers."""

    name: str
    label: str
    choices: tuple[Choice, ...]

    @property
    def chosen(self) -> str:
        """What was chosen, in words; empty for no answer."""
        return next((choice.said for choice in self.choices if choice.chosen), "")


_ASKED: tuple[tuple[str, str, dict[str, str]], ...] = (
    ("kind", "What", KINDS),
    ("family", "Family", dict.fromkeys(get_args(Family), "")),
    ("position", "Position", dict.fromkeys(get_args(Position), "")),
    ("equipment", "Needs", dict.fromkeys(get_args(Equipment), "")),
    ("level", "Level", LEVELS),
    ("region", "Region", dict.fromkeys(get_args(Region), "")),
    ("use", "Drills for", dict.fromkeys(get_args(Use), "")),
)


def where_of(query: QueryDict) -> Where:
    """The filters of an address; what is none of the answers counts as none."""
    given: dict[str, Any] = {
        name: value for name, _, answers in _ASKED if (value := query.get(name, "")) in answers
    }
    return Where(**given)


def filters_of(where: Where) -> tuple[Filter, ...]:
    """The filters with what is chosen."""
    return tuple(
        Filter(
            name,
            label,
            tuple(
                Choice(value, said or value, getattr(where, name) == value) for value, said in answers.items()
            ),
        )
        for name, label, answers in _ASKED
    )
