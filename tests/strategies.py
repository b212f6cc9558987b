"""Hypothesis strategies for cycles: everything that the tree can hold, sensible and odd.

Left out are only ids of lines (the text form carries none) and lone surrogates, which are no text.
"""

from datetime import date

from hypothesis import strategies as st

from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import (
    Between,
    Cycle,
    Line,
    Part,
    Pause,
    Phase,
    Reps,
    Segment,
    Session,
    SetGroup,
    Span,
    Week,
)

TRADE = st.sampled_from(
    ["", "Snatch", "Back squat", "C&J", "5x3", "70%", "note: x", "Monday", "Week 3", "rest 2:00", "(key)",
    "a, b", "pause at the knee",
     "from blocks", "Base", "load", "heavy", "no straps", '"quoted"', "{x}", "x", "Order: sets first",
     "Ruß & Söhne", "5 each side", "-", "*"]
)  # fmt: skip
words = st.one_of(TRADE, TRADE, st.text(max_size=12))
NAMES = st.sampled_from(
    ["Snatch", "Power snatch", "Clean & jerk", "Back squat", "Hang clean", "Clean pull", "Front squat",
    "Split jerk", "Pull-up", "Zercher wobble",
     "Overhead squat", "Snatch balance", "Snatch from blocks", "Side plank"]
)  # fmt: skip
IDS = st.sampled_from(
    ["", "snatch", "power_snatch", "back_squat", "clean_and_jerk", "my-own.lift", "front_squat"]
)
few = st.integers(1, 12)


def spans(numbers=few):
    """Ranges of whole numbers, most of them single."""
    return st.one_of(
        numbers.map(lambda n: Span(n, n)), st.tuples(numbers, numbers).map(lambda p: Span(min(p), max(p)))
    )


odd_spans = st.builds(Span, st.integers(0, 100_000), st.integers(0, 100_000))
reps = st.one_of(
    few.map(lambda n: Reps(n, n)),
    st.tuples(few, few).map(lambda p: Reps(min(p), max(p))),
    few.map(lambda n: Reps(n, n, True)),
    st.just(Reps(None, None, True)),
    st.none(),
    st.builds(Reps, st.none() | st.integers(0, 100_000), st.none() | st.integers(0, 100_000), st.booleans()),
)
of = st.one_of(
    st.just(Of()),
    st.just(Of("top")),
    st.builds(Of, st.just("lift"), IDS, NAMES),
    st.builds(Of, st.just("rep max"), IDS, NAMES | st.just(""), st.integers(2, 12)),
    st.builds(Of, st.sampled_from(["default", "lift", "top", "rep max"]), IDS, words, st.integers(0, 30)),
)
permille = st.integers(1, 1_300)
dag = st.integers(1, 30_000) | st.integers(1, 120).map(lambda n: n * 250)
clb = st.integers(1, 60_000) | st.integers(1, 120).map(lambda n: n * 500)


def ranged(kind, numbers, *more):
    """A load from two numbers: one figure, a range, or "up to"."""
    return st.one_of(
        st.builds(lambda n, *m: kind(n, n, *m), numbers, *more),
        st.builds(lambda p, *m: kind(min(p), max(p), *m), st.tuples(numbers, numbers), *more),
        st.builds(lambda n, *m: kind(None, n, *m), numbers, *more),
    )


kilos = ranged(Kilos, dag, st.booleans(), st.sampled_from([1, 1, 1, 2, 3]))
pounds = ranged(Pounds, clb, st.booleans(), st.sampled_from([1, 1, 1, 2, 3]))
single_kilos = st.builds(lambda n: Kilos(n, n), dag)
single_pounds = st.builds(lambda n: Pounds(n, n), clb)
loads = st.one_of(
    ranged(Percent, permille, of),
    kilos,
    pounds,
    st.builds(ByCategory, single_kilos, single_kilos),
    st.builds(ByCategory, kilos | pounds, single_pounds),
    st.builds(
        lambda s, p: Effort(s, min(p), max(p)),
        st.sampled_from(["rpe", "rir"]),
        st.tuples(st.integers(0, 100), st.integers(0, 100)),
    ),
    st.builds(Heavy, st.none() | few, st.sampled_from(["heavy", "max"])),
    st.builds(BarOnly, st.booleans()),
    st.builds(Bodyweight, st.just(0) | st.integers(0, 10_000)),
    st.builds(Open, st.sampled_from(["", "", "light", "moderate"]) | words),
)
seconds = st.integers(1, 600)
tempos = st.sampled_from(["", "", "", "30X0", "21X1", "3110", "XXXX", "42X1"])
notes = st.lists(words, max_size=2).map(tuple)


