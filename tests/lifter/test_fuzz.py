"""Whatever stands in a file, reading never raises. Seeded: every run is alike."""

import random
import zipfile
from collections import Counter
from dataclasses import dataclass
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from python_calamine import CalamineError, XmlError, ZipError

from meetward.lifter.failed_formulas import failed_formulas
from meetward.lifter.grid import open_sheets
from meetward.lifter.reading import SquadReading
from meetward.lifter.workbook import sheets_of
from tests.lifter.sheets import Formula, as_csv, as_xlsx, read

HEADINGS = [
    "Name", "Snatch", "C&J PB", "Front squat 3RM", "Back squat (lb)", "Snatch date", "Bodyweight", "DOB",
    "Sex", "Bar", "Discs", "Collars",
    "Days", "Minutes", "Unit", "Snatch note", "Jerk", "Notes", "Age", "Shown in", "Snacth", "Snatch kind",
]  # fmt: skip
PIECES = [
    "100", "82,5", "82.5", "kg", "lb", "#", " x ", "3", "x3", "(", ")", "oct", "2026", "2026-10-03",
    "3/10/26", "-", "+", "~", "?", "est", "E", "RM", "@",
    "n/a", "#N/A", "=", "'", '"', "\n", "\t", ";", ",", "½", "×", "club", "2x20", "pairs", "without", "Mon",
    "M/W/F", "135", "1h30", "1:30", "Women", "Total",
    "W64", "0", "-5", "1e309", "nan", "inf", "９５", "٨٢", "\u200b", "\ufeff", "ı", "ſ", "K", "ß", "İ",
    "\x00", "\ud7ff", "🏋", "e\u0301", "9" * 30, "%",
]  # fmt: skip
PLAIN = as_csv(
    [
        HEADINGS,
        [
            "Ann Sole",
            "70",
            "90x3",
            "95",
            "220",
            "3/10/26",
            "58",
            "2001",
            "F",
            "15",
            "2x20 2x10",
            "no",
            "MWF",
            "90",
            "kg",
        ],
    ]
)
WORKBOOK = as_xlsx(
    [["Name", "Snatch", "C&J"], ["Ann Sole", 70, Formula("#N/A")], ["Bo Quay", "x", "90 (oct)"]],
    others={"Other": [["Name"], ["Ann Sole"]]},
)


@dataclass
class Tried:
    cells: int = 0
    lifters: int = 0
    problems: int = 0

    def add(self, reading: SquadReading) -> None:
        self.lifters += len(reading.lifters)
        self.problems += len(reading.problems)
        keys = [lifter.key.casefold() for lifter in reading.lifters]
        assert len(set(keys)) == len(keys)
        assert all(
            problem.place.source and problem.repair and problem.message for problem in reading.problems
        )


def cell(rng: random.Random) -> str:
    return "".join(rng.choices(PIECES, k=rng.choice((0, 1, 1, 2, 2, 3, 5))))


@pytest.mark.parametrize("kind", ["text", "workbook"])
def test_a_hundred_thousand_random_cells(kind):
    rng, tried = random.Random(20261125), Tried()
    rows_each = 200 if kind == "text" else 800  # a workbook is read in a process of its own
    while tried.cells < 100_000:
        headings = ["Name", *rng.sample(HEADINGS[1:], 15)]
        rows = [[f"Ann {at}", *(cell(rng) for _ in headings[1:])] for at in range(rows_each)]
        tried.cells += rows_each * len(headings)
        if kind == "text":
            tried.add(read(as_csv([headings, *rows], delimiter=rng.choice(";\t,|"))))
        else:
            tried.add(read(as_xlsx([headings, *rows]), "squad.xlsx"))

    assert tried.lifters > 5_000
    assert tried.problems > 20_000


