"""A template week on a lifter's days: the coach's own, fewer, shorter, more, a meet, and what cannot be."""

from importlib.resources import files

import msgspec
import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.load import Percent
from meetward.cycle.tree import Line, Part, Reps, Segment, Session, SetGroup, Span, Week
from meetward.fit.minutes import session_minutes
from meetward.fit.week_days import NO_DAY, DaysFitter, fit_days
from meetward.fit.week_days_blocks import LineAt, competition_bits
from meetward.fit.week_days_fitted import FittedDays, TrainingDay, WeekDays, day_session, line_at
from meetward.fit.week_days_rules import RULES, figures
from meetward.notation.reader import read
from meetward.workload.count import count_line, count_week

CATALOGUE = shipped()
CYCLES = {
    name: read((files("meetward.demo") / name).read_text(encoding="utf-8"), CATALOGUE).cycle
    for name in ("cycle.txt", "cycle_before.txt")
}
WEEKS = {(name, number): week for name, cycle in CYCLES.items() for number, _, week in cycle.weeks()}
FIRST = WEEKS["cycle.txt", 1]
COACH = (0, 1, 3, 4, 5)

PATTERNS = (
    ((0, 70), (2, 70), (5, 70)),
    ((1, 60), (2, 60), (4, 90)),
    ((0, 100), (3, 60)),
    ((0, 50), (1, 50), (2, 50), (3, 50), (4, 50), (5, 50)),
    ((0, None), (2, None), (4, 90), (5, 45)),
)


@pytest.fixture(scope="module")
def fitter():
    return DaysFitter(CATALOGUE)


def asked(week: Week, *days: tuple[int, int | None], **more) -> WeekDays:
    return WeekDays(week, tuple(TrainingDay(*day) for day in days), **more)


def broken(fitted: FittedDays, what: WeekDays) -> list[str]:
    """Rules that an answer breaks, found on the template's lines alone."""
    week, faults = what.week, []
    minutes = {day.weekday: day.minutes for day in what.days}
    left = [at for each in fitted.left_out for at in each.lines]
    lifts = [at for day in fitted.days for at in day.lifts]
    wanted = [
        LineAt(n + 1, s, number)
        for n, session in enumerate(week.sessions)
        for s, segment in enumerate(session.segments)
        for number in range(len(segment.lines))
        if segment.kind == "lifts"
    ]
    if sorted(lifts + left) != wanted:
        faults.append("a line is neither done nor named as left out")
    before: list[int] = []
    for day in fitted.days:
        session = day_session(day, week)
        if not day.meet and day.session:
            if day.weekday not in minutes or day.weekday in what.blocked:
                faults.append("a day that is not the lifter's")
            limit = minutes.get(day.weekday)
            if limit is not None and session_minutes(session, CATALOGUE).minutes > limit:
                faults.append("a day takes too long")
            if session_minutes(session, CATALOGUE).minutes > day.minutes:
                faults.append("the minutes are understated")
            home = week.sessions[day.session - 1]
            if any(s.kind == "warm-up" and s.lines for s in home.segments) and not day.warm_up:
                faults.append("a day without a warm-up")
        coach_days = {week.sessions[n - 1].weekday for n in day.sessions}
        if len(coach_days) > 2:
            faults.append("three sessions on a day")
        if before and day.sessions and max(before) > min(day.sessions):
            faults.append("sessions out of order")
        before = list(day.sessions) or before
        for n in day.sessions:
            mine = [at for at in day.lifts if at.session == n]
            if mine != sorted(mine):
                faults.append("the lines of a session out of order")
    if fitted.possible and what.meet_weekday is None:
        for bit in (1, 2):
            sessions = [{at.session for at in wanted if competition_bits(line_at(week, at), CATALOGUE) & bit}]
            days = sum(
                any(competition_bits(line_at(week, at), CATALOGUE) & bit for at in day.lifts)
                for day in fitted.days
            )
            if days < min(2, len(sessions[0]), len(what.days)):
                faults.append("a competition lift is missing")
    return faults


