"""Positions and bodies for the tests of the solver: what lifts and squats ask for, lifters of every build."""

from random import Random

from msgspec.structs import replace

from meetward.body.segments import Body, Sex, body
from meetward.body.sought import Sought

SQUATS = {
    "front squat": Sought(bar="front rack", thigh_degrees=-18, heel_cm=2),
    "overhead squat": Sought(bar="overhead", grip="snatch", thigh_degrees=-18, heel_cm=2),
    "back squat": Sought(bar="back rack", thigh_degrees=-15, heel_cm=2),
    "squat": Sought(thigh_degrees=-20),
    "half squat": Sought(bar="back rack", thigh_degrees=20, stance="hips"),
    "squat jerk": Sought(bar="overhead", hip_over_knee_cm=-5.0, stance="hips", heel_cm=2),
}
STANDING = {
    "rack": Sought(bar="front rack", heel_cm=2),
    "jerk dip": Sought(bar="front rack", dip_percent=10, elbow_degrees=-30, heel_cm=2),
    "overhead": Sought(bar="overhead", grip="snatch", heel_cm=2),
    "power snatch": Sought(bar="overhead", grip="snatch", knee_degrees=80, heel_cm=2),
    "power position": Sought(bar="hanging", grip="snatch", knee_degrees=40, lean_degrees=10, heel_cm=2),
    "standing with the bar": Sought(bar="hanging"),
    "press": Sought(bar="pressed", height="forehead"),
    "press behind the neck": Sought(bar="behind neck", height="crown", grip="snatch"),
    "bar on the back": Sought(bar="back rack"),
    "good morning": Sought(bar="back rack", lean_degrees=65, knee_degrees=15),
}
TOES = {
    "extension": Sought(bar="hanging", grip="snatch", feet="toes", heel_cm=2),
    "high pull": Sought(bar="pulled", height="chest", grip="snatch", feet="toes"),
    "drive": Sought(bar="front rack", feet="toes", elbow_degrees=-30),
}
PULLS = {
    "snatch start": Sought(bar="floor", grip="snatch", heel_cm=2),
    "clean start": Sought(bar="floor", heel_cm=2),
    "deficit": Sought(bar="floor", stands_on_cm=6),
    "mid shin": Sought(bar="hanging", height="mid shin", grip="snatch", heel_cm=2),
    "below the knee": Sought(bar="hanging", height="below knee"),
    "at the knee": Sought(bar="hanging", height="knee", grip="snatch", heel_cm=2),
    "above the knee": Sought(bar="hanging", height="above knee", heel_cm=2),
    "mid thigh": Sought(bar="hanging", height="mid thigh", grip="snatch"),
    "blocks": Sought(bar="hanging", bar_cm=48),
    "hinge": Sought(bar="hanging", height="below knee", knee_degrees=20),
}
SPLITS = {
    "split jerk": Sought(bar="overhead", feet="split", heel_cm=2),
    "split in the rack": Sought(bar="front rack", feet="split", split_degrees=45),
    "lunge": Sought(bar="back rack", feet="split", split_degrees=5, rear_knee_degrees=95),
}
FLAT = SQUATS | STANDING | PULLS
ALL = FLAT | TOES | SPLITS

_SEXES: tuple[Sex, ...] = ("men", "women")


def odd_bodies(count: int, seed: int = 11) -> list[Body]:
    """Bodies whose every segment is up to 12 percent longer or shorter than the tables have it."""
    random, made = Random(seed), []
    for _ in range(count):
        plain = body(
            height_cm=random.uniform(140, 205),
            mass_kg=random.uniform(40, 160),
            sex=random.choice(_SEXES),
        )
        parts = ("foot_cm", "shank_cm", "thigh_cm", "trunk_cm", "upper_arm_cm", "forearm_cm", "hip_half_cm")
        made.append(replace(plain, **{p: getattr(plain, p) * random.uniform(0.88, 1.12) for p in parts}))
    return made
