"""Bests derived along the usual ratios. The ratios and their sources: tests/authorities/lift-ratios.md."""

import csv
from fractions import Fraction
from itertools import pairwise, product
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Ratio
from meetward.catalogue.reading import shipped
from meetward.lifter.bests import Best
from meetward.strength.bests import Known
from meetward.strength.ratios import HALF_WIDTH, MOST_STEPS, Derived, derive, working_best
from tests.strength.people import DAY, lifter

CATALOGUE = shipped()
LIFTS = sorted(m.id for m in CATALOGUE.movements.values() if any(not r.working_load for r in m.ratios))


def small(*ratios: tuple[str, str, int, int, int]) -> Catalogue:
    """A catalogue with these ratios only: lift, of, low, typical, high permille."""
    names = dict.fromkeys(name for ratio in ratios for name in ratio[:2])
    back_squat = CATALOGUE.movements["back_squat"]
    return Catalogue(
        msgspec.structs.replace(
            back_squat,
            id=name,
            name=name,
            names=(),
            reference=name,
            ratios=tuple(
                Ratio(of, low, typical, high, f"{lift} of {of}")
                for lift, of, low, typical, high in ratios
                if lift == name
            ),
        )
        for name in names
    )


# tests/authorities/lift-ratios.csv, rows of a best on another best: typical and ends are those of the table.
@pytest.mark.parametrize(
    ("lift", "of"),
    [("snatch", "clean_and_jerk"), ("back_squat", "clean_and_jerk"), ("front_squat", "back_squat"),
    ("power_clean", "clean"),
     ("hang_snatch", "snatch"), ("push_press", "jerk")],
)  # fmt: skip
def test_one_ratio_gives_the_figures_of_the_table(lift, of):
    path = Path(__file__).parents[1] / "authorities" / "lift-ratios.csv"
    with path.open(encoding="utf-8", newline="") as file:
        row = next(r for r in csv.DictReader(file) if (r["lift"], r["reference_lift"]) == (lift, of))

    answer = derive(lifter(Best(of, 10_000)), lift, CATALOGUE)

    assert answer.typical_dag == round(Fraction(row["typical"]) * 10_000)
    assert answer.low_dag <= Fraction(row["low"]) * 10_000
    assert answer.high_dag >= Fraction(row["high"]) * 10_000
    assert [(step.of, step.to) for step in answer.path] == [(of, lift)]


def test_a_missing_deadlift_is_not_derived():
    """The quoted table makes 182 kg of a 100 kg clean (tests/authorities/lift-ratios.csv)."""
    assert derive(lifter(Best("clean", 10_000), Best("snatch", 8_000)), "deadlift", CATALOGUE) is None


def test_a_derived_best_says_what_it_is():
    answer = derive(lifter(Best("back_squat", 14_000, DAY, "tested")), "front_squat", CATALOGUE)

    assert answer.said == "best front squat about 119 kg (derived from the back squat, 104 to 134 kg)"
    assert "best back squat 140 kg (tested 3 Oct 2026)" in str(answer.why)
    assert "placeholder" in str(answer.why)
    assert "±13 %" in answer.why.rule
    assert answer.why.source


def test_a_ratio_is_read_both_ways_round():
    there = derive(lifter(Best("a", 10_000)), "b", small(("b", "a", 700, 800, 900)))
    back = derive(lifter(Best("b", 8_000)), "a", small(("b", "a", 700, 800, 900)))

    assert (there.low_dag, there.typical_dag, there.high_dag) == (
        6_960,
        8_000,
        9_040,
    )  # ±13 % is the wider here
    assert (back.low_dag, back.typical_dag, back.high_dag) == (
        8_700,
        10_000,
        11_429,
    )  # 8000 / 0.7, rounded up
    assert back.path[0].inverted


def test_what_is_said_of_a_lift_goes_before_what_is_said_the_other_way_round():
    catalogue = small(("b", "a", 1000, 1310, 1400), ("a", "b", 790, 790, 790))

    assert derive(lifter(Best("a", 10_000)), "b", catalogue).typical_dag == 13_100


def test_ranges_multiply_along_a_path():
    chain = small(("b", "a", 500, 1000, 2000), ("c", "b", 500, 1000, 2000))

    answer = derive(lifter(Best("a", 1_000)), "c", chain)

    assert (answer.low_dag, answer.typical_dag, answer.high_dag) == (250, 1_000, 4_000)
    assert [step.to for step in answer.path] == ["b", "c"]


def test_fewest_ratios_win_over_the_narrower_range():
    catalogue = small(("b", "a", 999, 1000, 1001), ("c", "b", 999, 1000, 1001), ("c", "z", 500, 1000, 2000))

    assert derive(lifter(Best("a", 1_000), Best("z", 1_000)), "c", catalogue).source.lift == "z"


def test_of_equally_few_ratios_the_narrowest_wins():
    catalogue = small(("c", "a", 500, 1000, 2000), ("c", "z", 800, 1000, 1200))

    assert derive(lifter(Best("a", 1_000), Best("z", 1_000)), "c", catalogue).source.lift == "z"


def test_more_than_three_ratios_are_too_far():
    chain = small(*((chr(ord(at) + 1), at, 900, 1000, 1100) for at in "abcd"))

    assert len(derive(lifter(Best("a", 1_000)), "d", chain).path) == MOST_STEPS
    assert derive(lifter(Best("a", 1_000)), "e", chain) is None


def test_loads_that_people_work_with_lead_nowhere():
    assert CATALOGUE.movements["snatch_pull"].ratios[0].working_load
    assert derive(lifter(Best("snatch", 8_500)), "snatch_pull", CATALOGUE) is None
    assert derive(lifter(Best("snatch_pull", 10_000)), "snatch", CATALOGUE) is None


