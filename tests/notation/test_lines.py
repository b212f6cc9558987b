"""Several hundred set lines in many styles: read as a careful reader reads them, or reported."""

from pathlib import Path

import pytest
import tomli

from meetward.catalogue.reading import shipped
from meetward.notation import Reader
from meetward.notation.words_out import said

TEXTS = tomli.loads((Path(__file__).parent / "lines.toml").read_text(encoding="utf-8"))
LINES = TEXTS["line"]


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


@pytest.mark.parametrize("line", LINES, ids=lambda line: line["text"][:60])
def test_a_line_is_read_as_a_careful_reader_reads_it(reader, line):
    (record,) = reader.read(line["text"]).lines

    assert record.status == line["status"]
    if record.status == "note":
        assert record.leftover == record.text
        return
    assert [part.movement for part in record.parts] == line["movements"]
    if record.status == "read":
        assert said(record.reading) == line["sets"]
    else:
        assert [said(reading) for reading in record.readings] == line["readings"]


@pytest.mark.parametrize("line", TEXTS["several"], ids=lambda line: line["text"][:60])
def test_several_lifts_of_one_line_are_each_a_line_of_the_cycle(reader, line):
    found = reader.read(line["text"]).lines

    assert [record.line for record in found] == [1] * len(line["lifts"])
    for record, lift in zip(found, line["lifts"], strict=True):
        assert (record.status, [part.movement for part in record.parts]) == (
            lift["status"],
            lift["movements"],
        )
        if record.status == "read":
            assert said(record.reading) == lift["sets"]
        else:
            assert [said(reading) for reading in record.readings] == lift["readings"]


@pytest.mark.parametrize(
    "line", [line for line in LINES if line["status"] != "read"], ids=lambda line: line["text"][:60]
)
def test_what_is_not_read_is_reported_with_its_place(reader, line):
    reading = reader.read(line["text"])
    bare_words = not any(c.isdigit() for c in line["text"])

    if line["status"] == "note" and bare_words:
        return
    assert reading.problems
    for problem in reading.problems:
        assert problem.place.line >= 1
        assert problem.place.column >= 1
        assert problem.place.width >= 1
        assert problem.repair.endswith((".", "?"))


def test_there_are_enough_of_them():
    assert len(LINES) >= 250
    assert sum(line["status"] == "read" for line in LINES) >= 150
