"""Squads from sheets as coaches keep them, each read as text and as a workbook. All people are invented."""

from datetime import date

import pytest

from meetward.barbell.standard import CLUB_DISCS
from meetward.lifter.bests import Best
from meetward.lifter.kit import HOME_DISCS
from meetward.lifter.reading import key_of
from tests.lifter.sheets import Formula, as_csv, as_xlsx, bests, read, told

NO_KIT = {"bar not given": "bar not given", "discs not given": "discs not given"}


@pytest.fixture(params=["semicolons", "tabs", "workbook"])
def both(request):
    """Reads rows as text and as a workbook."""

    def reading(rows, **more):
        if request.param == "workbook":
            return read(as_xlsx(rows, **more), "squad.xlsx")
        return read(
            as_csv(rows, delimiter=";" if request.param == "semicolons" else "\t", encoding="utf-8-sig")
        )

    return reading


def test_a_plain_sheet(both):
    reading = both(
        [
            [
                "Name",
                "Category",
                "Born",
                "Bodyweight",
                "Bar",
                "Discs",
                "Days",
                "Minutes",
                "Snatch",
                "Clean and jerk",
                "Notes",
            ],
            ["Ida Thorne", "W", 1998, 63.5, 15, "club", "Mon Wed Fri", 90, 82.5, 102.5, "left ankle stiff"],
            ["Ola Brandt", "M", 2001, 89, 20, "home", "Tu Th", "1h30", 120, 150, ""],
        ]
    )
    ida, ola = reading.lifters

    assert reading.problems == ()
    assert (ida.key, ida.category, ida.birth_year, ida.bodyweight_dag) == ("ida-thorne", "women", 1998, 6_350)
    assert (ida.kit.bar_dag, ida.kit.discs, ola.kit.discs) == (1_500, CLUB_DISCS, HOME_DISCS)
    assert (ida.days, ida.minutes, ola.minutes, ida.notes) == ((0, 2, 4), 90, 90, "left ankle stiff")
    assert bests(reading) == {"snatch": 8_250, "clean_and_jerk": 10_250}


# Nasty sheet 1: titles above, odd headings, decimal commas, signs for nothing, pounds in a cell, a summary
# and a remark below.
def test_titles_odd_headings_and_summaries(both):
    reading = both(
        [
            ["Harrow Lane Weightlifting", None, None, None, None, None, None, None],
            [None, "bests, autumn", None, None, None, None, None, None],
            [],
            ["Athlete", "M/F", "YOB", "BW", "Sn", "C+J", "BSq", "Front squat 3RM"],
            ["Ida Thorne", "F", 1998.0, "63,5", "82,5", "102,5 kg", "-", "n/a"],
            ["Ola Brandt", "M", "98", 89, "120kg", "330lb", "440 lbs", "150x3"],
            ["Wim Aske", None, "?", None, 100, 130, "E180", Formula("#N/A")],
            [],
            ["Average", None, None, 76, 100, 120, None, None],
            ["* E = estimated"],
        ]
    )

    assert [lifter.name for lifter in reading.lifters] == ["Ida Thorne", "Ola Brandt", "Wim Aske"]
    assert bests(reading, 0) == {"snatch": 8_250, "clean_and_jerk": 10_250}
    # 330 lb = 149.6854821 kg, 440 lb = 199.5806428 kg by the definition of the pound
    assert bests(reading, 1) == {
        "snatch": 12_000,
        "clean_and_jerk": 14_969,
        "back_squat": 19_958,
        "front_squat 3": 15_000,
    }
    assert reading.lifters[2].bests[0] == Best("back_squat", 18_000, kind="estimated")
    assert told(reading) == NO_KIT | {
        "row 6, column 'YOB'": "short year",
        "row 7, column 'Front squat 3RM'": "formula error",
        "row 9": "summary row",
        "row 10": "remark",
    }


