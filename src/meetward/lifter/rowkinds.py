"""Which rows of a sheet are lifters: not averages, headings between groups, remarks, rows of units."""

import re
from collections.abc import Sequence
from typing import Literal, NamedTuple

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.cell import Cell, is_blank, number_of, words_of
from meetward.lifter.grid import Sheet
from meetward.lifter.profile_cells import unit_of
from meetward.lifter.table import Table, table_at

_TOTALS = re.compile(
    r"(?:team |squad |group |club |grand |overall )?"
    r"(?:average|averages|avg|mean|median|totals?|sum|subtotal|maximum|minimum|max of|min of|"
    r"count|best|std|st ?dev|sd|range)(?: of .*|:.*)?"
)
_GROUPS = re.compile(
    r"(?:men|women|boys|girls|males?|females?|ladies|juniors?|seniors?|masters|youth|kids|adults|beginners|novices?|"
    r"advanced|competitors|(?:squad|group|team|class|session) ?\w{0,12})(?: \(.*\)|:)?"
)
_REMARK = re.compile(r"(?:note|notes|updated|last updated|source|key|legend|all weights|est)\b")


class RowKind(NamedTuple):
    """What a row is, with the sentence and the repair for a row that is left out.

    "headings" is a guess that `headings_again` has to confirm.
    """

    kind: Literal["lifter", "blank", "headings", "units", "summary row", "group heading", "remark"]
    said: str = ""
    told: str = ""
    repair: str = ""


def kind_of_row(row: Sequence[Cell], headings: Sequence[Cell], table: Table) -> RowKind:
    """What a row below the headings is. A row with a key is always a lifter."""
    filled = [cell for cell in row if not is_blank(cell)]
    if not filled:
        return RowKind("blank")
    if _lower(row) == _lower(headings):
        return RowKind("headings")
    if _has_key(table, row):
        return RowKind("lifter")
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
        if is_blank(named) or _remark(said):
            return RowKind(
                "remark", said, f"'{said[:80]}' is a remark, no lifter, so it is left out.", _DELETE
            )
        return RowKind("lifter")
    words = [cell for cell in filled if isinstance(cell, str) and number_of(cell) is None]
    if len(words) >= 2 and 3 * len(words) >= 2 * len(filled):
        return RowKind("headings" if len(words) >= 3 else "lifter")
    return RowKind("lifter")


def headings_again(
    row: Sequence[Cell], at: int, table: Table, sheet: Sheet, catalogue: Catalogue
) -> Table | None:
    """The table that begins with ``row``: the same one where headings are repeated; None for data."""
    if _lower(row) == _lower(sheet.rows[table.heading_row]):
        return table
    words = sum(isinstance(cell, str) and not is_blank(cell) for cell in row)
    again = table_at(Sheet("", [list(row)]), 0, catalogue)
    if again is None or again.score < _NEW_TABLE or 2 * sum(not c.ignored for c in again.columns) < words:
        return None
    return again._replace(heading_row=at)


_DELETE = "Nothing, or delete the row."
_NEW_TABLE = 5
"""A name and three columns more: less could be a lifter whose cells happen to read like headings."""


def _lower(row: Sequence[Cell]) -> list[str]:
    return [words_of(cell).casefold() for cell in row]


def _has_key(table: Table, row: Sequence[Cell]) -> bool:
    column = table.first("key")
    return column is not None and column.at < len(row) and any(map(str.isalnum, words_of(row[column.at])))


def _name_cell(table: Table, row: Sequence[Cell]) -> Cell:
    for column in table.all("name", "first name", "surname"):
        if column.at < len(row) and not is_blank(row[column.at]):
            return row[column.at]
    return None


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
