"""Restrictions and missing kit: values, the coach's words for them, and what cannot be read."""

from datetime import date, timedelta

import msgspec
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from meetward.catalogue.reading import shipped
from meetward.lifter.limits_reading import LONGEST_TEXT, read_limits, show_limits
from meetward.lifter.restrictions import (
    EQUIPMENT,
    FAMILIES,
    NAMED,
    POSITIONS,
    Limits,
    MissingKit,
    Restriction,
    restriction_said,
)

TODAY = date(2026, 11, 25)
CATALOGUE = shipped()


def read(text: str) -> Limits:
    limits, problems = read_limits(text, CATALOGUE, TODAY)
    assert problems == []
    return limits


days = st.none() | st.dates(date(2026, 11, 25), date(2030, 1, 1))
ends = st.tuples(days, days).map(lambda t: t if None in t else (min(t), max(t)))
words = st.text(st.characters(codec="ascii", categories=("L", "N")), max_size=12)
restrictions = st.builds(
    lambda kind, end, said: Restriction(kind[0], kind[1], end[0], end[1], said),
    st.sampled_from(NAMED).map(lambda kind: (kind, ""))
    | st.sampled_from(POSITIONS).map(lambda of: ("position", of))
    | st.sampled_from(FAMILIES).map(lambda of: ("family", of))
    | st.sampled_from(sorted(CATALOGUE.movements)).map(lambda of: ("movement", of)),
    ends,
    words,
)
kits = st.builds(
    lambda equipment, bar, heaviest, end, said: MissingKit(tuple(equipment), bar, heaviest, *end, said),
    st.lists(st.sampled_from([e for e in EQUIPMENT if e != "none"]), min_size=1, max_size=3, unique=True),
    st.none() | st.integers(5, 25).map(lambda kg: kg * 100),
    st.none() | st.integers(30, 200).map(lambda kg: kg * 100),
    ends,
    words,
)
all_limits = st.builds(
    lambda r, k: Limits(tuple(dict.fromkeys(r)), tuple(dict.fromkeys(k))),
    st.lists(restrictions, max_size=3),
    st.lists(kits, max_size=2),
)


@given(all_limits)
def test_written_limits_read_back_as_the_same(limits):
    assert read(show_limits(limits, CATALOGUE)) == limits


@given(all_limits)
def test_json_keeps_limits(limits):
    assert msgspec.json.decode(msgspec.json.encode(limits), type=Limits) == limits


def test_the_words_of_a_coach():
    limits = read(
        "No overhead, no jerks until 2027-01-12 (left side first); no blocks, no rack\n"
        "only a 15 kg bar, discs to 60 kg from 1 Dec 2026 until 12 Dec 2026"
    )
    until = date(2027, 1, 12)
    assert limits.restrictions == (
        Restriction("no overhead", until=until, words="left side first"),
        Restriction("no jerks", until=until, words="left side first"),
    )
    assert limits.missing == (
        MissingKit(("blocks", "rack")),
        MissingKit((), 1_500, 6_000, date(2026, 12, 1), date(2026, 12, 12)),
    )


@pytest.mark.parametrize(
    ("text", "kind", "of"),
    [
        ("no deep squats", "no deep squat", ""),
        ("no pulls from the floor", "no pulling from the floor", ""),
        ("nothing from the floor", "no pulling from the floor", ""),
        ("without jerks", "no jerks", ""),
        ("no front rack", "position", "front rack"),
        ("no squats", "family", "squat"),
        ("no snatch pulls", "movement", "snatch_pull"),
        ("no movement snatch", "movement", "snatch"),
    ],
)
def test_each_kind_has_its_words(text, kind, of):
    assert read(text).restrictions == (Restriction(kind, of),)


def test_and_joins_two_or_is_part_of_a_name():
    assert read("no overhead and no jerks, no blocks or rack") == Limits(
        (Restriction("no overhead"), Restriction("no jerks")), (MissingKit(("blocks", "rack")),)
    )
    assert read("no clean and jerk").restrictions == (Restriction("family", "clean and jerk"),)
    assert read("bar and discs to 60 kg").missing == (MissingKit((), None, 6_000),)


def test_a_day_that_cannot_be_read_keeps_the_restriction_without_an_end():
    for text in ("no overhead until Tuesday", "no overhead until 5 March", "no overhead until 3/10/26",
                 "no overhead from 2027-02-01 until 2027-01-01", "no overhead until 2027-02-30"):  # fmt: skip
        limits, problems = read_limits(text, CATALOGUE, TODAY, "squad.csv")
        assert limits.restrictions == (Restriction("no overhead"),), text
        assert [p.kind for p in problems] == ["dates"]
        assert problems[0].place.source == "squad.csv"
        assert "2027-01-12" in problems[0].repair


