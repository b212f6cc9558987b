"""The page about the notation tells the truth: every example on it is read."""

import re
from pathlib import Path

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Reader, Writer
from meetward.notation.headings import _FIELDS
from meetward.notation.words_out import said

PAGE = (Path(__file__).parent.parent.parent / "docs" / "notation.md").read_text(encoding="utf-8")


def section(title):
    return re.split(r"^## ", PAGE.split(f"## {title}\n")[1], flags=re.MULTILINE)[0]


def rows(title):
    return re.findall(r"^\| `([^`]+)` \| ([^|]+) \|$", section(title), flags=re.MULTILINE)


def blocks(kind):
    return re.findall(rf"^```{kind}\n(.*?)^```$", PAGE, flags=re.MULTILINE | re.DOTALL)


@pytest.fixture(scope="module")
def reader():
    return Reader(shipped())


@pytest.mark.parametrize(("line", "meaning"), rows("Forms of a line"), ids=lambda value: value[:40])
def test_a_form_is_read_as_the_page_says(reader, line, meaning):
    reading = reader.read(line)
    (record,) = reading.lines

    assert (record.status, record.leftover, reading.problems) == ("read", "", ())
    assert said(record.reading) == meaning


@pytest.mark.parametrize("line", [line for line, _ in rows("What is reported")])
def test_what_the_page_calls_open_is_reported(reader, line):
    assert reader.read(line).lines[0].status == "ambiguous"


@pytest.mark.parametrize("line", re.findall(r"\(`([^`]+)`\)", section("What is reported")))
def test_what_the_page_calls_a_note_is_kept(reader, line):
    record = reader.read(line if line.startswith("Snatch") else f"Snatch {line}").lines[0]

    assert record.status == "note"


def test_the_whole_example_reads_without_a_problem_and_prints_to_the_same_cycle(reader):
    (text,) = blocks("cycle")
    reading = reader.read(text)

    assert reading.problems == ()
    assert all(record.status == "read" and not record.leftover for record in reading.lines)
    assert reader.read(Writer(shipped()).cycle(reading.cycle)).cycle == reading.cycle


def test_the_pasted_example_reads(reader):
    (text,) = blocks("pasted")
    reading = reader.read(text)

    assert reading.problems == ()
    assert [len(week.sessions) for _, _, week in reading.cycle.weeks()] == [2]


def test_there_is_an_example_of_every_kind_of_form():
    assert len(rows("Forms of a line")) >= 70


def test_every_heading_of_the_reader_stands_on_the_page():
    told = section("Headings") + section("The canonical form")
    names = {name.lower() for name in re.findall(r"`([A-Za-z][A-Za-z -]*):", told)}

    assert set(_FIELDS.values()) <= names
