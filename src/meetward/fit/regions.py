"""Parts of the body behind joint ranges and families of lifts, and the limit on static holding.

The catalogue names joint ranges for movements and regions for drills; these tables join them. Common
practice, no source, save for the limit.
"""

from collections.abc import Iterable, Mapping

import msgspec

from meetward.catalogue.drill import Drill, Region
from meetward.catalogue.movement import Family, Motion, Position
from meetward.fit.drill_positions import DRILL_POSITIONS
from meetward.lifter.screen import Result, Screen, TestId, results

REGIONS: Mapping[Motion, tuple[Region, ...]] = {
    "ankle dorsiflexion": ("ankle", "calf"),
    "toe extension": ("foot",),
    "knee flexion": ("knee", "quads"),
    "knee extension": ("knee", "hamstrings"),
    "hip flexion": ("hip", "glutes", "adductors"),
    "hip extension": ("hip", "quads"),
    "hip rotation": ("hip", "glutes"),
    "hip abduction": ("adductors", "hip"),
    "hamstring length": ("hamstrings",),
    "thoracic extension": ("thoracic spine",),
    "thoracic rotation": ("thoracic spine",),
    "shoulder flexion": ("shoulder", "lats"),
    "shoulder extension": ("shoulder", "chest"),
    "shoulder rotation": ("shoulder", "chest"),
    "elbow flexion": ("elbow",),
    "elbow extension": ("elbow",),
    "wrist extension": ("wrist",),
    "neck extension": ("neck",),
}
"""Regions that a joint range hangs on, the joint first."""

DEMANDS: Mapping[Family, tuple[tuple[Region, ...], ...]] = {
    "snatch": (("ankle", "hip"), ("shoulder",), ("thoracic spine",)),
    "overhead": (("ankle", "hip"), ("shoulder",), ("thoracic spine",)),
    "clean": (("ankle", "hip"), ("wrist", "elbow", "lats"), ("thoracic spine",)),
    "clean and jerk": (("ankle", "hip"), ("wrist", "elbow", "shoulder"), ("thoracic spine",)),
    "jerk": (("shoulder",), ("thoracic spine", "wrist", "elbow"), ("hip", "foot")),
    "press": (("shoulder",), ("thoracic spine", "wrist", "elbow"), ()),
    "squat": (("hip", "ankle"), ("shoulder", "wrist"), ("thoracic spine",)),
    "pull": (("hip",), ("hamstrings",), ("ankle",)),
    "hinge": (("hip",), ("hamstrings",), ("ankle",)),
}
"""What a lift asks for first, second and third, for choosing drills; no degrees are claimed."""

WORKING: Mapping[Family, tuple[Region, ...]] = {
    "snatch": ("calf", "quads", "hamstrings", "glutes", "adductors", "trunk", "lats", "shoulder"),
    "clean": ("calf", "quads", "hamstrings", "glutes", "adductors", "trunk", "lats", "shoulder"),
    "clean and jerk": (
        "calf",
        "quads",
        "hamstrings",
        "glutes",
        "adductors",
        "trunk",
        "lats",
        "shoulder",
        "chest",
    ),
    "jerk": ("calf", "quads", "glutes", "trunk", "shoulder", "chest", "elbow"),
    "pull": ("calf", "quads", "hamstrings", "glutes", "adductors", "trunk", "lats"),
    "squat": ("quads", "glutes", "adductors", "hamstrings", "trunk", "calf"),
    "press": ("shoulder", "chest", "elbow", "trunk", "quads", "calf"),
    "overhead": ("shoulder", "trunk", "quads", "glutes", "adductors"),
    "hinge": ("hamstrings", "glutes", "trunk"),
    "upper back": ("lats", "shoulder", "elbow"),
    "single leg": ("quads", "glutes", "adductors", "calf"),
    "trunk": ("trunk",),
    "carry": ("trunk", "shoulder", "wrist"),
    "arms and shoulders": ("shoulder", "elbow", "chest"),
    "jump": ("calf", "quads", "glutes", "hamstrings"),
}
"""Muscles that do the work, by the name of the region that a stretch of them is filed under."""

JOINT_MUSCLES: Mapping[Region, tuple[Region, ...]] = {
    "ankle": ("calf",),
    "knee": ("quads", "hamstrings"),
    "hip": ("glutes", "adductors", "quads", "hamstrings"),
    "foot": ("calf",),
    "thoracic spine": ("lats",),
}
"""Muscles that a hold at a joint is counted for."""

