"""Kept poses: degrees as a coach reads them, lengths kept in space, and what touches the floor."""

from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.body.flesh import KNEE_CM, PALM_CM, SEAT_CM, scale
from meetward.body.placing import figure, from_the_front, gaps
from meetward.body.pose import ArmPose, BarPose, LegPose, Pose
from meetward.body.segments import TYPICAL
from meetward.body.spots import mid_foot
from tests.body.bodies import lengths, lowest_cm, random_bodies

CM = pytest.approx
BODIES = random_bodies(40)


def test_all_zeros_is_a_lifter_at_ease_over_mid_foot():
    made = figure(Pose(), TYPICAL)

    assert made.hip.x == made.shoulder.x == made.near_leg.knee.x == made.near_arm.elbow.x
    assert made.hip.y == CM(TYPICAL.ankle_height_cm + TYPICAL.shank_cm + TYPICAL.thigh_cm)
    assert made.near_leg.heel.y == CM(0)
    assert made.near_leg.toe.y == CM(0)
    assert mid_foot(made).x == CM(0)
    assert made.near_arm.shoulder.z == -made.far_arm.shoulder.z > 0


@pytest.mark.parametrize(
    ("pose", "seen"),
    [
        (Pose(trunk=90), lambda f: f.shoulder.x - f.hip.x == CM(TYPICAL.trunk_cm)),
        (Pose(trunk=-20), lambda f: f.shoulder.x < f.hip.x),
        (Pose(legs=LegPose(thigh=90)), lambda f: f.near_leg.knee.x - f.hip.x == CM(TYPICAL.thigh_cm)),
        (Pose(legs=LegPose(shin=30)), lambda f: f.near_leg.knee.x > f.near_leg.ankle.x),
        (Pose(legs=LegPose(foot=40, on="toes")), lambda f: f.near_leg.heel.y > 5 > f.near_leg.toe.y),
        (Pose(legs=LegPose(foot=-20, on="heel")), lambda f: f.near_leg.toe.y > 5 > f.near_leg.heel.y),
        (Pose(arms=ArmPose(upper=180)), lambda f: f.near_arm.wrist.y > f.head.y),
        (Pose(arms=ArmPose(upper=90)), lambda f: f.near_arm.grip.y == CM(f.shoulder.y)),
        (Pose(arms=ArmPose(upper=-40)), lambda f: f.near_arm.elbow.x < f.shoulder.x),
        (Pose(curl=40), lambda f: f.waist.x < f.hip.x and f.shoulder.x == CM(f.hip.x)),
        (Pose(trunk=30), lambda f: f.looks_degrees == CM(-30)),
        (Pose(trunk=30, looks=0), lambda f: f.looks_degrees == 0),
    ],
)  # fmt: skip
def test_degrees_are_read_as_the_page_for_coaches_says(pose, seen):
    assert seen(figure(pose, TYPICAL))


def test_one_side_differs_from_the_other():
    made = figure(Pose(far_leg=LegPose(thigh=60, on="air")), TYPICAL)

    assert made.far_leg.knee.y > made.near_leg.knee.y
    assert made.near_leg.heel.y == CM(0)


