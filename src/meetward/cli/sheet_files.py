"""The files of ``meetward sheets``: what is written where, in one process or in several."""

import multiprocessing
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from functools import partial
from pathlib import Path

import msgspec

from meetward.body.reading import load
from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle
from meetward.fit.day import day_sheets
from meetward.fit.fitted import DaySheet
from meetward.lifter.profile import Lifter
from meetward.publish.page import day_page
from meetward.publish.paper import Paper
from meetward.publish.picture import use_drawings
from meetward.publish.sheet import day_pdf, sheets_document
from meetward.publish.week import lifter_week_pdf, squad_week_pdf

from .keeper import Keeper

WORTH_A_SECOND_PROCESS = 150
"""Sheets; a second process takes as long to start as about fifty sheets to write."""


class Order(msgspec.Struct, frozen=True):
    """What is asked for.

    weeks : numbers from 1.
    html : a page beside each PDF.
    catalogue : with a coach's own files; the shipped one unless given.
    together : one PDF of all day sheets a week instead of one for each day.
    drawings : a coach's own, that a further process has to read again.
    wall : the squad's week for the wall too; not where only some of the squad are asked for.
    """

    cycle: Cycle
    lifters: tuple[Lifter, ...]
    out: Path
    weeks: tuple[int, ...]
    catalogue: Catalogue = msgspec.field(default_factory=shipped)
    paper: Paper = "a4"
    html: bool = False
    together: bool = False
    drawings: tuple[Path, ...] = ()
    wall: bool = True


class Written(msgspec.Struct, frozen=True):
    """What one job did.

    whose : lifter or week, in words.
    files : written, in order; ``replaced`` of them took the place of a file of an earlier run.
    troubles : whole sentences; what they are about was not written.
    """

    whose: str
    folder: Path
    files: tuple[Path, ...] = ()
    days: int = 0
    replaced: int = 0
    troubles: tuple[str, ...] = ()


Job = tuple[str, int]
"""("lifter", index in the order) or ("week", its number)."""


def jobs(order: Order) -> list[Job]:
    """Lifters first, then the weeks for the wall; with ``together`` everything goes by weeks."""
    lifters = [] if order.together else [("lifter", n) for n in range(len(order.lifters))]
    return lifters + [("week", week) for week in order.weeks if order.wall or order.together]


def write_all(order: Order, *, processes: int | None = None) -> Iterator[Written]:
    """Do every job, in whatever order they come to an end. What goes wrong in one never stops the others."""
    todo = jobs(order)
    days = len(order.lifters) * sum(week in order.weeks for week, _, _ in order.cycle.sessions())
    if processes is None:
        processes = min(os.cpu_count() or 1, len(todo)) if days >= WORTH_A_SECOND_PROCESS else 1
    if processes <= 1:
        yield from (_guarded(order, job) for job in todo)
        return
    # Started afresh instead of forked: a fork copies the locks of running threads.
    context = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(processes, mp_context=context, initializer=_begin, initargs=(order,)) as pool:
        for done in as_completed([pool.submit(_in_process, job) for job in todo]):
            yield done.result()


_orders: list[Order] = []


def _begin(order: Order) -> None:
    _orders.append(order)
    if order.drawings:
        use_drawings(load(*order.drawings, look=False)[0])


def _in_process(job: Job) -> Written:
    return _guarded(_orders[-1], job)


def _guarded(order: Order, job: Job) -> Written:
    kind, number = job
    try:
        return _lifter(order, order.lifters[number]) if kind == "lifter" else _week(order, number)
    except Exception as error:  # one lifter never stops the rest; the command says who, what and exits with 1
        whose = order.lifters[number].name if kind == "lifter" else f"Week {number}"
        trouble = f"{whose} was left out ({type(error).__name__}: {error})."
        return Written(whose, order.out, troubles=(trouble,))


def _lifter(order: Order, lifter: Lifter) -> Written:
    """Day sheets of one lifter, and their weeks for the wall."""
    folder = order.out / lifter.key
    keep = Keeper(folder)
    days = 0
    for week in order.weeks:
        sheets = list(day_sheets(order.cycle, lifter, order.catalogue, weeks=range(week, week + 1)))
        days += len(sheets)
        for sheet in sheets:
            name = f"week-{week:02}-session-{sheet.session}"
            keep.write(f"{name}.pdf", partial(day_pdf, sheet, order.paper))
            if order.html:
                keep.write(f"{name}.html", partial(_page, sheet))
        if sheets:
            keep.write(f"week-{week:02}.pdf", partial(lifter_week_pdf, sheets, order.paper))
    return _written(keep, lifter.name, days)


def _week(order: Order, week: int) -> Written:
    """The squad's week for the wall; with ``together`` all day sheets of the week too."""
    keep = Keeper(order.out)
    sheets = _sheets_of_week(order, week)
    if sheets:
        if order.wall:
            keep.write(f"week-{week:02}-wall.pdf", partial(squad_week_pdf, sheets, order.paper))
        if order.together:
            keep.write(f"week-{week:02}-day-sheets.pdf", partial(sheets_document, sheets, order.paper))
            if order.html:
                for sheet in sheets:
                    name = f"{sheet.lifter_key}/week-{week:02}-session-{sheet.session}.html"
                    keep.write(name, partial(_page, sheet))
    return _written(keep, f"Week {week}", len(sheets) if order.together else 0)


def _sheets_of_week(order: Order, week: int) -> Sequence[DaySheet]:
    return [
        sheet
        for lifter in order.lifters
        for sheet in day_sheets(order.cycle, lifter, order.catalogue, weeks=range(week, week + 1))
    ]


def _page(sheet: DaySheet) -> bytes:
    return day_page(sheet).encode()


def _written(keep: Keeper, whose: str, days: int) -> Written:
    """What was done in one folder."""
    return Written(whose, keep.folder, tuple(keep.files), days, keep.replaced, tuple(keep.troubles))
