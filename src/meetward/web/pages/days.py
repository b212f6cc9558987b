"""A lifter's day and week, on the page and on paper."""

from datetime import date

import msgspec
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from meetward.fit.fitted import DaySheet
from meetward.publish.page import day_fragment
from meetward.publish.paper import Paper
from meetward.publish.sheet import day_pdf
from meetward.publish.shown import ShownLine, shown_day
from meetward.publish.week import lifter_week_pdf, squad_week_pdf
from meetward.publish.words import show_date, show_minutes
from meetward.web.actions import cycles
from meetward.web.actions import days as actions
from meetward.web.actions.days import Training, day_of, training
from meetward.web.actions.timetable import Slot, Timetable
from meetward.web.actions.who import Hidden

NEAR_DAYS = 300
"""As near as this, a day and a month name a single day, and the year is left out."""


class WeekSet(msgspec.Struct, frozen=True):
    """A set group in the week's short form; ``round`` stands before the first set of a wave."""

    kilos: str
    scheme: str
    round: str = ""


class WeekLine(msgspec.Struct, frozen=True):
    """A lift in the week's short form; ``more`` is said of all its sets ("rest 2:00")."""

    name: str
    sets: tuple[WeekSet, ...]
    more: str = ""


class WeekDay(msgspec.Struct, frozen=True):
    """A day of the week's page."""

    slot: Slot
    when: str
    title: str
    key: bool
    minutes: str
    lines: tuple[WeekLine, ...]


@require_safe
def next_day(request: HttpRequest, key: str) -> HttpResponse:
    """To the session of today, else to the next one."""
    one = training(request.who, key, _cycle_asked(request))
    if one is None:
        return render(request, "web/no_cycle.html", {"here": "squad", "key": key}, status=200)
    slot = one.times.next_from(timezone.localdate())
    if slot is None:
        return _rest(request, one, None)
    return redirect(reverse("day", args=[key, slot]) + _query(request))


@require_safe
def day(request: HttpRequest, key: str, when: date | Slot) -> HttpResponse:
    """What do I lift today?"""
    one = _training(request, key)
    slot = when if isinstance(when, Slot) else one.times.at(when)
    if slot is None:
        assert isinstance(when, date)
        return _rest(request, one, when)
    sheet = day_of(one, slot)
    before, after = one.times.around(slot)
    return render(
        request,
        "web/day.html",
        _frame(request, one)
        | {
            "fitted": _fitted(request, one, slot.week),
            "slot": slot,
            "day_word": day_word(one.times.on(slot)),
            "fragment": day_fragment(sheet, heading_level=2, framed=True),
            "before": before,
            "before_said": _short(one.times, before),
            "after": after,
            "after_said": _short(one.times, after),
        },
    )


@require_safe
def sheet(request: HttpRequest, key: str, when: date | Slot) -> HttpResponse:
    """The day on paper."""
    one = _training(request, key)
    slot = when if isinstance(when, Slot) else one.times.at(when)
    if slot is None:
        raise Hidden
    name = f"{key}-week-{slot.week}-session-{slot.session}.pdf"
    return as_pdf(day_pdf(day_of(one, slot), paper_asked(request)), name)


@require_safe
def week(request: HttpRequest, key: str, week: int) -> HttpResponse:
    """What does my week hold?"""
    one = _training(request, key)
    slots = [slot for slot in one.times.slots if slot.week == week]
    if not 1 <= week <= one.times.weeks:
        raise Hidden
    role = next(w.role for number, _, w in one.version.cycle.weeks() if number == week)
    return render(
        request,
        "web/week.html",
        _frame(request, one)
        | {
            "fitted": _fitted(request, one, week),
            "week": week,
            "weeks": one.times.weeks,
            "week_before": week - 1,
            "week_after": week + 1,
            "role": "" if role == "load" else f"{role} week",
            "days": tuple(_week_day(slot, day_of(one, slot)) for slot in slots),
        },
    )


@require_safe
def week_sheet(request: HttpRequest, key: str, week: int) -> HttpResponse:
    """The week of one lifter on paper."""
    one = _training(request, key)
    sheets = [day_of(one, slot) for slot in one.times.slots if slot.week == week]
    if not sheets:
        raise Hidden
    return as_pdf(lifter_week_pdf(sheets, paper_asked(request)), f"{key}-week-{week}.pdf")


