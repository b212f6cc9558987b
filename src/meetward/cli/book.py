"""``meetward book``: the whole catalogue as a book for the gym's shelf."""

from functools import partial
from pathlib import Path
from typing import Annotated, Literal

import typer

from meetward.publish.shelf import catalogue_pdf

from .keeper import Keeper
from .own_catalogue import CatalogueOption, own_catalogue
from .own_drawings import DrawingsOption, own_drawings


def book(
    out: Annotated[Path, typer.Option(help="File to write.", dir_okay=False)] = Path("catalogue.pdf"),
    title: Annotated[str, typer.Option(help="What stands on its first page.")] = "How is it done?",
    paper: Annotated[Literal["a4", "letter"], typer.Option(help="Paper to print on.")] = "a4",
    catalogue: CatalogueOption = None,
    drawings: DrawingsOption = None,
) -> None:
    """Write every movement, drill and warm-up as one PDF, with contents and an index of names.

    Exits with 1 when your own catalogue has faults, with 2 when nothing could be written.
    """
    known, clear = own_catalogue(catalogue)
    clear = own_drawings(drawings) and clear
    keep = Keeper(out.parent)
    keep.write(out.name, partial(catalogue_pdf, known, paper, title=title))
    for trouble in keep.troubles:
        typer.echo(trouble.replace("another folder", "another file"), err=True)
    if not keep.files:
        raise typer.Exit(2)
    counts = f"{len(known.movements)} movements, {len(known.drills)} drills, {len(known.sequences)} warm-ups"
    typer.echo(f"{counts} in {out}.")
    if not clear:
        raise typer.Exit(1)
