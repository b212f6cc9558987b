"""The warm-up ladder: equal to brute force where that is possible, and sensible where it is not."""

from functools import cache
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc, loadable, plan
from meetward.barbell.ladder import candidates, ladder
from meetward.barbell.rounding import load
from meetward.barbell.standard import club_kit, competition_kit, light_kit
from meetward.units import kg_to_dag
from tests.barbell.kits import kits, sides, subsets, total_dag

HALL, MEET = club_kit(), competition_kit()
FULL_KITS = {
    "hall, 20 kg bar": HALL,
    "hall, 15 kg bar": club_kit(1500),
    "meet, 20 kg bar": MEET,
    "meet, 15 kg bar": competition_kit(1500),
    "light, 10 kg bar": light_kit(),
    "light, 5 kg bar": light_kit(500),
}


def kilos(made):
    return [step.dag / 100 for step in made.steps]


# ---- brute force: the same definition, written down a second time, slowly and with its figures in place


def kept_inside(before, after):
    n = 0
    while n < min(len(before), len(after)) and before[n] == after[n]:
        n += 1
    return n


def may_be_a_step(kit, side, work_dag):
    """Whether a side is a candidate: 95 % at most, one disc too many at most, one light disc, none tiny."""
    shortest = shortest_sides(kit)
    return (
        total_dag(kit, side) * 1000 <= work_dag * 950
        and all(n <= shortest[sum(disc.dag for disc in side[:n])] + 1 for n in range(1, len(side) + 1))
        and sum(is_light(disc, work_dag) for disc in side) <= 1
        and not any(disc.dag < work_dag / 80 for disc in side)
    )


@cache
def shortest_sides(kit):
    """Weight of a side to its fewest discs."""
    shortest = {}
    for side in sides(kit):
        weight = sum(disc.dag for disc in side)
        shortest[weight] = min(len(side), shortest.get(weight, 99))
    return shortest


