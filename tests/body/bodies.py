"""Random bodies for the tests of poses and drawings, the same ones in every run."""

from math import dist
from random import Random

from meetward.body.figure import Arm, Figure, Leg, Spot
from meetward.body.segments import Body, Measures, Sex, body_of, check_measures

_SEXES: tuple[Sex, ...] = ("men", "women")


def random_bodies(count: int, seed: int = 7) -> list[Body]:
    """Lifters from 145 to 200 cm with legs, trunks and arms that are long or short for their height."""
    random, made = Random(seed), []
    while len(made) < count:
        height = random.uniform(145, 200)
        measures = Measures(
            height_cm=height,
            sitting_height_cm=height * random.uniform(0.49, 0.55),
            arm_span_cm=height * random.uniform(0.94, 1.06),
        )
        mass = random.uniform(45, 140)
        if not check_measures(measures, mass):
            made.append(body_of(measures, mass, random.choice(_SEXES)))
    return made


def lengths(figure: Figure) -> dict[str, tuple[float, float]]:
    """Each segment's length in the figure and in its body. [cm]"""
    body = figure.body
    spine = dist(figure.hip, figure.waist) + dist(figure.waist, figure.shoulder)
    made = {"trunk": (spine, body.trunk_cm)}
    for side, leg, arm in (
        ("near", figure.near_leg, figure.near_arm),
        ("far", figure.far_leg, figure.far_arm),
    ):
        made |= _leg(side, leg, body) | _arm(side, arm, body)
    return made


def _leg(side: str, leg: Leg, body: Body) -> dict[str, tuple[float, float]]:
    return {
        f"{side} thigh": (dist(leg.hip, leg.knee), body.thigh_cm),
        f"{side} shank": (dist(leg.knee, leg.ankle), body.shank_cm),
        f"{side} foot": (dist(leg.heel, leg.ball) + dist(leg.ball, leg.toe), body.foot_cm),
    }


def _arm(side: str, arm: Arm, body: Body) -> dict[str, tuple[float, float]]:
    return {
        f"{side} upper arm": (dist(arm.shoulder, arm.elbow), body.upper_arm_cm),
        f"{side} forearm": (dist(arm.elbow, arm.wrist), body.forearm_cm),
    }


def lowest_cm(figure: Figure) -> float:
    """Height of the lowest joint or end over the floor. [cm]"""
    spots: list[Spot] = [figure.hip, figure.shoulder, figure.head]
    for limb in (figure.near_leg, figure.far_leg, figure.near_arm, figure.far_arm):
        spots += [getattr(limb, name) for name in limb.__struct_fields__]
    return min(spot.y for spot in spots)