def mutated(data: bytes, rng: random.Random) -> bytes:
    """Some bytes changed, a piece left out or repeated, or the end cut off."""
    out = bytearray(data)
    for _ in range(rng.randint(1, 6)):
        match rng.randrange(4):
            case 0:
                out[rng.randrange(len(out))] = rng.randrange(256)
            case 1:
                at = rng.randrange(len(out))
                del out[at : at + rng.randint(1, 40)]
            case 2:
                at = rng.randrange(len(out))
                out[at:at] = out[max(0, at - rng.randint(1, 40)) : at]
            case _:
                out[rng.randrange(len(out)) :] = rng.choice(PIECES).encode("utf-16-le", "surrogatepass")
        if not out:
            return b""
    return bytes(out)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "cp1252"])
def test_damaged_text_files(encoding):
    rng, tried = random.Random(7), Tried()
    whole = PLAIN.decode().replace("Ann", "Zoë").encode(encoding)
    for _ in range(2_000):
        tried.add(read(mutated(whole, rng)))
        tried.add(read(rng.randbytes(rng.randint(0, 300))))

    assert tried.lifters > 50


def repacked(rng: random.Random, part: str) -> bytes:
    """The workbook in good order but for one part, whose XML is damaged."""
    file = BytesIO()
    with zipfile.ZipFile(BytesIO(WORKBOOK)) as whole, zipfile.ZipFile(file, "w") as damaged:
        for name in whole.namelist():
            content = whole.read(name)
            damaged.writestr(name, mutated(content, rng) if name == part else content)
    return file.getvalue()


def test_a_hundred_thousand_damaged_workbooks_end_in_a_reason():
    """In this process, where an unexpected fault of our own part would show."""
    rng = random.Random(11)
    readable = Counter(_readable(mutated(WORKBOOK, rng)) for _ in range(80_000))
    inside = ("xl/worksheets/sheet1.xml", "xl/workbook.xml", "xl/sharedStrings.xml")
    readable.update(_readable(repacked(rng, rng.choice(inside))) for _ in range(20_000))

    assert readable.total() == 100_000
    assert readable[True] > 3_000


@pytest.mark.parametrize("place", ["A0", "A00", "ZZZ0", "A" + "9" * 5_000, "A-1", "1", ""])
def test_a_failed_formula_that_stands_nowhere_marks_no_other_cell(place):
    file = BytesIO()
    with zipfile.ZipFile(BytesIO(WORKBOOK)) as whole, zipfile.ZipFile(file, "w") as changed:
        for name in whole.namelist():
            changed.writestr(name, whole.read(name).replace(b'r="C2"', f'r="{place}"'.encode()))

    found = failed_formulas(file.getvalue())

    assert failed_formulas(WORKBOOK)["Sheet1"] == [(1, 2, "#N/A")]
    assert found.get("Sheet1", []) == []


def _readable(data: bytes) -> bool:
    try:
        return bool(sheets_of(data))
    except (CalamineError, ZipError, XmlError):
        return False
    except BaseException as fault:  # the reader's panics are no ordinary exceptions
        if type(fault).__name__ != "PanicException":
            raise
        return False


def test_damaged_workbooks_through_the_process():
    rng = random.Random(13)
    for cut in (*(rng.randrange(len(WORKBOOK)) for _ in range(10)), len(WORKBOOK) - 1, 30):
        opened = open_sheets(WORKBOOK[:cut])
        assert opened.sheets or opened.doubts
    for _ in range(10):
        read(mutated(WORKBOOK, rng), "squad.xlsx")


@settings(max_examples=60)
@given(
    st.lists(st.lists(st.text(max_size=12) | st.sampled_from(HEADINGS + PIECES), max_size=8), max_size=8),
    st.sampled_from([";", ",", "\t"]),
)
def test_any_rows(rows, delimiter):
    Tried().add(read(as_csv(rows, delimiter=delimiter, encoding="utf-8")))


@pytest.mark.parametrize(
    "data", [b"Name;Snatch\n" + b"a" * 1_000_000, b"Name;Snatch\nAnn;" + b"9" * 500_000,
    b'Name;Snatch\nAnn;"' + b"1\n" * 200_000, b"Name;" * 200_000, b";\n" * 300_000,
             b"Name;Snatch\n" + b"Ann;1 1 1 1 1 1 x\n" * 20_500],
)  # fmt: skip
def test_large_hostile_files_are_read_or_refused(data):
    Tried().add(read(data))
