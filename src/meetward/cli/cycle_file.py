"""A cycle from a file, text or JSON, with words for everything that is wrong with it."""

from pathlib import Path

import typer
from rich.console import Console

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.package import from_json
from meetward.cycle.tree import Cycle
from meetward.notation import Conventions
from meetward.notation import read as read_cycle
from meetward.problem import Problem

from .show_problems import show_problems
from .text_file import read_text


def is_json(path: Path, text: str) -> bool:
    """By the file's name, else by how the text begins; a line of a cycle may begin with a brace too."""
    if path.suffix.lower() in (".json", ".txt"):
        return path.suffix.lower() == ".json"
    inside = text.lstrip()
    return inside.startswith("{") and inside[1:].lstrip()[:1] in ('"', "}", "")


def cycle_in(
    path: Path, catalogue: Catalogue, conventions: Conventions, err: Console, *, verbose: bool
) -> tuple[Cycle, tuple[Problem, ...]]:
    """The cycle in a file, and what was not understood of it, which is shown on ``err``.

    A file without a session ends the command with code 2.
    """
    text = read_text(path)
    problems: tuple[Problem, ...]
    if is_json(path, text):
        cycle, problems = _from_json(text, path), ()
    else:
        reading = read_cycle(text, catalogue, conventions)
        show_problems(reading.problems, f"{path}: ", text.splitlines(), err, verbose=verbose)
        cycle, problems = reading.cycle, tuple(reading.problems)
    if not any(True for _ in cycle.sessions()):
        shown = "" if is_json(path, text) else f" `meetward read {path}` shows what was understood of it."
        typer.echo(f"{path} holds no session, so there is no cycle.{shown}", err=True)
        raise typer.Exit(2)
    return cycle, problems


def _from_json(text: str, path: Path) -> Cycle:
    found = from_json(text, source=str(path))
    if isinstance(found, Cycle):
        return found
    for problem in found:
        typer.echo(str(problem), err=True)
    raise typer.Exit(2)