def steps_to_choose_from(kit, work_dag):
    found = [side for side in sides(kit) if side and may_be_a_step(kit, side, work_dag)]
    if not any(800 * work_dag <= 1000 * total_dag(kit, side) <= 950 * work_dag for side in [(), *found]):
        inside = [dag for dag in loadable(kit)[1:] if 800 * work_dag <= 1000 * dag <= 950 * work_dag]
        for percent in sorted({100 * dag // work_dag for dag in inside}):
            there = [plan(kit, dag).discs for dag in inside if 100 * dag // work_dag == percent]
            found.append(min(there, key=len))
    return sorted(found, key=lambda side: total_dag(kit, side))


def is_light(disc, work_dag):
    return disc.dag < work_dag / 20 and disc.dag < 1000


def cost(kit, path, work, intensity, second_lift):
    """What a ladder costs: ``path`` from the bar (or the start of a second lift) without the work set."""
    work_dag = total_dag(kit, work)
    broken = spent = 0
    if second_lift:
        share = 1000 * total_dag(kit, path[0]) // work_dag
        spent += (share - 500) ** 2 + 400 * len(path[0]) + 800
        spent += 600 * sum(is_light(disc, work_dag) for disc in path[0])
    for before, after in pairwise([*path, work]):
        low, high = total_dag(kit, before), total_dag(kit, after)
        wanted = max(
            (291 - 228 * (1000 * low // work_dag) // 1000) * 700 // intensity,
            1000 * kit.bar_dag // work_dag // 4,
        )
        longest_dag = min(work_dag * 350 * 700 // intensity // 1000, 6000)
        broken += max(0, -(-1000 * (high - low - longest_dag) // work_dag))
        stay = kept_inside(before, after)
        spent += (1000 * (high - low) // work_dag - wanted) ** 2
        spent += 400 * (len(after) - stay) + 1200 * (len(before) - stay)
        if after is not work:
            spent += 800 + 600 * sum(is_light(disc, work_dag) for disc in after)
    last_dag = total_dag(kit, path[-1])
    broken += max(0, -(-(800 * work_dag - 1000 * last_dag) // work_dag))
    broken += max(0, -(-(1000 * last_dag - 950 * work_dag) // work_dag))
    return broken, spent


def cheapest_by_brute_force(kit, work, intensity, second_lift, max_steps):
    choice = steps_to_choose_from(kit, total_dag(kit, work))
    costs = []
    for chosen in subsets(choice, max_steps):
        path = [*chosen] if second_lift else [(), *chosen]
        rises = all(total_dag(kit, a) < total_dag(kit, b) for a, b in pairwise(path))
        if rises and path:
            costs.append(cost(kit, path, work, intensity, second_lift))
        if rises and second_lift and len(path) < max_steps:
            costs.append(cost(kit, [(), *path], work, intensity, second_lift))
    return min(costs)


def costs_no_more_than_any_other(kit, work_dag, intensity, second_lift, max_steps):
    made = ladder(
        kit,
        work_dag,
        second_lift_of_the_day=second_lift,
        intensity_permille=intensity,
        max_steps=max_steps,
    )
    work = plan(kit, work_dag).discs
    path = [step.plan.discs for step in made.steps][0 if second_lift else 1 :]
    best = cheapest_by_brute_force(kit, work, intensity, second_lift, max_steps)
    return cost(kit, path, work, intensity, second_lift) == best


@given(
    kits(most_kinds=4, most_pairs=2),
    st.data(),
    st.sampled_from((350, 500, 620, 700)),
    st.booleans(),
    st.integers(1, 6),
)
@settings(max_examples=200)
def test_the_ladder_costs_what_the_cheapest_of_all_ladders_costs(
    kit, data, intensity, second_lift, max_steps
):
    assume(len(loadable(kit)) > 1)
    work_dag = data.draw(st.sampled_from(loadable(kit)[1:]))
    assume(len(steps_to_choose_from(kit, work_dag)) <= 10)

    assert costs_no_more_than_any_other(kit, work_dag, intensity, second_lift, max_steps)


@pytest.mark.parametrize(("most_choices", "max_steps"), [(16, 4), (45, 2)])
@pytest.mark.parametrize("second_lift", [False, True])
@pytest.mark.parametrize("name", [name for name in FULL_KITS if not name.startswith("meet")])
def test_with_full_kits_too_the_ladder_costs_what_the_cheapest_costs(
    name, second_lift, most_choices, max_steps
):
    kit, tried = FULL_KITS[name], 0
    for work_dag in loadable(kit)[1:40]:
        if len(steps_to_choose_from(kit, work_dag)) <= most_choices:
            assert costs_no_more_than_any_other(kit, work_dag, 700, second_lift, max_steps), work_dag
            tried += 1
    assert tried >= 5


@given(kits(most_kinds=4, most_pairs=2), st.data())
def test_the_steps_to_choose_from_are_those_of_the_definition(kit, data):
    work_dag = data.draw(st.sampled_from(loadable(kit)))
    assume(work_dag > kit.bar_dag)

    found = candidates(kit, plan(kit, work_dag))

    assert [step.total_dag for step in found] == sorted(step.total_dag for step in found)
    assert found[0].discs == ()
    assert sorted(map(repr, (step.discs for step in found[1:]))) == sorted(
        map(repr, steps_to_choose_from(kit, work_dag))
    )


# ---- customs: common practice, no source (tests/authorities/bar-and-discs.md)


def test_the_customs_example_to_80_kg():
    """20 x 5, 20 x 5, 40 x 3, 52 x 3, 64 x 2, 72 x 1; ours within 3 kg, for plainer discs."""
    made = ladder(MEET, 8000)

    assert [step.reps for step in made.steps] == [5, 5, 3, 3, 2, 1]
    for ours, custom in zip(kilos(made), [20, 20, 40, 52, 64, 72], strict=True):
        assert abs(ours - custom) <= 3


@pytest.mark.parametrize(("bar", "kg"), [(2000, 20), (1500, 15), (1000, 10), (500, 5)])
def test_when_the_first_work_set_is_the_bar_there_are_only_sets_with_the_bar(bar, kg):
    made = ladder(club_kit(bar), bar)

    assert kilos(made) == [kg, kg]
    assert "empty bar" in made.why.said
    assert ladder(club_kit(bar), bar, second_lift_of_the_day=True).steps == ()


def usual_weights(kit):
    """What a lifter may meet with this bar: everything loadable up to ten bars."""
    return [dag for dag in loadable(kit)[1:] if dag <= 10 * kit.bar_dag]


def discs_off(plans):
    """Discs a side that come off on the whole way."""
    return sum(before.changes_to(after)[0] for before, after in pairwise(plans))


@pytest.mark.parametrize("second_lift", [False, True])
@pytest.mark.parametrize("name", FULL_KITS)
def test_every_ladder_with_full_kits(name, second_lift):
    kit = FULL_KITS[name]
    weights = loadable(kit)
    for work_dag in usual_weights(kit):
        made = ladder(kit, work_dag, second_lift_of_the_day=second_lift)
        steps = [step.dag for step in made.steps]
        climb = steps if second_lift else steps[1:]

        assert second_lift or steps[:2] == [kit.bar_dag] * 2
        assert all(one < other for one, other in pairwise([*climb, work_dag]))
        assert set(steps) <= set(weights)
        assert len(climb) <= 7
        assert all(total_dag(kit, step.plan.discs) == step.dag for step in made.steps)
        assert all(step.plan.discs.count(disc) <= disc.pairs for step in made.steps for disc in kit.discs)
        jumps = [other - one for one, other in pairwise([*climb, work_dag])]
        assert max(jumps) <= 6000
        assert max(jumps) <= 0.35 * work_dag or max(jumps) == weights[1] - weights[0]
        if any(0.8 * work_dag <= dag <= 0.95 * work_dag for dag in weights):
            assert 0.8 * work_dag <= steps[-1] <= 0.95 * work_dag
        assert all(after <= before + 0.1 * work_dag for before, after in pairwise(jumps))
        for step in made.steps:
            custom = 3 if step.dag <= 0.725 * work_dag else 2 if step.dag <= 0.85 * work_dag else 1
            assert step.reps == (custom if step.plan.discs else 5)


@pytest.mark.parametrize("discs", [4, 5])
def test_no_jump_to_a_heavy_weight_is_longer_than_60_kg_where_the_discs_allow(discs):
    # One disc of 32 kg a side would be the plainest way on, but is a jump of 64 kg.
    kit = BarAndDiscs(2000, 0, (Disc(3200, 6), Disc(2000, 1), Disc(1000, 1)))
    work_dag = 2000 + 2 * discs * 3200
    steps = [step.dag for step in ladder(kit, work_dag).steps[1:]] + [work_dag]

    assert max(other - one for one, other in pairwise(steps)) <= 6000


@pytest.mark.parametrize("name", FULL_KITS)
def test_there_are_few_steps_when_the_work_weight_is_under_twice_the_bar(name):
    kit = FULL_KITS[name]
    for work_dag in (dag for dag in loadable(kit)[1:] if dag < 2 * kit.bar_dag):
        assert len(ladder(kit, work_dag).steps) - 2 <= 2, work_dag
    for work_dag in (dag for dag in usual_weights(kit) if dag >= 4 * kit.bar_dag):
        assert len(ladder(kit, work_dag).steps) - 2 >= 3, work_dag


@pytest.mark.parametrize("name", FULL_KITS)
def test_jumps_shrink_but_for_a_few_that_rounding_and_plain_discs_make_longer(name):
    kit, never_longer = FULL_KITS[name], 0
    for work_dag in usual_weights(kit):
        path = [step.dag for step in ladder(kit, work_dag).steps[1:]] + [work_dag]
        jumps = [other - one for one, other in pairwise(path)]
        never_longer += jumps == sorted(jumps, reverse=True)

    assert never_longer >= 0.7 * len(usual_weights(kit))


@pytest.mark.parametrize("name", ["hall, 20 kg bar", "hall, 15 kg bar", "meet, 20 kg bar", "meet, 15 kg bar"])
def test_not_half_as_many_discs_come_off_as_by_rounding_the_customs_percentages(name):
    """Rounded: the bar, then 50, 65, 80 and 90 % with the fewest discs each; over all usual weights."""
    kit, ours, rounded = FULL_KITS[name], 0, 0
    for work_dag in usual_weights(kit):
        custom = {load(kit, work_dag * share).dag for share in (500, 650, 800, 900)}
        rounded += discs_off([plan(kit, dag) for dag in sorted({kit.bar_dag, *custom, work_dag})])
        ours += discs_off([*(step.plan for step in ladder(kit, work_dag).steps), plan(kit, work_dag)])

    assert ours < rounded / 2


def test_discs_stay_on_where_the_fewest_discs_for_each_weight_would_strip_the_bar():
    kit, saved = light_kit(500), 0
    for work_dag in usual_weights(kit):
        ours = [*(step.plan for step in ladder(kit, work_dag).steps), plan(kit, work_dag)]
        saved += discs_off([plan(kit, step.total_dag) for step in ours]) - discs_off(ours)

    assert saved > 0


@pytest.mark.parametrize("kg", [30, 50, 80, 100, 140, 200])
def test_the_second_lift_of_the_day_starts_at_about_half(kg):
    made = ladder(HALL, kg_to_dag(kg), second_lift_of_the_day=True)

    assert abs(made.steps[0].dag / kg_to_dag(kg) - 0.5) <= 0.1 or made.steps[0].dag == 2000
    assert len(made.steps) < len(ladder(HALL, kg_to_dag(kg)).steps)


@given(st.sampled_from(loadable(HALL)[1:60]), st.integers(100, 1200), st.integers(100, 1200))
def test_lighter_work_never_takes_more_steps(work_dag, one, other):
    light, heavy = sorted((one, other))

    def steps(intensity):
        return len(ladder(HALL, work_dag, intensity_permille=intensity).steps)

    assert steps(light) <= steps(heavy) <= steps(None)


@given(st.sampled_from(loadable(HALL)[1:60]), st.integers(0, 8), st.booleans())
def test_no_more_steps_than_asked_for(work_dag, most, second_lift):
    made = ladder(HALL, work_dag, max_steps=most, second_lift_of_the_day=second_lift)

    assert sum(step.dag > HALL.bar_dag for step in made.steps) <= most


@given(st.sampled_from(loadable(MEET)[1:150]), st.integers(1, 12))
def test_no_step_above_the_bar_has_more_than_one_rep_more_than_the_work(work_dag, reps):
    made = ladder(MEET, work_dag, reps_of_work=reps)

    assert all(1 <= step.reps <= min(3, reps + 1) for step in made.steps if step.plan.discs)
    assert [step.dag for step in made.steps] == [step.dag for step in ladder(MEET, work_dag).steps]


@given(kits(most_kinds=6, most_pairs=4), st.data(), st.booleans())
@settings(max_examples=60)
def test_any_kit_has_a_ladder_to_anything_it_can_load(kit, data, second_lift):
    work_dag = data.draw(st.sampled_from(loadable(kit)))

    made = ladder(kit, work_dag, second_lift_of_the_day=second_lift)

    climb = [step.dag for step in made.steps][0 if second_lift else 1 :]
    assert all(one < other for one, other in pairwise([*climb, work_dag])) or work_dag == kit.bar_dag
    assert set(climb) <= set(loadable(kit))
    inside = [dag for dag in loadable(kit) if 800 * work_dag <= 1000 * dag <= 950 * work_dag]
    assert not inside or climb[-1] in inside


def test_a_gap_that_no_disc_fills_is_jumped():
    kit = BarAndDiscs(2000, 0, (Disc(2500, 3),))

    assert kilos(ladder(kit, 7000)) == [20, 20]
    assert kilos(ladder(kit, 17_000)) == [20, 20, 70, 120]


def test_a_rack_of_many_odd_discs_leaves_one_step_for_each_percent():
    pounds = (Disc(2041, 4), Disc(1588, 4), Disc(1134, 4), Disc(454, 4), Disc(227, 4), Disc(113, 4))
    kit = BarAndDiscs(2000, 0, (*HALL.discs, *pounds))
    work = plan(kit, 20_000)

    found = candidates(kit, work)
    made = ladder(kit, 20_000)

    percents = [step.total_dag // 200 for step in found]
    assert percents == sorted(set(percents))
    for step in found[1:]:
        same = [dag for dag in loadable(kit)[1:] if dag // 200 == step.total_dag // 200 and dag <= 19_000]
        assert len(step.discs) == min(len(plan(kit, dag).discs) for dag in same)
    assert 16_000 <= made.steps[-1].dag <= 19_000
    assert all(other - one <= 6000 for one, other in pairwise(step.dag for step in made.steps))


def test_the_why_names_weights_last_step_and_disc_changes():
    why = ladder(HALL, kg_to_dag(80)).why

    assert why.said.startswith("Up to 80 kg: the empty bar twice, 40,")
    assert why.said.endswith("% of the first work set.")
    assert dict(why.inputs)["first work set"] == "80 kg"
    plans = [step.plan for step in ladder(HALL, 8000).steps] + [plan(HALL, 8000)]
    changes = [before.changes_to(after) for before, after in pairwise(plans)]
    on, off = sum(on for _, on in changes), sum(off for off, _ in changes)
    assert dict(why.inputs)["disc changes a side on the way"] == f"{on} on, {off} off"
    assert why.source == "common practice, no source"


@pytest.mark.parametrize(
    ("dag", "words", "says"),
    [
        (0, {}, "do not make 0 kg; round the load first"),
        (-8000, {}, "do not make -80 kg"),
        (8010, {}, "do not make 80.1 kg"),
        (10**9, {}, "do not make 10000000 kg"),
        (8000, {"reps_of_work": 0}, "at least one rep"),
        (8000, {"max_steps": -1}, "at least one rep, and"),
        (8000, {"intensity_permille": 0}, "more than nothing"),
    ],
)
def test_a_ladder_to_what_cannot_be_is_refused_in_words(dag, words, says):
    with pytest.raises(ValueError, match=says):
        ladder(HALL, dag, **words)
