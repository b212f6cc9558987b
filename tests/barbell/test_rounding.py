"""From a target to a loadable weight: the laws, and three ways that have to agree."""

import itertools
from fractions import Fraction
from typing import get_args

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc, loadable
from meetward.barbell.rounding import RULES, Reason, RoundingTable, load, load_range
from meetward.barbell.standard import club_kit, competition_kit, light_kit
from tests.barbell.kits import kits, totals_dag

HALL = club_kit()
MEET = competition_kit()
GAPS = BarAndDiscs(2000, 500, (Disc(2500), Disc(1134), Disc(11, 2)))
KITS = [
    HALL,
    club_kit(1500),
    MEET,
    competition_kit(1500),
    light_kit(),
    light_kit(500),
    GAPS,
    BarAndDiscs(733),
]

targets = st.one_of(st.integers(1, 20_000_000), st.integers(1, 20_000).map(lambda dag: dag * 1000))


def exactly_nearest(weights_dag, target_millidag):
    """By fractions and looking at every weight: nearest, and of two the lighter."""
    target_dag = Fraction(target_millidag, 1000)
    return min(weights_dag, key=lambda dag: (abs(dag - target_dag), dag))


def exactly_down(weights_dag, target_millidag):
    """By fractions and looking at every weight: the heaviest at or under the target, or the bar."""
    target_dag = Fraction(target_millidag, 1000)
    return max((dag for dag in weights_dag if dag <= target_dag), default=weights_dag[0])


def nearest_of_all(weights_dag, cells):
    """Each cell against each weight in integers, many at once: no searching, no table."""
    weights = np.array(weights_dag)
    for part in np.array_split(np.array(cells), 50):
        off = np.abs(weights[None, :] * 1000 - part[:, None])
        yield from weights[off.argmin(axis=1)].tolist()  # argmin takes the first of equals: the lighter


def around_every_tie(kit):
    """Each loadable weight and each middle between two, exactly and a hundredth of a gram to either side."""
    weights = loadable(kit)
    ties = [500 * (one + other) for one, other in itertools.pairwise(weights)]
    exact = ties + [1000 * dag for dag in weights]
    return [target + aside for target in exact for aside in (-1, 0, 1)]


@given(kits(), targets)
def test_the_nearest_weight_is_the_one_that_fractions_give(kit, target):
    assert load(kit, target).dag == exactly_nearest(totals_dag(kit), target)


@given(kits(), targets)
def test_rounding_down_is_what_fractions_give(kit, target):
    assert load(kit, target, down=True).dag == exactly_down(totals_dag(kit), target)


@given(kits(), targets, targets)
def test_under_a_top_it_is_the_nearest_of_what_is_at_or_under_the_top(kit, target, top):
    weights = totals_dag(kit)
    allowed = [dag for dag in weights if 1000 * dag <= top] or weights[:1]

    assert load(kit, target, top_millidag=top).dag == exactly_nearest(allowed, target)
    assert load(kit, target, top_millidag=top, down=True).dag == exactly_down(allowed, target)


@given(kits(), targets, targets, targets)
def test_rounding_never_turns_an_order_round_and_a_loadable_weight_stays(kit, one, other, top):
    low, high = sorted((one, other))
    for down in (False, True):
        assert load(kit, low, down=down).dag <= load(kit, high, down=down).dag
        rounded = load(kit, one, down=down).dag
        again = load(kit, 1000 * rounded, down=down)
        assert (again.dag, again.exact, again.reason) == (rounded, True, "exact")
    kept = load(kit, one, top_millidag=top).dag
    assert 1000 * kept <= top or kept == kit.bar_dag


@given(kits(), targets, targets)
def test_a_range_stays_under_its_top_and_its_ends_in_order(kit, one, other):
    low, high = sorted((one, other))
    light, heavy = load_range(kit, low, high)

    assert heavy.dag == exactly_down(totals_dag(kit), high)
    assert light.dag == min(exactly_nearest(totals_dag(kit), low), heavy.dag)


@given(kits(), st.lists(st.tuples(targets, targets), min_size=1), st.sampled_from((np.int32, np.int64)))
def test_the_table_gives_what_single_rounding_gives(kit, pairs, number):
    table = RoundingTable.of(kit)
    lows, highs = np.sort(np.array(pairs, dtype=number), axis=1).T

    assert table.nearest(lows).tolist() == [load(kit, int(t)).dag for t in lows]
    assert table.down(lows).tolist() == [load(kit, int(t), down=True).dag for t in lows]
    assert table.nearest_under(highs, lows).tolist() == [
        load(kit, int(t), top_millidag=int(top)).dag for t, top in zip(highs, lows, strict=True)
    ]
    assert list(zip(*(end.tolist() for end in table.between(lows, highs)), strict=True)) == [
        tuple(end.dag for end in load_range(kit, int(low), int(high)))
        for low, high in zip(lows, highs, strict=True)
    ]


