"""Weights as people write them in a cell. The spellings are common practice, no source."""

from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.lifter.weights import HEAVIEST_DAG, LIGHTEST_DAG, read_weight
from meetward.units import lb_to_dag, show_kg
from tests.lifter.sheets import TODAY

OCTOBER = date(2026, 10, 1)


@pytest.mark.parametrize(
    ("cell", "dag"),
    [
        (82.5, 8_250), (82, 8_200), (82.49999999999999, 8_250), ("82,5", 8_250), ("82.5", 8_250), (" 82.5 ",
        8_250),
        ("82.5kg", 8_250), ("82,5 KG", 8_250), ("82.5 kgs", 8_250), ("95k", 9_500), ("95 kilos", 9_500),
        ("82½", 8_250),
        ("PR 95", 9_500), ("95 max", 9_500), ("95*", 9_500), ("95 ✓", 9_500), ("82.5.", 8_250),
        ("95\u00a0kg", 9_500),
        ("100 kg / 220 lb", 10_000), ("100kg (220lb)", 10_000), ("220 lb / 100 kg", 10_000),
    ],
)  # fmt: skip
def test_a_weight_in_kilos(cell, dag):
    read = read_weight(cell, TODAY)

    assert (read.dag, read.doubts) == (dag, ())


# 1 lb = 0.45359237 kg exactly (international yard and pound agreement, 1959): 180 lb = 81.6466266 kg.
@pytest.mark.parametrize("cell", ["180lb", "180 lbs", "180#", "180 #", "180 pounds", "180 LB", "180lb."])
def test_a_weight_in_pounds(cell):
    read = read_weight(cell, TODAY)

    assert (read.dag, read.unit) == (8_165, "lb")


def test_the_unit_of_the_cell_goes_before_the_one_of_the_column():
    assert read_weight("100", TODAY, unit="lb").dag == lb_to_dag(100)
    assert read_weight("100 kg", TODAY, unit="lb").dag == 10_000


@pytest.mark.parametrize(
    "cell", [None, "", " ", "-", "–", "n/a", "N/A", "?", "tbc", "none", "x", "not tested", "/"]
)
def test_signs_for_nothing(cell):
    assert read_weight(cell, TODAY) == read_weight(None, TODAY)
    assert read_weight(cell, TODAY).dag is None


@pytest.mark.parametrize(
    ("cell", "dag", "reps"),
    [("100x3", 10_000, 3), ("100 x 3", 10_000, 3), ("100×3", 10_000, 3), ("100 kg x 3 reps", 10_000, 3),
    ("100 for 3", 10_000, 3),
     ("100 3RM", 10_000, 3), ("5RM 120", 12_000, 5), ("82,5 x 2", 8_250, 2), ("200 lbs x 5", 9_072, 5)],
)  # fmt: skip
def test_a_rep_max(cell, dag, reps):
    read = read_weight(cell, TODAY)

    assert (read.dag, read.reps, read.doubts) == (dag, reps, ())


def test_reps_in_front_are_taken_and_said():
    read = read_weight("3x100", TODAY)

    assert (read.dag, read.reps, [d.kind for d in read.doubts]) == (10_000, 3, ["reps first"])


@pytest.mark.parametrize(
    ("cell", "on", "note"),
    [
        ("95 (oct)", OCTOBER, "day and year not given"), ("95 (Oct 2026)", OCTOBER, "day not given"),
        ("95 dec", date(2025, 12, 1), "day and year not given"), ("95 (13/10/26)", date(2026, 10, 13), ""),
        ("95 2026-10-03", date(2026, 10, 3), ""), ("95 on 3 October 2026", date(2026, 10, 3), "on"),
        ("95 (2025)", date(2025, 1, 1), "only the year is given"), ("95 12.10.2025", date(2025, 10, 12), ""),
        ("15 Dec", date(2025, 12, 1), "day and year not given"),
    ],
)  # fmt: skip
def test_a_day_beside_the_weight(cell, on, note):
    read = read_weight(cell, TODAY)

    assert (read.on, read.note) == (on, note)
    assert read.dag in (9_500, 1_500)


