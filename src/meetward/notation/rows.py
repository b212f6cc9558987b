"""Rows of a table that were pasted as lines: cells parted by tabs, bars or semicolons.

The cells are brought into the order of a line ("Snatch 5 x 3 @ 70%"), their tokens keep their places. Nobody
says which column of plain numbers is the sets, so the two stay a pair and the order is asked for.
"""

import re
from collections.abc import Sequence

from .names import NameReader
from .tokens import Token

_CELL = re.compile(r"[^\t|;]*")
FEWEST_CELLS = 3
_LIGHTEST = 1_500


def as_line(text: str, line: str, toks: Sequence[Token], names: NameReader) -> list[Token] | None:
    """The tokens of a row in the order of a line; None where the text is no row, or one that reads otherwise.

    text : as typed, because tabs are blanks in the folded ``line``.
    """
    cells = _cells(text, toks)
    if len(cells) < FEWEST_CELLS:
        return None
    name, rest = cells[0], cells[1:]
    got = names.name(line, name, 0) if name else None
    if got is None or got[1] != len(name) or not got[0].movement:
        return None
    counts = [cell for cell in rest if _is_count(cell)]
    loads = [cell for cell in rest if _is_load(cell)]
    if len(counts) + len(loads) != len(rest):
        return None
    if len(counts) == 2 and len(loads) == 1 and len(rest) == 3:
        first, second, load = *counts, loads[0]
        return [*name, *first, _sign("x", first), *second, _sign("@", second), *load]
    if not counts and all(_is_bare(cell) for cell in loads):
        listed = [tok for cell in loads for tok in (*cell, _sign(",", cell))]
        return [*name, *listed[:-1]]
    return None


def _cells(text: str, toks: Sequence[Token]) -> list[list[Token]]:
    ends = [at for at, sign in enumerate(text) if sign in "\t|;"]
    if len(ends) < FEWEST_CELLS - 1:
        return []
    cells: list[list[Token]] = [[] for _ in range(len(ends) + 1)]
    for tok in toks:
        if tok.kind not in ("|", ";"):
            cells[sum(end <= tok.start for end in ends)].append(tok)
    return [cell for cell in cells if cell]


def _is_bare(cell: Sequence[Token]) -> bool:
    return len(cell) == 1 and cell[0].kind == "n" and isinstance(cell[0].value, int)


def _is_count(cell: Sequence[Token]) -> bool:
    value = cell[0].value
    return _is_bare(cell) and isinstance(value, int) and value % 100 == 0 and 100 <= value < _LIGHTEST


def _is_load(cell: Sequence[Token]) -> bool:
    value = cell[0].value
    if cell[0].kind != "n" or not isinstance(value, int) or value < _LIGHTEST:
        return False
    return len(cell) == 1 or (
        len(cell) == 2 and (cell[1].kind == "%" or cell[1].value in ("kg", "lb", "lbs"))
    )


def _sign(kind: str, behind: Sequence[Token]) -> Token:
    end = behind[-1].end
    return Token(kind, kind, end, end)
