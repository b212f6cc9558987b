"""One lifter: what the coach knows, and what is only derived from it."""

import msgspec
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import Best
from meetward.lifter.calendar import show_days
from meetward.lifter.kit import show_discs
from meetward.lifter.profile import Lifter
from meetward.publish.words import show_date
from meetward.strength.ratios import Derived
from meetward.units import DAG_PER_KG, show_kg
from meetward.web.actions import squad as actions
from meetward.web.actions.catalogues import catalogue_here
from meetward.web.actions.days import derived_bests, training

from .squad import lift_name

FIRST = ("snatch", "clean_and_jerk", "clean", "jerk", "front_squat", "back_squat")
"""Lifts that cycles stand on most; they lead the table."""


class ShownBest(msgspec.Struct, frozen=True):
    """A best as a row; ``link`` is its page in the catalogue."""

    name: str
    link: str
    reps: int
    kg: str
    kind: str
    on: str
    note: str


class ShownRange(msgspec.Struct, frozen=True):
    """A derived best; ``at`` is where the typical value stands on a drawing 120 wide."""

    name: str
    link: str
    low: str
    typical: str
    high: str
    at: int
    why: str
    source: str


@require_safe
def lifter(request: HttpRequest, key: str) -> HttpResponse:
    """What do we know of this lifter?"""
    one = actions.lifter(request.who, key)
    current = training(request.who, key)
    catalogue = catalogue_here(request.who)
    return render(
        request,
        "web/lifter.html",
        {
            "here": "squad",
            "lifter": one,
            "coach": request.who.may("read squad"),
            "cycle": (current.version.cycle.title or "The cycle") if current else "",
            "profile": _profile(one),
            "bests": [
                _best(best, catalogue) for best in sorted(one.bests, key=lambda best: _order(best, catalogue))
            ],
            "derived": [_range(each, catalogue) for each in derived_bests(current)] if current else [],
        },
    )


def _order(best: Best, catalogue: Catalogue) -> tuple[int, str, int]:
    """The lifts that cycles stand on first, then the rest by name."""
    return (
        FIRST.index(best.lift) if best.lift in FIRST else len(FIRST),
        lift_name(best.lift, catalogue),
        best.reps,
    )


def _profile(one: Lifter) -> tuple[tuple[str, str], ...]:
    bodyweight = f"{show_kg(one.bodyweight_dag)} kg" if one.bodyweight_dag else ""
    collars = f", collars {show_kg(one.kit.collars_dag)} kg" if one.kit.collars_dag else ""
    facts = (
        ("Category", one.category or ""),
        ("Born", str(one.birth_year or "")),
        ("Bodyweight", bodyweight),
        ("Training days", show_days(one.days)),
        ("Minutes", f"{one.minutes} a session" if one.minutes else ""),
        ("Bar", f"{show_kg(one.kit.bar_dag)} kg{collars}"),
        ("Discs", show_discs(one.kit.discs)),
        ("Weights shown in", {"kg": "kilograms", "lb": "pounds"}[one.unit]),
        ("Notes", one.notes),
    )
    return tuple((name, value) for name, value in facts if value)


def _best(best: Best, catalogue: Catalogue) -> ShownBest:
    return ShownBest(
        name=lift_name(best.lift, catalogue),
        link=best.lift if best.lift in catalogue.movements else "",
        reps=best.reps,
        kg=f"{show_kg(best.dag)} kg",
        kind={"estimated": "estimated from a set", "stated": "stated, not seen"}.get(best.kind, best.kind),
        on=show_date(best.on) if best.on else "",
        note=best.note,
    )


def _range(one: Derived, catalogue: Catalogue) -> ShownRange:
    wide = one.high_dag - one.low_dag
    return ShownRange(
        name=lift_name(one.lift, catalogue),
        link=one.lift,
        low=_whole(one.low_dag),
        typical=_whole(one.typical_dag),
        high=_whole(one.high_dag),
        at=8 + round(104 * (one.typical_dag - one.low_dag) / wide) if wide else 60,
        why=one.why.said,
        source=one.why.source,
    )


def _whole(dag: int) -> str:
    """Whole kilos: a placeholder with such a range knows no halves."""
    return str(round(dag / DAG_PER_KG))
