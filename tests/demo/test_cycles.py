"""Both cycles: read without a doubt, complete, and sound by the rules of the trade."""

import csv
from collections import Counter
from datetime import timedelta
from pathlib import Path

from meetward import demo
from meetward.cycle.integrity import contradictions
from meetward.cycle.load import Heavy, Percent
from meetward.fit.dates import week_dates
from meetward.fit.minutes import session_minutes
from meetward.notation import print_cycle, read
from meetward.workload.count import count_cycle, count_session, uncounted

AUTHORITIES = Path(__file__).parent.parent / "authorities"
TRAINING_DAYS = (0, 1, 3, 4, 5)

# Kinds of drill that are for the end of a session (tests/authorities/taper.md, custom).
NOT_BETWEEN_HEAVY_SETS = ("static stretch", "contract-relax", "soft tissue")


def _sessions(reading):
    return list(reading.cycle.sessions())


def _lines(reading, kind="lifts"):
    for week, number, session in reading.cycle.sessions():
        for segment in session.segments:
            if segment.kind == kind:
                for line in segment.lines:
                    yield week, number, line


def test_everything_is_understood(reading):
    assert [str(problem) for problem in reading.problems] == []
    assert Counter(record.status for record in reading.lines).keys() == {"read"}
    assert [record.text for record in reading.lines if record.leftover] == []
    assert list(contradictions(reading.cycle)) == []


def test_every_movement_drill_and_sequence_is_in_the_catalogue(reading, catalogue):
    known = catalogue.movements.keys() | catalogue.drills.keys() | catalogue.sequences.keys()
    for kind in ("warm-up", "lifts", "recovery"):
        for week, number, line in _lines(reading, kind):
            assert line.parts, (week, number, line)
            for part in line.parts:
                assert part.movement in known, (week, number, part.written)
            for between in line.between:
                assert between.drill in catalogue.drills, (week, number, between.written)
                assert between.dose or between.drill == "calm_breaths"


def test_five_sessions_a_week_on_the_same_days(reading):
    weeks = list(reading.cycle.weeks())
    assert len(weeks) == 12
    for number, _, week in weeks:
        assert tuple(session.weekday for session in week.sessions) == TRAINING_DAYS, number


def test_dates_lead_to_the_meet(reading):
    cycle = reading.cycle
    assert cycle.starts_on.weekday() == 0
    assert cycle.meet_on.weekday() == 5
    assert week_dates(cycle)[-1][-1] == cycle.meet_on
    assert cycle.meet_on - cycle.starts_on == timedelta(weeks=11, days=5)


def test_the_cycles_follow_one_another(spring, autumn):
    gap = spring.cycle.starts_on - autumn.cycle.meet_on
    assert timedelta(weeks=2) < gap < timedelta(weeks=8)


def test_head_and_phases(reading):
    cycle = reading.cycle
    club = demo.club()
    assert (cycle.club, cycle.coach) == (club.name, club.coach)
    assert cycle.aim
    assert cycle.emphasis
    assert cycle.title
    assert cycle.meet
    assert [len(phase.weeks) for phase in cycle.phases] == [4, 4, 4]
    assert all(phase.title and phase.aim for phase in cycle.phases)
    assert cycle.order == "sets-first"
    assert cycle.bare_load == "percent"
    roles = [week.role for _, _, week in cycle.weeks()]
    assert roles[-2:] == ["taper", "meet"]
    assert "test" in roles
    assert "lighter" in roles


def test_every_session_is_whole(reading):
    for week, number, session in reading.cycle.sessions():
        kinds = [segment.kind for segment in session.segments]
        assert kinds == ["warm-up", "lifts", "recovery"], (week, number)
        assert all(segment.lines for segment in session.segments), (week, number)
        assert session.title, (week, number)
        assert session.aim, (week, number)
        recovery = session.segments[2].lines
        assert len(recovery) <= 3, "three drills are done, more are not (taper.md, custom)"


def test_load_weeks_have_no_thin_session(reading, catalogue):
    for number, _, week in reading.cycle.weeks():
        if week.role != "load":
            continue
        for session in week.sessions:
            lifts = next(s for s in session.segments if s.kind == "lifts").lines
            bars = [
                each for each in lifts if any(catalogue.movements[p.movement].barbell for p in each.parts)
            ]
            assert len(bars) >= 3, (number, session.title)
            assert len(lifts) >= 4, (number, session.title)


def test_stated_minutes_are_what_the_session_takes(reading, catalogue):
    for week, number, session in reading.cycle.sessions():
        if session.minutes is None:
            assert (week, number) == (12, 5), "only the meet has no length"
            continue
        estimate = session_minutes(session, catalogue)
        assert estimate.low_minutes <= session.minutes <= estimate.high_minutes, (week, number)


def test_load_weeks_of_the_spring_take_ninety_to_a_hundred_and_ten_minutes(spring):
    for number, _, week in spring.cycle.weeks():
        if week.role == "load":
            assert all(90 <= session.minutes <= 110 for session in week.sessions), number


def test_key_sessions_hold_the_competition_lifts(reading, catalogue):
    for number, _, week in reading.cycle.weeks():
        key = [session for session in week.sessions if session.key]
        assert 2 <= len(key) <= 3, number
        families = {family for s in key for family, _ in count_session(s, catalogue).families}
        heavy = {
            catalogue.movements[part.movement].family
            for s in key
            for segment in s.segments
            for line in segment.lines
            if any(isinstance(group.load, Heavy) for group in line.groups)
            for part in line.parts
        }
        assert "snatch" in families | heavy
        assert {"clean and jerk", "clean"} & (families | heavy)


