"""The mobility screen: what a coach can test with a wall and a stick, what it is worth, and what it says.

Every mark carries its source. None of them was measured on weightlifters, and none predicts or prevents an
injury: a screen says which position is worth working on, and talks to the coach.
"""

from datetime import date
from typing import Literal

import msgspec

from meetward.catalogue.movement import Motion

TestId = Literal[
    "knee_to_wall", "overhead_reach", "front_rack", "deep_squat_hold", "behind_neck", "thoracic_rotation"
]


class ScreenTest(msgspec.Struct, frozen=True):
    """A test: how to do it, what healthy adults do, and how far one measurement can be off.

    unit : "cm", "degrees", or empty where it is passed or not.
    points_to : the joint ranges that it says something about.
    mark : below it, the position is worth working on; None where it is passed or not.
    change : a difference under it may be measuring error; None where nobody has published one.
    side_difference : between left and right, above it worth a look; None where there is no such figure.
    norm : what is known of other people, in words.
    """

    id: TestId
    name: str
    unit: Literal["cm", "degrees", ""]
    how: str
    points_to: tuple[Motion, ...]
    norm: str
    source: str
    mark: float | None = None
    mark_source: str = ""
    change: float | None = None
    change_source: str = ""
    side_difference: float | None = None


TESTS: tuple[ScreenTest, ...] = (
    ScreenTest(
        "knee_to_wall",
        "Knee to wall",
        "cm",
        "Barefoot, heel down, knee touches the wall over the second toe. Greatest distance from the big toe "
        "to the wall, to half a centimetre, each side.",
        ("ankle dorsiflexion",),
        "Healthy adults: mean about 12 cm, standard deviation 2.8 (35 adults).",
        "Hoch and McKeon 2011, Manual Therapy 16:516-519, read in a physiotherapist's summary",
        mark=10.0,
        mark_source="common practice, no source",
        change=2.0,
        change_source="Powden, Hoch and Hoch 2015, Manual Therapy: 1.9 cm, one rater",
        side_difference=1.5,
    ),
    ScreenTest(
        "overhead_reach",
        "Overhead reach at the wall",
        "",
        "Back, head and lower ribs on the wall, elbows straight: do both thumbs reach the wall?",
        ("shoulder flexion", "thoracic extension"),
        "No published figures for the wall. Goniometer norms of shoulder flexion run from 156 to 188 degrees "
        "by sample.",
        "physiotherapy textbook table (AAOS, Boone and Azen and others); "
        "pass mark: common practice, no source",
    ),
    ScreenTest(
        "front_rack",
        "Front rack",
        "",
        "Empty bar on the shoulders: elbows at least as high as the bar, two fingers or more under it?",
        ("wrist extension", "elbow flexion", "shoulder rotation"),
        "No published figures for the rack. Norms of wrist extension run from 63 to 86 degrees by sample.",
        "physiotherapy textbook table (AAOS and others); pass mark: common practice, no source",
    ),
    ScreenTest(
        "deep_squat_hold",
        "Deep squat hold",
        "",
        "Heels down, thighs on the calves, five seconds without holding on?",
        ("ankle dorsiflexion", "hip flexion", "knee flexion"),
        "55 of 71 young men in Japan managed it with the feet together.",
        "Kasuyama et al. 2009, J Phys Ther Sci, read in a physiotherapist's summary",
    ),
    ScreenTest(
        "behind_neck",
        "Behind the neck",
        "",
        "Stick on the upper back, clean grip: elbows under it and the head up, without pain?",
        ("shoulder rotation", "shoulder extension", "thoracic extension"),
        "No published figures.",
        "common practice, no source",
    ),
    ScreenTest(
        "thoracic_rotation",
        "Rotation of the upper back",
        "degrees",
        "Sit back on the heels, one forearm on the floor, other hand behind the head, turn up; phone on the "
        "upper back. Mean of three, each side.",
        ("thoracic rotation", "thoracic extension"),
        "No population figures were found for this way of measuring.",
        "J Athletic Training 2012, 47:52-60, 46 healthy adults, for the error only",
        mark=50.0,
        mark_source="a physiotherapist's page; common practice, no source",
        change=6.0,
        change_source="J Athletic Training 2012, 47:52-60: 2.1 to 6.3 degrees by method and rater",
    ),
)
"""In the order in which a coach goes through them."""


