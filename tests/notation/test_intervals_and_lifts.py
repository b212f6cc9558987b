"""An interval's count reaches a set word, and a word before further sets is never taken for nothing."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Reps, Span
from meetward.notation import Conventions, read

CATALOGUE = shipped()


@pytest.mark.parametrize(
    ("text", "sets", "reps", "every_s"),
    [
        ("E90S x 7: Snatch double 70%", 7, 2, 90),
        ("EMOM x 8: Snatch single 75%", 8, 1, 60),
        ("Snatch double 70% E90S x 7", 7, 2, 90),
        ("E2MOM x 6 sets: 2 Clean &amp; Jerks @72%", 6, 2, 120),
    ],
)
def test_what_is_done_each_time_is_done_as_often_as_the_interval_says(text, sets, reps, every_s):
    (record,) = read(text, CATALOGUE).lines
    (group,) = record.reading.groups

    assert record.status == "read"
    assert (group.count, group.reps, group.every_s) == (Span(sets, sets), (Reps(reps, reps),), every_s)


@pytest.mark.parametrize("text", ["Sn pull 4x3@ 95% , CP 4x3 @95 %", "Snatch 5x2 75%, CP 4x3 90%"])
def test_the_sets_of_an_unknown_lift_are_never_given_to_the_lift_before(text):
    reading = read(text, CATALOGUE, Conventions(order="sets-first"))

    assert reading.lines[0].status == "note"
    assert any("CP" in problem.read for problem in reading.problems)


def test_an_ampersand_written_as_an_entity_is_an_ampersand():
    (record,) = read("Clean &amp; jerk 5 sets of 1 rep up to 80%", CATALOGUE).lines

    assert [part.movement for part in record.parts] == ["clean_and_jerk"]
