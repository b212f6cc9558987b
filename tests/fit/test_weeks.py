"""The fit of dates as a coach meets it: plans, reasons, certificate, and what collides."""

from datetime import date, timedelta
from pathlib import Path
from random import Random

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import meetward.demo
from bench.weeks_cases import random_calendar, random_template
from meetward.catalogue.reading import shipped
from meetward.fit.week_rules import BREAKABLE, WeekRules, rule_words
from meetward.fit.weeks import fit_weeks, only, task_of
from meetward.fit.weeks_calendar import Block, FurtherMeet, LifterCalendar
from meetward.fit.weeks_plan import FittedWeeks
from meetward.fit.weeks_search import cheapest
from meetward.fit.weeks_template import TemplateWeek, WeekMark, template_of, template_week
from meetward.notation.reader import read
from meetward.workload.count import count_cycle

MEET = date(2027, 3, 20)  # a Saturday
ROWS = (
    ("load", 311, 45), ("load", 317, 60), ("load", 333, 83), ("lighter", 185, 20),
    ("load", 280, 76), ("load", 281, 101), ("load", 240, 113), ("test", 127, 20),
    ("load", 244, 133), ("load", 202, 87), ("taper", 147, 51), ("meet", 84, 16),
)  # fmt: skip
TWELVE = tuple(template_week(n, role, 12, lifts, heavy) for n, (role, lifts, heavy) in enumerate(ROWS, 1))
TRAINING_DAYS = (0, 1, 3, 4, 5)


def until(meet_on: date, weeks: int, **more) -> LifterCalendar:
    """So many calendar weeks, the last that of the meet."""
    monday = meet_on - timedelta(days=meet_on.weekday()) - timedelta(weeks=weeks - 1)
    return LifterCalendar(monday, meet_on, TRAINING_DAYS, **more)


def fit(
    weeks: int, rules: WeekRules | None = None, template: tuple[TemplateWeek, ...] = TWELVE, **more
) -> FittedWeeks:
    return fit_weeks(template, until(MEET, weeks, **more), rules or WeekRules())


def numbers(fitted: FittedWeeks) -> list[int | None]:
    return [week.template_week for week in fitted.weeks]


def test_as_many_weeks_as_the_cycle_has_stand_as_written():
    fitted = fit(12)

    assert fitted.possible
    assert numbers(fitted) == list(range(1, 13))
    assert fitted.cost == 0
    assert fitted.reasons == ("Every week stands as the coach wrote it.",)
    assert fitted.reliefs == ()
    assert fitted.weeks[-1].monday == date(2027, 3, 15)


@pytest.mark.parametrize("day", range(7))
def test_the_last_week_falls_in_the_week_of_the_meet_on_any_weekday(day):
    meet_on = date(2027, 3, 15) + timedelta(days=day)

    fitted = fit_weeks(TWELVE, until(meet_on, 11))

    assert fitted.weeks[-1].monday == date(2027, 3, 15)
    assert numbers(fitted)[-2:] == [11, 12]
    assert all(on <= meet_on for on in fitted.weeks[-1].open_days)


def test_one_week_fewer_leaves_one_week_out_and_says_why():
    fitted = fit(11)

    assert [week for week in range(1, 13) if week not in numbers(fitted)] == [1]
    assert fitted.reasons == (
        "Week 1 is left out: there is one week fewer, and the plan without it costs least of all that keep "
        "the rules.",
    )
    assert fitted.cost == 8
    assert [(item.what, item.cost) for item in fitted.costs] == [("left out", 8)]


def test_the_coach_marks_the_week_that_goes():
    marked = template_week(5, "load", 12, 280, 76, WeekMark(5, drop_cost=0))
    template = (*TWELVE[:4], marked, *TWELVE[5:])

    fitted = fit(11, template=template)

    assert 5 not in numbers(fitted)
    assert "Week 5 is left out: there is one week fewer, and it is the cheapest to miss." in fitted.reasons


def test_a_week_that_may_not_go_stays():
    template = tuple(msgspec.structs.replace(week, may_drop=week.number == 9) for week in TWELVE)

    assert [week for week in range(1, 13) if week not in numbers(fit(11, template=template))] == [9]


