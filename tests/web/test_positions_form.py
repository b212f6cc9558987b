"""The form of measures and tests: words to values and back, and words that nobody would expect."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.body.segments import Measures, check_measures
from meetward.lifter.screen import TESTS, Screen, Sides
from meetward.problem import Problem
from meetward.web.pages.measured import measure_fields, read_form, screen_fields, words_of
from tests.web import club as values

TODAY = date(2026, 11, 25)
LIFTER = values.lifter("anouk-varley", "Anouk Varley")
NAMES = sorted(words_of(Measures(), Screen())) + [f"{test.id}-pain" for test in TESTS]

halves = st.integers(0, 60).map(lambda n: n / 2)
sides = st.builds(Sides, left=st.none() | halves, right=st.none() | halves)
answers = st.none() | st.booleans()


@st.composite
def screens(draw: st.DrawFn) -> Screen:
    """A day of tests as they are kept: a painful test has no result."""
    painful = draw(st.sets(st.sampled_from([test.id for test in TESTS])))
    results = {test.id: draw(sides if test.unit else answers) for test in TESTS if test.id not in painful}
    day = draw(st.dates(TODAY - timedelta(9000), TODAY))
    return Screen(taken=day, painful=tuple(test.id for test in TESTS if test.id in painful), **results)


@settings(max_examples=100, deadline=None)
@given(screen=screens(), height=st.integers(140, 210), thigh=st.sampled_from([0, 0.245, 0.26]))
def test_what_is_kept_stands_in_the_form_and_reads_back(screen, height, thigh):
    measures = Measures(height_cm=height, thigh_cm=round(thigh * height, 1))
    words = words_of(measures, screen)

    for written in (words, {name: value.replace(".", ",") for name, value in words.items()}):
        sent = read_form(written, LIFTER, TODAY)
        assert sent.problems == {}
        assert (sent.measures, sent.screen) == (measures, screen)


@settings(max_examples=150, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from(NAMES),
        st.text(max_size=20)
        | st.from_regex(r"-?[0-9]{1,4}([.,][0-9]{1,2})? ?(cm|in|ft|'|\")?", fullmatch=True),
    )
)
def test_any_words_are_either_kept_whole_or_told_beside_their_field(words):
    sent = read_form(words, LIFTER, TODAY)
    fields = measure_fields(words, sent.problems) + screen_fields(words, sent.problems)

    if not sent.problems:
        assert not any(getattr(sent.measures, name) for name in sent.measures.__struct_fields__) or (
            check_measures(sent.measures, 70) == ()
        )
        assert sent.screen.taken is None or sent.screen.taken <= TODAY
    told = [one for field in fields for one in field.problems] + [*sent.problems.get("taken", ())]
    assert sum(map(len, sent.problems.values())) == len(told), "every problem has a field on the page"
    assert all(isinstance(one, Problem) and one.message and one.repair for one in told)
