"""``meetward sheets``: a cycle and a squad in, every lifter's day sheets out."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path
from typing import Annotated, Literal

import msgspec
import typer
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle
from meetward.fit.dates import first_monday
from meetward.notation import Conventions
from meetward.problem import stops

from .cycle_file import cycle_in
from .own_catalogue import CatalogueOption, own_catalogue
from .own_drawings import DrawingsOption, own_drawings
from .sheet_files import Order, Written, jobs, write_all
from .show_problems import error_console
from .squad_file import only, read_lifters, stop

MOST_FOLDERS = 60

File = Annotated[Path, typer.Argument(help="The cycle as text or JSON.", dir_okay=False, show_default=False)]


def sheets(
    cycle: File,
    lifters: Annotated[Path, typer.Option(help="The squad: a CSV, XLSX, XLS or ODS file.", dir_okay=False)],
    out: Annotated[Path, typer.Option(help="Folder to write to.", file_okay=False)] = Path("sheets"),
    start: Annotated[
        datetime | None,
        typer.Option(formats=["%Y-%m-%d"], help="A day in week 1. Else by the dates in the cycle."),
    ] = None,
    week: Annotated[int | None, typer.Option(min=1, help="Only this week.")] = None,
    paper: Annotated[Literal["a4", "letter"], typer.Option(help="Paper to print on.")] = "a4",
    html: Annotated[bool, typer.Option("--html", help="A page for the phone beside each sheet.")] = False,
    together: Annotated[
        bool, typer.Option("--together", help="One PDF of all day sheets a week, for the printer.")
    ] = False,
    name: Annotated[str, typer.Option(help="Only this lifter.")] = "",
    catalogue: CatalogueOption = None,
    drawings: DrawingsOption = None,
    verbose: Annotated[bool, typer.Option("--verbose", help="Name every file and every problem.")] = False,
) -> None:
    """Write every lifter's day sheets and a sheet of each week for the wall.

    Exits with 1 when something was not understood or not written, with 2 when nothing could be done.
    """
    err = error_console()
    known, catalogue_clear = own_catalogue(catalogue)
    drawings_clear = own_drawings(drawings)
    the_cycle, cycle_clear = _cycle(cycle, known, start, err, verbose=verbose)
    squad, squad_clear = read_lifters(lifters, known, err, verbose=verbose)
    weeks = tuple(number for number, _, one in the_cycle.weeks() if one.sessions)
    if week is not None:
        last = sum(1 for _ in the_cycle.weeks())
        if week not in weeks:
            stop(f"Week {week} has no sessions: the cycle has {_counted(last, 'week')}. Choose another.")
        weeks = (week,)
    wanted = only(squad, name)
    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        stop(f"{out} cannot be made ({error.strerror}). Choose another folder with --out.")
    order = Order(
        the_cycle,
        wanted,
        out,
        weeks,
        catalogue=known,
        paper=paper,
        html=html,
        together=together,
        wall=not name,
        drawings=tuple(drawings or ()),
    )
    results = _write(order, err)
    _report(results, order, verbose=verbose)
    troubles = [trouble for result in results for trouble in result.troubles]
    for trouble in troubles:
        err.print(trouble)
    if not any(result.files for result in results):
        stop(f"Nothing was written to {out}.")
    if troubles or not (catalogue_clear and drawings_clear and cycle_clear and squad_clear):
        raise typer.Exit(1)


def _cycle(
    path: Path, catalogue: Catalogue, start: datetime | None, err: Console, *, verbose: bool
) -> tuple[Cycle, bool]:
    """The cycle with its dates, and whether all of it was understood."""
    cycle, problems = cycle_in(path, catalogue, Conventions(), err, verbose=verbose)
    if start is not None:
        cycle = msgspec.structs.replace(cycle, starts_on=start.date())
    _say_dates(cycle, start, err)
    return cycle, not stops(problems)


def _say_dates(cycle: Cycle, start: datetime | None, err: Console) -> None:
    """What to know about the dates: that there are none, or that the meet is not in the last week."""
    monday = first_monday(cycle)
    if monday is None:
        err.print("The cycle names no dates, so the sheets carry none. Give a day of week 1 with --start.")
        return
    if start is not None and start.date() != monday:
        err.print(f"Week 1 begins on Monday {monday}, the week of {start.date()}.")
    weeks = sum(1 for _ in cycle.weeks())
    try:
        ends = monday + timedelta(weeks=weeks, days=-1)
    except OverflowError:
        stop(
            f"From {monday} on, {_counted(weeks, 'week')} run beyond the year 9999. Choose an earlier start."
        )
    if cycle.meet_on is not None and not ends - timedelta(days=6) <= cycle.meet_on <= ends:
        meet = cycle.meet or "The meet"
        err.print(
            f"{meet} is on {cycle.meet_on}, but the last of {weeks} weeks runs from "
            f"{ends - timedelta(days=6)} to {ends}. Change --start or the dates in the cycle."
        )


def _write(order: Order, err: Console) -> list[Written]:
    progress = Progress(
        TextColumn("Writing sheets"),
        BarColumn(),
        MofNCompleteColumn(),
        TextColumn("{task.description}"),
        TimeRemainingColumn(),
        console=err,
        transient=True,
        disable=not err.is_terminal,
    )
    results = []
    with progress:
        task = progress.add_task("", total=len(jobs(order)))
        for result in write_all(order):
            results.append(result)
            progress.update(task, advance=1, description=result.whose)
    place = {lifter.name: n for n, lifter in enumerate(order.lifters)}
    return sorted(results, key=lambda one: (one.folder == order.out, place.get(one.whose, 0), one.files))


def _report(results: Sequence[Written], order: Order, *, verbose: bool) -> None:
    """Where everything is, on standard output."""
    if verbose:
        for result in results:
            for file in result.files:
                typer.echo(file)
    else:
        folders = [result for result in results if result.files and result.folder != order.out]
        for result in folders[:MOST_FOLDERS]:
            typer.echo(f"{result.folder}: {_counted(result.days, 'day')}")
        if len(folders) > MOST_FOLDERS:
            typer.echo(f"and {len(folders) - MOST_FOLDERS} more folders in {order.out}")
        walls = [file for result in results if result.folder == order.out for file in result.files]
        for file in walls if len(walls) <= MOST_FOLDERS else walls[:1]:
            typer.echo(file)
    days, files = sum(result.days for result in results), sum(len(result.files) for result in results)
    replaced = sum(result.replaced for result in results)
    again = f", {replaced} of them again in place of an earlier run's" if replaced else ""
    lifters = _counted(len(order.lifters), "lifter")
    made = f"{_counted(days, 'day sheet')} for {lifters}: {_counted(files, 'file')}"
    typer.echo(f"{made} in {order.out}{again}.")


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
