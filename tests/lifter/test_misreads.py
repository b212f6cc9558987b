"""Sheets that tempt a reader to take a weight for something that it is not: each is read right or told.

All people are invented.
"""

import io
from datetime import date

import pytest
import xlsxwriter

from meetward.lifter.bests import Best
from tests.lifter.sheets import as_csv, as_xlsx, bests, read


def text(rows, delimiter=";"):
    return read(as_csv(rows, delimiter=delimiter))


def book(rows, **more):
    return read(as_xlsx(rows, **more), "squad.xlsx")


@pytest.fixture(params=[text, book], ids=["text", "workbook"])
def both(request):
    return request.param


def names(reading):
    return [lifter.name for lifter in reading.lifters]


def kinds(reading):
    return {p.kind for p in reading.problems} - {"bar not given", "discs not given"}


def stops(reading):
    return [p.kind for p in reading.problems if p.severity == "stop"]


FIRST = [["Name", "Snatch"], ["Ann Sole", 70]]


# Further tables below the first


@pytest.mark.parametrize(
    ("below", "best"),
    [
        ([["Name", "Back squat"], ["Bob Hart", 100]], {"back_squat": 10_000}),
        ([[], ["Athlete", "Deadlift 3RM"], ["Bob Hart", 100]], {"deadlift 3": 10_000}),
        ([["Front squat", "Lifter"], [100, "Bob Hart"]], {"front_squat": 10_000}),
        ([[None, "Back squat"], ["Bob Hart", 160]], {"back_squat": 16_000}),
        # 160 lb = 72.5747792 kg by the definition of the pound
        ([["Name", "Snatch (lb)"], ["Bob Hart", 160]], {"snatch": 7_257}),
        ([[None, "Squats"], ["Name", "Front"], ["Bob Hart", 100]], {"front_squat": 10_000}),
        ([["Back squat bests"], ["Name", "Back squat"], ["Bob Hart", 160]], {"back_squat": 16_000}),
        ([["Name", "C&J"], [None, "2026-10-03"], ["Bob Hart", 90]], {"clean_and_jerk": 9_000}),
    ],
)
def test_two_headings_restart_the_columns(both, below, best):
    reading = both(FIRST + below)

    assert names(reading) == ["Ann Sole", "Bob Hart"]
    assert bests(reading, 0) == {"snatch": 7_000}
    assert bests(reading, 1) == best
    assert kinds(reading) == set()


@pytest.mark.parametrize(
    ("headings", "kind"),
    [
        (["Name", "Bakc sqaut"], "unknown column"),
        (["Name", "Test 4"], "unknown column"),
        (["Name", date(2026, 10, 1)], "unknown column"),
        ([None, "Bakc sqaut"], "unknown column"),
        (["Back squat", None], "lift as title"),
    ],
)
def test_weights_below_headings_that_are_not_understood_are_no_snatches(both, headings, kind):
    reading = both([*FIRST, headings, ["Bob Hart", 100]])

    assert names(reading) == ["Ann Sole", "Bob Hart"]
    assert bests(reading, 1) == {}
    assert kind in stops(reading)


@pytest.mark.parametrize("word", ["Name", "Athlete", "lifter", "Surname", "FULL NAME", "Last name"])
def test_a_heading_is_never_a_lifter(both, word):
    alone = both([*FIRST, [word, None], ["Bob Hart", 90]])
    weighed = both([*FIRST, [word, 80], ["Bob Hart", 90]])

    assert names(alone) == names(weighed) == ["Ann Sole", "Bob Hart"]
    assert "heading as name" in stops(weighed)
    assert bests(weighed, 1) == {"snatch": 9_000}
    assert bests(alone, 1) == {}
    assert "no heading" in kinds(alone)


