"""The teaching edition of a session, and the catalogue as a book: for whoever teaches it."""

from functools import lru_cache
from threading import Lock

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.lesson import Lesson
from meetward.fit.lesson import lesson as lesson_of
from meetward.publish.lesson import lesson_fragment, lesson_pdf
from meetward.publish.paper import Paper
from meetward.publish.shelf import catalogue_pdf
from meetward.web.actions import cycles as actions
from meetward.web.actions.catalogues import catalogue_here, catalogue_of
from meetward.web.actions.cycles import VersionRecord
from meetward.web.actions.timetable import Slot, Timetable

from .days import as_pdf, paper_asked
from .meaning import said


@require_safe
def teaching(request: HttpRequest, book: int, week: int, session: int) -> HttpResponse:
    """How do I teach this session?"""
    version = actions.version(request.who, book)
    times = Timetable(version.cycle)
    slot = Slot(week, session)
    one = times.session(slot)
    before, after = times.around(slot)
    return render(
        request,
        "web/teaching.html",
        {
            "here": "cycles",
            "book": book,
            "cycle": version.cycle,
            "slot": slot,
            "said": said(times, slot),
            "session": one,
            "fragment": lesson_fragment(_lesson(request, version, slot), heading_level=1, framed=True),
            "before": before,
            "after": after,
        },
    )


@require_safe
def teaching_pdf(request: HttpRequest, book: int, week: int, session: int) -> HttpResponse:
    """The same on paper."""
    version = actions.version(request.who, book)
    slot = Slot(week, session)
    Timetable(version.cycle).session(slot)
    pdf = lesson_pdf(_lesson(request, version, slot), paper_asked(request))
    return as_pdf(pdf, f"week-{week}-session-{session}-teaching.pdf")


@require_safe
def book(request: HttpRequest) -> HttpResponse:
    """The whole catalogue of the club as a book."""
    title = actions.club_here(request.who).name if request.who.seat else "How is it done?"
    with _one_at_a_time:
        pdf = _book(catalogue_here(request.who), paper_asked(request), title)
    return as_pdf(pdf, "catalogue.pdf")


_one_at_a_time = Lock()  # a second reader waits for the first one's book instead of typesetting it too


@lru_cache(maxsize=4)
def _book(catalogue: Catalogue, paper: Paper, title: str) -> bytes:
    return catalogue_pdf(catalogue, paper, title=title)


def _lesson(request: HttpRequest, version: VersionRecord, slot: Slot) -> Lesson:
    catalogue = catalogue_of(request.who, version.club_id)
    club = actions.club_of(request.who, version.club_id).name
    return lesson_of(version.cycle, slot.week, slot.session, catalogue, club=club)
