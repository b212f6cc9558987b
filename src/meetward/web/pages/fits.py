"""How the cycle fits one lifter: the wish, the proposal, and the coach's yes."""

from collections.abc import Mapping

import msgspec
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from meetward.lifter.calendar import show_days
from meetward.lifter.restrictions import Limits
from meetward.publish.words import show_date
from meetward.web.actions import fits as actions
from meetward.web.actions.catalogues import catalogue_here
from meetward.web.actions.fits import CannotFit, SavedMeanwhile, TheirFit

from .fit_form import Problems, first_words, form_of, read_form, words_of
from .fit_words import limits_said, shown_fit
from .positions import private

_LABELS = {
    "starts_on": "First day of training", "meet_on": "Meet or test day", "meet": "Name of the meet",
    "minutes": "Minutes", "limits": "Restrictions and missing kit",
}  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
def fit(request: HttpRequest, key: str) -> HttpResponse:
    """How does the cycle fit this lifter?"""
    today = timezone.localdate()
    theirs = actions.fit_of(request.who, key, today)
    if request.method != "POST":
        return _page(request, theirs, _words(request, theirs))
    words = {name: request.POST.get(name, "") for name in request.POST}
    after = number_sent(words.get("after", ""))
    weeks = sum(1 for _ in theirs.version.cycle.weeks()) if theirs.version else 0
    limits = None if theirs.decides else (theirs.record.wish.limits if theirs.record.wish else Limits())
    sent = read_form(words, catalogue_here(request.who), today, weeks, limits)
    if sent.wish is None:
        return _page(request, theirs, words, after=after, problems=sent.problems, status=422)
    if sent.wish == theirs.record.wish and after == theirs.record.number:
        messages.info(request, "Nothing was changed.")
        return redirect("fit", key)
    try:
        actions.save_wish(request.who, key, sent.wish, after=after)
    except SavedMeanwhile:
        now = actions.fit_of(request.who, key, today)
        clash = _theirs_and_yours(request, now, words)
        return _page(request, now, words, after=now.record.number, clash=clash, status=409)
    messages.info(
        request,
        "Saved. The days stay as they are until "
        + ("you say yes to what is proposed." if theirs.decides else "your coach says yes."),
    )
    return redirect("fit", key)


@require_POST
def say_yes(request: HttpRequest, key: str) -> HttpResponse:
    """The lifter trains from this fit from now on."""
    try:
        actions.approve(
            request.who,
            key,
            after=number_sent(request.POST.get("after", "")),
            version_id=number_sent(request.POST.get("version", "")),
        )
    except SavedMeanwhile:
        messages.info(
            request,
            "Not done: the cycle or the wish was changed while you had this open. "
            "Look at what is proposed now, then say yes to that.",
        )
    except CannotFit:
        messages.info(request, "Not done: nothing fits, so there is nothing to train from.")
    else:
        messages.info(request, "Done. From now on the days are drawn from this fit.")
    return redirect("fit", key)


@require_POST
def take_back(request: HttpRequest, key: str) -> HttpResponse:
    """The lifter trains from the club's own calendar again."""
    try:
        actions.take_back(request.who, key, after=number_sent(request.POST.get("after", "")))
    except SavedMeanwhile:
        messages.info(request, "Not done: somebody else changed this meanwhile. Look again.")
    else:
        messages.info(request, "Taken back. From now on the days are those of the club's own calendar.")
    return redirect("fit", key)


@require_http_methods(["GET", "HEAD", "POST"])
def delete(request: HttpRequest, key: str) -> HttpResponse:
    """Do you want to delete what is kept of it?"""
    theirs = actions.fit_to_delete(request.who, key, timezone.localdate())
    if request.method == "POST":
        actions.delete(request.who, key)
        messages.info(request, "Deleted. The days are those of the club's own calendar.")
        return redirect("fit", key)
    context: dict[str, object] = {"here": "squad", "key": key, "name": theirs.lifter.name}
    context |= {"anything": theirs.record.number > 0, "approved": theirs.record.approval is not None}
    return private(render(request, "web/fit_delete.html", context))


