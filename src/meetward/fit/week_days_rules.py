"""The rules by which a week is fitted to a lifter's days, as data: what each says, its figure, its source.

A figure is in points where it weighs something. One point is a sixth of a minute of a competition lift, so
"joined session: 40" says that two sessions are joined to gain seven minutes of work, and not for less.
"""

from collections.abc import Iterable, Mapping

import msgspec

from meetward.catalogue.movement import COMMON_PRACTICE, Family


class DayRule(msgspec.Struct, frozen=True):
    """A rule a coach would say aloud.

    id : plain short name; stable.
    says : the rule with its reason, in a sentence.
    figure : its default; 0 switches a rule off that has a cost.
    unit : of the figure, in words.
    hard : whether it is never broken, whatever it costs.
    source : publication, or "common practice, no source".
    """

    id: str
    says: str
    figure: int
    unit: str
    hard: bool = False
    source: str = COMMON_PRACTICE


RULES = (
    DayRule(
        "minutes",
        "A day never takes longer than the lifter has.",
        1,
        "always",
        True,
    ),
    DayRule(
        "warm-up",
        "Every training day begins with the warm-up of the session that gives most of it; where "
        "time is short its last part, which stands next to the lifts, is kept.",
        1,
        "always",
        True,
    ),
    DayRule(
        "order",
        "Sessions keep the coach's order. A day draws on one of the coach's days, or on two that "
        "are joined; one that is joined stands on that day only.",
        1,
        "always",
        True,
    ),
    DayRule(
        "competition lifts",
        "Snatch and clean and jerk stand on two days of the week where the coach wrote them on two: "
        "skill fades when it is practised once a week.",
        2,
        "days",
        True,
    ),
    DayRule(
        "nearness to the meet",
        "In the week of the meet no line comes more than a day nearer to it than the coach wrote, "
        "so that nobody is tired on the platform.",
        1,
        "days",
        True,
    ),
    DayRule(
        "key line",
        "A key line is left out last of all, where the rules that are never broken leave a choice.",
        1,
        "on",
    ),
    DayRule(
        "key session",
        "Lines of a key session weigh more than those of another.",
        150,
        "percent",
    ),
    DayRule(
        "could",
        "A line that could be done weighs half of one that should.",
        50,
        "percent",
    ),
    DayRule(
        "first half",
        "The first half of each family's work counts so much on top, so that a short week keeps "
        "some of everything rather than everything of some.",
        100,
        "percent",
    ),
    DayRule(
        "joined session",
        "A day is one session, with its aim and its warm-up; to join two has to be worth it.",
        40,
        "points",
    ),
    DayRule(
        "split session",
        "More days never split a session by force; to split one has to be worth it.",
        20,
        "points a day",
    ),
    DayRule(
        "consecutive days",
        "Heavy pulls, heavy squats and heavy overhead work are not for two days running, unless the "
        "coach wrote those two sessions on two days running.",
        30,
        "points a family",
    ),
    DayRule(
        "same day",
        "Two sessions' heavy pulls, heavy squats or heavy overhead work are not for one day.",
        30,
        "points a family and session",
    ),
    DayRule(
        "short warm-up",
        "A warm-up is cut only for work that is worth more.",
        4,
        "points a minute",
    ),
    DayRule(
        "heavy pulls",
        "A pull is heavy from this share of the lift it stands on.",
        900,
        "permille",
    ),
    DayRule(
        "heavy squats",
        "A squat is heavy from this share of its best.",
        700,
        "permille",
    ),
    DayRule(
        "heavy overhead",
        "A jerk, press or overhead squat is heavy from this share of its best.",
        700,
        "permille",
    ),
)
"""Every rule with its default, hard ones first. All are common practice: no trial has settled a figure."""


class Weighs(msgspec.Struct, frozen=True):
    """What a family weighs in a week, and where it stands in a day.

    group : families whose first half is looked at together.
    points : for each minute of it.
    place : speed and technique first, then strength, then accessories.
    """

    group: int
    points: int
    place: int


# Groups: 0 snatch, 1 clean and jerk, 2 squat, 3 pull, 4 overhead and press, 5 accessories.
FAMILIES: Mapping[Family, Weighs] = {
    "snatch": Weighs(0, 6, 0),
    "clean": Weighs(1, 6, 1),
    "clean and jerk": Weighs(1, 6, 1),
    "jerk": Weighs(1, 6, 2),
    "jump": Weighs(5, 2, 2),
    "overhead": Weighs(4, 4, 3),
    "pull": Weighs(3, 4, 4),
    "squat": Weighs(2, 5, 5),
    "press": Weighs(4, 4, 6),
    "hinge": Weighs(3, 3, 6),
    "upper back": Weighs(5, 2, 7),
    "single leg": Weighs(5, 2, 7),
    "trunk": Weighs(5, 2, 7),
    "carry": Weighs(5, 2, 7),
    "arms and shoulders": Weighs(5, 2, 7),
}
"""Common practice, no source: competition lifts first, then squats, then pulls and overhead work."""

OTHER = Weighs(5, 2, 7)
"""What the catalogue does not know, and drills among the lifts."""

HEAVY: tuple[tuple[str, tuple[Family, ...]], ...] = (
    ("heavy pulls", ("pull",)),
    ("heavy squats", ("squat",)),
    ("heavy overhead", ("jerk", "press", "overhead")),
)
"""Families that want a day between them; the names are those of the rules with their limits."""

DEFAULTS: Mapping[str, int] = {rule.id: rule.figure for rule in RULES}


def figures(changes: Mapping[str, int] | Iterable[tuple[str, int]] = ()) -> dict[str, int]:
    """The figures of all rules, with those that the coach changed.

    Raises ValueError for a rule that does not exist or a figure below nothing.
    """
    changed = dict(changes)
    for id_, figure in changed.items():
        if id_ not in DEFAULTS:
            raise ValueError(f"There is no rule '{id_}'. Rules: {', '.join(DEFAULTS)}.")
        if rule(id_).unit == "always":
            raise ValueError(f"The rule '{id_}' cannot be changed.")
        if figure < 0:
            raise ValueError(f"The rule '{id_}' is {figure}; give 0 or more.")
    return {**DEFAULTS, **changed}


def rule(id_: str) -> DayRule:
    """The rule of that name."""
    return next(each for each in RULES if each.id == id_)
