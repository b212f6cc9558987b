"""Cells of an XLSX, XLS or ODS file, read in a process of its own.

The reader is compiled code that sets aside room for every cell up to the last one used. A damaged or hostile
file (one cell in the last row of the last column) makes it give up, and whatever process it lives in with
it. So it lives in a process that may die: with a bound on memory and time, and nothing in it that anybody
would miss.
"""

import os
import subprocess
import sys
from datetime import date, datetime, time, timedelta
from io import BytesIO
from typing import Literal

import msgspec

from meetward.lifter.cell import Cell
from meetward.lifter.failed_formulas import failed_formulas
from meetward.lifter.hidden_rows import hidden_rows

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
    hidden_rows : from 0; they are among the rows.
    """

    name: str
    rows: list[list[Cell]]
    merged: list[tuple[int, int, int, int]]
    hidden: bool = False
    too_large: bool = False
    hidden_rows: list[int] = msgspec.field(default_factory=list)


class NoWorkbook(Exception):
    """The file gave no cells. ``reason`` is one of "password", "too slow" and "damaged"."""

    def __init__(self, reason: Literal["password", "too slow", "damaged"]) -> None:
        super().__init__(reason)
        self.reason: Literal["password", "too slow", "damaged"] = reason


class _Sent(msgspec.Struct):
    """What the other process answers. Days and times are sent as (kind, text), since JSON has none."""

    sheets: list[tuple[str, list[list[object]], list[tuple[int, int, int, int]], bool, bool, list[int]]]
    password: bool = False


def read_workbook(data: bytes) -> list[SheetCells]:
    """All sheets of a workbook, in order, as far as ``MOST_SHEETS``. Raises NoWorkbook."""
    path = os.pathsep.join(filter(None, sys.path))
    try:
        done = subprocess.run(
            [sys.executable, "-P", "-m", "meetward.lifter.workbook"],
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
        SheetCells(name, [[_received(cell) for cell in row] for row in rows], merged, hidden, too_large, away)
        for name, rows, merged, hidden, too_large, away in sent.sheets
    ]


def sheets_of(data: bytes) -> list[SheetCells]:
    """The same in this process. Raises whatever the reader raises, and may end the process."""
    # Here and not above: the parent process never needs it.
    from python_calamine import CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    book = CalamineWorkbook.from_filelike(BytesIO(data))
    errors = failed_formulas(data)
    away = hidden_rows(data)
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
            if 0 <= row < len(rows) and 0 <= column < len(rows[row]):
                rows[row][column] = text
        merged = [(*first, *last) for first, last in sheet.merged_cell_ranges or ()]
        sheets.append(SheetCells(about.name, rows, merged, hidden, hidden_rows=away.get(about.name, [])))
    return sheets


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
                (
                    s.name,
                    [[_sent(c) for c in r] for r in s.rows],
                    s.merged,
                    s.hidden,
                    s.too_large,
                    s.hidden_rows,
                )
                for s in sheets
            ]
        )
    except PasswordError:
        sent = _Sent([], password=True)
    sys.stdout.buffer.write(msgspec.json.encode(sent))


if __name__ == "__main__":
    _answer()
