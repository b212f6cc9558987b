"""``meetward print``: a cycle in its canonical text or as JSON, from either."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from meetward.cycle.package import to_json
from meetward.notation import Conventions, print_cycle

from .cycle_file import cycle_in
from .own_catalogue import CatalogueOption, own_catalogue
from .show_problems import error_console


def print(
    file: Annotated[
        Path,
        typer.Argument(help="The cycle as text or JSON; - is standard input.", show_default=False),
    ],
    as_json: Annotated[bool, typer.Option("--json", help="As JSON instead of text.")] = False,
    order: Annotated[
        Literal["sets-first", "reps-first"] | None,
        typer.Option(help="How 5x3 is read where a text does not declare it.", show_default=False),
    ] = None,
    catalogue: CatalogueOption = None,
    verbose: Annotated[bool, typer.Option("--verbose", help="Show every problem.")] = False,
) -> None:
    """Print the cycle in FILE in the canonical notation, or as JSON.

    Exits with 1 when something was not understood, with 2 when there is no cycle to print.
    """
    known, clear = own_catalogue(catalogue)
    cycle, problems = cycle_in(file, known, Conventions(order=order), error_console(), verbose=verbose)
    typer.echo(to_json(cycle, indent=2).decode() if as_json else print_cycle(cycle, known), nl=as_json)
    if problems or not clear:
        raise typer.Exit(1)
