"""Paper: 200 day sheets as files of their own and in one document, on one core."""

import gc
import os
import re
import time
from collections.abc import Callable, Iterator, Sequence
from itertools import count

import msgspec

from bench.figures import Figure, ms
from bench.sample import cycle_text, lifters
from meetward.catalogue.reading import shipped
from meetward.fit.day import day_sheets
from meetward.fit.fitted import DaySheet
from meetward.notation.reader import read
from meetward.publish.page import day_page
from meetward.publish.paper import pages_of
from meetward.publish.sheet import day_pdf, sheets_document
from meetward.publish.week import squad_week_pdf

TITLE = "(c) 200 day sheets on paper, in processor time of one core"

LIFTERS, WEEK = 40, 3


def whole_days(text: str) -> str:
    """The sample with a warm-up, work between the sets and a recovery in every session: whole pages."""
    before = "Warm-up:\nGeneral warm-up\nSnatch bar warm-up\nLifts:"
    after = "Recovery:\nEasy bike 5 min\nSlow breathing 2 min"
    sessions = re.split(r"\n(?=Week |Phase: |\w+day: )", text.rstrip())
    whole = []
    for part in sessions:
        heading, _, lines = part.partition("\n")
        if "day: " in heading:
            first, _, rest = lines.partition("\n")
            part = f"{heading}\n{before}\n{first}\n  between: ankle rock, 5 each side\n{rest}\n{after}"
        whole.append(part)
    return "\n".join(whole) + "\n"


def run() -> Iterator[Figure]:
    """Time 40 lifters x 5 sessions of one week; every sheet has kilos of its own."""
    cores = os.sched_getaffinity(0) if hasattr(os, "sched_setaffinity") else set()
    if cores:
        os.sched_setaffinity(0, {min(cores)})
    try:
        yield from _measured()
    finally:
        if cores:
            os.sched_setaffinity(0, cores)


def _measured() -> Iterator[Figure]:
    catalogue = shipped()
    reading = read(whole_days(cycle_text()), catalogue)
    assert not reading.problems, f"the sample is not read cleanly: {reading.problems[0]}"

    def days(number: int) -> list[DaySheet]:
        return [
            sheet
            for lifter in lifters(number)
            for sheet in day_sheets(reading.cycle, lifter, catalogue, weeks=range(WEEK, WEEK + 1))
        ]

    yield Figure("working out a day, without drawing it", ms(_processor_s(lambda: days(LIFTERS)) / 200))
    # Three rounds with other lifters in each, so that nobody's sheet is drawn twice and remembered.
    everybody = days(3 * LIFTERS)
    rounds = [everybody[n : n + 200] for n in (0, 200, 400)]
    day_pdf(everybody[-1])  # the typesetter reads its fonts and template

    pdfs: list[bytes] = []
    seconds = sorted(_processor_s(lambda one=one: pdfs.extend(map(day_pdf, one))) for one in rounds)
    yield _rate("separate files, with structure for screen readers", 200 / seconds[1], "sheets/s", 80)
    yield Figure("    size of a file, median", f"{sorted(map(len, pdfs))[len(pdfs) // 2] / 1e3:.0f} kB")
    pages = sum(map(pages_of, pdfs))
    yield Figure("    pages", f"{pages} of {len(pdfs)} sheets", "one each", pages == len(pdfs))

    made: list[bytes] = []
    seconds = sorted(
        _processor_s(lambda one=one: made.append(sheets_document(another_week(one)))) for one in rounds
    )
    yield _rate("one document for the printer", pages_of(made[0]) / seconds[1], "pages/s", 200)
    yield Figure("    size of the document", f"{len(made[0]) / 1e6:.2f} MB")
    took = _processor_s(lambda: made.append(sheets_document(another_week(rounds[0]), tags=True)))
    yield Figure("    with structure for screen readers", f"{pages_of(made[-1]) / took:.0f} pages/s")
    yield Figure("    size of the document", f"{len(made[-1]) / 1e6:.2f} MB")

    wall: list[bytes] = []
    took = _processor_s(lambda: wall.append(squad_week_pdf(rounds[0])))
    yield Figure("the squad's week for the wall", f"{pages_of(wall[0])} pages, {ms(took)}")
    html: list[str] = []
    took = _processor_s(lambda: html.extend(map(day_page, rounds[0])))
    yield Figure("pages for the phone", f"{200 / took:.0f} /s, {len(html[0]) / 1e3:.0f} kB")


_longer = count(1)


def another_week(sheets: Sequence[DaySheet]) -> list[DaySheet]:
    """The same days in a longer cycle, so that no page was drawn before as it is."""
    return [msgspec.structs.replace(sheet, weeks=sheet.weeks + next(_longer)) for sheet in sheets]


def _processor_s(work: Callable[[], object]) -> float:
    """Processor time of one run: other programs on the machine do not count. [s]"""
    gc.collect()
    start = time.process_time()
    work()
    return time.process_time() - start


def _rate(what: str, got: float, unit: str, aim: float) -> Figure:
    return Figure(what, f"{got:.0f} {unit}", f"at least {aim:g} {unit}", got >= aim)
