"""A movement or drill in a form: added, or changed for the club; only what differs is written down."""

import msgspec
from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from meetward.catalogue.catalogue import Catalogue, kind_of
from meetward.catalogue.drill import Drill
from meetward.catalogue.files import at_entry
from meetward.catalogue.movement import Movement
from meetward.catalogue.own import new_id, own_fields
from meetward.catalogue.reading import shipped
from meetward.catalogue.words import LONGEST_NAME
from meetward.problem import Problem
from meetward.web.actions import catalogues as actions
from meetward.web.actions.catalogues import CannotWrite, ChangedMeanwhile, Draft, OwnKind, OwnRecord
from meetward.web.actions.who import Hidden

from .entry_fields import (
    MOST_ROWS,
    PARTS,
    Field,
    Values,
    empty,
    fields_of,
    meant,
    sent_values,
    shown_values,
)
from .problems import ShownProblem, shown

KINDS: tuple[OwnKind, ...] = ("movement", "drill")

_ASKED = {
    "fault": "text", "cause": "text", "fix": "text", "source": "text", "of": "lift", "when": "line",
    "sets": "line", "metres": "line", "load_permille": "line", "low_permille": "number",
    "typical_permille": "number", "high_permille": "number", "rounds": "number",
}  # fmt: skip
"""How a cell of a row is asked for; the others as numbers in a dose and as a line in other rows."""