def test_the_coachs_own_days_change_nothing(fitter):
    for week in WEEKS.values():
        fitted = fitter.fit(asked(week, *((day, None) for day in COACH)))

        assert [day.lifts for day in fitted.days] == [
            tuple(
                LineAt(n + 1, s, number)
                for s, segment in enumerate(session.segments)
                if segment.kind == "lifts"
                for number in range(len(segment.lines))
            )
            for n, session in enumerate(week.sessions)
        ]
        assert not fitted.left_out
        assert fitted.value_kept_permille == 1000
        assert fitted.proof.known == "proven"
        assert "Every line of the week is kept." in fitted.reasons


@pytest.mark.parametrize("days", PATTERNS)
def test_every_demo_week_is_proven_and_obeys_the_rules(fitter, days):
    for name, number in list(WEEKS)[:: 1 if days in PATTERNS[:3] else 5]:
        week = WEEKS[name, number]
        what = asked(week, *days)
        quick, proven = fitter.fit(what), fitter.prove(what)

        assert proven.proof.known == "proven", (name, number)
        assert broken(quick, what) == [] == broken(proven, what), (name, number)
        assert quick.proof.score <= proven.proof.score <= quick.proof.bound
        assert fitter.fit(what) is proven


def test_three_days_of_seventy_minutes_keep_three_sessions_and_both_lifts(fitter):
    fitted = fitter.prove(asked(FIRST, (0, 70), (2, 70), (5, 70)))

    assert [day.session for day in fitted.days] == [1, 3, 5]
    assert all(day.minutes <= 70 for day in fitted.days)
    lost = {family.family: family.full - family.kept for family in fitted.families}
    assert sum(family.full for family in fitted.families) == count_week(FIRST, CATALOGUE).lifts
    assert sum(lost.values()) == sum(share[1] for each in fitted.left_out for share in each.shares)
    assert lost == {family: lost[family] for family in lost if lost[family] >= 0}
    assert any("left out" in reason.casefold() for reason in fitted.reasons)


def test_what_is_left_out_is_told_with_its_share_of_the_weeks_lifts(fitter):
    fitted = fitter.fit(asked(FIRST, (0, 70), (2, 70), (5, 70)))

    for each in fitted.left_out:
        counted = [count_line(line_at(FIRST, at), CATALOGUE) for at in each.lines]
        for family, lost, of in each.shares:
            assert lost == sum(count.family(family) for count in counted)
            assert of == count_week(FIRST, CATALOGUE).family(family)
            assert f"of the week's {of:.0f} lifts of {family}" in each.said


def test_a_day_begins_with_one_warm_up_and_speed_comes_before_strength(fitter):
    fitted = fitter.fit(asked(FIRST, (0, 200), (4, 200)))
    joined = next(day for day in fitted.days if len(day.sessions) > 1)

    families = [CATALOGUE.movements[line_at(FIRST, at).parts[0].movement].family for at in joined.lifts]
    assert len({at.session for at in joined.warm_up}) == 1
    assert families.index("snatch") < families.index("squat")
    assert "trunk" in families[-4:]


def test_pairs_stay_together_and_get_letters_of_their_own(fitter):
    what = asked(FIRST, (0, None), (4, None))
    fitted = fitter.fit(what)
    for day in fitted.days:
        lifts = next(s for s in day_session(day, FIRST).segments if s.kind == "lifts")
        letters = [line.turn for line in lifts.lines]
        for letter in set(letters) - {""}:
            assert letters.count(letter) == 2
            assert letters[letters.index(letter) + 1] == letter


def key_week() -> Week:
    """Two sessions of which the second has a key line at its end."""

    def line(movement: str, sets: int, **more) -> Line:
        group = SetGroup(Span(sets, sets), (Reps(3, 3),), Percent(750, 750))
        return Line((Part(movement.replace("_", " ").capitalize(), movement),), (group,), **more)

    one = Session((Segment("lifts", (line("snatch", 6), line("back_squat", 6))),), weekday=0)
    two = Session(
        (Segment("lifts", (line("clean_and_jerk", 5), line("plank", 3, priority="key"))),), weekday=2
    )
    return Week((one, two))


