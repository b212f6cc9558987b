"""Where in a sheet the squad stands: the row of headings, its columns, and what belongs to what.

Titles above the headings, two rows of headings with merged cells, a row of units below them and a corner
without a heading are all usual.
"""

import re
from collections.abc import Iterator, Sequence
from datetime import date
from itertools import zip_longest
from typing import NamedTuple

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.cell import Cell, is_blank, number_of, words_of
from meetward.lifter.grid import Sheet
from meetward.lifter.headings import LONGEST_HEADING, UNKNOWN, Column, Role, heading_unit, read_heading
from meetward.lifter.profile_cells import unit_of
from meetward.lifter.weights import Unit

_ROWS_LOOKED_AT = 60
_MOST_COUNTED = 12
"""Up to here a bare number under a lift may count attempts, months or weeks."""
_LIKE_A_WEIGHT = re.compile(
    r"~?\d{2,3}(?:[.,]\d+)?(?!\d| ?(?:%|rm\b|reps?\b|st\b|nd\b|rd\b|th\b|[-/.]\d))", re.IGNORECASE
)
_SURE = 4  # names and something else
_MOST_COLUMNS = 400
NAMES: tuple[Role, ...] = ("name", "first name", "surname")
_NAMES: tuple[Role, ...] = (*NAMES, "key")
_ONCE: tuple[Role, ...] = (
    "key", "name", "first name", "surname", "category", "born", "age", "bodyweight", "bar", "discs",
    "collars", "days",
    "minutes", "unit", "shown in", "lift", "load", "reps",
)  # fmt: skip
PART = "what stands below its heading is not understood"
BESIDE = "stands in a second table beside the first"
_OF_A_BEST: tuple[Role, ...] = ("best date", "best kind", "best note")


class Table(NamedTuple):
    """A row of headings and its columns.

    heading_row : from 0; its data begin below.
    columns : every column with a heading or with cells, left to right.
    belongs : for a date, kind or note column of one best, the place of that best's column.
    unit : of all bare weights, where a title says so.
    score : how much of it was understood.
    """

    heading_row: int
    columns: tuple[Column, ...]
    belongs: dict[int, int]
    unit: Unit | None
    score: float

    def first(self, role: Role) -> Column | None:
        """The column of a role that stands once."""
        return next((column for column in self.columns if column.role == role), None)

    @property
    def long(self) -> bool:
        """Whether each row is one best, with the lift in a column of its own."""
        return self.first("lift") is not None

    def all(self, *roles: Role) -> Iterator[Column]:
        """The columns of these roles, left to right."""
        return (column for column in self.columns if column.role in roles)


def find_table(sheet: Sheet, catalogue: Catalogue) -> Table | None:
    """The first row that reads like headings of a squad, else the row that does most; None when none does.

    The first, since a sheet may hold several tables below one another. Where the row below reads better
    still, or begins like a second row of headings, it is that.
    """
    best: Table | None = None
    for row in range(min(len(sheet.rows), _ROWS_LOOKED_AT)):
        table = table_at(sheet, row, catalogue)
        if best is not None and best.score >= _SURE and best.heading_row < row - 1:
            break
        if table is not None and (best is None or table.score > best.score):
            best = table
    return with_second_row(sheet, best, catalogue) if best is not None else None


def with_second_row(sheet: Sheet, table: Table, catalogue: Catalogue) -> Table:
    """The table with the second row of its headings, where the row below them is no lifter but reads as one.

    In such a row stand days, weeks, shares or words under the lifts and nothing under the names.
    """
    row = table.heading_row + 1
    if row >= len(sheet.rows) or not _second_row(sheet.rows[row], table):
        return table
    whole = table_at(sheet, row, catalogue, second=True)
    # What is lost by the second row is told; it does not make the sheet less of a squad.
    return table if whole is None else whole._replace(score=max(whole.score, table.score))


def _second_row(row: Sequence[Cell], table: Table) -> bool:
    names = [column.at for column in table.all(*_NAMES)]
    filled = [(at, cell) for at, cell in enumerate(row) if not is_blank(cell)]
    first_best = next((column.at for column in table.all("best")), None)
    if first_best is None or not filled or any(at in names for at, _ in filled):
        return False
    if all(unit_of(cell) for _, cell in filled):
        return False  # a row of units below the headings
    return any(at >= first_best for at, _ in filled) and not any(is_weight(cell) for _, cell in filled)


def is_weight(cell: Cell) -> bool:
    """Whether a cell could be a best or a bodyweight, rather than the number of an attempt or a week."""
    if (number := number_of(cell)) is not None:
        return number > _MOST_COUNTED
    return isinstance(cell, str) and _LIKE_A_WEIGHT.match(words_of(cell)) is not None


