"""A lifter's day as it is assembled: everything that pages and sheets draw."""

from datetime import date

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import shipped
from meetward.cycle.load import BarOnly, Effort, Heavy, Of
from meetward.cycle.tree import Between, Line, Part, Pause, Span
from meetward.fit.cautions import AGE_NOT_KNOWN, ALWAYS, MINOR, NEAR_LIMIT
from meetward.fit.compile import compile_cycle
from meetward.fit.day import NoSuchSession, day_sheet, day_sheets
from meetward.fit.squad import squad_kilos, squad_of
from tests.fit.people import BARE_KIT, lifter, lifters, lines
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets

MARA = lifter(snatch=85, clean_and_jerk=105)

DAY = session(
    line(
        "snatch",
        sets(2, 3, load=percent(70), rest_s=Span(120, 120)),
        sets(3, 2, load=percent(75, 80)),
        between=(Between("ankle rocks", "ankle_rock"), Between("shake the legs", dose="10 s")),
        notes=("no misses",),
        priority="key",
    ),
    line("back_squat", sets(3, 5, load=percent(75))),
    line("dumbbell_press", sets(3, 8, load=Effort("rpe", 80, 80)), turn="A"),
    line("side_plank", sets(3, None, hold_s=Span(30, 30), per_side=True), turn="A"),
    line("sntach", sets(1, 1)),
    Line((), notes=("then home",)),
    warm_up=(line("snatch_bar"), line("ankle_rock", sets(1, 5))),
    recovery=(line("ankle_rock", sets(None, None, within_s=120)),),
    title="Snatch and squat",
    aim="bar close",
    key=True,
)
PLAN = cycle(
    (DAY,),
    title="Winter",
    starts_on=date(2026, 12, 28),
    meet="Eskmouth Spring Open",
    meet_on=date(2027, 3, 20),
)


@pytest.fixture(scope="module")
def sheet():
    return day_sheet(PLAN, 1, 1, MARA, CATALOGUE, club="Harrow Lane Weightlifting")


def test_the_head_says_who_what_and_when(sheet):
    assert (sheet.lifter, sheet.lifter_key, sheet.cycle) == ("Mara Quill", "mara", "Winter")
    assert (sheet.week, sheet.weeks, sheet.session, sheet.week_role) == (1, 1, 1, "load")
    assert (sheet.on, sheet.meet_on) == (date(2026, 12, 28), date(2027, 3, 20))
    assert (sheet.club, sheet.title, sheet.aim, sheet.key) == (
        "Harrow Lane Weightlifting", "Snatch and squat", "bar close", True,
    )  # fmt: skip
    assert (sheet.bar_dag, sheet.unit) == (2_000, "kg")


def test_segments_and_lines_stand_in_order_with_their_minutes(sheet):
    assert [segment.kind for segment in sheet.segments] == ["warm-up", "lifts", "recovery"]
    assert sum(segment.minutes for segment in sheet.segments) == pytest.approx(sheet.minutes)
    for segment in sheet.segments:
        assert sum(each.minutes for each in segment.lines) == pytest.approx(segment.minutes)
    assert "usually" in sheet.minutes_why.said


def test_a_line_has_kilos_words_discs_and_reasons(sheet):
    snatch = sheet.segments[1].lines[0]
    first, second = snatch.sets

    assert (snatch.name, snatch.notes, snatch.priority) == ("Snatch", ("no misses",), "key")
    assert (first.scheme, first.load_said, first.high_dag) == ("2 × 3, rest 2:00", "70 %", 6_000)
    assert (second.low_dag, second.high_dag) == (6_250, 6_750)
    assert second.discs.total_dag == second.high_dag
    assert first.why.said
    assert snatch.parts[0].entry is CATALOGUE.movements["snatch"]


def test_ladders_climb_to_the_first_work_set_and_the_second_lift_starts_half_way(sheet):
    snatch, squat, press, plank, *_ = sheet.segments[1].lines

    assert snatch.ladder.steps[0].dag == 2_000
    assert all(step.dag < 6_000 for step in snatch.ladder.steps)
    assert squat.ladder.steps[0].dag > 2_000
    assert squat.ladder.steps[-1].dag < squat.sets[0].low_dag
    assert press.ladder is None
    assert plank.ladder is None


def test_the_ladder_to_a_range_leads_to_its_low_end():
    who = lifter(snatch=100)
    ranged, single = (
        day_sheet(cycle((session(line("snatch", sets(3, 2, load=load))),)), 1, 1, who, CATALOGUE)
        for load in (percent(70, 90), percent(70))
    )

    assert ranged.segments[0].lines[0].ladder.steps == single.segments[0].lines[0].ladder.steps


