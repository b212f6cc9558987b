"""What is wrong with a whole file, as problems."""

from collections.abc import Sequence

from meetward.lifter.cell import Doubt, is_blank
from meetward.lifter.grid import Opened
from meetward.problem import Place, Problem


def file_problems(name: str, doubts: Sequence[Doubt]) -> list[Problem]:
    """Doubts about a file as its problems."""
    return [Problem(Place(source=name), d.kind, d.message, d.repair, severity=d.severity) for d in doubts]


def nothing_found(name: str, opened: Opened) -> list[Problem]:
    """Why there is no squad, where the file itself could be opened."""
    if not opened.sheets:
        return []
    if not any(not is_blank(cell) for sheet in opened.sheets for row in sheet.rows for cell in row):
        return [
            Problem(Place(source=name), "empty file", "The file has no cells.", "Export the sheet again.")
        ]
    return [
        Problem(
            Place(source=name),
            "no headings",
            "No row of headings was found in the first rows; a squad needs a column of names and a lift.",
            "Put a row such as 'Name, Snatch, Clean and jerk' above the lifters.",
        )
    ]
