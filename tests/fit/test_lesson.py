"""A session as another coach teaches it: nothing of the session is lost, and no lifter is needed."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Between, Span
from meetward.demo import cycle_text
from meetward.fit.cautions import ALWAYS, MINOR, NEAR_LIMIT
from meetward.fit.day import NoSuchSession, day_sheet
from meetward.fit.lesson import lesson
from meetward.notation import read
from tests.fit.people import lifter
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets

DAY = session(
    line(
        "snatch",
        sets(2, 3, load=percent(70), rest_s=Span(120, 120)),
        between=(Between("ankle rocks", "ankle_rock"),),
    ),
    line("snatch", sets(1, 1, load=percent(100))),
    line("sntach", sets(1, 1)),
    warm_up=(line("snatch_bar"),),
    title="Snatch",
    aim="bar close",
)


def test_a_lesson_needs_no_lifter_and_keeps_loads_as_written():
    one = lesson(cycle((DAY,), title="Winter"), 1, 1, CATALOGUE, club="Harrow Lane Weightlifting")
    snatch = one.segments[1].lines[0]

    assert (one.cycle, one.club, one.title, one.aim) == (
        "Winter",
        "Harrow Lane Weightlifting",
        "Snatch",
        "bar close",
    )
    assert [(s.scheme, s.load) for s in snatch.sets] == [("2 × 3, rest 2:00", "70 %")]
    assert snatch.between[0].drill is CATALOGUE.drills["ankle_rock"]
    assert [name for name, _, _ in one.segments[0].lines[0].steps]
    assert one.segments[1].lines[2].parts[0].entry is None


def test_what_everybody_has_to_mind_is_there_and_a_maximum_says_so():
    easy = session(line("snatch", sets(1, 1, load=percent(70))))

    assert lesson(cycle((DAY,)), 1, 1, CATALOGUE).cautions == (*ALWAYS, MINOR, NEAR_LIMIT)
    assert NEAR_LIMIT not in lesson(cycle((easy,)), 1, 1, CATALOGUE).cautions


def test_every_name_that_the_texts_speak_of_is_given():
    one = lesson(read(cycle_text(), shipped()).cycle, 1, 1, shipped())

    for segment in one.segments:
        for line_ in segment.lines:
            for part in line_.parts:
                for id_ in (*getattr(part.entry, "easier", ()), *getattr(part.entry, "instead", ())):
                    assert one.names[id_]


def test_lesson_and_day_hold_the_same_lines_in_every_session_of_the_demo():
    the_cycle = read(cycle_text(), shipped()).cycle
    for week, number, _ in the_cycle.sessions():
        taught = lesson(the_cycle, week, number, shipped())
        day = day_sheet(the_cycle, week, number, lifter(snatch=80, clean_and_jerk=100), shipped())
        assert [[ln.name for ln in s.lines] for s in taught.segments] == [
            [ln.name for ln in s.lines] for s in day.segments
        ]
        assert [[ln.parts for ln in s.lines] for s in taught.segments] == [
            [ln.parts for ln in s.lines] for s in day.segments
        ]


def test_a_session_that_is_not_there_is_refused_in_words():
    with pytest.raises(NoSuchSession, match="no week 3"):
        lesson(cycle((DAY,)), 3, 1, CATALOGUE)


def test_shared_texts_come_along():
    one = lesson(read(cycle_text(), shipped()).cycle, 1, 1, shipped())
    entries = [part.entry for segment in one.segments for ln in segment.lines for part in ln.parts]
    shares = {id_ for entry in entries for id_ in getattr(entry, "shares", ())}

    assert shares
    assert shares <= {text.id for text in one.shared}
