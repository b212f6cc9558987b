"""The whole cycle fitted to one lifter: what stands in the fitted cycle, on which day, and what is said."""

import json
from datetime import date, timedelta

import msgspec
import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.package import from_json, to_json
from meetward.demo import cycle_text, squad
from meetward.fit.contract import as_json
from meetward.fit.dates import week_dates
from meetward.fit.day import day_sheets
from meetward.fit.proposal import Proposal, propose
from meetward.fit.week_days import DaysFitter
from meetward.fit.weeks_calendar import Block, FurtherMeet, LifterCalendar
from meetward.lifter.restrictions import Limits, MissingKit, Restriction
from meetward.notation import read
from meetward.workload.count import count_cycle

ALL = shipped()
CYCLE = read(cycle_text(), ALL).cycle
TOBIAS = next(one for one in squad(ALL) if one.key == "tobias-marr")
START, MEET = date(2027, 1, 4), date(2027, 3, 20)
CALENDAR = LifterCalendar(
    START,
    MEET,
    days=(0, 2, 5),
    blocks=(Block(date(2027, 2, 8), date(2027, 2, 14), "travel"),),
    goal="Eskmouth Spring Open",
)
FITTER = DaysFitter(ALL)


def fitted(calendar: LifterCalendar = CALENDAR, **more) -> Proposal:
    return propose(CYCLE, TOBIAS, calendar, ALL, **({"minutes": 70, "fitter": FITTER, "today": START} | more))


ELEVEN_WEEKS = fitted()


def test_every_session_falls_on_a_day_of_the_lifter_and_none_on_a_blocked_one():
    for session in ELEVEN_WEEKS.sessions:
        meet = session.on == MEET
        assert meet or session.on.weekday() in (0, 2, 5)
        assert not date(2027, 2, 8) <= session.on <= date(2027, 2, 14)
        assert meet or session.minutes <= 70


def test_the_fitted_cycle_reads_like_any_cycle():
    cycle = ELEVEN_WEEKS.cycle
    assert from_json(to_json(cycle).decode()) == cycle
    dates = [day for week in week_dates(cycle) for day in week]

    assert dates == [session.on for session in ELEVEN_WEEKS.sessions]
    assert len(list(day_sheets(cycle, TOBIAS, ALL))) == len(ELEVEN_WEEKS.sessions)
    assert count_cycle(cycle, ALL).cycle.lifts < count_cycle(CYCLE, ALL).cycle.lifts


def test_weeks_stay_in_order_and_the_last_one_is_the_meets():
    numbers = [week.template_week for week in ELEVEN_WEEKS.weeks_fit.weeks if week.template_week]

    assert numbers == sorted(numbers)
    last = ELEVEN_WEEKS.weeks_fit.weeks[-1]
    assert last.role == "meet"
    assert last.monday <= MEET < last.monday + timedelta(days=7)
    assert len(list(ELEVEN_WEEKS.cycle.weeks())) == len(ELEVEN_WEEKS.weeks_fit.weeks) == 11


def test_a_week_without_training_says_why():
    blocked = [week for _, _, week in ELEVEN_WEEKS.cycle.weeks() if not week.sessions]

    assert len(blocked) == 1
    assert "travel" in " ".join(blocked[0].notes)


def test_a_week_at_a_lower_level_has_fewer_sets_and_the_same_kilos():
    at, week = next((n, w) for n, w in enumerate(ELEVEN_WEEKS.weeks_fit.weeks) if 0 < w.level_permille < 1000)
    whole = CYCLE_WEEKS[week.template_week]
    done = list(ELEVEN_WEEKS.cycle.weeks())[at][2]
    written = {
        (part.movement, repr(group.load)): group.count.high
        for session in whole.sessions
        for segment in session.segments
        for line in segment.lines
        for part in line.parts[:1]
        for group in line.groups
        if group.count
    }
    for session in done.sessions:
        for segment in session.segments:
            for line in segment.lines if segment.kind == "lifts" else ():
                for group in line.groups:
                    before = written.get((line.parts[0].movement, repr(group.load)))
                    assert before is None or group.count is None or group.count.high <= before


CYCLE_WEEKS = {number: week for number, _, week in CYCLE.weeks()}


def test_what_is_not_at_hand_is_replaced_with_a_word_why():
    without = fitted(limits=Limits(missing=(MissingKit(equipment=("blocks",)),)), minutes=120)
    replaced = [line for session in without.sessions for line in session.lines if line.instead_of]

    assert replaced
    assert all(line.said for line in replaced)
    for session in without.cycle.sessions():
        for segment in session[2].segments:
            for line in segment.lines:
                for part in line.parts:
                    entry = ALL.movements.get(part.movement)
                    assert entry is None or "blocks" not in entry.equipment


def test_a_restriction_is_kept_until_its_day():
    until = date(2027, 1, 31)
    limits = Limits(restrictions=(Restriction("no jerks", until=until),))
    proposal = fitted(limits=limits, minutes=120)
    jerks = {m.id for m in ALL.movements.values() if m.family in ("jerk", "clean and jerk")}
    dates = iter(proposal.sessions)
    for _, _, session in proposal.cycle.sessions():
        on = next(dates).on
        names = {
            p.movement for s in session.segments if s.kind == "lifts" for ln in s.lines for p in ln.parts
        }
        assert on > until or not names & jerks


def test_what_cannot_be_is_said_and_nothing_is_raised():
    tomorrow = fitted(msgspec.structs.replace(CALENDAR, starts_on=MEET - timedelta(days=1), blocks=()))
    over = fitted(today=MEET + timedelta(days=1))

    assert not tomorrow.possible
    assert tomorrow.cycle is None
    assert tomorrow.weeks_fit.least_bad
    assert not over.possible
    assert any("is over" in problem.message for problem in over.problems)


def test_a_meet_on_the_way_keeps_its_day_and_the_one_before_free():
    on_the_way = date(2027, 1, 30)
    calendar = msgspec.structs.replace(CALENDAR, blocks=(), meets=(FurtherMeet(on_the_way, "Quarry Cup"),))
    days = {session.on for session in fitted(calendar).sessions}

    assert on_the_way not in days
    assert on_the_way - timedelta(days=1) not in days


@pytest.mark.parametrize("weeks", [2, 5, 12, 15, 20])
def test_the_contract_holds_for_every_length(weeks):
    calendar = LifterCalendar(MEET - timedelta(weeks=weeks - 1, days=5), MEET, (0, 1, 3, 5))
    made = json.loads(msgspec.json.encode(as_json(fitted(calendar))))

    assert {
        "lifter",
        "meet",
        "possible",
        "weeks",
        "sessions",
        "cost",
        "runner_up_cost",
        "reasons",
        "problems",
    } <= made.keys()
    assert len(made["weeks"]) in (0, weeks)
    for week in made["weeks"]:
        assert date.fromisoformat(week["monday"]).weekday() == 0
        assert week["template_week"] is None or 1 <= week["template_week"] <= 12
    for session in made["sessions"]:
        assert len(session["template"]) == 2
        assert isinstance(session["left_out"], list)


def test_the_same_question_has_the_same_answer():
    assert fitted(fitter=DaysFitter(ALL)) == ELEVEN_WEEKS