def test_more_weeks_repeat_and_lighten_and_start_later():
    fitted = fit(24)

    kinds = {week.kind for week in fitted.weeks}
    assert {"week", "repeat", "extra lighter", "free"} == kinds
    assert fitted.weeks[0].kind == "free"
    extra = next(week for week in fitted.weeks if week.kind == "extra lighter")
    assert extra.template_week is None
    assert extra.role == "lighter"
    assert extra.leans_on in numbers(fitted)
    assert f"the sessions of week {extra.leans_on} with about 60 % of the sets" in extra.why.said


def test_the_return_after_two_missed_weeks_is_stepped():
    # Common practice, no source: two to three weeks off, 80 to 85 % of working bests, two weeks to return.
    away = Block(date(2027, 1, 25), date(2027, 2, 7), "exams")
    fitted = fit(14, blocks=(away,))

    blocked = [week for week in fitted.weeks if week.kind == "blocked"]
    back = fitted.weeks[fitted.weeks.index(blocked[-1]) + 1 :]
    assert [week.monday for week in blocked] == [date(2027, 1, 25), date(2027, 2, 1)]
    assert blocked[0].why.said == "No training day is open (exams)."
    for week, most in zip(back, (800, 900), strict=False):
        assert week.role != "load" or week.level_permille <= most


def test_an_illness_takes_a_step_more():
    days = date(2027, 2, 8), date(2027, 2, 14)
    well = task_of(TWELVE, until(MEET, 12, blocks=(Block(*days, "travel"),)), WeekRules())
    ill = task_of(TWELVE, until(MEET, 12, blocks=(Block(*days, "flu", illness=True),)), WeekRules())

    assert [week.cap_permille for week in well.calendar[7:9]] == [900, 1000]
    assert [week.cap_permille for week in ill.calendar[7:9]] == [800, 900]


def test_a_gap_inside_a_return_keeps_what_was_left_of_it():
    blocks = (
        Block(date(2027, 1, 4), date(2027, 1, 24), "work"),
        Block(date(2027, 2, 1), date(2027, 2, 7), "travel"),
    )
    task = task_of(TWELVE, until(MEET, 12, blocks=blocks), WeekRules())

    # Three weeks off ask for 70, 80 and 90 %; the first is done, then a week off asks for 90 %.
    assert [week.cap_permille for week in task.calendar[4:8]] == [700, 1000, 800, 900]


def test_a_week_with_too_few_open_days_counts_as_blocked():
    fitted = fit(12, blocks=(Block(date(2027, 1, 11), date(2027, 1, 15), "travel"),))

    week = fitted.weeks[2]
    assert week.kind == "blocked"
    assert week.why.said == (
        "Only 1 training day is open (travel); a week with fewer than 2 counts as blocked."
    )


def test_without_that_rule_one_open_day_makes_a_week_and_none_does_not():
    blocks = (
        Block(date(2027, 1, 11), date(2027, 1, 15), "travel"),
        Block(date(2027, 2, 1), date(2027, 2, 7)),
    )
    fitted = fit(12, WeekRules(off=("open days",)), blocks=blocks)

    assert fitted.weeks[2].template_week is not None
    assert fitted.weeks[5].kind == "blocked"


def test_a_week_with_some_open_days_is_a_week_and_says_what_is_closed():
    fitted = fit(12, blocks=(Block(date(2027, 1, 11), date(2027, 1, 13), "travel"),))

    assert fitted.weeks[2].template_week == 3
    assert fitted.weeks[2].open_days == (date(2027, 1, 14), date(2027, 1, 15), date(2027, 1, 16))
    assert fitted.weeks[2].why.said == "2 of 5 training days are closed (travel)."


def test_a_start_on_a_saturday_gives_its_week_away():
    fitted = fit_weeks(TWELVE, LifterCalendar(date(2027, 1, 2), MEET, TRAINING_DAYS))

    assert fitted.weeks[0].kind == "blocked"
    assert "before the start" in fitted.weeks[0].why.said


