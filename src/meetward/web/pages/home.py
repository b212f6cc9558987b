"""The first page, and the one click into the demo."""

from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST

from meetward.web.actions import demo
from meetward.web.actions.who import seat_in

from .asking import CHOSEN_CLUB


@require_GET
@login_not_required
def home(request: HttpRequest) -> HttpResponse:
    """Who this is for, and the way in."""
    return render(request, "web/home.html", {"seat": request.who.seat})


@require_POST
@login_not_required
def sign_in_to_demo(request: HttpRequest) -> HttpResponse:
    """Sign in as the demo coach; there is no such address outside the demo."""
    coach = demo.coach() if settings.MEETWARD_DEMO else None
    if coach is None:
        raise Http404
    login(request, coach, backend="django.contrib.auth.backends.ModelBackend")
    return redirect("cycles")


@require_POST
def look_at_club(request: HttpRequest, club: int) -> HttpResponse:
    """Look at another of one's clubs."""
    request.session[CHOSEN_CLUB] = seat_in(request.who, club).club_id
    return redirect("cycles" if request.who.may("read cycles") else "home")