def test_sequences_are_spelt_out_and_between_set_work_has_its_drill(sheet):
    sequence = sheet.segments[0].lines[0]
    between = sheet.segments[1].lines[0].between

    assert [(name, dose) for name, dose, _ in sequence.steps] == [
        ("Ankle rock", "5 each way"), ("Power snatch", "3 reps, empty bar"),
    ]  # fmt: skip
    assert [entry.id for _, _, entry in sequence.steps] == ["ankle_rock", "power_snatch"]
    assert [(b.name, b.dose) for b in between] == [("Ankle rock", "5 each side"), ("shake the legs", "10 s")]
    assert between[0].drill is CATALOGUE.drills["ankle_rock"]


def test_what_is_missing_is_told_with_its_place(sheet):
    kinds = [problem.kind for problem in sheet.problems]

    assert kinds.count("derived best") == 1
    assert kinds.count("not in the catalogue") == 2  # the misspelt lift and the between-set work
    assert all(problem.repair and str(problem.place) for problem in sheet.problems)
    typo = next(p for p in sheet.problems if p.read == "Sntach")
    assert typo.repair == "Did you mean Snatch?"
    assert "Week 1, session 1" in typo.place.said


def test_every_sheet_carries_the_general_cautions_and_those_of_its_movements():
    movement = msgspec.structs.replace(CATALOGUE.movements["snatch"], cautions=("Nobody spots it.", "More."))
    plan = session(line("snatch", sets(1, 1)))

    with_caution = Catalogue([movement])
    done = day_sheet(cycle((plan,)), 1, 1, MARA, with_caution).cautions

    assert done[: len(ALWAYS)] == ALWAYS
    assert "Snatch: Nobody spots it." in done
    assert not any("More." in each for each in done)


@pytest.mark.parametrize(
    ("birth_year", "said"), [(2012, MINOR), (2009, MINOR), (2008, None), (1990, None), (None, AGE_NOT_KNOWN)]
)
def test_the_young_lift_under_a_coach(birth_year, said):
    who = msgspec.structs.replace(MARA, birth_year=birth_year)
    done = day_sheet(PLAN, 1, 1, who, CATALOGUE, on=date(2027, 1, 4)).cautions

    assert [each for each in done if each in (MINOR, AGE_NOT_KNOWN)] == ([said] if said else [])


@pytest.mark.parametrize(
    ("one", "near"),
    [
        (line("snatch", sets(1, 1, load=Heavy(1))), True),
        (line("snatch", sets(1, 1, load=percent(95))), True),
        (line("snatch", sets(1, 1, load=percent(90))), False),
        (line("snatch_pull", sets(3, 3, load=percent(105))), False),
        (line("snatch", sets(2, 2, load=percent(95, of=Of("top")))), False),
    ],
)
def test_a_day_near_the_limit_is_not_for_lifting_alone(one, near):
    done = day_sheet(cycle((session(one),)), 1, 1, MARA, CATALOGUE)

    assert (NEAR_LIMIT in done.cautions) is near


@pytest.mark.parametrize(
    ("week", "number", "said"),
    [
        (0, 1, "no week 0: the cycle has 1 week"),
        (2, 1, "no week 2"),
        (1, 0, "no session 0 in week 1"),
        (1, 2, "no session 2 in week 1: it has 1 session"),
    ],
)
def test_a_week_or_session_that_is_not_there_is_named(week, number, said):
    with pytest.raises(NoSuchSession, match=said):
        day_sheet(PLAN, week, number, MARA, CATALOGUE)


def test_an_empty_cycle_has_no_weeks():
    with pytest.raises(NoSuchSession, match="the cycle has no weeks"):
        day_sheet(cycle(), 1, 1, MARA, CATALOGUE)


def test_a_lifter_with_no_bests_and_no_discs_still_gets_a_sheet():
    done = day_sheet(PLAN, 1, 1, lifter(BARE_KIT), CATALOGUE)

    assert [s.high_dag for s in done.segments[1].lines[0].sets] == [None, None]
    assert {"no best"} <= {p.kind for p in done.problems}
    assert all(s.instruction for s in done.segments[1].lines[0].sets)


def test_the_empty_bar_needs_no_ladder_and_is_drawn_empty():
    done = day_sheet(cycle((session(line("snatch", sets(3, 5, load=BarOnly()))),)), 1, 1, MARA, CATALOGUE)
    [one] = done.segments[0].lines

    assert one.ladder is None
    assert one.sets[0].discs.discs == ()


def test_variants_and_pauses_stand_beside_the_name():
    paused = Line((Part("Snatch", "snatch", ("from blocks",), (Pause(2, "at the knee"),)),), (sets(1, 1),))
    done = day_sheet(cycle((session(paused),)), 1, 1, MARA, CATALOGUE)

    assert done.segments[0].lines[0].parts[0].detail == "from blocks, 2 s pause at the knee"