DEGREES = st.floats(-120, 180)
LEGS = st.builds(
    LegPose, thigh=DEGREES, shin=DEGREES, foot=st.floats(-60, 80), out=st.floats(0, 60),
    on=st.sampled_from(["flat", "toes", "heel", "knee", "shin", "kneecap", "air"]),
    raised_cm=st.sampled_from([0.0, 30.0]),
)  # fmt: skip
ARMS = st.builds(
    ArmPose, upper=DEGREES, fore=st.none() | DEGREES, hand=st.none() | DEGREES, out=st.floats(0, 80),
    to=st.sampled_from(["", "bar", "floor", "knee", "other ankle", "head"]),
    elbow=st.sampled_from(["back", "front", "up", "down"]), on=st.sampled_from(["air", "hand", "forearm"]),
)  # fmt: skip
POSES = st.builds(
    Pose, trunk=st.floats(-120, 120), side=st.floats(-60, 60),
    curl=st.floats(-60, 60), neck=st.floats(-40, 40), legs=LEGS, arms=ARMS,
    near_leg=st.none() | LEGS, far_arm=st.none() | ARMS, heel_cm=st.sampled_from([0.0, 2.0]),
    bar=st.builds(BarPose, at=st.sampled_from(["floor", "front rack", "back rack", "hip"])),
    grip=st.sampled_from(["snatch", "clean", 40.0]),
    on=st.sampled_from(["", "seat", "back", "front", "side"]),
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(pose=POSES, body=st.sampled_from(BODIES))
def test_every_segment_keeps_its_length_in_space_whatever_the_pose(pose, body):
    made = figure(pose, body)

    for name, (drawn, own) in lengths(made).items():
        assert drawn == pytest.approx(own, abs=1e-6), name
    for name, (drawn, own) in lengths(from_the_front(made)).items():
        assert drawn == pytest.approx(own, abs=1e-6), name
    assert made == figure(pose, body)


@settings(max_examples=150, deadline=None)
@given(legs=LEGS, trunk=st.floats(-60, 90), body=st.sampled_from(BODIES))
def test_what_touches_stands_on_the_floor(legs, trunk, body):
    on_the_floor = LegPose(thigh=legs.thigh, shin=legs.shin, foot=legs.foot, on="toes")
    made = figure(Pose(trunk=trunk, legs=on_the_floor), body)

    assert min(made.near_leg.ball.y, made.near_leg.toe.y) == CM(0, abs=1e-6)


@pytest.mark.parametrize("body", BODIES[:12])
def test_both_feet_of_a_split_stand_on_the_floor_for_every_body(body):
    made = figure(
        Pose(near_leg=LegPose(thigh=55, shin=-4), far_leg=LegPose(thigh=-22, shin=50, foot=58, on="toes")),
        body,
    )

    assert made.near_leg.heel.y == CM(0, abs=1e-6)
    assert made.far_leg.ball.y == CM(0, abs=1e-6)
    assert made.near_leg.ankle.x > 0 > made.far_leg.ankle.x
    assert lowest_cm(made) > -1e-6


@pytest.mark.parametrize("body", BODIES[:12])
def test_a_push_up_is_tipped_until_hands_and_toes_touch(body):
    made = figure(
        Pose(
            trunk=72,
            legs=LegPose(thigh=-72, shin=72, foot=62, on="toes"),
            arms=ArmPose(upper=8, hand=88, on="hand"),
        ),
        body,
    )

    assert min(made.near_leg.ball.y, made.near_leg.toe.y) == CM(0, abs=1e-6)
    assert made.near_arm.grip.y == CM(PALM_CM * scale(body), abs=1e-6)


@pytest.mark.parametrize("on", ["knee", "shin"])
@pytest.mark.parametrize("body", BODIES[:6])
def test_a_kneeling_leg_lies_on_the_floor_behind_its_knee(body, on):
    made = figure(Pose(near_leg=LegPose(thigh=88), far_leg=LegPose(on=on)), body)
    far, k = made.far_leg, scale(body)

    assert far.knee.y == CM(KNEE_CM * k, abs=1e-6)
    assert made.near_leg.heel.y == CM(0, abs=1e-6)
    assert far.ankle.x < far.knee.x
    if on == "knee":
        assert far.ball.y == CM(0, abs=1e-6)
        assert far.toe.y == CM(0, abs=1e-6)
    else:  # the top of the foot lies down, so its sole looks up
        assert far.ankle.y < 6 * k
        assert far.ball.y > far.ankle.y


def test_sitting_puts_the_seat_at_its_height_and_the_feet_on_the_floor():
    made = figure(Pose(on="seat", raised_cm=43, legs=LegPose(thigh=86, shin=4)), TYPICAL)

    assert made.hip.y == CM(43 + SEAT_CM)
    assert made.near_leg.heel.y == CM(0, abs=1e-6)


def test_hands_reach_the_bar_with_the_grip_that_is_asked():
    pose = Pose(
        trunk=30,
        legs=LegPose(thigh=85, shin=28),
        bar=BarPose(at="back rack"),
        arms=ArmPose(to="bar"),
        grip=100.0,
    )
    made = figure(pose, TYPICAL)

    assert made.bar is not None
    assert made.near_arm.grip.z - made.far_arm.grip.z == CM(100)
    assert (made.near_arm.grip.x, made.near_arm.grip.y) == CM((made.bar.at.x, made.bar.at.y), abs=1e-6)


@pytest.mark.parametrize(
    ("elbow", "way"), [("up", (0, 1)), ("down", (0, -1)), ("back", (-1, 0)), ("front", (1, 0))]
)
def test_the_elbow_goes_where_the_pose_says(elbow, way):
    made = figure(Pose(arms=ArmPose(to="other shoulder", off=(20, -10), elbow=elbow)), TYPICAL)
    arm = made.near_arm
    straight = [(a + b) / 2 for a, b in zip(arm.shoulder, arm.grip, strict=True)]

    assert (arm.elbow.x - straight[0]) * way[0] + (arm.elbow.y - straight[1]) * way[1] > 1


def test_a_bar_on_the_floor_rests_on_its_discs_and_overhead_on_straight_arms():
    floor = figure(Pose(bar=BarPose(at="floor")), TYPICAL)
    overhead = figure(Pose(bar=BarPose(at="overhead"), arms=ArmPose(to="bar"), grip="snatch"), TYPICAL)

    # tests/authorities/bar-and-discs.md: the largest discs are 450 mm, so the bar rests 22.5 cm high.
    assert floor.bar is not None
    assert floor.bar.at.y == 22.5
    arm = overhead.near_arm
    assert dist(arm.shoulder, arm.elbow) + dist(arm.elbow, arm.grip) == CM(
        dist(arm.shoulder, arm.grip), abs=1e-4
    )


def test_a_heel_under_the_shoe_lifts_the_ankle_and_leaves_the_sole_flat():
    flat, raised = figure(Pose(), TYPICAL), figure(Pose(heel_cm=2.0), TYPICAL)

    assert raised.near_leg.ankle.y > flat.near_leg.ankle.y + 0.8
    assert raised.near_leg.heel.y == CM(0, abs=1e-9)


def test_a_lean_to_the_side_takes_both_shoulders_along():
    made = figure(Pose(side=30), TYPICAL)

    assert made.shoulder.z > 0
    assert made.shoulder.x == CM(made.hip.x)
    assert made.near_arm.shoulder.y < made.shoulder.y < made.far_arm.shoulder.y
    assert dist(made.near_arm.shoulder, made.far_arm.shoulder) == CM(2 * TYPICAL.shoulder_half_cm)


def test_from_the_front_the_right_side_is_on_our_left():
    made = from_the_front(figure(Pose(arms=ArmPose(out=90)), TYPICAL))

    assert made.view == "front"
    assert made.near_arm.grip.x < -60 < 60 < made.far_arm.grip.x
    assert made.near_arm.grip.y == CM(made.shoulder.y)


def test_a_hand_reaches_aside_with_its_elbow_out():
    made = figure(Pose(arms=ArmPose(to="hip", aside=8, elbow="out")), TYPICAL)

    assert made.near_arm.grip.z == CM(made.near_leg.hip.z + 8)
    assert made.near_arm.elbow.z > made.near_arm.shoulder.z
    assert made.far_arm.elbow.z == CM(-made.near_arm.elbow.z)


def test_a_hand_leans_beside_a_lifter_who_sits():
    sitting = Pose(
        on="seat", trunk=-25, legs=LegPose(thigh=90, shin=-86, on="heel"), arms=ArmPose(upper=-40, on="hand")
    )
    for body in BODIES[:8]:
        made = figure(sitting, body)

        assert max(map(abs, gaps(made, sitting).values())) < 1e-6
        assert made.near_arm.grip.x < made.shoulder.x


def test_a_part_that_cannot_touch_is_measured():
    stuck = Pose(on="seat", raised_cm=200, legs=LegPose(on="flat"))

    assert gaps(figure(stuck, TYPICAL), stuck)["near leg"] > 50
