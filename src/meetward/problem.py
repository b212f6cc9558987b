"""One type for everything that is wrong with what somebody typed: where, what was read, what to do."""

from collections.abc import Iterable
from typing import Literal

import msgspec

Severity = Literal["stop", "look"]
"""``stop``: this part was not understood or cannot be used. ``look``: it was, but a person should see it."""


class Place(msgspec.Struct, frozen=True, omit_defaults=True):
    """A place in a text, a sheet or a document. Only what is known is filled.

    line, column : counted from 1. In a sheet: row and column number. 0 when not known.
    width : characters meant, from ``column``.
    source : file name or other name of the whole ("squad.csv").
    path : place in a document, as in ``weeks[3].sessions[0].lines[2]``.
    said : the place in the words of the trade: "Week 6, session 2", "row 7, column 'Snatch'".
    """

    line: int = 0
    column: int = 0
    width: int = 0
    source: str = ""
    path: str = ""
    said: str = ""

    def __str__(self) -> str:
        words = [self.source] if self.source else []
        if self.said:
            words.append(self.said)
        if self.path:
            words.append(self.path)
        in_a_sheet = self.said.startswith(("row ", "column "))
        if self.line and not self.path and not in_a_sheet:
            words.append(f"line {self.line}" + (f", column {self.column}" if self.column else ""))
        return ", ".join(words)


class Problem(msgspec.Struct, frozen=True):
    """What is wrong, where, and what to do about it.

    kind : short plain name of the fault, one per rule ("unknown movement", "order not declared").
    message : what was read and why that is a problem; a whole sentence.
    repair : what to do; a whole sentence, never empty.
    read : the words that the message is about, as written.
    """

    place: Place
    kind: str
    message: str
    repair: str
    read: str = ""
    severity: Severity = "stop"

    def __str__(self) -> str:
        head = str(self.place)
        return f"{head}: {self.message} {self.repair}" if head else f"{self.message} {self.repair}"


def with_caret(problem: Problem, text_line: str) -> str:
    """The problem with the faulty line and a row of carets under what is meant, for a terminal.

    A long line is cut to a window of 100 characters around the place.
    """
    at = problem.place
    if not at.column or not text_line:
        return str(problem)
    start = max(0, at.column - 1 - 40) if len(text_line) > 100 else 0
    window = text_line[start : start + 100].replace("\t", " ")
    width = max(1, min(at.width or 1, len(window) - (at.column - 1 - start)))
    return f"{problem}\n    {window}\n    {' ' * (at.column - 1 - start)}{'^' * width}"


def stops(problems: Iterable[Problem]) -> list[Problem]:
    """Only those that stop something."""
    return [p for p in problems if p.severity == "stop"]
