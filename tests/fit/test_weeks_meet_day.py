"""Sessions counted back from the day of the meet."""

from datetime import date, timedelta

import pytest

from meetward.cycle.tree import Cycle, Phase, Session, Week
from meetward.fit.weeks_meet_day import counted_back


def cycle(*weeks: tuple[str, tuple[int | None, ...]], **more) -> Cycle:
    return Cycle(
        (Phase(tuple(Week(tuple(Session((), weekday=d) for d in days), role) for role, days in weeks)),),
        **more,
    )


TWO = (("taper", (0, 2, 4)), ("meet", (0, 2, 5)))


def test_on_the_written_weekday_everything_stays():
    found = counted_back(cycle(*TWO, meet_on=date(2027, 3, 20)), date(2027, 4, 24), 2)

    assert [(s.week, s.session, s.on.weekday()) for s in found] == [
        (1, 1, 0), (1, 2, 2), (1, 3, 4), (2, 1, 0), (2, 2, 2), (2, 3, 5),
    ]  # fmt: skip
    assert found[-1].on == date(2027, 4, 24)


@pytest.mark.parametrize("day", range(7))
def test_a_meet_on_any_weekday_moves_everything_with_it(day):
    own, other = date(2027, 3, 20), date(2027, 3, 15) + timedelta(days=day)

    there = counted_back(cycle(*TWO, meet_on=own), own, 2)
    here = counted_back(cycle(*TWO, meet_on=own), other, 2)

    assert [other - s.on for s in here] == [own - s.on for s in there]
    assert here[-1].on == other


def test_without_a_meet_day_the_last_session_of_the_last_week_is_the_meet():
    assert counted_back(cycle(*TWO), date(2027, 3, 21), 1)[-1].on == date(2027, 3, 21)


def test_weeks_behind_the_meet_are_not_counted_and_open_days_take_the_lifters():
    plan = cycle(("meet", (None, None)), ("lighter", (0,)), meet_on=date(2027, 3, 20))

    found = counted_back(plan, date(2027, 3, 20), 5, days=(1, 3))

    assert [(s.week, s.on) for s in found] == [(1, date(2027, 3, 16)), (1, date(2027, 3, 18))]


def test_an_empty_cycle_has_nothing_to_count():
    assert counted_back(Cycle(()), date(2027, 3, 20), 2) == ()
    assert counted_back(cycle(("meet", ())), date(2027, 3, 20), 2) == ()
