"""Whole texts: our own headings, and bare text as pasted from anywhere."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.load import Kilos, Percent, Pounds
from meetward.notation import Conventions, Reader
from meetward.notation.words_out import said


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


def shape(cycle):
    return [[len(week.sessions) for week in phase.weeks] for phase in cycle.phases]


def sets(reading):
    return [(record.status, said(record.reading) if record.reading else "") for record in reading.lines]


WHOLE = """\
Cycle: Twelve weeks to the Spring Open
Club: Harrow Lane Weightlifting
Coach: Ida Thorne
Meet: Eskmouth Spring Open, 2027-03-20
Start: 2026-12-28
Order: sets first
Bare loads: percent
Aim: a total on the day
Emphasis: overhead stability
Note: bring shoes

Phase: Base
Aim: volume in good positions

Week 1: load, first steps
Note: new warm-up

Monday: Snatch and back squat (key)
Minutes: 100
Aim: bar close
Note: shared platform
Warm-up:
Easy bike 5 min
Lifts:
Snatch 4x3 @ 70, rest 2:00
  between: ankle rock, 5 each side
  note: feel the whole foot
Snatch pull + snatch 5x(2+1) 75-80% of snatch
  priority: could
A1: Pull-up 3x8
A2: Side plank 3 x 30 s/side
Recovery:
Easy bike 8 min

Session 2: Jerk
Jerk 5x2 @ 75%
"""


def test_every_heading_finds_its_part(reader):
    reading = reader.read(WHOLE)
    cycle = reading.cycle

    assert reading.problems == ()
    assert (cycle.title, cycle.club, cycle.coach) == (
        "Twelve weeks to the Spring Open", "Harrow Lane Weightlifting", "Ida Thorne",
    )  # fmt: skip
    assert (cycle.meet, str(cycle.meet_on), str(cycle.starts_on)) == (
        "Eskmouth Spring Open",
        "2027-03-20",
        "2026-12-28",
    )
    assert (cycle.order, cycle.bare_load, cycle.aim) == ("sets-first", "percent", "a total on the day")
    assert (cycle.emphasis, cycle.notes) == ("overhead stability", ("bring shoes",))
    (phase,) = cycle.phases
    assert (phase.title, phase.aim) == ("Base", "volume in good positions")
    (week,) = phase.weeks
    assert (week.role, week.title, week.notes) == ("load", "first steps", ("new warm-up",))
    monday, second = week.sessions
    assert (monday.title, monday.weekday, monday.key, monday.minutes) == (
        "Snatch and back squat",
        0,
        True,
        100,
    )
    assert (monday.aim, monday.notes) == ("bar close", ("shared platform",))
    assert [segment.kind for segment in monday.segments] == ["warm-up", "lifts", "recovery"]
    assert (second.title, second.weekday) == ("Jerk", None)
    snatch, pull, pull_up, plank = monday.segments[1].lines
    assert snatch.groups[0].load == Percent(700, 700)
    assert (snatch.between[0].written, snatch.between[0].dose) == ("ankle rock", "5 each side")
    assert snatch.notes == ("feel the whole foot",)
    assert pull.priority == "could"
    assert (pull_up.turn, plank.turn) == ("A", "A")


def test_the_place_of_every_record_leads_to_its_line(reader):
    reading = reader.read(WHOLE)

    for record in reading.lines:
        phase, week, session, segment, line = record.path
        found = reading.cycle.phases[phase].weeks[week].sessions[session].segments[segment].lines[line]
        assert found.parts == record.parts
        assert WHOLE.split("\n")[record.line - 1].strip() == record.text.split("\n")[0]


PASTED = """\
Weightlifting block

WEEK 1

MONDAY:
1. Snatch 5 sets of 2 @ 70%
2. Back Squat
   60% x 5
   75% x 5 x 3
Rest 2-3 min between sets

Tue - Squats
A1) Front squat 3x3
A2) Box jump 3x3

Wed
off

Day 4 (Thursday)
Clean & jerk
70% 2x2

