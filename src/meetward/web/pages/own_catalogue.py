"""A club's own catalogue as a whole: what is in it, its text, taking it out, bringing a file in."""

from collections.abc import Sequence

import msgspec
from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.own import merged, own_entries, own_tables
from meetward.catalogue.reading import OWN_FILE, shipped
from meetward.problem import Problem, stops
from meetward.web.actions import catalogues as actions
from meetward.web.actions.catalogues import ChangedMeanwhile, Draft, OwnRecord

from .entry_form import after_of
from .problems import ShownProblem, shown
from .reading import MOST_PROBLEMS, decoded
from .text import Clash, differences

MOST_LINES = 300
"""More entries than these are in the text, and not in the list of what it holds."""


class OwnLine(msgspec.Struct, frozen=True):
    """An entry of an own file.

    does : "adds" or "changes".
    what : the fields that it gives, for one that changes a shipped entry.
    page, form : whether it has a page, and a form to change it.
    """

    id: str
    name: str
    kind: str
    does: str
    what: str
    page: bool
    form: bool


@require_safe
def own(request: HttpRequest) -> HttpResponse:
    """What is ours?"""
    record = actions.own(request.who)
    all_ = actions.catalogue_here(request.who)
    context = {
        "here": "catalogue",
        "own": record,
        "lines": _lines(record.text, all_),
        "problems": _shown(stops(actions.draft(record.text, record).problems), record.text)["problems"],
        "may_write": request.who.may("write catalogue"),
        "versions": actions.versions(request.who),
        "size": f"{len(all_.movements)} movements, {len(all_.drills)} drills and "
        f"{len(all_.sequences)} warm-up sequences",
    }
    return render(request, "web/own_catalogue.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
def text(request: HttpRequest) -> HttpResponse:
    """What is written in our catalogue?"""
    actions.need_to_write(request.who)
    newest = actions.own(request.who)
    if request.method != "POST":
        return _written(request, newest.text, newest.number)
    words, after = _plain(request.POST.get("text", "")), after_of(request)
    if error := _too_long(words):
        return _written(request, words, after, status=413, errors=[error])
    draft = actions.draft(words, newest)
    if request.POST.get("do") not in ("save", "save-all-the-same"):
        return _written(request, words, after, draft=draft)
    if draft.lost and request.POST.get("do") == "save":
        return _written(request, words, after, draft=draft, status=422, leaves_out=len(draft.lost))
    try:
        number = actions.save(request.who, words, after=after)
    except ChangedMeanwhile as meanwhile:
        theirs = actions.own(request.who, meanwhile.theirs)
        clash = Clash(
            theirs.number, theirs.number + 1, theirs.author, theirs.saved, theirs.text,
            differences(theirs.text, words),
        )  # fmt: skip
        return _written(request, words, theirs.number, status=409, clash=clash)
    messages.info(request, f"Saved as version {number} of your catalogue.")
    return redirect("own-catalogue")


@require_safe
def version(request: HttpRequest, number: int) -> HttpResponse:
    """What did this version of our catalogue say?"""
    return render(
        request,
        "web/own_version.html",
        {"here": "catalogue", "version": actions.own(request.who, number or None)},
    )


@require_safe
def as_file(request: HttpRequest) -> HttpResponse:
    """The own catalogue as a file that the commands take as well."""
    response = HttpResponse(actions.own(request.who).text, content_type="application/toml; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{OWN_FILE}"'
    response["Cache-Control"] = "private, no-store"
    return response


@require_http_methods(["GET", "HEAD", "POST"])
def bring_in(request: HttpRequest) -> HttpResponse:
    """What is in your catalogue file? Look first, then take it in."""
    actions.need_to_write(request.who)
    newest = actions.own(request.who)
    context: dict[str, object] = {"here": "catalogue", "after": newest.number}
    if request.method != "POST":
        return render(request, "web/own_import.html", context)
    words, error = _brought(request)
    error = error or _too_long(words)
    if error:
        return render(request, "web/own_import.html", context | {"errors": [error]}, status=422)
    alone = actions.draft(words, OwnRecord(newest.club_id, 0, ""))
    context |= {
        "brought": words,
        "lines": _lines(words, alone.catalogue, against=newest.text),
    } | _shown(alone.problems, words)
    whole = merged(newest.text, words)
    if error := _too_long(whole):
        return render(request, "web/own_import.html", context | {"errors": [error]}, status=413)
    if request.POST.get("do") != "save":
        return render(request, "web/own_import.html", context)
    if after_of(request) != newest.number:
        said = (
            "Somebody else changed your catalogue meanwhile. Look at what the file would do now, then save."
        )
        return render(request, "web/own_import.html", context | {"errors": [said]}, status=409)
    try:
        number = actions.save(request.who, whole, after=newest.number)
    except ChangedMeanwhile as meanwhile:
        said = "Somebody else saved just now, so nothing was taken in yet. Save once more."
        context |= {"errors": [said], "after": meanwhile.theirs}
        return render(request, "web/own_import.html", context, status=409)
    messages.info(request, f"Taken in; your catalogue is now version {number}.")
    return redirect("own-catalogue")


def _lines(words: str, all_: Catalogue, against: str | None = None) -> list[OwnLine]:
    """The entries of a text. ``against`` : the own text that they would be taken into."""
    lines = []
    base, given_here = shipped(), own_tables(words)
    given_there = own_tables(against) if against is not None else {}
    shipped_of = {"movement": base.movements, "drill": base.drills, "shared": base.shared}
    for kind, id_, _ in own_entries(words)[:MOST_LINES]:
        entry: Entry | None = {
            "movement": all_.movements.get(id_),
            "drill": all_.drills.get(id_),
            "sequence": all_.sequences.get(id_),
        }.get(kind)  # fmt: skip
        usable = entry is not None and id_ in all_.own
        had, given = shipped_of.get(kind, {}), given_here.get((kind, id_))
        does = "cannot be used" if kind != "shared" and not usable else "changes" if id_ in had else "adds"
        if usable and (there := given_there.get((kind, id_))) is not None:
            does = "nothing new" if there == given else "replaces ours"
        what = ", ".join(name for name in given or {} if name != "id") if id_ in had else ""
        form = usable and kind in ("movement", "drill")
        name = entry.name if entry else id_ or "without an id"
        lines.append(OwnLine(id_, name, "warm-up" if kind == "sequence" else kind, does, what, usable, form))
    return lines


def _written(
    request: HttpRequest,
    words: str,
    after: int,
    *,
    draft: Draft | None = None,
    status: int = 200,
    **more: object,
) -> HttpResponse:
    context: dict[str, object] = {"here": "catalogue", "text": words, "after": after, "next": after + 1}
    if draft is not None:
        context |= {
            "checked": True,
            "lines": _lines(words, draft.catalogue),
        } | _shown(draft.problems, words)
    return render(request, "web/own_text.html", context | more, status=status)


def _shown(problems: Sequence[Problem], words: str) -> dict[str, object]:
    """The problems of a text with their lines; ``later`` are fields of a new entry that can come later."""
    source = words.split("\n")

    def lines_of(some: list[Problem]) -> list[ShownProblem]:
        return [
            shown(one, source[one.place.line - 1] if 0 < one.place.line <= len(source) else "")
            for one in some[:MOST_PROBLEMS]
        ]

    later = [one for one in problems if one.kind == "missing field" and one.severity == "look"]
    told = [one for one in problems if one not in later]
    more = max(0, len(told) - MOST_PROBLEMS)
    return {"problems": lines_of(told), "more_problems": more, "later": lines_of(later)}


def _plain(words: str) -> str:
    return words.replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")


def _too_long(words: str) -> str:
    most = settings.MOST_CATALOGUE_LETTERS
    if len(words) <= most:
        return ""
    return (
        f"The text has {len(words):,} letters; at most {most:,} are kept. Take out what the shipped ones say."
    )


def _brought(request: HttpRequest) -> tuple[str, str]:
    """The text of the chosen file, or of the form that follows the look at it; and what is wrong with it."""
    file = request.FILES.get("file")
    if file is None:
        words = _plain(request.POST.get("text", ""))
        return words, "" if words.strip() else "There is no file, or it is empty. Choose your catalogue file."
    if file.size > settings.MOST_FILE_BYTES:
        return (
            "",
            f"The file has {file.size / 1e6:.1f} MB; at most {settings.MOST_FILE_BYTES / 1e6:.0f} are read.",
        )
    found = decoded(file.read())
    if found is None:
        return "", "The file is no text. Choose the .toml file of a catalogue."
    return found, "" if found.strip() else "The file is empty. Choose your catalogue file."