# Nasty sheet 2: two rows of headings with merged cells, dates in three styles.
def test_two_rows_of_headings(both):
    reading = both(
        [
            ["Name", None, "Snatch", None, "Clean & Jerk", None, "Squats", None],
            [None, "DOB", "kg", "Date", "kg", "Date", "Front", "Back 5RM"],
            ["Ann Sole", "3/4/2001", 70, "13/10/2026", 90, date(2026, 11, 1), 100, 120],
            ["Bo Quay", "12 Mar 1999", 95, "Oct 2026", 120, "2026-06-05", 130, "150"],
        ],
        **({"merged": [(0, 2, 0, 3), (0, 4, 0, 5), (0, 6, 0, 7)]} if "workbook" in str(both) else {}),
    )

    assert reading.lifters[0].bests == (
        Best("back_squat", 12_000, reps=5),
        Best("clean_and_jerk", 9_000, date(2026, 11, 1), "tested"),
        Best("front_squat", 10_000),
        Best("snatch", 7_000, date(2026, 10, 13), "tested"),
    )
    assert reading.lifters[1].best("snatch") == Best(
        "snatch", 9_500, date(2026, 10, 1), "tested", 1, "day not given"
    )
    assert [lifter.birth_year for lifter in reading.lifters] == [2001, 1999]
    assert told(reading) == NO_KIT


def test_merged_headings_of_a_workbook():
    rows = [
        ["Name", "Snatch", None, "Other"],
        [None, "Date", "Weight", "BW"],
        ["Ann Sole", date(2026, 10, 3), 70, 58],
    ]
    reading = read(as_xlsx(rows, merged=[(0, 1, 0, 2)]), "squad.xlsx")

    assert reading.lifters[0].bests == (Best("snatch", 7_000, date(2026, 10, 3), "tested"),)
    assert reading.lifters[0].bodyweight_dag == 5_800


# Nasty sheet 3: units by heading, by row and by title.
def test_units_from_heading_row_and_title(both):
    by_heading = both([["Lifter", "Snatch (lb)", "C&J (kg)"], ["Ann Sole", 154, 90]])
    by_row = both(
        [
            ["Lifter", "Snatch", "C&J", "unit"],
            ["Ann Sole", 154, 198, "lb"],
            ["Bo Quay", 70, 90, "kg"],
            ["Cy Moor", 70, 90, "stone"],
        ]
    )
    by_title = both([["All weights in lbs"], ["Lifter", "Snatch", "C&J"], ["Ann Sole", 154, "90 kg"]])
    below = both([["Lifter", "Snatch", "C&J"], [None, "lb", "kg"], ["Ann Sole", 154, 90]])

    # 154 lb = 69.85322498 kg, 198 lb = 89.81128926 kg
    assert bests(by_heading) == bests(by_title) == bests(below) == {"snatch": 6_985, "clean_and_jerk": 9_000}
    assert bests(by_row, 0) == {"snatch": 6_985, "clean_and_jerk": 8_981}
    assert bests(by_row, 1) == {"snatch": 7_000, "clean_and_jerk": 9_000}
    assert [lifter.unit for lifter in by_row.lifters] == ["lb", "kg", "kg"]
    assert told(by_row)["row 4, column 'unit'"] == "unit"


def test_a_heading_and_a_row_that_disagree_are_told(both):
    reading = both([["Lifter", "Snatch (kg)", "unit"], ["Ann Sole", 70, "lb"]])

    assert bests(reading) == {"snatch": 7_000}
    assert told(reading)["row 2, column 'Snatch (kg)'"] == "two units"


