"""``meetward read``: what was understood of a cycle's text."""

import json
from pathlib import Path
from typing import Annotated, Literal

import typer

from meetward.notation import Conventions
from meetward.notation import read as read_cycle
from meetward.notation.shown import as_data, in_words

from .cycle_file import is_json
from .own_catalogue import CatalogueOption, own_catalogue
from .text_file import read_text


def read(
    file: Annotated[Path, typer.Argument(help="The text; - is standard input.", show_default=False)],
    order: Annotated[
        Literal["sets-first", "reps-first"] | None,
        typer.Option(help="How 5x3 is read where the text does not declare it.", show_default=False),
    ] = None,
    catalogue: CatalogueOption = None,
    as_json: Annotated[bool, typer.Option("--json", help="For programs: everything as JSON.")] = False,
) -> None:
    """Show what was understood of FILE, line by line; ends with code 1 where something was not."""
    known, clear = own_catalogue(catalogue)
    text = read_text(file)
    if not text.strip():
        typer.echo(f"{file} is empty. Write a line such as: Snatch 5x3 @ 70%", err=True)
        raise typer.Exit(2)
    if is_json(file, text):
        typer.echo(f"{file} is JSON and not text. `meetward print {file}` shows the cycle in it.", err=True)
        raise typer.Exit(2)
    reading = read_cycle(text, known, Conventions(order=order))
    if as_json:
        typer.echo(json.dumps(as_data(reading, known), ensure_ascii=True, indent=1))
    else:
        for line in in_words(reading, text, known):
            typer.echo(line)
    if not clear or reading.problems or any(record.status == "ambiguous" for record in reading.lines):
        raise typer.Exit(1)