class Sides(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One figure a side; None where that side was not measured."""

    left: float | None = None
    right: float | None = None


class Screen(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A lifter's results: health data. A test that was not done is unknown, never a pass.

    taken : the day of the tests.
    knee_to_wall : [cm]
    thoracic_rotation : [degrees]
    painful : tests that were stopped because of pain; they have no result.
    """

    taken: date | None = None
    knee_to_wall: Sides = Sides()
    overhead_reach: bool | None = None
    front_rack: bool | None = None
    deep_squat_hold: bool | None = None
    behind_neck: bool | None = None
    thoracic_rotation: Sides = Sides()
    painful: tuple[TestId, ...] = ()


Standing = Literal["unknown", "pain", "worth working on", "fine"]


class Result(msgspec.Struct, frozen=True):
    """What one test says, in words that a lifter can read.

    standing : "worth working on" below the mark or not passed; "fine" says only that the test was passed.
    said : sentences; the error of the test stands among them.
    """

    test: ScreenTest
    standing: Standing
    said: tuple[str, ...]


def results(screen: Screen) -> tuple[Result, ...]:
    """Every test with its standing, in the order of `TESTS`."""
    return tuple(_result(test, screen) for test in TESTS)


def changed(test: ScreenTest, before: float, now: float) -> str:
    """Whether a second measurement says more than measuring error; a sentence.

    Raises ValueError for a test without a published error: nothing can be said there.
    """
    if test.change is None:
        raise ValueError(f"Nobody has published the error of '{test.name}'.")
    difference = now - before
    words = f"{before:g} to {now:g} {test.unit}"
    if abs(difference) < test.change:
        return f"{test.name}: {words}. That is within measuring error ({test.change_source})."
    return f"{test.name}: {words}. That is {'more' if difference > 0 else 'less'} than measuring error."


def _result(test: ScreenTest, screen: Screen) -> Result:
    if test.id in screen.painful:
        said = "Stopped because of pain: no result. Show it to a physiotherapist or doctor before loading it."
        return Result(test, "pain", (said,))
    value: Sides | bool | None = getattr(screen, test.id)
    if isinstance(value, Sides):
        return _measured(test, value)
    if value is None:
        return Result(test, "unknown", ("Not tested yet.",))
    if value:
        return Result(test, "fine", ("Passed.",))
    return Result(test, "worth working on", ("Not passed.",))


def _measured(test: ScreenTest, sides: Sides) -> Result:
    given = [(side, value) for side in ("left", "right") if (value := getattr(sides, side)) is not None]
    if not given:
        return Result(test, "unknown", ("Not tested yet.",))
    said = [" and ".join(f"{value:g} {test.unit} {side}" for side, value in given) + "."]
    below = [side for side, value in given if test.mark is not None and value < test.mark]
    if below:
        said.append(
            f"Under the working mark of {test.mark:g} {test.unit} ({test.mark_source}): "
            f"{' and '.join(below)}. A second measurement may differ by {test.change:g} {test.unit}."
        )
    if len(given) == 2 and test.side_difference is not None:
        # Halves of a centimetre are exact in binary, other figures may miss the limit by a rounding.
        difference = round(abs(given[0][1] - given[1][1]), 6)
        if difference > test.side_difference:
            said.append(
                f"The sides differ by {difference:g} {test.unit}; a healthy minority has as much. "
                "Worth a look, not a fault."
            )
    return Result(test, "worth working on" if below else "fine", tuple(said))
