"""How deep a lifter gets: monotone in ankle and heel, and the joint that gives out first. Sources:
tests/authorities/body.md."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from meetward.body.reach import deepest, reach
from meetward.body.segments import TYPICAL
from meetward.body.solve import USUAL, Sought, is_reached, solve
from tests.body.positions import SQUATS, odd_bodies

BODIES = odd_bodies(60, seed=23)
KINDS = st.sampled_from([
    Sought(bar="front rack", thigh_degrees=-18),
    Sought(bar="overhead", grip="snatch", thigh_degrees=-18),
    Sought(bar="overhead", grip="snatch", thigh_degrees=-5, stance="hips"),
    Sought(bar="back rack", thigh_degrees=-10),
    Sought(bar="back rack", thigh_degrees=0, stance="narrow"),
    Sought(thigh_degrees=-22, stance="narrow"),
])  # fmt: skip
BODY = st.sampled_from(BODIES)


def depth(sought, body, ranges) -> float:
    """The deepest thigh that is reached. [degrees]"""
    found = deepest(sought, body, ranges)
    return sought.thigh_degrees if found is None else found


@given(KINDS, BODY, st.floats(5, 50), st.floats(0.5, 15))
@settings(max_examples=60)
def test_more_ankle_never_means_less_depth(sought, body, ankle, more):
    less = depth(sought, body, replace(USUAL, ankle=ankle))
    greater = depth(sought, body, replace(USUAL, ankle=ankle + more))
    assert greater <= less + 1e-9


@given(KINDS, BODY, st.floats(5, 50), st.floats(0.5, 15))
def test_more_ankle_never_means_more_lean_at_the_same_depth(sought, body, ankle, more):
    less = solve(sought, body, replace(USUAL, ankle=ankle))
    greater = solve(sought, body, replace(USUAL, ankle=ankle + more))
    assert greater.angles.lean <= less.angles.lean + 1e-6
    assert greater.reached or not less.reached


@given(KINDS, BODY, st.floats(0, 4), st.floats(0.2, 3), st.floats(10, 38))
@settings(max_examples=60)
def test_more_heel_never_means_less_depth_or_more_lean(sought, body, heel, more, ankle):
    # Monteiro 2022 and Sato 2012: a raised heel goes with less trunk lean. Direction only.
    ranges = replace(USUAL, ankle=ankle)
    low, high = replace(sought, heel_cm=heel), replace(sought, heel_cm=heel + more)
    assert depth(high, body, ranges) <= depth(low, body, ranges) + 1e-9

    lower, higher = solve(low, body, ranges), solve(high, body, ranges)
    assert higher.angles.lean <= lower.angles.lean + 1e-6
    assert higher.reached or not lower.reached


def test_wedges_bend_the_knee_more_and_the_trunk_less():
    # Monteiro 2022, wedges of 0, 25 and 50 mm: each step less trunk lean and more knee bend (direction only);
    # a stiff ankle, so that the heel matters.
    stiff = replace(USUAL, ankle=22)
    steps = [
        solve(Sought(bar="back rack", thigh_degrees=0, heel_cm=heel), TYPICAL, stiff).angles
        for heel in (0, 2.5, 5)
    ]
    leans, knees = [a.lean for a in steps], [a.knee for a in steps]
    assert leans == sorted(leans, reverse=True)
    assert leans[0] > leans[-1]
    assert knees == sorted(knees)
    assert knees[0] < knees[-1]


def test_a_weightlifting_shoe_takes_millimetres_off_the_trunk_not_the_whole_lean():
    # Sato 2012 (restated): foot 3.5 degrees steeper, trunk lean 22 mm less, thigh angle the same. How the 22
    # mm were taken is not known, so only the size is held against it: more than nothing, less than 10 cm at
    # the shoulder.
    stiff = replace(USUAL, ankle=25)

    def ahead(heel_cm: float) -> float:
        figure = solve(Sought(bar="back rack", thigh_degrees=0, heel_cm=heel_cm), TYPICAL, stiff).figure
        return figure.shoulder.x - figure.hip.x

    assert 0 < ahead(0) - ahead(1.1) < 10


def test_a_raised_heel_uses_less_ankle_where_the_ankle_is_not_the_end():
    # Lu 2022 (abstract): a heel lift lowers the dorsiflexion used.
    flat = solve(Sought(bar="back rack", thigh_degrees=20, heel_cm=0), TYPICAL)
    raised = solve(Sought(bar="back rack", thigh_degrees=20, heel_cm=2), TYPICAL)
    assert raised.angles.ankle < flat.angles.ankle


def test_the_classic_case_names_the_ankle_and_how_much():
    found = reach(SQUATS["overhead squat"], TYPICAL, replace(USUAL, ankle=20), heel_cm=0)
    assert not found.reached
    assert found.first is not None
    assert found.first.joint == "ankle"
    assert found.first.there == 20
    assert found.first.by_degrees > 5
    assert "ankle gives out first" in found.why[0]
    assert found.thigh_degrees > 0 > SQUATS["overhead squat"].thigh_degrees
    assert found.at.reached
    assert found.hip_over_knee_cm > 0


def test_the_ankle_it_names_is_enough_for_the_whole_way_down():
    for body in [TYPICAL, *BODIES[:20]]:
        found = reach(SQUATS["overhead squat"], body, replace(USUAL, ankle=18), heel_cm=0)
        if found.first is not None and found.first.joint == "ankle":
            again = reach(
                SQUATS["overhead squat"], body, replace(USUAL, ankle=found.first.needed + 0.5), heel_cm=0
            )
            assert again.reached or (again.first is not None and again.first.joint != "ankle")


def test_a_knee_that_does_not_bend_is_named():
    found = reach(
        Sought(bar="back rack", thigh_degrees=-20, heel_cm=3), TYPICAL, replace(USUAL, knee=95, ankle=50)
    )
    assert not found.reached
    assert found.first is not None
    assert found.first.joint in ("knee", "hip")


def test_who_reaches_it_gets_the_sought_depth_and_no_words():
    found = reach(SQUATS["front squat"], TYPICAL)
    assert found.reached
    assert found.thigh_degrees == -18
    assert found.first is None
    assert found.why == ()
    assert found.at == solve(SQUATS["front squat"], TYPICAL)


@given(KINDS, BODY, st.floats(5, 50))
@settings(max_examples=40)
def test_the_quick_answer_is_the_same(sought, body, ankle):
    ranges = replace(USUAL, ankle=ankle)
    found = reach(sought, body, ranges)
    assert deepest(sought, body, ranges) == (None if found.reached else found.thigh_degrees)


@pytest.mark.parametrize(
    "sought", [Sought(bar="overhead", hip_over_knee_cm=-8.0), Sought(bar="front rack", knee_degrees=100)]
)
def test_depth_may_be_given_in_any_way(sought):
    found = reach(sought, TYPICAL, heel_cm=2)
    assert found.reached
    assert found.thigh_degrees == pytest.approx(solve(replace(sought, heel_cm=2), TYPICAL).angles.thigh)


@given(KINDS, BODY, st.floats(10, 45))
@settings(max_examples=40)
def test_every_depth_on_the_way_was_reached(sought, body, ankle):
    ranges = replace(USUAL, ankle=ankle)
    found = reach(sought, body, ranges)
    for depth in range(80, -25, -4):
        if depth >= found.thigh_degrees:
            assert (
                is_reached(replace(sought, thigh_degrees=float(depth)), body, ranges) or not found.at.reached
            )


@given(BODY, st.floats(-90, 250), st.floats(-90, 250), st.floats(-90, 250))
@settings(max_examples=40)
def test_strange_ranges_are_answered(body, ankle, knee, hip):
    found = reach(SQUATS["back squat"], body, replace(USUAL, ankle=ankle, knee=knee, hip=hip))
    assert found.reached or found.why