# Nasty sheet 4: misspelt, unknown and unwanted columns, and one without a heading.
def test_columns_that_are_left_out_are_listed(both):
    reading = both(
        [
            ["Lifter", "Snacth", "C&J PB", "Favourite colour", "Goal snatch", "Total", None],
            ["Ann Sole", 70, 90, "red", 75, 160, "late on Mondays"],
        ]
    )

    assert bests(reading) == {"clean_and_jerk": 9_000}
    assert reading.columns_understood == ("Lifter: name", "C&J PB: best clean and jerk")
    assert [column.split(":")[0] for column in reading.columns_ignored] == [
        "Snacth",
        "Favourite colour",
        "Goal snatch",
        "Total",
        "G",
    ]
    assert told(reading)["row 1, column 'Snacth'"] == "unknown column"
    assert told(reading)["row 1, column 'G'"] == "no heading"
    assert any("If it is Snatch, write that." in problem.repair for problem in reading.problems)


# Nasty sheet 5: the same name twice, once as a repeated row.
def test_names_that_stand_twice(both):
    reading = both(
        [
            ["Name", "Born", "Snatch"],
            ["Ida Thorne", 1998, 80],
            ["Ola Brandt", 2001, 120],
            ["ida  thorne", 2007, 55],
            ["Ola Brandt", 2001, 120],
        ]
    )

    assert [lifter.key for lifter in reading.lifters] == [
        "ida-thorne",
        "ola-brandt",
        "ida-thorne-2",
        "ola-brandt-2",
    ]
    about = {p.place.said: p.message for p in reading.problems if p.kind == "name twice"}
    assert "stands in row 2 too. The two rows differ." in about["row 4"]
    assert "stands in row 3 too. The two rows say the same." in about["row 5"]


# Nasty sheet 6: absurd and doubtful values; the rest of each row stays.
def test_values_that_cannot_be_or_look_wrong(both):
    reading = both(
        [
            ["Name", "BW", "Snatch", "C&J", "Front squat", "Back squat"],
            ["Ann Sole", 6, 1000, 90, -100, 0],
            ["Bo Quay", 80, 100, 95, "80-85", "~150"],
            ["Cy Moor", 60, 165, 200, "missed 120", True],
        ]
    )

    assert bests(reading, 0) == {"clean_and_jerk": 9_000}
    assert bests(reading, 1) == {"snatch": 10_000, "clean_and_jerk": 9_500, "back_squat": 15_000}
    assert bests(reading, 2) == {"snatch": 16_500, "clean_and_jerk": 20_000}
    assert told(reading) == NO_KIT | {
        "row 2, column 'BW'": "bodyweight",
        "row 2, column 'Snatch'": "impossible weight",
        "row 2, column 'Front squat'": "negative weight",
        "row 2, column 'Back squat'": "zero",
        "row 3, column 'Snatch'": "snatch above clean and jerk",
        "row 3, column 'Front squat'": "range",
        "row 3, column 'Back squat'": "unsure",
        "row 4, column 'Snatch'": "heavy for the bodyweight",
        "row 4, column 'C&J'": "heavy for the bodyweight",
        "row 4, column 'Front squat'": "missed lift",
        "row 4, column 'Back squat'": "not a weight",
    }


# Nasty sheet 7: pounds all over and nowhere said.
def test_pounds_that_nobody_named_are_told_and_not_changed(both):
    rows = [
        ["Name", "BW", "Snatch", "C&J"],
        ["Ann Sole", 140, 150, 190],
        ["Bo Quay", 198, 220, 275],
        ["Cy Moor", 181, 180, 235],
    ]
    reading = both(rows)

    assert bests(reading) == {"snatch": 15_000, "clean_and_jerk": 19_000}
    assert told(reading)["pounds taken as kilos"] == "pounds taken as kilos"
    assert "pounds taken as kilos" not in told(
        both([[f"{cell} (lb)" if cell != "Name" else cell for cell in rows[0]], *rows[1:]])
    )


