"""Single cells of a profile in words: the category, the unit, the minutes of a session."""

import re
from datetime import time, timedelta

from meetward.lifter.cell import LONGEST_CELL, Cell, number_of, words_of
from meetward.lifter.profile import Category
from meetward.lifter.weights import Unit

_MEN = frozenset(("m", "m.", "men", "man", "male", "boy", "boys", "mens", "men's"))
_WOMEN = frozenset(
    ("f", "f.", "w", "w.", "women", "woman", "female", "girl", "girls", "womens", "women's", "ladies", "lady")
)
_CLASS = re.compile(r"(men|women|male|female|m|f|w) ?[-+−–]? ?\d{2,3}\+?(?: ?kg)?")
_UNITS: dict[str, Unit] = {
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilograms": "kg", "k": "kg", "metric": "kg",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "#": "lb", "imperial": "lb",
}  # fmt: skip
_HOURS = re.compile(r"(\d{1,2})(?:[.,](\d))? ?(?:h|hrs?|hours?)\.? ?(\d{1,2})? ?(?:m|mins?|minutes)?")
_CLOCK = re.compile(r"(\d{1,2}):(\d\d)(?::00)?")
_MINUTES = re.compile(r"(\d{1,3})(?: ?(?:-|–|to) ?(\d{1,3}))? ?(?:m|mins?|minutes?|')?")


def unit_of(cell: Cell) -> Unit | None:
    """The unit in a cell that holds nothing else."""
    return _UNITS.get(words_of(cell).casefold().strip("().")) if isinstance(cell, str) else None


def category_of(words: str) -> Category | None:
    """Men or women from "M", "female", "W64", "Men 89"."""
    text = words.casefold().strip()
    if found := _CLASS.fullmatch(text):
        text = found[1]
    if text in _MEN:
        return "men"
    return "women" if text in _WOMEN else None


def minutes_of(cell: Cell) -> tuple[int | None, bool]:
    """Minutes from 90, "90 min", "1h30", "1:30" or "75-90" (then the shorter, and True)."""
    if isinstance(cell, time):
        return cell.hour * 60 + cell.minute, False
    if isinstance(cell, timedelta):
        return int(cell.total_seconds() // 60), False
    number = number_of(cell)
    if number is not None:
        return (int(number) if number == number.to_integral_value() else None), False
    text = words_of(cell).casefold()
    if len(text) > LONGEST_CELL:
        return None, False
    if found := _HOURS.fullmatch(text):
        return int(found[1]) * 60 + int(found[2] or 0) * 6 + int(found[3] or 0), False
    if found := _CLOCK.fullmatch(text):
        return int(found[1]) * 60 + int(found[2]), False
    if found := _MINUTES.fullmatch(text):
        return int(found[1]), found[2] is not None
    return None, False
