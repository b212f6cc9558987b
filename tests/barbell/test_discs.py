"""What the bar and the discs on hand make, and the fewest discs for it."""

import csv
from pathlib import Path

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.barbell.discs import HEAVIEST_DAG, BarAndDiscs, Disc, SidePlan, fewest_discs, loadable, plan
from meetward.barbell.standard import (
    COMPETITION_COLLARS_DAG,
    COMPETITION_DISCS,
    MENS_BAR_DAG,
    WOMENS_BAR_DAG,
    club_kit,
    competition_kit,
    light_kit,
)
from meetward.units import kg_to_dag
from tests.barbell.kits import kits, sides, total_dag, totals_dag

AUTHORITIES = Path(__file__).parents[1] / "authorities"


def rows(name):
    with (AUTHORITIES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


# tests/authorities/loading-checks.csv: computed from the rule book's bar, collars and discs.
@pytest.mark.parametrize("row", rows("loading-checks.csv"), ids=lambda row: f"{row['total_kg']} kg")
def test_the_plan_of_the_loading_checks(row):
    bar_dag = kg_to_dag(row["bar_kg"])
    assert kg_to_dag(row["collars_kg_total"]) == COMPETITION_COLLARS_DAG

    found = plan(competition_kit(bar_dag), kg_to_dag(row["total_kg"]))

    assert found is not None
    assert list(found.discs_dag) == [kg_to_dag(kg) for kg in row["per_side_inside_to_outside"].split()]


# tests/authorities/meet-discs.csv: international rule book, section 3.3, as two pages restate it.
def test_the_competition_discs_of_the_rule_book():
    ours = [(d.dag, d.colour, "large" if d.large else "small") for d in COMPETITION_DISCS]

    assert ours == [(kg_to_dag(r["kg"]), r["colour"], r["kind"]) for r in rows("meet-discs.csv")]


# tests/authorities/bar-and-discs.md: bars of 20 and 15 kg, two sources.
def test_the_bars_and_collars_of_the_rule_book():
    assert (MENS_BAR_DAG, WOMENS_BAR_DAG, COMPETITION_COLLARS_DAG) == (2000, 1500, 500)


def test_a_meet_bar_goes_up_in_single_kilos_from_the_lightest_discs():
    men, women = loadable(competition_kit(2000)), loadable(competition_kit(1500))

    assert men[:3] == (2000, 2600, 2700)
    assert women[:3] == (1500, 2100, 2200)
    assert set(range(2600, 26_001, 100)) <= set(men)


def test_a_club_bar_goes_up_in_steps_of_two_and_a_half_kilos():
    weights = loadable(club_kit())

    assert set(range(2000, 20_001, 250)) <= set(weights)
    assert not [dag for dag in weights if dag % 250]


def test_a_technique_bar_goes_up_in_single_kilos():
    assert set(range(1000, 4_001, 100)) <= set(loadable(light_kit()))


@given(kits())
def test_loadable_is_what_trying_every_side_gives(kit):
    assert list(loadable(kit)) == totals_dag(kit)


@given(kits(), st.data())
def test_the_plan_has_the_fewest_discs_and_of_those_the_heaviest_inside(kit, data):
    wanted_dag = data.draw(st.sampled_from(totals_dag(kit)))
    # Sides come in kit order, so comparing kinds from the inside is comparing their places in the kit.
    place = {disc: at for at, disc in enumerate(kit.discs)}
    best = min(
        (side for side in sides(kit) if total_dag(kit, side) == wanted_dag),
        key=lambda side: (len(side), [place[disc] for disc in side]),
    )

    found = plan(kit, wanted_dag)

    assert found == SidePlan(wanted_dag, best, kit.collars_dag if best else 0)


@given(kits(), st.integers(-100, 30_000))
def test_a_weight_that_no_side_makes_has_no_plan(kit, dag):
    assert (plan(kit, dag) is None) == (dag not in totals_dag(kit))


@given(kits(), st.integers(-100, 12_000))
def test_the_number_of_discs_is_that_of_the_shortest_side(kit, side_dag):
    lengths = [len(side) for side in sides(kit) if sum(disc.dag for disc in side) == side_dag]

    assert fewest_discs(kit, side_dag) == min(lengths, default=None)


def greedy(kit, side_dag):
    """The heaviest disc that fits, again and again: what ``plan`` must not be."""
    side = []
    for disc in kit.discs:
        take = min(disc.pairs, side_dag // disc.dag)
        side += [disc.dag] * take
        side_dag -= take * disc.dag
    return side if not side_dag else None


def test_taking_the_heaviest_disc_first_would_fail_where_discs_are_missing():
    stuck = BarAndDiscs(2000, 0, tuple(Disc(dag) for dag in (2500, 2000, 1500, 500)))
    wasteful = BarAndDiscs(2000, 0, (Disc(2500), Disc(1500, 2), Disc(250, 2)))

    assert greedy(stuck, 3500) is None
    assert plan(stuck, 9000).discs_dag == (2000, 1500)
    assert greedy(wasteful, 3000) == [2500, 250, 250]
    assert plan(wasteful, 8000).discs_dag == (1500, 1500)


# Computed: where every disc is there, the heaviest-first way is right, so it serves as the reference.
def test_with_a_full_set_the_plan_is_the_heaviest_first_one():
    kit = competition_kit()

    for dag in range(2600, 30_001, 100):
        assert list(plan(kit, dag).discs_dag) == greedy(kit, (dag - 2500) // 2)


@given(kits(), st.data())
def test_changing_discs_takes_off_what_sits_outside_the_first_difference(kit, data):
    weights = st.sampled_from(totals_dag(kit))
    before, after = plan(kit, data.draw(weights)), plan(kit, data.draw(weights))
    off, on = before.changes_to(after)

    kept = len(before.discs) - off
    assert before.discs[:kept] == after.discs[:kept]
    assert len(after.discs) == kept + on
    assert not off or not on or before.discs[kept] != after.discs[kept]
    assert after.changes_to(before) == (on, off)


def test_large_discs_of_a_weight_go_on_before_small_ones():
    kit = BarAndDiscs(1000, 0, (Disc(500), Disc(500, large=True), Disc(250)))

    assert [d.large for d in kit.discs] == [True, False, False]
    assert plan(kit, 2000).discs == (Disc(500, large=True),)
    assert plan(kit, 3000).discs == (Disc(500, large=True), Disc(500))


def test_a_bar_without_discs_makes_its_own_weight_only():
    kit = BarAndDiscs(2000, 500)

    assert loadable(kit) == (2000,)
    assert plan(kit, 2000) == SidePlan(2000)
    assert plan(kit, 2500) is None


def test_a_large_inventory_is_cut_at_the_heaviest_weight_looked_at():
    weights = loadable(BarAndDiscs(2000, 500, (Disc(2500, 99), Disc(50, 99))))

    assert weights[-1] == HEAVIEST_DAG


@given(kits(most_kinds=12, most_pairs=4), st.randoms(use_true_random=False))
@settings(max_examples=40)
def test_a_loadable_weight_has_a_plan_that_adds_up_within_the_inventory(kit, chance):
    for dag in chance.sample(loadable(kit), min(50, len(loadable(kit)))):
        found = plan(kit, dag)
        assert total_dag(kit, found.discs) == dag == found.total_dag
        assert all(found.discs.count(disc) <= disc.pairs for disc in kit.discs)
        assert list(found.discs) == sorted(found.discs, key=kit.discs.index)


@given(kits())
def test_a_kit_survives_json(kit):
    assert msgspec.json.decode(msgspec.json.encode(kit), type=BarAndDiscs) == kit


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Disc(0), "disc's weight is 0 kg; it has to lie from 0.01 to 100 kg"),
        (lambda: Disc(-2500), "disc's weight is -25 kg"),
        (lambda: Disc(1_000_000), "disc's weight is 10000 kg"),
        (lambda: Disc(12.5), "12.5; give it as a whole number of 10 g"),
        (lambda: Disc(True), "True; give it as a whole number of 10 g"),
        (lambda: Disc(2500, 0), "0 pairs of 25 kg discs"),
        (lambda: Disc(2500, -1), "-1 pairs of 25 kg discs"),
        (lambda: Disc(2500, 1.5), "three discs are one pair"),
        (lambda: Disc(2500, 1000), "from 1 to 99"),
        (lambda: BarAndDiscs(0), "bar's weight is 0 kg; it has to lie from 1 to 50 kg"),
        (lambda: BarAndDiscs(-2000), "bar's weight is -20 kg"),
        (lambda: BarAndDiscs(200_000), "bar's weight is 2000 kg"),
        (lambda: BarAndDiscs(2000, -500), "both collars is -5 kg"),
        (lambda: BarAndDiscs(2000, 251), "cannot weigh 2.51 kg together"),
        (lambda: BarAndDiscs(2000, 0, (Disc(500), Disc(500, 2))), "5 kg are listed twice"),
        (lambda: BarAndDiscs(2000, 0, tuple(Disc(n) for n in range(1, 40))), "39 kinds of disc"),
    ],
)
def test_bar_and_discs_that_cannot_be_are_refused_in_words(make, says):
    with pytest.raises(ValueError, match=r"kg|10 g|kinds") as refused:
        make()

    assert says in str(refused.value)


def test_a_kit_with_an_unknown_word_is_refused():
    with pytest.raises(msgspec.ValidationError, match="discz"):
        msgspec.json.decode(b'{"bar_dag": 2000, "discz": []}', type=BarAndDiscs)
