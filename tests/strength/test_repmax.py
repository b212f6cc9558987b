"""Singles from sets of more reps, against the equations as published (tests/authorities/repmax.md)."""

import csv
import math
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.reading import shipped
from meetward.strength.repmax import (
    EQUATIONS,
    FAMILIES,
    MOST_REPS,
    Estimate,
    Refusal,
    brzycki_dag,
    epley_dag,
    from_set,
)

AUTHORITIES = Path(__file__).parents[1] / "authorities"
BY_KEY = {name.lower().replace("'", ""): equation for name, equation in EQUATIONS.items()}
SQUAT = shipped().movements["back_squat"]

# A second writing of each equation, in floats straight from the table in the authority.
PLAIN = {
    "Epley": lambda w, r: w * (1 + r / 30),
    "Brzycki": lambda w, r: w * 36 / (37 - r),
    "Lander": lambda w, r: 100 * w / (101.3 - 2.67123 * r),
    "Lombardi": lambda w, r: w * r**0.10,
    "Mayhew": lambda w, r: 100 * w / (52.2 + 41.9 * math.exp(-0.055 * r)),
    "O'Conner": lambda w, r: w * (1 + 0.025 * r),
    "Wathan": lambda w, r: 100 * w / (48.8 + 53.8 * math.exp(-0.075 * r)),
}


def rows(name: str) -> list[dict[str, str]]:
    with (AUTHORITIES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# repmax-checks.csv: computed with the published equations to four decimals; ours is rounded to 10 g.
@pytest.mark.parametrize("row", rows("repmax-checks.csv"), ids=lambda r: f"{r['key']} {r['reps']}")
def test_published_equations_on_100_kg(row):
    load_dag, reps = int(row["load_kg"]) * 100, int(row["reps"])

    single = BY_KEY[row["key"]](load_dag, reps)

    if reps == 1:
        assert single == load_dag  # on purpose where the bare equation says more: a single is a single
    else:
        assert abs(Fraction(single, 100) - Fraction(row["one_rm_kg"])) <= Fraction("0.00505")


# repmax-chart.csv, the usual chart: its percents lie within what the seven equations say, to the rounding of
# the chart.
@pytest.mark.parametrize("row", rows("repmax-chart.csv"), ids=lambda r: r["reps_to_failure"])
def test_the_usual_chart_lies_within_the_spread_of_the_equations(row):
    reps, percent = int(row["reps_to_failure"]), int(row["percent_1rm"])
    if reps > MOST_REPS:
        with pytest.raises(ValueError, match="1 to 10 reps only"):
            epley_dag(10_000, reps)
        return
    estimate = from_set(10_000, reps, SQUAT)

    assert 100 * 10_000 / estimate.high_dag - 0.5 <= percent <= 100 * 10_000 / estimate.low_dag + 0.5


@pytest.mark.parametrize("name", EQUATIONS)
@given(load_dag=st.integers(1, 60_000), reps=st.integers(2, MOST_REPS))
def test_each_equation_equals_a_second_writing_of_it(name, load_dag, reps):
    assert abs(EQUATIONS[name](load_dag, reps) - PLAIN[name](load_dag, reps)) <= 0.5 + 1e-6


@pytest.mark.parametrize("name", EQUATIONS)
@given(load_dag=st.integers(1, 60_000))
def test_more_reps_with_one_load_never_say_less(name, load_dag):
    singles = [EQUATIONS[name](load_dag, reps) for reps in range(1, MOST_REPS + 1)]

    assert singles == sorted(singles)


@pytest.mark.parametrize("name", EQUATIONS)
@given(load_dag=st.integers(1, 59_000), more_dag=st.integers(0, 1_000), reps=st.integers(1, MOST_REPS))
def test_more_load_for_equal_reps_never_says_less(name, load_dag, more_dag, reps):
    assert EQUATIONS[name](load_dag, reps) <= EQUATIONS[name](load_dag + more_dag, reps)


def test_an_exact_half_goes_to_the_even_one():
    assert epley_dag(15, 6) == 18  # exactly 18
    assert epley_dag(5, 3) == 6  # exactly 5.5
    assert brzycki_dag(1, 10) == 1  # 1.333


@pytest.mark.parametrize("equation", EQUATIONS.values())
@pytest.mark.parametrize(("load_dag", "reps"), [(0, 3), (-100, 3), (100, 0), (100, -1), (100, 11), (100, 37)])
def test_what_no_equation_is_for_is_refused(equation, load_dag, reps):
    with pytest.raises(ValueError, match=r"reps only|was lifted"):
        equation(load_dag, reps)


def test_an_estimate_says_its_range_and_where_it_comes_from():
    estimate = from_set(10_000, 5, SQUAT)

    # Of the seven in repmax-checks.csv for 5 reps: least 112.5 (Brzycki, O'Conner), most 119.0107 (Mayhew).
    assert (estimate.low_dag, estimate.high_dag) == (11_250, 11_901)
    assert estimate.typical_dag == 11_658  # Wathan, 116.5825, the fourth of seven
    assert (
        str(estimate.why)
        == "100 kg × 5 on the back squat points to about 117 kg once (112 to 119 kg by seven equations)."
    )
    assert dict(estimate.by)["Epley"] == 11_667


@given(load_dag=st.integers(1, 60_000), reps=st.integers(1, MOST_REPS))
def test_the_typical_single_lies_in_the_range(load_dag, reps):
    estimate = from_set(load_dag, reps, SQUAT)

    assert load_dag <= estimate.low_dag <= estimate.typical_dag <= estimate.high_dag
    assert estimate.low_dag == load_dag == estimate.high_dag if reps == 1 else True


@pytest.mark.parametrize(
    "lift", ["snatch", "clean_and_jerk", "clean", "jerk", "power_snatch", "overhead_squat"]
)
def test_no_estimate_is_made_on_the_classical_lifts(lift):
    answer = from_set(8_000, 3, shipped().movements[lift])

    assert isinstance(answer, Refusal)
    assert "at least 80 kg" in answer.said


def test_a_single_of_a_classical_lift_is_the_best():
    assert from_set(8_000, 1, shipped().movements["snatch"]).typical_dag == 8_000


def test_too_many_reps_are_refused_with_a_reason():
    assert "more than 10 reps" in from_set(8_000, 15, SQUAT).said


def test_every_movement_is_answered():
    for movement in shipped().movements.values():
        assert isinstance(from_set(8_000, 5, movement), Estimate) is (movement.family in FAMILIES)
