"""A lifter's own positions: drawn, with what they measured; what is kept can be taken out and deleted."""

from datetime import date

import msgspec
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_safe

from meetward.catalogue.drill import Drill
from meetward.lifter.profile import Lifter
from meetward.lifter.screen import Screen, results
from meetward.publish.picture import picture
from meetward.publish.words import show_date
from meetward.web.actions import positions as actions
from meetward.web.actions.asked import KINDS
from meetward.web.actions.catalogues import catalogue_here
from meetward.web.actions.helping import drills_for, to_work_on
from meetward.web.actions.positions import Theirs, current, in_order, retests
from meetward.web.actions.taken import Taken, taken_for

from .positions_words import ShownPosition, heel_words, how_it_is_drawn, shown_position

MOST_HEEL_MM = 40
PART = "drawn"
"""What the script asks for while the slider moves: the drawings without the page around them."""

ADULT_YEARS = 19
"""Somebody born so many years ago is 18 whatever their birthday."""


class ShownTest(msgspec.Struct, frozen=True):
    """A test of the screen as a row. ``changes`` compares with the measurement before."""

    name: str
    standing: str
    said: tuple[str, ...]
    changes: tuple[str, ...]
    on: str
    norm: str
    source: str


class ShownDrill(msgspec.Struct, frozen=True):
    """A drill that may help."""

    id: str
    name: str
    summary: str
    svg: str


@require_safe
def positions(request: HttpRequest, key: str) -> HttpResponse:
    """What do your positions look like?"""
    theirs = actions.positions(request.who, key)
    found = current(theirs.record.kept.screens)
    taken = taken_for(theirs.lifter, theirs.record.kept.measures, found.screen)
    context = _drawn(request, theirs, taken, found.screen)
    if request.headers.get("X-Part") == PART:
        return private(render(request, "web/positions_drawn.html", context))
    kept = theirs.record.kept
    tests = _tests(theirs)
    context |= {
        "here": "squad",
        "tests": tests if any(test.standing != "unknown" for test in tests) else (),
        "measures": _measures(theirs),
        "anything": theirs.record.number > 0,
        "ankle_known": taken.ankle_from != "not measured",
        "how_drawn": how_it_is_drawn(taken, _whose(theirs)),
        "growing": _growing(theirs.lifter, timezone.localdate()),
        "days": [(one.taken, _on(one.taken)) for one in reversed(in_order(kept.screens))],
    }
    return private(render(request, "web/positions.html", context))


@require_safe
def as_json(request: HttpRequest, key: str) -> HttpResponse:
    """All that is kept, as a file."""
    kept = actions.positions(request.who, key).record.kept
    response = HttpResponse(
        msgspec.json.format(msgspec.json.encode(kept), indent=2), content_type="application/json"
    )
    response["Content-Disposition"] = 'attachment; filename="positions.json"'
    return private(response)


@require_http_methods(["GET", "HEAD", "POST"])
def delete(request: HttpRequest, key: str) -> HttpResponse:
    """Do you want to delete it all?"""
    theirs = actions.positions(request.who, key)
    if request.method == "POST":
        actions.delete(request.who, key)
        messages.info(request, "Measures and tests are deleted.")
        return redirect("positions", key)
    context = {"here": "squad", "key": key, "name": theirs.lifter.name, "own": theirs.own}
    context |= {"anything": theirs.record.number > 0, "days": len(theirs.record.kept.screens)}
    return private(render(request, "web/positions_delete.html", context))


def _drawn(request: HttpRequest, theirs: Theirs, taken: Taken, screen: Screen) -> dict[str, object]:
    heel_mm = _heel(request.GET.get("heel", ""))
    shown = [shown_position(kind, taken, heel_mm, _whose(theirs)) for kind in KINDS]
    joints = to_work_on(_joints(shown), screen)
    drills = drills_for(joints, catalogue_here(request.who), taken.painful)
    return {
        "key": theirs.lifter.key,
        "name": theirs.lifter.name,
        "own": theirs.own,
        "whose": _whose(theirs),
        "typical": not taken.own_lengths,
        "heel": heel_mm,
        "heel_most": MOST_HEEL_MM,
        "heel_words": heel_words(heel_mm).capitalize(),
        "positions": shown,
        "summary": f"{heel_words(heel_mm).capitalize()}. "
        + " ".join(f"{one.name}: {one.verdict.lower()}." for one in shown),
        "short": any(_joints(shown)),
        "tested": bool(joints),
        "drills": [_drill(drill) for drill in drills],
        "painful": bool(taken.painful),
    }


def _heel(asked: str) -> int:
    """The heel that was asked for; none where it is no number, the nearest end where it is out of bounds."""
    words = asked.strip()
    if not (words.isascii() and words.lstrip("-").isdigit() and len(words) < 6):
        return 0
    return max(0, min(MOST_HEEL_MM, int(words)))


def _joints(shown: list[ShownPosition]) -> list[str]:
    """The first joint of every position, then the second ones."""
    firsts = [one.joints[0] for one in shown if one.joints]
    seconds = [joint for one in shown for joint in one.joints[1:]]
    return list(dict.fromkeys(firsts + seconds))


def _drill(drill: Drill) -> ShownDrill:
    return ShownDrill(drill.id, drill.name, drill.summary, picture(drill, "single"))


def _tests(theirs: Theirs) -> tuple[ShownTest, ...]:
    found, again = current(theirs.record.kept.screens), retests(theirs.record.kept.screens)
    return tuple(
        ShownTest(
            name=one.test.name,
            standing=one.standing,
            said=one.said,
            changes=again.get(one.test.id, ()),
            on=_on(found.on[one.test.id]) if one.test.id in found.on else "",
            norm=one.test.norm,
            source=one.test.source,
        )
        for one in results(found.screen)
    )


def _measures(theirs: Theirs) -> tuple[tuple[str, str], ...]:
    kept = theirs.record.kept.measures
    facts = (
        ("Height", kept.height_cm),
        ("Sitting height", kept.sitting_height_cm),
        ("Arm span", kept.arm_span_cm),
        ("Thigh", kept.thigh_cm),
        ("Shank", kept.shank_cm),
    )
    return tuple((name, f"{value:g} cm") for name, value in facts if value)


def _growing(lifter: Lifter, today: date) -> bool:
    return lifter.birth_year is not None and today.year - lifter.birth_year < ADULT_YEARS


def _on(day: date | None) -> str:
    return show_date(day) if day else "day not known"


def _whose(theirs: Theirs) -> str:
    return "your" if theirs.own else "their"


def private(response: HttpResponse) -> HttpResponse:
    """Health data stays out of every cache."""
    response["Cache-Control"] = "private, no-store"
    return response
