"""Counting lifts, zones and intensities."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.cycle.load import Effort, Kilos, Of, Percent
from meetward.cycle.tree import Line, Part, Reps, SetGroup, Span
from meetward.workload.count import (
    UNRATED,
    ZONES,
    Count,
    Counter,
    count_cycle,
    count_group,
    count_line,
    count_session,
    count_week,
    total,
    uncounted,
)
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets

AUTHORITIES = Path(__file__).parents[1] / "authorities"


def zones(count: Count) -> dict[str, float]:
    return {name: lifts for name, lifts in zip(ZONES, count.zones, strict=True) if lifts}


# tests/authorities/worked-week.csv: constructed, counted by hand in load-accounting.md.
IDS = {"clean and jerk": "clean_and_jerk"}


@pytest.fixture(scope="module")
def worked_week():
    days: dict[str, list[Line]] = {}
    for row in csv.DictReader((AUTHORITIES / "worked-week.csv").open(encoding="utf-8")):
        id_ = row["exercise"].replace(" ", "_")
        group = sets(int(row["sets"]), int(row["reps"]), load=percent(float(row["percent_of_reference"])))
        days.setdefault(row["day"], []).append(line(id_, group))
    return cycle(tuple(session(*lines) for lines in days.values()))


def test_the_worked_week_counts_as_by_hand(worked_week):
    week = count_week(worked_week.phases[0].weeks[0], CATALOGUE)

    assert week.lifts == 179
    assert zones(week) == {
        "under 50 %": 5,
        "50–59 %": 27,
        "60–69 %": 34,
        "70–79 %": 36,
        "80–89 %": 49,
        "90–99 %": 28,
    }
    assert sum(week.zones[1:UNRATED]) == 174  # from 50 % up
    assert week.family("snatch") == 48
    assert week.family("clean and jerk") + week.family("clean") == 37
    assert week.family("pull") == 30
    assert week.family("squat") == 44
    assert week.peak_permille == 960


def test_the_average_of_the_worked_week_is_that_of_its_rows(worked_week):
    # An independent sum over the rows, in fractions.
    rows = list(csv.DictReader((AUTHORITIES / "worked-week.csv").open(encoding="utf-8")))
    lifts = [int(r["sets"]) * int(r["reps"]) for r in rows]
    mean = Fraction(
        sum(n * Fraction(r["percent_of_reference"]) for n, r in zip(lifts, rows, strict=True)), 179
    )

    assert count_cycle(worked_week, CATALOGUE).cycle.average_permille == pytest.approx(
        float(mean * 10), abs=1e-9
    )


@pytest.mark.parametrize(
    ("count", "reps", "lifts"),
    [(6, 3, 18), (5, 5, 25), (4, 4, 16)],  # load-accounting.md: volume in repetitions, INOL rows
)
def test_repetitions_of_a_scheme(count, reps, lifts):
    assert count_line(line("back_squat", sets(count, reps, load=percent(80))), CATALOGUE).lifts == lifts


def test_a_complex_counts_every_movement_made():
    # load-accounting.md: custom.
    done = count_line(line("snatch_pull + snatch", sets(1, 1, 2, load=percent(75))), CATALOGUE)

    assert done.lifts == 3
    assert (done.family("pull"), done.family("snatch")) == (1, 2)


@pytest.mark.parametrize(
    ("group", "lifts"),
    [
        (SetGroup(Span(3, 5), (Reps(2, 3),), percent(70)), 10),
        (SetGroup(Span(2, 3), (Reps(2, 3),), percent(70)), 6.25),
        (SetGroup(Span(3, 3), (Reps(5, 5, or_more=True),), percent(70)), 15),
        (SetGroup(Span(3, 3), (Reps(5, 8, or_more=True),), percent(70)), 15),
        (SetGroup(None, (Reps(1, 1),), percent(75), every_s=60, within_s=600), 10),
        (SetGroup(Span(2, 2), (None,), percent(75), cluster=(1, 1, 1)), 6),
        (sets(3, 4, load=percent(60), per_side=True), 24),
        (sets(3, 4, load=percent(60), missed=True), 0),
        (sets(3, None, hold_s=Span(20, 20)), 0),
    ],
)
def test_ranges_minimums_intervals_clusters_and_sides(group, lifts):
    done = count_line(Line((Part("Snatch", "snatch"),), (group,)), CATALOGUE)

    assert (done.lifts, done.open_groups) == (lifts, 0)


@pytest.mark.parametrize(
    "group",
    [
        sets(None, 3, load=percent(70)),
        sets(3, None, load=percent(70)),
        SetGroup(Span(1, 1), (Reps(None, None, or_more=True),), percent(70)),
        SetGroup(Span(1, 1), ()),
    ],
)
def test_what_is_left_open_counts_nothing_and_says_so(group):
    done = count_line(Line((Part("Snatch", "snatch"),), (group,)), CATALOGUE)

    assert (done.lifts, done.open_groups) == (0, 1)


def test_an_unknown_movement_counts_nothing_and_is_named_with_its_place():
    plan = cycle((session(line("snatch", sets(3, 3))), session(line("sntach + snatch", sets(3, 2, 1)))))

    said = list(uncounted(plan, CATALOGUE))

    assert count_cycle(plan, CATALOGUE).cycle.lifts == 9 + 3
    assert [(u.week, u.session) for u in said] == [(1, 2)]
    assert "Sntach" in said[0].reason


@pytest.mark.parametrize(
    "load",
    [
        Kilos(8000, 8000),
        Effort("rpe", 80, 80),
        percent(85, of=Of("top")),
        percent(85, of=Of("rep max", reps=3)),
    ],
)
def test_a_load_that_is_no_share_of_a_best_is_counted_but_not_rated(load):
    done = count_line(line("snatch", sets(5, 2, load=load)), CATALOGUE)

    assert (done.lifts, done.rated_lifts, done.average_permille) == (10, 0, None)
    assert zones(done) == {"no percentage": 10}


def test_zones_begin_at_their_ten_percent():
    rows = {
        p: count_line(line("snatch", sets(1, 1, load=percent(p))), CATALOGUE)
        for p in (49.9, 50, 69.9, 70, 100, 130)
    }

    assert [next(iter(zones(c))) for c in rows.values()] == [
        "under 50 %", "50–59 %", "60–69 %", "70–79 %", "100 % and over", "100 % and over",
    ]  # fmt: skip


def test_a_range_counts_at_its_middle_and_climbing_sets_at_their_steps():
    ranged = count_line(line("snatch", sets(4, 2, load=percent(70, 75))), CATALOGUE)
    climbing = count_line(line("snatch", sets(5, 2, load=percent(60, 80), climbing=True)), CATALOGUE)

    assert ranged.average_permille == 725
    assert zones(climbing) == {"60–69 %": 4, "70–79 %": 4, "80–89 %": 2}  # 60, 65, 70, 75, 80 %
    assert (climbing.average_permille, climbing.peak_permille) == (700, 800)


def test_climbing_up_to_a_top_ends_there():
    up_to = Percent(None, 700)
    done = count_line(line("snatch", sets(7, 2, load=up_to, climbing=True)), CATALOGUE)

    assert done.lifts == pytest.approx(14)
    assert done.peak_permille == 700
    assert 542 < done.average_permille < 700


def test_sets_on_the_way_are_not_rated_at_a_top_that_others_reach():
    done = count_line(
        line("snatch", sets(1, 3, load=Percent(None, 850), climbing=True, on_the_way=True)), CATALOGUE
    )

    assert done.lifts == pytest.approx(3)
    assert (done.peak_permille, done.permille_lifts) == (0, 0.0)


def test_warm_up_and_recovery_are_not_counted():
    plan = session(
        line("snatch", sets(3, 3, load=percent(70))),
        warm_up=(line("snatch_bar"), line("snatch", sets(2, 5))),
        recovery=(line("back_squat", sets(1, 10)),),
    )

    assert count_session(plan, CATALOGUE).lifts == 9


def test_an_accessory_without_a_bar_is_no_lift_and_leaves_nothing_open():
    done = count_line(line("side_plank", sets(3, None)), CATALOGUE)

    assert (done.lifts, done.open_groups, done.sets) == (0, 0, 0)


one_group = st.builds(
    lambda n, r, low, width, climbing: line(
        "snatch", sets(n, r, load=Percent(low, low + width), climbing=climbing)
    ),
    st.integers(0, 12),
    st.integers(0, 10),
    st.integers(0, 1200),
    st.integers(0, 100),
    st.booleans(),
)


@given(st.lists(one_group, max_size=6), st.lists(one_group, max_size=6))
def test_counts_of_parts_add_up(first, second):
    one, other = session(*first), session(*second)
    counts = count_cycle(cycle((one, other)), CATALOGUE)

    assert counts.weeks[0] == counts.phases[0] == counts.cycle
    assert counts.cycle.lifts == pytest.approx(
        sum(g.count.low * g.reps[0].low for ls in (first, second) for each in ls for g in each.groups)
    )
    assert counts.cycle.lifts == pytest.approx(sum(c.lifts for c in counts.sessions[0]))
    assert counts.cycle == count_session(one, CATALOGUE) + count_session(other, CATALOGUE)


@given(one_group)
def test_the_average_lies_in_the_load_and_under_the_peak(each):
    done = count_group(each.groups[0], each, CATALOGUE)
    load = each.groups[0].load

    if done.lifts:
        assert load.low_permille - 1e-6 <= done.average_permille <= done.peak_permille + 1e-6
        assert done.peak_permille <= load.high_permille
    else:
        assert done == Count()


@given(st.lists(one_group, min_size=1, max_size=4), one_group)
def test_one_more_line_never_counts_less(lines, more):
    before, after = count_session(session(*lines), CATALOGUE), count_session(session(*lines, more), CATALOGUE)

    assert all(b <= a + 1e-9 for b, a in zip(before.zones, after.zones, strict=True))
    assert before.peak_permille <= after.peak_permille


def test_a_session_that_is_the_same_object_is_counted_once():
    class Watched:
        def __init__(self):
            self.asked = 0

        @property
        def movements(self):
            self.asked += 1
            return CATALOGUE.movements

    watched = Watched()
    kept, old, new = (session(line("snatch", sets(n, 2, load=percent(70)))) for n in (3, 4, 5))
    counter = Counter(watched)
    counter.count(cycle((kept, old)))
    watched.asked = 0

    after = counter.count(cycle((kept, new)))

    assert watched.asked == 1
    assert after == count_cycle(cycle((kept, new)), CATALOGUE)


def test_nothing_counts_nothing():
    assert total(()) == Count()
    assert Count().zones == (0,) * len(ZONES)
    assert Count().average_permille is None
