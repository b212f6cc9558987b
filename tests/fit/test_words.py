"""Schemes and loads in words."""

import pytest

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
from meetward.cycle.tree import Part, Pause, Reps, SetGroup, Span
from meetward.fit.words import detail_words, line_words, load_words, scheme_words
from tests.workload.small import CATALOGUE, line, percent, sets


@pytest.mark.parametrize(
    ("load", "said"),
    [
        (percent(70), "70 %"),
        (percent(72.5), "72.5 %"),
        (percent(70, 75, Of("lift", "clean")), "70–75 % of clean"),
        (percent(80, of=Of("lift", "", "my old best")), "80 % of my old best"),
        (Percent(None, 700), "up to 70 %"),
        (percent(85, of=Of("top")), "85 % of today's top"),
        (percent(90, of=Of("rep max", "front_squat", reps=3)), "90 % of 3RM front squat"),
        (percent(90, of=Of("rep max", reps=3)), "90 % of 3RM"),
        (Kilos(6000, 6250), "60–62.5 kg"),
        (Kilos(1500, 1500, implements=2), "2 × 15 kg"),
        (Pounds(13500, 13500), "135 lb"),
        (ByCategory(Kilos(4300, 4300), Kilos(2900, 2900)), "men 43 kg, women 29 kg"),
        (Effort("rpe", 75, 80), "RPE 7.5–8"),
        (Effort("rir", 20, 20), "2 left in reserve"),
        (Heavy(1), "heavy single"),
        (Heavy(5, "max"), "max set of 5"),
        (Heavy(None), "heavy"),
        (BarOnly(), "empty bar"),
        (BarOnly(stick=True), "stick"),
        (Bodyweight(1000), "bodyweight + 10 kg"),
        (Open("moderate"), "moderate"),
        (Open(), ""),
    ],
)
def test_a_load_as_a_coach_says_it(load, said):
    assert load_words(load, CATALOGUE) == said


@pytest.mark.parametrize(
    ("group", "said"),
    [
        (sets(4, 3), "4 × 3"),
        (sets(5, 2, 1), "5 × (2+1)"),
        (SetGroup(Span(3, 5), (Reps(2, 3),)), "3–5 × 2–3"),
        (SetGroup(Span(3, 3), (Reps(5, 5, or_more=True),)), "3 × 5+"),
        (SetGroup(Span(1, 1), (Reps(None, None, or_more=True),)), "1 × as many as you can"),
        (sets(3, None, hold_s=Span(30, 30), per_side=True), "3 × 30 s each side"),
        (sets(3, None, distance_m=Span(20, 20)), "3 × 20 m"),
        (sets(10, 1, every_s=60), "10 × 1, every minute"),
        (sets(8, 2, every_s=90), "8 × 2, every 1:30"),
        (sets(3, 8, rest_s=Span(120, 180), tempo="30X0"), "3 × 8, tempo 30X0, rest 2:00–3:00"),
        (sets(3, 8, rest_s=Span(30, 45)), "3 × 8, rest 30–45 s"),
        (sets(3, None, cluster=(1, 1, 1), cluster_rest_s=15), "3 × (1.1.1), 15 s between the parts of a set"),
        (sets(7, 2, climbing=True), "7 × 2, climbing"),
        (sets(2, 1, wave=2, missed=True, note="belt"), "wave 2: 2 × 1, missed, belt"),
        (sets(None, 1), "1"),
        (sets(3, None), "3 sets"),
        (SetGroup(None, ()), ""),
        (sets(None, None, within_s=480), "in 8 min"),
    ],
)
def test_a_scheme_as_a_coach_says_it(group, said):
    assert scheme_words(group) == said


def test_names_of_lines_come_from_the_catalogue_or_stay_as_written():
    assert line_words(line("clean_pull + clean"), CATALOGUE) == "Clean pull + clean"
    assert line_words(line("sntach"), CATALOGUE) == "Sntach"


def test_variant_and_pauses_in_words():
    part = Part("Snatch", "snatch", ("from blocks",), (Pause(2, "at the knee"), Pause(None, "in the dip")))

    assert detail_words(part) == "from blocks, 2 s pause at the knee, pause in the dip"
