"""What the spring cycle promises beside the autumn's: emphasis, waves, taper, every form of the notation."""

from collections import Counter

import pytest

from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Percent,
)
from meetward.workload.count import count_cycle

BOSQUET_LOW, BOSQUET_HIGH = 0.41, 0.60
"""Fall of volume in the most effective tapers: Bosquet et al. 2007 (tests/authorities/taper.md)."""


def _groups(cycle, kind="lifts"):
    for _, _, session in cycle.sessions():
        for segment in session.segments:
            if kind in ("", segment.kind):
                for line in segment.lines:
                    for group in line.groups:
                        yield line, group


def _of_role(cycle, counts, *roles):
    return [counts.weeks[n - 1] for n, _, week in cycle.weeks() if week.role in roles]


def _mean(counts):
    return sum(count.lifts for count in counts) / len(counts)


def test_the_taper_takes_away_what_tapers_take_away(spring, catalogue):
    counts = count_cycle(spring.cycle, catalogue)
    loads = _of_role(spring.cycle, counts, "load")
    taper = _of_role(spring.cycle, counts, "taper", "meet")
    assert len(taper) == 2, "about two weeks"
    assert BOSQUET_LOW <= 1 - _mean(taper) / _mean(loads) <= BOSQUET_HIGH
    before = counts.weeks[8:10]
    assert BOSQUET_LOW <= 1 - _mean(taper) / _mean(before) <= BOSQUET_HIGH
    assert taper[1].lifts < taper[0].lifts < min(count.lifts for count in loads)


def test_the_autumn_taper_was_deeper(autumn, catalogue):
    counts = count_cycle(autumn.cycle, catalogue)
    taper = _of_role(autumn.cycle, counts, "taper", "meet")
    assert 1 - _mean(taper) / _mean(_of_role(autumn.cycle, counts, "load")) > BOSQUET_HIGH


def test_intensity_is_kept_in_the_taper_and_falls_in_the_last_days(spring):
    def heaviest(week_number, *days):
        week = next(week for number, _, week in spring.cycle.weeks() if number == week_number)
        return max(
            (
                group.load.high_permille
                for session in week.sessions
                if session.weekday in days
                for segment in session.segments
                if segment.kind == "lifts"
                for line in segment.lines
                if all(part.movement in ("snatch", "clean_and_jerk", "power_snatch") for part in line.parts)
                for group in line.groups
                if isinstance(group.load, Percent)
            ),
            default=0,
        )

    assert heaviest(11, 0, 1, 3) >= 900
    assert heaviest(12, 0, 1) <= 850
    assert heaviest(12, 3, 4) <= 600
    assert heaviest(12, 5) >= 1_000


def test_weeks_go_in_waves(spring, catalogue):
    counts = count_cycle(spring.cycle, catalogue)
    base, build, sharpen = counts.phases
    assert base.lifts > build.lifts > sharpen.lifts
    assert base.average_permille < build.average_permille < sharpen.average_permille
    lifts = [week.lifts for week in counts.weeks]
    assert max(lifts) == lifts[2]
    assert len({round(each) for each in lifts}) == 12, "no two weeks hold the same"
    averages = [counts.weeks[n].average_permille for n in (0, 2, 4, 6)]
    assert averages == sorted(averages)


def test_the_first_month_is_one_of_the_trade(spring, autumn, catalogue):
    """700 lifts a month for a beginner to 1,250 for a master (restated; tests/authorities/taper.md)."""
    for reading in (spring, autumn):
        assert 700 <= count_cycle(reading.cycle, catalogue).phases[0].lifts <= 1_250


def test_the_emphasis_is_in_the_numbers(spring, autumn, catalogue):
    now, before = (count_cycle(reading.cycle, catalogue).cycle for reading in (spring, autumn))
    assert now.family("jerk") > 4 * before.family("jerk")
    assert now.family("overhead") > 100 > before.family("overhead") + 50
    assert now.family("pull") / now.lifts < before.family("pull") / before.lifts - 0.05


def test_the_jerk_has_a_day_of_its_own_from_first_to_last_week(spring, catalogue):
    for number, _, week in spring.cycle.weeks():
        if number == 12:
            continue
        tuesday = next(session for session in week.sessions if session.weekday == 1)
        families = Counter(
            catalogue.movements[part.movement].family
            for segment in tuesday.segments
            if segment.kind == "lifts"
            for line in segment.lines
            for part in line.parts
        )
        assert families["jerk"] >= 1, number
        assert families["overhead"] + families["press"] >= 1, number