def test_the_week_of_a_further_meet_is_light_and_the_day_before_it_free():
    meet = FurtherMeet(date(2027, 2, 6), "Eskmouth Spring Open")
    fitted = fit(12, WeekRules(off=("extra lighter", "rise of heavy lifts")), meets=(meet,))

    week = next(week for week in fitted.weeks if week.meets)
    assert week.monday == date(2027, 2, 1)
    assert week.role != "load" or week.level_permille == 600
    assert week.free_days == (date(2027, 2, 5),)
    assert "Eskmouth Spring Open lies in this week" in week.why.said


def test_the_day_before_a_meet_on_monday_lies_in_the_week_before():
    fitted = fit(12, meets=(FurtherMeet(date(2027, 2, 8)),))

    assert [week.free_days for week in fitted.weeks if week.free_days] == [(date(2027, 2, 7),)]
    assert next(week for week in fitted.weeks if week.free_days).meets == ()


def test_who_comes_strong_may_begin_high_and_who_comes_from_nothing_may_not():
    ready = fit_weeks(TWELVE, msgspec.structs.replace(until(MEET, 5), last_lifts=300, last_heavy_lifts=130))
    weak = fit_weeks(TWELVE, msgspec.structs.replace(until(MEET, 5), last_lifts=100, last_heavy_lifts=5))

    assert ready.cost < fit(5).cost <= weak.cost


def test_the_certificate_names_the_runner_up_and_the_rule_that_would_have_to_give():
    fitted = fit(11, blocks=(Block(date(2027, 2, 1), date(2027, 2, 7), "travel"),))

    assert fitted.runner_up_cost >= fitted.cost
    assert [(w.kind, w.template_week) for w in fitted.runner_up] != [
        (w.kind, w.template_week) for w in fitted.weeks
    ]
    assert fitted.reliefs
    for relief in fitted.reliefs:
        freer = fit(
            11, WeekRules(off=(relief.rule,)), blocks=(Block(date(2027, 2, 1), date(2027, 2, 7), "travel"),)
        )
        assert freer.cost == relief.cost < fitted.cost
        assert (
            relief.said
            == f"Without the rule '{relief.rule}' a plan would cost {relief.cost} instead of {fitted.cost}."
        )
    silent = set(BREAKABLE) - {relief.rule for relief in fitted.reliefs}
    for rule in silent:
        freer = fit(11, WeekRules(off=(rule,)), blocks=(Block(date(2027, 2, 1), date(2027, 2, 7), "travel"),))
        assert freer.cost >= fitted.cost


def test_costs_add_up_and_stand_on_the_weeks():
    fitted = fit(8)

    assert sum(item.cost for item in fitted.costs) == fitted.cost == sum(week.cost for week in fitted.weeks)


def test_travel_in_the_taper_week_collides_and_two_ways_out_are_shown():
    fitted = fit(12, blocks=(Block(date(2027, 3, 8), date(2027, 3, 14), "travel"),))

    assert not fitted.possible
    assert fitted.weeks == ()
    assert fitted.clash.rules == ("from the meet", "kept")
    assert fitted.clash.said == tuple(rule_words(rule, WeekRules()) for rule in fitted.clash.rules)
    assert (
        "The week of Monday 8 March 2027 is blocked. No training day is open (travel)." in fitted.clash.facts
    )
    lost, earlier = fitted.least_bad
    assert [w.template_week for w in lost.weeks][-3:] == [10, None, 12]
    assert lost.broken == (("kept", "Week 11 is left out, though not to be missed."),)
    assert [w.template_week for w in earlier.weeks][-3:] == [11, None, 12]
    assert earlier.broken == (
        (
            "from the meet",
            "Week 11 in the week of Monday 1 March 2027 does not stand where the meet wants it.",
        ),
    )


def test_one_week_before_the_meet_only_the_meet_week_is_left():
    fitted = fit(1)

    assert fitted.clash.rules == ("kept",)
    assert [w.template_week for w in fitted.least_bad[0].weeks] == [12]
    assert fitted.least_bad[0].broken == (("kept", "Weeks 8 and 11 are left out, though not to be missed."),)


