"""Coming back after missed time (tests/authorities/mobility-and-return.md)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.cycle.load import BarOnly, ByCategory, Effort, Heavy, Kilos, Of, Open, Percent, Pounds
from meetward.cycle.tree import Reps, SetGroup, Span
from meetward.fit.kilos import kilos
from meetward.fit.layoff import LONGEST_DAYS, REASONS, RULES, Return, Step, layoff, stepped
from meetward.fit.standing import Standings
from meetward.why import Why
from tests.fit.people import lifter, lines
from tests.workload.small import CATALOGUE, line, percent, sets

days = st.integers(0, 700)
reasons = st.sampled_from(REASONS)
steps = st.builds(
    lambda load, sets_, most: Step(1, "week", load, sets_, most, "", Why("")),
    st.integers(300, 1_000),
    st.integers(200, 1_000),
    st.sampled_from((1_000, 700, 500)),
)
FULL = (1_000, 1_000, 1_000)


def weekly(back: Return) -> list[tuple[int, int]]:
    """Load and sets of each week, full ones behind the last step."""
    weeks = [(step.load_permille, step.sets_permille) for step in back.steps if step.lasts == "week"]
    return weeks + [(1_000, 1_000)] * (12 - len(weeks))


# Common practice, as the authorities file has it.
def test_one_missed_session_changes_nothing():
    for missed in (0, 1, 2, 5, 6):
        assert layoff(missed).steps == ()
    assert "go on" in layoff(3).said[0]


def test_about_a_week_repeats_the_last_week_at_ninety_per_cent():
    back = layoff(8)
    assert weekly(back)[:2] == [(900, 800), (1_000, 1_000)]
    assert back.back == 1


def test_three_weeks_take_two_to_return_from_eighty_per_cent():
    back = layoff(21)
    assert [step.load_permille for step in back.steps] == [800, 900]
    assert back.steps[0].sets_permille == 500  # the first cut of 50 %, from memory


def test_longer_starts_from_an_early_week():
    assert layoff(40).back >= 4
    assert layoff(100).rule.again
    assert len(layoff(40).steps) == 4  # limits for the first two to four weeks


def test_after_a_fever_two_light_days_of_half_the_sets_up_to_seventy_per_cent():
    back = layoff(4, "illness with fever")
    light = [step for step in back.steps if step.lasts == "session"]
    assert [(step.sets_permille, step.most_permille) for step in light] == [(500, 700)] * 2
    assert any("doctor" in sentence for sentence in back.said)
    assert any("Chest pain" in sentence for sentence in back.said)
    group = stepped(line("snatch", sets(6, 2, load=percent(85))), light[0]).groups[0]
    assert (group.count, group.load) == (Span(3, 3), percent(70))


def test_after_an_injury_a_doctor_comes_first_and_no_day_is_counted_as_nothing():
    for reason in ("injury", "surgery"):
        back = layoff(2, reason)
        assert back.doctor_first
        assert "doctor" in back.said[0]
        assert back.steps


@given(days, days, reasons)
def test_more_days_missed_are_never_a_lighter_matter(one, other, reason):
    short, long = layoff(min(one, other), reason), layoff(max(one, other), reason)
    assert all(a >= b for a, b in zip(weekly(short), weekly(long), strict=True))
    for ours, theirs in zip(weekly(short), weekly(long), strict=True):
        assert ours[0] >= theirs[0]
        assert ours[1] >= theirs[1]
    assert len(short.steps) <= len(long.steps)
    assert short.back <= long.back


@given(days, reasons)
def test_steps_rise_and_end_below_or_at_the_full_load(missed, reason):
    weeks = weekly(layoff(missed, reason))
    assert weeks == sorted(weeks)
    assert all(0 < load <= 1_000 and 0 < share <= 1_000 for load, share in weeks)


@given(days)
def test_illness_and_injury_are_never_quicker_than_plain_missed_time(missed):
    plain = layoff(missed)
    for reason in REASONS:
        other = layoff(missed, reason)
        assert len(other.steps) >= len(plain.steps)
        assert all(a >= b for a, b in zip(weekly(plain), weekly(other), strict=True))


@given(days, reasons, st.integers(0, 20))
def test_a_near_meet_makes_no_step_shorter(missed, reason, weeks):
    free, bound = layoff(missed, reason), layoff(missed, reason, weeks)
    assert bound.steps == free.steps[: len(bound.steps)]
    kept = [step for step in bound.steps if step.lasts == "week"]
    assert len(kept) == min(weeks, len(free.rule.steps))
    assert ("coach decides" in " ".join(bound.said)) == (weeks < len(free.rule.steps))


@given(days, reasons)
def test_every_return_says_why(missed, reason):
    back = layoff(missed, reason)
    assert back.said
    assert back.why.source
    assert all(step.said and step.why.source for step in back.steps)


def test_the_rules_are_in_order_and_each_has_a_source():
    assert [rule.from_days for rule in RULES] == sorted(rule.from_days for rule in RULES)
    assert RULES[0].from_days == 0
    assert all(rule.source and rule.because and rule.says for rule in RULES)


@pytest.mark.parametrize(
    ("missed", "reason", "weeks", "words"),
    [
        (-1, "missed", None, "days without training"),
        (LONGEST_DAYS + 1, "missed", None, "days without training"),
        (3, "holiday", None, "no reason known"),
        (3, "missed", -1, "meet is over"),
    ],
)
def test_bad_input_is_told_in_words(missed, reason, weeks, words):
    with pytest.raises(ValueError, match=words):
        layoff(missed, reason, weeks)


def top_dag(load) -> int:
    return load.high_dag if isinstance(load, Kilos) else load.high_clb


@given(lines, steps)
def test_a_step_never_makes_a_line_heavier_or_longer(written, step):
    done = stepped(written, step)
    assert (done.parts, len(done.groups)) == (written.parts, len(written.groups))
    for before, after in zip(written.groups, done.groups, strict=True):
        if before.count is not None:
            assert before.count.low >= after.count.low >= min(1, before.count.low)
            assert before.count.high >= after.count.high >= after.count.low
        if isinstance(before.load, Percent):
            assert after.load.high_permille <= before.load.high_permille
            assert (after.load.low_permille or 0) <= after.load.high_permille
            if before.load.of.kind != "top":
                assert after.load.high_permille <= step.most_permille or step.most_permille == 1_000
        if isinstance(before.load, Kilos | Pounds):
            assert top_dag(after.load) <= top_dag(before.load)
        if min(step.load_permille, step.most_permille) < 1_000:
            assert not isinstance(after.load, Heavy)


@given(lines, steps)
def test_a_step_never_puts_more_on_the_bar(written, step):
    standings = Standings(lifter(snatch=85, clean_and_jerk=105, back_squat=140, push_press=70), CATALOGUE)
    done = stepped(written, step)
    for before, after in zip(written.groups, done.groups, strict=True):
        old, new = kilos(before, written, standings), kilos(after, done, standings)
        if old.high_dag is not None and new.high_dag is not None:
            assert new.high_dag <= max(old.high_dag, standings.lifter.kit.bar_dag)


def test_exact_loads_of_a_step():
    step = Step(1, "week", 900, 800, 1_000, "", Why(""))
    loads = (
        (percent(72.5), Percent(652, 652)),
        (percent(70, 80), Percent(630, 720)),
        (Percent(None, 850), Percent(None, 765)),
        (percent(120), percent(108)),
        (Percent(900, 900, Of("top")), Percent(900, 900, Of("top"))),
        (Kilos(8_050, 8_050), Kilos(7_245, 7_245)),
        (Pounds(10_001, 10_001), Pounds(9_000, 9_000)),
        (
            ByCategory(Kilos(4_300, 4_300), Kilos(2_900, 2_900)),
            ByCategory(Kilos(3_870, 3_870), Kilos(2_610, 2_610)),
        ),
        (Heavy(1), Effort("rpe", 60, 70)),
        (Effort("rpe", 85, 90), Effort("rpe", 70, 70)),
        (Effort("rpe", 60, 65), Effort("rpe", 60, 65)),
        (Effort("rir", 0, 10), Effort("rir", 30, 30)),
        (BarOnly(), BarOnly()),
        (Open("light"), Open("light")),
    )
    for before, after in loads:
        group = SetGroup(Span(5, 5), (Reps(2, 2),), before)
        done = stepped(line("snatch", group), step).groups[0]
        assert (done.count, done.reps, done.load) == (Span(4, 4), (Reps(2, 2),), after)


def test_a_step_that_only_takes_sets_away_leaves_the_loads():
    step = Step(1, "week", 1_000, 600, 1_000, "", Why(""))
    for load in (Heavy(1), percent(85), Effort("rpe", 90, 90), Kilos(8_000, 8_000)):
        group = stepped(line("snatch", sets(5, 1, load=load)), step).groups[0]
        assert (group.load, group.count) == (load, Span(3, 3))


def test_no_step_adds_a_set():
    step = Step(1, "week", 1_000, 100, 1_000, "", Why(""))
    group = stepped(line("snatch", SetGroup(Span(0, 4), (Reps(1, 1),), percent(85))), step).groups[0]
    assert group.count == Span(0, 1)


def test_on_a_light_day_a_written_weight_comes_down_too():
    light = layoff(4, "illness with fever").steps[0]
    group = stepped(line("snatch", sets(3, 2, load=Kilos(8_000, 8_000))), light).groups[0]
    assert group.load == Kilos(5_600, 5_600)