def test_a_key_line_is_left_out_last():
    week, fitter = key_week(), DaysFitter(CATALOGUE, {"competition lifts": 0})
    for minutes in range(10, 61, 5):
        fitted = fitter.prove(asked(week, (0, minutes)))
        out = {line_at(week, at).priority for each in fitted.left_out for at in each.lines}
        if any(day.lifts for day in fitted.days):
            assert "key" not in out, minutes


def test_a_rule_that_the_coach_switches_off_no_longer_counts():
    what = asked(key_week(), (0, 25))
    plain = fit_days(what, CATALOGUE, {"competition lifts": 0}, proof=True)
    changed = fit_days(what, CATALOGUE, {"key line": 0, "competition lifts": 0}, proof=True)

    assert [day.lifts for day in plain.days] != [day.lifts for day in changed.days]
    with pytest.raises(ValueError, match="no rule 'sleep'"):
        figures({"sleep": 1})
    with pytest.raises(ValueError, match="cannot be changed"):
        figures({"minutes": 0})
    with pytest.raises(ValueError, match="0 or more"):
        figures({"split session": -1})


def test_rules_are_data_with_reason_and_source():
    assert len({rule.id for rule in RULES}) == len(RULES)
    assert all(rule.says.endswith(".") and rule.source for rule in RULES)


def test_sessions_move_with_the_weekday_of_the_meet(fitter):
    meet_week = WEEKS["cycle.txt", 12]
    fitted = fitter.fit(asked(meet_week, (0, 90), (2, 90), (4, 90), meet_weekday=6))

    assert [day.weekday for day in fitted.days] == [0, 2, 4, 6]
    assert fitted.days[-1].meet
    assert fitted.days[-1].session == len(meet_week.sessions)
    assert [day.meet for day in fitted.days].count(True) == 1


def test_before_an_early_meet_no_line_comes_nearer_to_it_than_a_day(fitter):
    meet_week = WEEKS["cycle.txt", 12]
    fitted = fitter.fit(asked(meet_week, (0, 90), (1, 90), (2, 90), (4, 90), meet_weekday=3))

    assert fitted.possible
    assert [day.weekday for day in fitted.days if day.lifts] == [0, 1, 2, 3]
    for day in fitted.days:
        for n in day.sessions if not day.meet else ():
            assert 3 - day.weekday >= 5 - meet_week.sessions[n - 1].weekday - 1


def test_a_further_meet_keeps_its_day_and_the_one_before_free(fitter):
    fitted = fitter.fit(asked(FIRST, (1, 90), (4, 90), (5, 90), meet_weekday=5))

    assert [day.weekday for day in fitted.days] == [1]


def test_no_day_at_all_is_said_and_everything_is_named_as_left_out(fitter):
    for what in (asked(FIRST), asked(FIRST, (0, 60), (2, 60), blocked=(0, 2))):
        fitted = fitter.fit(what)

        assert not fitted.possible
        assert fitted.collisions == (NO_DAY,)
        assert "no day to train on" in fitted.reasons[0]
        assert broken(fitted, what) == []


def test_ten_minutes_collide_with_the_competition_lifts_and_lose_nothing(fitter):
    what = asked(FIRST, (0, 10), (2, 10))
    fitted = fitter.fit(what)

    assert not fitted.possible
    assert fitted.collisions == ("minutes", "competition lifts: snatch")
    assert "10 and 10 min" in fitted.reasons[0]
    assert broken(fitted, what) == []
    assert fitter.prove(what).proof.known == "proven"