def test_all_days_of_a_lifter_come_in_order():
    plan = cycle((DAY, DAY), (DAY,), starts_on=date(2026, 12, 28))

    done = list(day_sheets(plan, MARA, CATALOGUE))
    second = list(day_sheets(plan, MARA, CATALOGUE, weeks=range(2, 3)))

    assert [(s.week, s.session) for s in done] == [(1, 1), (1, 2), (2, 1)]
    assert [s.week for s in second] == [2]
    assert done[0].on < done[1].on < done[2].on


@given(st.lists(lines, min_size=1, max_size=4), lifters)
def test_a_sheet_shows_the_kilos_of_the_squads_arrays(each, who):
    plan = cycle((session(*each),))
    arrays = compile_cycle(plan, CATALOGUE)
    high = squad_kilos(arrays, squad_of([who], arrays.references, CATALOGUE)).high_dag()[0]

    sheet = day_sheet(plan, 1, 1, who, CATALOGUE)

    for cell in arrays.cells:
        shown = sheet.segments[cell.segment].lines[cell.line].sets[cell.group]
        assert high[cell.first + cell.sets - 1] == (shown.high_dag or 0)
    for one in sheet.segments[0].lines:
        for shown in one.sets:
            assert (shown.discs is None) or shown.discs.total_dag == shown.high_dag


def test_the_shipped_catalogue_has_an_entry_for_every_step_of_its_sequences():
    catalogue = shipped()
    plan = cycle(
        (
            session(
                line("snatch"),
                warm_up=tuple(Line((Part(s.name, s.id),)) for s in catalogue.sequences.values()),
            ),
        )
    )

    done = day_sheet(plan, 1, 1, MARA, catalogue)

    steps = [step for one in done.segments[0].lines for step in one.steps]
    assert steps
    assert all(entry is not None for _, _, entry in steps)


def test_a_session_that_cannot_be_done_in_its_time_is_told():
    hurried = msgspec.structs.replace(DAY, minutes=20)
    busy = msgspec.structs.replace(MARA, minutes=25)

    meant = day_sheet(cycle((hurried,)), 1, 1, MARA, CATALOGUE)
    has = day_sheet(cycle((DAY,)), 1, 1, busy, CATALOGUE)

    assert [p.message[:40] for p in meant.problems if p.kind == "too long"] == [
        "The session is meant to take 20 min; it "
    ]
    assert [p.kind for p in has.problems].count("too long") == 1
    assert "too long" not in [p.kind for p in day_sheet(PLAN, 1, 1, MARA, CATALOGUE).problems]


def test_who_counts_in_pounds_reads_starts_in_pounds_too():
    who = msgspec.structs.replace(lifter(clean_and_jerk=105), unit="lb")
    done = day_sheet(
        cycle((session(line("back_squat", sets(3, 5, load=percent(75)))),)), 1, 1, who, CATALOGUE
    )

    assert "start at 198.4 lb (90 kg)" in done.segments[0].lines[0].sets[0].instruction


def test_a_movement_lifted_again_needs_two_steps_at_most():
    plan = cycle((session(*(line("snatch", sets(3, 2, load=percent(p))) for p in (60, 80))),))
    done = day_sheet(plan, 1, 1, lifter(snatch=150), CATALOGUE)
    first, again = done.segments[0].lines

    assert len(first.ladder.steps) > 2
    assert 1 <= len(again.ladder.steps) <= 2


def test_a_lift_by_feel_before_counts_as_the_first_lift():
    plan = cycle(
        (
            session(
                line("snatch", sets(1, 1, load=Heavy(1))), line("back_squat", sets(3, 5, load=percent(70)))
            ),
        )
    )
    done = day_sheet(plan, 1, 1, lifter(snatch=80, back_squat=130), CATALOGUE)

    assert done.segments[0].lines[0].ladder is None  # its first weight is not known
    assert done.segments[0].lines[1].ladder.steps[0].dag > 2_000


def test_what_the_cycle_asks_for_the_first_time_is_marked():
    twice = cycle((DAY, session(line("snatch", sets(2, 1)), line("power_snatch", sets(2, 1)))))
    first, second = (day_sheet(twice, 1, number, MARA, CATALOGUE) for number in (1, 2))

    assert all(part.first for part in first.segments[1].lines[0].parts)
    assert first.segments[1].lines[0].between[0].first
    assert [part.first for line_ in second.segments[0].lines for part in line_.parts] == [False, True]
    # Words that the catalogue does not know have no text to read.
    assert not any(part.first for part in first.segments[1].lines[5].parts)