def test_words_over_the_names_give_the_group_and_are_told(both):
    reading = both([*FIRST, ["Men", "Back squat"], ["Bob Hart", 160]])

    assert bests(reading, 1) == {"back_squat": 16_000}
    assert reading.lifters[1].category == "men"
    assert kinds(reading) == {"read as headings"}


def test_a_unit_above_all_tables_stays_and_one_of_the_first_table_is_asked_for(both):
    titled = both([["All weights in lbs"], *FIRST, ["Name", "Back squat"], ["Bob Hart", 220]])
    once = both([["Name", "Snatch (lb)"], ["Ann Sole", 154], ["Name", "Back squat"], ["Bob Hart", 100]])

    assert bests(titled, 1) == {"back_squat": 9_979}  # 220 lb = 99.7903214 kg
    assert bests(once, 1) == {"back_squat": 10_000}
    assert kinds(once) == {"unit not repeated"}


def test_headings_repeated_beside_a_key_begin_a_table_too(both):
    reading = both(
        [["Key", "Name", "Snatch"], ["a", "Ann Sole", 70], ["Key", "Name", "C&J"], ["b", "Bo", 90]]
    )

    assert [lifter.key for lifter in reading.lifters] == ["a", "b"]
    assert bests(reading, 1) == {"clean_and_jerk": 9_000}


# Two tables side by side


def test_a_table_beside_the_first_is_not_the_first_lifters(both):
    reading = both([["Name", "Snatch", None, "Name", "Back squat"], ["Ann Sole", 70, None, "Bob Hart", 160]])

    assert names(reading) == ["Ann Sole"]
    assert bests(reading) == {"snatch": 7_000}
    assert stops(reading) == ["table beside"]


def test_names_repeated_at_the_side_of_a_wide_sheet_are_the_same_people(both):
    reading = both([["Name", "Snatch", "Name", "Back squat"], ["Ann Sole", 70, "Ann Sole", 160]])

    assert bests(reading) == {"snatch": 7_000, "back_squat": 16_000}


# Second rows of headings and days in headings


def test_a_lift_twice_with_days_below(both):
    reading = both(
        [["Name", "Snatch", "Snatch"], [None, date(2026, 1, 10), date(2026, 6, 10)], ["Ann Sole", 70, 75]]
    )

    assert reading.lifters[0].bests == (
        Best("snatch", 7_000, date(2026, 1, 10), "tested"),
        Best("snatch", 7_500, date(2026, 6, 10), "tested"),
    )
    assert kinds(reading) == set()


@pytest.mark.parametrize(
    "headings",
    [
        [["Name", "Snatch Jan 2026", "Snatch Jun 2026", "C&J (Jun 2026)"]],
        [["Name", "Snatch", None, "C&J"], [None, "Jan 2026", "Jun 2026", "Jun 2026"]],
        [["Name", "Snatch", "Snatch", "C&J"], [None, "1/2026", "6/2026", "06/2026"]],
    ],
)
def test_the_bests_of_each_month_have_their_months(both, headings):
    reading = both([*headings, ["Ann Sole", 70, 75, 95]])

    assert reading.lifters[0].bests == (
        Best("clean_and_jerk", 9_500, date(2026, 6, 1), "tested", note="day not given"),
        Best("snatch", 7_000, date(2026, 1, 1), "tested", note="day not given"),
        Best("snatch", 7_500, date(2026, 6, 1), "tested", note="day not given"),
    )
    assert kinds(reading) == set()


@pytest.mark.parametrize(
    "below",
    [["Week 1", "Week 12"], [1, 2], ["1st", "2nd"], ["80%", "90%"], [0.8, 0.9], ["spring", "autumn"]],
)
def test_a_second_row_that_is_not_understood_is_told_and_gives_no_best(both, below):
    reading = both([["Name", "Snatch", "Snatch"], [None, *below], ["Ann Sole", 60, 70]])

    assert names(reading) == ["Ann Sole"]
    assert bests(reading) == {}
    assert stops(reading) == ["unknown column", "unknown column"]


