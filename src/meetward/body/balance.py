"""Where the weight of lifter and bar is, and the feet that have to carry it."""

from typing import NamedTuple

from meetward.body.figure import Arm, Figure, Leg, Spot
from meetward.body.segments import MASSES, Sex


class Weights(NamedTuple):
    """Shares of body mass, and spots of a segment's centre along it; limbs are one side's. [fraction]"""

    head: float
    head_at: float
    trunk: float
    trunk_at: float
    upper_arm: float
    upper_arm_at: float
    forearm: float
    forearm_at: float
    hand: float
    thigh: float
    thigh_at: float
    shank: float
    shank_at: float
    foot: float


def _weights(sex: Sex) -> Weights:
    table = MASSES[sex]
    limbs = ("upper arm", "forearm", "hand", "thigh", "shank", "foot")
    whole = table["head and neck"].percent + table["trunk"].percent
    whole += 2 * sum(table[limb].percent for limb in limbs)
    share = {name: mass.percent / whole for name, mass in table.items()}
    return Weights(
        share["head and neck"], table["head and neck"].centre,
        share["trunk"], table["trunk"].centre,
        share["upper arm"], table["upper arm"].centre,
        share["forearm"], table["forearm"].centre,
        share["hand"],
        share["thigh"], table["thigh"].centre,
        share["shank"], table["shank"].centre,
        share["foot"],
    )  # fmt: skip


WEIGHTS: dict[Sex, Weights] = {"men": _weights("men"), "women": _weights("women")}
"""The tables' percentages divided by their sum, which is 100 but for rounding."""


class Centre(NamedTuple):
    """A centre of mass and the mass it stands for. [cm, kg]"""

    x: float
    y: float
    mass_kg: float


def centre_of_mass(figure: Figure, bar_kg: float = 0.0) -> Centre:
    """The common centre of the lifter's segments and the bar, in the drawing.

    ``bar_kg`` counts where the figure has a bar that the lifter holds.
    """
    w = WEIGHTS[figure.body.sex]
    crown = crown_of(figure)
    parts: list[tuple[float, float, float]] = [
        _part(w.head, figure.shoulder, crown, w.head_at),
        _part(w.trunk, figure.shoulder, figure.hip, w.trunk_at),
    ]
    for leg in (figure.near_leg, figure.far_leg):
        parts += _leg(w, leg)
    for arm in (figure.near_arm, figure.far_arm):
        parts += _arm(w, arm)
    x = sum(share * px for share, px, _ in parts)
    y = sum(share * py for share, _, py in parts)
    mass = figure.body.mass_kg
    if figure.bar is not None and bar_kg:
        whole = mass + bar_kg
        at = figure.bar.at
        return Centre((mass * x + bar_kg * at.x) / whole, (mass * y + bar_kg * at.y) / whole, whole)
    return Centre(x, y, mass)


def crown_of(figure: Figure) -> Spot:
    """The top of the head, in the line from the shoulders through the head's middle."""
    from_shoulder = figure.body.neck_and_head_cm
    dx, dy = figure.head.x - figure.shoulder.x, figure.head.y - figure.shoulder.y
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    return Spot(
        figure.shoulder.x + dx / length * from_shoulder, figure.shoulder.y + dy / length * from_shoulder
    )


def _part(share: float, near: Spot, far: Spot, at: float) -> tuple[float, float, float]:
    return share, near.x + (far.x - near.x) * at, near.y + (far.y - near.y) * at


def _leg(w: Weights, leg: Leg) -> list[tuple[float, float, float]]:
    return [
        _part(w.thigh, leg.hip, leg.knee, w.thigh_at),
        _part(w.shank, leg.knee, leg.ankle, w.shank_at),
        _part(w.foot, leg.heel, leg.toe, 0.5),
    ]


def _arm(w: Weights, arm: Arm) -> list[tuple[float, float, float]]:
    return [
        _part(w.upper_arm, arm.shoulder, arm.elbow, w.upper_arm_at),
        _part(w.forearm, arm.elbow, arm.wrist, w.forearm_at),
        _part(w.hand, arm.wrist, arm.grip, 1.0),
    ]


def feet_span(figure: Figure) -> tuple[float, float]:
    """From the hindmost to the foremost spot of the soles that carry: as low as the lowest of them. [cm]"""
    soles = [spot for leg in (figure.near_leg, figure.far_leg) for spot in (leg.heel, leg.ball, leg.toe)]
    low = min(spot.y for spot in soles)
    carry = [spot.x for spot in soles if spot.y < low + _ON_THE_FLOOR_CM]
    return min(carry), max(carry)


_ON_THE_FLOOR_CM = 0.5
