"""What a coach prescribes is what is drawn: single numbers of a position, and the tools behind the solver."""

from math import cos, dist, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from meetward.body.balance import centre_of_mass
from meetward.body.figure import Spot
from meetward.body.joints import angles_of
from meetward.body.limbs import Foot, LegLinks, two_links
from meetward.body.rack import elbow_span, rack_angles
from meetward.body.roots import least_squares, root
from meetward.body.segments import TYPICAL
from meetward.body.solve import USUAL, Sought, solve
from tests.body.positions import odd_bodies

BODIES = odd_bodies(25, seed=41)
SUPPLE = replace(USUAL, ankle=60, hip=180, hip_back=90)


def pulled(**given):
    return solve(Sought(bar="hanging", height="below knee", **given), TYPICAL, SUPPLE)


@pytest.mark.parametrize(("given", "measured"), [
    ({"shin_degrees": 6.0}, lambda s: s.angles.shin - 6),
    ({"thigh_degrees": 50.0}, lambda s: s.angles.thigh - 50),
    ({"knee_degrees": 30.0}, lambda s: s.angles.knee - 30),
    ({"lean_degrees": 55.0}, lambda s: s.angles.lean - 55),
    ({"shoulders_ahead_cm": 7.0}, lambda s: s.figure.shoulder.x - s.figure.bar.at.x - 7),
    ({"knees_ahead_cm": -5.0}, lambda s: s.figure.near_leg.knee.x - s.figure.bar.at.x + 5),
    ({"hip_over_knee_cm": 30.0}, lambda s: s.figure.hip.y - s.figure.near_leg.knee.y - 30),
    ({"bar_cm": 40.0, "stands_on_cm": 5.0}, lambda s: s.figure.bar.at.y - 40),
])  # fmt: skip
def test_a_pull_takes_one_prescribed_number(given, measured):
    assert measured(pulled(**given)) == pytest.approx(0, abs=0.3)


@pytest.mark.parametrize(("given", "measured"), [
    ({"thigh_degrees": 12.0}, lambda s: s.angles.thigh - 12),
    ({"knee_degrees": 70.0}, lambda s: s.angles.knee - 70),
    ({"hip_over_knee_cm": 8.0}, lambda s: s.figure.hip.y - s.figure.near_leg.knee.y - 8),
    ({"thigh_degrees": 12.0, "lean_degrees": 30.0}, lambda s: s.angles.lean - 30),
    ({"thigh_degrees": 12.0, "shin_degrees": 30.0}, lambda s: s.angles.shin - 30),
    ({"over_cm": 3.0, "knee_degrees": 40.0}, lambda s: centre_of_mass(s.figure, TYPICAL.mass_kg).x - 3),
])  # fmt: skip
def test_a_squat_takes_prescribed_numbers_exactly(given, measured):
    assert measured(solve(Sought(bar="back rack", **given), TYPICAL, SUPPLE)) == pytest.approx(0, abs=1e-4)


def test_shin_and_lean_together_leave_nothing_to_balance_and_that_is_said():
    solved = solve(Sought(bar="back rack", thigh_degrees=0, shin_degrees=0, lean_degrees=0), TYPICAL)
    assert solved.angles.shin == pytest.approx(0)
    assert solved.angles.lean == pytest.approx(0)
    assert any("behind" in why for why in solved.why)


def test_a_split_takes_its_numbers():
    sought = Sought(bar="overhead", feet="split", split_degrees=25, shin_degrees=0, rear_knee_degrees=30)
    solved = solve(replace(sought, rear_heel_up_degrees=60), TYPICAL)
    assert solved.angles.thigh == pytest.approx(25)
    assert solved.angles.shin == pytest.approx(0, abs=1e-6)
    rear = solved.figure.far_leg
    assert dist(rear.hip, rear.ankle) ** 2 == pytest.approx(
        TYPICAL.thigh_cm**2
        + TYPICAL.shank_cm**2
        + 2 * TYPICAL.thigh_cm * TYPICAL.shank_cm * cos(0.5235987756)
    )


@pytest.mark.parametrize("free_arms", ["hang", "forwards", "up"])
def test_free_arms_go_where_they_are_told(free_arms):
    figure = solve(Sought(free_arms=free_arms), TYPICAL).figure
    arm = figure.near_arm
    along = (arm.grip.x - arm.shoulder.x, arm.grip.y - arm.shoulder.y)
    straight = hypot(*along)
    assert figure.bar is None
    assert {"hang": -along[1], "forwards": along[0], "up": along[1]}[free_arms] == pytest.approx(straight)


@pytest.mark.parametrize("height", ["hip", "navel", "ribs", "chest", "shoulder", "chin", "forehead", "crown"])
def test_a_pulled_bar_is_in_front_of_the_body_elbows_above_it(height):
    for body in BODIES:
        figure = solve(Sought(bar="pulled", height=height, grip="snatch"), body).figure
        assert figure.bar.at.x > figure.shoulder.x + 5
        if height not in ("hip", "navel", "ribs", "forehead", "crown"):
            assert figure.near_arm.elbow.y > figure.bar.at.y


def test_pulled_heights_rise_one_after_the_other():
    order = ("hip", "navel", "ribs", "chest", "shoulder", "chin", "forehead", "crown")
    heights = [solve(Sought(bar="pulled", height=h, grip="snatch"), TYPICAL).figure.bar.at.y for h in order]
    assert heights == sorted(heights)


def test_a_bar_hangs_from_straight_arms_in_a_split():
    figure = solve(Sought(bar="hanging", feet="split"), TYPICAL).figure
    assert figure.bar.at.x == figure.shoulder.x
    assert angles_of(figure).elbow == pytest.approx(0, abs=1e-4)


