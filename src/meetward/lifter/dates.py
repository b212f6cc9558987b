"""Days and years of birth as people write them in a sheet."""

import re
from datetime import date, datetime, timedelta
from decimal import Decimal
from typing import NamedTuple

from meetward.lifter.cell import LONGEST_CELL, Cell, Doubt, number_of, words_of

_MONTHS = {
    name: number
    for number, names in enumerate(
        ("jan january", "feb february", "mar march", "apr april", "may", "jun june", "jul july",
         "aug august", "sep sept september", "oct october", "nov november", "dec december"),
        start=1,
    )
    for name in names.split()
}  # fmt: skip
_MONTH = "(" + "|".join(sorted(_MONTHS, key=len, reverse=True)) + r")\b\.?"
_YEAR = r"((?:19|20)\d\d)"
_SERIAL_0 = date(1899, 12, 30)
"""Day 0 of spreadsheet dates, so that day 25569 is 1 January 1970."""

_FLAGS = re.ASCII | re.IGNORECASE  # ASCII: otherwise a long s or a kelvin sign matches a letter
_ISO = re.compile(
    _YEAR + r"[-/.](\d{1,2})[-/.](\d{1,2})(?:[t ]\d{1,2}:\d\d(?::\d\d(?:\.\d+)?)?z?)?(?!\d)", _FLAGS
)
_FIGURES = re.compile(r"(?<![\d.,])(\d{1,2})([-/.])(\d{1,2})\2((?:19|20)?\d\d)(?!\d)", _FLAGS)
_DAY_MONTH = re.compile(
    r"(?<!\d)(\d{1,2})(?:st|nd|rd|th)?[ .-]{0,2}"
    + _MONTH
    + r"[, -]{0,2}(?:((?:19|20)\d\d|'\d\d|(?<=[ -])\d\d)(?!\d))?",
    _FLAGS,
)
_MONTH_DAY = re.compile(_MONTH + r" ?(\d{1,2})(?:st|nd|rd|th)?,? " + _YEAR, _FLAGS)
_MONTH_YEAR = re.compile(_MONTH + r"[, -]{0,2}(?:" + _YEAR + r"|'(\d\d))", _FLAGS)
_MONTH_ONLY = re.compile(_MONTH + r"(?![ -]{0,2}\d)", _FLAGS)
_SLASH_YEAR = re.compile(r"(?<![\d./-])(\d{1,2})[/-]" + _YEAR + r"(?!\d)", _FLAGS)
_YEAR_MONTH = re.compile(r"(?<!\d)" + _YEAR + r"-(\d{1,2})(?!\d)", _FLAGS)
_YEAR_ONLY = re.compile(r"(?<![\d.,])" + _YEAR + r"(?![\d.,])", _FLAGS)


class DateRead(NamedTuple):
    """A day found in a text.

    on : None when none was found or it cannot be a date.
    start, end : where in the text it stood.
    note : what was not given ("day not given"), to be kept with the value.
    """

    on: date | None
    start: int = 0
    end: int = 0
    note: str = ""
    doubts: tuple[Doubt, ...] = ()


def find_date(text: str, today: date, *, month_first: bool | None = None) -> DateRead | None:
    """The day that stands somewhere in ``text``; None when there is none.

    month_first : how 3/10/26 is read; None where the sheet doesn't show: the day is taken first, with a
        doubt.
    A month or a year without a day counts from its first day and says so in ``note``.
    """
    if found := _ISO.search(text):
        return _made(found, int(found[1]), int(found[2]), int(found[3]))
    if found := _FIGURES.search(text):
        return _from_figures(found, today, month_first)
    if found := _DAY_MONTH.search(text):
        day, month = int(found[1]), _MONTHS[found[2].lower()]
        if found[3]:
            return _made(found, _full_year(found[3].lstrip("'"), today), month, day)
        return _made(found, _last_year_of(today, month, day), month, day, "year not given")
    if found := _MONTH_DAY.search(text):
        return _made(found, int(found[3]), _MONTHS[found[1].lower()], int(found[2]))
    if found := _MONTH_YEAR.search(text):
        year = int(found[2]) if found[2] else _full_year(found[3], today)
        return _made(found, year, _MONTHS[found[1].lower()], 1, "day not given")
    if found := _MONTH_ONLY.search(text):
        month = _MONTHS[found[1].lower()]
        return _made(found, _last_year_of(today, month, 1), month, 1, "day and year not given")
    if found := _SLASH_YEAR.search(text):
        return _made(found, int(found[2]), int(found[1]), 1, "day not given")
    if found := _YEAR_MONTH.search(text):
        return _made(found, int(found[1]), int(found[2]), 1, "day not given")
    if found := _YEAR_ONLY.search(text):
        return _made(found, int(found[1]), 1, 1, "only the year is given")
    return None


