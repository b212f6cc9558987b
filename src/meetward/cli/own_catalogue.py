"""A coach's own catalogue files, as the commands take them."""

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import load, shipped
from meetward.problem import Place, Problem, stops

CatalogueOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--catalogue",
        metavar="<path>",
        help="A catalogue file of your own, or a folder of them. May be given more than once.",
        show_default=False,
    ),
]


def own_catalogue(paths: Sequence[Path] | None) -> tuple[Catalogue, bool]:
    """The shipped catalogue with a coach's files and folders laid over it, and whether all could be used.

    What is wrong with them goes to standard error; the rest of them is used.
    """
    if not paths:
        return shipped(), True
    catalogue, problems = load(*paths)
    for path in paths:
        if path.is_dir() and next(path.rglob("*.toml"), None) is None:
            message = "The folder holds no catalogue file."
            problems.append(
                Problem(Place(source=str(path)), "empty folder", message, "Name one that holds .toml files.")
            )
    for problem in problems:
        typer.echo(str(problem), err=True)
    return catalogue, not stops(problems)
