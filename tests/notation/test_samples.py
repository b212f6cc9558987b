"""64 real set lines: each is read as the careful reader read it, or reported; none is silently misread.

Lines and meanings: tests/authorities/shorthand-samples.jsonl (and .md).
"""

import json
from pathlib import Path

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Reader

from .meaning import flat, read_lines

FILE = Path(__file__).parent.parent / "authorities" / "shorthand-samples.jsonl"
SAMPLES = [
    json.loads(line) for line in FILE.read_text(encoding="utf-8").splitlines() if line.startswith('{"id"')
]

# Reported instead of read, with the reason; every other sample must be read (or be ambiguous by its own
# word).
KEPT_AS_NOTES = {
    "S031": "hangs on the sets of another line",
    "S033": "says no sets",
    "S034": "says no exercise",
    "S045": "three lifts by slashes, by a key that only its author has",
}
# Its movement stood on another line of the page.
MOVEMENT_ELSEWHERE = {"S059"}
# The base of the percentage is named by the author's own key, not in the line.
BASE_ELSEWHERE = {"S039"}


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


def by_hand(sample):
    meaning = sample["meaning"]
    sets = []
    for each in meaning["sets"]:
        each = dict(each)
        load = dict(each.get("load", {}))
        if "implements" in meaning:
            load["implements"] = meaning["implements"]
        each["load"] = load
        sets.append(each)
    return flat(sets, len(meaning["exercises"]))


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda s: s["id"])
def test_a_real_line_is_read_rightly_or_reported(reader, sample):
    lines = read_lines(reader, sample["text"])
    if sample["id"] in KEPT_AS_NOTES:
        assert {line["status"] for line in lines} == {"note"}
        assert all(line["leftover"] for line in lines)
        return
    assert len(lines) == 1
    line = lines[0]
    right = by_hand(sample)
    if line["status"] == "ambiguous":
        assert (
            sample.get("ambiguous")
            or sample.get("order_only_by_custom")
            or any(each["load"].get("unit_stated") is False for each in sample["meaning"]["sets"])
            or sample["id"] == "S041"
        )
        assert right in [flat(each, 1) for each in line["readings"]]
    else:
        assert line["status"] == "read"
        assert flat(line["sets"], 1) == right
    tempo = sample["meaning"].get("tempo")
    assert all(each["tempo"] == tempo for each in line["sets"])


@pytest.mark.parametrize(
    "sample",
    [s for s in SAMPLES if "meaning" in s and s["id"] not in {*KEPT_AS_NOTES, *MOVEMENT_ELSEWHERE}],
    ids=lambda s: s["id"],
)
def test_the_movements_of_a_real_line_are_found(reader, sample):
    line = read_lines(reader, sample["text"])[0]

    assert len(line["movements"]) == len(sample["meaning"]["exercises"])
    assert all(movement["id"] for movement in line["movements"])


@pytest.mark.parametrize(
    "sample",
    [
        s
        for s in SAMPLES
        if "meaning" in s
        and any("of" in e["load"] for e in s["meaning"]["sets"])
        and s["id"] not in BASE_ELSEWHERE
    ],
    ids=lambda s: s["id"],
)
def test_the_base_of_a_percentage_is_found(reader, sample):
    line = read_lines(reader, sample["text"])[0]

    for read, right in zip(line["sets"], sample["meaning"]["sets"], strict=True):
        wanted = right["load"].get("of")
        if wanted and wanted.startswith("today"):
            wanted = "today's top set"
        assert read["load"]["of"] == wanted


@pytest.mark.parametrize(
    "sample", [s for s in SAMPLES if s.get("convention") == "sets_x_reps"], ids=lambda s: s["id"]
)
def test_with_the_order_declared_nothing_is_ambiguous(reader, sample):
    line = read_lines(reader, sample["text"], order="sets-first")[0]

    assert line["status"] == "read"
    assert flat(line["sets"], 1) == by_hand(sample)


def test_how_many_are_read_ambiguous_and_kept(reader):
    counts = {"read": 0, "ambiguous": 0, "note": 0}
    for sample in SAMPLES:
        counts[read_lines(reader, sample["text"])[0]["status"]] += 1

    assert counts == {"read": 48, "ambiguous": 12, "note": 4}
