"""Tonnage, average load, K-value and INOL against worked numbers (tests/authorities/load-accounting.md)."""

import csv
from pathlib import Path

import pytest

from meetward.workload.tonnage import average_load_kg, inol, k_value, tonnage_dag

# Each row: the article on counting training load, except where the row says otherwise.
THREE_SCHEMES = [(4 * 3, 4_000), (2 * 3, 5_500), (2 * 2, 6_500)]


def test_three_schemes_of_the_article_on_counting():
    tonnage = tonnage_dag(THREE_SCHEMES)

    assert tonnage == 107_000  # 1,070 kg, read
    assert average_load_kg(tonnage, 22) == pytest.approx(48.636, abs=0.0005)  # computed in the same file


@pytest.mark.parametrize(("mean_kg", "lifts"), [(80, 1250), (100, 1000)])
def test_a_hundred_tonnes_in_a_month(mean_kg, lifts):
    # Article on the criteria of loading in a lifter's multi-year training.
    assert average_load_kg(100_000 * 100, lifts) == mean_kg


def test_a_cycle_of_twenty_weeks():
    # Inputs: B. Takano, article on the snatch to clean and jerk ratio; quotients computed from them.
    average_kg = average_load_kg(910_945 * 100, 7_782)

    assert average_kg == pytest.approx(117.06, abs=0.005)
    assert k_value(average_kg, 290) == pytest.approx(40.36, abs=0.01)


def test_the_worked_week():
    # Constructed, counted by hand in load-accounting.md.
    path = Path(__file__).parents[1] / "authorities" / "worked-week.csv"
    rows = [
        (int(r["sets"]) * int(r["reps"]), round(float(r["kg"]) * 100))
        for r in csv.DictReader(path.open(encoding="utf-8"))
    ]
    tonnage = tonnage_dag(rows)
    average_kg = average_load_kg(tonnage, 179)

    assert tonnage == 1_637_000
    assert average_kg == pytest.approx(91.4525, abs=0.00005)
    assert k_value(average_kg, 225) == pytest.approx(40.646, abs=0.0005)


@pytest.mark.parametrize(
    ("lifts", "permille", "value"),
    [
        (25, 800, 1.25),  # a strength coach's page
        (16, 850, 1.066667),  # another page, which prints 1.06, cut off
        (9, 800, 0.45),  # computed from the formula, as are the rest
        (30, 700, 1.00),
        (25, 700, 25 / 30),
    ],
)
def test_inol(lifts, permille, value):
    assert inol(lifts, permille) == pytest.approx(value, abs=5e-7)


@pytest.mark.parametrize(
    ("rows", "value"),
    [
        ([(6, 600), (6, 700), (4, 750), (6, 800)], 0.81),  # Monday snatch of the worked week
        ([(6, 700), (12, 800)], 0.80),  # Monday front squat
        ([(10, 700), (12, 800), (4, 850)], 1.20),  # Friday back squat
        ([(4, 600), (2, 700), (1, 800), (2, 850), (2, 900)], 0.55),  # Saturday snatch
        ([(2, 600), (2, 760), (2, 850), (2, 900)], 0.4667),  # Saturday clean and jerk
    ],
)
def test_inol_of_the_worked_week(rows, value):
    assert sum(inol(*row) for row in rows) == pytest.approx(value, abs=0.00005)


@pytest.mark.parametrize("permille", [1000, 1050])
def test_inol_is_refused_from_a_hundred_percent_up(permille):
    with pytest.raises(ValueError, match="not defined"):
        inol(1, permille)


def test_nothing_lifted_has_no_average_and_no_total_no_k_value():
    assert average_load_kg(0, 0) is None
    with pytest.raises(ValueError, match="enter the best snatch"):
        k_value(90, 0)
