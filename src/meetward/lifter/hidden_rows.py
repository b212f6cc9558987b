"""Rows of an XLSX file that are hidden, by hand or by a filter.

The compiled reader gives them like all others. They are read, since a filter that somebody forgot would else
lose lifters; but a coach who hid them has to hear of it.
"""

import re
import zipfile
from io import BytesIO

from meetward.lifter.failed_formulas import sheet_parts

_ROW = re.compile(rb"<(?:\w+:)?row\b[^>]*>")
_NUMBER = re.compile(rb"\br=\"(\d{1,7})\"")
_HIDDEN = re.compile(rb"\bhidden=\"(?:1|true)\"")


def hidden_rows(data: bytes) -> dict[str, list[int]]:
    """Hidden rows from 0 by the name of the sheet; none for another kind of file or a damaged one."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as parts:
            if "xl/workbook.xml" not in parts.namelist():
                return {}
            return {name: _hidden(parts.read(path)) for name, path in sheet_parts(parts).items()}
    except Exception:  # damage shows as whatever the unpacker raises; the cells are still read
        return {}


def _hidden(sheet: bytes) -> list[int]:
    tags = (found[0] for found in _ROW.finditer(sheet))
    numbers = (_NUMBER.search(tag) for tag in tags if _HIDDEN.search(tag))
    return [int(number[1]) - 1 for number in numbers if number and int(number[1]) > 0]