# Nasty sheet 8: groups with headings between, the row of headings repeated, then a second table with other
# columns.
def test_groups_and_further_tables(both):
    reading = both(
        [
            ["Name", "Snatch", "C&J"],
            ["Women"],
            ["Ann Sole", 70, 90],
            ["Total", 70, 90],
            [],
            ["Name", "Snatch", "C&J"],
            ["Men:"],
            ["Bo Quay", 100, 120],
            ["Lifter", "C&J", "Back squat", "Notes"],
            ["Cy Moor", 80, 120, "new"],
        ]
    )

    assert [(lifter.name, lifter.category, lifter.kit.bar_dag) for lifter in reading.lifters] == [
        ("Ann Sole", "women", 1_500), ("Bo Quay", "men", 2_000), ("Cy Moor", None, 2_000),
    ]  # fmt: skip
    assert bests(reading, 2) == {"clean_and_jerk": 8_000, "back_squat": 12_000}
    assert reading.lifters[2].notes == "new"
    assert {place: kind for place, kind in told(reading).items() if place.startswith("row")} == {
        "row 2": "group heading", "row 4": "summary row", "row 7": "group heading",
    }  # fmt: skip


# Nasty sheet 9: names in two columns, notes with line ends, a rep max in the heading, discs as a list,
# collars.
def test_names_in_two_columns_and_a_kit(both):
    reading = both(
        [
            [
                "Surname",
                "First name",
                "Sex",
                "Snatch",
                "Snatch date",
                "FS x3",
                "Bar",
                "Plates",
                "Collars",
                "Time",
                "Injuries",
                "Remarks",
            ],
            [
                "Sole",
                "Ann",
                "F",
                "70",
                "2026-10-03",
                "95",
                "15 kg",
                "2x20 2x10 2x2,5",
                "yes",
                "75-90",
                "knee\nleft",
                "new",
            ],
        ]
    )
    (ann,) = reading.lifters

    assert (ann.name, ann.key, ann.notes) == ("Ann Sole", "ann-sole", "knee\nleft\nnew")
    assert ann.bests == (
        Best("front_squat", 9_500, reps=3),
        Best("snatch", 7_000, date(2026, 10, 3), "tested"),
    )
    assert ([(d.dag, d.pairs) for d in ann.kit.discs], ann.kit.collars_dag) == (
        [(2_000, 1), (1_000, 1), (250, 1)],
        500,
    )
    assert ann.minutes == 75
    assert told(reading) == {"row 2, column 'Time'": "minutes"}


# Nasty sheet 10: no heading over the names, a column of dates for all bests, days in figures, an age.
def test_a_corner_without_heading(both):
    reading = both(
        [
            [None, "Age", "Snatch", "CJ max (kg)", "Tested on", "Days"],
            ["Ann Sole", 25, 70, 90, "2026-09-12", "135"],
            ["Bo Quay", 31, "100 (est)", "120 (comp)", "", "M/W/F"],
        ]
    )

    assert [lifter.name for lifter in reading.lifters] == ["Ann Sole", "Bo Quay"]
    assert {best.on for best in reading.lifters[0].bests} == {date(2026, 9, 12)}
    assert [best.kind for best in reading.lifters[1].bests] == ["tested", "estimated"]
    assert [lifter.days for lifter in reading.lifters] == [(0, 2, 4), (0, 2, 4)]
    assert [lifter.birth_year for lifter in reading.lifters] == [2001, 1995]
    assert told(reading)["row 2, column 'Days'"] == "days as figures"
    assert told(reading)["row 2, column 'Age'"] == "age"


# Nasty sheet 11: rows without a name, blank rows and columns around, more cells in a row than headings.
def test_rows_without_a_name_and_empty_edges(both):
    reading = both(
        [
            [None] * 6,
            [None, "Name", "Snatch", None, None, None],
            [None, "Ann Sole", 70, None, None, None],
            [None, None, 80, None, None, None],
            [None] * 6,
        ]
    )

    assert [(lifter.name, lifter.key) for lifter in reading.lifters] == [
        ("Ann Sole", "ann-sole"),
        ("No name, row 4", "no-name-row-4"),
    ]
    assert bests(reading, 1) == {"snatch": 8_000}
    assert told(reading)["row 4"] == "no name"
    assert reading.columns_ignored == ()


