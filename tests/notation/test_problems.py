"""Every problem points at its words and says what to do."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Reader
from meetward.problem import with_caret


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


@pytest.mark.parametrize(
    ("text", "kind", "under"),
    [
        ("Snacth 3x3 @ 70%", "unknown movement", "Snacth"),
        ("Snatch 5x3 @ 70%", "reads two ways", "Snatch 5x3 @ 70%"),
        ("Snatch 5 wobbly 3 @ 70%", "words between numbers", "wobbly"),
        ("Snatch 2.1 x 3", "unread numbers", "2.1 x 3"),
        ("Snatch 3x3 @ 70% 7", "unread numbers", "7"),
        ("Pull-ups 3x8 or 4x6", "a choice", "or"),
        ("Snatch 3x3 clean 3x3", "second movement", "clean"),
        ("Snatch 5\ufffd3", "decayed sign", "\ufffd"),
        ("Snatch 5x2 @ 60, 65, 70%", "does not fit", "Snatch 5x2 @ 60, 65, 70%"),
        ("3x3 @ 70%", "no movement", "3x3 @ 70%"),
        ("After each set execute 3 light squat snatches", "kept as a note",
        "After each set execute 3 light squat snatches"),
        ("Order: sideways", "wrong value", "sideways"),
        ("Unit: stones", "wrong value", "stones"),
        ("Start: 28.12.2026", "wrong value", "28.12.2026"),
        ("Monday:\nMinutes: long\nSnatch 3x3", "wrong value", "long"),
        ("Monday:\nSnatch 3x3\n  priority: urgent", "wrong value", "urgent"),
        ("Week 1: load\nEmphasis: pulling\nMonday:\nSnatch 3x3", "wrong place", "Emphasis: pulling"),
        ("Monday:\nExact: {\"parts\": 3}", "wrong value", '{"parts": 3}'),
    ],
)  # fmt: skip
def test_a_problem_points_at_its_words(reader, text, kind, under):
    problem = next(q for q in reader.read(text).problems if q.kind == kind)
    line = text.split("\n")[problem.place.line - 1]
    start = problem.place.column - 1

    assert line[start : start + problem.place.width] == under
    assert problem.message.endswith(".")
    assert problem.repair.endswith((".", "?", ")"))
    caret = with_caret(problem, line).split("\n")
    assert len(caret) == 3
    assert set(caret[2].strip()) == {"^"}


def test_a_misspelling_gets_one_suggestion_and_no_id(reader):
    reading = reader.read("Snacth balance 3x3 @ 70%")

    assert reading.lines[0].parts[0].movement == ""
    assert reading.lines[0].status == "read"
    assert reading.problems[0].repair == "Did you mean 'Snatch balance'?"


def test_the_place_is_said_in_the_words_of_the_trade(reader):
    reading = reader.read(
        "Week 1: load\nMonday:\nJerk 3x3\nWeek 2: load\nMonday:\nJerk 3x3\nFriday:\nSnacth 3x3"
    )

    assert str(reading.problems[0]).startswith("Week 2, session 2, line 8, column 1: 'Snacth'")


def test_problems_come_in_the_order_of_the_text(reader):
    reading = reader.read("Order: sideways\nSnacth 3x3\nUnit: stones\nClaen 3x3")

    assert [q.place.line for q in reading.problems] == [1, 2, 3, 4]


def test_both_readings_are_said_with_the_way_to_settle_them(reader):
    (problem,) = reader.read("Snatch 5x3 @ 70%").problems

    assert "5 sets of 3 at 70 %, or 3 sets of 5 at 70 %" in problem.message
    assert "Order: sets first" in problem.repair
    assert problem.severity == "look"


def test_a_sound_text_has_no_problems(reader):
    assert reader.read("Order: sets first\nMonday:\nSnatch 5x3 @ 70%, rest 2:00\n  note: fast").problems == ()
