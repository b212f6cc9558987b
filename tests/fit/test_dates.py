"""Dates of sessions, forwards from the start and backwards from the meet."""

from datetime import date

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.cycle.tree import Cycle, Phase, Session, Week
from meetward.fit.dates import date_problems, first_monday, week_dates, weekdays

EMPTY = Session(())


def plan(weeks: int, sessions: int = 1, meet_week: int | None = None, **more) -> Cycle:
    def week(number: int) -> Week:
        return Week((EMPTY,) * sessions, "meet" if number == meet_week else "load")

    return Cycle((Phase(tuple(week(n + 1) for n in range(weeks))),), **more)


def test_the_first_week_is_that_of_the_start():
    # 30 December 2026 is a Wednesday.
    assert first_monday(plan(3, starts_on=date(2026, 12, 30))) == date(2026, 12, 28)


def test_weeks_are_counted_back_from_the_meet():
    # 20 March 2027 is a Saturday.
    assert first_monday(plan(12, meet_on=date(2027, 3, 20))) == date(2026, 12, 28)
    assert first_monday(plan(12, meet_week=11, meet_on=date(2027, 3, 20))) == date(2027, 1, 4)


def test_of_two_meet_weeks_the_last_is_the_week_of_the_meet():
    weeks = tuple(Week((EMPTY,), "meet" if number in (4, 8) else "load") for number in range(1, 9))

    assert first_monday(Cycle((Phase(weeks),), meet_on=date(2027, 3, 20))) == date(2027, 1, 25)


def test_a_start_goes_before_a_meet_and_without_both_there_are_no_dates():
    both = plan(12, starts_on=date(2027, 1, 4), meet_on=date(2027, 3, 20))

    assert first_monday(both) == date(2027, 1, 4)
    assert week_dates(plan(2, 3)) == ((None,) * 3,) * 2
    assert week_dates(Cycle((), meet_on=date(2027, 3, 20))) == ()


def test_the_cycles_days_count_then_the_lifters_then_the_customary_ones():
    named = Week(
        (msgspec.structs.replace(EMPTY, weekday=1), EMPTY, msgspec.structs.replace(EMPTY, weekday=5))
    )
    open_week = Week((EMPTY,) * 3)

    assert weekdays(named, (0, 2, 4)) == (1, None, 5)
    assert weekdays(open_week, (6, 3, 1)) == (1, 3, 6)
    assert weekdays(open_week, (6, 3)) == (0, 2, 4)
    assert weekdays(Week((EMPTY,) * 9)) == (None,) * 9


def test_dates_of_two_weeks():
    dates = week_dates(plan(2, 2, starts_on=date(2026, 12, 28)), days=(1, 4))

    assert dates == ((date(2026, 12, 29), date(2027, 1, 1)), (date(2027, 1, 5), date(2027, 1, 8)))


@given(st.dates(), st.integers(1, 26), st.integers(1, 7))
def test_the_meet_lies_in_the_last_week_and_days_rise(meet_on, weeks, sessions):
    dates = week_dates(plan(weeks, sessions, meet_on=meet_on))
    known = [day for week in dates for day in week if day is not None]

    assert known == sorted(known)
    if known:
        assert first_monday(plan(weeks, sessions, meet_on=meet_on)).weekday() == 0
        assert abs((dates[-1][0] - meet_on).days) < 7


@pytest.mark.parametrize("edge", [date.min, date.max])
def test_the_ends_of_the_calendar_do_not_crash(edge):
    for cycle in (plan(30, 3, starts_on=edge), plan(30, 3, meet_on=edge)):
        assert len(week_dates(cycle)) == 30


@pytest.mark.parametrize(
    ("meet_on", "said"),
    [
        (date(2027, 3, 20), None),
        (date(2027, 3, 13), "lies in week 11"),
        (date(2027, 4, 3), "lies outside the cycle"),
        (date(2026, 12, 1), "lies outside the cycle"),
    ],
)
def test_a_meet_in_another_week_than_the_last_is_told(meet_on, said):
    problems = date_problems(plan(12, starts_on=date(2026, 12, 28), meet_on=meet_on))

    assert [p.kind for p in problems] == (["meet in another week"] if said else [])
    assert all(said in p.message and p.repair for p in problems)


def test_without_a_start_the_dates_agree():
    assert date_problems(plan(12, meet_on=date(2027, 3, 20))) == ()
