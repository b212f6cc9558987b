"""Between-set work from the mobility screen (tests/authorities/mobility-and-return.md)."""

from itertools import combinations

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Dose
from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Between, Span
from meetward.demo.club import cycle_text
from meetward.fit.between_sets import (
    NEVER_ABOVE,
    RULES,
    Spot,
    between_sets,
    choose,
    dose_s,
    spots,
    with_between,
    worth,
)
from meetward.fit.minutes import line_sets, session_minutes
from meetward.fit.regions import WORKING, held_muscles, needs, static_verdict, touches
from meetward.fit.static_holds import static_problems, static_seconds
from meetward.lifter.restrictions import Limits, MissingKit, Restriction
from meetward.lifter.screen import TESTS, Screen, Sides
from meetward.notation import read
from meetward.problem import Place
from tests.workload.small import line, percent, session, sets

CATALOGUE = shipped()
STIFF = Screen(knee_to_wall=Sides(8, 9.5), overhead_reach=False, thoracic_rotation=Sides(40, 55))
SESSIONS = tuple(each for _, _, each in read(cycle_text(), CATALOGUE).cycle.sessions())


def snatch_day(**more):
    return session(
        line("snatch", sets(5, 2, load=percent(85), rest_s=Span(150, 150))),
        line("back_squat", sets(5, 3, load=percent(80), rest_s=Span(180, 180))),
        line("push_press", sets(4, 4, load=percent(70), rest_s=Span(120, 120))),
        **more,
    )


sides = st.builds(
    lambda a, b: Sides(a, b), *(st.none() | st.integers(4, 120).map(lambda n: n / 2) for _ in "ab")
)
screens = st.builds(
    Screen,
    knee_to_wall=sides,
    overhead_reach=st.none() | st.booleans(),
    front_rack=st.none() | st.booleans(),
    deep_squat_hold=st.none() | st.booleans(),
    behind_neck=st.none() | st.booleans(),
    thoracic_rotation=sides,
    painful=st.lists(st.sampled_from([test.id for test in TESTS]), max_size=2, unique=True).map(tuple),
)


# The checks of the authorities file.
def test_two_holds_of_thirty_seconds_are_refused_two_of_twenty_allowed_and_four_of_fortyfive_refused():
    assert [static_verdict(*holds)[0] for holds in ((30, 2), (20, 2), (45, 4))] == [False, True, False]


def test_ankles_and_shoulders_get_drills_where_the_lift_asks_for_them():
    plan = between_sets(snatch_day(), STIFF, CATALOGUE)
    assert 1 <= len(plan.placed) <= 3
    ankle = next(p for p in plan.placed if "ankle" in CATALOGUE.drills[p.drill].regions)
    shoulder = next(p for p in plan.placed if CATALOGUE.drills[p.drill].regions[0] == "shoulder")
    assert ankle.line in (0, 1)
    assert shoulder.line in (0, 2)
    assert "Knee to wall".lower() in ankle.why.said
    assert "ankle" in ankle.why.inputs[1][1]


def test_only_what_is_below_its_mark_is_worked_on():
    fine = Screen(knee_to_wall=Sides(12, 12), overhead_reach=True)
    assert between_sets(snatch_day(), fine, CATALOGUE).placed == ()
    assert between_sets(snatch_day(), Screen(), CATALOGUE).placed == ()
    nothing = between_sets(snatch_day(), None, CATALOGUE)
    assert nothing.placed == ()
    assert "No mobility screen" in nothing.said[0]


def test_knee_to_wall_below_the_working_mark_of_ten_centimetres_counts():
    for left, worked in ((9.5, True), (10.0, False)):
        asked = needs(Screen(knee_to_wall=Sides(left, 12)))
        assert bool(asked.now) == worked


def test_what_hurts_gets_nothing_and_is_sent_to_a_physiotherapist():
    sore = msgspec.structs.replace(STIFF, painful=("overhead_reach",))
    plan = between_sets(snatch_day(), sore, CATALOGUE)
    assert all(not touches(CATALOGUE.drills[p.drill], ("shoulder",)) for p in plan.placed)
    assert any("physiotherapist" in sentence for sentence in plan.said)


