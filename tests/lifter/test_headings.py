"""Headings of a coach's sheet. How coaches head their columns is common practice, no source."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.lifter.headings import letter, near_lift, read_heading
from tests.lifter.sheets import CATALOGUE


def column(heading):
    return read_heading(heading, 0, CATALOGUE)


@pytest.mark.parametrize(
    ("heading", "role"),
    [
        ("Name", "name"), ("ATHLETE", "name"), ("Lifter:", "name"), ("First name", "first name"),
        ("Surname", "surname"),
        ("Last Name", "surname"), ("DOB", "born"), ("D.O.B.", "born"), ("Born", "born"), ("YOB", "born"),
        ("Year of birth", "born"), ("Age", "age"),
        ("M/F", "category"), ("Sex", "category"), ("Gender", "category"), ("BW", "bodyweight"),
        ("Bodyweight (lb)", "bodyweight"),
        ("Body-weight kg", "bodyweight"), ("Bar", "bar"), ("Plates", "discs"), ("Discs on hand", "discs"),
        ("Training days", "days"),
        ("Minutes", "minutes"), ("Time", "minutes"), ("kg/lb", "unit"), ("Date", "date"), ("Tested on",
        "date"), ("Notes", "notes"),
        ("Injuries", "notes"), ("Key", "key"), ("Shown in", "shown in"),
    ],
)  # fmt: skip
def test_what_a_profile_holds(heading, role):
    assert column(heading).role == role


@pytest.mark.parametrize(
    ("heading", "lift"),
    [
        ("Snatch", "snatch"), ("Sn", "snatch"), ("SNATCH PB", "snatch"), ("Best snatch", "snatch"),
        ("Snatch 1RM", "snatch"), ("Snatch (kg)", "snatch"),
        ("C&J", "clean_and_jerk"), ("C+J", "clean_and_jerk"), ("C & J", "clean_and_jerk"), ("CJ max (kg)",
        "clean_and_jerk"),
        ("Clean and Jerk", "clean_and_jerk"), ("Clean + jerk", "clean_and_jerk"), ("BSq", "back_squat"),
        ("Back Squat 1RM", "back_squat"),
        ("BS", "back_squat"), ("Squat", "back_squat"), ("FS", "front_squat"), ("FSq kg", "front_squat"),
        ("Pwr Snatch", "power_snatch"), ("OHS", "overhead_squat"),
        ("hang_power_clean", "hang_power_clean"), ("Current max: push press", "push_press"),
    ],
)  # fmt: skip
def test_a_lift(heading, lift):
    found = column(heading)

    assert (found.role, found.lift, found.reps) == ("best", lift, 1)


@pytest.mark.parametrize(
    ("heading", "reps"),
    [("Front squat 3RM", 3), ("FS x3", 3), ("FS 3 rep max", 3), ("Front squat (5 reps)", 5),
    ("Front squat 5-RM", 5), ("Front squat triple", 3),
     ("Front squat best of 2", 2), ("Front squat double", 2)],
)  # fmt: skip
def test_a_rep_max(heading, reps):
    found = column(heading)

    assert (found.lift, found.reps) == ("front_squat", reps)


@pytest.mark.parametrize(
    ("heading", "unit"),
    [("Snatch (kg)", "kg"), ("Snatch kg", "kg"), ("Snatch [lb]", "lb"), ("Snatch in lbs", "lb"),
    ("Snatch kilos", "kg"), ("Snatch", None), ("Snatch #", "lb")],
)  # fmt: skip
def test_a_unit(heading, unit):
    assert (column(heading).lift, column(heading).unit) == ("snatch", unit)


@pytest.mark.parametrize(
    ("heading", "role"),
    [("Snatch date", "best date"), ("Date of snatch", "best date"), ("Snatch: when", "best date"),
    ("Snatch note", "best note"), ("Snatch kind", "best kind")],
)  # fmt: skip
def test_what_belongs_to_a_best(heading, role):
    assert (column(heading).role, column(heading).lift) == (role, "snatch")


@pytest.mark.parametrize(
    ("heading", "kind"),
    [
        ("Snatch est", "estimated"),
        ("Snatch e1RM", "estimated"),
        ("Snatch comp PB", "tested"),
        ("Snatch", None),
    ],
)
def test_how_it_is_known(heading, kind):
    assert (column(heading).lift, column(heading).kind) == ("snatch", kind)


@pytest.mark.parametrize(
    "heading",
    [
        "Goal snatch",
        "Snatch opener",
        "Next snatch",
        "Snatch %",
        "Total",
        "Sinclair",
        "Average",
        "Snatch last year",
        "Snatch target (kg)",
    ],
)
def test_what_is_no_best_is_left_out_with_a_reason(heading):
    assert column(heading).ignored
    assert not column(heading).role


@pytest.mark.parametrize(
    "heading",
    [
        "Favourite colour",
        "Snacth",
        "",
        None,
        2026,
        "2026",
        "x" * 200,
        "Shoe size",
        "?",
        "Phone",
    ],
)
def test_what_is_not_understood(heading):
    assert column(heading) is None


@pytest.mark.parametrize(
    ("heading", "near"),
    [
        ("Snacth", "Snatch"),
        ("Snacth PB (kg)", "Snatch"),
        ("Frnt squat", "Front squat"),
        ("Favourite colour", None),
        ("", None),
    ],
)
def test_a_near_name_is_offered_and_not_taken(heading, near):
    assert column(heading) is None
    assert near_lift(heading, CATALOGUE) == near


@pytest.mark.parametrize("movement", CATALOGUE.movements.values(), ids=lambda m: m.id)
def test_every_name_of_the_catalogue_can_head_a_column(movement):
    for heading in (movement.name, movement.id, f"{movement.name} (kg)", f"{movement.name.upper()} PB"):
        assert (column(heading).role, column(heading).lift) == ("best", movement.id)


@pytest.mark.parametrize(
    ("heading", "means"),
    [
        ("Athlete", "name"),
        ("FS 3RM (kg)", "best front squat, 3 reps, in kg"),
        ("Snatch est", "best snatch, estimated"),
        ("C&J date", "day of the best clean and jerk"),
        ("Total", "computed from the others"),
        ("BW (lbs)", "bodyweight, in lb"),
        ("Bodyweight kg", "bodyweight, in kg"),
        ("Snatch Jan 2026 (lb)", "best snatch, in lb, of Jan 2026"),
        ("Goal snatch Jan", "no best of today by its heading"),
    ],
)
def test_what_a_column_is_taken_for_in_words(heading, means):
    assert column(heading).means == means


@pytest.mark.parametrize(
    ("at", "called"), [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB"), (701, "ZZ"), (702, "AAA")]
)
def test_letters_of_columns(at, called):
    assert letter(at) == called


@given(st.text(max_size=90))
def test_any_text_is_a_column_or_none(text):
    found = column(text)

    assert found is None or found.ignored or found.role
    near_lift(text, CATALOGUE)
