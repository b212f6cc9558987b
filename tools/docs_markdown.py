"""Markdown for the made parts of docs/."""

from collections.abc import Iterable


def fenced(text: str, language: str = "text") -> str:
    """A block of code."""
    return f"```{language}\n{text}\n```\n"


def session(command: str, output: str) -> str:
    """A command as typed and what it printed."""
    return fenced(f"$ {command}\n{output}".rstrip())


def table(headings: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """A table; a bar inside a cell is kept apart from the table's own."""

    def line(cells: Iterable[str]) -> str:
        return "| " + " | ".join(cell.replace("|", "\\|").replace("\n", " ") for cell in cells) + " |\n"

    names = list(headings)
    return line(names) + line("---" for _ in names) + "".join(map(line, rows))
