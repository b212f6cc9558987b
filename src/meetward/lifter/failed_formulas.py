"""Cells of a workbook whose formula failed.

The compiled reader gives them as empty, which would hide them; so the parts of an XLSX or ODS file are
looked through for them. An XLS file has no such parts: its failed formulas stay empty.
"""

import zipfile
from io import BytesIO
from typing import NamedTuple
from xml.etree import ElementTree

_MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
_RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
_TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
_TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
_CALC = "{urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0}"


class Failed(NamedTuple):
    """A failed cell: row and column from 0, and the program's sign ("#N/A")."""

    row: int
    column: int
    sign: str


def failed_formulas(data: bytes) -> dict[str, list[Failed]]:
    """Failed cells by the name of the sheet; none for a file that can't be looked through. Never raises."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as parts:
            names = set(parts.namelist())
            if "xl/workbook.xml" in names:
                return _in_xlsx(parts)
            return _in_ods(parts) if "content.xml" in names else {}
    except Exception:  # damage shows as whatever the unpacker or the XML reader raises; cells are still read
        return {}


def sheet_parts(parts: zipfile.ZipFile) -> dict[str, str]:
    """The part of an XLSX file for each sheet, by the sheet's name."""
    links = ElementTree.fromstring(parts.read("xl/_rels/workbook.xml.rels"))
    targets = {link.get("Id"): (link.get("Target") or "").lstrip("/").removeprefix("xl/") for link in links}
    sheets = ElementTree.fromstring(parts.read("xl/workbook.xml")).iter(f"{_MAIN}sheet")
    return {sheet.get("name") or "": f"xl/{targets[sheet.get(_RELATION)]}" for sheet in sheets}


def _in_xlsx(parts: zipfile.ZipFile) -> dict[str, list[Failed]]:
    failed: dict[str, list[Failed]] = {}
    for name, path in sheet_parts(parts).items():
        cells = failed[name] = []
        with parts.open(path) as part:
            for _, element in ElementTree.iterparse(part):
                if element.tag == f"{_MAIN}c" and element.get("t") == "e":
                    place = _place(element.get("r") or "")
                    if place is not None:
                        cells.append(Failed(*place, element.findtext(f"{_MAIN}v") or "#N/A"))
                elif element.tag == f"{_MAIN}row":
                    element.clear()
    return failed


def _in_ods(parts: zipfile.ZipFile) -> dict[str, list[Failed]]:
    """Rows and cells that repeat stand once with a number, so places are counted along."""
    failed: dict[str, list[Failed]] = {}
    cells: list[Failed] = []
    row = 0
    with parts.open("content.xml") as part:
        for event, element in ElementTree.iterparse(part, ("start", "end")):
            if event == "start":
                if element.tag == f"{_TABLE}table":
                    cells = failed[element.get(f"{_TABLE}name") or ""] = []
                    row = 0
            elif element.tag == f"{_TABLE}table-row":
                column = 0
                for cell in element:
                    if cell.get(f"{_CALC}value-type") == "error":
                        cells.append(Failed(row, column, cell.findtext(f"{_TEXT}p") or "#N/A"))
                    column += int(cell.get(f"{_TABLE}number-columns-repeated") or 1)
                row += int(element.get(f"{_TABLE}number-rows-repeated") or 1)
                element.clear()
    return failed


def _place(reference: str) -> tuple[int, int] | None:
    """``"AB7"`` as row 6, column 27."""
    letters = reference.rstrip("0123456789")
    if not (letters.isascii() and letters.isalpha() and len(letters) <= 3 and reference[len(letters) :]):
        return None
    column = 0
    for one in letters.upper():
        column = column * 26 + ord(one) - ord("A") + 1
    row = int(reference[len(letters) :]) - 1
    return (row, column - 1) if row >= 0 else None
