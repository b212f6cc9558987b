"""Cells of an XLSX, XLS or ODS file, read in a process of its own.

The reader is compiled code that sets aside room for every cell up to the last one used. A damaged or hostile
file (one cell in the last row of the last column) makes it give up, and whatever process it lives in with
it. So it lives in a process that may die: with a bound on memory and time, and nothing in it that anybody
would miss.
"""

import os
import subprocess
import sys
import zipfile
from datetime import date, datetime, time, timedelta
from io import BytesIO
from typing import Literal
from xml.etree import ElementTree

import msgspec

from meetward.lifter.cell import Cell

LARGEST_FILE = 20_000_000
"""Bytes. A squad of a thousand is under one million."""

MOST_CELLS = 1_000_000
MOST_SHEETS = 40

_MEMORY = 2_000_000_000
_SECONDS = 30


class SheetCells(msgspec.Struct):
    """One sheet.

    rows : from the first row and column of the sheet, all of one width.
    merged : first row, first column, last row, last column of each merged area, from 0.
    too_large : more than ``MOST_CELLS``, and not read.
    """

    name: str
    rows: list[list[Cell]]
    merged: list[tuple[int, int, int, int]]
    hidden: bool = False
    too_large: bool = False


class NoWorkbook(Exception):
    """The file gave no cells. ``reason`` is one of "password", "too slow" and "damaged"."""

    def __init__(self, reason: Literal["password", "too slow", "damaged"]) -> None:
        super().__init__(reason)
        self.reason: Literal["password", "too slow", "damaged"] = reason


class _Sent(msgspec.Struct):
    """What the other process answers. Days and times are sent as (kind, text), since JSON has none."""

    sheets: list[tuple[str, list[list[object]], list[tuple[int, int, int, int]], bool, bool]]
    password: bool = False


def read_workbook(data: bytes) -> list[SheetCells]:
    """All sheets of a workbook, in order, as far as ``MOST_SHEETS``. Raises NoWorkbook."""
    path = os.pathsep.join(filter(None, sys.path))
    try:
        done = subprocess.run(
            [sys.executable, "-m", "meetward.lifter.workbook"],
            input=data,
            capture_output=True,
            timeout=_SECONDS,
            check=False,
            env={**os.environ, "PYTHONPATH": path, "RUST_BACKTRACE": "0"},
        )
    except subprocess.TimeoutExpired:
        raise NoWorkbook("too slow") from None
    try:
        sent = msgspec.json.decode(done.stdout, type=_Sent)
    except msgspec.MsgspecError:
        raise NoWorkbook("damaged") from None
    if sent.password:
        raise NoWorkbook("password")
    return [
        SheetCells(name, [[_received(cell) for cell in row] for row in rows], merged, hidden, too_large)
        for name, rows, merged, hidden, too_large in sent.sheets
    ]


def sheets_of(data: bytes) -> list[SheetCells]:
    """The same in this process. Raises whatever the reader raises, and may end the process."""
    # Here and not above: the parent process never needs it.
    from python_calamine import CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    book = CalamineWorkbook.from_filelike(BytesIO(data))
    errors = _errors_by_sheet(data)
    sheets = []
    for about in book.sheets_metadata[:MOST_SHEETS]:
        if about.typ != SheetTypeEnum.WorkSheet:
            continue
        sheet = book.get_sheet_by_name(about.name)
        hidden = about.visible != SheetVisibleEnum.Visible
        height, width = sheet.total_height + 1, sheet.total_width + 1
        if height * width > MOST_CELLS:
            sheets.append(SheetCells(about.name, [], [], hidden, too_large=True))
            continue
        rows: list[list[Cell]] = [
            [None if cell == "" else cell for cell in row] for row in sheet.to_python(skip_empty_area=False)
        ]
        for row, column, text in errors.get(about.name, ()):
            if row < len(rows) and column < len(rows[row]):
                rows[row][column] = text
        merged = [(*first, *last) for first, last in sheet.merged_cell_ranges or ()]
        sheets.append(SheetCells(about.name, rows, merged, hidden))
    return sheets


def _errors_by_sheet(data: bytes) -> dict[str, list[tuple[int, int, str]]]:
    """Cells of an XLSX whose formula failed: the reader gives them as empty, which would hide them."""
    main = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    relation = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
    errors: dict[str, list[tuple[int, int, str]]] = {}
    try:
        with zipfile.ZipFile(BytesIO(data)) as parts:
            targets = {
                link.get("Id"): (link.get("Target") or "").lstrip("/").removeprefix("xl/")
                for link in ElementTree.fromstring(parts.read("xl/_rels/workbook.xml.rels"))
            }
            for sheet in ElementTree.fromstring(parts.read("xl/workbook.xml")).iter(f"{main}sheet"):
                found = []
                with parts.open(f"xl/{targets[sheet.get(relation)]}") as part:
                    for _, element in ElementTree.iterparse(part):
                        if element.tag == f"{main}c" and element.get("t") == "e":
                            where = _place(element.get("r") or "")
                            if where is not None:
                                found.append((*where, element.findtext(f"{main}v") or "#N/A"))
                        elif element.tag == f"{main}row":
                            element.clear()
                errors[sheet.get("name") or ""] = found
    except (zipfile.BadZipFile, ElementTree.ParseError, KeyError, ValueError, OSError, NotImplementedError):
        return errors
    return errors


def _place(reference: str) -> tuple[int, int] | None:
    """``"AB7"`` as row 6, column 27."""
    letters = reference.rstrip("0123456789")
    if not letters.isalpha() or len(letters) > 3 or not reference[len(letters) :]:
        return None
    column = 0
    for one in letters.upper():
        column = column * 26 + ord(one) - ord("A") + 1
    return int(reference[len(letters) :]) - 1, column - 1


def _sent(cell: Cell) -> object:
    if isinstance(cell, datetime):
        return ("datetime", cell.isoformat())
    if isinstance(cell, date):
        return ("date", cell.isoformat())
    if isinstance(cell, time):
        return ("time", cell.isoformat())
    if isinstance(cell, timedelta):
        return ("seconds", str(int(cell.total_seconds())))
    return cell


def _received(cell: object) -> Cell:
    if not isinstance(cell, list):
        return cell if isinstance(cell, str | int | float) else None
    kind, text = cell
    if kind == "datetime":
        return datetime.fromisoformat(text)
    if kind == "date":
        return date.fromisoformat(text)
    return time.fromisoformat(text) if kind == "time" else timedelta(seconds=int(text))


def _bounded() -> None:
    """Bound this process, where the system can."""
    try:
        import resource
    except ImportError:  # Windows has no such bounds; the bound on time still holds
        return
    resource.setrlimit(resource.RLIMIT_AS, (_MEMORY, _MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (_SECONDS, _SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def _answer() -> None:
    _bounded()
    from python_calamine import PasswordError

    data = sys.stdin.buffer.read()
    try:
        sheets = sheets_of(data)
        sent = _Sent(
            [
                (s.name, [[_sent(c) for c in r] for r in s.rows], s.merged, s.hidden, s.too_large)
                for s in sheets
            ]
        )
    except PasswordError:
        sent = _Sent([], password=True)
    sys.stdout.buffer.write(msgspec.json.encode(sent))


if __name__ == "__main__":
    _answer()
