"""``meetward read``: what was understood of a cycle's text."""

import json
from pathlib import Path
from typing import Annotated, Literal

import typer

from meetward.catalogue.reading import shipped
from meetward.cli.text_file import read_text
from meetward.notation import Conventions
from meetward.notation import read as read_cycle
from meetward.notation.shown import as_data, in_words


def read(
    file: Annotated[Path, typer.Argument(help="The text; - is standard input.", show_default=False)],
    order: Annotated[
        Literal["sets-first", "reps-first"] | None,
        typer.Option(help="How 5x3 is read where the text does not declare it.", show_default=False),
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="For programs: everything as JSON.")] = False,
) -> None:
    """Show what was understood of FILE, line by line; ends with code 1 where something was not."""
    text = read_text(file)
    catalogue = shipped()
    reading = read_cycle(text, catalogue, Conventions(order=order))
    if as_json:
        typer.echo(json.dumps(as_data(reading, catalogue), ensure_ascii=True, indent=1))
    else:
        for line in in_words(reading, text, catalogue):
            typer.echo(line)
    if reading.problems or any(record.status == "ambiguous" for record in reading.lines):
        raise typer.Exit(1)
