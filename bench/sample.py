"""A made-up cycle of 14 weeks x 5 sessions as text, and made-up squads to follow it."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from meetward.barbell.discs import BarAndDiscs
from meetward.barbell.standard import club_kit, competition_kit
from meetward.fit.squad import Squad
from meetward.fit.targets import Reference
from meetward.lifter.bests import Best
from meetward.lifter.profile import Lifter

TODAY = date(2027, 1, 4)
KITS: tuple[BarAndDiscs, ...] = (club_kit(), club_kit(1_500), competition_kit(1_500))
WEEKS = 14
SETS = WEEKS * 5 * 24

# 24 sets a day; a is the percentage of the week, b and c are five and ten more, and so on.
DAYS = {
    "Monday: Snatch and back squat (key)": (
        "Snatch {a}%/3 {b}%/2x2 {c}%/1x2",
        "Snatch pull 4x3 @ {e}%",
        "Back squat {a}%/5 {b}%/5 {c}%/5x3",
        "Push press 4x5 @ {a}%",
        "Romanian deadlift 3x8 @ 50%",
        "Pull-up 3x8",
    ),
    "Tuesday: Power and front squat": (
        "Power clean + power jerk 5x(1+1) @ {a}%",
        "Clean pull 4x3 @ {e}% of clean",
        "Front squat 5x3 @ {b}%",
        "Snatch balance 4x2 @ {a}% of snatch",
        "Strict press 3x6 @ {a}%",
        "Barbell row 3x8 @ RPE 7",
    ),
    "Wednesday: Technique": (
        "Power snatch {z}%/2 {a}%/2x2 {b}%/2x2",
        "Overhead squat 4x3 @ {a}% of snatch",
        "Jerk 5x2 @ {b}%",
        "Good morning 4x6 @ 40% of back squat",
        "Pull-up 3x6",
        "Back extension 3x10",
    ),
    "Friday: Clean and jerk (key)": (
        "Hang snatch 5x2 @ {a}-{b}%",
        "Clean & jerk {a}%/2 {b}%/1x2 {c}%/1x2",
        "Snatch deadlift 4x3 @ {f}%",
        "Back squat 4x4 @ {b}%",
        "Barbell row 3x8 @ RPE 8",
        "Back extension 3x10",
    ),
    "Saturday: Both lifts": (
        "Snatch 6x1 @ {d}%",
        "Clean & jerk 5x1 @ {d}%",
        "Front squat 5x2 @ {c}%",
        "Clean pull + clean 4x(1+1) {b}%",
        "Push press 4x3 @ {b}%",
    ),
}


def cycle_text() -> str:
    """The cycle in notation: some 500 lines, 1,680 sets."""
    lines = ["Cycle: Fourteen weeks", "Order: sets first", "Bare loads: percent", f"Start: {TODAY}", ""]
    for week in range(1, WEEKS + 1):
        if week % 5 == 1:
            lines += [f"Phase: {('Base', 'Build', 'Peak')[week // 5]}"]
        lines += [f"Week {week}: {'lighter' if week % 4 == 0 else 'load'}"]
        a = 62 + week - (8 if week % 4 == 0 else 0)
        steps = {"z": a - 5, "a": a, "b": a + 5, "c": a + 10, "d": a + 13, "e": a + 20, "f": a + 25}
        for heading, day in DAYS.items():
            lines += [heading, *(line.format(**steps) for line in day)]
    return "\n".join(lines) + "\n"


def edited(text: str, line: int, nth: int) -> str:
    """The text with a percentage of one line changed, a new one each time."""
    lines = text.split("\n")
    at = next(n for n in range(line, len(lines)) if lines[n].startswith("Snatch pull"))
    lines[at] = f"Snatch pull 4x3 @ {70 + nth % 30}.5%"
    return "\n".join(lines)


LIFTS = {
    "snatch": 1.0, "clean_and_jerk": 1.25, "back_squat": 1.65, "front_squat": 1.4, "push_press": 0.95,
    "strict_press": 0.65,
}  # fmt: skip
"""Lifts that everybody here has tested, with a share of the snatch."""


def lifters(number: int, kits: Sequence[BarAndDiscs] = KITS) -> list[Lifter]:
    """Lifters with a full set of bests."""
    random = np.random.default_rng(11)
    snatches_kg = random.integers(40, 150, number)
    return [
        Lifter(
            f"lifter-{n}",
            f"Lifter {n}",
            kits[n % len(kits)],
            ("men", "women")[n % 2],
            bests=tuple(
                Best(lift, round(snatches_kg[n] * share) * 100, TODAY, "tested")
                for lift, share in LIFTS.items()
            ),
        )
        for n in range(number)
    ]


def big_squad(number: int, references: Sequence[Reference], kits: Sequence[BarAndDiscs] = KITS) -> Squad:
    """Bests of many lifters as arrays, as a club's database would give them."""
    random = np.random.default_rng(12)
    snatch = random.integers(4_000, 15_000, number).astype(np.int32)
    shares = [LIFTS.get(r.lifts[0].otherwise or r.lifts[0].lift, 1.2) if r.lifts else 0 for r in references]
    bests = np.stack(
        [(snatch * share).astype(np.int32) if share else np.ones_like(snatch) for share in shares], axis=1
    )
    return Squad(
        bests,
        np.zeros(bests.shape, bool),
        tuple(kits),
        random.integers(0, len(kits), number).astype(np.intp),
        random.integers(0, 2, number).astype(np.uint8),
    )
