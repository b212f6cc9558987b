"""Minutes of a session: counted on paper where that can be done, and laws for the rest."""

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.ladder import ladder
from meetward.barbell.standard import club_kit
from meetward.cycle.load import Heavy, Percent
from meetward.cycle.tree import Between, Line, Part, Pause, Session, Span
from meetward.fit import minutes as m
from meetward.fit.minutes import session_minutes
from tests.workload.small import CATALOGUE, line, percent, session, sets


def seconds(*lines: Line) -> float:
    """Of lifts without ladders and setting up."""
    plan = session(*lines)
    bare = {(0, n): None for n in range(len(lines))}
    set_up = sum(
        m.NEXT_EXERCISE_S if each.parts[0].movement != "side_plank" else m.NEXT_LIGHT_S for each in lines
    )
    return session_minutes(plan, CATALOGUE, bare).minutes * 60 - set_up


def test_stated_rests_add_up_as_on_paper():
    # 4 sets of 3: each 15 s to get set and 3 x 3 s; three rests of 2:00 between them.
    done = seconds(line("snatch", sets(4, 3, load=percent(70), rest_s=Span(120, 120))))

    assert done == pytest.approx(4 * (15 + 9) + 3 * 120)


def test_an_interval_takes_its_intervals():
    assert seconds(line("snatch", sets(10, 1, load=percent(75), every_s=60))) == pytest.approx(600)


def test_work_with_a_time_takes_that_time():
    assert seconds(line("side_plank", sets(None, None, within_s=480))) == pytest.approx(480)


def test_a_hold_with_no_count_is_done_once():
    assert seconds(line("side_plank", sets(None, None, hold_s=Span(360, 360)))) == pytest.approx(365)


def test_exercises_done_in_turn_share_the_clock():
    pull = line("snatch_pull", sets(3, 3, load=percent(80), rest_s=Span(120, 120)), turn="A")
    plank = line("side_plank", sets(3, None, hold_s=Span(30, 30), rest_s=Span(60, 60)), turn="A")
    apart = seconds(msgspec.structs.replace(pull, turn="")) + seconds(msgspec.structs.replace(plank, turn=""))

    together = seconds(pull, plank)

    # The pulls' rests decide: 3 x 24 s and 2 x 120 s, then the walk and the last plank.
    assert together == pytest.approx(3 * 24 + 2 * 120 + m.TURN_S + 35)
    assert together < apart


def test_between_set_work_lies_inside_the_rest_and_never_shortens_it():
    plain = line("snatch", sets(4, 3, load=percent(70), rest_s=Span(120, 120)))
    with_drill = msgspec.structs.replace(plain, between=(Between("ankle rock", "ankle_rock"),))
    hurried = line("snatch", sets(4, 3, load=percent(70), rest_s=Span(10, 10)), between=with_drill.between)

    assert seconds(with_drill) == seconds(plain)
    assert seconds(hurried) == pytest.approx(4 * 24 + 3 * 30)  # the drill takes 2 x 5 x 3 s


def test_a_change_of_weight_fits_into_a_long_rest_and_lengthens_a_short_one():
    def at(rest: int) -> float:
        groups = [sets(1, 1, load=percent(p), rest_s=Span(rest, rest)) for p in (70, 75)]
        return seconds(line("snatch", *groups))

    assert at(120) == pytest.approx(2 * 18 + 120)
    assert at(10) == pytest.approx(2 * 18 + m.CHANGE_WEIGHT_S)


def test_pauses_tempo_and_sides_take_their_seconds():
    paused = Line(
        (Part("Snatch", "snatch", (), (Pause(2, "at the knee"),)),), (sets(1, 3, load=percent(70)),)
    )

    assert seconds(paused) == pytest.approx(15 + 3 * 5)
    assert seconds(line("back_squat", sets(1, 3, load=percent(70), tempo="30X1"))) == pytest.approx(
        15 + 3 * 5
    )
    assert seconds(line("side_plank", sets(1, None, hold_s=Span(30, 30), per_side=True))) == pytest.approx(
        5 + 65
    )


def test_customary_rests_grow_with_intensity_and_come_from_the_family():
    one, other = (seconds(line("back_squat", sets(2, 1, load=percent(p)))) for p in (65, 85))

    assert other - one == 60
    assert seconds(line("snatch", sets(2, 1, load=percent(85)))) < other


def test_a_range_of_rest_counts_its_middle():
    done = seconds(line("snatch", sets(3, 1, load=percent(70), rest_s=Span(60, 120))))

    assert done == pytest.approx(3 * 18 + 2 * 90)