def test_a_lower_bound_says_nothing_about_another_lift():
    assert derive(lifter(Best("snatch", 8_000, reps=3)), "clean_and_jerk", CATALOGUE) is None


def test_an_estimate_from_reps_widens_the_range():
    sure = derive(lifter(Best("back_squat", 15_257)), "front_squat", CATALOGUE)
    estimated = derive(lifter(Best("back_squat", 14_000, reps=3)), "front_squat", CATALOGUE)

    assert estimated.typical_dag == sure.typical_dag
    assert estimated.high_dag >= sure.high_dag
    assert estimated.low_dag <= sure.low_dag


def test_known_before_custom_before_derived():
    everything = (Best("clean", 10_200), Best("clean_and_jerk", 10_000), Best("back_squat", 14_000))
    asked = {"lift": "clean", "catalogue": CATALOGUE, "otherwise": "clean_and_jerk"}

    assert working_best(lifter(*everything), **asked).lift == "clean"
    assert working_best(lifter(*everything[1:]), **asked).dag == 10_000  # as it is, without a ratio
    assert isinstance(working_best(lifter(*everything[2:]), **asked), Derived)
    assert working_best(lifter(), **asked) is None


def test_a_heavier_custom_goes_before_a_lower_bound():
    asked = {"lift": "clean", "catalogue": CATALOGUE, "otherwise": "clean_and_jerk"}
    triple = Best("clean", 9_000, reps=3)

    assert working_best(lifter(triple), **asked).dag == 9_000
    assert working_best(lifter(triple, Best("clean_and_jerk", 10_000)), **asked).dag == 10_000
    assert working_best(lifter(triple, Best("clean_and_jerk", 8_000)), **asked).dag == 9_000


def test_a_best_for_reps_is_never_derived():
    assert working_best(lifter(Best("back_squat", 14_000)), "front_squat", CATALOGUE, reps=3) is None


def all_paths(
    catalogue: Catalogue, source: str, lift: str
) -> list[tuple[int, Fraction, Fraction, Fraction, Fraction]]:
    """Every path of at most three ratios between two lifts, the slow way: steps, width and shares."""
    steps = [
        (
            ratio.of,
            movement.id,
            *(Fraction(p, 1000) for p in (ratio.low_permille, ratio.typical_permille, ratio.high_permille)),
        )
        for movement in catalogue.movements.values()
        for ratio in movement.ratios
        if not ratio.working_load
    ]
    direct = {step[:2] for step in steps}
    steps += [
        (to, of, 1 / high, 1 / typical, 1 / low)
        for of, to, low, typical, high in steps
        if (to, of) not in direct
    ]
    found = []
    for length in range(1, MOST_STEPS + 1):
        for path in product(steps, repeat=length):
            if path[0][0] != source or path[-1][1] != lift or any(a[1] != b[0] for a, b in pairwise(path)):
                continue
            low = typical = high = Fraction(1)
            for step in path:
                low, typical, high = low * step[2], typical * step[3], high * step[4]
            found.append((length, high / low, low, typical, high))
    return found


small_ratios = st.lists(
    st.tuples(
        st.sampled_from("abcde"),
        st.sampled_from("abcde"),
        st.integers(500, 900),
        st.integers(900, 1100),
        st.integers(1100, 1900),
    ).filter(lambda ratio: ratio[0] != ratio[1]),
    min_size=1,
    max_size=4,
    unique_by=lambda ratio: ratio[:2],
)


@given(ratios=small_ratios, dag=st.integers(2_000, 30_000))
def test_the_path_equals_the_best_of_all_paths(ratios, dag):
    catalogue = small(*ratios)
    for source, lift in product(catalogue.movements, repeat=2):
        if source == lift:
            continue
        paths = all_paths(catalogue, source, lift)
        answer = derive(lifter(Best(source, dag)), lift, catalogue)
        if not paths:
            assert answer is None
            continue
        steps, width = min(paths)[:2]
        best = [path for path in paths if path[:2] == (steps, width)]
        assert len(answer.path) == steps
        assert answer.typical_dag in {round(path[3] * dag) for path in best}
        assert answer.low_dag in {int(min(path[2], path[3] * (1 - HALF_WIDTH)) * dag) for path in best}


@given(source=st.sampled_from(LIFTS), lift=st.sampled_from(LIFTS), dag=st.integers(1_000, 40_000))
def test_ranges_hold_their_middle_and_grow_with_the_source(source, lift, dag):
    answer = derive(lifter(Best(source, dag)), lift, CATALOGUE)
    if answer is None or source == lift:
        assert answer is None
        return
    heavier = derive(lifter(Best(source, dag + 100)), lift, CATALOGUE)

    assert answer.low_dag <= answer.typical_dag * (1 - HALF_WIDTH) + 1
    assert answer.high_dag >= answer.typical_dag * (1 + HALF_WIDTH) - 1
    assert answer.low_dag <= heavier.low_dag
    assert answer.typical_dag <= heavier.typical_dag
    assert answer.high_dag <= heavier.high_dag


@pytest.mark.parametrize(
    "lift",
    ["snatch", "clean_and_jerk", "clean", "jerk", "front_squat", "back_squat", "push_press"],
)
@pytest.mark.parametrize("source", ["snatch", "clean_and_jerk", "back_squat"])
def test_the_main_lifts_can_be_derived_from_any_of_three(lift, source):
    answer = working_best(lifter(Best(source, 10_000)), lift, CATALOGUE)

    assert isinstance(answer, Known) if lift == source else answer.low_dag > 0