def read_date(cell: Cell, today: date, *, month_first: bool | None = None) -> DateRead:
    """The day in a cell that is meant to hold one. Never raises."""
    if isinstance(cell, datetime):
        cell = cell.date()
    if isinstance(cell, date):
        return DateRead(cell, doubts=_future(cell, today))
    text = words_of(cell)
    number = number_of(cell)
    if number is not None and number == number.to_integral_value() and 20_000 <= number <= 80_000:
        on = _SERIAL_0 + timedelta(days=int(number))
        doubt = Doubt(
            "date as a number",
            f"{text} is how a spreadsheet counts days; it is read as {on.isoformat()}.",
            "Format the column as dates.",
        )
        return DateRead(on, doubts=(doubt, *_future(on, today)))
    read = find_date(text, today, month_first=month_first) if len(text) <= LONGEST_CELL else None
    if read is None:
        return DateRead(None, doubts=(_no_date(words_of(cell)),))
    if read.on is None:
        return read
    return read._replace(doubts=read.doubts + _future(read.on, today))


def month_first(texts: list[str]) -> bool | None:
    """Whether dates such as 10/3/26 in a sheet put the month first, from those that can only be read one way.

    None when none shows it, or when they disagree.
    """
    ways = set()
    for text in texts:
        for found in _FIGURES.finditer(text[:LONGEST_CELL]):
            first, second = int(found[1]), int(found[3])
            if first > 12 >= second > 0:
                ways.add(False)
            elif second > 12 >= first > 0:
                ways.add(True)
    return ways.pop() if len(ways) == 1 else None


def read_birth_year(cell: Cell, today: date) -> tuple[int | None, tuple[Doubt, ...]]:
    """Year of birth from a date, a year ("1998", 1998.0, "98") or a day of birth in any of the usual ways."""
    doubts: tuple[Doubt, ...] = ()
    number = number_of(cell)
    if isinstance(cell, date):
        year = cell.year
    elif (
        number is not None
        and number == number.to_integral_value()
        and 0 <= number < 100
        and len(words_of(cell)) <= 2
    ):
        year = _full_year(f"{int(number):02d}", today)
        doubts = (
            Doubt(
                "short year",
                f"'{words_of(cell)}' is read as born in {year}.",
                "Write the year with four figures.",
            ),
        )
    elif number is not None and number == number.to_integral_value() and 1900 <= number <= today.year:
        year = int(number)
    else:
        read = read_date(cell, today)
        if read.on is None:
            return None, read.doubts
        year = read.on.year
        # Which of two figures is the month makes no difference to the year.
        doubts = tuple(d for d in read.doubts if d.kind != "day or month first")
        if _FIGURES.search(words_of(cell)) and year > today.year - 4:
            year -= 100
    if not today.year - 100 <= year <= today.year - 5:
        return None, (
            Doubt(
                "year of birth",
                f"Born in {year} cannot be right for a lifter.",
                "Enter the year of birth with four figures.",
                "stop",
            ),
        )
    return year, doubts


def read_age(cell: Cell, today: date) -> tuple[int | None, tuple[Doubt, ...]]:
    """Year of birth from an age in years; one off for whoever has the birthday still to come."""
    number = number_of(cell)
    if number is None or not Decimal(5) <= number <= Decimal(100):
        doubt = Doubt(
            "age", f"'{words_of(cell)}' is not an age in years.", "Enter the year of birth instead.", "stop"
        )
        return None, (doubt,)
    year = today.year - int(number)
    doubt = Doubt(
        "age",
        f"Age {int(number)} is kept as born in {year}; it may be {year - 1}.",
        "Enter the year of birth: an age is out of date in a year.",
    )
    return year, (doubt,)


def _from_figures(found: re.Match[str], today: date, first_is_month: bool | None) -> DateRead:
    first, sign, second, year_text = int(found[1]), found[2], int(found[3]), found[4]
    year = _full_year(year_text, today)
    if sign == "." or first > 12:
        return _made(found, year, second, first)
    if second > 12:
        return _made(found, year, first, second)
    if first_is_month is None and first != second:
        read = _made(found, year, second, first)
        doubt = Doubt(
            "day or month first",
            f"'{found[0]}' can be read two ways; the day is taken first: {read.on}.",
            "Write dates as 2026-10-03.",
        )
        return read._replace(doubts=(*read.doubts, doubt))
    return _made(found, year, first, second) if first_is_month else _made(found, year, second, first)


def _made(found: re.Match[str], year: int, month: int, day: int, note: str = "") -> DateRead:
    try:
        return DateRead(date(year, month, day), found.start(), found.end(), note)
    except ValueError:
        return DateRead(None, found.start(), found.end(), doubts=(_no_date(found[0]),))


def _no_date(text: str) -> Doubt:
    return Doubt("date", f"'{text[:60]}' is not a day.", "Write the day as 2026-10-03.", "stop")


def _future(on: date, today: date) -> tuple[Doubt, ...]:
    if on <= today:
        return ()
    return (Doubt("date in the future", f"{on.isoformat()} is still to come.", "Check the year."),)


def _full_year(text: str, today: date) -> int:
    """Two figures mean the latest such year that is not in the future."""
    year = int(text)
    if year >= 100:
        return year
    year += today.year // 100 * 100
    return year if year <= today.year else year - 100


def _last_year_of(today: date, month: int, day: int) -> int:
    """The year of the latest such day that is not in the future."""
    return today.year if (month, day) <= (today.month, today.day) else today.year - 1