def test_a_drop_set_follows_without_a_rest():
    first = sets(1, 5, load=percent(70), rest_s=Span(120, 120))
    drop = sets(1, 5, load=percent(60), drop=True)

    assert seconds(line("back_squat", first, drop)) == pytest.approx(2 * (15 + 5 * 3))


def test_a_whole_session_by_the_customs_as_on_paper():
    """In figures, so that a changed custom is seen: it moves everybody's minutes."""
    plan = session(
        line("snatch", sets(2, 2, load=percent(70)), sets(1, 1, load=percent(80))),
        line("snatch_pull", sets(2, 3, load=percent(100))),
    )
    ladders = 6 * (15 + 9 + 45) + 3 * (15 + 9 + 45)
    snatch = 2 * (15 + 6 + 120) + (15 + 3)
    pull = (15 + 9 + 150) + (15 + 9)

    done = session_minutes(plan, CATALOGUE)

    assert done.minutes * 60 == pytest.approx(ladders + snatch + pull + 2 * 75)
    assert done.low_minutes == pytest.approx(0.85 * done.minutes)
    assert done.high_minutes == pytest.approx(1.2 * done.minutes)


def test_a_change_of_weight_takes_40_seconds():
    groups = [sets(1, 1, load=percent(p), rest_s=Span(10, 10)) for p in (70, 75)]

    assert seconds(line("snatch", *groups)) == pytest.approx(2 * 18 + 40)


def test_ladders_are_counted_and_a_customary_one_stands_where_none_is_known():
    plan = session(
        line("snatch", sets(3, 2, load=percent(70))), line("back_squat", sets(3, 5, load=percent(70)))
    )
    known = ladder(club_kit(), 8_000)
    none = session_minutes(plan, CATALOGUE, {(0, 0): None, (0, 1): None}).minutes
    customary = session_minutes(plan, CATALOGUE).minutes
    laddered = session_minutes(plan, CATALOGUE, {(0, 0): known, (0, 1): None}).minutes

    assert none < laddered < customary
    assert (laddered - none) * 60 == pytest.approx(
        sum(
            m.GET_SET_S + step.reps * m.DRILL_REP_S + (m.LADDER_REST_S if step.plan.discs else m.BAR_REST_S)
            for step in known.steps
        )
    )


def test_sequences_drills_and_notes():
    warm_up = (line("snatch_bar"), line("ankle_rock"), Line((), notes=("shoes off",)))
    plan = session(line("snatch", sets(1, 1)), warm_up=warm_up)

    done = session_minutes(plan, CATALOGUE)

    assert done.lines[0] == pytest.approx((10.5, 1.0, 0))
    assert done.segments[0] == pytest.approx(11.5)


def test_working_up_takes_more_sets_than_one():
    assert seconds(line("snatch", sets(1, 1, load=Heavy(1)))) > seconds(
        line("snatch", sets(3, 1, load=percent(90)))
    )


def test_the_why_names_the_range_the_parts_and_that_it_is_custom():
    done = session_minutes(session(line("snatch", sets(4, 3))), CATALOGUE)

    assert done.low_minutes < done.minutes < done.high_minutes
    assert f"About {done.minutes:.0f} min, usually" in done.why.said
    assert done.why.source == "common practice, no source"
    assert ("work sets", "4") in done.why.inputs


def test_an_empty_session_takes_no_time():
    assert session_minutes(Session(()), CATALOGUE).minutes == 0


numbers = st.tuples(st.integers(1, 8), st.integers(1, 6), st.integers(0, 300), st.integers(500, 1000))


@given(
    st.lists(numbers, min_size=1, max_size=3),
    st.tuples(st.integers(0, 2), st.integers(0, 3), st.integers(0, 60)),
    st.booleans(),
)
def test_more_sets_reps_or_rest_never_take_less_time(each, more, in_turn):
    def plan(extra) -> Session:
        lines = [
            line(
                "snatch",
                sets(n + extra[0], r + extra[1], load=Percent(p, p), rest_s=Span(s + extra[2], s + extra[2])),
                turn="A" if in_turn else "",
            )
            for n, r, s, p in each
        ]
        return session(*lines)

    assert (
        session_minutes(plan((0, 0, 0)), CATALOGUE).minutes
        <= session_minutes(plan(more), CATALOGUE).minutes + 1e-9
    )


@given(st.lists(numbers, min_size=1, max_size=3))
def test_lines_and_segments_add_up_to_the_session(each):
    lines = [line("snatch", sets(n, r, load=Percent(p, p), rest_s=Span(s, s))) for n, r, s, p in each]
    done = session_minutes(session(*lines, warm_up=(line("ankle_rock"),)), CATALOGUE)

    assert sum(done.segments) == pytest.approx(done.minutes)
    assert sum(map(sum, done.lines)) == pytest.approx(done.minutes)
