"""Whatever is read can be kept: the document form of a cycle takes every cycle that the reader makes."""

import random

import pytest

from meetward.catalogue.reading import shipped
from meetward.cycle.package import from_json, to_json
from meetward.demo import cycle_text, pasted_text
from meetward.notation import read

CATALOGUE = shipped()


@pytest.mark.parametrize(
    "text",
    [
        "Snatch 4x3 @ 70%, rest 3:00-2:00",
        "Muscle-up practice 6109 min",
        "Squat 70%x5323'",
        "+Sotts press *3x515-20kg",
        "Snatch 3x670-75kg",
        "Monday: Snatch\nMinutes: 99999999\nLifts:\nSnatch 4x3 @ 70%",
        "Week 99999999999: load\nMonday:\nSnatch 4x3 @ 70%",
        "Snatch 999999x999999 @ 99999%",
        "Snatch 4x3 @ 70%, rest 99999999 min",
        "Plank 3 x 999999 s",
        "Snatch 3x3 RPE 99",
        "Pull-up 3x5 bodyweight + 99999 kg",
    ],
)
def test_a_strange_number_never_makes_a_cycle_that_cannot_be_kept(text):
    cycle = read(text, CATALOGUE).cycle

    assert from_json(to_json(cycle)) == cycle


def test_the_demo_and_a_pasted_page_can_be_kept():
    for text in (cycle_text(), pasted_text()):
        cycle = read(text, CATALOGUE).cycle
        assert from_json(to_json(cycle)) == cycle


def test_mutated_documents_can_be_kept():
    rng = random.Random(4711)
    lines = [*cycle_text().splitlines()[:400], *pasted_text().splitlines()]
    signs = [
        "9",
        "99999",
        "-",
        "–",
        "x",
        "%",
        "kg",
        ":",
        " min",
        " s",
        "/",
        "(",
        "@",
        "RPE ",
        "+",
        "1",
        "0",
        "lb",
    ]
    for _ in range(600):
        text = []
        for line in rng.choices(lines, k=8):
            at, cut = rng.randrange(len(line) + 1), rng.randrange(3)
            text.append(line[:at] + rng.choice(signs) + line[at + cut :])
        cycle = read("\n".join(text), CATALOGUE).cycle
        assert from_json(to_json(cycle)) == cycle, text
