"""Kilos, pounds, percents and seconds: exact inside, words at the edge."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.units import (
    kg_to_dag,
    lb_to_dag,
    percent_to_permille,
    show_kg,
    show_lb,
    show_percent,
    show_seconds,
)

# 1 lb = 0.45359237 kg exactly: international yard and pound agreement of 1959 (from memory, a definition).
KG_PER_LB = Fraction("0.45359237")


@pytest.mark.parametrize(
    ("kg", "dag"),
    [
        (102.5, 10_250), ("102,5", 10_250), (" 102.50 ", 10_250), (Decimal("0.005"), 0),
        (Decimal("0.015"), 2), (Fraction(1, 3), 33), (82.49999999999999, 8_250), (0, 0), ("-2.5", -250),
    ],
)  # fmt: skip
def test_kilograms_as_whole_decagrams_a_half_to_the_even_one(kg, dag):
    assert kg_to_dag(kg) == dag


@pytest.mark.parametrize(
    "text", ["", "x", "1.2.3", "nan", "inf", "-inf", "1e999999999", "1e99999", "9" * 40, "12 kg"]
)
def test_what_is_no_number_is_named(text):
    for convert in (kg_to_dag, lb_to_dag, percent_to_permille):
        with pytest.raises(ValueError, match="is not a number"):
            convert(text)


@pytest.mark.parametrize(("lb", "dag"), [(45, 2_041), (100, 4_536), (225, 10_206), ("2,5", 113)])
def test_pounds_by_the_definition(lb, dag):
    # 45 lb is 20.41165665 kg, 100 lb 45.359237 kg, 225 lb 102.05828325 kg, 2.5 lb 1.133980925 kg.
    assert lb_to_dag(lb) == dag


@given(st.integers(0, 100_000))
def test_pounds_come_within_half_a_decagram_and_show_as_they_were(tenths):
    dag = lb_to_dag(Decimal(tenths) / 10)

    assert abs(Fraction(tenths, 10) * KG_PER_LB * 100 - dag) <= Fraction(1, 2)
    assert show_lb(dag) == f"{tenths / 10:.1f}".removesuffix(".0")


@given(st.integers(-1_000_000, 1_000_000))
def test_kilograms_show_without_loss_and_without_needless_zeros(dag):
    shown = show_kg(dag)

    assert Decimal(shown) * 100 == dag
    assert "." not in shown or not shown.endswith(("0", "."))


@given(st.integers(0, 5_000))
def test_percents_show_without_loss(permille):
    assert percent_to_permille(show_percent(permille)) == permille


def test_a_percent_finer_than_a_tenth_is_refused():
    assert (percent_to_permille("72,5"), show_percent(725), show_percent(700)) == (725, "72.5", "70")
    with pytest.raises(ValueError, match="finer than a tenth"):
        percent_to_permille("72.55")


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "0 s"), (59, "59 s"), (60, "1:00"), (90, "1:30"), (605, "10:05"), (3_600, "60:00")],
)
def test_seconds_show_as_on_a_clock_from_a_minute_up(seconds, shown):
    assert show_seconds(seconds) == shown
