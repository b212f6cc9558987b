"""Days and years of birth as people write them. The spellings are common practice, no source."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.lifter.dates import month_first, read_age, read_birth_year, read_date
from tests.lifter.sheets import TODAY

THIRD = date(2026, 10, 3)


@pytest.mark.parametrize(
    "cell",
    [
        THIRD, datetime.fromisoformat("2026-10-03T09:05"), "2026-10-03", "2026/10/3", "2026.10.03",
        "2026-10-03 09:05",
        "2026-10-03T09:05:00", "3.10.2026",
        "3 Oct 2026", "3rd October 2026", "3-Oct-26", "03 oct '26", "Oct 3, 2026", "October 3 2026", "3 Oct",
    ],
)  # fmt: skip
def test_a_day(cell):
    read = read_date(cell, TODAY)

    assert (read.on, read.doubts) == (THIRD, ())


@pytest.mark.parametrize(
    ("cell", "on", "note"),
    [("Oct 2026", date(2026, 10, 1), "day not given"), ("10/2026", date(2026, 10, 1), "day not given"),
     ("2026-10", date(2026, 10, 1), "day not given"), ("oct", date(2026, 10, 1), "day and year not given"),
     ("December", date(2025, 12, 1), "day and year not given"), ("2026", date(2026, 1, 1),
     "only the year is given"),
     (2026.0, date(2026, 1, 1), "only the year is given"), ("30 Nov", date(2025, 11, 30), "year not given")],
)  # fmt: skip
def test_what_is_not_given_is_noted(cell, on, note):
    read = read_date(cell, TODAY)

    assert (read.on, read.note) == (on, note)


def test_a_spreadsheets_number_of_a_day_is_read_and_said():
    # Spreadsheets count days so that 25569 is 1 January 1970 (common practice, checked with two spreadsheet
    # programs' files).
    read = read_date("46298", TODAY)

    assert read.on == THIRD
    assert [d.kind for d in read.doubts] == ["date as a number"]
    assert read_date(25569.0, TODAY).on == date(1970, 1, 1)


def test_day_or_month_first_is_decided_by_the_sheet_else_told():
    assert [d.kind for d in read_date("3/10/26", TODAY).doubts] == ["day or month first"]
    assert read_date("3/10/26", TODAY).on == THIRD
    assert read_date("10/3/26", TODAY, month_first=True).on == THIRD
    assert read_date("13/10/26", TODAY, month_first=True).on == date(2026, 10, 13)
    assert read_date("3/3/26", TODAY).doubts == ()


@pytest.mark.parametrize(
    ("texts", "first"),
    [
        (["13/10/26", "1/2/26"], False),
        (["10/13/2026"], True),
        (["1/2/26"], None),
        (["13/10/26", "10/13/26"], None),
        ([], None),
    ],
)
def test_a_sheet_shows_whether_the_month_is_first(texts, first):
    assert month_first(texts) is first


def test_a_day_to_come_is_told():
    assert [d.kind for d in read_date("2027-01-01", TODAY).doubts] == ["date in the future"]


@pytest.mark.parametrize(
    "cell",
    [
        "soon",
        "Oct-25",
        "Oct 25",
        "31/2/2026",
        "2026-13-01",
        "99 Oct 2026",
        "0/0/2026",
        True,
        "1" * 400,
        "",
        "-",
    ],
)
def test_what_is_no_day_is_told(cell):
    read = read_date(cell, TODAY)

    assert read.on is None
    assert [d.kind for d in read.doubts] == ["date"]


@given(on=st.dates(date(1950, 1, 1), TODAY))
def test_a_day_written_in_full_is_read_whatever_the_order(on):
    month = f"{on:%B}"
    for text in (
        on.isoformat(),
        f"{on.day} {month} {on.year}",
        f"{month} {on.day}, {on.year}",
        f"{on.day}.{on.month}.{on.year}",
    ):
        assert read_date(text, TODAY).on == on
    assert read_date(f"{on.day}/{on.month}/{on.year}", TODAY, month_first=False).on == on
    assert read_date(f"{on.month}/{on.day}/{on.year}", TODAY, month_first=True).on == on or on.month > 12


@given(st.text(max_size=60))
def test_any_text_is_a_day_or_told(text):
    read = read_date(text, TODAY)

    assert read.on is not None or read.doubts


@pytest.mark.parametrize(
    ("cell", "year"),
    [(1998, 1998), (1998.0, 1998), ("1998", 1998), ("12/03/1998", 1998), ("3/4/98", 1998), (date(1998, 3,
    12), 1998), ("12 Mar 1998", 1998),
     ("98", 1998), ("05", 2005), (7, 2007), ("35934", 1998), ("born 1998", 1998)],
)  # fmt: skip
def test_a_year_of_birth(cell, year):
    read, doubts = read_birth_year(cell, TODAY)

    assert read == year
    assert all(d.severity == "look" for d in doubts)


@pytest.mark.parametrize("cell", [1850, "2025", 2030, "young", -5, 0.5, "#REF", True, "24"])
def test_what_is_no_year_of_birth_is_told(cell):
    year, doubts = read_birth_year(cell, TODAY)

    assert year is None
    assert [d.severity for d in doubts][-1] == "stop"


def test_an_age_gives_a_year_that_may_be_one_off():
    year, doubts = read_age("27", TODAY)

    assert year == 1999
    assert "may be 1998" in doubts[0].message
    assert read_age("old", TODAY)[0] is None
    assert read_age(300, TODAY)[0] is None
