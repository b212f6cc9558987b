"""Whole sessions under restrictions and without kit: the demo's cycle, and small ones by hand."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle, Line, Phase, Week
from meetward.demo.club import squad
from meetward.fit.day import day_sheet
from meetward.fit.restricted_session import restricted_session
from meetward.fit.restrictions import clashes, lifter_at_hand
from meetward.lifter.restrictions import Limits, MissingKit, Restriction
from tests.fit.test_between_sets import SESSIONS
from tests.fit.test_restrictions import no, parts, without
from tests.fit.test_substitutes import MARA, written
from tests.workload.small import session

CATALOGUE = shipped()
SQUAD = squad(CATALOGUE)
LIMITS = (
    no("no overhead"),
    no("no deep squat"),
    no("no pulling from the floor"),
    no("no jerks"),
    without("rack", "blocks"),
    Limits((Restriction("no jerks"),), (MissingKit(("blocks", "box"), 1_500, 6_000),)),
)


def lifted(done) -> list[str]:
    return [
        part.movement for segment in done.session.segments for line in segment.lines for part in line.parts
    ]


@pytest.mark.parametrize("limits", LIMITS)
def test_no_line_of_the_demo_asks_for_what_is_ruled_out_any_more(limits):
    for n, each in enumerate(SESSIONS[::3]):
        who = SQUAD[n % len(SQUAD)]
        done = restricted_session(each, who, limits, CATALOGUE, place=f"Session {n}")
        for segment in done.session.segments:
            for line in segment.lines:
                # The steps of a warm-up are changed in its notes.
                assert [c for c in clashes(line, limits, CATALOGUE) if not c.step] == []
        untouched = {(s, n) for s, seg in enumerate(each.segments) for n in range(len(seg.lines))}
        untouched -= {(change.segment, change.line) for change in done.changes}
        kept = [line for segment in done.session.segments for line in segment.lines]
        assert all(each.segments[s].lines[n] in kept for s, n in untouched)
        assert done == restricted_session(each, who, limits, CATALOGUE, place=f"Session {n}")


def test_the_day_of_a_restricted_session_can_be_drawn_in_kilos():
    who = lifter_at_hand(SQUAD[3], LIMITS[-1])
    for each in SESSIONS[::7]:
        done = restricted_session(each, SQUAD[3], LIMITS[-1], CATALOGUE)
        sheet = day_sheet(Cycle((Phase((Week((done.session,)),)),)), 1, 1, who, CATALOGUE)
        bars = [s for seg in sheet.segments for line in seg.lines for s in line.sets if s.discs]
        assert all(s.high_dag <= 6_000 for s in bars)


def test_a_replacement_does_not_repeat_what_is_there():
    day = session(written("push_press"), written("jerk"), written("split_jerk"))
    done = restricted_session(day, MARA, no("no jerks"), CATALOGUE)
    assert len(set(lifted(done))) == len(lifted(done)) == 3
    assert lifted(done)[0] == "push_press"


def test_the_coach_chooses():
    day = session(written("clean"))
    at = (next(s for s, segment in enumerate(day.segments) if segment.lines), 0)
    default = restricted_session(day, MARA, no("no deep squat"), CATALOGUE)
    other = restricted_session(day, MARA, no("no deep squat"), CATALOGUE, choices={at: 1})
    nonsense = restricted_session(day, MARA, no("no deep squat"), CATALOGUE, choices={at: 7})
    assert default.changes[0].chosen == 0
    assert other.changes[0].chosen == 1
    assert lifted(other) != lifted(default) == lifted(nonsense)
    assert other.changes[0].option.said in other.said


def test_what_is_left_out_is_gone_and_told():
    day = session(written("snatch_support"), written("clean_pull"))
    done = restricted_session(day, MARA, no("no overhead"), CATALOGUE)
    assert lifted(done) == ["clean_pull"]
    assert any("left out" in sentence for sentence in done.said)
    assert any("physiotherapist" in sentence for sentence in done.said)


def test_nothing_changes_without_limits_or_on_another_day():
    for each in SESSIONS[:3]:
        done = restricted_session(each, MARA, Limits(), CATALOGUE)
        assert (done.session, done.changes, done.said) == (each, (), ())


def test_an_unknown_lift_is_told_with_its_place():
    day = session(Line((parts("sntach").parts[0],)))
    done = restricted_session(day, MARA, no("no overhead"), CATALOGUE, place="Week 3, session 2")
    assert done.session == day
    assert str(done.problems[0]).startswith("Week 3, session 2, Sntach")
