"""Drills for the joint that gives out first: few, moving, and none for a joint that hurts."""

from collections.abc import Iterable

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Region
from meetward.lifter.screen import Screen, TestId, results

MOST_DRILLS = 3
"""With fewer than four exercises more people do them (Bachmann 2018, 14 studies)."""

REGIONS: dict[str, tuple[Region, ...]] = {
    "ankle": ("ankle", "calf"),
    "ankle_pointed": ("ankle", "calf"),
    "toes": ("foot",),
    "knee": ("knee", "quads"),
    "hip": ("hip", "glutes", "adductors"),
    "hip_back": ("hip", "quads"),
    "shoulder": ("shoulder", "thoracic spine", "lats"),
    "elbow": ("elbow", "lats"),
    "wrist": ("wrist",),
    "rack": ("wrist", "lats", "shoulder"),
}
"""Where drills are looked for when a joint is short; "rack" is a front rack of which nobody knows what is
short. Common practice, no source."""

TESTED: dict[TestId, tuple[Region, ...]] = {
    "knee_to_wall": ("ankle", "calf"),
    "overhead_reach": ("shoulder", "thoracic spine", "lats"),
    "front_rack": ("wrist", "elbow", "lats", "shoulder"),
    "deep_squat_hold": ("ankle", "calf", "knee", "hip", "quads", "glutes", "adductors"),
    "behind_neck": ("shoulder", "thoracic spine"),
    "thoracic_rotation": ("thoracic spine",),
}
"""What hurts when a test was stopped because of pain: no drill is offered there."""

_KINDS = ("dynamic", "rehearsal")
_JOINT_OF: dict[TestId, str] = {"knee_to_wall": "ankle", "overhead_reach": "shoulder", "front_rack": "rack"}


def to_work_on(joints: Iterable[str], screen: Screen) -> tuple[str, ...]:
    """Of the joints that give out first in drawings those that a test speaks of, the weaker results first.

    A joint that nobody tested is drawn as usual and no drill follows from that; one whose test was passed is
    short because of another.
    """
    standing = {_JOINT_OF[one.test.id]: one for one in results(screen) if one.test.id in _JOINT_OF}
    drawn = [joint for joint in dict.fromkeys(joints) if joint in standing]
    weak = [joint for joint in drawn if standing[joint].standing == "worth working on"]
    measured = [
        joint
        for joint in drawn
        if standing[joint].standing == "fine" and standing[joint].test.mark is not None
    ]
    return tuple(weak + measured)


def drills_for(
    joints: Iterable[str], catalogue: Catalogue, painful: Iterable[TestId] = ()
) -> tuple[Drill, ...]:
    """At most three drills, the regions of the first joint in turn, then those of the next.

    Only what moves and holds nothing, because it may be done before heavy work; and nothing for a region that
    a painful test points to.
    """
    hurts = {region for test in painful for region in TESTED[test]}
    usable = [
        drill
        for drill in catalogue.drills.values()
        if drill.kind in _KINDS
        and not drill.held_s
        and {"warm-up", "between sets"} & {*drill.uses}
        and not hurts & {*drill.regions}
    ]
    found: list[Drill] = []
    regions = list(dict.fromkeys(region for joint in joints for region in REGIONS.get(joint, ())))
    while regions and len(found) < MOST_DRILLS:
        left = []
        for region in regions:
            mine = [drill for drill in usable if region in drill.regions and drill not in found]
            if mine and len(found) < MOST_DRILLS:
                found.append(min(mine, key=lambda drill: _rank(drill, region)))
                left.append(region)
        regions = left
    return tuple(found)


def _rank(drill: Drill, region: Region) -> tuple[int, int, bool, str]:
    """Those made for the region first, then by kind, then those that fit between sets."""
    return (
        drill.regions.index(region),
        _KINDS.index(drill.kind),
        "between sets" not in drill.uses,
        drill.id,
    )