def test_a_wider_grip_brings_the_hanging_bar_higher():
    heights = [
        solve(Sought(bar="hanging", grip=g), TYPICAL).figure.bar.at.y for g in ("narrow", "clean", "snatch")
    ]
    assert heights == sorted(heights)
    assert heights[0] < heights[-1]


@pytest.mark.parametrize("wide", ["narrow", "hips", "shoulders", "wide"])
def test_wider_feet_make_the_thigh_shorter_in_the_drawing_only(wide):
    figure = solve(Sought(bar="front rack", thigh_degrees=0, stance=wide), TYPICAL, SUPPLE).figure
    leg = figure.near_leg
    assert dist(leg.hip, leg.knee) == pytest.approx(TYPICAL.thigh_cm)
    drawn = hypot(leg.hip.x - leg.knee.x, leg.hip.y - leg.knee.y)
    assert drawn < TYPICAL.thigh_cm
    narrow = solve(
        Sought(bar="front rack", thigh_degrees=0, stance="narrow"), TYPICAL, SUPPLE
    ).figure.near_leg
    assert drawn <= hypot(narrow.hip.x - narrow.knee.x, narrow.hip.y - narrow.knee.y) + 1e-9


# The front rack


def test_elbows_come_down_with_a_stiff_wrist_and_never_leave_the_bar():
    lows = []
    for wrist in (90.0, 70.0, 50.0, 35.0):
        solved = solve(Sought(bar="front rack"), TYPICAL, replace(USUAL, wrist=wrist))
        arm = solved.figure.near_arm
        lows.append(arm.elbow.y - arm.shoulder.y)
        assert hypot(arm.grip.x - solved.figure.bar.at.x, arm.grip.y - solved.figure.bar.at.y) < 1e-6
    assert lows == sorted(lows, reverse=True)


def test_the_elbow_span_holds_only_what_the_ranges_allow():
    for body in BODIES:
        half = 0.155 * body.height_cm
        low, high = elbow_span(body, half, USUAL.elbow, USUAL.wrist)
        assert low <= high
        if low < high:
            for raised in (low, high):
                elbow, wrist, missing = rack_angles(body, half, raised)
                assert missing < 1e-9
                assert elbow <= USUAL.elbow + 8 + 1e-9
                assert wrist <= USUAL.wrist + 45 + 1e-9


# Links and roots

CM = st.floats(5, 60)
PLACE = st.builds(Spot, st.floats(-80, 80), st.floats(-80, 80), st.floats(-40, 40))


@given(PLACE, PLACE, CM, CM, PLACE)
def test_two_links_keep_their_lengths_or_say_what_is_missing(start, end, first, second, pole):
    joint, missing = two_links(start, end, first, second, pole)

    assert dist(start, joint) == pytest.approx(first, abs=1e-6)
    apart = dist(start, end)
    if abs(first - second) + 1e-6 < apart < first + second - 1e-6:
        assert missing == 0
        assert dist(joint, end) == pytest.approx(second, abs=1e-5)
    elif apart > first + second:
        assert missing == pytest.approx(apart - first - second)


def test_two_links_bend_to_the_side_of_the_pole():
    up, _ = two_links(Spot(0, 0), Spot(10, 0), 8, 8, Spot(0, 1))
    down, _ = two_links(Spot(0, 0), Spot(10, 0), 8, 8, Spot(0, -1))
    assert up.y > 0 > down.y
    aside, _ = two_links(Spot(0, 0), Spot(10, 0), 8, 8, Spot(1, 0))  # a pole along the way chooses nothing
    assert dist(aside, Spot(0, 0)) == pytest.approx(8)
    same, missing = two_links(Spot(0, 0), Spot(0, 0), 8, 5, Spot(0, 1))
    assert dist(same, Spot(0, 0)) == pytest.approx(8)
    assert missing == pytest.approx(3)


@given(st.floats(-0.4, 0.9), st.floats(0.0, 2.6), st.sampled_from(BODIES))
def test_the_thigh_of_a_knee_angle_bends_the_knee_by_it(s, flexion, body):
    links = LegLinks(body, Foot(body, 0.0, 12.0, heel_cm=2.0, out=0.3))
    knee = links.knee(s)
    hip = links.hip(knee, links.thigh_of_knee_angle(s, flexion))
    apart = dist(hip, links.foot.ankle)
    straight = links.shank**2 + links.thigh**2
    bent = 2 * links.shank * links.thigh * cos(flexion)
    # A knee outside its hip cannot be quite straight; there the leg is as straight as it goes.
    assert apart == pytest.approx((straight + bent) ** 0.5, abs=1e-6) or flexion < 0.6


@given(st.floats(-5, 5))
def test_the_root_of_a_cubic(at):
    def cubic(x: float) -> float:
        return (x - at) ** 3 + 2 * (x - at)

    assert root(cubic, -6, 6, cubic(-6), cubic(6)) == pytest.approx(at, abs=1e-7)


def test_a_root_at_an_end_is_that_end():
    assert root(lambda x: x, 0.0, 3.0, 0.0, 3.0) == 0.0
    assert root(lambda x: x - 3, 0.0, 3.0, -3.0, 0.0) == 3.0


def test_least_squares_finds_the_bottom_of_a_bent_valley():
    # The valley of Rosenbrock 1960, with its bottom at (1, 1): a common trial of such methods.
    s, t = least_squares(lambda x, y: [10 * (y - x * x), 1 - x], -0.5, 1.5)
    assert (s, t) == (pytest.approx(1, abs=1e-4), pytest.approx(1, abs=1e-4))