def squad_in(sheet: Sheet, catalogue: Catalogue) -> tuple[Sheet, Table] | None:
    """The sheet with its table, turned where the lifters stand side by side; None when there is no squad."""
    table = find_table(sheet, catalogue)
    width = max(map(len, sheet.rows), default=0)
    if (
        (table is None or table.score < _SURE)
        and 0 < width <= _MOST_COLUMNS
        and len(sheet.rows) <= _MOST_COLUMNS
    ):
        columns = [list(column) for column in zip_longest(*sheet.rows)]
        turned = sheet._replace(rows=columns, merged=(), turned=True)
        sideways = find_table(turned, catalogue)
        if sideways is not None and sideways.score >= _SURE:
            return turned, sideways
    return (sheet, table) if table is not None else None


def table_at(sheet: Sheet, row: int, catalogue: Catalogue, *, second: bool = False) -> Table | None:
    """The table whose headings stand in ``row`` (and, where cells are merged, in the row above).

    second : the row is known to be the second one of the headings, whatever stands in it.
    """
    lower = sheet.rows[row]
    if not second and (not any(isinstance(cell, str) for cell in lower) or sum(map(_is_figure, lower)) > 1):
        return None
    upper, spread = _row_above(sheet, row)
    width = min(max(len(lower), len(upper)), _MOST_COLUMNS)
    columns = [
        _column(at, _at(lower, at), _at(upper, at), _at(spread, at), catalogue, second=second)
        for at in range(width)
    ]
    # Without a heading of its own the row is the first lifter's, below the real headings.
    if not second and not any(
        not column.ignored and not is_blank(_at(lower, column.at)) for column in columns
    ):
        return None
    columns = _each_once(_one_best_a_row(columns))
    if not any(column.role in _NAMES for column in columns):
        corner = _corner(sheet, row, columns)
        if corner is None or not any(column.role == "best" for column in columns):
            return None
        columns[corner] = Column(corner, columns[corner].heading, "name")
    columns = _without_neighbour(sheet, row, columns)
    return Table(row, tuple(columns), _belongings(columns), _title_unit(sheet, row), _score(columns, lower))


def _column(at: int, below: Cell, above: Cell, spread: Cell, catalogue: Catalogue, *, second: bool) -> Column:
    """The column by its heading with what stands over it, by the heading alone, or by the latter alone."""
    column = None
    if is_blank(below):
        column = read_heading(above, at, catalogue)
    else:
        if not is_blank(spread):
            column = read_heading(f"{words_of(spread)} {words_of(below)}", at, catalogue)
        if column is None or column.ignored:
            alone = read_heading(below, at, catalogue)
            # "Snatch" below "Goal" is no best, and "Best" below a word that is not understood is none either.
            if column is None or alone is None or alone.role != "best":
                column = alone
    if column is None:
        over = read_heading(spread, at, catalogue) if second and not is_blank(below) else None
        if over is not None and over.role == "best":
            return Column(at, f"{words_of(spread)} {words_of(below)}"[:LONGEST_HEADING], ignored=PART)
        return Column(at, " ".join(words_of(below).split())[:LONGEST_HEADING], ignored=UNKNOWN)
    if column.role in ("best", "bodyweight") and column.unit is None and (unit := heading_unit(spread)):
        return msgspec.structs.replace(column, unit=unit)
    return column


def _score(columns: list[Column], lower: Sequence[Cell]) -> float:
    """How much is understood: a point a column, two more for names; units and own headings break ties."""
    read = [column for column in columns if not column.ignored]
    different = len({(column.role, column.lift, column.reps, column.kind) for column in read})
    named = 2 * any(column.role in _NAMES for column in read)
    units = sum(column.unit is not None for column in read)
    own = sum(not is_blank(_at(lower, column.at)) for column in read)
    return different + named + 0.01 * units + 0.001 * own


def _row_above(sheet: Sheet, row: int) -> tuple[list[Cell], list[Cell]]:
    """The row above as it is, and with every heading spread over the columns that it stands over."""
    if row == 0:
        return [], []
    upper = sheet.rows[row - 1]
    spread = list(upper)
    areas = [(first, last) for top, first, _, last in sheet.merged if top == row - 1]
    if areas:
        for first, last in areas:
            width = min(last, len(sheet.rows[row]) - 1) + 1
            spread += [None] * (width - len(spread))
            spread[first:width] = [_at(upper, first)] * (width - first)
    elif sum(not is_blank(cell) for cell in upper) > 1 and not sheet.merged:
        # A text file forgets merged cells: a heading stands over all columns up to the next one.
        spread += [None] * (len(sheet.rows[row]) - len(spread))
        for at in range(1, len(spread)):
            if is_blank(spread[at]):
                spread[at] = spread[at - 1]
    return upper, spread


