"""``meetward fit``: the cycle fitted to each lifter's calendar, as a proposal in words or as JSON."""

from collections.abc import Iterator
from datetime import date, datetime
from pathlib import Path
from typing import Annotated

import msgspec
import typer
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle
from meetward.fit.contract import as_json
from meetward.fit.dates import first_monday
from meetward.fit.proposal import Proposal, propose
from meetward.fit.week_days import DaysFitter
from meetward.fit.weeks_calendar import Block, LifterCalendar
from meetward.lifter.calendar import read_days
from meetward.lifter.dates import find_date
from meetward.lifter.limits_reading import read_limits
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.notation import Conventions
from meetward.problem import stops
from meetward.publish.words import show_date, show_day_short

from .cycle_file import cycle_in
from .own_catalogue import CatalogueOption, own_catalogue
from .show_problems import error_console
from .squad_file import only, read_lifters, stop

_DATE = ["%Y-%m-%d"]


def fit(
    cycle: Annotated[
        Path, typer.Argument(help="The cycle as text or JSON.", dir_okay=False, show_default=False)
    ],
    lifters: Annotated[Path, typer.Option(help="The squad: a CSV, XLSX, XLS or ODS file.", dir_okay=False)],
    name: Annotated[str, typer.Option(help="Only this lifter.")] = "",
    start: Annotated[
        datetime | None,
        typer.Option("--from", formats=_DATE, help="First day of training. Else the start of the cycle."),
    ] = None,
    meet: Annotated[
        datetime | None,
        typer.Option(formats=_DATE, help="Meet or test day, on any weekday. Else that of the cycle."),
    ] = None,
    days: Annotated[
        str, typer.Option(help="Weekdays of training, as mon,wed,sat. Else those of each lifter.")
    ] = "",
    minutes: Annotated[
        int | None, typer.Option(min=1, max=600, help="Time for a session. Else that of each lifter.")
    ] = None,
    blocked: Annotated[
        list[str] | None,
        typer.Option(
            metavar="<date..date>",
            help="Days without training, as 2027-02-08..2027-02-14=travel. May be given more than once.",
        ),
    ] = None,
    limits: Annotated[
        str, typer.Option(help='Restrictions and missing kit, as "no overhead until 2027-02-01; no blocks".')
    ] = "",
    json: Annotated[bool, typer.Option("--json", help="One JSON object a lifter, one on a line.")] = False,
    catalogue: CatalogueOption = None,
    verbose: Annotated[bool, typer.Option("--verbose", help="Show the days too, and every problem.")] = False,
) -> None:
    """Propose how the cycle fits each lifter: weeks, days, replacements, with reasons. It changes nothing.

    Exits with 1 when something was not understood or somebody cannot be fitted, with 2 when nothing could
    be done.
    """
    err = error_console()
    known, clear = own_catalogue(catalogue)
    the_cycle, cycle_problems = cycle_in(cycle, known, Conventions(), err, verbose=verbose)
    squad, squad_clear = read_lifters(lifters, known, err, verbose=verbose)
    wanted = only(squad, name)
    calendar = _calendar(the_cycle, start, meet, days, blocked or [])
    asked = Asked(calendar, minutes, _limits(limits, known, calendar.starts_on))
    proposals = []
    for proposal in _propose(the_cycle, wanted, asked, known, err):
        proposals.append(proposal)
        if json:
            typer.echo(msgspec.json.encode(as_json(proposal)).decode())
        else:
            typer.echo("\n".join(_said(proposal, verbose=verbose)) + "\n")
    if not (clear and squad_clear and not stops(cycle_problems) and all(one.possible for one in proposals)):
        raise typer.Exit(1)


class Asked(msgspec.Struct, frozen=True):
    """What holds for everybody who is fitted; the lifter's own days and minutes where nothing is said."""

    calendar: LifterCalendar
    minutes: int | None
    limits: Limits


