"""Bars and discs in words. How people list discs is common practice, no source; weights and colours of the
standard discs: tests/authorities/bar-and-discs.md."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs
from meetward.barbell.standard import CLUB_DISCS, COMPETITION_DISCS, LIGHT_DISCS, club_kit
from meetward.lifter.cell import is_blank
from meetward.lifter.kit import (
    HOME_DISCS,
    STOCK_DISCS,
    bar_for,
    disc,
    kit_of,
    read_bar,
    read_collars,
    read_discs,
    show_collars,
    show_discs,
    show_kit,
)
from meetward.units import lb_to_dag, show_kg


def pairs(cell, **more) -> dict[int, int] | None:
    """Pairs by weight [10 g]."""
    discs = read_discs(cell, **more).discs
    return None if discs is None else {one.dag: one.pairs for one in discs}


@pytest.mark.parametrize(
    ("cell", "dag"),
    [("20", 2_000), (20, 2_000), (15.0, 1_500), ("15 kg", 1_500), ("15,0", 1_500), ("20kg bar", 2_000),
    ("women's", 1_500), ("W", 1_500),
     ("Men", 2_000), ("10", 1_000), ("5", 500), ("45 lb", lb_to_dag(45)), ("33 lbs", lb_to_dag(33)), ("",
     None), ("?", None)],
)  # fmt: skip
def test_a_bar(cell, dag):
    assert read_bar(cell) == (dag, ())


def test_a_bar_too_heavy_in_kilos_is_in_pounds_and_told():
    dag, doubts = read_bar("45")

    assert dag == 2_041  # 45 lb = 20.41165665 kg
    assert [d.kind for d in doubts] == ["bar in pounds"]
    assert read_bar("45", unit="lb") == (2_041, ())
    assert read_bar("45", unit="kg") == (4_500, ())


@pytest.mark.parametrize("cell", ["long", "0", "900", "20/15", "x" * 300])
def test_what_is_no_bar_is_told(cell):
    dag, doubts = read_bar(cell)

    assert dag is None
    assert [d.severity for d in doubts] == ["stop"]


# Bars of the competition rules: tests/authorities/bar-and-discs.md.
def test_the_bar_of_a_category():
    assert (bar_for("men"), bar_for("women"), bar_for(None)) == (2_000, 1_500, 2_000)


@pytest.mark.parametrize(
    ("cell", "discs"),
    [("club", CLUB_DISCS), ("Club discs", CLUB_DISCS), ("full set", COMPETITION_DISCS), ("competition",
    COMPETITION_DISCS), ("home", HOME_DISCS),
     ("youth", LIGHT_DISCS), ("none", ()), ("bar only", ()), ("home: 2x20 2x10 2x5 2x2.5 2x1.25",
     HOME_DISCS)],
)  # fmt: skip
def test_sets_that_have_a_name(cell, discs):
    assert read_discs(cell) == (discs, ())


def test_a_set_without_some_discs():
    assert pairs("club without 1.25") == {one.dag: one.pairs for one in CLUB_DISCS if one.dag != 125}


@pytest.mark.parametrize(
    ("cell", "expected"),
    [
        ("2x20 2x10", {2_000: 1, 1_000: 1}), ("4 x 25kg, 2 x 20kg", {2_500: 2, 2_000: 1}), ("25kg x 4",
        {2_500: 2}),
        ("2x20 2x2,5 2x1,25", {2_000: 1, 250: 1, 125: 1}), ("2 × 20; 2 × 10", {2_000: 1, 1_000: 1}),
        ("20 15 10 5", {2_000: 1, 1_500: 1, 1_000: 1, 500: 1}), ("20, 15, 2,5, 1,25", {2_000: 1, 1_500: 1,
        250: 1, 125: 1}),
        ("20,15,10", {2_000: 1, 1_500: 1, 1_000: 1}), ("2 pairs of 20, 1 pair of 10", {2_000: 2, 1_000: 1}),
        ("20s 10s 5s", {2_000: 1, 1_000: 1, 500: 1}), ("1x20 1x10", {2_000: 1, 1_000: 1}), ("2x20 2x20",
        {2_000: 2}),
        ("25x2 20x2 15x2", {2_500: 1, 2_000: 1, 1_500: 1}), ("pair of 20 kg", {2_000: 1}),
        ("45 35 2.5 lb", {lb_to_dag(45): 1, lb_to_dag(35): 1, lb_to_dag("2.5"): 1}),
    ],
)  # fmt: skip
def test_lists_of_discs(cell, expected):
    assert pairs(cell) == expected
    assert read_discs(cell).doubts == ()


def test_a_column_in_pounds():
    assert pairs("45 25", pounds=True) == {lb_to_dag(45): 1, lb_to_dag(25): 1}


@pytest.mark.parametrize(
    ("cell", "expected", "kind"),
    [("10x2", {1_000: 1}, "discs read two ways"), ("pairs 20,15,10x2,5", {2_000: 1, 1_500: 1, 1_000: 2,
    500: 1}, "discs read two ways"),
     ("3x20", {2_000: 1}, "odd disc"), ("2x20 and some chains", {2_000: 1}, "discs")],
)  # fmt: skip
def test_doubtful_lists_are_taken_and_told(cell, expected, kind):
    assert pairs(cell) == expected
    assert [d.kind for d in read_discs(cell).doubts] == [kind]


@pytest.mark.parametrize("cell", ["garage stuff", "x" * 700, "99999x20", "0x20"])
def test_what_is_no_list_is_told(cell):
    read = read_discs(cell)

    assert read.discs is None
    assert [d.severity for d in read.doubts] == ["stop"]


@pytest.mark.parametrize(
    ("cell", "dag"),
    [("yes", 500), ("no", 0), (True, 500), (False, 0), ("2.5", 500), ("5 kg", 500), ("2,5", 500), ("clips",
    0), ("0.5", 50), ("", None)],
)  # fmt: skip
def test_collars(cell, dag):
    assert read_collars(cell) == (dag, ())


def test_what_says_nothing_about_collars_is_told():
    assert [d.kind for d in read_collars("sometimes")[1]] == ["collars"]


weights = st.one_of(
    st.sampled_from([2_500, 2_000, 1_000, 500, 250, 125, 50, lb_to_dag(45)]), st.integers(1, 10_000)
)
some_discs = st.lists(
    st.builds(disc, weights, st.integers(1, 99), large=st.sampled_from([None, True, False])),
    max_size=12,
    unique_by=lambda one: (one.dag, one.large),
)


@given(discs=some_discs)
def test_every_list_that_we_show_is_read_again(discs):
    ordered = kit_of(2_000, tuple(discs)).discs

    assert read_discs(show_discs(ordered)) == (ordered, ())


@pytest.mark.parametrize("discs", STOCK_DISCS.values(), ids=STOCK_DISCS)
def test_every_stock_set_has_its_name(discs):
    assert read_discs(show_discs(discs)) == (discs, ())


@given(st.integers(0, 500).map(lambda half: 2 * half))
def test_collars_that_we_show_are_read_again(dag):
    assert read_collars(show_collars(dag)) == (dag, ())


@given(st.integers(100, 5_000))
def test_a_bar_that_we_show_is_read_again(dag):
    assert read_bar(f"{show_kg(dag)} kg") == (dag, ())


@given(st.text(max_size=60), st.booleans())
def test_any_text_gives_discs_or_a_reason_or_is_blank(text, pounds):
    read = read_discs(text, pounds=pounds)

    assert read.discs is not None or read.doubts or is_blank(text)


@pytest.mark.parametrize(
    ("kit", "said"),
    [(club_kit(1_500), "15 kg bar, club discs"), (BarAndDiscs(2_000), "20 kg bar, no discs"),
     (kit_of(2_000, (disc(2_000), disc(125))), "20 kg bar, 2x20kg 2x1.25kg"),
     (BarAndDiscs(2_000, 500, COMPETITION_DISCS), "20 kg bar, competition discs, collars 5 kg")],
)  # fmt: skip
def test_a_kit_on_one_line(kit, said):
    assert show_kit(kit) == said
