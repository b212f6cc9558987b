"""The kilos of a squad as a workbook: a row for each set, a column for each lifter, numbers as numbers."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import xlsxwriter
from numpy.typing import NDArray
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle
from meetward.fit.squad import SquadKilos
from meetward.fit.words import line_words, load_words, scheme_words
from meetward.units import show_kg

MOST_LIFTERS = 16_000
"""A sheet of the format has 16,384 columns."""

HEADS = ("Week", "Session", "Lift", "Sets and reps", "Load", "Set")
_WIDTHS = (6, 8, 28, 24, 18, 8)

_ROW = "\N{WHITE SQUARE}"
"""Stands in a block where the number of the row comes."""

_Row = NDArray[Any]

START_FORMAT = 'General"?"'
"""Of a weight that stands on a derived best: 57.5? stays a number and says that it is a start."""


def write_kilos(
    path: Path | str, cycle: Cycle, kilos: SquadKilos, names: Sequence[str], catalogue: Catalogue
) -> None:
    """Write kilos of every set of ``cycle`` for a squad.

    names : of the lifters, in the order of ``kilos``.
    A range has two rows, "from" and "to". Sets with no kilos (felt, open, no best) stay blank. A weight that
    stands on a derived best shows a question mark behind it.
    Raises ValueError when names and kilos do not agree, or for more lifters than a sheet has columns.
    """
    if len(names) != len(kilos.squad):
        raise ValueError(f"There are {len(names)} names for the kilos of {len(kilos.squad)} lifters.")
    if len(names) > MOST_LIFTERS:
        raise ValueError(f"A sheet holds {MOST_LIFTERS} lifters; write {len(names)} in several workbooks.")
    shared = _alike(kilos)
    high, low, start = kilos.high_dag().T, kilos.low_dag().T, kilos.placeholders().T
    with xlsxwriter.Workbook(str(path), {"strings_to_formulas": False, "strings_to_urls": False}) as book:
        sheet = book.add_worksheet("Kilos", worksheet_class=KiloSheet)
        head = book.add_format({"bold": True, "bottom": 1})
        for column, (word, width) in enumerate(zip(HEADS, _WIDTHS, strict=True)):
            sheet.write_string(0, column, word, head)
            sheet.set_column(column, column, width)
        for column, name in enumerate(names, start=len(HEADS)):
            sheet.write_string(0, column, name, head)
        sheet.freeze_panes(1, len(HEADS))
        sheet.start_format(book.add_format({"num_format": START_FORMAT}))
        for number, (label, at, end) in enumerate(rows(cycle, kilos, catalogue), start=1):
            for column, said in enumerate(label):
                if isinstance(said, int):
                    sheet.write_number(number, column, said)
                else:
                    sheet.write_string(number, column, said)
            ends = low if end == "from" else high
            sheet.kilos(number, len(HEADS), (int(shared[at]), end), ends[at], start[at])


def rows(
    cycle: Cycle, kilos: SquadKilos, catalogue: Catalogue
) -> Iterator[tuple[tuple[int | str, ...], int, str]]:
    """Label, set cell and end ("from", "to" or "") of each row."""
    sessions = {(week, number): session for week, number, session in cycle.sessions()}
    ranged = (kilos.arrays.low != kilos.arrays.high).any(axis=0)
    for cell in kilos.arrays.cells:
        line = sessions[cell.week, cell.session].segments[cell.segment].lines[cell.line]
        group = line.groups[cell.group]
        name, scheme = line_words(line, catalogue), scheme_words(group)
        load = load_words(group.load, catalogue)
        for number in range(cell.sets):
            at = cell.first + number
            said = f"{number + 1} of {cell.sets}"
            for end in ("from", "to") if ranged[at] else ("",):
                label = f"{load} ({end})" if end else load
                yield (cell.week, cell.session, name, scheme, label, said), at, end


def _alike(kilos: SquadKilos) -> NDArray[Any]:
    """A number for each set, equal for sets with the same loads."""
    ends = np.concatenate([kilos.arrays.low, kilos.arrays.high])
    return np.unique(ends, axis=1, return_inverse=True)[1].reshape(-1)


class KiloSheet(Worksheet):  # type: ignore[misc]  # the library has no types
    """A worksheet whose rows can end in a block of kilos that is written as one text.

    Cell by cell the library takes 7 microseconds a number, and a squad has hundreds of thousands. Sets that
    are alike share a block, in which only the number of the row differs.
    """

    def __init__(self) -> None:
        super().__init__()
        self._row_of_block: dict[int, str] = {}
        self._blocks: dict[tuple[int, str], str] = {}
        self._heads: list[str] = []
        self._values: dict[int, str] = {}
        self._start_format: Any = None

    def start_format(self, form: Any) -> None:
        """The format of weights that are only a start."""
        self._start_format = form

    def kilos(self, row: int, column: int, block: tuple[int, str], dag: _Row, start: _Row) -> None:
        """Kilos from ``column`` on. [10 g] 0 is left blank; ``start`` marks weights to work up from.

        block : a key that rows with equal kilos share.
        """
        if block not in self._blocks:
            self._blocks[block] = self._block(column, dag.tolist(), start.tolist())
        self._row_of_block[row] = self._blocks[block]
        self._check_dimensions(row, column + max(len(dag) - 1, 0))

    def _block(self, first: int, dag: list[int], start: list[bool]) -> str:
        """Cells with a sign where the number of their row comes."""
        while len(self._heads) < first + len(dag):
            self._heads.append(f'<c r="{xl_col_to_name(len(self._heads))}{_ROW}"')
        style = f' s="{self._start_format._get_xf_index()}"' if self._start_format else ""
        for weight in {*dag} - self._values.keys():
            self._values[weight] = f"><v>{show_kg(weight)}</v></c>"
        return "".join(
            f"{head}{style if is_start else ''}{self._values[weight]}"
            for head, weight, is_start in zip(self._heads[first:], dag, start, strict=False)
            if weight
        )

    def _write_rows(self) -> None:
        # The library's hook for the rows of a sheet: the cells that it knows, then our block.
        for row in range(self.dim_rowmin, self.dim_rowmax + 1):
            self._write_row(row, None)
            for column, cell in sorted(self.table[row].items()):
                self._write_cell(row, column, cell)
            self.fh.write(self._row_of_block.get(row, "").replace(_ROW, str(row + 1)))
            self._xml_end_tag("row")
