"""Which rows of a sheet are lifters: not averages, headings between groups, remarks, rows of units."""

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.cell import Cell, is_blank, number_of, words_of
from meetward.lifter.grid import Sheet
from meetward.lifter.headings import (
    LONGEST_HEADING,
    UNKNOWN,
    Column,
    Role,
    names_people,
    near_lift,
    read_heading,
)
from meetward.lifter.profile_cells import unit_of
from meetward.lifter.table import NAMES, Table, is_weight, table_at, with_second_row

_SUM = r"(?:averages?|avg|mean|median|totals?|sum|subtotal|maximum|minimum|count|best|std|st ?dev|sd|range)"
_WHOSE = (
    r"(?:team|squad|group|club|grand|overall|whole|all|men|women|boys|girls|males?|females?|ladies|juniors?|"
    r"seniors?|masters|youth|kids|lifters|athletes)"
)
_TOTALS = re.compile(
    rf"(?:{_WHOSE}(?:'?s)? )*(?:{_SUM}|max of|min of)(?: of .*|:.*|(?: {_WHOSE})+)?"
    rf"|(?:{_WHOSE}(?:'?s)? )+(?:max|min)|(?:max|min)(?: {_WHOSE})+"
)
_GROUPS = re.compile(
    r"(?:men|women|boys|girls|males?|females?|ladies|juniors?|seniors?|masters|youth|kids|adults|beginners|novices?|"
    r"advanced|competitors|(?:squad|group|team|class|session) ?\w{0,12})(?: \(.*\)|:)?"
)
_REMARK = re.compile(r"(?:note|notes|updated|last updated|source|key|legend|all weights|est)\b")


class RowKind(NamedTuple):
    """What a row is, with the sentence and the repair for a row that is left out.

    "maybe headings" is a guess that `headings_again` has to confirm; "headings" is sure.
    """

    kind: Literal[
        "lifter", "blank", "headings", "maybe headings", "heading as name", "lift as title", "units",
        "summary row", "group heading", "remark",
    ]  # fmt: skip
    said: str = ""
    told: str = ""
    repair: str = ""


def kind_of_row(row: Sequence[Cell], headings: Sequence[Cell], table: Table, catalogue: Catalogue) -> RowKind:
    """What a row below the headings is. A row with a key is always a lifter, unless it reads as headings."""
    filled = [cell for cell in row if not is_blank(cell)]
    if not filled:
        return RowKind("blank")
    if _lower(row) == _lower(headings):
        return RowKind("headings")
    heading = next((cell for cell in _name_cells(table, row) if names_people(cell)), None)
    if _has_key(table, row) and (heading is None or not _key_heading(table, row)):
        return RowKind("lifter")
    if heading is not None:
        said = words_of(heading)
        if not any(is_weight(cell) for cell in filled):
            return RowKind("headings", said)
        told = f"'{said}' is a heading and no name, so the row is not read."
        return RowKind("heading as name", said, told, "Write the lifter's name.")
    if _lift_where_figures_stand(table, row, catalogue):
        return RowKind("headings")
    if all(unit_of(cell) for cell in filled):
        return RowKind("units")
    named = _name_cell(table, row)
    if total := _total(named, row):
        return RowKind("summary row", total, f"'{total}' sums up other rows, so it is left out.", _DELETE)
    if len(filled) == 1 and isinstance(filled[0], str) and number_of(filled[0]) is None:
        said = " ".join(words_of(filled[0]).split())
        if _GROUPS.fullmatch(said.casefold()):
            return RowKind(
                "group heading", said, f"'{said}' is a heading, no lifter.", "Nothing, or make it a column."
            )
        if (column := read_heading(said, 0, catalogue)) is not None and column.lift:
            told = f"'{said}' names a lift and no lifter, so weights below it are read as no other lift."
            return RowKind("lift as title", said, told, f"Write '{said}' over the weights that it is about.")
        if is_blank(named) or _remark(said):
            return RowKind(
                "remark", said, f"'{said[:80]}' is a remark, no lifter, so it is left out.", _DELETE
            )
        return RowKind("lifter")
    words = [cell for cell in filled if isinstance(cell, str) and number_of(cell) is None]
    if len(words) >= 2 and 3 * len(words) >= 2 * len(filled):
        return RowKind("maybe headings" if len(words) >= 3 else "lifter")
    return RowKind("lifter")


def headings_again(
    row: Sequence[Cell], at: int, table: Table, sheet: Sheet, catalogue: Catalogue, *, sure: bool
) -> Table | None:
    """The table that begins with row ``at``: the same one where headings are repeated; None for data.

    sure : the row is headings, so that nothing below it may be read by the old ones.
    A unit that a title names for the whole sheet stays.
    """
    if _lower(row) == _lower(sheet.rows[table.heading_row]):
        return table
    if not sure:
        words = sum(isinstance(cell, str) and not is_blank(cell) for cell in row)
        again = table_at(Sheet("", [list(row)]), 0, catalogue)
        if again is None or again.score < _NEW_TABLE or 2 * sum(not c.ignored for c in again.columns) < words:
            return None
        return again._replace(heading_row=at, unit=again.unit or table.unit)
    first = at - _stands_over(sheet, at, table)
    part = Sheet("", sheet.rows[first : at + _ROWS_BELOW])
    again = table_at(part, at - first, catalogue)
    if again is None:
        return _names_alone(row, at, table)
    again = with_second_row(part, again, catalogue)
    return again._replace(heading_row=first + again.heading_row, unit=again.unit or table.unit)


