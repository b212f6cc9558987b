"""``meetward demo``: the invented club, filled and served."""

from pathlib import Path
from typing import Annotated

import typer

from .serve import PORT, DataOption, PortOption, prepare, run, stop

MARK = "meetward-demo"
"""File that says that a folder holds the demo, so that nothing else is ever made anew."""


def demo(
    port: PortOption = PORT,
    data: DataOption = None,
    fresh: Annotated[
        bool, typer.Option("--fresh", help="Throw away what was changed and fill it anew.")
    ] = False,
    fill_only: Annotated[bool, typer.Option("--fill-only", help="Fill it and stop; serve nothing.")] = False,
) -> None:
    """Fill the invented club Harrow Lane Weightlifting, serve it on this machine and print the address.

    What you change in it stays until you say --fresh.
    """
    folder = data or Path(".meetward-demo")
    _claim(folder, fresh=fresh)
    prepare(folder, demo=True)
    # Only now: the rows can be imported after Django knows its settings.
    from meetward.web.actions.demo import fill

    typer.echo(fill(), err=True)
    if not fill_only:
        run(
            "127.0.0.1",
            port,
            words="Meetward answers at {address} (one click signs in as the demo coach; Ctrl+C stops it)",
        )


def _claim(folder: Path, *, fresh: bool) -> None:
    """The folder for the demo; refuses one that holds something else."""
    mark = folder / MARK
    try:
        if folder.exists() and any(folder.iterdir()) and not mark.exists():
            stop(f"{folder} holds something that is not the demo. Name another folder with --data.")
        folder.mkdir(parents=True, exist_ok=True)
        mark.touch()
        if fresh:
            for file in folder.glob("meetward.sqlite3*"):
                file.unlink()
    except OSError as error:
        stop(f"{folder} cannot be used ({error.strerror}). Name another folder with --data.")