@pytest.mark.parametrize("kit", KITS, ids=range(len(KITS)))
def test_every_tie_falls_to_the_lighter_in_all_three_ways(kit):
    weights, table, cells = loadable(kit), RoundingTable.of(kit), around_every_tie(kit)
    exact = list(nearest_of_all(weights, cells))

    assert [load(kit, target).dag for target in cells] == exact
    assert table.nearest(np.array(cells)).tolist() == exact
    for one, other in itertools.pairwise(weights):
        assert load(kit, 500 * (one + other)).dag == one


@pytest.mark.parametrize("kit", KITS, ids=range(len(KITS)))
def test_a_hundred_thousand_cells_without_a_difference_from_fractions(kit):
    """Bests to 10 g times intensities to a tenth of a percent: whole kilos, halves and everything."""
    chance = np.random.default_rng(20_260_301)
    bests_dag = chance.integers(2_000, 26_000, 12_500)
    bests_dag[:6_000] -= bests_dag[:6_000] % 50
    cells = bests_dag * chance.integers(300, 1_101, 12_500)

    nearest = RoundingTable.of(kit).nearest(cells)

    reference = list(nearest_of_all(loadable(kit), cells))
    assert nearest.tolist() == reference
    some = range(0, len(cells), 25)
    assert [reference[i] for i in some] == [exactly_nearest(loadable(kit), int(cells[i])) for i in some]
    assert [reference[i] for i in some] == [load(kit, int(cells[i])).dag for i in some]


# Computed: 85 kg at 72.5 % is 61.625 kg; a hall with 1.25 kg discs makes 60 and 62.5 kg, the middle is 61.25.
def test_the_reasons_in_words():
    assert load(HALL, 8_500 * 725).dag == 6250
    assert load(HALL, 8_500 * 725).reason == "nearest"
    assert load(HALL, 6_125_000).reason == "tie to the lighter"
    assert load(HALL, 6_125_000).dag == 6000
    assert load(HALL, 8_000_000).reason == "exact"
    assert load(HALL, 8_500 * 725, down=True).reason == "rounded down"
    assert load(HALL, 8_500 * 725, top_millidag=6_200_000).reason == "kept under the top"
    assert load(HALL, 8_500 * 725, top_millidag=6_200_000).dag == 6000
    assert load(HALL, 8_500 * 725, top_millidag=6_000_000).dag == 6000
    assert load(HALL, 1_500_000).reason == "bar is heavier"
    assert load(HALL, 1_500_000).dag == 2000
    assert load(HALL, 90_000_000).reason == "heaviest on hand"
    assert load(HALL, 90_000_000).dag == loadable(HALL)[-1]
    assert "so the lighter one" in load(HALL, 6_125_000).rule


def test_every_reason_has_its_rule_in_words():
    assert set(RULES) == set(get_args(Reason))


@given(kits(), targets)
def test_the_reason_tells_the_truth(kit, target):
    weights, loaded = totals_dag(kit), load(kit, target)

    assert loaded.exact == (1000 * loaded.dag == target) == (loaded.reason == "exact")
    assert (loaded.reason == "bar is heavier") == (target < 1000 * weights[0])
    assert (loaded.reason == "heaviest on hand") == (target > 1000 * weights[-1])
    assert (loaded.reason == "tie to the lighter") == (
        any(abs(1000 * dag - target) == target - 1000 * loaded.dag for dag in weights if dag > loaded.dag)
    )


def test_the_table_takes_what_no_bar_holds():
    table = RoundingTable.of(HALL)
    for number in (np.int32, np.int64):
        ends = np.array([np.iinfo(number).min, -1, 0, 1, np.iinfo(number).max], dtype=number)

        assert table.nearest(ends).tolist() == [2000, 2000, 2000, 2000, loadable(HALL)[-1]]
        assert table.down(ends).tolist() == [2000, 2000, 2000, 2000, loadable(HALL)[-1]]


def test_the_table_leaves_its_input_alone_and_keeps_its_shape():
    table = RoundingTable.of(HALL)
    cells = np.array([[6_125_000, 6_125_001], [1, 8_000_000], [90_000_000, 6_162_500]])
    before = cells.copy()

    answer = table.nearest(cells)

    assert (cells == before).all()
    assert answer.dtype == np.int32
    assert answer.tolist() == [[6000, 6250], [2000, 8000], [loadable(HALL)[-1], 6250]]
    assert table.nearest(np.zeros((0, 3), dtype=np.int64)).shape == (0, 3)


@pytest.mark.parametrize("number", [np.float64, np.int16, np.uint64, np.bool_, object])
def test_the_table_refuses_numbers_that_are_not_exact_or_too_narrow(number):
    with pytest.raises(ValueError, match="int32 or int64 millidag"):
        RoundingTable.of(HALL).nearest(np.array([1], dtype=number))


def test_a_kit_has_one_table():
    assert RoundingTable.of(club_kit()) is RoundingTable.of(club_kit())


@pytest.mark.parametrize("target", [0, -1, -8_000_000])
def test_a_target_of_nothing_is_refused(target):
    with pytest.raises(ValueError, match="more than nothing"):
        load(HALL, target)
    with pytest.raises(ValueError, match="more than nothing"):
        load_range(HALL, target, 8_000_000)


def test_a_range_the_wrong_way_round_is_refused():
    with pytest.raises(ValueError, match="swap them"):
        load_range(HALL, 8_000_000, 7_000_000)
