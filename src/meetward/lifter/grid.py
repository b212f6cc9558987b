"""A file as rows of cells, whatever its kind: text with any delimiter and encoding, or a spreadsheet."""

import codecs
import csv
import io
import re
from typing import Literal, NamedTuple

from meetward.lifter.cell import Cell, Doubt, tidy
from meetward.lifter.workbook import LARGEST_FILE, MOST_CELLS, NoWorkbook, SheetCells, read_workbook

LONGEST_FIELD = 131_072

_DELIMITERS = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "upright strokes"}
_BOMS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_OLD_ENCODINGS = [
    "cp1252",
    "cp1250",
    "cp1251",
    "cp1253",
    "cp1254",
    "cp1257",
    "iso8859_2",
    "mac_roman",
    "cp850",
]
_ESCAPED = re.compile(r"'+(?=[=+\-@])")


class Sheet(NamedTuple):
    """Rows of cells, counted from the first row and column of the file.

    name : of the sheet in a workbook; empty for text.
    merged : as in `meetward.lifter.workbook.SheetCells`.
    turned : rows and columns are exchanged, since the lifters stood side by side.
    delimiter : between the cells of a text; empty for a workbook.
    """

    name: str
    rows: list[list[Cell]]
    merged: tuple[tuple[int, int, int, int], ...] = ()
    hidden: bool = False
    doubts: tuple[Doubt, ...] = ()
    turned: bool = False
    delimiter: str = ""


class Opened(NamedTuple):
    """A file's sheets, and what there was to say. Text comes as one sheet for each delimiter it may have."""

    sheets: tuple[Sheet, ...]
    doubts: tuple[Doubt, ...] = ()


def open_sheets(data: bytes) -> Opened:
    """The sheets of a file; none, and the reason, when it can't be read. Never raises."""
    if len(data) > LARGEST_FILE:
        size = f"{len(data) / 1_000_000:.0f} MB"
        return _closed("file too large", f"The file has {size}.", "Save the sheet with the lifters alone.")
    if data[:4] == b"PK\x03\x04" or data[:8] == b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1":
        return _workbook(data)
    if data[:5] == b"%PDF-" or data[:4] in (b"\x89PNG", b"\xff\xd8\xff\xe0", b"\xff\xd8\xff\xe1", b"GIF8"):
        return _closed("not a sheet", "The file is a picture or a PDF.", "Save the sheet as CSV or XLSX.")
    head = data[:512].lstrip().lower()
    if head.startswith((b"<!doctype html", b"<html", b"<table", b"<?xml")):
        return _closed("not a sheet", "The file is a web page or XML.", "Open it and save it as CSV or XLSX.")
    return _text(data)


def decode(data: bytes) -> tuple[str, str, bool]:
    """Text, the encoding it was read by, and whether that is sure."""
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, errors="replace"), encoding, True
    head = data[:4000]
    if head.count(0) > len(head) // 5:
        # Latin letters in UTF-16 leave every other byte empty.
        encoding = "utf-16-le" if head[1::2].count(0) >= head[::2].count(0) else "utf-16-be"
        return data.decode(encoding, errors="replace"), encoding, True
    try:
        return data.decode("utf-8"), "utf-8", True
    except UnicodeDecodeError:
        pass
    western = data.decode("cp1252", errors="replace")
    letters = sum(map(str.isalpha, western))
    accented = [c for c in western if not c.isascii()]
    if all(c.isalpha() or c in "–—’‘“”…½×°€ªº" for c in accented) and 4 * len(accented) <= letters:
        return western, "cp1252", False
    # Here and not above: few files need it.
    from charset_normalizer import from_bytes

    best = from_bytes(data[:100_000], cp_isolation=_OLD_ENCODINGS).best()
    encoding = best.encoding if best is not None else "cp1252"
    return data.decode(encoding, errors="replace"), encoding, False


def _text(data: bytes) -> Opened:
    text, encoding, sure = decode(data)
    doubts: tuple[Doubt, ...] = ()
    if not sure:
        doubts = (
            Doubt(
                "encoding",
                f"The file does not say how its letters are coded; it is read as {encoding}.",
                "Check names with accents, or save the file as UTF-8.",
            ),
        )
    text = text.removeprefix("\ufeff")
    if announced := re.match(r'"?sep=([\t;,|:])"?\r?\n', text):
        # The line stays as an empty row, so that rows are counted as the spreadsheet counts them.
        return Opened((_rows(text[announced.end() - 1 :], announced[1]),), doubts)
    present = [d for d in _DELIMITERS if d in text[:LONGEST_FIELD]] or [","]
    sheets = tuple(_rows(text, delimiter) for delimiter in present)
    return Opened(tuple(s for s in sheets if s.rows) or sheets[:1], doubts)


