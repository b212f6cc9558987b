"""What drawings take for a lifter's lengths and joints, and where each figure is from."""

from typing import Literal

import msgspec

from meetward.body.ranges import USUAL, AnkleRange, Ranges, ankle_from_knee_to_wall
from meetward.body.segments import TYPICAL, Body, Measures, body_of
from meetward.lifter.profile import Lifter
from meetward.lifter.screen import Screen, TestId

LOW_SHOULDER, LOW_WRIST = 156.0, 45.0
"""Ranges of a drawing where the overhead reach or the front rack was not passed. An example, not measured:
156 is the lowest published sample of shoulder flexion (physiotherapy textbook's table); 45 at the wrist is
custom, short enough that the elbows stay under the bar, which is what the test showed. [degrees]"""

HEALTHY_CM = (9.2, 14.8)
"""Knee to wall of most healthy adults: mean 12, standard deviation 2.8, 35 adults (Hoch and McKeon 2011, read
in a physiotherapist's summary). [cm]"""

KG_FOR_A_SQUARE_METRE = 24.0
"""Bodyweight that is drawn where none is known, over the square of the height. Custom. [kg/m2]"""

From = Literal["measured", "not measured", "pain"]


class Taken(msgspec.Struct, frozen=True):
    """A lifter as drawings take them.

    own_lengths : the body is theirs; False for a lifter of middling height.
    own_weight : whether the bodyweight is known.
    ankle : what the knee-to-wall test points to; without it what most healthy adults have.
    ankle_cm, ankle_side : the stiffer side's distance, and which it is; "" where both are the same. [cm]
    ranges : all other joints.
    examples : tests that were not passed, so that a joint is drawn shorter than usual, as an example.
    painful : tests that were stopped because of pain.
    squats_deep : whether the deep squat hold was passed; None where nobody knows.
    """

    body: Body
    own_lengths: bool
    own_weight: bool
    ankle: AnkleRange
    ankle_from: From
    ankle_cm: float = 0.0
    ankle_side: str = ""
    ranges: Ranges = USUAL
    examples: tuple[TestId, ...] = ()
    passed: tuple[TestId, ...] = ()
    painful: tuple[TestId, ...] = ()
    squats_deep: bool | None = None


def taken_for(lifter: Lifter, measures: Measures, screen: Screen) -> Taken:
    """What drawings take for this lifter. A test that was not done is unknown, never a pass.

    Raises ``body.segments.MeasuresDontFit`` for measures that nobody has; none such are saved.
    """
    body = _body(lifter, measures)
    examples: list[TestId] = []
    ranges = USUAL
    # Where both are in doubt both are shorter: each test stands for itself.
    if screen.overhead_reach is False:
        examples.append("overhead_reach")
        ranges = msgspec.structs.replace(ranges, shoulder=LOW_SHOULDER)
    if screen.front_rack is False:
        examples.append("front_rack")
        ranges = msgspec.structs.replace(ranges, wrist=LOW_WRIST)
    ankle, source, cm, side = _ankle(body, screen)
    tests: tuple[TestId, ...] = ("overhead_reach", "front_rack", "deep_squat_hold", "behind_neck")
    return Taken(
        body=body,
        own_lengths=bool(measures.height_cm),
        own_weight=bool(_known_kg(lifter)),
        ankle=ankle,
        ankle_from=source,
        ankle_cm=cm,
        ankle_side=side,
        ranges=ranges,
        examples=tuple(examples),
        passed=tuple(test for test in tests if getattr(screen, test)),
        painful=screen.painful,
        squats_deep=screen.deep_squat_hold,
    )


def mass_kg_of(lifter: Lifter, height_cm: float) -> float:
    """Bodyweight where it is known and can be; else a middling one for the height. [kg]"""
    return _known_kg(lifter) or max(20.0, KG_FOR_A_SQUARE_METRE * (height_cm / 100) ** 2)


def _known_kg(lifter: Lifter) -> float:
    """0 where it is not known, or where nobody weighs so much or so little."""
    kg = (lifter.bodyweight_dag or 0) / 100
    return kg if 20 <= kg <= 250 else 0.0


def _body(lifter: Lifter, measures: Measures) -> Body:
    sex = lifter.category or TYPICAL.sex
    measures = measures if measures.height_cm else Measures(height_cm=TYPICAL.height_cm)
    return body_of(measures, mass_kg_of(lifter, measures.height_cm), sex)


def _ankle(body: Body, screen: Screen) -> tuple[AnkleRange, From, float, str]:
    sides = {
        side: value for side in ("left", "right") if (value := getattr(screen.knee_to_wall, side)) is not None
    }
    if not sides:
        low, high = (ankle_from_knee_to_wall(body, cm).typical for cm in HEALTHY_CM)
        whole = AnkleRange(min(low, USUAL.ankle), USUAL.ankle, max(high, USUAL.ankle))
        return whole, "pain" if "knee_to_wall" in screen.painful else "not measured", 0.0, ""
    stiffer = min(sides, key=lambda side: sides[side])
    alike = len(set(sides.values())) == 1 and len(sides) == 2
    return ankle_from_knee_to_wall(body, sides[stiffer]), "measured", sides[stiffer], "" if alike else stiffer
