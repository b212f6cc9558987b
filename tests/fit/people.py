"""Lifters, lines and loads for the tests of kilos, as values and as strategies."""

from datetime import date

from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc
from meetward.barbell.standard import club_kit, competition_kit, light_kit
from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Load,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import Line, Reps, SetGroup, Span
from meetward.lifter.bests import Best
from meetward.lifter.profile import Lifter
from tests.workload.small import line

HOME_KIT = BarAndDiscs(1_500, 0, (Disc(1_000, 2), Disc(500, 1), Disc(250, 1)))
BARE_KIT = BarAndDiscs(2_000)
KITS = (club_kit(), club_kit(1_500), competition_kit(), light_kit(), HOME_KIT, BARE_KIT)


def lifter(kit: BarAndDiscs | None = None, category: str | None = "women", **bests_kg: float) -> Lifter:
    """``lifter(snatch=85)``: bests tested on 3 October 2026, in kilograms."""
    bests = tuple(Best(lift, round(kg * 100), date(2026, 10, 3), "tested") for lift, kg in bests_kg.items())
    return Lifter("mara", "Mara Quill", kit or club_kit(), category, bests=bests)


spans = st.tuples(st.integers(1, 6), st.integers(0, 3)).map(lambda t: Span(t[0], t[0] + t[1]))


def _ends(lowest: int, highest: int):
    """A low end (or None) and a high end."""
    return st.tuples(st.integers(lowest, highest), st.integers(lowest, highest), st.sampled_from("12n")).map(
        lambda t: (None if t[2] == "n" else min(t[:2]) if t[2] == "2" else max(t[:2]), max(t[:2]))
    )


ofs = st.sampled_from(
    (
        Of(), Of(), Of(), Of("lift", "clean"), Of("lift", "power_snatch"), Of("lift", "", "my best"),
        Of("top"), Of("rep max", "front_squat", reps=3), Of("rep max", reps=2),
    )
)  # fmt: skip
kilos_or_pounds = st.one_of(
    _ends(0, 30_000).map(lambda e: Kilos(*e)),
    _ends(0, 60_000).map(lambda e: Pounds(*e)),
    st.integers(0, 600).map(lambda lb: Pounds(lb * 100, lb * 100)),
    _ends(500, 2_500).map(lambda e: Kilos(*e, implements=2)),
)
loads: st.SearchStrategy[Load] = st.one_of(
    st.builds(lambda e, of: Percent(*e, of), _ends(0, 1_500), ofs),
    st.builds(lambda p, of: Percent(p * 10, p * 10, of), st.integers(40, 110), ofs),
    kilos_or_pounds,
    st.builds(ByCategory, kilos_or_pounds, kilos_or_pounds),
    st.sampled_from(
        (Effort("rpe", 80, 80), Heavy(2), BarOnly(), BarOnly(stick=True), Bodyweight(500), Open())
    ),
)
NAMES = (
    "snatch", "power_snatch", "clean + jerk", "clean_pull + clean", "clean + front_squat + jerk",
    "snatch + overhead_squat", "back_squat", "push_press", "dumbbell_press", "side_plank",
    "sntach", "sntach + snatch",
)  # fmt: skip
lines: st.SearchStrategy[Line] = st.builds(
    lambda name, groups: line(name, *(_fitted(group, name.count("+") + 1) for group in groups)),
    st.sampled_from(NAMES),
    st.lists(
        st.builds(SetGroup, st.one_of(spans, st.none()), st.just(()), loads, climbing=st.booleans()),
        min_size=1,
        max_size=3,
    ),
)


def _fitted(group: SetGroup, parts: int) -> SetGroup:
    return SetGroup(group.count, (Reps(2, 2),) * parts, group.load, climbing=group.climbing)


LIFTS = (
    "snatch",
    "clean_and_jerk",
    "clean",
    "front_squat",
    "back_squat",
    "push_press",
    "dumbbell_press",
    "power_snatch",
)
lifters = st.builds(
    lambda kit, category, bests: Lifter("l", "L", kit, category, bests=tuple(bests)),
    st.sampled_from(KITS),
    st.sampled_from(("men", "women", None)),
    st.lists(
        st.builds(
            Best, st.sampled_from(LIFTS), st.integers(1, 40_000), st.none(),
            st.sampled_from(("tested", "stated")), st.sampled_from((1, 1, 1, 2, 3)),
        ),
        max_size=6,
    ),
)  # fmt: skip