def without_bests(table: Table, reason: str) -> Table:
    """The table with its bests left out, since it is no longer sure which lift they are of."""
    columns = tuple(Column(c.at, c.heading, ignored=reason) if c.role == "best" else c for c in table.columns)
    return table._replace(columns=columns)


def over_headings(row: Sequence[Cell], table: Table) -> bool:
    """Whether a row of headings has nothing over the names: then it may be the upper one of two."""
    return all(is_blank(cell) for cell in _name_cells(table, row))


def _stands_over(sheet: Sheet, at: int, table: Table) -> bool:
    """Whether the row above is the upper one of two rows of headings: words, with nothing over the names."""
    above = sheet.rows[at - 1]
    filled = [cell for cell in above if not is_blank(cell)]
    return (
        bool(filled)
        and at - 1 > table.heading_row
        and all(isinstance(cell, str) and not is_weight(cell) for cell in filled)
        and over_headings(above, table)
    )


def _names_alone(row: Sequence[Cell], at: int, table: Table) -> Table:
    """A table of which the names alone are known: below a heading for names, else where they stood."""
    name = next((column for column, cell in enumerate(row) if names_people(cell)), None)
    if name is None:
        name = next((column.at for column in table.all(*NAMES)), 0)
    columns = [
        Column(column, " ".join(words_of(cell).split())[:LONGEST_HEADING], ignored=UNKNOWN)
        for column, cell in enumerate(row)
    ]
    columns += [Column(column, "", ignored=UNKNOWN) for column in range(len(columns), name + 1)]
    columns[name] = Column(name, columns[name].heading, "name")
    return Table(at, tuple(columns), {}, table.unit, 0)


_DELETE = "Nothing, or delete the row."
_ROWS_BELOW = 31
_FIGURES: tuple[Role, ...] = ("best", "bodyweight", "born", "age", "load", "reps", "minutes")
_NEW_TABLE = 5
"""A name and three columns more: less could be a lifter whose cells happen to read like headings."""


def _lower(row: Sequence[Cell]) -> list[str]:
    return [words_of(cell).casefold() for cell in row]


def _has_key(table: Table, row: Sequence[Cell]) -> bool:
    column = table.first("key")
    return column is not None and column.at < len(row) and any(map(str.isalnum, words_of(row[column.at])))


def _key_heading(table: Table, row: Sequence[Cell]) -> bool:
    """Whether a heading of keys stands in the column of keys."""
    column = table.first("key")
    return column is not None and words_of(row[column.at]).casefold() in ("key", "id", "short name")


def _name_cells(table: Table, row: Sequence[Cell]) -> list[Cell]:
    columns = table.all(*NAMES)
    return [row[c.at] for c in columns if c.at < len(row) and not is_blank(row[c.at])]


def _name_cell(table: Table, row: Sequence[Cell]) -> Cell:
    return next(iter(_name_cells(table, row)), None)


def _lift_where_figures_stand(table: Table, row: Sequence[Cell], catalogue: Catalogue) -> bool:
    """Whether the name of a lift, or a heading of names, stands where weights should, and no weight does."""
    cells = [row[c.at] for c in table.all(*_FIGURES) if c.at < len(row) and not is_blank(row[c.at])]
    if not any(isinstance(cell, str) for cell in cells) or any(is_weight(cell) for cell in cells):
        return False
    nameless = over_headings(row, table)
    for cell in cells:
        if not isinstance(cell, str) or number_of(cell) is not None:
            continue
        column = read_heading(cell, 0, catalogue)
        if names_people(cell) or (column is not None and column.lift):
            return True
        if nameless and column is None and near_lift(cell, catalogue):
            return True
    return False


def _total(named: Cell, row: Sequence[Cell]) -> str:
    """The word that makes a row a summary: where the name should stand, or anywhere if there is none."""
    cells: Sequence[Cell] = row if is_blank(named) else [named]
    for cell in cells:
        if (
            isinstance(cell, str)
            and len(cell) <= 60
            and _TOTALS.fullmatch(" ".join(words_of(cell).casefold().split()))
        ):
            return words_of(cell)
    return ""


def _remark(said: str) -> bool:
    """Whether words that stand alone in a row are no name."""
    return (
        len(said) > 40
        or len(said.split()) > 5
        or said[:1] in "*†‡(#"
        or any(sign in said for sign in ":=;")
        or bool(
            re.match(
                r"(?:note|notes|updated|last updated|source|key|legend|all weights|est)\b", said.casefold()
            )
        )
    )
