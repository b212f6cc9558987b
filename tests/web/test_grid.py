"""The drawn grid and the timetable, as plain values."""

import re
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle, Phase, Session, Week
from meetward.notation import read
from meetward.problem import Place, Problem
from meetward.web.actions.kept import MOST_KEPT, Kept, counted
from meetward.web.actions.timetable import Slot, Timetable
from meetward.web.actions.who import Hidden
from meetward.web.pages.grid import grid
from meetward.web.pages.problems import shown
from tests.web.test_style import CSS

START = date(2026, 12, 28)
ALL = shipped()


def cycle_of(*weeks: tuple[int | None, ...], **fields: object) -> Cycle:
    """A cycle with sessions on these weekdays, week by week."""
    return Cycle(
        (Phase(tuple(Week(tuple(Session((), weekday=day) for day in week)) for week in weeks)),), **fields
    )


def test_sessions_without_a_weekday_stand_in_rows_by_their_number():
    drawn = grid(one := cycle_of((None, None), (None,)), counted(one, ALL), ALL)

    assert [row.name for row in drawn.rows] == ["Session 1", "Session 2"]
    assert [[len(cells) for cells in row.weeks] for row in drawn.rows] == [[1, 1], [1, 0]]
    assert [week.monday for week in drawn.weeks] == [None, None]


def test_two_sessions_on_a_day_share_a_cell_in_their_order():
    drawn = grid(one := cycle_of((0, 0, 5)), counted(one, ALL), ALL)

    assert [[cell.session for cell in row.weeks[0]] for row in drawn.rows] == [[1, 2], [3]]


def test_the_percentage_of_a_session_is_that_of_its_snatch_clean_or_jerk():
    text = """Order: sets first
Bare loads: percent
Week 1
Monday: Snatch
Snatch 3x2 @ 80%
Snatch pull 3x3 @ 105%
Tuesday: Pulls
Clean pull 3x3 @ 110%
Wednesday: Complex
Clean pull + clean 3x(1+1) @ 78%
Back squat 3x3 @ 90%
Thursday: Jerks
Jerk 3x1 @ 85%
Jerk dip 3x3 @ 110%
Friday: Easy
Plank 3x30 s
"""
    read_cycle = read(text, shipped()).cycle
    drawn = grid(read_cycle, counted(read_cycle, ALL), ALL)

    assert [row.weeks[0][0].top for row in drawn.rows] == ["80 %", "pull 110 %", "78 %", "85 %", ""]


def test_a_cycle_without_weeks_has_no_drawing_and_no_rows():
    drawn = grid(one := Cycle(()), counted(one, ALL), ALL)

    assert (drawn.rows, drawn.weeks, drawn.drawing) == ((), (), "")


@given(st.lists(st.lists(st.one_of(st.none(), st.integers(0, 6)), max_size=7).map(tuple), max_size=30))
def test_every_session_stands_in_the_grid_exactly_once(weeks):
    one = cycle_of(*weeks, starts_on=START)
    drawn = grid(one, counted(one, ALL), ALL)

    cells = [(cell.week, cell.session) for row in drawn.rows for week in row.weeks for cell in week]
    assert sorted(cells) == [(week, number) for week, number, _ in one.sessions()]
    assert all(len(row.weeks) == len(weeks) for row in drawn.rows)


def test_every_length_of_a_cycle_has_its_width_in_the_style_sheet():
    assert [int(n) for n in re.findall(r"\.weeks-(\d+) \{ --weeks: \1; \}", CSS)] == list(range(1, 53))


def test_the_timetable_knows_before_after_and_next():
    times = Timetable(cycle_of((0, 3), (0,), starts_on=START))

    assert times.on(Slot(1, 2)) == date(2026, 12, 31)
    assert times.at(date(2027, 1, 4)) == Slot(2, 1)
    assert times.around(Slot(1, 2)) == (Slot(1, 1), Slot(2, 1))
    assert times.around_day(date(2027, 1, 1)) == (Slot(1, 2), Slot(2, 1))
    assert times.next_from(date(2026, 1, 1)) == Slot(1, 1), "all are to come: the first"
    assert times.next_from(date(2026, 12, 29)) == Slot(1, 2)
    assert times.next_from(date(2027, 1, 4)) == Slot(2, 1), "today counts"
    assert times.next_from(date(2028, 1, 1)) == Slot(2, 1), "over: the last"
    with pytest.raises(Hidden):
        times.session(Slot(3, 1))


def test_a_timetable_without_dates_begins_at_the_first_session():
    times = Timetable(cycle_of((None,), ()))

    assert times.next_from(START) == Slot(1, 1)
    assert times.at(START) is None
    assert Timetable(Cycle(())).next_from(START) is None


@given(st.integers(0, 60), st.lists(st.integers(0, 6), min_size=1, max_size=4, unique=True).map(sorted))
def test_the_next_session_is_never_in_the_past_while_there_is_one_to_come(days, weekdays):
    times = Timetable(cycle_of(*[tuple(weekdays)] * 6, starts_on=START))
    today = START + timedelta(days=days)
    found = times.on(times.next_from(today))

    coming = [on for slot in times.slots if (on := times.on(slot)) >= today]
    assert found == (min(coming) if coming else max(map(times.on, times.slots)))


def test_what_is_kept_is_made_once_and_the_oldest_goes():
    made = []
    kept = Kept(lambda cycle, catalogue: made.append(cycle) or len(made))
    cycles = [Cycle(()) for _ in range(MOST_KEPT + 1)]

    assert [kept(cycles[0], ALL), kept(cycles[0], ALL), kept(cycles[1], ALL)] == [1, 1, 2]
    for one in cycles:
        kept(one, ALL)
    assert kept(cycles[-1], ALL) == MOST_KEPT + 1
    assert kept(cycles[0], ALL) == MOST_KEPT + 2, "made anew"


def test_a_problem_shows_its_line_with_the_faulty_piece_apart():
    text = "x" * 100 + "Snacth" + " 3x3 @ 70%" + "y" * 100
    found = shown(Problem(Place(line=3, column=101, width=6), "unknown movement", "What?", "That."), text)

    assert (found.meant, found.where) == ("Snacth", "line 3")
    assert found.before == "… " + "x" * 60
    assert found.after.startswith(" 3x3 @ 70%")
    assert found.after.endswith(" …")


@given(st.integers(0, 300), st.integers(0, 300), st.text(max_size=200))
def test_no_place_in_any_line_breaks_the_page(column, width, text):
    found = shown(Problem(Place(line=1, column=column, width=width), "kind", "What?", "That."), text)

    assert found.where
    assert len(found.before + found.meant + found.after) <= 60 + 120 + 60 + 6
