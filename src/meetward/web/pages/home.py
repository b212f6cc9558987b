"""The first page, and the one click into the demo."""

from functools import cache

from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from meetward.barbell.discs import BarAndDiscs, Disc, plan
from meetward.publish.bar import drawn_bar
from meetward.publish.load_line import WeekLoad, load_line
from meetward.web.actions import demo
from meetward.web.actions.who import seat_in

from .asking import CHOSEN_CLUB


@require_safe
@login_not_required
def home(request: HttpRequest) -> HttpResponse:
    """Who this is for, and the way in."""
    return render(request, "web/home.html", {"seat": request.who.seat, "wave": _wave(), "bar": _bar()})


@require_safe
def start(request: HttpRequest) -> HttpResponse:
    """Where somebody goes who has just signed in: a coach to the cycles, a lifter to their day."""
    if request.who.may("read cycles"):
        return redirect("cycles")
    if request.who.seat is not None and request.who.seat.lifter_key:
        return redirect("next-day", request.who.seat.lifter_key)
    return redirect("home")


@require_POST
@login_not_required
def sign_in_to_demo(request: HttpRequest) -> HttpResponse:
    """Sign in as the demo coach; there is no such address outside the demo."""
    coach = demo.coach() if settings.MEETWARD_DEMO else None
    if coach is None:
        raise Http404
    login(request, coach, backend="django.contrib.auth.backends.ModelBackend")
    return redirect("start")


@require_POST
def look_at_club(request: HttpRequest, club: int) -> HttpResponse:
    """Look at another of one's clubs."""
    request.session[CHOSEN_CLUB] = seat_in(request.who, club).club_id
    return redirect("start")


@cache
def _wave() -> str:
    """A load line to show what one looks like: four invented weeks."""
    weeks = ((388, 700, "load"), (412, 720, "load"), (430, 740, "load"), (250, 690, "lighter"))
    return load_line([WeekLoad(*week) for week in weeks], week_px=84, height_px=140)


@cache
def _bar() -> str:
    """A drawn bar to show what one looks like: 62.5 kg on a bar of 20."""
    kit = BarAndDiscs(2000, 0, (Disc(2000, 1, "blue", large=True), Disc(125, 1)))
    loaded = plan(kit, 6250)
    assert loaded is not None
    return drawn_bar(kit.bar_dag, loaded)
