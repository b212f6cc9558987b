"""Why a week cannot stand on the days as the rules want it: a smallest set of rules that collide."""

from itertools import combinations

import msgspec

from meetward.fit.week_days_case import Case, WarmUp
from meetward.fit.week_days_proof import possible

NO_LIMIT_S = 10**6
LIFTS = ("snatch", "clean and jerk")

HARD = ("minutes", "warm-up", "competition lifts: snatch", "competition lifts: clean and jerk")
"""Rules that can collide once there is a day to train on; the last two are one rule for two lifts."""


def collisions(case: Case) -> tuple[str, ...]:
    """The rules of a smallest set that no plan obeys together; empty where all can be obeyed.

    Of several smallest sets the first in the order of ``HARD``. Raises TimeoutError when the solver does not
    settle a set in time.
    """
    if fits(case, HARD):
        return ()
    for size in range(1, len(HARD)):
        for rules in combinations(HARD, size):
            if any(each.startswith("competition") for each in rules) and not fits(case, rules):
                return rules
    return HARD


def fits(case: Case, rules: tuple[str, ...]) -> bool:
    """Whether a plan obeys these rules, with the other hard ones given up."""
    content = case.content
    if "warm-up" not in rules:
        none = tuple(WarmUp(0, 0, 0) for _ in content.warm_ups)
        content = msgspec.structs.replace(content, warm_ups=none)
    relaxed = msgspec.structs.replace(
        case,
        content=content,
        limits_s=case.limits_s if "minutes" in rules else (NO_LIMIT_S,) * len(case.limits_s),
        needs=tuple(
            need if f"competition lifts: {lift}" in rules else 0
            for lift, need in zip(LIFTS, case.needs, strict=True)
        ),
    )
    return possible(relaxed) is not None
