"""One cell of a coach's sheet: what may stand in it, and what is to be said about it."""

import re
import unicodedata
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from meetward.problem import Severity

Cell = str | int | float | bool | date | datetime | time | timedelta | None
"""What a spreadsheet gives; a text file gives text only."""

LONGEST_CELL = 200
"""Characters of a weight, a date or any other short entry that are looked at; notes may be longer."""

_BLANK = frozenset(
    {
        "", "-", "--", "---", "–", "—", "?", "??", "???", ".", "..", "...", "…", "/", "\\", "_", "*", "x",
        "n/a", "na",
        "n.a.", "n.a", "n/t", "nt", "nr", "dnt", "no", "none", "nil", "null", "nan", "tbc", "tba", "tbd",
        "unknown",
        "not known", "not tested", "untested", "never", "blank", "empty",
    }
)  # fmt: skip
_ERROR = re.compile(r"#(n/?a|ref|value|name|num|null|div/0|error|spill|calc|getting_data)[!?]?|err:\d+|#+")
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_MOST_FIGURES = 15
_NUMBER = re.compile(r"-?\d{1,15}(?:\.\d{1,15})?", re.ASCII)
_SPACES = re.compile(r"[^\S\n]+")


class Doubt(NamedTuple):
    """What is to be said about a cell; a `meetward.problem.Problem` without its place."""

    kind: str
    message: str
    repair: str
    severity: Severity = "look"


def tidy(text: str) -> str:
    """Text as it is kept: composed characters, plain line ends, no control characters, no outer blanks."""
    if text.isascii() and text.isprintable():
        return text.strip()
    text = unicodedata.normalize("NFC", text.replace("\r\n", "\n").replace("\r", "\n"))
    return _CONTROL.sub("", text).replace("\ufeff", "").strip()


def words_of(cell: Cell) -> str:
    """A cell as a person sees it: whole numbers without ".0", dates as 2026-10-03; blanks run together."""
    if cell is None:
        return ""
    if isinstance(cell, str):
        if cell.isascii() and cell.isprintable() and "  " not in cell:
            return cell.strip()
        return _SPACES.sub(" ", tidy(cell))
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float) and cell.is_integer() and abs(cell) < 1e15:
        return str(int(cell))
    if isinstance(cell, datetime):
        return cell.date().isoformat() if cell.time() == time() else cell.isoformat(" ", "minutes")
    return str(cell)


def is_blank(cell: Cell) -> bool:
    """Nothing, or one of the signs that people put for nothing ("-", "n/a", "?")."""
    return cell is None or (isinstance(cell, str) and words_of(cell).casefold() in _BLANK)


def formula_error(cell: Cell) -> Doubt | None:
    """The spreadsheet's own error in a cell, such as #N/A."""
    text = words_of(cell) if isinstance(cell, str) else ""
    if len(text) > 20 or not _ERROR.fullmatch(text.casefold()):
        return None
    return Doubt(
        "formula error",
        f"{text} is the spreadsheet's sign for a formula that failed or a column too narrow.",
        "Put the value itself into the cell.",
        "stop",
    )


def number_of(cell: Cell) -> Decimal | None:
    """The number in a cell that holds nothing else, with decimal comma or point; None for any other."""
    if isinstance(cell, str):
        text = words_of(cell).replace(",", ".")
        return Decimal(text) if _NUMBER.fullmatch(text) else None
    if isinstance(cell, bool) or not isinstance(cell, int | float):
        return None
    value = Decimal(str(cell))
    return value if value.is_finite() and value.adjusted() < _MOST_FIGURES else None
