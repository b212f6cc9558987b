"""Weekdays in words. The spellings are common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.lifter.calendar import DAYS, read_days, show_days


@pytest.mark.parametrize(
    "text",
    ["Mon Wed Fri", "M/W/F", "MWF", "mon, wed, fri", "Monday, Wednesday and Friday", "Mo We Fr", "M-W-F",
    "Mondays Wednesdays Fridays",
     "Fri Mon Wed", "Mon. Wed. Fri."],
)  # fmt: skip
def test_three_days(text):
    assert read_days(text) == (0, 2, 4)


@pytest.mark.parametrize(
    ("text", "days"),
    [("Mon-Thu", (0, 1, 2, 3)), ("Mon to Fri", (0, 1, 2, 3, 4)), ("M-F", (0, 1, 2, 3, 4)), ("Sat-Mon", (0,
    5, 6)), ("Tu Th", (1, 3)),
     ("TTh", (1, 3)), ("TuThSa", (1, 3, 5)), ("T/Th/Sa", (1, 3, 5)), ("weekdays", (0, 1, 2, 3, 4)),
     ("weekends", (5, 6)),
     ("every day", (0, 1, 2, 3, 4, 5, 6)), ("daily", (0, 1, 2, 3, 4, 5, 6)), ("MTWTF", (0, 1, 2, 3, 4)),
     ("Mon-Wed, Fri", (0, 1, 2, 4)),
     ("Sunday", (6,))],
)  # fmt: skip
def test_other_ways_to_say_it(text, days):
    assert read_days(text) == days


@pytest.mark.parametrize(
    "text", ["", "3", "135", "3x a week", "evenings", "S", "Mon and sometimes", "TT", "x" * 500, "FM", "-"]
)
def test_what_does_not_say_which_days(text):
    assert read_days(text) is None


@given(st.sets(st.integers(0, 6), min_size=1))
def test_days_that_we_show_are_read_again(days):
    ordered = tuple(sorted(days))

    assert read_days(show_days(ordered)) == ordered
    assert read_days(", ".join(DAYS[day] for day in ordered)) == ordered


@given(st.text(max_size=40))
def test_any_text_gives_days_or_none(text):
    days = read_days(text)

    assert days is None or (list(days) == sorted(set(days)) and set(days) <= set(range(7)))
