"""The recovery segment (tests/authorities/mobility-and-return.md)."""

import math
from itertools import combinations

import highspy
import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.catalogue.reading import shipped
from meetward.fit.recovery import (
    HONEST,
    MOST_DRILLS,
    MOST_HELD_S,
    Item,
    Skipped,
    as_segment,
    items,
    pack,
    recovery,
    stretch_week,
    trained_regions,
)
from meetward.fit.regions import WORKING, held_muscles, needs, touches
from meetward.fit.restrictions import rules_out
from meetward.lifter.restrictions import Limits, MissingKit, Restriction
from meetward.lifter.screen import Screen, Sides
from tests.fit.test_between_sets import SESSIONS, screens
from tests.workload.small import line, percent, session, sets

CATALOGUE = shipped()
STIFF = Screen(knee_to_wall=Sides(8, 9.5), overhead_reach=False)
RECOVERY = [drill for drill in CATALOGUE.drills.values() if "recovery" in drill.uses]
REGIONS = sorted({region for drill in RECOVERY for region in drill.regions})

some_items = st.lists(
    st.builds(
        lambda name, region, tenths, points, rounds, held: Item(
            name, region, tenths, points, rounds, (("calf", held),) if held else ()
        ),
        st.sampled_from("abcdefgh"), st.sampled_from(("hip", "calf", "lats", "quads", "neck")),
        st.integers(1, 60), st.integers(0, 100), st.integers(1, 2), st.sampled_from((0, 90, 150, 200)),
    ),
    max_size=11,
).map(tuple)  # fmt: skip
regions = st.lists(st.sampled_from(REGIONS), max_size=4, unique=True)


def allowed(chosen, tenths, most) -> bool:
    held = {}
    for item in chosen:
        for muscle, seconds in item.held:
            held[muscle] = held.get(muscle, 0) + seconds
    return (
        len(chosen) <= most
        and len({item.region for item in chosen}) == len(chosen)
        and sum(item.tenths for item in chosen) <= tenths
        and all(seconds <= MOST_HELD_S for seconds in held.values())
    )


@given(some_items, st.integers(0, 150), st.integers(1, 4))
def test_the_choice_equals_that_of_trying_everything(found, tenths, most):
    chosen = pack(found, tenths, most)
    assert allowed(chosen, tenths, most)
    best = max(
        sum(item.score for item in each)
        for k in range(most + 1)
        for each in combinations(found, k)
        if allowed(each, tenths, most)
    )
    assert sum(item.score for item in chosen) == max(best, 0)
    assert chosen == pack(found, tenths, most)


def by_solver(found, tenths, most) -> int:
    """The best points by a general-purpose solver for whole-number programs: an independent formulation."""
    model = highspy.Highs()
    model.silent()
    model.setOptionValue("threads", 1)  # one pool of threads for all models of a run
    model.setOptionValue("mip_rel_gap", 0.0)
    take = [model.addBinary() for _ in found]
    model.addConstr(sum(item.tenths * x for item, x in zip(found, take, strict=True)) <= tenths)
    model.addConstr(sum(take) <= most)
    for region in {item.region for item in found}:
        model.addConstr(sum(x for item, x in zip(found, take, strict=True) if item.region == region) <= 1)
    for muscle in {muscle for item in found for muscle, _ in item.held}:
        held = [(dict(item.held).get(muscle, 0), x) for item, x in zip(found, take, strict=True)]
        model.addConstr(sum(seconds * x for seconds, x in held if seconds) <= MOST_HELD_S)
    model.maximize(sum(item.points * x for item, x in zip(found, take, strict=True)))
    return round(model.getInfo().objective_function_value)


def test_the_choice_over_the_whole_catalogue_equals_that_of_a_general_solver():
    screens_ = (None, STIFF, Screen(front_rack=False, behind_neck=False), Screen(deep_squat_hold=False))
    for n, screen in enumerate(screens_):
        trained = frozenset(WORKING["snatch"] if n % 2 else WORKING["press"])
        found = items(RECOVERY, needs(screen), trained, {"frog_stretch": Skipped("frog_stretch", 2)}, {})
        for minutes in (3, 8, 15, 30):
            ours = sum(item.points for item in pack(found, minutes * 10, MOST_DRILLS))
            assert ours == by_solver(found, minutes * 10, MOST_DRILLS), (screen, minutes)


@pytest.mark.parametrize("minutes", [3, 8, 15, 30])
def test_the_usual_minutes_give_a_segment_that_fits(minutes):
    plan = recovery(minutes, CATALOGUE, screen=STIFF, trained=WORKING["snatch"])
    assert 0 < plan.minutes <= minutes
    assert plan.minutes == pytest.approx(sum(drill.minutes for drill in plan.drills))
    assert len(plan.drills) <= MOST_DRILLS
    assert "Comfort, not repair" in plan.said[0]
    served = {r for chosen in plan.drills for r in CATALOGUE.drills[chosen.drill].regions}
    assert served & {"ankle", "calf"}
    assert served & {"shoulder", "thoracic spine", "lats"}


def test_one_drill_is_offered_rather_than_none():
    for minutes in (0, 0.1, 0.2):
        plan = recovery(minutes, CATALOGUE)
        assert len(plan.drills) == 1
        assert any("rather than none" in sentence for sentence in plan.said)


