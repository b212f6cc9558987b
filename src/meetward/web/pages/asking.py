"""Who asks: put on every request, and what every page needs of it."""

from collections.abc import Callable

from django.conf import settings
from django.contrib.auth.views import redirect_to_login
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.functional import SimpleLazyObject

from meetward.web.actions.who import NOBODY, Hidden, NotAllowed, Who, who

from . import refusals

CHOSEN_CLUB = "club"
"""Name in the session of the club that somebody with several looks at."""


class WhoMiddleware:
    """Puts ``request.who`` on the request, and answers what the actions refuse."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        request.who = SimpleLazyObject(lambda: _who(request))
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        if isinstance(error, Hidden):
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path())
            return refusals.not_found(request, Http404())
        if isinstance(error, NotAllowed):
            return refusals.not_allowed(request, str(error))
        return None


def for_every_page(request: HttpRequest) -> dict[str, object]:
    """What the frame of every page shows."""
    return {"who": getattr(request, "who", NOBODY), "demo": settings.MEETWARD_DEMO}


def _who(request: HttpRequest) -> Who:
    user = request.user
    if not user.is_authenticated:
        return NOBODY
    return who(user.pk, user.first_name or user.username, club_id=request.session.get(CHOSEN_CLUB))