@pytest.mark.parametrize(
    ("what", "kind"),
    [
        (asked(FIRST, (7, 60), (0, 60)), "no such day"),
        (asked(FIRST, (0, 60), (0, 90)), "day twice"),
        (asked(FIRST, (0, 0), (2, 90)), "no minutes"),
        (asked(FIRST, (0, 90), blocked=(9,)), "no such day"),
        (asked(FIRST, (0, 90), (3, 90), blocked=(5,), meet_weekday=5), "meet on a blocked day"),
    ],
)
def test_bad_input_is_a_problem_with_words_and_the_rest_is_fitted(fitter, what, kind):
    fitted = fitter.fit(what)

    assert [problem.kind for problem in fitted.problems] == [kind]
    assert all(problem.repair for problem in fitted.problems)
    assert any(day.lifts for day in fitted.days)


def test_a_week_without_work_is_no_trouble(fitter):
    fitted = fitter.prove(asked(Week(()), (0, 60)))

    assert fitted.possible
    assert fitted.value_kept_permille == 1000
    assert not fitted.left_out


def test_a_session_of_mobility_work_is_kept_as_a_whole(fitter):
    drill = Session((Segment("recovery", (Line((Part("Calf rolling", "calf_rolling"),)),)),), weekday=2)
    week = msgspec.structs.replace(FIRST, sessions=(*FIRST.sessions[:2], drill))
    fitted = fitter.fit(asked(week, (0, None), (1, None), (2, None)))

    assert fitted.days[2].lifts == (LineAt(3, 0, 0),)


def test_many_lines_on_a_day_are_put_together_until_they_can_be_weighed(fitter):
    lines = FIRST.sessions[0].segments[1].lines * 4
    session = msgspec.structs.replace(
        FIRST.sessions[0], segments=(FIRST.sessions[0].segments[0], Segment("lifts", lines))
    )
    what = asked(Week((session, *FIRST.sessions[1:])), (0, 80), (2, 80), (5, 80))

    assert broken(fitter.fit(what), what) == []


def test_lifters_with_the_same_case_are_solved_once_and_all_get_their_own_days():
    many = [asked(FIRST, *((day + shift, 70) for day in (0, 2, 4))) for shift in (0, 1, 2) for _ in range(10)]
    fitter = DaysFitter(CATALOGUE)
    fitted = fitter.fit_many(many)

    assert fitter.cases == 1
    assert [one.days[0].weekday for one in fitted] == [0] * 10 + [1] * 10 + [2] * 10
    assert fitted == [fit_days(one, CATALOGUE) for one in many[:1] * 10] + fitted[10:]


def test_a_proof_reaches_every_lifter_of_the_case_and_no_other():
    fitter = DaysFitter(CATALOGUE)
    first, second = (asked(FIRST, *((day + shift, 70) for day in (0, 2, 4))) for shift in (0, 1))
    other = asked(FIRST, (0, 60), (3, 75))
    before = fitter.fit_many([first, second, other])

    assert fitter.unproven([first, second, other]) == [first, other]
    proven = fitter.prove(first)
    assert proven.proof.known == "proven" == fitter.fit(second).proof.known
    assert fitter.fit(other) is before[2]
    assert fitter.unproven([first, second, other]) == [other]


def test_two_processes_find_what_one_finds():
    many = [asked(week, *days) for week in (FIRST, WEEKS["cycle.txt", 5]) for days in PATTERNS[:2]]

    assert DaysFitter(CATALOGUE).fit_many(many, workers=2) == DaysFitter(CATALOGUE).fit_many(many)


def test_the_quick_answer_is_near_the_proven_one():
    """A sample; ``python -m bench week_days`` takes 400 cases."""
    fitter = DaysFitter(CATALOGUE)
    gaps = []
    for n, week in enumerate(list(WEEKS.values())[::2]):
        what = asked(
            week, *((day, 50 + n * 7 % 60) for day in sorted({n % 7, (n * 3 + 1) % 7, (n * 5 + 3) % 7}))
        )
        quick, proven = fitter.fit(what), fitter.prove(what)
        gaps.append((proven.proof.score - quick.proof.score) / max(proven.proof.score, 1))

    assert sum(gap <= 0.01 for gap in gaps) >= 0.95 * len(gaps)