Week 2 (deload)
W2D1
Snatch 60% 3x3
Keep it light and fast.
Week 2 Day 2: Clean 3x3 @ 60%
"""


def test_pasted_text_reads_as_well_as_it_can(reader):
    reading = reader.read(PASTED)

    assert shape(reading.cycle) == [[4, 2]]
    assert [week.role for _, _, week in reading.cycle.weeks()] == ["load", "lighter"]
    assert [s.weekday for _, _, s in reading.cycle.sessions()] == [0, 1, 2, 3, None, None]
    assert reading.cycle.notes == ("Weightlifting block",)
    assert sets(reading)[2] == (
        "read",
        "1 set of 5 at 60 %, rest 2:00-3:00; 3 sets of 5 at 75 %, rest 2:00-3:00",
    )
    assert reading.lines[-1].line == 27


@pytest.mark.parametrize(
    ("line", "weekday", "title"),
    [
        ("Monday", 0, ""), ("MONDAY:", 0, ""), ("mon:", 0, ""), ("Tue - Squats", 1, "Squats"), ("Day 1",
        None, ""),
        ("Session 2: Jerk", None, "Jerk"), ("## Friday", 4, ""), ("**Sunday**", 6, ""), ("Day 3: Wednesday",
        2, ""),
        ("Thurs: heavy", 3, "heavy"), ("W3D2", None, ""), ("Week 1 Day 2", None, ""),
        ("Saturday – Test day", 5, "Test day"),
    ],
)  # fmt: skip
def test_a_day_is_known_in_many_spellings(reader, line, weekday, title):
    (session,) = (s for _, _, s in reader.read(f"{line}\nSnatch 3x3 @ 70%").cycle.sessions())

    assert (session.weekday, session.title) == (weekday, title)
    assert len(session.segments[0].lines) == 1


@pytest.mark.parametrize(
    "line",
    [
        "Mon amour lifts",
        "Wedding squats 3x3",
        "Day 3x5",
        "Sun salutation 3x3",
        "Week of 5x3",
        "Weekend 3x3",
        "Sat on box 3x3",
        "Phase squat 3x3",
    ],
)
def test_what_only_begins_like_a_heading_is_no_heading(reader, line):
    assert shape(reader.read(line).cycle) in ([[1]], [])


@pytest.mark.parametrize(
    "line",
    [
        "1. Snatch 3x3",
        "1) Snatch 3x3",
        "A1. Snatch 3x3",
        "B) Snatch 3x3",
        "(1) Snatch 3x3",
        "- Snatch 3x3",
        "• Snatch 3x3",
        "[ ] Snatch 3x3",
    ],
)
def test_a_list_mark_is_no_set(reader, line):
    assert sets(reader.read(line)) == [("read", "3 sets of 3")]


# What a bare weight means


@pytest.mark.parametrize(
    ("above", "kind"),
    [
        ("Bare loads: percent", Percent), ("Bare loads: kilos", Kilos), ("Bare loads: pounds", Pounds),
        ("Unit: kg", Kilos),
        ("Unit: lb", Pounds), ("Clean 3x3 @ 60%", Percent), ("Clean 3x3 @ 60 kg", Kilos),
        ("Clean 3x3 @ 60 lb", Pounds),
    ],
)  # fmt: skip
def test_a_bare_weight_is_what_the_text_declares_or_shows(reader, above, kind):
    record = reader.read(f"{above}\nSnatch 3x3 @ 90").lines[-1]

    assert record.status == "read"
    (group,) = record.reading.groups
    assert isinstance(group.load, kind)
    if kind is not Percent:
        assert group.load.unit_stated is False


def test_a_bare_weight_stays_open_where_the_text_shows_two_signs(reader):
    record = reader.read("Clean 3x3 @ 60%\nJerk 3x3 @ 60 kg\nSnatch 3x3 @ 90").lines[-1]

    assert record.status == "ambiguous"


def test_percentages_elsewhere_never_turn_a_log_into_percentages(reader):
    record = reader.read("Clean 3x3 @ 60%\nSnatch 61 61 61x 59").lines[-1]

    assert all(isinstance(group.load, Kilos) for group in record.reading.groups)


# The order of AxB


@pytest.mark.parametrize(
    ("declared", "said_as"), [("sets first", "5 sets of 3 at 70 %"), ("reps first", "3 sets of 5 at 70 %")]
)
def test_a_declared_order_settles_AxB(reader, declared, said_as):
    assert sets(reader.read(f"Order: {declared}\nSnatch 5x3 @ 70%")) == [("read", said_as)]


def test_the_order_can_be_given_from_outside(reader):
    reading = reader.read("Snatch 5x3 @ 70%", Conventions(order="reps-first"))

    assert sets(reading) == [("read", "3 sets of 5 at 70 %")]
    assert reading.cycle.order == "reps-first"


def test_the_text_wins_over_what_is_given_from_outside(reader):
    reading = reader.read("Order: sets first\nSnatch 5x3 @ 70%", Conventions(order="reps-first"))

    assert sets(reading) == [("read", "5 sets of 3 at 70 %")]


@pytest.mark.parametrize(
    ("declared", "said_as"),
    [("", "5 sets of 3 at 70 %"), ("Loaded order: sets first\n", "3 sets of 5 at 70 %")],
)
def test_with_the_load_in_front_reps_come_first_unless_declared(reader, declared, said_as):
    assert sets(reader.read(declared + "Snatch 70% x 3 x 5")) == [("read", said_as)]


# Lines that belong together


def test_sets_under_a_name_are_one_entry(reader):
    reading = reader.read("Front squat\n- 60% x 5\n- 70% x 3\n\nJerk 3x3 @ 70%")

    assert [(r.line, r.count) for r in reading.lines] == [(1, 3), (5, 1)]


def test_sets_without_a_name_never_join_a_line_that_has_sets(reader):
    reading = reader.read("Snatch 3x3 @ 70%\n2x2 @ 80%")

    assert len(reading.lines) == 2
    assert [problem.kind for problem in reading.problems] == ["no movement"]


def test_an_interval_above_holds_for_the_lift_below(reader):
    reading = reader.read("Every 90 s\nSnatch balance\n3-3-3\n\nRest 2:00")

    assert sets(reading)[0] == ("read", "3 sets of 3, every 1:30")
    assert reading.lines[1].status == "note"


def test_nothing_is_dropped(reader):
    text = "Snatch 3x3 @ 70% with a smile\nSomething else entirely\nJerk 5x? @ 70%"
    lines = [
        line
        for _, _, s in reader.read(text).cycle.sessions()
        for segment in s.segments
        for line in segment.lines
    ]

    assert lines[0].notes == ("with a smile",)
    assert lines[1].notes == ("Something else entirely",)
    assert lines[2].notes == ("Jerk 5x? @ 70%",)


@pytest.mark.parametrize("above", ["3 rounds:", "3 sets of:", "Superset x 3:"])
def test_rounds_hold_for_every_line_below_up_to_a_gap(reader, above):
    reading = reader.read(f"{above}\n10 push-ups\nPull-ups x 8\n\n20 sit-ups")

    assert sets(reading) == [
        ("note", ""), ("read", "3 sets of 10"), ("read", "3 sets of 8"), ("read", "1 set of 20"),
    ]  # fmt: skip


def test_rounds_never_multiply_sets_that_a_line_has_of_its_own(reader):
    assert sets(reader.read("3 rounds:\nPull-up 4 sets of 8"))[1] == ("note", "")


@pytest.mark.parametrize(
    "text", ["Front squat\n3x3\n@ 80%", "Front squat @ 80%\n3x3", "Front squat\n@ 80%\n3x3"]
)
def test_a_load_on_another_line_of_the_entry_is_the_load_of_its_sets(reader, text):
    assert sets(reader.read(text)) == [("read", "3 sets of 3 at 80 %")]


def test_what_stands_behind_a_day_is_its_title_unless_it_is_clearly_work(reader):
    titled = reader.read("Monday: Snatch opener and a squat single\nSnatch 3x3 @ 70%")
    worked = reader.read("Monday: Snatch 3x3 @ 70%")
    open_ = reader.read("Saturday: Snatch to max; clean to max")

    assert [s.title for _, _, s in titled.cycle.sessions()] == ["Snatch opener and a squat single"]
    assert titled.problems == ()
    assert sets(worked) == [("read", "3 sets of 3 at 70 %")]
    assert [problem.kind for problem in open_.problems] == ["kept as a title"]
