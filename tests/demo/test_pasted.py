"""The pasted text: all of it is read, offered both ways, or kept; nothing is dropped or guessed."""

from collections import Counter

import pytest

from meetward import demo
from meetward.notation import print_cycle, read

# What stands in the text on purpose, and what a reader must do with it.
AMBIGUOUS = (
    "SNATCH – 5x3 @ 70%",  # nobody says which of the two is sets
    "Snatch pull 4×3 90%",
    "Clean Pulls 4x3",
    "Snatch pull 3x3 95",  # percent, kilos or pounds
    "Jerk dips 3x5 @ 110",
    "RDL 3x8 135#",
)
SURE = (
    "BACK SQUAT 5 x 5 (75%",  # the bracket is never closed
    "Back Squat 4x4 @ 77,5%",
    "Back squat 80% x 3 x 5",
    "Front squats 3,3,2,2,1,1",
    "EMOM 10: 1 clean and jerk 72%",
    "Side plank 3 x 30s each side",
)
KEPT = (
    "Join 4,000 happy lifters",
    "Hi folks, here is the sample block",
    "Overhead squat 3x2?70%",  # a sign was lost between two numbers
    "Turkish situp 3xforty",
    "Squat 5 x [3",
    "Comments (37)",
)


@pytest.fixture(scope="module")
def pasted(catalogue):
    return read(demo.pasted_text(), catalogue)


def _status(reading, words):
    return next(record.status for record in reading.lines if words in record.text)


@pytest.mark.parametrize("words", AMBIGUOUS)
def test_what_reads_two_ways_is_offered_both_ways(words, pasted):
    record = next(record for record in pasted.lines if words in record.text)
    assert record.status == "ambiguous"
    assert len(record.readings) >= 2


@pytest.mark.parametrize("words", SURE)
def test_what_a_careful_reader_is_sure_of_is_read(words, pasted):
    assert _status(pasted, words) == "read"


@pytest.mark.parametrize("words", KEPT)
def test_what_is_no_work_or_is_broken_is_kept(words, pasted):
    assert _status(pasted, words) == "note"


def test_misspelt_names_get_one_suggestion(pasted):
    said = " ".join(f"{problem.message} {problem.repair}" for problem in pasted.problems)
    for misspelt, meant in (("Power cleen", "Power clean"), ("Snacth balance", "Snatch balance")):
        assert misspelt in said
        assert f"'{meant}'" in said


def test_every_problem_has_its_place_and_a_repair(pasted):
    assert len(pasted.problems) >= 20
    lines = demo.pasted_text().splitlines()
    for problem in pasted.problems:
        assert problem.message
        assert problem.repair
        assert 1 <= problem.place.line <= len(lines)
        assert problem.place.column >= 1


def test_declaring_the_order_settles_most_of_it(pasted, catalogue):
    declared = read("Order: sets first\nBare loads: percent\n" + demo.pasted_text(), catalogue)
    before, after = (Counter(record.status for record in each.lines) for each in (pasted, declared))
    assert before["ambiguous"] >= 10
    assert after["ambiguous"] == 0
    assert after["read"] >= before["read"] + 10


def test_nothing_is_lost(pasted):
    """Every line with words in it comes back as work, as a heading or as a note."""
    printed = print_cycle(pasted.cycle)
    for words in (*KEPT, "for the video of this session"):
        assert words in printed, words


def test_printing_it_is_stable(pasted, catalogue):
    printed = print_cycle(pasted.cycle)
    assert print_cycle(read(printed, catalogue).cycle) == printed


def test_its_days_become_three_weeks_of_three(pasted):
    weeks = [week for _, _, week in pasted.cycle.weeks()]
    assert [len(week.sessions) for week in weeks if week.sessions][-3:] == [3, 3, 3]
