"""The load line above the weeks."""

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.publish.load_line import WeekLoad, load_line, said_load_line

SVG = "{http://www.w3.org/2000/svg}"
WEEKS = (
    WeekLoad(320, 700),
    WeekLoad(360, 730),
    WeekLoad(240, 690, "lighter"),
    WeekLoad(300, None, "test"),
    WeekLoad(120, 820, "taper"),
)

week_loads = st.lists(
    st.builds(
        WeekLoad,
        st.integers(0, 2000),
        st.none() | st.integers(300, 1200),
        st.sampled_from(["load", "lighter", "test", "taper", "meet"]),
    ),
    min_size=1,
    max_size=26,
)


def test_the_words_hold_every_week_with_its_figures():
    assert said_load_line(WEEKS, "Eskmouth Spring Open") == (
        "week 1: 320 lifts at 70 %; week 2: 360 lifts at 73 %; week 3 (lighter): 240 lifts at 69 %; "
        "week 4 (test): 300 lifts; week 5 (taper): 120 lifts at 82 %; then Eskmouth Spring Open."
    )


@given(week_loads, st.text(max_size=60).filter(str.isprintable))
def test_the_drawing_is_well_formed_and_says_the_same_facts(weeks, meet):
    root = ElementTree.fromstring(load_line(weeks, meet=meet))

    assert root.find(f"{SVG}desc").text == said_load_line(weeks, meet)
    columns = [r for r in root.iter(f"{SVG}rect") if r.get("class") == "column"]
    assert len(columns) == sum(week.lifts > 0 for week in weeks)
    points = list(root.iter(f"{SVG}circle"))
    assert len(points) == sum(week.average_permille is not None for week in weeks)
    height = float(root.get("height"))
    assert all(0 < float(point.get("cy")) < height for point in points)


def test_columns_are_as_high_as_the_lifts_and_stand_over_their_week():
    root = ElementTree.fromstring(load_line(WEEKS, week_px=60))
    columns = [r for r in root.iter(f"{SVG}rect") if r.get("class") == "column"]

    per_lift = [float(c.get("height")) / week.lifts for c, week in zip(columns, WEEKS, strict=True)]
    middles = [float(c.get("x")) + float(c.get("width")) / 2 for c in columns]

    assert per_lift == pytest.approx([per_lift[0]] * len(WEEKS), rel=1e-3)
    assert middles == pytest.approx([30, 90, 150, 210, 270])


def test_the_line_stays_above_the_columns_and_rises_with_intensity():
    root = ElementTree.fromstring(load_line(WEEKS))
    tops = [float(r.get("y")) for r in root.iter(f"{SVG}rect") if r.get("class") == "column"]
    heights = [float(point.get("cy")) for point in root.iter(f"{SVG}circle")]

    assert max(heights) < min(tops) - 13, "room for the number of lifts"
    known = [week.average_permille for week in WEEKS if week.average_permille is not None]
    assert sorted(range(4), key=lambda i: known[i]) == sorted(range(4), key=lambda i: -heights[i])


def test_a_week_without_percentages_leaves_a_gap_in_the_line():
    root = ElementTree.fromstring(load_line(WEEKS))
    line = next(p for p in root.iter(f"{SVG}path") if p.get("class") == "line")

    assert line.get("d").count("M") == 2


def test_the_meet_is_a_flag_right_of_the_last_week():
    root = ElementTree.fromstring(load_line(WEEKS, meet="Eskmouth Spring Open", week_px=50))
    words = {text.text: float(text.get("x")) for text in root.iter(f"{SVG}text")}

    assert words["Eskmouth"] == words["Spring Open"] > 250


def test_a_hostile_name_stays_a_name():
    root = ElementTree.fromstring(load_line(WEEKS, meet="<script>alert(1)</script> & co"))

    assert root.find(f".//{SVG}script") is None


def test_there_is_nothing_to_draw_without_weeks():
    with pytest.raises(ValueError, match="no week"):
        load_line([])