@require_safe
def wall(request: HttpRequest, book: int, week: int) -> HttpResponse:
    """The week of the whole squad, for the wall."""
    version = cycles.version(request.who, book)
    sheets = actions.squad_days(request.who, version, week)
    if not sheets:
        return render(request, "web/no_squad.html", {"here": "cycles"}, status=404)
    return as_pdf(squad_week_pdf(sheets, paper_asked(request)), f"wall-week-{week}.pdf")


def day_word(on: date | None) -> str:
    """A day in the question: "today", "tomorrow", "on Monday 11 January", far away with its year."""
    if on is None:
        return "in this session"
    gap = (on - timezone.localdate()).days
    near = {-1: "yesterday", 0: "today", 1: "tomorrow"}.get(gap)
    said = show_date(on)
    return near or f"on {said if abs(gap) > NEAR_DAYS else said.removesuffix(f' {on.year}')}"


def _training(request: HttpRequest, key: str) -> Training:
    one = training(request.who, key, _cycle_asked(request))
    if one is None:
        raise Hidden
    return one


def _frame(request: HttpRequest, one: Training) -> dict[str, object]:
    return {
        "here": "squad",
        "key": one.lifter.key,
        "name": one.lifter.name,
        "coach": request.who.may("read squad"),
        "cycle_title": one.version.cycle.title or "The cycle",
        "other_cycle": not one.current,
        "query": _query(request),
        "fitted": "",
        "fit_lost": one.fit is not None and not one.fit.weeks,
        "fit_open": request.who.seat.role == "owner" or request.who.seat.lifter_key == one.lifter.key,
    }


def fitted_words(one: Training, week: int, *, own: bool) -> str:
    """Which week of the cycle it is, where the lifter trains from a fit of their own."""
    if one.fit is None or not one.fit.weeks:
        return ""
    what = "meet" if one.fit.wish.meet else "test day"
    whose = "your" if own else "their"
    return f"{one.fit.weeks[week - 1]}, fitted to {whose} {what} on {show_date(one.fit.wish.meet_on)}."


def _fitted(request: HttpRequest, one: Training, week: int) -> str:
    return fitted_words(one, week, own=request.who.seat.lifter_key == one.lifter.key)


def _rest(request: HttpRequest, one: Training, on: date | None) -> HttpResponse:
    before, after = one.times.around_day(on) if on else (None, None)
    context = _frame(request, one) | {
        "on": on,
        "day_word": day_word(on),
        "before": before,
        "before_said": _short(one.times, before),
        "after": after,
        "after_said": _short(one.times, after),
    }
    return render(request, "web/rest_day.html", context)


def _cycle_asked(request: HttpRequest) -> int | None:
    asked = request.GET.get("cycle", "")
    if not asked:
        return None
    if not (asked.isascii() and asked.isdigit() and len(asked) < 10):
        raise Hidden
    return int(asked)


def _query(request: HttpRequest) -> str:
    asked = _cycle_asked(request)
    return "" if asked is None else f"?cycle={asked}"


def paper_asked(request: HttpRequest) -> Paper:
    """The paper that the address names; A4 unless it says Letter."""
    return "letter" if request.GET.get("paper") == "letter" else "a4"


def as_pdf(body: bytes, name: str) -> HttpResponse:
    """A PDF to look at or save under ``name``; nothing between here and the reader keeps a copy."""
    response = HttpResponse(body, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{name}"'
    response["Cache-Control"] = "private, no-store"
    return response


def _short(times: Timetable, slot: Slot | None) -> str:
    if slot is None:
        return ""
    on = times.on(slot)
    return f"{on:%a} {on.day} {on:%b}" if on else f"Week {slot.week}, session {slot.session}"


def _week_day(slot: Slot, sheet: DaySheet) -> WeekDay:
    lifts = (segment for segment in shown_day(sheet).segments if segment.kind == "lifts")
    return WeekDay(
        slot,
        show_date(sheet.on) if sheet.on else f"Session {slot.session}",
        sheet.title,
        sheet.key,
        show_minutes(sheet.minutes),
        tuple(_week_line(line) for segment in lifts for line in segment.lines),
    )


def _week_line(line: ShownLine) -> WeekLine:
    mores = {one.more for one in line.sets}
    shared = mores.pop() if len(mores) == 1 else ""
    sets = []
    for one in line.sets:
        said = " ".join(word for word in (one.lead, one.kilos, one.unit) if word) if one.kilos else one.load
        scheme = ", ".join(word for word in (one.scheme, "" if shared else one.more) if word)
        sets.append(WeekSet(said, scheme, one.round))
    return WeekLine(line.name, tuple(sets), shared)
