"""Entering measures and mobility tests."""

from collections.abc import Mapping
from datetime import date

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from meetward.body.segments import Measures
from meetward.lifter.screen import Screen
from meetward.problem import Problem
from meetward.publish.words import show_date
from meetward.web.actions import positions as actions
from meetward.web.actions.positions import Positions, SavedMeanwhile, Theirs, in_order, with_screen

from .measured import measure_fields, read_form, screen_fields, words_of
from .positions import private


@require_http_methods(["GET", "HEAD", "POST"])
def measuring(request: HttpRequest, key: str) -> HttpResponse:
    """What did you measure?"""
    theirs = actions.positions(request.who, key)
    kept = theirs.record.kept
    today = timezone.localdate()
    if request.method != "POST":
        screen = _screen_of(kept, _day(request.GET.get("on", "")))
        words = words_of(kept.measures, screen or Screen(taken=today))
        was = _day(request.GET.get("on", "")) if screen else None
        return _page(request, theirs, words, was, after=theirs.record.number)
    words = {name: request.POST.get(name, "") for name in request.POST}
    was = _day(words.get("was", ""))
    after = _after(words.get("after", ""))
    sent = read_form(words, theirs.lifter, today)
    if sent.problems:
        return _page(request, theirs, words, was, after=after, problems=sent.problems, status=422)
    changed = with_screen(Positions(sent.measures, kept.screens), sent.screen, was=was)
    if changed == kept and after == theirs.record.number:
        messages.info(request, "Nothing was changed.")
        return redirect("positions", key)
    try:
        actions.save(request.who, key, changed, after=after)
    except SavedMeanwhile as meanwhile:
        found = _theirs_and_yours(meanwhile.theirs.kept, words, was)
        number = meanwhile.theirs.number
        return _page(request, theirs, words, was, after=number, clash=found, status=409)
    messages.info(request, "Measures and tests are saved.")
    return redirect("positions", key)


def _page(
    request: HttpRequest,
    theirs: Theirs,
    words: Mapping[str, str],
    was: date | None,
    *,
    after: int,
    problems: Mapping[str, tuple[Problem, ...]] | None = None,
    clash: list[tuple[str, str, str]] | None = None,
    status: int = 200,
) -> HttpResponse:
    wrong = problems or {}
    context = {
        "here": "squad",
        "key": theirs.lifter.key,
        "name": theirs.lifter.name,
        "own": theirs.own,
        "whose": "your" if theirs.own else "their",
        "measures": measure_fields(words, wrong),
        "tests": screen_fields(words, wrong),
        "taken": words.get("taken", "")[:40],
        "taken_problems": wrong.get("taken", ()),
        "today": timezone.localdate().isoformat(),
        "was": was.isoformat() if was else "",
        "was_said": show_date(was) if was else "",
        "after": after,
        "days": [
            (one.taken, show_date(one.taken))
            for one in reversed(in_order(theirs.record.kept.screens))
            if one.taken and one.taken != was
        ],
        "wrong": sum(map(len, wrong.values())),
        "clash": clash,
    }
    return private(render(request, "web/measuring.html", context, status=status))


def _theirs_and_yours(
    kept: Positions, words: Mapping[str, str], was: date | None
) -> list[tuple[str, str, str]]:
    """Where what somebody else saved differs from what was typed: field, theirs, yours."""
    day = was or _day(words.get("taken", ""))
    saved = words_of(kept.measures, _screen_of(kept, day) or Screen())
    typed = {**dict.fromkeys(words_of(Measures(), Screen()), ""), **words}
    return [
        (_label(name), saved.get(name, ""), typed[name].strip())
        for name in typed
        if name in saved and name != "taken" and saved[name] != typed[name].strip()
    ]


def _label(name: str) -> str:
    return name.removesuffix("_cm").replace("_", " ").replace("-", ", ").capitalize()


def _screen_of(kept: Positions, day: date | None) -> Screen | None:
    return next((one for one in kept.screens if day is not None and one.taken == day), None)


def _day(words: str) -> date | None:
    try:
        return date.fromisoformat(words.strip())
    except ValueError:
        return None


def _after(words: str) -> int:
    return int(words) if words.isascii() and words.isdigit() and len(words) < 9 else 0