@settings(max_examples=60)
@given(st.floats(0, 120), screens, regions, regions, st.integers(1, 4))
def test_every_segment_keeps_the_rules(minutes, screen, trained, painful, most):
    limits = Limits((Restriction("no deep squat"),), (MissingKit(("roller", "wall")),))
    more = {"screen": screen, "trained": trained, "painful": painful, "limits": limits, "most": most}
    plan = recovery(minutes, CATALOGUE, **more)
    hurts = needs(screen).painful | set(painful)
    held = {}
    for chosen in plan.drills:
        drill = CATALOGUE.drills[chosen.drill]
        assert "recovery" in drill.uses
        assert not touches(drill, hurts)
        assert not rules_out(drill, limits, CATALOGUE)
        for muscle in held_muscles(drill):
            held[muscle] = held.get(muscle, 0) + drill.held_s * chosen.rounds
    assert all(seconds <= MOST_HELD_S for seconds in held.values())
    assert len(plan.drills) <= most
    assert plan.minutes <= minutes or len(plan.drills) == 1
    assert plan == recovery(minutes, CATALOGUE, **more)


@given(some_items, st.integers(0, 100), st.integers(1, 3))
def test_more_time_or_more_drills_is_never_worth_less(found, tenths, most):
    points = sum(item.score for item in pack(found, tenths, most))
    assert sum(item.score for item in pack(found, tenths + 20, most)) >= points
    assert sum(item.score for item in pack(found, tenths, most + 1)) >= points


def test_where_everything_hurts_nothing_is_offered_and_a_professional_is_named():
    plan = recovery(15, CATALOGUE, painful=REGIONS)
    assert plan.drills == ()
    assert any("physiotherapist or doctor" in sentence for sentence in plan.said)


def test_a_painful_shoulder_gets_nothing_overhead():
    for minutes in (3, 8, 15, 30):
        plan = recovery(minutes, CATALOGUE, painful=("shoulder",), trained=WORKING["jerk"])
        named = {chosen.drill for chosen in plan.drills}
        assert not named & {"child_pose_reach", "bar_hang", "bench_lat_stretch", "disc_pullover"}


def test_what_was_left_out_lately_comes_first_but_not_what_hurt():
    plain = recovery(2, CATALOGUE, most=1).drills[0].drill
    lately = recovery(2, CATALOGUE, most=1, skipped=[Skipped("neck_side_stretch", 5)])
    assert lately.drills[0].drill == "neck_side_stretch" != plain
    assert "left out lately" in lately.drills[0].why.said
    hurt = recovery(2, CATALOGUE, most=1, skipped=[Skipped("neck_side_stretch", 5, painful=True)])
    assert hurt.drills[0].drill != "neck_side_stretch"


def test_what_worked_today_counts():
    squats = session(line("back_squat", sets(5, 3, load=percent(80))))
    trained = trained_regions(squats, CATALOGUE)
    assert trained == set(WORKING["squat"])
    plan = recovery(8, CATALOGUE, trained=trained)
    for chosen in plan.drills:
        drill = CATALOGUE.drills[chosen.drill]
        assert trained & (set(drill.regions) | held_muscles(drill))
    assert trained_regions(SESSIONS[0], CATALOGUE) >= set(WORKING["snatch"])


# The checks of the authorities file.
def test_a_week_of_holding():
    assert stretch_week(3, 2, 60) == "6 min a week."
    assert stretch_week(5, 2, 60) == "10 min a week: at the plateau."
    assert "no added gain shown" in stretch_week(7, 2, 60)  # 14 min


def test_a_muscle_that_has_had_its_ten_minutes_this_week_is_not_held_again():
    muscles = {muscle for drill in RECOVERY for muscle in held_muscles(drill)}
    plan = recovery(30, CATALOGUE, screen=STIFF, held_this_week_s=dict.fromkeys(muscles, 600))
    assert all(CATALOGUE.drills[chosen.drill].held_s == 0 for chosen in plan.drills)


def test_what_is_said_of_each_kind_is_honest_and_has_a_source():
    assert {drill.kind for drill in RECOVERY} <= set(HONEST)
    for words, source in HONEST.values():
        assert source
        assert not any(claim in words for claim in ("repair", "detox", "prevents", "heals"))
    for chosen in recovery(30, CATALOGUE, screen=STIFF).drills:
        assert HONEST[CATALOGUE.drills[chosen.drill].kind][0] in chosen.why.said


@pytest.mark.parametrize("minutes", [-1, 121, math.nan, math.inf])
def test_minutes_that_are_none_are_told(minutes):
    with pytest.raises(ValueError, match="min for recovery"):
        recovery(minutes, CATALOGUE)


def test_more_than_four_drills_are_refused():
    with pytest.raises(ValueError, match="not done"):
        recovery(30, CATALOGUE, most=5)


def test_the_segment_can_stand_in_a_session():
    plan = recovery(8, CATALOGUE, screen=STIFF)
    segment = as_segment(plan)
    assert segment.kind == "recovery"
    assert [line.parts[0].movement for line in segment.lines] == [chosen.drill for chosen in plan.drills]
    assert [line.notes[0] for line in segment.lines] == [chosen.dose for chosen in plan.drills]


def test_the_segment_is_a_plain_value():
    plan = recovery(8, CATALOGUE, screen=STIFF)
    assert msgspec.json.decode(msgspec.json.encode(plan), type=type(plan)) == plan