def _each_once(columns: list[Column]) -> list[Column]:
    """A second column of names or of bodyweights is left out, and says so."""
    seen: set[Role] = set()
    kept = []
    for column in columns:
        if column.role in _ONCE and column.role in seen:
            column = Column(column.at, column.heading, ignored=f"a second column for {column.role}")
        elif column.role:
            seen.add(column.role)
        kept.append(column)
    if {"name", "first name"} <= seen or {"name", "surname"} <= seen:
        # "Name" beside "Surname" is the first name.
        kept = [
            msgspec.structs.replace(c, role="first name")
            if c.role == "name" and "first name" not in seen
            else c
            for c in kept
        ]
    return kept


def _without_neighbour(sheet: Sheet, row: int, columns: list[Column]) -> list[Column]:
    """Leave out a second table that stands beside the first: other names, with bests of their own."""
    first = next((column.at for column in columns if column.role in NAMES), None)
    again = next((c.at for c in columns if "a second column for name" in c.ignored), None)
    if first is None or again is None:
        return columns
    bests = [column.at for column in columns if column.role == "best"]
    other = any(
        words_of(_at(line, again)).casefold() not in ("", words_of(_at(line, first)).casefold())
        for line in sheet.rows[row + 1 :]
    )
    if not other or not any(at < again for at in bests) or not any(at > again for at in bests):
        return columns
    return [Column(c.at, c.heading, ignored=BESIDE) if c.at >= again and c.heading else c for c in columns]


def _one_best_a_row(columns: list[Column]) -> list[Column]:
    """Settle "Weight", "Best" and "Reps": with a column of lifts they are about these, else about nothing."""
    roles = {column.role for column in columns}
    if "lift" in roles and "load" not in roles:
        # Beside "Exercise", "Weight" is no bodyweight.
        columns = [msgspec.structs.replace(c, role="load") if _plain_weight(c) else c for c in columns]
        roles = {column.role for column in columns}
    if {"lift", "load"} <= roles:
        return columns
    return [
        Column(c.at, c.heading, ignored="says nothing without columns of lifts and of weights")
        if c.role in ("lift", "load", "reps")
        else c
        for c in columns
    ]


def _plain_weight(column: Column) -> bool:
    return column.role == "bodyweight" and column.heading.casefold().startswith(("weight", "wt"))


def _belongings(columns: list[Column]) -> dict[int, int]:
    """Which best each date, kind and note column belongs to."""
    bests = [column for column in columns if column.role == "best"]
    belongs = {}
    for column in columns:
        if column.role in _OF_A_BEST:
            mine = [best for best in bests if (best.lift, best.reps) == (column.lift, column.reps)]
            mine = mine or [best for best in bests if best.lift == column.lift]
            before = [best.at for best in mine if best.at < column.at]
            if mine:
                belongs[column.at] = before[-1] if before else mine[0].at
    dates = [column for column in columns if column.role == "date"]
    if len(dates) > 1:
        # One date for the row is about all bests; several are each about the best to their left.
        for column in dates:
            if before := [best.at for best in bests if best.at < column.at]:
                belongs[column.at] = before[-1]
    return belongs


def _corner(sheet: Sheet, row: int, columns: list[Column]) -> int | None:
    """The column of names where no heading says so: the first one not understood whose cells are words."""
    below = sheet.rows[row + 1 : row + 31]
    for column in columns:
        if not column.ignored or (column.heading and "a second" in column.ignored):
            continue
        cells = [_at(line, column.at) for line in below if any(not is_blank(cell) for cell in line)]
        words = [
            cell for cell in cells if isinstance(cell, str) and not is_blank(cell) and not _is_figure(cell)
        ]
        if cells and len(words) * 2 > len(cells):
            return column.at
    return None


def _title_unit(sheet: Sheet, row: int) -> Unit | None:
    """The unit that a title above the headings names ("all weights in lb")."""
    units = {
        heading_unit(cell)
        for line in sheet.rows[max(0, row - 8) : row]
        for cell in line
        if isinstance(cell, str)
    }
    units.discard(None)
    return units.pop() if len(units) == 1 else None


def _is_figure(cell: Cell) -> bool:
    """A number or a day."""
    return isinstance(cell, date) or number_of(cell) is not None


def _at(row: Sequence[Cell], at: int) -> Cell:
    return row[at] if at < len(row) else None