def test_two_positions_at_a_time_in_the_order_of_the_screen_or_of_the_coach():
    stiff = Screen(knee_to_wall=Sides(6, 6), overhead_reach=False, front_rack=False)
    assert [need.test for need in needs(stiff).now] == ["knee_to_wall", "overhead_reach"]
    assert [need.test for need in needs(stiff).later] == ["front_rack"]
    assert [need.test for need in needs(stiff, ("front_rack",)).now] == ["front_rack", "knee_to_wall"]


def brute(found, most, seconds):
    best = 0
    for k in range(most + 1):
        for chosen in combinations(found, k):
            places = {(spot.segment, spot.line) for spot in chosen}
            drills = {spot.drill for spot in chosen}
            if len(places) == len(drills) == k and sum(spot.seconds for spot in chosen) <= seconds:
                best = max(best, worth(chosen))
    return best


some_spots = st.lists(
    st.builds(
        Spot,
        st.just(1), st.integers(0, 4), st.sampled_from("abcdef"), st.integers(0, 1),
        st.sampled_from((0, 10, 20, 30, 40)), st.integers(1, 2), st.integers(5, 120),
    ),
    max_size=12,
)  # fmt: skip


@given(some_spots, st.integers(0, 4), st.integers(0, 300))
def test_the_choice_equals_that_of_trying_everything(found, most, seconds):
    chosen = choose(tuple(found), most, seconds)
    assert worth(chosen) == brute(found, most, seconds)
    assert len(chosen) <= most
    assert sum(spot.seconds for spot in chosen) <= seconds
    assert chosen == choose(tuple(found), most, seconds)


@given(some_spots, st.integers(0, 3), st.integers(0, 200))
def test_more_drills_or_more_time_is_never_worth_less(found, most, seconds):
    least = worth(choose(tuple(found), most, seconds))
    assert worth(choose(tuple(found), most + 1, seconds)) >= least
    assert worth(choose(tuple(found), most, seconds + 60)) >= least


def test_the_choice_for_real_sessions_equals_that_of_trying_everything():
    for written in SESSIONS[:5]:
        found = spots(written, needs(STIFF), CATALOGUE, Limits())
        best = sorted(found, key=lambda spot: -spot.near)[:24]
        for most in (1, 2, 3):
            assert worth(choose(tuple(best), most, 240)) == brute(best, most, 240)


@settings(max_examples=60)
@given(st.sampled_from(SESSIONS), screens, st.integers(0, 12), st.integers(0, NEVER_ABOVE))
def test_every_placement_keeps_the_rules(written, screen, minutes, most):
    limits = Limits((Restriction("no overhead"),), (MissingKit(("stick",)),))
    plan = between_sets(written, screen, CATALOGUE, minutes=minutes, most=most, limits=limits)
    assert len(plan.placed) <= most
    assert plan.minutes <= minutes
    asked = needs(screen)
    for placed in plan.placed:
        drill = CATALOGUE.drills[placed.drill]
        target = written.segments[placed.segment].lines[placed.line]
        assert "between sets" in drill.uses
        assert drill.kind not in ("contract-relax", "soft tissue", "raise")
        assert not touches(drill, asked.painful)
        assert "stick" not in drill.equipment
        rests = sorted(int(each.rest_s) for each in list(line_sets(target, CATALOGUE))[:-1])
        spare_s = RULES["rest is not shortened"].default
        assert all(dose_s(drill) + spare_s <= rest for rest in rests[-placed.times :])
        if drill.held_s:
            families = {CATALOGUE.movements[part.movement].family for part in target.parts}
            working = {region for family in families for region in WORKING.get(family, ())}
            assert not held_muscles(drill) & working
    assert plan == between_sets(written, screen, CATALOGUE, minutes=minutes, most=most, limits=limits)


