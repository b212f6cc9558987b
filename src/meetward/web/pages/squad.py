"""The squad: the table, one lifter, bringing in a spreadsheet, taking it out."""

import msgspec
from django.conf import settings
from django.contrib import messages
from django.core import signing
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import Best
from meetward.lifter.calendar import show_days
from meetward.lifter.kit import show_discs
from meetward.lifter.profile import Lifter
from meetward.lifter.writing import to_csv, to_xlsx
from meetward.units import show_kg
from meetward.web.actions import cycles
from meetward.web.actions import squad as actions
from meetward.web.actions.catalogues import catalogue_here
from meetward.web.actions.fits import stale_fits

from .problems import ShownProblem, shown

FIRST_LIFTS = ("snatch", "clean_and_jerk", "front_squat", "back_squat")
"""Columns of the squad's table that come first; then those that most lifters have."""

MOST_LIFTS = 7
FOUND_SALT = "what a squad's spreadsheet held"
FOUND_SECONDS = 3 * 60 * 60

_marks = {"tested": "", "estimated": "e", "stated": "s"}
_decoder = msgspec.json.Decoder(tuple[Lifter, ...])


class ShownBest(msgspec.Struct, frozen=True):
    """A best in a cell: kilos, how it is known, and its mark (empty for a tested one)."""

    kg: str
    kind: str
    mark: str


class Row(msgspec.Struct, frozen=True):
    """A lifter in the table; ``bests`` follow the table's lifts."""

    key: str
    name: str
    category: str
    born: str
    bests: tuple[ShownBest | None, ...]
    days: str
    minutes: str
    kit: str = ""
    change: str = ""


class Look(msgspec.Struct, frozen=True):
    """What a spreadsheet held. ``signed`` carries the lifters to the next request; nothing is kept here."""

    title: str
    understood: tuple[str, ...]
    ignored: tuple[str, ...]
    problems: tuple[ShownProblem, ...]
    lifts: tuple[str, ...]
    rows: tuple[Row, ...]
    signed: str


@require_safe
def squad(request: HttpRequest) -> HttpResponse:
    """Who lifts with us?"""
    lifters = actions.lifters(request.who)
    lifts = columns(lifters)
    club = cycles.club_here(request.who)
    return render(
        request,
        "web/squad.html",
        {
            "here": "squad",
            "club": club,
            "lifts": [lift_name(lift, catalogue_here(request.who)) for lift in lifts],
            "rows": [_row(one, lifts) for one in lifters],
            "may_change": request.who.may("change squad"),
            "stale": stale_fits(request.who, timezone.localdate()) if request.who.may("change squad") else 0,
            "has_cycle": club.current_book_id is not None,
        },
    )


@require_http_methods(["GET", "HEAD", "POST"])
def bring_in(request: HttpRequest) -> HttpResponse:
    """What is in your spreadsheet? Look first, then save."""
    actions.need_to_change(request.who)
    context: dict[str, object] = {"here": "squad"}
    status = 200
    if request.method == "POST" and request.POST.get("do") == "save":
        try:
            found = signing.loads(request.POST.get("found", ""), salt=_salt(request), max_age=FOUND_SECONDS)
        except signing.BadSignature:
            context["errors"] = ["This look is too old or belongs to another club. Choose the file again."]
            status = 422
        else:
            saved = actions.save(request.who, _decoder.decode(found))
            messages.info(request, f"{saved} lifter{'' if saved == 1 else 's'} saved.")
            return redirect("squad")
    elif request.method == "POST":
        file = request.FILES.get("file")
        if file is None or not file.size:
            context["errors"] = ["There is no file, or it is empty. Choose your spreadsheet."]
            status = 422
        elif file.size > settings.MOST_FILE_BYTES:
            context["errors"] = [
                f"The file has {file.size / 1e6:.1f} MB, and at most {settings.MOST_FILE_BYTES / 1e6:.0f} MB "
                "are read. Keep one sheet with one row for each lifter and save it again."
            ]
            status = 413
        else:
            context["look"] = _look(request, file.read(), file.name)
    return render(request, "web/squad_import.html", context, status=status)


@require_safe
def as_csv(request: HttpRequest) -> HttpResponse:
    """The whole squad as CSV."""
    return _download(
        to_csv(actions.whole(request.who), catalogue_here(request.who)),
        "text/csv; charset=utf-8",
        "squad.csv",
    )


@require_safe
def as_xlsx(request: HttpRequest) -> HttpResponse:
    """The whole squad as a workbook."""
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    return _download(to_xlsx(actions.whole(request.who), catalogue_here(request.who)), kind, "squad.xlsx")


def columns(lifters: tuple[Lifter, ...]) -> tuple[str, ...]:
    """The lifts of the table: the first ones that anybody has, then those that most have."""
    count: dict[str, int] = {}
    for one in lifters:
        for lift in {best.lift for best in one.bests if best.reps == 1}:
            count[lift] = count.get(lift, 0) + 1
    first = [lift for lift in FIRST_LIFTS if lift in count]
    rest = sorted((lift for lift in count if lift not in first), key=lambda lift: (-count[lift], lift))
    return tuple([*first, *rest][:MOST_LIFTS])


def _look(request: HttpRequest, data: bytes, name: str) -> Look:
    look = actions.look_at(request.who, data, name, timezone.localdate())
    found = look.reading.lifters
    lifts = columns(found)
    signed = signing.dumps(msgspec.json.encode(found).decode(), salt=_salt(request), compress=True)
    return Look(
        title=f"{len(found)} lifter{'' if len(found) == 1 else 's'} in {name}",
        understood=tuple(look.reading.columns_understood),
        ignored=tuple(look.reading.columns_ignored),
        problems=tuple(shown(problem) for problem in look.reading.problems),
        lifts=tuple(lift_name(lift, catalogue_here(request.who)) for lift in lifts),
        rows=tuple(
            msgspec.structs.replace(
                _row(one, lifts),
                change=change,
                kit=f"{show_kg(one.kit.bar_dag)} kg bar, {show_discs(one.kit.discs)}",
            )
            for one, change in zip(found, look.changes, strict=True)
        ),
        signed=signed,
    )


def _salt(request: HttpRequest) -> str:
    return f"{FOUND_SALT}, club {request.who.seat.club_id}, user {request.who.user_id}"


def _row(one: Lifter, lifts: tuple[str, ...]) -> Row:
    return Row(
        key=one.key,
        name=one.name,
        category=one.category or "",
        born=str(one.birth_year or ""),
        bests=tuple(_best(one.best(lift)) for lift in lifts),
        days=show_days(one.days),
        minutes=str(one.minutes or ""),
    )


def _best(best: Best | None) -> ShownBest | None:
    # To 100 g: a best in pounds gives 104.78 kg, and nobody reads a table for its grams.
    return ShownBest(show_kg(round(best.dag, -1)), best.kind, _marks[best.kind]) if best else None


def lift_name(lift: str, catalogue: Catalogue) -> str:
    """A lift as the catalogue calls it."""
    movement = catalogue.movements.get(lift)
    return movement.name if movement else lift.replace("_", " ").capitalize()


def _download(body: bytes, kind: str, name: str) -> HttpResponse:
    response = HttpResponse(body, content_type=kind)
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["Cache-Control"] = "private, no-store"
    return response