PAINFUL_POSITIONS: Mapping[Region, tuple[Position, ...]] = {
    "shoulder": ("overhead", "receiving overhead", "behind the neck", "turnover"),
    "chest": ("overhead", "behind the neck"),
    "lats": ("overhead", "receiving overhead"),
    "elbow": ("overhead", "front rack", "turnover"),
    "wrist": ("overhead", "front rack", "turnover"),
    "knee": ("bottom", "dip", "split", "landing"),
    "quads": ("bottom", "split", "landing"),
    "hip": ("bottom", "split", "hinge"),
    "ankle": ("bottom", "landing"),
    "calf": ("bottom", "landing"),
    "foot": ("landing", "split"),
    "hamstrings": ("hinge",),
    "thoracic spine": ("overhead", "hinge"),
    "neck": ("behind the neck",),
}
"""Positions that a drill does not go to while a region hurts, whatever regions it names itself."""

_NO_MUSCLES: frozenset[Region] = frozenset({"whole body", "breathing"})

STATIC_LIMIT_S = 60
"""Static seconds on a muscle that are never reached from the start of the session to its last heavy set."""

STATIC_SOURCE = (
    "60 s and more a muscle before lifting: 4.6 % weaker, under 60 s 1.1 % (Behm et al. 2016, Appl Physiol "
    "Nutr Metab 41:1-11); loss likely from 60 s (Kay and Blazevich 2012, Med Sci Sports Exerc 44:154-164)"
)

MOST_TESTS = 2
"""Limiting positions that are worked on at a time. Common practice, no source."""


class Need(msgspec.Struct, frozen=True):
    """A position that is below its mark, and the regions that work on it, the nearest first."""

    test: TestId
    name: str
    regions: tuple[Region, ...]


class Needs(msgspec.Struct, frozen=True):
    """What a screen asks for.

    now : worked on at present, the most limiting first; one or two.
    later : below their mark too, but not yet their turn.
    painful : regions of tests that were stopped because of pain; nothing is offered for them.
    said : sentences for the coach and the lifter.
    """

    now: tuple[Need, ...]
    later: tuple[Need, ...] = ()
    painful: frozenset[Region] = frozenset()
    said: tuple[str, ...] = ()


def needs(screen: Screen | None, first: Iterable[TestId] = ()) -> Needs:
    """The positions to work on: below their mark, at most two at a time; a test not done asks for nothing.

    first : tests that the coach wants worked on before the others; otherwise the order of the screen.
    """
    if screen is None:
        return Needs((), said=("No mobility screen yet, so no position is known to need work.",))
    found = results(screen)
    chosen = list(first)
    below = [_need(one) for one in found if one.standing == "worth working on"]
    below.sort(key=lambda need: chosen.index(need.test) if need.test in chosen else len(chosen))
    painful = frozenset(region for one in found if one.standing == "pain" for region in _regions(one))
    now, later = tuple(below[:MOST_TESTS]), tuple(below[MOST_TESTS:])
    said = []
    if now:
        said.append(f"Worked on now: {' and '.join(need.name.lower() for need in now)}.")
    if later:
        said.append(
            f"Later: {', '.join(need.name.lower() for need in later)}. One or two at a time; test again "
            "after four to eight weeks."
        )
    for one in found:
        if one.standing == "pain":
            said.append(
                f"{one.test.name} was stopped because of pain: nothing is offered for it. A physiotherapist "
                "or doctor has the word."
            )
    return Needs(now, later, painful, tuple(said))


def touches(drill: Drill, painful: Iterable[Region]) -> bool:
    """Whether a drill works on a region that hurts, or goes to a position that asks for it."""
    positions = DRILL_POSITIONS.get(drill.id, ())
    return any(
        region in drill.regions or any(p in positions for p in PAINFUL_POSITIONS.get(region, ()))
        for region in painful
    )


def held_muscles(drill: Drill) -> frozenset[Region]:
    """Muscles that a drill's static seconds are counted for: those it names, else those of its joints."""
    named = [region for region in drill.regions if region not in JOINT_MUSCLES and region not in _NO_MUSCLES]
    return frozenset(named or [muscle for joint in drill.regions for muscle in JOINT_MUSCLES.get(joint, ())])


def static_verdict(seconds: int, times: int = 1) -> tuple[bool, str]:
    """Whether so many static holds of a muscle may stand before its heavy sets, and the sentence.

    seconds : of one hold. [s]
    """
    total = seconds * times
    if total < STATIC_LIMIT_S:
        return True, f"{total} s in all: allowed, with movement and warm-up sets after it."
    return False, f"{total} s in all: move it to the end, or to another day ({STATIC_SOURCE})."


def _need(result: Result) -> Need:
    return Need(result.test.id, result.test.name, _regions(result))


def _regions(result: Result) -> tuple[Region, ...]:
    """The joints of all the test's ranges before the muscles around them."""
    rows = [REGIONS[motion] for motion in result.test.points_to]
    joints, around = [row[0] for row in rows], [region for row in rows for region in row[1:]]
    return tuple(dict.fromkeys((*joints, *around)))
