"""Files as rows of cells: encodings, delimiters, quotation marks, workbooks that would end the process."""

import io
import zipfile
from datetime import date, time

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook
from openpyxl.styles import Protection

from meetward.lifter.grid import decode, escaped, open_sheets
from meetward.lifter.workbook import LARGEST_FILE, NoWorkbook, read_workbook
from tests.lifter.sheets import Formula, as_csv, as_xlsx

ROWS = [["Name", "Snatch"], ["Zoë", "82,5"], ["Łukasz", "90"]]


def rows(data: bytes) -> list[list[object]]:
    """The rows of the reading with most cells in its first row."""
    return max((sheet.rows for sheet in open_sheets(data).sheets), key=lambda r: len(r[0]) if r else 0)


@pytest.mark.parametrize("delimiter", [";", "\t", "|", ","])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_every_delimiter_and_unicode_encoding(delimiter, encoding):
    assert rows(as_csv(ROWS, delimiter=delimiter, encoding=encoding)) == ROWS
    assert open_sheets(as_csv(ROWS, delimiter=delimiter, encoding=encoding)).doubts == ()


@pytest.mark.parametrize(
    ("encoding", "names"),
    [("cp1252", ["Zoë", "Íñigo", "Bjørn", "O’Neil"]), ("cp1250", ["Łukasz Żółć", "Świętosława",
    "Błażej Gęś"]),
     ("cp1251", ["Иванов", "Петрова", "Сидоров"])],
)  # fmt: skip
def test_older_encodings_are_guessed_and_told(encoding, names):
    cells = [["Name"], *([name] for name in names)]
    opened = open_sheets(as_csv(cells, encoding=encoding))

    assert opened.sheets[0].rows == cells
    assert [d.kind for d in opened.doubts] == ["encoding"]


def test_quoted_cells_keep_delimiters_quotes_and_line_ends():
    cells = [["Name", "Notes"], ["Ida", 'knee; left, "old"\nsince May'], ["Ola", ""]]

    assert rows(as_csv(cells)) == [*cells[:2], ["Ola", None]]


def test_a_mark_that_is_never_closed_loses_no_row():
    opened = open_sheets(b'Name;Height\nIda;5\nOla;"6\nWim;7\n')

    assert [row[0] for row in opened.sheets[0].rows] == ["Name", "Ida", "Ola", "Wim"]
    assert [d.kind for d in opened.sheets[0].doubts] == ["quotes"]


def test_marks_in_the_middle_of_a_cell():
    opened = open_sheets(b'Name;Notes\n"Big" Jim;5\'2" tall\nOla;\n')

    assert opened.sheets[0].rows[1] == ["Big Jim", "5'2\" tall"]


def test_a_line_that_announces_the_delimiter_keeps_the_count_of_rows():
    assert rows(b"sep=;\nName;Snatch\nIda;82,5\n") == [[], ["Name", "Snatch"], ["Ida", "82,5"]]


@pytest.mark.parametrize("text", ["=1+1", "+3", "-x", "@here", "'=1", "''-2"])
def test_a_text_that_would_be_computed_is_escaped_and_comes_back(text):
    assert escaped(text) == f"'{text}"
    assert rows(as_csv([["Name"], [escaped(text)]])) == [["Name"], [text]]


@given(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30))
def test_escaping_loses_nothing(text):
    assert rows(as_csv([["Name", "x"], [escaped(text), "x"]]))[1][0] == text or text == "x"


@pytest.mark.parametrize("cell", ["'quoted", "it's", "a=b", "82-5"])
def test_what_needs_no_escape_stays(cell):
    assert escaped(cell) == cell


@pytest.mark.parametrize(
    ("data", "kind"),
    [(b"%PDF-1.7 ...", "not a sheet"), (b"\x89PNG\r\n\x1a\n", "not a sheet"), (b"<!DOCTYPE html><table>",
    "not a sheet"), (b"  <html>", "not a sheet"),
     (b"PK\x03\x04nonsense", "not a sheet"), (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"x" * 600,
     "not a sheet"), (b"a" * (LARGEST_FILE + 1), "file too large"),
     (b"," * 1_200_000, "file too large")],
)  # fmt: skip
def test_what_is_no_sheet_is_told(data, kind):
    opened = open_sheets(data)
    doubts = [*opened.doubts, *(d for sheet in opened.sheets for d in sheet.doubts)]

    assert [d.kind for d in doubts] == [kind]
    assert doubts[0].severity == "stop"


def test_cells_of_a_workbook_keep_their_kind():
    cells = [
        ["Name", 82.5, 1998],
        [date(2026, 10, 3), time(1, 30), True],
        ["", Formula("#N/A"), Formula("#DIV/0!")],
    ]
    opened = open_sheets(as_xlsx(cells))

    assert opened.sheets[0].rows == [
        ["Name", 82.5, 1998],
        [date(2026, 10, 3), time(1, 30), True],
        [None, "#N/A", "#DIV/0!"],
    ]


def test_a_workbook_written_by_another_library():
    book = Workbook()
    book.active.append(["Name", "Snatch"])
    book.active.append(["Ida", 82.5])
    book.active["C2"].protection = Protection(locked=True)
    book.create_sheet("Hidden").sheet_state = "hidden"
    file = io.BytesIO()
    book.save(file)
    opened = open_sheets(file.getvalue())

    assert opened.sheets[0].rows == [["Name", "Snatch"], ["Ida", 82.5]]
    assert [sheet.hidden for sheet in opened.sheets] == [False, True]


def test_merged_cells_and_empty_first_rows_keep_their_place():
    opened = open_sheets(as_xlsx([[], [None, "Bests", None], [None, "Snatch", "C&J"]], merged=[(1, 1, 1, 2)]))

    assert opened.sheets[0].merged == ((1, 1, 1, 2),)
    assert opened.sheets[0].rows[2] == [None, "Snatch", "C&J"]


def test_a_cell_in_the_last_corner_ends_the_reading_and_not_the_program():
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    sheet = book.add_worksheet()
    sheet.write(0, 0, "Name")
    sheet.write(1_048_575, 16_383, 1)
    book.close()

    with pytest.raises(NoWorkbook, match="damaged"):
        read_workbook(file.getvalue())
    assert [d.kind for d in open_sheets(file.getvalue()).doubts] == ["not a sheet"]


def test_a_large_empty_sheet_is_told_and_the_others_read():
    far = [["Name"], *([None] * 9_000 for _ in range(3))]
    far[3][-1] = 1
    opened = open_sheets(
        as_xlsx([["Name", "Snatch"]], others={"Far": [*far, *([] for _ in range(200)), [None] * 8_999 + [1]]})
    )

    assert [sheet.name for sheet in opened.sheets] == ["Sheet1"]
    assert [d.kind for d in opened.doubts] == ["file too large"]


def test_an_archive_that_is_no_workbook_is_told():
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as archive:
        archive.writestr("notes.txt", "Name,Snatch")

    assert [d.kind for d in open_sheets(file.getvalue()).doubts] == ["not a sheet"]


@given(st.binary(max_size=400))
def test_any_bytes_give_a_text(data):
    text, encoding, _ = decode(data)

    assert isinstance(text, str)
    assert encoding