# Nasty sheet 12: a best of the same lift in two columns, dates beside each best, reps that disagree with the
# heading.
def test_two_bests_of_one_lift(both):
    reading = both(
        [
            ["Name", "Comp snatch", "Date", "Snatch est", "C&J", "Date", "FS 3RM"],
            ["Ann Sole", 70, "2026-03-01", 74, 90, "2026-04-01", "95x5"],
        ]
    )

    assert reading.lifters[0].bests == (
        Best("clean_and_jerk", 9_000, date(2026, 4, 1), "tested"),
        Best("front_squat", 9_500, reps=5),
        Best("snatch", 7_400, kind="estimated"),
        Best("snatch", 7_000, date(2026, 3, 1), "tested"),
    )
    assert told(reading)["row 2, column 'FS 3RM'"] == "reps"


# Nasty sheet 13: one row for each best, with the lift in a column; "Weight" is then no bodyweight.
def test_a_row_for_each_best(both):
    reading = both(
        [
            ["Athlete", "Exercise", "Weight", "Reps", "Date", "BW"],
            ["Ann Sole", "Snatch", 70, 1, "2026-10-03", 58],
            ["Ann Sole", "C&J", 65, None, None, None],
            ["Bo Quay", "Snacth", 100, None, None, None],
            ["ann  sole", "FS", "95kg", 3, None, 59],
            ["Bo Quay", "Back squat", "400 lb", "five", None, None],
            ["Average", None, 90, None, None, None],
        ]
    )
    ann, bo = reading.lifters

    assert ann.bests == (
        Best("clean_and_jerk", 6_500), Best("front_squat", 9_500, reps=3), Best("snatch", 7_000, date(2026,
        10, 3), "tested"),
    )  # fmt: skip
    assert (ann.bodyweight_dag, bo.bests) == (5_800, ())
    assert {place: kind for place, kind in told(reading).items() if place.startswith("row")} == {
        "row 2": "snatch above clean and jerk",
        "row 4, column 'Exercise'": "unknown lift",
        "row 6, column 'Reps'": "reps",
        "row 7": "summary row",
    }


# Nasty sheet 14: the lifters stand side by side.
def test_lifters_side_by_side(both):
    reading = both(
        [
            ["Autumn", None, None, None],
            ["Name", "Ann Sole", "Bo Quay", "Cy Moor"],
            ["Sex", "F", "M", "F"],
            ["Snatch", 70, "100,5", -1],
            ["C&J (lb)", 198, 264, None],
        ]
    )

    assert [(lifter.name, lifter.category) for lifter in reading.lifters] == [
        ("Ann Sole", "women"), ("Bo Quay", "men"), ("Cy Moor", "women"),
    ]  # fmt: skip
    assert bests(reading, 1) == {"snatch": 10_050, "clean_and_jerk": 11_975}  # 264 lb = 119.74838568 kg
    (about,) = [p for p in reading.problems if p.kind == "negative weight"]
    assert about.place.said == "column D, row 'Snatch'"
    assert (about.place.line, about.place.column) == (4, 4)
    assert told(reading)["sideways"] == "sideways"


def test_a_lifter_called_like_a_summary_is_kept(both):
    reading = both([["Name", "Snatch"], ["Max", 100], ["Maximum", 100]])

    assert [lifter.name for lifter in reading.lifters] == ["Max"]
    assert told(reading)["row 2"] == "name or summary"
    assert told(reading)["row 3"] == "summary row"


def test_the_month_first_when_the_sheet_shows_it(both):
    reading = both([["Name", "Snatch", "Date"], ["Ann Sole", 70, "3/10/2026"], ["Bo Quay", 100, "3/25/2026"]])

    assert reading.lifters[0].bests[0].on == date(2026, 3, 10)
    assert not [p for p in reading.problems if p.kind == "day or month first"]


