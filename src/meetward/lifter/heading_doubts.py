"""What is to be said about a row of headings: columns that are left out although they may matter."""

from collections.abc import Iterator

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.cell import Cell, Doubt, is_blank
from meetward.lifter.grid import Sheet
from meetward.lifter.headings import UNKNOWN, Column, letter, names_people, near_lift
from meetward.lifter.table import BESIDE, PART, Table, is_weight


def heading_doubts(table: Table, sheet: Sheet, catalogue: Catalogue) -> Iterator[tuple[Column, Doubt]]:
    """Doubts about the columns of a table, left to right."""
    no_best = not table.long and table.first("best") is None
    for column in table.columns:
        if not column.heading:
            continue
        if column.role == "best":
            yield from _twice(column, table, sheet)
            continue
        cells = _below(column, table, sheet) if column.ignored else []
        if not cells:
            continue
        if column.ignored == BESIDE:
            if names_people(column.heading):
                message = f"'{column.heading}' begins a second table beside the first, which is not read."
                yield column, _stop("table beside", message, "Put it below the first, or in its own file.")
        elif column.ignored == PART:
            message = f"'{column.heading}' is not understood, so the column is not read."
            yield column, _stop("unknown column", message, "Write a lift and a day, or a lift and its reps.")
        elif column.ignored == UNKNOWN:
            if near := near_lift(column.heading, catalogue):
                message = f"'{column.heading}' is not in the catalogue, so the column is not read."
                yield column, _stop("unknown column", message, f"If it is {near}, write that.")
            elif no_best and any(map(is_weight, cells)):
                message = f"'{column.heading}' is no lift of the catalogue, so the column is not read."
                yield column, _stop("unknown column", message, "Name the lift, as in 'Snatch Jan 2026'.")


def lost_unit(table: Table, earlier: Table, column_units: bool) -> bool:
    """Whether a further table names no unit although the one above it is in pounds.

    column_units : a row of units stood below the earlier headings.
    """
    if table.unit or table.first("unit") or any(column.unit for column in table.columns):
        return False
    return column_units or any(column.unit == "lb" for column in earlier.columns)


def _twice(column: Column, table: Table, sheet: Sheet) -> Iterator[tuple[Column, Doubt]]:
    """A second column for the same best, with nothing that tells the two apart."""
    said = (column.lift, column.reps, column.kind, column.unit, column.dated)
    alike = [c for c in table.all("best") if (c.lift, c.reps, c.kind, c.unit, c.dated) == said]
    apart = any(owner in {c.at for c in alike} for owner in table.belongs.values())
    if len(alike) < 2 or alike[0] is column or apart or not _below(column, table, sheet):
        return
    places = " and ".join(letter(c.at) for c in alike)
    message = f"'{column.heading}' is read from columns {places}; every weight is kept, the heaviest counts."
    yield column, Doubt("column twice", message, "Say what tells them apart, as in 'Snatch Jan 2026'.")


def _below(column: Column, table: Table, sheet: Sheet) -> list[Cell]:
    """The filled cells below a heading."""
    rows = sheet.rows[table.heading_row + 1 :]
    return [row[column.at] for row in rows if column.at < len(row) and not is_blank(row[column.at])]


def _stop(kind: str, message: str, repair: str) -> Doubt:
    return Doubt(kind, message, repair, "stop")
