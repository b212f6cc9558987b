"""What can be wrong with a lifter's calendar, in words; nothing of it raises."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.fit.weeks import fit_weeks
from meetward.fit.weeks_calendar import Block, FurtherMeet, LifterCalendar
from meetward.fit.weeks_template import template_week
from meetward.problem import stops

START, MEET = date(2027, 1, 4), date(2027, 3, 20)
SIX = tuple(template_week(n, role, 6, 200, 40) for n, role in enumerate(("load",) * 4 + ("taper", "meet"), 1))


def problems(calendar: LifterCalendar, template=SIX, today: date | None = None):
    fitted = fit_weeks(template, calendar, today=today)
    assert fitted.possible or fitted.problems
    return {problem.kind: problem for problem in fitted.problems}


@pytest.mark.parametrize(
    ("calendar", "kind", "words"),
    [
        (
            LifterCalendar(MEET, START),
            "meet before the start",
            "Monday 4 January 2027 comes before the start",
        ),
        (LifterCalendar(date(2026, 1, 5), MEET), "too many weeks", "a cycle of 6 fills 12 at most"),
        (LifterCalendar(START, MEET, (0, 9)), "no such weekday", "9 is no weekday"),
        (LifterCalendar(START, MEET, weeks_done=6), "weeks done", "6 weeks of the cycle's 6"),
        (LifterCalendar(START, MEET, last_lifts=-1), "lifts below 0", "below 0"),
        (LifterCalendar(START, MEET, blocks=(Block(MEET, START, "exams"),)), "block backwards", "'exams'"),
        (LifterCalendar(START, MEET, blocks=(Block(MEET, MEET),)), "meet blocked", "the day of the meet"),
        (LifterCalendar(START, MEET, meets=(FurtherMeet(MEET),)), "further meet too late", "not come before"),
        (
            LifterCalendar(START, MEET, meets=tuple(FurtherMeet(date(2027, 2, d)) for d in (1, 8, 15, 22))),
            "too many meets",
            "4 further meets; more than 3",
        ),
        (
            LifterCalendar(
                START,
                MEET,
                blocks=(Block(date(2027, 2, 1), date(2027, 2, 9), "travel"),),
                meets=(FurtherMeet(date(2027, 2, 6), "Eskmouth Spring Open"),),
            ),
            "further meet blocked",
            "the day of Eskmouth Spring Open",
        ),
    ],
)
def test_what_stops_the_fit_is_said_in_words(calendar, kind, words):
    found = problems(calendar)

    assert words in found[kind].message
    assert found[kind].severity == "stop"
    assert found[kind].repair.endswith(".")


@pytest.mark.parametrize(
    ("calendar", "kind"),
    [
        (LifterCalendar(START, MEET, blocks=(Block(date(2026, 1, 1), date(2026, 1, 9)),)), "block outside"),
        (
            LifterCalendar(
                START,
                MEET,
                blocks=(
                    Block(date(2027, 2, 1), date(2027, 2, 7), "travel"),
                    Block(date(2027, 2, 5), date(2027, 2, 9), "exams"),
                ),
            ),
            "blocks overlap",
        ),
        (
            LifterCalendar(START, MEET, meets=(FurtherMeet(START.replace(2026)),)),
            "further meet before the start",
        ),
        (
            LifterCalendar(
                START, MEET, meets=(FurtherMeet(date(2027, 2, 5)), FurtherMeet(date(2027, 2, 6), "a cup"))
            ),
            "two meets in a week",
        ),
    ],
)
def test_what_looks_odd_is_said_and_fitted_all_the_same(calendar, kind):
    fitted = fit_weeks(SIX, calendar)

    assert fitted.possible
    assert [problem.severity for problem in fitted.problems if problem.kind == kind] == ["look"]


def test_a_meet_in_the_past_and_a_meet_tomorrow():
    late = problems(LifterCalendar(START, MEET), today=date(2027, 3, 21))
    tomorrow = fit_weeks(SIX, LifterCalendar(date(2027, 3, 19), MEET), today=date(2027, 3, 19))

    assert late["meet in the past"].message == "The day of the meet, Saturday 20 March 2027, is over."
    assert [problem.kind for problem in tomorrow.problems] == ["meet at once"]
    assert not tomorrow.possible
    assert [week.template_week for week in tomorrow.least_bad[0].weeks] == [6]


def test_a_cycle_without_weeks():
    assert "no weeks" in problems(LifterCalendar(START, MEET), template=())


def test_every_week_blocked_but_the_last():
    calendar = LifterCalendar(START, MEET, blocks=(Block(START, date(2027, 3, 14), "work abroad"),))

    fitted = fit_weeks(SIX, calendar)

    assert not fitted.possible
    assert fitted.least_bad[0].weeks[-1].template_week == 6


days = st.dates(date(2026, 12, 20), date(2027, 4, 1))


@given(
    st.builds(
        LifterCalendar,
        days,
        days,
        st.lists(st.integers(0, 6), max_size=7).map(tuple),
        st.lists(
            st.builds(Block, days, days, st.sampled_from(("", "travel")), st.booleans()), max_size=4
        ).map(tuple),
        st.lists(st.builds(FurtherMeet, days), max_size=4).map(tuple),
    ),
    st.one_of(st.none(), days),
)
@settings(max_examples=150, deadline=None)
def test_whatever_is_typed_gives_a_plan_or_words(calendar, today):
    fitted = fit_weeks(SIX, calendar, today=today)

    if stops(fitted.problems):
        assert not fitted.possible
    elif not fitted.possible:
        assert fitted.clash.rules
        assert fitted.least_bad
    for problem in fitted.problems:
        assert problem.message.endswith(".")
        assert problem.repair.endswith(".")
