"""Lines that other people wrote, in some twenty styles, with the meaning that they gave them.

The authors knew nothing of the reader, and the reader was not written for single lines. ``other_hands.jsonl``
is invented, no published source; a line without a meaning is best kept as words.
"""

import json
from collections import Counter
from pathlib import Path

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Reader
from tests.notation.meaning import read_lines
from tests.notation.other_hands import verdict

LINES = [
    json.loads(line)
    for line in (Path(__file__).parent / "other_hands.jsonl").read_text(encoding="utf-8").splitlines()
]
ORDERS = {
    **dict.fromkeys(("sets_x_reps", "load_sets_x_reps", "percent_x_sets_x_reps"), "sets-first"),
    **dict.fromkeys(("reps_x_sets", "load_x_reps_x_sets", "percent_x_reps_x_sets"), "reps-first"),
}


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


@pytest.mark.parametrize("line", LINES, ids=lambda line: line["id"])
def test_a_line_of_another_hand_is_read_rightly_or_reported(reader, line):
    found = verdict(line, read_lines(reader, line["text"]))

    assert found in ("right", "ambiguous", "part", "note", *(() if line.get("meaning") else ("read anyway",)))


@pytest.mark.parametrize(
    "line", [line for line in LINES if line.get("convention") in ORDERS], ids=lambda line: line["id"]
)
def test_with_its_order_declared_as_well(reader, line):
    found = verdict(line, read_lines(reader, line["text"], order=ORDERS[line["convention"]]))

    assert found in ("right", "ambiguous", "part", "note")


def test_most_lines_with_a_meaning_are_read(reader):
    meant = [line for line in LINES if line.get("meaning")]
    found = Counter(verdict(line, read_lines(reader, line["text"])) for line in meant)

    assert len(meant) >= 280
    assert found["right"] >= 140
    assert found["right"] + found["ambiguous"] >= 220
    assert found["note"] <= 67


def test_few_lines_without_a_meaning_are_made_sets_of(reader):
    words = [line for line in LINES if not line.get("meaning")]
    found = Counter(verdict(line, read_lines(reader, line["text"])) for line in words)

    assert len(words) >= 50
    assert found["read anyway"] + found["right"] + found["ambiguous"] <= 3
