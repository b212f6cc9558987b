"""The solver against slow independent searches: planar trigonometry over a grid, and the best of many
tries."""

from math import cos, hypot, radians, sin

import pytest
from msgspec.structs import replace

from meetward.body.balance import centre_of_mass
from meetward.body.pull import Pulling
from meetward.body.segments import (
    ANKLE_OF_FOOT,
    GRIP_OF_HAND,
    HEAD_OF_NECK_AND_HEAD,
    MASSES,
    Body,
    body,
)
from meetward.body.solve import USUAL, Sought, solve
from meetward.body.stand import NECK_FOLLOWS
from tests.body.positions import PULLS, odd_bodies

PLANAR = [replace(b, shoulder_half_cm=0.12 * b.height_cm) for b in odd_bodies(6, seed=3)]
"""Shoulders as wide as the narrow grip, so that straight arms lie in the drawing."""


def planar_offset(b: Body, s: float, t: float, lean: float, *, overhead: bool, bar_share: float) -> float:
    """The common centre ahead of mid-foot, by nothing but sines and the printed masses; feet narrow and
    straight. [cm]"""
    table = MASSES[b.sex]
    ankle_x = (ANKLE_OF_FOOT - 0.5) * b.foot_cm
    knee_x = ankle_x + b.shank_cm * sin(s)
    hip_x = knee_x - b.thigh_cm * cos(t)
    hip_y = b.ankle_height_cm + b.shank_cm * cos(s) + b.thigh_cm * sin(t)
    shoulder_x, shoulder_y = hip_x + b.trunk_cm * sin(lean), hip_y + b.trunk_cm * cos(lean)
    crown_x = shoulder_x + b.neck_and_head_cm * sin(NECK_FOLLOWS * lean)
    whole_arm = b.upper_arm_cm + b.forearm_cm + GRIP_OF_HAND * b.hand_cm
    forwards = -shoulder_x / whole_arm if overhead else 1.0
    assert shoulder_y > 0

    def between(near: float, far: float, part: str) -> float:
        return near + (far - near) * table[part].centre

    elbow_x = shoulder_x + forwards * b.upper_arm_cm
    wrist_x = elbow_x + forwards * b.forearm_cm
    grip_x = wrist_x + forwards * GRIP_OF_HAND * b.hand_cm
    parts = [
        (1, "head and neck", between(shoulder_x, crown_x, "head and neck")),
        (1, "trunk", between(shoulder_x, hip_x, "trunk")),
        (2, "thigh", between(hip_x, knee_x, "thigh")),
        (2, "shank", between(knee_x, ankle_x, "shank")),
        (2, "foot", 0.0),
        (2, "upper arm", between(shoulder_x, elbow_x, "upper arm")),
        (2, "forearm", between(elbow_x, wrist_x, "forearm")),
        (2, "hand", grip_x),
    ]
    mass = sum(n * table[part].percent for n, part, _ in parts)
    x = sum(n * table[part].percent * at for n, part, at in parts) / mass
    return x / (1 + bar_share)  # the bar itself is over mid-foot, at 0


@pytest.mark.parametrize("overhead", [False, True])
@pytest.mark.parametrize("ankle", [20.0, 30.0, 45.0])
@pytest.mark.parametrize("thigh", [45.0, 0.0, -15.0])
def test_squats_against_a_grid(overhead, ankle, thigh):
    """Of all balanced pairs of shank and trunk within the ankle's range, the lean nearest to the comfortable
    one."""
    for b in PLANAR:
        sought = Sought(
            bar="overhead" if overhead else "none",
            grip="narrow",
            stance="narrow",
            toes_out_degrees=0,
            heel_cm=0,
            thigh_degrees=thigh,
        )
        ranges = replace(USUAL, ankle=ankle, knee=170.0, hip=200.0, shoulder=250.0)
        solved = solve(sought, b, ranges, 0.5 * b.mass_kg)
        wanted = solve(sought, b, replace(ranges, ankle=62.0), 0.5 * b.mass_kg).angles.lean

        leans = balanced_leans(b, ankle, thigh, overhead=overhead)
        if not leans:
            assert any("weight would be" in why for why in solved.why)
            continue
        assert solved.angles.lean == pytest.approx(min(leans, key=lambda lean: abs(lean - wanted)), abs=0.5)


def balanced_leans(b: Body, ankle: float, thigh: float, *, overhead: bool) -> list[float]:
    """The trunk's balancing lean for every shank on a grid of a quarter degree, by the change of sign.
    [degrees]"""
    found = []
    for s in range(-80, int(ankle * 4) + 1):
        before = None
        for lean in range(-24, 85, 2):
            off = planar_offset(
                b, radians(s / 4), radians(thigh), radians(lean), overhead=overhead, bar_share=0.5
            )
            if before is not None and before < 0 <= off:
                found.append(lean - 2 * off / (off - before))
            before = off
    return found


@pytest.mark.parametrize("overhead", [False, True])
def test_balance_against_plain_trigonometry(overhead):
    for b in PLANAR:
        for thigh in (60.0, 20.0, -10.0):
            sought = Sought(
                bar="overhead" if overhead else "none",
                grip="narrow",
                stance="narrow",
                toes_out_degrees=0,
                heel_cm=0,
                thigh_degrees=thigh,
            )
            solved = solve(sought, b, replace(USUAL, ankle=50.0), 0.5 * b.mass_kg)
            off = planar_offset(
                b,
                radians(solved.angles.shin),
                radians(thigh),
                radians(solved.angles.lean),
                overhead=overhead,
                bar_share=0.5,
            )
            assert off == pytest.approx(0, abs=1e-6)


def test_the_room_s_own_centre_of_mass_against_plain_trigonometry():
    b = body(height_cm=180, mass_kg=90, sex="women")
    b = replace(b, shoulder_half_cm=0.12 * 180)
    sought = Sought(
        stance="narrow", toes_out_degrees=0, heel_cm=0, shin_degrees=20, thigh_degrees=10, lean_degrees=35
    )
    figure = solve(sought, b).figure
    off = planar_offset(b, radians(20), radians(10), radians(35), overhead=False, bar_share=0.0)
    assert centre_of_mass(figure).x == pytest.approx(off, abs=1e-9)
    assert hypot(figure.head.x - figure.shoulder.x, figure.head.y - figure.shoulder.y) == pytest.approx(
        HEAD_OF_NECK_AND_HEAD * b.neck_and_head_cm
    )


@pytest.mark.parametrize("name", sorted(PULLS))
def test_pulls_against_the_best_of_a_grid(name):
    """No pair of angles on a grid is better, by the same measure of a good pull, than the one that was
    found."""
    for b in odd_bodies(5, seed=19):
        pulling = Pulling(b, PULLS[name], USUAL, b.mass_kg)
        found = pulling.settle()
        cost = pulling.strain(found.ankle_lean, found.thigh)
        grid = min(
            pulling.strain(radians(s), radians(t)) for s in range(-20, 50, 2) for t in range(-20, 88, 3)
        )
        assert cost <= grid + 1e-6
