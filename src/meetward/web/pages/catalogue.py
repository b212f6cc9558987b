"""The catalogue: finding a movement, a drill or a warm-up while typing."""

from typing import get_args

import msgspec
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_vary_headers
from django.views.decorators.http import require_safe

from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Family, Movement
from meetward.catalogue.search import LONGEST_QUERY, Where
from meetward.publish.picture import picture
from meetward.web.actions.catalogues import catalogue_here

from .filters import filters_of, where_of

MOST_FOUND = 30
MOST_DRAWN = 12
"""Rows with a drawing; each is some kilobytes, and nobody looks at the thirtieth picture."""

PART = "X-Part"
"""Header of a request that wants the results alone, not the page around them."""


class EntryLine(msgspec.Struct, frozen=True):
    """An entry in a list. ``kind`` stands beside the names of drills and warm-ups; ``drawing`` is SVG."""

    id: str
    name: str
    summary: str
    kind: str = ""
    own: bool = False
    drawing: str = ""


class Group(msgspec.Struct, frozen=True):
    """A family of movements, the drills or the warm-ups."""

    name: str
    entries: tuple[EntryLine, ...]


@require_safe
def catalogue(request: HttpRequest) -> HttpResponse:
    """How is it done?"""
    all_ = catalogue_here(request.who)
    q = request.GET.get("q", "").strip()[:LONGEST_QUERY]
    where = where_of(request.GET)
    asked = bool(q) or where != Where()
    every = request.GET.get("every") == "1"
    context: dict[str, object] = {"here": "catalogue", "q": q, "asked": asked}
    if asked:
        results = all_.search(q, where, limit=len(all_) if every else MOST_FOUND)
        context |= {
            "results": results,
            "found": [
                entry_line(one.entry, all_, drawn=n < MOST_DRAWN) for n, one in enumerate(results.found)
            ],
            "every": _address(request, every="1"),
            "unfiltered": _address(request, q=q, alone=True),
        }
    else:
        context["groups"] = _groups(all_)
    part = request.headers.get(PART) == "found"
    if not part:
        context |= {"filters": filters_of(where), "filtered": where != Where()}
    response = render(request, "web/found.html" if part else "web/catalogue.html", context)
    # Page and part have one address: a browser that goes back must not take the one for the other.
    patch_vary_headers(response, [PART])
    response["Cache-Control"] = "private, no-cache"
    return response


def entry_line(one: Entry, all_: Catalogue, *, drawn: bool = False) -> EntryLine:
    """An entry for a list."""
    taught = isinstance(one, Movement | Drill)
    kind = "" if isinstance(one, Movement) else "drill" if taught else "warm-up"
    return EntryLine(
        one.id,
        one.name,
        one.summary if isinstance(one, Movement | Drill) else one.purpose,
        kind,
        one.id in all_.own,
        picture(one, "single") if drawn and isinstance(one, Movement | Drill) else "",
    )


def _groups(all_: Catalogue) -> list[Group]:
    families: dict[str, list[EntryLine]] = {name: [] for name in get_args(Family)}
    for movement in all_.movements.values():
        families[movement.family].append(entry_line(movement, all_))
    families["drills"] = [entry_line(drill, all_) for drill in all_.drills.values()]
    families["warm-up sequences"] = [entry_line(one, all_) for one in all_.sequences.values()]
    return [
        Group(name[:1].upper() + name[1:], tuple(sorted(lines, key=lambda one: _place(one, name))))
        for name, lines in families.items()
        if lines
    ]


def _place(one: EntryLine, family: str) -> tuple[bool, str]:
    """The lift that a family is called after, then the rest by name."""
    return one.name.casefold() != family, one.name.casefold()


def _address(request: HttpRequest, *, alone: bool = False, **more: str) -> str:
    """This page asked otherwise; ``alone`` forgets what else was asked."""
    query = request.GET.copy()
    if alone:
        query.clear()
    for name, value in more.items():
        query[name] = value
    return f"?{query.urlencode()}"
