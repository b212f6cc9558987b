"""One entry of the catalogue: the drawing, two lines, cues and cautions first, the rest folded."""

from itertools import groupby

import msgspec
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from meetward.catalogue.catalogue import Catalogue, Entry, kind_of
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import COMMON_PRACTICE, Movement
from meetward.catalogue.reading import shipped
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.taught import taught
from meetward.publish.picture import picture
from meetward.publish.shown_entry import asked_words, shown_entry
from meetward.web.actions.catalogues import catalogue_here
from meetward.web.actions.places import Place, Places, places
from meetward.web.actions.who import Hidden

from .entry_fields import fields_of
from .sequences import compared, steps_of

MOST_AHEAD = 4
"""Sessions that stand unfolded; the rest folds."""


class ShownLink(msgspec.Struct, frozen=True):
    """Another entry."""

    id: str
    name: str


class ShownSession(msgspec.Struct, frozen=True):
    """A session that it stands in: the week and the day in words, where it leads, and what stands there."""

    when: str
    address: str
    title: str
    said: tuple[str, ...]


@require_safe
def entry(request: HttpRequest, entry: str) -> HttpResponse:
    """How is it done? One movement, drill or warm-up."""
    all_ = catalogue_here(request.who)
    one = find(all_, entry)
    if one is None:
        raise Hidden
    context = {
        "here": "catalogue",
        "entry": one,
        "kind": kind_of(one),
        "own": own_said(one, all_),
        "changed": _changed(one),
        "may_write": request.who.may("write catalogue"),
        "cycle": _where(request, one.id),
    }
    if isinstance(one, Sequence):
        return render(request, "web/sequence.html", context | _sequence(request, one, all_))
    return render(request, "web/entry.html", context | _taught(one, all_))


def find(all_: Catalogue, id_: str) -> Entry | None:
    """The entry of an address; a sequence in its current version."""
    return all_.movements.get(id_) or all_.drills.get(id_) or all_.sequences.get(id_)


def own_said(one: Entry, all_: Catalogue) -> str:
    """Whose entry it is: "changed" by the club, "added" by it, or empty as shipped."""
    if one.id not in all_.own:
        return ""
    return "changed" if find(shipped(), one.id) is not None else "added"


def _changed(one: Entry) -> str:
    """What a changed entry has otherwise than the shipped one, as the form calls it."""
    base = find(shipped(), one.id)
    kind = kind_of(one)
    if base is None or kind == "sequence" or kind_of(base) != kind:
        return ""
    labels = {field.name: field.label for field in fields_of(kind)}
    return ", ".join(
        labels.get(name, name).lower()
        for name in one.__struct_fields__
        if getattr(one, name) != getattr(base, name)
    )


def _taught(one: Movement | Drill, all_: Catalogue) -> dict[str, object]:
    def name_of(id_: str) -> str:
        found = find(all_, id_)
        return found.name if found else id_

    told = shown_entry(one, all_.shared, name_of)
    asks = []
    for asked in taught(one, all_.shared).asks:
        words = asked_words(asked)
        if "Source:" not in words and asked.source != COMMON_PRACTICE:
            words += f". Source: {asked.source}"
        asks.append(words[:1].upper() + words[1:])
    strip, row = picture(one, "strip"), picture(one, "row")
    facts = [("Trains", told.trains), ("Needs", told.needs)]
    if isinstance(one, Movement):
        facts.insert(0, ("Family", one.family))
        facts.append(("Level", told.level))
        if one.barbell and (reference := all_.movements.get(one.reference)):
            said = f"of the best {reference.name[:1].lower()}{reference.name[1:]}"
            facts.append(("A percentage means", said))
    return {
        "drawing": strip,
        # Seven positions stand in one row where there is room, and in two on a phone.
        "wide_drawing": row if row != strip else "",
        "text": told.text,
        "usual": [words[:1].upper() + words[1:] for words in told.usual],
        "ratios": [words[:1].upper() + words[1:] for words in told.ratios],
        "asks": asks,
        "ways": [
            (title, [ShownLink(id_, name_of(id_)) for id_ in ids])
            for title, ids in (
                ("Easier", one.easier), ("Harder", one.harder), ("For the same position", one.instead)
            )
            if ids
        ],
        "facts": facts,
    }  # fmt: skip


def _sequence(request: HttpRequest, one: Sequence, all_: Catalogue) -> dict[str, object]:
    versions = {str(each.version): each for each in all_.versions[one.id]}
    context: dict[str, object] = {
        "steps": steps_of(one, all_, drawn=True),
        "versions": tuple(reversed(all_.versions[one.id])),
    }
    if len(versions) > 1:
        numbers = list(versions)
        before = versions.get(request.GET.get("from", "")) or versions[numbers[-2]]
        after = versions.get(request.GET.get("to", "")) or one
        context |= {"before": before, "after": after, "pairs": compared(before, after, all_)}
    return context


def _where(request: HttpRequest, id_: str) -> dict[str, object] | None:
    found = places(request.who, id_, timezone.localdate())
    if found is None:
        return None
    ahead, behind = _sessions(found, found.ahead), _sessions(found, found.behind)
    return {
        "book": found.book_id,
        "title": found.title,
        "own_key": found.own_key,
        "count": found.count,
        "weeks": found.weeks,
        "first": ahead[:MOST_AHEAD],
        "later": ahead[MOST_AHEAD:],
        "behind": behind,
    }


def _sessions(found: Places, some: tuple[Place, ...]) -> list[ShownSession]:
    sessions = []
    for slot, group in groupby(some, key=lambda place: place.slot):
        here = tuple(group)
        on = here[0].on
        when = f"{on:%a} {on.day} {on:%b}" if on else f"session {slot.session}"
        if found.own_key:
            address = reverse("day", args=[found.own_key, slot])
        else:
            address = reverse("session", args=[found.book_id, slot.week, slot.session])
        said = tuple(filter(None, map(_said, here)))
        sessions.append(ShownSession(f"Week {slot.week}, {when}", address, here[0].title, said))
    return sessions


def _said(one: Place) -> str:
    return ", ".join(words for words in (one.said, one.inside) if words)