class ShownField(msgspec.Struct, frozen=True):
    """A field with what stands in it and what is wrong with it.

    value : the words; of ``choices`` and ``rows`` the list. ``answers`` have (value, words, chosen).
    """

    name: str
    label: str
    how: str
    hint: str
    value: object
    answers: tuple[tuple[str, str, bool], ...]
    columns: tuple[tuple[str, str], ...]
    problems: tuple[ShownProblem, ...]

    @property
    def wrong(self) -> bool:
        """Whether something stops here."""
        return any(one.severity == "stop" for one in self.problems)

    @property
    def tall(self) -> int:
        """Rows of a text field that show what stands in it."""
        words = str(self.value)
        return min(14, max(2, words.count("\n") + len(words) // 70 + 1))


class ShownPart(msgspec.Struct, frozen=True):
    """Fields that belong together. ``open`` where something is wrong, or where every new entry begins."""

    title: str
    fields: tuple[ShownField, ...]
    open: bool


class Difference(msgspec.Struct, frozen=True):
    """A field that somebody else has saved otherwise."""

    label: str
    theirs: str
    yours: str


@require_http_methods(["GET", "HEAD", "POST"])
def new(request: HttpRequest, kind: str) -> HttpResponse:
    """What do you want to add?"""
    if kind not in KINDS:
        raise Hidden
    return _form(request, "drill" if kind == "drill" else "movement", "")


@require_http_methods(["GET", "HEAD", "POST"])
def change(request: HttpRequest, entry: str) -> HttpResponse:
    """What do you want to change?"""
    actions.need_to_write(request.who)
    return _form(request, _kind_here(actions.catalogue_here(request.who), entry), entry)


@require_POST
def take_back(request: HttpRequest, entry: str) -> HttpResponse:
    """The entry as shipped again, or an own one gone; the versions before keep it."""
    actions.need_to_write(request.who)
    all_ = actions.catalogue_here(request.who)
    kind = _kind_here(all_, entry)
    name = _of(all_, kind, entry).name
    newest = actions.own(request.who)
    if after_of(request) != newest.number:
        messages.info(request, "Somebody else saved meanwhile. Look at it as it is now, then take it back.")
        return redirect("entry-change", entry)
    draft = actions.without(newest, kind, entry)
    if draft.lost:
        context = {"lost": [shown(one) for one in draft.lost], "name": name, "here": "catalogue", "id": entry}
        return render(request, "web/entry_needed.html", context, status=422)
    try:
        number = actions.save(request.who, draft.text, after=newest.number)
    except ChangedMeanwhile:
        messages.info(request, "Somebody else saved meanwhile. Look at it as it is now, then take it back.")
        return redirect("entry-change", entry)
    left = entry in draft.catalogue.movements or entry in draft.catalogue.drills
    what = "stands as shipped again" if left else "is no longer in your catalogue"
    messages.info(request, f"{name} {what}. Version {number - 1} of your catalogue keeps what you had.")
    return redirect("entry", entry) if left else redirect("own-catalogue")


def _form(request: HttpRequest, kind: OwnKind, id_: str) -> HttpResponse:
    actions.need_to_write(request.who)
    all_, newest = actions.catalogue_here(request.who), actions.own(request.who)
    had = _of(all_, kind, id_) if id_ else None
    named = request.GET.get("name", "").replace("\x00", "")[:LONGEST_NAME]
    values = shown_values(had, kind, all_) if had else empty(kind) | {"name": named}
    form = _Form(request, kind, id_, all_, newest)
    if request.method != "POST":
        return form.answer(values, newest.number)
    values, after = sent_values(request.POST, kind, values), after_of(request)
    if after != newest.number and id_ and _moved(request, kind, id_, after, newest):
        assert had is not None
        return form.clash(values, shown_values(had, kind, all_))
    if not id_:
        twin = all_.find(values["name"], kind)
        if twin is not None and twin.exact and request.GET.get("anyway") != "1":
            return form.answer(values, newest.number, twin=twin.entry.id, status=422)
    target = id_ or new_id(values["name"], {e.id: e for e in all_})
    try:
        draft = actions.with_changed(newest, kind, target, meant(values, kind, target, all_))
    except CannotWrite as error:
        return form.answer(values, newest.number, errors=[str(error)], status=422)
    stopped = draft.lost or tuple(one for one in draft.of(kind, target) if one.severity == "stop")
    if stopped or request.POST.get("do") != "save":
        return form.answer(values, newest.number, draft=draft, target=target, status=422 if stopped else 200)
    if draft.text == newest.text:
        messages.info(request, "Nothing differs from what stands there, so nothing was saved.")
        return redirect("entry", target)
    try:
        number = actions.save(request.who, draft.text, after=newest.number)
    except ChangedMeanwhile as clash:
        return form.answer(
            values,
            clash.theirs,
            errors=["Somebody else saved just now, so yours is not saved yet. Save once more."],
            status=409,
        )
    messages.info(request, _saved(values["name"], number, draft.of(kind, target)))
    return redirect("entry", target)


class _Form:
    """The form's answers to one request."""

    def __init__(
        self, request: HttpRequest, kind: OwnKind, id_: str, all_: Catalogue, newest: OwnRecord
    ) -> None:
        self.request, self.kind, self.id, self.all, self.newest = request, kind, id_, all_, newest

    def answer(
        self,
        values: Values,
        after: int,
        *,
        draft: Draft | None = None,
        target: str = "",
        status: int = 200,
        **more: object,
    ) -> HttpResponse:
        problems = draft.of(self.kind, target) if draft else ()
        context: dict[str, object] = {
            "here": "catalogue",
            "kind": self.kind,
            "id": self.id,
            "name": values["name"],
            "after": after,
            "parts": _parts(self.kind, values, problems, fresh=not self.id),
            "own": bool(self.id) and self.id in self.all.own,
            "shipped": bool(self.id) and self.id in _shipped(self.kind),
            "checked": draft is not None,
            "lifts": sorted({m.name for m in self.all.movements.values() if m.reference == m.id}),
        }
        if draft is not None:
            named = {field.name for field in fields_of(self.kind)}
            context["others"] = [
                shown(one)
                for one in (*problems, *(one for one in draft.lost if one not in problems))
                if at_entry(one.place)[2] not in named or one not in problems
            ]
            context["problems"] = len(problems)
        if twin := more.get("twin"):
            more["twin_name"] = _of(self.all, self.kind, str(twin)).name
        return render(self.request, "web/entry_form.html", context | more, status=status)

    def clash(self, values: Values, theirs: Values) -> HttpResponse:
        """Somebody else has changed this entry: theirs beside yours, nothing saved, nothing lost."""
        differences = [
            Difference(field.label, _said(theirs[field.name]), _said(values[field.name]))
            for field in fields_of(self.kind)
            if theirs[field.name] != values[field.name]
        ]
        return self.answer(
            values, self.newest.number, status=409, differences=differences, theirs=self.newest
        )


def _parts(kind: OwnKind, values: Values, problems: tuple[Problem, ...], *, fresh: bool) -> list[ShownPart]:
    parts = []
    for n, part in enumerate(PARTS[kind]):
        fields = tuple(_field(field, values[field.name], problems) for field in part.fields)
        wrong = any(field.problems for field in fields)
        parts.append(
            ShownPart(part.title, fields, n < 2 or wrong or (fresh and part.title == "How much of it"))
        )
    return parts


def _field(field: Field, value: object, problems: tuple[Problem, ...]) -> ShownField:
    if field.how in ("rows", "dose"):
        assert isinstance(value, list)
        rows = value if field.how == "dose" and value else [*value, {}][:MOST_ROWS]
        if field.name == "faults":
            rows = [*rows, *[{}] * (2 - len(rows))]
        value = [
            {
                "cells": [
                    (name, label, row.get(name, ""), _ASKED.get(name, field.how))
                    for name, label in field.columns
                ],
                "tick": (*field.tick, bool(row.get(field.tick[0]))) if field.tick[0] else (),
            }
            for row in rows
        ]
    chosen = value if isinstance(value, list) and field.how == "choices" else [value]
    return ShownField(
        field.name,
        field.label,
        field.how,
        field.hint,
        value,
        tuple((one, said, one in chosen) for one, said in field.answers.items()),
        field.columns,
        tuple(_told(one) for one in problems if at_entry(one.place)[2] == field.name),
    )


def _told(problem: Problem) -> ShownProblem:
    """A problem beside its field; that it is missing is said for a form and not for a file."""
    told = shown(problem)
    if problem.kind != "missing field":
        return told
    repair = "It has to be filled in." if problem.severity == "stop" else "It can come later."
    return msgspec.structs.replace(told, message="Nothing stands here yet.", repair=repair)


def _moved(request: HttpRequest, kind: OwnKind, id_: str, after: int, newest: OwnRecord) -> bool:
    """Whether somebody has changed this entry since the form was opened; changes of others do no harm."""
    before = actions.own(request.who, after)
    try:
        return own_fields(before.text, kind, id_) != own_fields(newest.text, kind, id_)
    except CannotWrite:
        return True


def _kind_here(all_: Catalogue, id_: str) -> OwnKind:
    if id_ in all_.movements:
        return "movement"
    if id_ in all_.drills:
        return "drill"
    raise Hidden


def _of(all_: Catalogue, kind: OwnKind, id_: str) -> Movement | Drill:
    return all_.movements[id_] if kind == "movement" else all_.drills[id_]


def _shipped(kind: OwnKind) -> set[str]:
    return {e.id for e in shipped() if kind_of(e) == kind}


def _said(value: object) -> str:
    """What stands in a field, for a comparison."""
    if isinstance(value, list):
        return "\n".join(
            one if isinstance(one, str) else ", ".join(filter(None, one.values())) for one in value
        )
    return str(value)


def _saved(name: str, number: int, problems: tuple[Problem, ...]) -> str:
    missing = [at_entry(one.place)[2] for one in problems if one.kind in ("missing field", "no text")]
    said = f"{name} is saved; your catalogue is now version {number}."
    if missing:
        said += f" Still to be written: {', '.join(dict.fromkeys(missing))}."
    others = [one for one in problems if one.kind not in ("missing field", "no text")]
    return " ".join([said, *(f"{one.message} {one.repair}" for one in others[:5])])


def after_of(request: HttpRequest) -> int:
    """The version that a sent form started from."""
    after = request.POST.get("after", "")
    if not (after.isascii() and after.isdigit() and len(after) < 10):
        raise BadRequest("The form lacks the version that it started from.")
    return int(after)
