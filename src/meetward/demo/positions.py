"""What three invented lifters measured: stiff ankles, a short front rack, and nothing yet."""

from datetime import date

import msgspec

from meetward.body.segments import Measures
from meetward.lifter.screen import Screen, Sides


class Measured(msgspec.Struct, frozen=True):
    """One lifter's measures and days of tests; ``key`` as in the squad."""

    key: str
    measures: Measures
    screens: tuple[Screen, ...]


NOTHING_YET = "ilse-vandermeer"
"""The lifter whose page is still to be filled."""


def positions() -> tuple[Measured, ...]:
    """Stiff ankles, measured twice within the test's error; and a short front rack over ankles that do."""
    stiff_ankles = Measured(
        "tobias-marr",
        Measures(height_cm=171, sitting_height_cm=88, thigh_cm=43.5, shank_cm=42),
        (
            Screen(
                taken=date(2026, 9, 12),
                knee_to_wall=Sides(6.5, 8),
                overhead_reach=True,
                front_rack=True,
                deep_squat_hold=False,
            ),
            Screen(taken=date(2026, 11, 7), knee_to_wall=Sides(8, 10)),
        ),
    )
    short_rack = Measured(
        "mehwish-qadri",
        Measures(height_cm=164, arm_span_cm=168),
        (
            Screen(
                taken=date(2026, 10, 31),
                knee_to_wall=Sides(12.5, 12),
                overhead_reach=True,
                front_rack=False,
                deep_squat_hold=True,
                thoracic_rotation=Sides(46, 52),
            ),
        ),
    )
    return stiff_ankles, short_rack
