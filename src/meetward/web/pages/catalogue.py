"""The catalogue: finding a movement, and its text."""

from typing import get_args

import msgspec
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Family, Movement
from meetward.catalogue.reading import shipped
from meetward.units import show_percent
from meetward.web.actions.who import Hidden

MOST_FOUND = 40


class EntryLine(msgspec.Struct, frozen=True):
    """An entry in a list."""

    id: str
    name: str
    summary: str


class Group(msgspec.Struct, frozen=True):
    """A family of movements, the drills or the warm-ups."""

    name: str
    entries: tuple[EntryLine, ...]


class ShownStep(msgspec.Struct, frozen=True):
    """A step of a warm-up; ``known`` when the catalogue has a page on it."""

    of: str
    name: str
    dose: str
    note: str
    known: bool


@require_safe
def catalogue(request: HttpRequest) -> HttpResponse:
    """How is it done?"""
    all_ = shipped()
    q = request.GET.get("q", "").strip()[:100]
    found = [_line(one.entry) for one in all_.search(q, limit=MOST_FOUND).found] if q else []
    return render(
        request,
        "web/catalogue.html",
        {
            "here": "catalogue",
            "q": q,
            "found": found,
            "suggestion": all_.suggest(q) if q and not found else None,
            "groups": _groups(all_),
        },
    )


@require_safe
def entry(request: HttpRequest, entry: str) -> HttpResponse:
    """How is it done? One movement, drill or warm-up."""
    all_ = shipped()
    one = _find(all_, entry)
    if one is None:
        raise Hidden
    context: dict[str, object] = {"here": "catalogue", "entry": one, "cautions": one.cautions}
    if isinstance(one, Movement):
        context |= {
            "summary": one.summary,
            "cues": one.cues,
            "faults": one.faults,
            "texts": (("Purpose", one.purpose), ("Set-up", one.setup), ("Execution", one.execution)),
            "facts": _movement_facts(one, all_),
        }
    elif isinstance(one, Drill):
        context |= {
            "summary": one.summary,
            "cues": one.cues,
            "faults": one.faults,
            "texts": (("Purpose", one.purpose), ("How", one.how)),
            "facts": (
                ("Where it stands", ", ".join(one.uses)),
                ("For", ", ".join(one.regions)),
                ("Needs", ", ".join(one.equipment)),
            ),
        }
    else:
        context |= {
            "texts": (("Purpose", one.purpose),) + ((("Changed", one.changed),) if one.changed else ()),
            "facts": (("Version", str(one.version)), ("Minutes", f"about {one.minutes}")),
            "steps": tuple(
                ShownStep(
                    step.of, step_of.name if step_of else step.of, step.dose, step.note, step_of is not None
                )
                for step in one.steps
                for step_of in (_find(all_, step.of),)
            ),
        }
    return render(request, "web/entry.html", context)


def _find(all_: Catalogue, id_: str) -> Entry | None:
    return all_.movements.get(id_) or all_.drills.get(id_) or all_.sequences.get(id_)


def _movement_facts(one: Movement, all_: Catalogue) -> tuple[tuple[str, str], ...]:
    reference = all_.movements.get(one.reference)
    facts = [
        ("Family", one.family),
        ("Positions", ", ".join(one.positions)),
        ("Needs", ", ".join(one.equipment)),
    ]
    if one.barbell and reference:
        facts.append(("A percentage means", f"of the best {reference.name[:1].lower()}{reference.name[1:]}"))
    for ratio in one.ratios:
        of = all_.movements.get(ratio.of)
        facts.append(
            (
                "Usual load" if ratio.working_load else "Usual best",
                f"{show_percent(ratio.low_permille)} to {show_percent(ratio.high_permille)} % of "
                f"{of.name.lower() if of else ratio.of}. Source: {ratio.source}",
            )
        )
    return tuple(facts)


def _groups(all_: Catalogue) -> list[Group]:
    families: dict[str, list[EntryLine]] = {name: [] for name in get_args(Family)}
    for movement in all_.movements.values():
        families[movement.family].append(_line(movement))
    families["drills"] = [_line(drill) for drill in all_.drills.values()]
    families["warm-up sequences"] = [_line(one) for one in all_.sequences.values()]
    return [
        Group(name[:1].upper() + name[1:], tuple(sorted(lines, key=lambda one: one.name)))
        for name, lines in families.items()
        if lines
    ]


def _line(one: Entry) -> EntryLine:
    return EntryLine(one.id, one.name, one.summary if isinstance(one, Movement | Drill) else one.purpose)
