"""What a lifter is known to have lifted, and how that is said."""

import msgspec
import pytest

from meetward.catalogue.reading import shipped
from meetward.lifter.bests import Best
from meetward.strength.bests import how_known, known_best, lift_said
from tests.strength.people import DAY, lifter

CATALOGUE = shipped()


def known(lift, *bests, **more):
    return known_best(lifter(*bests), lift, CATALOGUE, **more)


def test_a_single_is_taken_as_it_is():
    best = known("snatch", Best("snatch", 8_500, DAY, "tested"))

    assert (best.low_dag, best.dag, best.high_dag, best.at_least) == (8_500, 8_500, 8_500, False)
    assert best.said == "best snatch 85 kg (tested 3 Oct 2026)"


def test_the_heaviest_single_counts_and_a_tested_one_at_equal_weight():
    best = known(
        "snatch",
        Best("snatch", 8_000, DAY, "tested"),
        Best("snatch", 8_500),
        Best("snatch", 8_500, DAY, "tested"),
    )

    assert best.best == Best("snatch", 8_500, DAY, "tested")


def test_nothing_is_known_of_a_lift_that_the_profile_lacks():
    assert known("snatch", Best("clean_and_jerk", 10_000)) is None


def test_a_set_of_more_reps_stands_in_for_a_missing_single():
    best = known("back_squat", Best("back_squat", 14_000, DAY, reps=5))

    # repmax-checks.csv for 5 reps x 1.4: least 157.5 kg, most 166.615 kg, fourth of seven 163.2155 kg
    assert (best.low_dag, best.dag, best.high_dag) == (15_750, 16_322, 16_661)
    assert best.said == "best back squat about 163 kg (estimated from 140 kg × 5, stated 3 Oct 2026)"
    assert best.why.because[0].source


def test_a_single_goes_before_an_estimate():
    best = known("back_squat", Best("back_squat", 14_000, reps=5), Best("back_squat", 15_000))

    assert best.dag == 15_000


def test_a_set_heavier_than_the_single_shows_that_the_single_is_out_of_date():
    best = known("back_squat", Best("back_squat", 14_000, reps=3), Best("back_squat", 13_000))

    assert best.low_dag > 14_000


def test_a_set_no_heavier_than_the_single_leaves_the_single_as_it_is():
    best = known("back_squat", Best("back_squat", 13_000, reps=3), Best("back_squat", 13_000))

    assert (best.dag, best.best.reps) == (13_000, 1)


def test_of_several_sets_the_one_of_fewest_reps_counts():
    best = known("back_squat", Best("back_squat", 12_000, reps=10), Best("back_squat", 14_000, reps=3))

    assert best.best.reps == 3


@pytest.mark.parametrize("reps", [3, 15])
def test_a_set_without_an_equation_is_a_lower_bound(reps):
    lift = "snatch" if reps == 3 else "back_squat"
    best = known(lift, Best(lift, 8_000, reps=reps))

    assert best.at_least
    assert best.dag == 8_000
    assert f"at least 80 kg (80 kg × {reps}, stated, day not given)" in best.said


def test_a_best_for_reps_is_asked_for_by_its_reps():
    three = Best("front_squat", 10_000, reps=3)

    assert (
        known("front_squat", three, reps=3).said
        == "best front squat for 3 reps 100 kg (stated, day not given)"
    )
    assert known("front_squat", three, reps=5) is None


def test_a_lift_outside_the_catalogue_has_singles():
    assert known("log_lift", Best("log_lift", 9_000)).said == "best log lift 90 kg (stated, day not given)"
    assert known("log_lift", Best("log_lift", 9_000, reps=3)) is None


@pytest.mark.parametrize(
    ("lift", "said"),
    [
        ("clean_and_jerk", "clean and jerk"),
        ("romanian_deadlift", "Romanian deadlift"),
        ("no_such_lift", "no such lift"),
    ],
)
def test_a_lift_inside_a_sentence(lift, said):
    assert lift_said(lift, CATALOGUE) == said


@pytest.mark.parametrize("kind", ["tested", "estimated", "stated"])
def test_every_kind_is_said(kind):
    assert how_known(Best("snatch", 1, DAY, kind)) == f"{kind} 3 Oct 2026"


def test_results_are_values():
    assert msgspec.json.decode(msgspec.json.encode(known("snatch", Best("snatch", 8_500))), type=dict)