def test_no_week_is_another_with_new_percentages(spring):
    """Of two weeks at most a third of the barbell lines are the same movement with the same sets and reps."""

    def schemes(week):
        return [
            (
                tuple((part.movement, part.pauses) for part in line.parts),
                tuple((group.count, group.reps, group.every_s, group.tempo) for group in line.groups),
            )
            for session in week.sessions
            for segment in session.segments
            if segment.kind == "lifts"
            for line in segment.lines
            if not line.turn
        ]

    weeks = [schemes(week) for _, _, week in spring.cycle.weeks()]
    for n, one in enumerate(weeks):
        for other in weeks[n + 1 :]:
            same = sum((Counter(one) & Counter(other)).values())
            assert same <= min(len(one), len(other)) / 3, (n + 1, same)


def test_coach_s_notes_teach(spring):
    notes = [
        note
        for _, _, session in spring.cycle.sessions()
        for segment in session.segments
        for line in segment.lines
        for note in line.notes
    ]
    assert len(notes) >= 45
    assert len(set(notes)) == len(notes), "each said once"
    assert all(len(note.split()) >= 6 for note in notes)


FORMS = {
    "a range of percent": lambda line, g: (
        isinstance(g.load, Percent) and g.load.low_permille not in (None, g.load.high_permille)
    ),
    "percent of a named lift": lambda line, g: isinstance(g.load, Percent) and g.load.of.kind == "lift",
    "percent of today's top": lambda line, g: isinstance(g.load, Percent) and g.load.of.kind == "top",
    "percent of a rep max": lambda line, g: isinstance(g.load, Percent) and g.load.of.kind == "rep max",
    "up to": lambda line, g: g.climbing,
    "a heavy single": lambda line, g: g.load == Heavy(1, "heavy"),
    "a heavy double": lambda line, g: g.load == Heavy(2, "heavy"),
    "a heavy triple": lambda line, g: g.load == Heavy(3, "heavy"),
    "a maximum": lambda line, g: g.load == Heavy(1, "max"),
    "every minute": lambda line, g: g.every_s == 60,
    "every 90 s": lambda line, g: g.every_s == 90,
    "waves": lambda line, g: g.wave > 1,
    "a ladder of reps": lambda line, g: 4 <= len(line.groups) == len({each.reps for each in line.groups}),
    "RPE": lambda line, g: isinstance(g.load, Effort) and g.load.scale == "rpe",
    "reps in reserve": lambda line, g: isinstance(g.load, Effort) and g.load.scale == "rir",
    "rest": lambda line, g: g.rest_s is not None,
    "tempo": lambda line, g: bool(g.tempo),
    "per side": lambda line, g: g.per_side,
    "a hold": lambda line, g: g.hold_s is not None,
    "at least": lambda line, g: any(r and r.or_more and r.low for r in g.reps),
    "as many as possible": lambda line, g: any(r and r.or_more and r.low is None for r in g.reps),
    "a range of reps": lambda line, g: any(r and r.low != r.high for r in g.reps),
    "a range of sets": lambda line, g: g.count is not None and g.count.low != g.count.high,
    "a cluster": lambda line, g: bool(g.cluster) and g.cluster_rest_s == 15,
    "the empty bar": lambda line, g: isinstance(g.load, BarOnly) and not g.load.stick,
    "a stick": lambda line, g: isinstance(g.load, BarOnly) and g.load.stick,
    "bodyweight and more": lambda line, g: isinstance(g.load, Bodyweight) and g.load.plus_dag > 0,
    "kilos": lambda line, g: isinstance(g.load, Kilos),
    "men and women": lambda line, g: isinstance(g.load, ByCategory),
    "a distance": lambda line, g: g.distance_m is not None,
    "a complex": lambda line, g: len(line.parts) == 3,
    "a pause at the knee": lambda line, g: any("knee" in p.at for part in line.parts for p in part.pauses),
    "a pause in the dip": lambda line, g: any("dip" in p.at for part in line.parts for p in part.pauses),
    "in turn": lambda line, g: line.turn == "A",
    "if there is time": lambda line, g: line.priority == "could",
    "between sets": lambda line, g: bool(line.between),
}  # fmt: skip


@pytest.mark.parametrize("form", FORMS)
def test_every_form_of_the_notation_is_used(form, spring):
    assert any(FORMS[form](line, group) for line, group in _groups(spring.cycle)), form