def _calendar(
    cycle: Cycle, start: datetime | None, meet: datetime | None, days: str, blocked: list[str]
) -> LifterCalendar:
    starts_on = start.date() if start else first_monday(cycle)
    meet_on = meet.date() if meet else cycle.meet_on
    if starts_on is None:
        stop("The cycle names no start and no meet day. Say when training begins with --from.")
    if meet_on is None:
        stop("The cycle names no meet day. Give the meet or test day with --meet.")
    weekdays = read_days(days.replace(",", " ")) if days else ()
    if weekdays is None:
        stop(f"'{days}' are no weekdays. Write them as mon,wed,sat.")
    return LifterCalendar(
        starts_on,
        meet_on,
        weekdays,
        tuple(_block(text, starts_on) for text in blocked),
        goal=cycle.meet or "the meet",
    )


def _block(text: str, today: date) -> Block:
    days, _, reason = text.partition("=")
    first, dots, last = days.partition("..")
    read = [find_date(one, today) for one in ((first, last) if dots else (first, first))]
    ends = [one.on for one in read if one is not None and one.on is not None]
    if len(ends) != 2:
        stop(f"'{text}' names no days. Write --blocked as 2027-02-08..2027-02-14, with =travel behind it.")
    return Block(ends[0], ends[1], reason.strip(), illness=reason.strip().casefold() in ("ill", "illness"))


def _limits(text: str, catalogue: Catalogue, today: date) -> Limits:
    found, problems = read_limits(text, catalogue, today, "--limits")
    for problem in problems:
        typer.echo(str(problem), err=True)
    if stops(problems):
        raise typer.Exit(2)
    return found


def _propose(
    cycle: Cycle, lifters: tuple[Lifter, ...], asked: Asked, catalogue: Catalogue, err: Console
) -> Iterator[Proposal]:
    fitter = DaysFitter(catalogue)
    progress = Progress(
        TextColumn("Fitting"), BarColumn(), MofNCompleteColumn(), TextColumn("{task.description}"),
        console=err, transient=True, disable=not err.is_terminal,
    )  # fmt: skip
    with progress:
        task = progress.add_task("", total=len(lifters))
        for lifter in lifters:
            progress.update(task, description=lifter.name)
            calendar = asked.calendar
            if not calendar.days:
                calendar = msgspec.structs.replace(calendar, days=lifter.days)
            yield propose(
                cycle,
                lifter,
                calendar,
                catalogue,
                minutes=asked.minutes,
                limits=asked.limits,
                fitter=fitter,
                today=calendar.starts_on,
            )
            progress.advance(task)


def _said(proposal: Proposal, *, verbose: bool) -> Iterator[str]:
    fit = proposal.weeks_fit
    yield f"{proposal.lifter}, to {proposal.goal} on {show_date(proposal.meet_on)}"
    yield from (f"  {problem}" for problem in map(str, proposal.problems))
    if not proposal.possible:
        yield "  No plan keeps every rule." if fit.clash else "  Nothing can be fitted."
        yield from (f"  - {reason}" for reason in proposal.reasons)
        for number, plan in enumerate(fit.least_bad, start=1):
            yield f"  Least bad {number}: {' '.join(said for _, said in plan.broken)}"
        return
    for week in fit.weeks:
        what = f"week {week.template_week}" if week.template_week else week.role
        level = f" at {week.level_permille / 10:g} % of its sets" if 0 < week.level_permille < 1000 else ""
        yield (
            f"  {show_day_short(week.monday):<11} {what}, {week.role}{level}"
            if week.template_week
            else (f"  {show_day_short(week.monday):<11} {what}{level}")
        )
    runner_up = "" if fit.runner_up_cost is None else f"; the next best plan costs {fit.runner_up_cost}"
    yield f"  Cost {fit.cost}{runner_up}."
    yield from (f"  - {reason}" for reason in (proposal.reasons if verbose else fit.reasons))
    if not verbose:
        others = len(proposal.reasons) - len(fit.reasons)
        if others > 0:
            yield f"  {others} changes of days and lifts: --verbose tells them; --json has every session."