def test_the_session_is_no_longer_for_it():
    for written in (snatch_day(), *SESSIONS[:10]):
        plan = between_sets(written, STIFF, CATALOGUE)
        with_drills = with_between(written, plan)
        assert session_minutes(with_drills, CATALOGUE).minutes == session_minutes(written, CATALOGUE).minutes
        added = sum(len(each.between) for s in with_drills.segments for each in s.lines)
        assert added == len(plan.placed) + sum(
            len(each.between) for s in written.segments for each in s.lines
        )


def test_a_line_on_which_the_coach_asks_for_a_drill_is_left_as_it_is():
    own = line("snatch", sets(5, 2, load=percent(85)), between=(Between("Ankle rock", "ankle_rock"),))
    plan = between_sets(session(own), STIFF, CATALOGUE)
    assert plan.placed == ()
    assert "No drill fits" in " ".join(plan.said)


def test_short_rests_take_no_drill():
    short = session(line("snatch", sets(5, 2, load=percent(85), rest_s=Span(40, 40))))
    assert between_sets(short, STIFF, CATALOGUE).placed == ()


def own_drill(id_: str, held_s: int, *regions: str, **more):
    base = CATALOGUE.drills["ankle_rock"]
    return msgspec.structs.replace(
        base, id=id_, name=id_, names=(), regions=regions, held_s=held_s, kind="static stretch",
        dose=Dose(seconds=held_s), **more,
    )  # fmt: skip


def with_drills(*drills) -> Catalogue:
    return Catalogue(CATALOGUE.movements.values(), drills, (), (), CATALOGUE.shared.values())


def test_no_hold_of_a_muscle_that_the_next_lift_works_with():
    catalogue = with_drills(own_drill("hold_calf", 20, "ankle", "calf"), own_drill("hold_chest", 20, "chest"))
    stiff = Screen(knee_to_wall=Sides(6, 6), behind_neck=False)
    found = spots(snatch_day(), needs(stiff), catalogue, Limits())
    assert {spot.drill for spot in found} == {"hold_chest"}
    assert {spot.line for spot in found} == {0, 1}  # the press works with the chest


def test_static_seconds_stay_under_a_minute_up_to_the_last_heavy_set():
    catalogue = with_drills(own_drill("hold_chest", 25, "chest", uses=("warm-up", "between sets")))
    stiff = Screen(behind_neck=False)
    assert {s.times for s in spots(snatch_day(), needs(stiff), catalogue, Limits())} == {2}
    warm_up = (line("hold_chest"),)
    warm_up = (
        msgspec.structs.replace(
            warm_up[0], parts=(msgspec.structs.replace(warm_up[0].parts[0], movement="hold_chest"),)
        ),
    )
    held = snatch_day(warm_up=warm_up)
    assert static_seconds(held, catalogue) == {"chest": 25}
    assert {s.times for s in spots(held, needs(stiff), catalogue, Limits())} == {1}


def test_long_holds_before_heavy_sets_are_told():
    catalogue = with_drills(own_drill("hold_calf", 45, "calf", uses=("warm-up", "between sets")))
    base = line("snatch", sets(5, 2, load=percent(85)), between=(Between("Calf", "hold_calf"),))
    problems = static_problems(session(base), catalogue, Place(said="Week 1"))
    assert [p.kind for p in problems] == ["held long before heavy sets"]
    assert "180 s" in problems[0].message
    light = line("snatch", sets(5, 2, load=percent(60)), between=(Between("Calf", "hold_calf"),))
    assert static_problems(session(light), catalogue, Place()) == []


def test_the_demo_cycle_holds_no_working_muscle_for_a_minute_before_heavy_sets():
    assert [p for each in SESSIONS for p in static_problems(each, CATALOGUE, Place())] == []


@pytest.mark.parametrize(
    ("most", "minutes", "words"), [(5, 8, "not done"), (-1, 8, "not done"), (3, -1, "0 or more")]
)
def test_bad_input_is_told_in_words(most, minutes, words):
    with pytest.raises(ValueError, match=words):
        between_sets(snatch_day(), STIFF, CATALOGUE, most=most, minutes=minutes)


def test_every_rule_has_a_reason_and_a_source():
    assert all(rule.says and rule.because and rule.source for rule in RULES.values())
