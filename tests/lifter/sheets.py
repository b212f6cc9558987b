"""Sheets for the tests of this room: the same rows as text and as a workbook. All names are invented."""

import csv
import io
from datetime import date, datetime, time

import xlsxwriter

from meetward.catalogue.reading import shipped
from meetward.lifter.reading import SquadReading, read_squad

CATALOGUE = shipped()
TODAY = date(2026, 11, 25)


class Formula(str):
    """A cell with a formula whose result is an error."""


def as_csv(rows, *, delimiter=",", encoding="utf-8") -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=delimiter).writerows([[_plain(cell) for cell in row] for row in rows])
    return text.getvalue().encode(encoding)


def as_xlsx(rows, *, merged=(), name="Sheet1", others=None) -> bytes:
    """A workbook; ``others`` are further sheets in front, by name."""
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    for title, cells in {**(others or {}), name: rows}.items():
        sheet = book.add_worksheet(title)
        for at, row in enumerate(cells):
            for column, cell in enumerate(row):
                if isinstance(cell, Formula):
                    sheet.write_formula(at, column, "=NA()", None, str(cell))
                elif isinstance(cell, str):
                    sheet.write_string(at, column, cell)
                elif isinstance(cell, bool | int | float):
                    sheet.write(at, column, cell)
                elif isinstance(cell, date):
                    style = book.add_format({"num_format": "yyyy-mm-dd"})
                    sheet.write_datetime(at, column, datetime.combine(cell, time()), style)
                elif isinstance(cell, time):
                    sheet.write_datetime(at, column, cell, book.add_format({"num_format": "hh:mm"}))
        if title == name:
            for first_row, first, last_row, last in merged:
                sheet.merge_range(first_row, first, last_row, last, rows[first_row][first])
    book.close()
    return file.getvalue()


def _plain(cell):
    return "" if cell is None else cell.isoformat() if isinstance(cell, date | time) else cell


def read(data: bytes, name: str = "squad.csv") -> SquadReading:
    return read_squad(data, name=name, catalogue=CATALOGUE, today=TODAY)


def bests(reading: SquadReading, at: int = 0) -> dict[str, int]:
    """Weights of one lifter by lift, with the reps behind it where there are more than one. [10 g]"""
    return {
        best.lift + (f" {best.reps}" if best.reps > 1 else ""): best.dag for best in reading.lifters[at].bests
    }


def told(reading: SquadReading) -> dict[str, str]:
    """Kind of each problem, by its place in words (the file's own ones by the empty place)."""
    return {problem.place.said or problem.kind: problem.kind for problem in reading.problems}
