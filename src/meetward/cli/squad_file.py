"""The squad from a file, with words for everything that is wrong with it."""

from datetime import date
from pathlib import Path
from typing import NoReturn

import typer
from rich.console import Console

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.profile import Lifter
from meetward.lifter.reading import read_squad
from meetward.problem import stops

from .show_problems import show_problems

MOST_NAMES = 40


def read_lifters(
    path: Path, catalogue: Catalogue, err: Console, *, verbose: bool
) -> tuple[tuple[Lifter, ...], bool]:
    """The lifters, and whether every row was understood."""
    try:
        data = path.read_bytes()
    except OSError as error:
        stop(f"{path} cannot be read ({error.strerror}). Check the name of the file.")
    today = date.today()  # noqa: DTZ011  # the day on the coach's own calendar is meant
    reading = read_squad(data, name=path.name, catalogue=catalogue, today=today)
    show_problems(reading.problems, "", [], err, verbose=verbose)
    if reading.columns_ignored:
        err.print("Columns left out: " + "; ".join(reading.columns_ignored))
    if not reading.lifters:
        stop(f"{path} holds no lifter. It needs a row of headings (name, bests) and a row for each lifter.")
    return reading.lifters, not stops(reading.problems)


def only(squad: tuple[Lifter, ...], name: str) -> tuple[Lifter, ...]:
    """The lifter of that name, or those in whose name it stands; everybody where it is empty."""
    if not name:
        return squad
    wanted = " ".join(name.split()).casefold()
    found = tuple(lifter for lifter in squad if wanted in (lifter.name.casefold(), lifter.key.casefold()))
    if not found:
        found = tuple(lifter for lifter in squad if wanted in lifter.name.casefold())
    if not found:
        names = [lifter.name for lifter in squad[:MOST_NAMES]]
        more = f" and {len(squad) - MOST_NAMES} more" if len(squad) > MOST_NAMES else ""
        stop(f"Nobody in the squad is called '{name}'. It has {', '.join(names)}{more}.")
    return found


def stop(words: str) -> NoReturn:
    """End the command with words on standard error and exit code 2."""
    typer.echo(words, err=True)
    raise typer.Exit(2)
