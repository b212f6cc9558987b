"""The text of a cycle: read it, check it, save it as the next version; begin one from pasted text."""

from difflib import SequenceMatcher

import msgspec
from django.conf import settings
from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from meetward.web.actions import cycles as actions
from meetward.web.actions import writing
from meetward.web.actions.catalogues import catalogue_here, catalogue_of
from meetward.web.actions.cycles import SavedMeanwhile

from .reading import decoded, shown_reading

ORDERS = ("sets-first", "reps-first")
NO_SESSION = (
    'No session was found in this text, so it is not saved. Begin one with a day: "Monday" on a line.'
)


class Clash(msgspec.Struct, frozen=True):
    """Somebody saved first: who, what, and where the two texts differ (theirs, yours)."""

    number: int
    next: int
    author: str
    saved: object
    text: str
    differences: tuple[tuple[str, str], ...]


@require_http_methods(["GET", "HEAD", "POST"])
def text(request: HttpRequest, book: int) -> HttpResponse:
    """What is written? Check without saving, or save as the next version."""
    actions.need_to_write(request.who, book)
    newest = actions.version(request.who, book)
    catalogue = catalogue_of(request.who, newest.club_id)
    title = newest.cycle.title or "Cycle without a title"
    context: dict[str, object] = {"here": "cycles", "book": book, "title": title}
    if request.method != "POST":
        return _written(request, context, newest.text, newest.number)
    words, after = _words(request), _after(request)
    if error := _too_long(words):
        return _written(request, context | {"errors": [error]}, words, after, status=413)
    reading = writing.read_text(words, catalogue)
    context["reading"] = shown_reading(reading, words, catalogue)
    if request.POST.get("do") != "save":
        return _written(request, context, words, after)
    if not reading.cycle.phases:
        return _written(request, context | {"errors": [NO_SESSION]}, words, after, status=422)
    try:
        number = actions.save(request.who, book, reading.cycle, words, after=after)
    except SavedMeanwhile as clash:
        theirs = actions.version(request.who, book, clash.theirs)
        context["clash"] = Clash(
            theirs.number,
            theirs.number + 1,
            theirs.author,
            theirs.saved,
            theirs.text,
            differences(theirs.text, words),
        )
        return _written(request, context, words, clash.theirs, status=409)
    messages.info(request, f"Saved as version {number}.")
    return redirect("cycle", book)


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest) -> HttpResponse:
    """What does your cycle say? Paste it, look at what was understood, save it."""
    actions.need_to_begin(request.who)
    context: dict[str, object] = {"here": "cycles"}
    if request.method != "POST":
        return render(request, "web/text.html", context)
    catalogue = catalogue_here(request.who)
    order = request.POST.get("order", "")
    words, error = _pasted(request)
    error = (
        error
        or _too_long(words)
        or ("" if words.strip() else "There is no text yet. Paste some, or choose a file.")
    )
    context |= {"text": words, "order": order}
    if error:
        return render(request, "web/text.html", context | {"errors": [error]}, status=422)
    if order in ORDERS:
        words = writing.declare_order(words, order)
        context["text"] = words
    reading = writing.read_text(words, catalogue)
    context["reading"] = shown_reading(reading, words, catalogue)
    if request.POST.get("do") != "save":
        return render(request, "web/text.html", context)
    if not reading.cycle.phases:
        return render(request, "web/text.html", context | {"errors": [NO_SESSION]}, status=422)
    book = actions.begin(request.who, reading.cycle, words)
    messages.info(request, "Saved as version 1 of a new cycle.")
    return redirect("cycle", book)


@require_safe
def version(request: HttpRequest, book: int, number: int) -> HttpResponse:
    """What did this version say?"""
    one = actions.version(request.who, book, number)
    return render(request, "web/version.html", {"here": "cycles", "book": book, "version": one})


def differences(theirs: str, yours: str) -> tuple[tuple[str, str], ...]:
    """Where two texts differ, line by line: (theirs, yours), either of them empty where there is nothing."""
    mine, other = yours.split("\n"), theirs.split("\n")
    matcher = SequenceMatcher(None, other, mine, autojunk=len(mine) > 2_000)
    return tuple(
        ("\n".join(other[a:b]), "\n".join(mine[c:d]))
        for kind, a, b, c, d in matcher.get_opcodes()
        if kind != "equal"
    )


def _written(
    request: HttpRequest, context: dict[str, object], words: str, after: int, *, status: int = 200
) -> HttpResponse:
    context = context | {"text": words, "after": after, "next": after + 1}
    return render(request, "web/text.html", context, status=status)


def _words(request: HttpRequest) -> str:
    # Browsers send CR LF; a saved text has one kind of line end, so that line numbers and comparisons agree.
    return request.POST.get("text", "").replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")


def _after(request: HttpRequest) -> int:
    after = request.POST.get("after", "")
    if not (after.isascii() and after.isdigit() and len(after) < 10):
        raise BadRequest("The form lacks the version that it started from.")
    return int(after)


def _too_long(words: str) -> str:
    if len(words) <= settings.MOST_TEXT_LETTERS:
        return ""
    return (
        f"The text has {len(words):,} letters; at most {settings.MOST_TEXT_LETTERS:,} are read. "
        "A cycle of half a year has about 60,000. Send one cycle at a time."
    )


def _pasted(request: HttpRequest) -> tuple[str, str]:
    """The text from the field, else from the file; and what is wrong with it."""
    words = _words(request)
    file = request.FILES.get("file")
    if words.strip() or file is None:
        return words, ""
    if file.size > settings.MOST_FILE_BYTES:
        return (
            "",
            f"The file has {file.size / 1e6:.1f} MB; at most {settings.MOST_FILE_BYTES / 1e6:.0f} are read.",
        )
    found = decoded(file.read())
    return (
        (found, "")
        if found is not None
        else ("", "The file is no text. Save it as plain text and choose it again.")
    )
