"""Pages that say no, and what to do instead."""

from django.core.exceptions import RequestDataTooBig
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    """404: nothing here, or nothing that this person may know of."""
    return _refusal(
        request,
        404,
        "Nothing here",
        "There is no page at this address, or it belongs to another club. "
        "Check the address, or start from the list of cycles.",
    )


def not_allowed(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403: they belong here, but this is not theirs to do."""
    return _refusal(request, 403, "Not for your role", reason or "Your role in the club does not cover this.")


def refused(request: HttpRequest, exception: Exception) -> HttpResponse:
    """400, or 413 for too much at once."""
    if isinstance(exception, RequestDataTooBig):
        return _refusal(
            request,
            413,
            "Too much at once",
            "What you sent is larger than 5 MB, so nothing of it was read or saved. "
            "Go back in the browser, where your text still stands, and send it in parts.",
        )
    return _refusal(
        request, 400, "Not understood", "The request could not be read. Go back and try it once more."
    )


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:
    """403 for a form whose protection against forged requests does not fit the session any more."""
    return _refusal(
        request,
        403,
        "The form is too old",
        "You signed in or out after opening it, so it was not accepted and nothing was saved. "
        "Go back, copy what you wrote, reload the page and send it again.",
    )


def _refusal(request: HttpRequest, status: int, title: str, words: str) -> HttpResponse:
    return render(request, "web/refusal.html", {"title": title, "words": words}, status=status)