def test_what_is_not_known_is_told_and_the_rest_is_kept():
    limits, problems = read_limits("no overhed; no blocks; no snacth pull", CATALOGUE, TODAY)
    assert limits == Limits((), (MissingKit(("blocks",)),))
    assert [(p.place.line, p.place.column, p.read) for p in problems] == [
        (1, 1, "no overhed"),
        (1, 24, "no snacth pull"),
    ]
    assert "Did you mean 'no snatch pull'?" in problems[1].repair


def test_a_decimal_comma_parts_nothing():
    kit = read("no blocks,only a 7,5 kg bar, discs to 82,5 kg").missing[0]

    assert (kit.equipment, kit.bar_dag, kit.heaviest_dag) == (("blocks",), 750, 8250)


def test_a_restriction_that_has_ended_is_kept_and_told():
    limits, problems = read_limits("no jerks until 2026-11-01", CATALOGUE, TODAY)
    assert limits.restrictions == (Restriction("no jerks", until=date(2026, 11, 1)),)
    assert [(p.kind, p.severity) for p in problems] == [("ended", "look")]


def test_weights_that_no_bar_makes_are_told_and_the_rest_is_kept():
    limits, problems = read_limits("no blocks, only a 90 kg bar", CATALOGUE, TODAY)
    assert limits.missing == (MissingKit(("blocks",)),)
    assert "1 to 50 kg" in str(problems[0])


def test_pounds_are_converted():
    assert read("only a 45 lb bar").missing == (MissingKit((), 2_041),)


PIECES = (
    "no", "until", "from", "2027-01-12", "overhead", ";", ",", "(", ")", "bar", "15", "kg", "discs to", "60",
    "and", "jerk", "5 Jan", "/", "\n", "99999999999999999999",
)  # fmt: skip


@given(st.text(max_size=200) | st.lists(st.sampled_from(PIECES), max_size=14).map(" ".join))
@example("bar 10000000000000000")
def test_any_text_is_read_without_an_exception(text):
    limits, problems = read_limits(text, CATALOGUE, TODAY)
    assert isinstance(limits, Limits)
    assert all(problem.repair for problem in problems)


def test_a_very_long_text_is_cut_and_told():
    _, problems = read_limits("no blocks;" * 1_000, CATALOGUE, TODAY)
    assert problems[0].kind == "too long"
    assert str(LONGEST_TEXT) in problems[0].message


@given(restrictions, st.dates(date(2026, 1, 1), date(2031, 1, 1)))
def test_a_restriction_holds_on_its_first_and_last_day_and_on_a_day_not_known(restriction, day):
    assert restriction.holds(None)
    first, last = restriction.since or date.min, restriction.until or date.max
    assert restriction.holds(day) == (first <= day <= last)
    if restriction.until is not None:
        assert restriction.holds(restriction.until)
        assert not restriction.holds(restriction.until + timedelta(days=1))


def test_limits_of_a_day():
    gone, held = Restriction("no jerks", until=date(2026, 11, 1)), Restriction("no overhead")
    assert Limits((gone, held)).on(TODAY) == Limits((held,))
    assert Limits((gone, held)).on(None) == Limits((gone, held))
    assert not Limits((gone,)).on(TODAY)


def test_of_several_rooms_the_least_counts():
    limits = Limits((), (MissingKit(("blocks",), 2_000, 9_000), MissingKit(("rack",), 1_500, 6_000)))
    assert (limits.equipment, limits.bar_dag, limits.heaviest_dag) == ({"blocks", "rack"}, 1_500, 6_000)


@pytest.mark.parametrize(
    ("kind", "of"),
    [("position", ""), ("position", "elbow"), ("family", "squats"), ("no jerks", "jerk"), ("movement", "")],
)
def test_a_restriction_names_what_its_kind_wants(kind, of):
    with pytest.raises(ValueError, match="leave out"):
        Restriction(kind, of)


def test_an_end_before_the_beginning_is_no_restriction():
    with pytest.raises(ValueError, match="before it begins"):
        Restriction("no jerks", since=date(2027, 1, 2), until=date(2027, 1, 1))


def test_words_for_the_lifter():
    assert Restriction("no overhead", until=date(2027, 1, 12)).said == "no overhead, until 12 Jan 2027"
    assert MissingKit(("blocks",), 1_500, 6_000).said == "no blocks, only a 15 kg bar, bar and discs to 60 kg"
    assert restriction_said(Restriction("movement", "snatch_pull"), CATALOGUE) == "no snatch pull"