def test_goals_are_no_bests_whichever_row_says_so(both):
    below = both([["Name", "Snatch", None], [None, "Best", "Goal"], ["Ann Sole", 70, 80]])
    above = both([["Name", "Best", "Goal"], [None, "Snatch", "Snatch"], ["Ann Sole", 70, 80]])

    assert bests(below) == bests(above) == {"snatch": 7_000}
    assert any("no best of today" in column for column in below.columns_ignored)


def test_a_lift_twice_without_a_difference_is_told(both):
    reading = both([["Name", "Snatch", "Snatch"], ["Ann Sole", 70, 75]])

    assert [best.dag for best in reading.lifters[0].bests] == [7_000, 7_500]
    assert kinds(reading) == {"column twice"}


def test_months_without_a_lift_are_told(both):
    reading = both([["Name", "Jan", "Feb"], ["Ann Sole", 70, 75]])

    assert bests(reading) == {}
    assert stops(reading) == ["unknown column", "unknown column"]


def test_a_row_of_units_stays_one(both):
    reading = both([["Name", "Snatch", "C&J"], [None, "(lb)", "(kg)"], ["Ann Sole", 154, 90]])

    assert bests(reading) == {"snatch": 6_985, "clean_and_jerk": 9_000}  # 154 lb = 69.85322498 kg
    assert kinds(reading) == set()


def test_a_first_lifter_without_a_name_is_no_row_of_headings(both):
    reading = both([["Name", "Snatch", "C&J"], [None, 70, "90 kg"], ["Bo Quay", 60, 80]])

    assert bests(reading, 0) == {"snatch": 7_000, "clean_and_jerk": 9_000}
    assert stops(reading) == ["no name"]


# Rows


def test_summaries_between_the_lifters(both):
    words = ["Team total", "Men avg", "Averages men", "Best of squad", "Squad max", "Women's average", "Mean"]
    reading = both([["Name", "Snatch"], ["Ann Sole", 70], *[[word, 95] for word in words], ["Bo Quay", 90]])

    assert names(reading) == ["Ann Sole", "Bo Quay"]
    assert [p.kind for p in reading.problems if p.kind == "summary row"] == ["summary row"] * len(words)


def test_a_surname_that_sounds_like_a_summary_is_a_name(both):
    assert names(both([["Name", "Snatch"], ["Max Best", 100], ["Max Count", 90]])) == [
        "Max Best",
        "Max Count",
    ]


def test_a_name_merged_over_several_rows():
    rows = [["Name", "Snatch"], ["Ann Sole", 70], [None, 74], ["Bo Quay", 90]]

    reading = book(rows, merged=[(1, 0, 2, 0)])
    assert names(reading) == ["Ann Sole", "Bo Quay"]
    assert [best.dag for best in reading.lifters[0].bests] == [7_000, 7_400]
    assert kinds(reading) == {"merged name"}
    assert stops(text(rows)) == ["no name"]


def test_a_comma_that_moves_the_cells_is_told_and_moves_no_weight():
    reading = read(b"Name,Snatch,C&J\nSole, Ann,70,90\nBo Quay,82,5,102,5\nCy Moor,80,100\n")

    assert names(reading) == ["Sole", "Bo Quay", "Cy Moor"]
    assert [bests(reading, at) for at in (0, 1)] == [{}, {}]
    assert bests(reading, 2) == {"snatch": 8_000, "clean_and_jerk": 10_000}
    assert stops(reading) == ["moved cells", "moved cells"]


def test_names_with_a_comma_and_decimal_commas_where_they_are_safe():
    quoted = read(b'Name,Snatch,C&J\n"Sole, Ann","82,5",90\n')
    german = read("Name;Snatch;C&J\nSole, Ann;82,5;90,25\n".encode("utf-8-sig"))

    assert names(quoted) == names(german) == ["Sole, Ann"]
    assert bests(quoted) == {"snatch": 8_250, "clean_and_jerk": 9_000}
    assert bests(german) == {"snatch": 8_250, "clean_and_jerk": 9_025}


