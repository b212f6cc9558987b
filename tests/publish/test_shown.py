"""The words and figures that paper and page share."""

from datetime import date

import msgspec
import pytest

from meetward.cycle.tree import SetGroup, Span
from meetward.fit.fitted import DayPart, DaySegment
from meetward.publish.shown import shown_day
from meetward.publish.words import show_date, show_kilos, split_scheme, time_to_meet
from tests.publish.samples import PULL, SNATCH, day_line, day_set, sheet, without_bests


def lifts(day):
    return next(segment for segment in day.segments if segment.kind == "lifts").lines


@pytest.mark.parametrize(
    ("day", "said"),
    [
        (date(2027, 4, 1), "2 days to Eskmouth Spring Open"),
        (date(2027, 4, 2), "1 day to Eskmouth Spring Open"),
        (date(2027, 4, 3), "Today: Eskmouth Spring Open"),
        (date(2027, 4, 4), ""),
        (None, "Eskmouth Spring Open"),
    ],
)
def test_the_way_to_the_meet(day, said):
    assert time_to_meet(day, "Eskmouth Spring Open", date(2027, 4, 3)) == said


def test_dates_are_english_on_every_machine():
    assert show_date(date(2027, 2, 24)) == "Wednesday 24 February 2027"  # 24 February 2027 is a Wednesday


@pytest.mark.parametrize(
    ("one", "figure"),
    [
        (day_set(6000, 1, 3, "70 %"), "60"),
        (day_set(6000, 1, 3, "70–75 %", high_dag=6250), "60–62.5"),
        (day_set(6000, 3, 2, "70 %", weights_dag=(4000, 5000, 6000)), "40 to 60"),
        (day_set(6000, 2, 2, "70 %", weights_dag=(6000, 6000)), "60"),
        (day_set(3000, 4, 3, "70 %", high_dag=4000, placeholder=True), "30"),
        (day_set(None, 4, 3, "RPE 8"), ""),
    ],
)
def test_the_figure_of_a_set(one, figure):
    assert show_kilos(one, "kg") == figure


def test_a_lifter_who_counts_in_pounds_reads_pounds():
    assert show_kilos(day_set(6123, 1, 3, "70 %"), "lb") == "135"  # 135 lb is 61.23 kg


def test_a_start_to_work_up_from_says_so_and_is_not_drawn_with_the_discs_of_its_upper_end():
    (snatch,) = lifts(shown_day(without_bests()))[0].sets

    assert (snatch.lead, snatch.kilos, snatch.placeholder) == ("from", "30", True)
    assert snatch.bar == ""
    assert "tell your coach" in snatch.instruction


def test_the_bar_of_a_range_names_the_weight_that_is_drawn():
    squat = lifts(shown_day(sheet()))[2].sets

    assert (squat[0].kilos, squat[0].bar_for) == ("90–95", "Drawn: 95 kg")
    assert squat[1].bar_for == ""


def test_equal_reasons_share_a_footnote_and_marks_count_up():
    same = day_set(6000, 1, 3, "70 %", why="The same reason.")
    other = day_set(6500, 1, 3, "75 %", why="Another.")
    day = shown_day(sheet(segments=(DaySegment("lifts", (day_line(SNATCH, same, other, same),), 20.0),)))

    assert [one.why_mark for one in lifts(day)[0].sets] == [1, 2, 1]
    assert day.whys == ("The same reason.", "Another.")


def waves(*kilos_dag, rest=", rest 2:00"):
    """A line of waves: for each, a double at one weight and a single at another."""
    groups = []
    for number, (double_dag, single_dag) in enumerate(kilos_dag, start=1):
        for dag, reps in ((double_dag, 2), (single_dag, 1)):
            one = day_set(dag, 1, reps, f"{dag // 100} %", why=f"Why {dag}.")
            groups.append(msgspec.structs.replace(one, scheme=f"wave {number}: 1 × {reps}{rest}"))
    day = sheet(segments=(DaySegment("lifts", (day_line(SNATCH, *groups),), 20.0),))
    return lifts(shown_day(day))[0].sets


def test_waves_that_are_alike_stand_once_with_a_box_for_each():
    sets = waves((6000, 6500), (6000, 6500), (6000, 6500))

    assert [(one.kilos, one.boxes, one.more) for one in sets] == [("60", 3, ""), ("65", 3, "")]
    assert [one.round for one in sets] == ["Waves 1 to 3, alike; rest 2:00", ""]


def test_waves_that_climb_stand_one_by_one():
    sets = waves((6000, 6500), (6250, 6750), rest="")

    assert [one.kilos for one in sets] == ["60", "65", "62.5", "67.5"]
    assert [one.round for one in sets] == ["Wave 1", "", "Wave 2", ""]
    assert {one.boxes for one in sets} == {1}


def test_a_movement_is_taught_once_and_then_as_above():
    lines = (day_line(SNATCH, day_set(6000, 1, 3, "70 %")), day_line(SNATCH, day_set(6500, 1, 3, "75 %")))
    day = shown_day(sheet(segments=(DaySegment("lifts", lines, 20.0),)))

    assert [[text.again for text in line.teaching] for line in lifts(day)] == [[False], [True]]


def test_a_complex_teaches_each_of_its_movements_and_says_what_is_paused_where():
    line = msgspec.structs.replace(
        day_line(PULL, day_set(6000, 1, 3, "70 %")),
        name="Snatch pull + snatch",
        parts=(DayPart("Snatch pull", "2 s pause at the knee", PULL), DayPart("Snatch", "", SNATCH)),
    )
    (shown,) = lifts(shown_day(sheet(segments=(DaySegment("lifts", (line,), 20.0),))))

    assert [text.name for text in shown.teaching] == ["Snatch pull", "Snatch"]
    assert shown.detail == "Snatch pull: 2 s pause at the knee"


def test_lines_in_turn_name_each_other():
    one = day_line(SNATCH, day_set(6000, 1, 3, "70 %"), turn="A")
    two = day_line(PULL, day_set(7000, 1, 3, "80 %"), turn="A")
    alone = day_line(PULL, day_set(7000, 1, 3, "80 %"), turn="B")
    shown = lifts(shown_day(sheet(segments=(DaySegment("lifts", (one, two, alone), 20.0),))))

    assert [line.turn for line in shown] == [
        "In turn with Snatch pull: one set of each.",
        "In turn with Snatch: one set of each.",
        "",
    ]


@pytest.mark.parametrize(
    ("count", "boxes"), [(Span(4, 4), 4), (Span(3, 5), 5), (None, 0), (Span(30, 30), 0), (Span(10, 10), 10)]
)
def test_a_box_for_each_set_that_can_be_counted(count, boxes):
    one = msgspec.structs.replace(day_set(6000, 1, 3, "70 %"), group=SetGroup(count, (None,)))
    day = shown_day(sheet(segments=(DaySegment("lifts", (day_line(SNATCH, one),), 20.0),)))

    assert lifts(day)[0].sets[0].boxes == boxes


@pytest.mark.parametrize(
    ("scheme", "parts"),
    [
        ("4 × 3", ("4 × 3", "")),
        ("wave 2: 1 × 2, rest 2:00", ("1 × 2", "wave 2, rest 2:00")),
        ("5 × (2+1), tempo 30X0, rest 1:30", ("5 × (2+1)", "tempo 30X0, rest 1:30")),
        ("3 × 8 each side", ("3 × 8 each side", "")),
        ("", ("", "")),
    ],
)
def test_sets_and_reps_stand_apart_from_what_else_is_said_of_them(scheme, parts):
    assert split_scheme(scheme) == parts
