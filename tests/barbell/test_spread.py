"""Sets that climb to a top."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import loadable
from meetward.barbell.rounding import load
from meetward.barbell.spread import spread
from meetward.barbell.standard import club_kit, competition_kit
from tests.barbell.kits import kits, totals_dag

HALL, MEET = club_kit(), competition_kit()


def test_seven_sets_up_to_a_top():
    # 70 % of 100 kg; computed, in a straight line: 54.25, 56.875, 59.5, 62.125, 64.75, 67.375, 70.
    assert spread(MEET, None, 7000, 7) == (5400, 5700, 5900, 6200, 6500, 6700, 7000)


def test_a_start_that_the_coach_gave():
    assert spread(HALL, 5000, 7000, 5) == (5000, 5500, 6000, 6500, 7000)


def test_a_single_set_is_the_top():
    assert spread(HALL, None, 7100, 1) == (7000,)
    assert spread(HALL, 5000, 7100, 1) == (7000,)


def test_a_start_between_the_top_and_what_can_be_loaded_under_it_is_no_reason_to_go_above():
    assert spread(HALL, 7200, 7240, 3) == (7000, 7000, 7000)


def test_a_top_under_the_bar_is_the_bar():
    assert spread(HALL, None, 1200, 3) == (2000, 2000, 2000)


@given(kits(), st.data(), st.integers(1, 12))
def test_the_weights_can_be_loaded_never_fall_and_end_at_the_top(kit, data, sets):
    high = data.draw(st.integers(1, 20_000))
    low = data.draw(st.none() | st.integers(1, high))

    weights = spread(kit, low, high, sets)

    assert len(weights) == sets
    assert list(weights) == sorted(weights)
    assert set(weights) <= set(totals_dag(kit))
    assert weights[-1] == load(kit, 1000 * high, down=True).dag
    assert weights[-1] <= high or weights[-1] == kit.bar_dag


@given(st.sampled_from(loadable(HALL)[4:70]), st.integers(2, 10))
def test_the_jumps_are_even_to_one_loadable_step(top, sets):
    jumps = [other - one for one, other in pairwise(spread(HALL, None, top, sets))]

    assert max(jumps) - min(jumps) <= 250


@pytest.mark.parametrize(
    ("low", "high", "sets", "says"),
    [
        (None, 7000, 0, "0 sets cannot climb"),
        (None, 7000, -3, "-3 sets cannot climb"),
        (8000, 7000, 3, "first set of 80 kg is above the top of 70 kg"),
        (0, 7000, 3, "more than nothing"),
        (None, 0, 3, "more than nothing"),
        (None, -100, 3, "more than nothing"),
    ],
)
def test_sets_that_cannot_climb_are_refused_in_words(low, high, sets, says):
    with pytest.raises(ValueError, match=says):
        spread(HALL, low, high, sets)
