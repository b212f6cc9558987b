"""``meetward teach``: the teaching edition of a cycle's sessions, for another coach."""

from functools import partial
from pathlib import Path
from typing import Annotated, Literal

import typer

from meetward.fit.lesson import Lesson, lesson
from meetward.notation import Conventions
from meetward.problem import stops
from meetward.publish.lesson import lesson_page, lesson_pdf

from .cycle_file import cycle_in
from .keeper import Keeper
from .own_catalogue import CatalogueOption, own_catalogue
from .own_drawings import DrawingsOption, own_drawings
from .show_problems import error_console


def teach(
    cycle: Annotated[
        Path, typer.Argument(help="The cycle as text or JSON.", dir_okay=False, show_default=False)
    ],
    out: Annotated[Path, typer.Option(help="Folder to write to.", file_okay=False)] = Path("lessons"),
    week: Annotated[int | None, typer.Option(min=1, help="Only this week.")] = None,
    session: Annotated[int | None, typer.Option(min=1, help="Only this session of each week.")] = None,
    paper: Annotated[Literal["a4", "letter"], typer.Option(help="Paper to print on.")] = "a4",
    html: Annotated[bool, typer.Option("--html", help="A page for the screen beside each PDF.")] = False,
    catalogue: CatalogueOption = None,
    drawings: DrawingsOption = None,
    verbose: Annotated[bool, typer.Option("--verbose", help="Show every problem.")] = False,
) -> None:
    """Write the teaching edition of the sessions: aims, drawings, cues, faults and fixes, what to scale.

    Exits with 1 when something was not understood or not written, with 2 when nothing could be done.
    """
    known, clear = own_catalogue(catalogue)
    clear = own_drawings(drawings) and clear
    the_cycle, problems = cycle_in(cycle, known, Conventions(), error_console(), verbose=verbose)
    wanted = [
        (w, s)
        for w, s, _ in the_cycle.sessions()
        if (week is None or w == week) and (session is None or s == session)
    ]
    if not wanted:
        asked = " ".join(f"{what} {n}" for what, n in (("week", week), ("session", session)) if n)
        weeks = sum(1 for _ in the_cycle.weeks())
        typer.echo(f"There is no {asked or 'session'} here: the cycle has {weeks} weeks.", err=True)
        raise typer.Exit(2)
    keep = Keeper(out)
    for w, s in wanted:
        one = lesson(the_cycle, w, s, known)
        name = f"week-{w:02}-session-{s}-teaching"
        keep.write(f"{name}.pdf", partial(lesson_pdf, one, paper))
        if html:
            keep.write(f"{name}.html", partial(_page, one))
    for trouble in keep.troubles:
        typer.echo(trouble, err=True)
    if not keep.files:
        typer.echo(f"Nothing was written to {out}.", err=True)
        raise typer.Exit(2)
    if verbose:
        for file in keep.files:
            typer.echo(file)
    sessions = f"{len(wanted)} session{'' if len(wanted) == 1 else 's'}"
    typer.echo(f"The teaching edition of {sessions} is in {out}.")
    if keep.troubles or not clear or stops(problems):
        raise typer.Exit(1)


def _page(one: Lesson) -> bytes:
    return lesson_page(one).encode()