def test_competition_lifts_or_their_variants_twice_a_week(reading, catalogue):
    for number, _, week in reading.cycle.weeks():
        snatch = clean_and_jerk = 0
        for session in week.sessions:
            families = {
                catalogue.movements[part.movement].family
                for segment in session.segments
                if segment.kind == "lifts"
                for line in segment.lines
                for part in line.parts
                if part.movement in catalogue.movements
            }
            snatch += "snatch" in families
            clean_and_jerk += "clean and jerk" in families or "clean" in families
        assert snatch >= 2, number
        assert clean_and_jerk >= 2, number


def test_a_lighter_week_at_least_every_fourth(reading, catalogue):
    weeks = list(reading.cycle.weeks())
    counts = count_cycle(reading.cycle, catalogue).weeks
    loads = [counts[n - 1].lifts for n, _, week in weeks if week.role == "load"]
    in_a_row = 0
    for number, _, week in weeks:
        in_a_row = in_a_row + 1 if week.role == "load" else 0
        assert in_a_row <= 3, number
        if week.role in ("lighter", "test"):
            assert counts[number - 1].lifts < 0.7 * sum(loads) / len(loads), number


def test_squats_stay_inside_prilepins_ranges(reading, catalogue):
    """Prilepin's ranges, Hristov's zones (tests/authorities/prilepin.csv): shares of each most, summed."""
    rows = [
        row for row in csv.DictReader((AUTHORITIES / "prilepin.csv").open()) if row["variant"] == "hristov"
    ]
    most = {row["zone_low"]: int(row["range_max"]) for row in rows}
    limits = (most["0.00"],) * 3 + (most["0.70"], most["0.80"], most["0.90"], most["0.90"])
    assert limits == (30, 30, 30, 24, 20, 10, 10)
    weeks = [week for _, _, week in reading.cycle.weeks()]
    for week, number, session in reading.cycle.sessions():
        row = dict(count_session(session, catalogue).families).get("squat", (0.0,) * 8)
        share = sum(lifts / limit for lifts, limit in zip(row, limits, strict=False))
        assert share <= 1.0, (week, number, row)
        if weeks[week - 1].role == "load" and number == 1:
            assert share >= 0.5, (week, number, row)


def test_no_stretch_is_held_between_heavy_sets(reading, catalogue):
    """Held stretches cost force (Kay & Blazevich 2012, Behm et al. 2016: tests/authorities/taper.md)."""
    for week, number, line in _lines(reading):
        for between in line.between:
            drill = catalogue.drills[between.drill]
            assert drill.kind not in NOT_BETWEEN_HEAVY_SETS, (week, number, between)
            assert drill.held_s < 30, (week, number, between)
            assert "between sets" in drill.uses, (week, number, between)
        for part in line.parts:
            drill = catalogue.drills.get(part.movement)
            assert drill is None or drill.kind not in NOT_BETWEEN_HEAVY_SETS, (week, number, part)
    for week, number, line in _lines(reading, "warm-up"):
        for part in line.parts:
            for step in catalogue.sequences[part.movement].steps:
                drill = catalogue.drills.get(step.of)
                assert drill is None or drill.kind not in NOT_BETWEEN_HEAVY_SETS, (week, number, step)


def test_drills_stand_between_the_sets_of_main_lifts(spring):
    with_drill = Counter(week for week, _, line in _lines(spring) if line.between)
    assert all(with_drill[week] >= 4 for week in range(1, 11)), with_drill


def test_nothing_above_110_percent_but_pulls(reading, catalogue):
    for week, number, line in _lines(reading):
        families = {m.family for part in line.parts if (m := catalogue.movements.get(part.movement))}
        for group in line.groups:
            if isinstance(group.load, Percent):
                limit = 1_150 if families <= {"pull"} else 1_100
                assert group.load.high_permille <= limit, (week, number, line)
                if families & {"snatch", "clean", "clean and jerk"} and group.load.of.kind != "top":
                    assert group.load.high_permille <= 1_010, (week, number, line)


def test_only_work_to_a_heavy_set_is_left_uncounted(reading, catalogue):
    left = list(uncounted(reading.cycle, catalogue))
    assert left, "somewhere they work up to something"
    for each in left:
        assert any(isinstance(group.load, Heavy) or group.count is None for group in each.line.groups), each


def test_warm_ups_are_named_with_their_version(spring, autumn, catalogue):
    def versions(reading):
        return {
            (part.movement, part.version) for _, _, line in _lines(reading, "warm-up") for part in line.parts
        }

    now, before = versions(spring), versions(autumn)
    for name in ("general_warm_up", "snatch_bar_warm_up", "jerk_warm_up"):
        assert (name, 2) in now
        assert (name, 1) not in now
    assert {("general_warm_up", 1), ("snatch_bar_warm_up", 1)} <= before
    assert not any(name == "jerk_warm_up" for name, _ in before)
    for name, version in now | before:
        assert version in {sequence.version for sequence in catalogue.versions[name]}


def test_printing_is_stable_and_loses_nothing(reading, catalogue):
    printed = print_cycle(reading.cycle)
    again = read(printed, catalogue)
    assert again.problems == ()
    assert again.cycle == reading.cycle
    assert print_cycle(again.cycle) == printed
