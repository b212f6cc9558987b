"""What squats and racks ask of a body as the page draws it, and which drills follow."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from meetward.body.ranges import USUAL, AnkleRange, ankle_from_knee_to_wall
from meetward.body.reach import deepest, reach
from meetward.body.segments import Measures, body
from meetward.catalogue.reading import shipped
from meetward.lifter.screen import Screen, Sides
from meetward.web.actions.asked import BOTTOM_DEGREES, KINDS, SOUGHT, asked, wrist_for_the_rack
from meetward.web.actions.helping import MOST_DRILLS, REGIONS, drills_for, to_work_on
from meetward.web.actions.taken import HEALTHY_CM, taken_for
from meetward.web.pages.positions_words import how_it_is_drawn, shown_position
from tests.web import club as values

BODY = body(height_cm=172, mass_kg=73, sex="men")
HEIGHT = Measures(height_cm=172)


def taken(**screen: object):
    return taken_for(values.lifter("anouk-varley", "Anouk Varley"), HEIGHT, Screen(**screen))


def said(kind: str, heel_mm: int = 0, **screen: object) -> str:
    return " ".join(shown_position(kind, taken(**screen), heel_mm, "your").said)


def span(degrees: float) -> AnkleRange:
    return AnkleRange(degrees - 4.7, degrees, degrees + 4.7)


# Geometry


@pytest.mark.parametrize("kind", ["front-squat", "overhead-squat"])
@pytest.mark.parametrize("degrees", [18, 30, 42])
def test_the_quick_depth_is_the_depth_that_is_explained(kind, degrees):
    ranges = replace(USUAL, ankle=degrees)
    quick, slow = deepest(SOUGHT[kind], BODY, ranges), reach(SOUGHT[kind], BODY, ranges)

    assert (quick is None) == slow.reached
    if quick is not None:
        assert quick == slow.thigh_degrees


@settings(max_examples=25, deadline=None)
@given(
    kind=st.sampled_from(["front-squat", "overhead-squat"]),
    height=st.integers(145, 200),
    degrees=st.floats(15, 45),
    heel_mm=st.integers(0, 38),
)
def test_a_higher_heel_and_a_freer_ankle_never_end_higher(kind, height, degrees, heel_mm):
    one = body(height_cm=height, mass_kg=70, sex="women")
    low = asked(kind, one, USUAL, span(degrees), heel_mm)
    higher = asked(kind, one, USUAL, span(degrees), heel_mm + 2)

    assert [end is None or end > BOTTOM_DEGREES - 1e-9 for end in low.ends] == [True] * 3
    for before, after in zip(low.ends, higher.ends, strict=True):
        assert after is None or (before is not None and after <= before + 0.02)
    depths = [-90.0 if end is None else end for end in low.ends]
    assert depths == sorted(depths, reverse=True), "low ankle ends highest"
    assert low.leans[0] <= low.leans[1]


def test_a_heel_takes_lean_from_a_stiff_front_squat():
    # The direction is published: each higher wedge, less lean (Monteiro 2022, 15 trained people, wedges of 0,
    # 25 and 50 mm; abstract). The amount is geometry.
    leans = [asked("front-squat", BODY, USUAL, span(28), heel).leans[1] for heel in (0, 20, 40)]

    assert leans == sorted(leans, reverse=True)
    assert leans[0] > leans[1] + 5


def test_what_is_asked_of_the_wrist_brings_the_elbows_to_the_bar():
    needed = wrist_for_the_rack(BODY)
    just, short = (
        asked("front-rack", BODY, replace(USUAL, wrist=needed + by), span(38), 0) for by in (5, -10)
    )

    assert just.outcome == "reached"
    assert just.elbows_under_bar_cm < 4
    assert short.outcome == "not reached"
    assert short.elbows_under_bar_cm > just.elbows_under_bar_cm


# What is taken


def test_the_stiffer_side_is_drawn_with_the_error_of_the_test():
    one = taken(knee_to_wall=Sides(9.5, 8.0))

    assert one.ankle == ankle_from_knee_to_wall(one.body, 8.0)
    assert (one.ankle_cm, one.ankle_side, one.ankle_from) == (8.0, "right", "measured")
    # Powden, Hoch and Hoch 2015, 12 studies (abstract): smallest real change 4.7 degrees for one tester.
    assert one.ankle.high - one.ankle.low == pytest.approx(2 * 4.7)


@pytest.mark.parametrize("sides", [Sides(9, None), Sides(None, 9)])
def test_one_side_alone_is_taken_and_named(sides):
    one = taken(knee_to_wall=sides)

    assert one.ankle_side == ("left" if sides.left else "right")


def test_an_ankle_that_is_not_measured_stands_for_most_healthy_adults():
    one = taken()

    # Mean 12 cm, standard deviation 2.8, 35 adults: Hoch and McKeon 2011, as restated by a physiotherapist.
    assert HEALTHY_CM == (12 - 2.8, 12 + 2.8)
    assert one.ankle.low < one.ankle.typical == USUAL.ankle < one.ankle.high
    assert one.ankle_from == "not measured"


def test_a_test_that_was_not_done_is_neither_a_pass_nor_a_fail():
    assert taken().ranges == USUAL
    assert taken().passed == ()
    assert taken(overhead_reach=True, front_rack=True).ranges == USUAL


def test_a_test_that_was_not_passed_shortens_that_range_only_and_says_example():
    overhead, rack = taken(overhead_reach=False), taken(front_rack=False)

    # 156 is the low end of published samples of shoulder flexion (textbook table of goniometer norms).
    assert overhead.ranges == replace(USUAL, shoulder=156.0)
    assert rack.ranges == replace(USUAL, wrist=45.0)
    assert "as an example and not measured" in said("overhead-squat", overhead_reach=False)
    assert "as an example and not measured" in said("front-rack", front_rack=False)
    assert "the test does not say which" in said("front-rack", front_rack=False)


def test_bodyweight_that_is_not_known_or_cannot_be_does_not_stop_the_drawing():
    for weight in (None, 0, 900_000):
        one = values.lifter("a", "A", bodyweight_dag=weight, category=None)
        assert 20 <= taken_for(one, HEIGHT, Screen()).body.mass_kg <= 250


# Words


def test_the_limiting_joint_is_named_with_what_is_asked_and_what_the_test_points_to():
    one = taken(knee_to_wall=Sides(8, 9))
    words = said("overhead-squat", knee_to_wall=Sides(8, 9))
    low, high = round(one.ankle.low), round(one.ankle.high)

    assert "The ankle gives out first: this depth asks for about 42 degrees" in words
    assert f"your 8 cm on the left points to {low} to {high}." in words


def test_a_stiff_ankle_is_said_to_lean_the_trunk_though_the_bottom_is_reached():
    shown = shown_position("front-squat", taken(knee_to_wall=Sides(8, 8)), 0, "their")

    assert shown.verdict == "Reached"
    assert any(words.startswith("The ankle is at its end first: an easy trunk") for words in shown.said)
    assert "their 8 cm points to" in " ".join(shown.said)
    assert shown.joints == ("ankle",)
    assert " to " in shown.lean


def test_a_limber_lifter_in_a_full_heel_has_no_limiting_joint():
    shown = shown_position("front-squat", taken(knee_to_wall=Sides(15, 15)), 40, "your")

    assert "No joint gives out first." in " ".join(shown.said)
    assert shown.joints == ()


@pytest.mark.parametrize(
    ("kind", "screen", "verdict"),
    [
        ("front-rack", {}, "Not tested"),
        ("front-rack", {"front_rack": True}, "Reached"),
        ("front-rack", {"front_rack": False}, "Not passed"),
        ("front-rack", {"painful": ("front_rack",)}, "No result"),
        ("front-squat", {}, "Reached with usual ranges"),
        ("overhead-squat", {"overhead_reach": False}, "Not reached, in this example"),
    ],
)
def test_the_verdict_claims_no_more_than_the_tests_do(kind, screen, verdict):
    assert shown_position(kind, taken(**screen), 0, "your").verdict == verdict


@pytest.mark.parametrize("test", ["knee_to_wall", "overhead_reach", "front_rack"])
def test_pain_is_no_result_and_goes_to_a_professional(test):
    words = " ".join(said(kind, painful=(test,)) for kind in KINDS)

    assert "stopped because of pain, so there is no result" in words
    assert "physiotherapist or doctor" in words


def test_a_shoulder_that_failed_its_test_comes_before_the_ankle():
    shown = shown_position("overhead-squat", taken(knee_to_wall=Sides(8, 8), overhead_reach=False), 0, "your")

    assert shown.joints[0] == "shoulder"
    assert "even with an easy ankle" in shown.said[1]


def test_the_floor_counts_more_than_the_drawing():
    stiff = Sides(7, 7)

    assert "kinder here than the floor" in said("front-squat", knee_to_wall=stiff, deep_squat_hold=False)
    assert "depth itself is there" in said("overhead-squat", knee_to_wall=stiff, deep_squat_hold=True)


def test_every_heel_stands_in_the_table_and_the_chosen_one_is_marked():
    rows = shown_position("overhead-squat", taken(knee_to_wall=Sides(8, 8)), 20, "your").rows

    assert [row.heel for row in rows] == ["0 mm", "20 mm", "40 mm"]
    assert [row.chosen for row in rows] == [False, True, False]


def test_without_a_heel_there_is_one_drawing_and_with_one_there_are_two():
    barefoot, heeled = (shown_position("front-squat", taken(), heel, "your") for heel in (0, 20))

    assert not barefoot.barefoot
    assert heeled.barefoot == barefoot.svg != heeled.svg
    assert "<desc>" in heeled.svg
    assert "20 mm heel" in heeled.svg


def test_the_error_of_the_estimate_is_stated():
    words = " ".join(how_it_is_drawn(taken(knee_to_wall=Sides(8, 8)), "your"))

    assert "1.9 cm or 4.7 degrees" in words
    assert "None was measured on weightlifters" in words
    assert "A heel is a trade, not a cure" in words


# Drills


@pytest.mark.parametrize("joint", sorted(REGIONS))
def test_drills_are_few_and_moving_and_fit_before_heavy_work(joint):
    drills = drills_for([joint], shipped())

    assert 0 < len(drills) <= MOST_DRILLS
    assert len({drill.id for drill in drills}) == len(drills)
    for drill in drills:
        assert not drill.held_s
        assert drill.kind not in ("static stretch", "contract-relax")
        assert {*drill.regions} & {*REGIONS[joint]}


def test_no_drill_is_offered_where_a_test_hurt():
    assert drills_for(["ankle"], shipped(), ["knee_to_wall"]) == ()
    for drill in drills_for(["ankle", "shoulder"], shipped(), ["overhead_reach"]):
        assert not {"shoulder", "thoracic spine", "lats"} & {*drill.regions}


def test_only_tested_joints_are_worked_on_and_the_failed_ones_first():
    assert to_work_on(["ankle", "shoulder", "rack"], Screen()) == ()
    assert to_work_on(["ankle"], Screen(painful=("knee_to_wall",))) == ()
    assert to_work_on(["ankle", "shoulder"], Screen(knee_to_wall=Sides(8, 8), overhead_reach=True)) == (
        "ankle",
    )
    assert to_work_on(["ankle", "rack"], Screen(knee_to_wall=Sides(12, 12), front_rack=False)) == (
        "rack",
        "ankle",
    )