@pytest.mark.parametrize(
    ("cell", "kind"),
    [("95 est", "estimated"), ("E95", "estimated"), ("95e", "estimated"), ("e1RM 95", "estimated"),
    ("95 (comp)", "tested"),
     ("95 meet", "tested"), ("95", None)],
)  # fmt: skip
def test_how_it_is_known(cell, kind):
    read = read_weight(cell, TODAY)

    assert (read.dag, read.kind) == (9_500, kind)


def test_other_words_are_kept_as_a_note():
    assert read_weight("95 Left knee sore", TODAY).note == "Left knee sore"


@pytest.mark.parametrize("cell", ["~95", "95?", "about 95", "95 approx"])
def test_an_unsure_weight_is_taken_and_said(cell):
    read = read_weight(cell, TODAY)

    assert (read.dag, [d.kind for d in read.doubts]) == (9_500, ["unsure"])


@pytest.mark.parametrize(
    ("cell", "kind"),
    [
        ("0", "zero"), (0, "zero"), (0.0, "zero"), (-80, "negative weight"), ("-80", "negative weight"),
        ("1000", "impossible weight"),
        (1e300, "impossible weight"), ("1,000", "impossible weight"), (1e-9, "impossible weight"), ("80-85",
        "range"), ("80 to 85", "range"),
        ("95, 97.5", "two weights"), ("225 lb (95)", "two weights"), ("100 kg / 300 lb", "two weights"),
        ("95/3", "two weights"),
        ("BW+20", "added weight"), ("+20", "added weight"), ("85 miss", "missed lift"), ("failed 85",
        "missed lift"),
        ("75%", "relative weight"), ("2xBW", "relative weight"), ("1.5 x bodyweight", "relative weight"),
        ("11 st", "unit"), ("16st", "unit"),
        ("eighty", "not a weight"), (True, "not a weight"), (date(2026, 10, 5), "not a weight"), (time(9,
        5), "not a weight"),
        (timedelta(days=85), "not a weight"), (datetime.fromisoformat("2026-01-01T03:00"), "not a weight"),
        (float("nan"),
        "not a weight"),
        (float("inf"), "not a weight"), ("9" * 500, "not a weight"), ("100x3x2", "sets"), ("100 x 21",
        "reps"), ("100x0", "reps"),
        ("#N/A", "formula error"), ("#REF!", "formula error"), ("#DIV/0!", "formula error"), ("Err:502",
        "formula error"),
        ("#####", "formula error"),
    ],
)  # fmt: skip
def test_what_is_no_weight_is_told_with_a_repair(cell, kind):
    read = read_weight(cell, TODAY)

    assert read.dag is None
    (doubt,) = read.doubts
    assert doubt.kind == kind
    assert doubt.message.endswith(".")
    assert doubt.repair.endswith(".")


@given(
    dag=st.integers(LIGHTEST_DAG, HEAVIEST_DAG), comma=st.booleans(), unit=st.sampled_from(["", "kg", " kg"])
)
def test_every_weight_that_we_show_is_read_again(dag, comma, unit):
    shown = show_kg(dag)

    assert read_weight((shown.replace(".", ",") if comma else shown) + unit, TODAY).dag == dag
    assert read_weight(dag / 100, TODAY).dag == dag


@given(
    dag=st.integers(LIGHTEST_DAG, HEAVIEST_DAG), reps=st.integers(1, 20), on=st.dates(date(2000, 1, 1),
    TODAY), est=st.booleans()
)  # fmt: skip
def test_pieces_in_a_cell_keep_apart(dag, reps, on, est):
    read = read_weight(f"{show_kg(dag)} kg x {reps} ({on.isoformat()}){' est' if est else ''}", TODAY)

    assert (read.dag, read.reps, read.on, read.kind) == (dag, reps, on, "estimated" if est else None)


@given(st.text(max_size=80))
def test_any_text_gives_a_weight_or_a_reason_or_is_blank(text):
    read = read_weight(text, TODAY)

    if read.dag is not None:
        assert LIGHTEST_DAG <= read.dag <= HEAVIEST_DAG
        assert read.reps is None or 1 <= read.reps <= 20
    else:
        assert read.doubts or read == read_weight(None, TODAY)