def groups(parts: int):
    """Sets for a line of so many movements, sensible and odd."""
    counts = st.none() | spans()
    same = st.lists(reps, min_size=parts, max_size=parts).map(tuple)
    plain = st.builds(SetGroup, counts, few.map(lambda n: (Reps(n, n),) * parts), loads)
    timed = st.builds(
        SetGroup, counts, st.just((None,) * parts), hold_s=spans(seconds), per_side=st.booleans()
    )
    full = st.builds(
        SetGroup,
        counts,
        same,
        loads,
        climbing=st.booleans(),
        on_the_way=st.booleans(),
        drop=st.booleans(),
        wave=st.integers(0, 3),
        cluster=st.just(()) | st.lists(few, min_size=2, max_size=4).map(tuple),
        cluster_rest_s=st.none() | seconds,
        every_s=st.none() | seconds,
        within_s=st.none() | seconds,
        rest_s=st.none() | spans(seconds) | odd_spans,
        hold_s=st.none() | spans(seconds),
        distance_m=st.none() | spans(),
        tempo=tempos,
        per_side=st.booleans(),
        missed=st.booleans(),
        note=st.just("") | words,
    )
    return st.one_of(plain, plain, timed, full)


parts = st.one_of(
    NAMES.map(lambda n: Part(n)),
    st.builds(
        Part, NAMES | words, IDS, st.lists(words, max_size=2).map(tuple),
        st.lists(st.builds(Pause, st.none() | st.integers(0, 10), words), max_size=2).map(tuple),
        st.integers(0, 3),
    ),
)  # fmt: skip
betweens = st.builds(Between, words, IDS, words)


@st.composite
def lines(draw):
    """A line with its movements and sets, or a note."""
    named = tuple(draw(st.lists(parts, max_size=3)))
    return Line(
        named,
        tuple(draw(st.lists(groups(len(named)), max_size=4))) if named else (),
        between=tuple(draw(st.lists(betweens, max_size=2))),
        notes=draw(notes),
        turn=draw(st.sampled_from(["", "", "", "A", "B", "H", "M", "Z"])),
        priority=draw(st.sampled_from(["should", "should", "key", "could"])),
    )


segments = st.builds(
    Segment, st.sampled_from(["warm-up", "lifts", "recovery"]), st.lists(lines(), max_size=4).map(tuple)
)
sessions = st.builds(
    Session,
    st.lists(segments, max_size=3).map(tuple),
    title=words,
    weekday=st.none() | st.integers(0, 6),
    key=st.booleans(),
    minutes=st.none() | st.integers(1, 300) | st.integers(1, 100_000),
    aim=words,
    notes=notes,
)
weeks = st.builds(
    Week,
    st.lists(sessions, max_size=3).map(tuple),
    role=st.sampled_from(["load", "lighter", "test", "taper", "meet"]),
    title=words,
    notes=notes,
)
phases = st.builds(Phase, st.lists(weeks, max_size=2).map(tuple), title=words, aim=words, notes=notes)
dates = st.none() | st.dates(date(1990, 1, 1), date(2100, 1, 1))
orders = st.sampled_from([None, "sets-first", "reps-first"])
cycles = st.builds(
    Cycle,
    st.lists(phases, max_size=2).map(tuple),
    title=words,
    club=words,
    coach=words,
    aim=words,
    emphasis=words,
    meet=words,
    meet_on=dates,
    starts_on=dates,
    order=orders,
    loaded_order=orders,
    unit=st.sampled_from(["kg", "kg", "lb"]),
    bare_load=st.sampled_from([None, None, "percent", "kg", "lb"]),
    notes=notes,
)