def test_hidden_rows_are_read_and_told():
    file = io.BytesIO()
    writer = xlsxwriter.Workbook(file)
    sheet = writer.add_worksheet("Bests")
    for at, row in enumerate([["Name", "Snatch"], ["Ann Sole", 70], ["Bo Quay", 90], ["Cy Moor", 80]]):
        sheet.write_row(at, 0, row)
    sheet.set_row(2, None, None, {"hidden": True})
    sheet.set_row(7, None, None, {"hidden": True})
    writer.close()
    reading = read(file.getvalue(), "squad.xlsx")

    assert names(reading) == ["Ann Sole", "Bo Quay", "Cy Moor"]
    (told,) = [p.message for p in reading.problems if p.kind == "hidden rows"]
    assert told == "Hidden rows of sheet 'Bests' are read like the others: 3."


# Cells


@pytest.mark.parametrize(
    ("cell", "dag", "kind"),
    [
        ("82.5/85", None, "two weights"),
        ("82.5-85", None, "range"),
        ("100 kg (220 lb)", 10_000, None),
        ("100 kg (230 lb)", None, "two weights"),
        ("100.5.3", None, "not a weight"),
        ("1.020,5", None, "not a weight"),
        ("1 000", None, "impossible weight"),
        ("8 2,5", None, "two weights"),
        ("85%", None, "relative weight"),
        ("85pct", None, "relative weight"),
        ("85 per cent", None, "relative weight"),
        ("2bw", None, "relative weight"),
        ("20+BW", None, "relative weight"),
        ("10-Oct", None, "not a weight"),
        ("Oct-26", None, "not a weight"),
        ("3/10/2026", None, "two weights"),
        ("10.11", 1_011, "weight or day"),
        ("15 Dec", 1_500, "weight or day"),
        ("95 Dec", 9_500, None),
        ("601", None, "impossible weight"),
        ("501", 50_100, "hardly ever lifted"),
        ("' 70", 7_000, None),
    ],
)
def test_a_cell_is_read_right_or_told(cell, dag, kind):
    reading = text([["Name", "Back squat"], ["Ann Sole", cell]])

    assert [best.dag for best in reading.lifters[0].bests] == ([dag] if dag else [])
    assert kinds(reading) == ({kind} if kind else set())


def test_reps_before_and_behind_the_weight():
    reading = text([["Name", "Front squat", "Back squat"], ["Ann Sole", "3x100", "100x3"]])

    assert bests(reading) == {"front_squat 3": 10_000, "back_squat 3": 10_000}
    assert kinds(reading) == {"reps first"}


def test_a_share_kept_as_a_number_is_no_weight():
    assert stops(book([["Name", "Snatch"], ["Ann Sole", 0.85]])) == ["impossible weight"]


def test_days_where_weights_belong(both):
    reading = both([["Name", "Snatch", "C&J"], ["Ann Sole", date(2026, 10, 3), 45933]])

    assert bests(reading) == {}
    assert len(stops(reading)) == 2


def test_one_cell_in_kilos_below_a_heading_in_pounds(both):
    reading = both([["Name", "Snatch (lb)"], ["Ann Sole", 154], ["Bo Quay", "100 kg"]])

    assert [bests(reading, at)["snatch"] for at in (0, 1)] == [6_985, 10_000]


def test_a_best_in_kilos_and_in_pounds_is_one(both):
    same = both([["Name", "Snatch kg", "Snatch lb"], ["Ann Sole", 70, 154]])
    differ = both([["Name", "Snatch kg", "Snatch lb"], ["Ann Sole", 70, 180]])

    assert [best.dag for best in same.lifters[0].bests] == [7_000]
    assert kinds(same) == set()
    assert kinds(differ) == {"two weights"}
