"""The club's cycles, one cycle as a grid, and one session with its meaning."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from meetward.cycle.package import to_json
from meetward.web.actions import cycles as actions
from meetward.web.actions import days, squad, writing
from meetward.web.actions.catalogues import catalogue_of
from meetward.web.actions.kept import counted, not_counted
from meetward.web.actions.timetable import Slot, Timetable

from .grid import grid
from .meaning import meaning, said
from .problems import shown


@require_safe
def cycles(request: HttpRequest) -> HttpResponse:
    """Which cycles do we have?"""
    books = actions.cycles_here(request.who)
    context = {"here": "cycles", "club": actions.club_here(request.who), "books": books}
    return render(request, "web/cycles.html", context)


@require_safe
def cycle(request: HttpRequest, book: int) -> HttpResponse:
    """How do the weeks run?"""
    version = actions.version(request.who, book)
    tree = version.cycle
    catalogue = catalogue_of(request.who, version.club_id)
    return render(
        request,
        "web/cycle.html",
        {
            "here": "cycles",
            "book": book,
            "cycle": tree,
            "title": tree.title or "Cycle without a title",
            "grid": grid(tree, counted(tree, catalogue), catalogue),
            "not_counted": not_counted(tree, catalogue),
            "versions": actions.versions(request.who, book),
            "may_write": actions.may_write(request.who, version.club_id),
        },
    )


@require_POST
def train_from(request: HttpRequest, book: int) -> HttpResponse:
    """From now on the squad trains from this cycle."""
    actions.train_from(request.who, book)
    title = actions.version(request.who, book).cycle.title or "this cycle"
    messages.info(request, f"The squad now trains from {title}; every lifter's days are drawn from it.")
    return redirect("cycles")


@require_safe
def as_json(request: HttpRequest, book: int) -> HttpResponse:
    """The newest version in the published format."""
    version = actions.version(request.who, book)
    response = HttpResponse(to_json(version.cycle, indent=2), content_type="application/json")
    response["Content-Disposition"] = f'attachment; filename="cycle-{book}-version-{version.number}.json"'
    return response


@require_safe
def session(request: HttpRequest, book: int, week: int, session: int) -> HttpResponse:
    """What does this session mean?"""
    version = actions.version(request.who, book)
    times = Timetable(version.cycle)
    slot = Slot(week, session)
    one = times.session(slot)
    members = squad.names(request.who, version.club_id)
    chosen = request.GET.get("lifter", "")
    sheet = days.sheet_for(request.who, version, chosen, slot) if chosen in dict(members) else None
    catalogue = catalogue_of(request.who, version.club_id)
    meant = meaning(one, writing.written(version, catalogue), sheet, catalogue)
    before, after = times.around(slot)
    return render(
        request,
        "web/session.html",
        {
            "here": "cycles",
            "book": book,
            "cycle": version.cycle,
            "slot": slot,
            "session": one,
            "said": said(times, slot),
            "facts": meant.facts,
            "minutes_why": meant.minutes_why,
            "segments": meant.segments,
            "problems": [
                shown(problem, line) for problem, line in writing.problems_in(version, slot, catalogue)
            ]
            + [shown(problem) for problem in (sheet.problems if sheet else ())],
            "before": before,
            "after": after,
            "squad": members,
            "chosen": chosen if sheet else "",
            "chosen_name": dict(members).get(chosen, ""),
            "query": f"?lifter={chosen}" if sheet else "",
            "may_write": actions.may_write(request.who, version.club_id),
        },
    )