@require_safe
def as_json(request: HttpRequest, key: str) -> HttpResponse:
    """All that is kept, as a file."""
    record = actions.fit_of(request.who, key, timezone.localdate()).record
    body = msgspec.json.format(msgspec.json.encode(record), indent=2)
    response = HttpResponse(body, content_type="application/json")
    response["Content-Disposition"] = 'attachment; filename="fit.json"'
    return private(response)


def number_sent(words: str) -> int:
    """A number in a hidden field; 0 where it is none."""
    return int(words) if words.isascii() and words.isdigit() and len(words) < 10 else 0


def _page(
    request: HttpRequest,
    theirs: TheirFit,
    words: Mapping[str, str],
    *,
    after: int | None = None,
    problems: Problems | None = None,
    clash: list[tuple[str, str, str]] | None = None,
    status: int = 200,
) -> HttpResponse:
    catalogue = catalogue_here(request.who)
    wish, approval = theirs.record.wish, theirs.record.approval
    wrong = problems or {}
    shown = None
    if theirs.proposal is not None and theirs.version is not None and wish is not None:
        shown = shown_fit(theirs.proposal, theirs.version, wish, catalogue)
    today = timezone.localdate()
    context = {
        "here": "squad",
        "key": theirs.lifter.key,
        "name": theirs.lifter.name,
        "own": theirs.own,
        "decides": theirs.decides,
        "state": theirs.state,
        "stale": theirs.stale,
        "approval": approval,
        "approved_goal": approval.wish.goal if approval else "",
        "approved_on": show_date(approval.wish.meet_on) if approval else "",
        "wish": wish,
        "days": show_days(wish.days) if wish else "",
        "limits": limits_said(wish, catalogue, today) if wish else (),
        "cycle": (theirs.version.cycle.title or "The cycle") if theirs.version else "",
        "version": theirs.version,
        "fit": shown,
        "over": bool(wish and wish.meet_on < today),
        "links": theirs.state == "fitted",
        "form": form_of(words, wrong),
        "open": bool(wrong) or clash is not None or wish is None,
        "wrong": sum(map(len, wrong.values())),
        "clash": clash,
        "number": theirs.record.number,
        "after": theirs.record.number if after is None else after,
    }
    return private(render(request, "web/fit.html", context, status=status))


def _words(request: HttpRequest, theirs: TheirFit) -> dict[str, str]:
    if theirs.record.wish is None:
        return first_words(theirs.lifter, theirs.version.cycle if theirs.version else None)
    return words_of(theirs.record.wish, catalogue_here(request.who))


def _theirs_and_yours(
    request: HttpRequest, theirs: TheirFit, words: Mapping[str, str]
) -> list[tuple[str, str, str]]:
    """Where what somebody else saved differs from what was typed: field, theirs, yours."""
    saved = _words(request, theirs) if theirs.record.wish else {}
    skip = {"after", "csrfmiddlewaretoken"} | (set() if theirs.decides else {"limits"})
    names = [name for name in dict.fromkeys((*words, *saved)) if name not in skip]
    return [
        (_label(name), saved.get(name, ""), words.get(name, "").strip())
        for name in names
        if saved.get(name, "") != words.get(name, "").strip()
    ]


def _label(name: str) -> str:
    kind, _, rest = name.partition("-")
    if kind == "day" and rest.isdigit() and int(rest) < 7:
        return ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")[int(rest)]
    if kind in ("block", "meet") and rest:
        number, _, part = rest.partition("-")
        what = "Days without training" if kind == "block" else "Meet on the way"
        return f"{what}, row {int(number) + 1 if number.isdigit() else number}, {part}"
    return _LABELS.get(name, name)
