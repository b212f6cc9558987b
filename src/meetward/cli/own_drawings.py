"""A coach's own drawings, as the commands take them."""

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from meetward.body.reading import load
from meetward.problem import stops
from meetward.publish.picture import use_drawings

DrawingsOption = Annotated[
    list[Path] | None,
    typer.Option(
        "--drawings",
        metavar="<path>",
        help="A file of drawings of your own, or a folder of them. May be given more than once.",
        show_default=False,
    ),
]


def own_drawings(paths: Sequence[Path] | None) -> bool:
    """Draw from a coach's files over the shipped ones, and whether all of them could be used.

    What is wrong with them goes to standard error; the rest of them is used.
    """
    if not paths:
        return True
    drawings, problems = load(*paths)
    use_drawings(drawings)
    for problem in problems:
        typer.echo(str(problem), err=True)
    return not stops(problems)