def test_after_a_missed_week_what_remains_is_fitted_and_what_is_done_stays_done():
    # Five weeks are done, the sixth was missed (week of 1 February), the meet stays where it is.
    ill = Block(date(2027, 2, 1), date(2027, 2, 7), "ill", illness=True)
    fitted = fit(7, blocks=(ill,), weeks_done=5)

    assert fitted.possible
    assert [week for week in numbers(fitted) if week is not None and week <= 4] == []
    assert fitted.weeks[0].kind == "blocked"
    assert numbers(fitted)[-2:] == [11, 12]
    back = next(week for week in fitted.weeks[1:] if week.role == "load")
    assert back.level_permille <= 800
    said = [*fitted.reasons, *(week.why.said for week in fitted.weeks)]
    assert not any("Weeks 1" in sentence for sentence in said)


def test_the_last_working_week_that_is_done_counts_where_no_load_is_given():
    task = task_of(TWELVE, until(MEET, 7, weeks_done=4), WeekRules())

    assert task.start_load == (333, 83)


@pytest.mark.parametrize("weeks", range(8, 25))
def test_the_taper_of_every_fit_keeps_its_fall_of_volume(weeks):
    # tests/authorities/taper.md: 41 to 60 % less over about two weeks. Here: lifts of the two last weeks
    # against those of the last two working weeks, as fitted.
    fitted = fit(weeks)

    lifts = {week.number: week.lifts for week in TWELVE}
    work = [
        lifts[week.template_week] * week.level_permille // 1000
        for week in fitted.weeks
        if week.role == "load"
    ]
    taper = [lifts[week.template_week] for week in fitted.weeks[-2:]]
    assert 0.41 <= 1 - sum(taper) / sum(work[-2:]) <= 0.60


@given(st.integers(0, 10**9))
@settings(max_examples=60, deadline=None)
def test_what_collides_collides_and_nothing_of_it_can_be_spared(seed):
    random = Random(seed)
    weeks = random.randint(3, 8)
    template, calendar = random_template(random, weeks), random_calendar(random, random.randint(1, weeks))
    fitted = fit_weeks(template, calendar)

    if not fitted.possible and fitted.clash:
        task = task_of(template, calendar, WeekRules())
        rules = fitted.clash.rules
        assert rules
        assert not cheapest(only(task, rules), want=1)
        for rule in rules:
            assert cheapest(only(task, [other for other in rules if other != rule]), want=1)
        assert fitted.least_bad
        assert all(plan.broken and plan.weeks for plan in fitted.least_bad)


@given(st.integers(0, 10**9))
@settings(max_examples=60, deadline=None)
def test_every_answer_speaks_in_sentences(seed):
    random = Random(seed)
    weeks = random.randint(1, 14)
    fitted = fit_weeks(random_template(random, weeks), random_calendar(random, random.randint(1, 2 * weeks)))

    said = [*fitted.reasons, *(w.why.said for w in fitted.weeks if w.why.said)]
    said += [
        sentence for plan in fitted.least_bad for sentence in (*plan.reasons, *(b for _, b in plan.broken))
    ]
    for sentence in said:
        assert sentence[0].isupper() or sentence[0].isdigit()
        assert sentence.endswith(".")
        assert "  " not in sentence
    assert fitted.possible or fitted.clash or fitted.problems


def test_the_demo_cycle_as_a_template():
    catalogue = shipped()
    cycle = read((Path(meetward.demo.__file__).parent / "cycle.txt").read_text(), catalogue).cycle
    template, problems = template_of(cycle, catalogue)

    counts = count_cycle(cycle, catalogue).weeks
    assert not problems
    assert [week.lifts for week in template] == [round(count.lifts) for count in counts]
    assert [week.heavy_lifts for week in template] == [round(sum(count.zones[4:7])) for count in counts]
    assert [week.role for week in template if not week.may_drop] == ["test", "taper", "meet"]
    assert fit_weeks(template, until(MEET, len(template))).cost == 0


def test_marks_of_weeks_that_are_not_there_are_told():
    catalogue = shipped()
    cycle = read((Path(meetward.demo.__file__).parent / "cycle.txt").read_text(), catalogue).cycle

    template, problems = template_of(
        cycle, catalogue, (WeekMark(99), WeekMark(2, drop_cost=-1), WeekMark(3, may_drop=False, drop_cost=4))
    )

    assert [problem.kind for problem in problems] == ["no such week", "cost below 0"]
    assert "from 1 to 12" in problems[0].repair
    assert (template[2].may_drop, template[2].drop_cost, template[2].may_repeat) == (False, 4, True)