def test_a_corner_without_heading_above_a_second_table(both):
    reading = both(
        [
            [None, "Snatch"],
            ["Ann Sole", 70],
            [],
            ["Name", "Snatch", "C&J", "Back squat"],
            ["Bo Quay", 100, 120, 160],
        ]
    )

    assert [lifter.name for lifter in reading.lifters] == ["Ann Sole", "Bo Quay"]


def test_the_sheet_that_looks_like_a_squad_is_read_and_named():
    reading = read(
        as_xlsx(
            [["Name", "Snatch", "C&J"], ["Ann Sole", 70, 90]],
            name="Bests",
            others={"Cover": [["Welcome"]], "Attendance": [["Name", "Date"], ["Ann Sole", "2026-10-03"]]},
        ),
        "squad.xlsx",
    )

    assert reading.sheet == "Bests"
    assert bests(reading) == {"snatch": 7_000, "clean_and_jerk": 9_000}
    (several,) = [p for p in reading.problems if p.kind == "several sheets"]
    assert "Sheet 'Bests' is read; 'Attendance'" in several.message


def test_cells_beyond_the_headings_are_told():
    reading = read(b"Name;Snatch\nAnn Sole;70;;95\nBo Quay;90;;120\n")

    assert bests(reading, 1) == {"snatch": 9_000}
    assert reading.columns_ignored == ("D: no heading",)
    assert told(reading)["row 1, column 'D'"] == "no heading"


def test_every_problem_has_a_place_and_a_repair(both):
    reading = both(
        [["Name", "Snacth", "C&J"], ["Ann Sole", "x", "soon"], ["Ann Sole", 1, 5000], ["Average", 1, 2]]
    )

    assert len(reading.problems) >= 5
    for problem in reading.problems:
        assert problem.place.source.startswith("squad")
        assert problem.repair
        assert problem.place.line == 0 or problem.place.said.startswith(f"row {problem.place.line}")
    at_cell = next(p for p in reading.problems if p.place.said == "row 2, column 'C&J'")
    assert (at_cell.place.line, at_cell.place.column, at_cell.read) == (2, 3, "soon")


@pytest.mark.parametrize(
    ("data", "kind"), [(b"", "empty file"), (b"\n\n\n", "empty file"), (b"foo,bar\n1,2\n", "no headings"),
    (b"\x00\x01\x02" * 99, "no headings"),
                       (b"Snatch,C&J\n70,90\n", "no headings"), (b"%PDF-1.4", "not a sheet"),
                       (b"PK\x03\x04", "not a sheet")]
)  # fmt: skip
def test_a_file_without_a_squad_says_why(data, kind):
    reading = read(data)

    assert reading.lifters == ()
    assert [problem.kind for problem in reading.problems] == [kind]


def test_headings_without_lifters_are_told():
    assert [p.kind for p in read(b"Name,Snatch\n").problems] == ["no lifters"]


@pytest.mark.parametrize(
    ("name", "key"),
    [("Ida Thorne", "ida-thorne"), ("Łucja O'Dwyer", "lucja-odwyer"), ("José Ángel", "jose-angel"), ("李",
    "lifter"), ("", "lifter"), ("Bjørn-Åge", "bjorn-age")],
)  # fmt: skip
def test_a_key_from_a_name(name, key):
    assert key_of(name) == key


def test_keys_of_the_sheet_are_kept_when_they_can_be():
    reading = read(b"Key,Name,Snatch\nan,Ann Sole,70\nan,Bo Quay,90\n../x,Cy Moor,80\nTotal,Total,60\n")

    assert [lifter.key for lifter in reading.lifters] == ["an", "an-2", "cy-moor", "Total"]
    assert [p.kind for p in reading.problems if p.place.line] == ["key twice", "key"]