def _rows(text: str, delimiter: str) -> Sheet:
    """The rows of a text; where quotation marks make no sense they are taken as plain signs, with a doubt."""
    try:
        rows = _parsed(text, delimiter, csv.QUOTE_MINIMAL, strict=True)
    except csv.Error as fault:
        in_the_middle = "expected after" in str(fault)
        rows = _lenient(text, delimiter, in_the_middle)
        doubt = Doubt(
            "quotes",
            "Quotation marks stand in the middle of a cell."
            if in_the_middle
            else "A quotation mark is opened and not closed, so marks are taken as they stand.",
            "Take the marks out, or save the sheet as CSV again.",
        )
        if not rows:
            doubt = Doubt("not a sheet", "The file has no rows and cells.", "Save it as CSV or XLSX.", "stop")
        return _bounded(rows, delimiter, doubt)
    return _bounded(rows, delimiter)


def _lenient(text: str, delimiter: str, in_the_middle: bool) -> list[list[Cell]]:
    """Rows of a text whose marks are not in order; none where even that fails."""
    try:
        if in_the_middle:
            rows = _parsed(text, delimiter, csv.QUOTE_MINIMAL, strict=False)
            # A mark that swallowed a good part of the file was no mark.
            if not any(isinstance(c, str) and c.count("\n") > 20 for row in rows for c in row):
                return rows
        return _parsed(text, delimiter, csv.QUOTE_NONE, strict=False)
    except csv.Error:
        return []


def _parsed(text: str, delimiter: str, quoting: Literal[0, 3], *, strict: bool) -> list[list[Cell]]:
    lines = io.StringIO(text, newline="")
    return [
        [_unescaped(field) for field in row]
        for row in csv.reader(lines, delimiter=delimiter, quoting=quoting, strict=strict)
    ]


def _bounded(rows: list[list[Cell]], delimiter: str, *doubts: Doubt) -> Sheet:
    if sum(map(len, rows)) <= MOST_CELLS:
        return Sheet("", rows, doubts=doubts, delimiter=delimiter)
    return Sheet(
        "",
        [],
        doubts=(Doubt("file too large", "The file has too many cells.", "Save the lifters alone.", "stop"),),
    )


def _unescaped(field: str) -> Cell:
    """Without the apostrophe that keeps a spreadsheet from computing a text ("'=SUM(A1)")."""
    if field[:1] == "'" and _ESCAPED.match(field):
        return field[1:]
    return field if field else None


def escaped(text: str) -> str:
    """A text that a spreadsheet opening a CSV file won't compute; `open_sheets` takes the sign off again."""
    if text[:1] in ("=", "+", "-", "@", "\t", "\r") or (text[:1] == "'" and _ESCAPED.match(text)):
        return f"'{text}"
    return text


def _workbook(data: bytes) -> Opened:
    try:
        sheets = read_workbook(data)
    except NoWorkbook as fault:
        if fault.reason == "password":
            return _closed("password", "The file is locked by a password.", "Save it without a password.")
        if fault.reason == "too slow":
            return _closed("file too large", "The file takes too long to read.", "Save the lifters alone.")
        return _closed(
            "not a sheet", "The file could not be read as a spreadsheet.", "Save it as XLSX or CSV again."
        )
    doubts = tuple(
        Doubt(
            "file too large",
            f"Sheet '{tidy(s.name)}' is too large to read.",
            "Delete empty rows and columns at its end.",
        )
        for s in sheets
        if s.too_large
    )
    read = [
        Sheet(s.name, s.rows, tuple(s.merged), s.hidden, _about_hidden(s)) for s in sheets if not s.too_large
    ]
    return Opened(tuple(read), doubts)


def _about_hidden(sheet: SheetCells) -> tuple[Doubt, ...]:
    """That rows with something in them are hidden; they are read."""
    rows = [row for row in sheet.hidden_rows if row < len(sheet.rows) and any(sheet.rows[row])]
    if not rows:
        return ()
    shown = ", ".join(str(row + 1) for row in rows[:8])
    more = f" and {len(rows) - 8} more" if len(rows) > 8 else ""
    message = f"Hidden rows of sheet '{tidy(sheet.name)}' are read like the others: {shown}{more}."
    return (Doubt("hidden rows", message, "Delete the rows that are not meant, and save the file again."),)


def _closed(kind: str, message: str, repair: str) -> Opened:
    return Opened((), (Doubt(kind, message, repair, "stop"),))
