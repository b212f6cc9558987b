"""Who is fitted? The whole squad, and the coach's yes for several at once."""

import msgspec
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from meetward.publish.words import show_date
from meetward.web.actions import fits as actions
from meetward.web.actions import squad
from meetward.web.actions.fits import TheirFit

from .fit_words import changes, summary
from .fits import number_sent
from .positions import private

WORK_SECONDS = 4.0
"""So long a page works things out before it shows what it has."""

_ORDER = ("stale", "waits", "cannot", "not worked out", "fitted", "own calendar")
_TITLES = {
    "stale": "Something changed after your yes",
    "waits": "Wait for your yes",
    "cannot": "Cannot be fitted",
    "not worked out": "Not worked out yet",
    "fitted": "Train from their fit",
    "own calendar": "Follow the club's own calendar",
}
_TOLD = {
    "stale": "They train from what you said yes to until you say yes again.",
    "waits": "They follow the club's own calendar until you say yes.",
    "cannot": "No plan keeps every rule; the page of each says which rules collide and the least bad plans.",
    "not worked out": "Nobody knows yet whether anything fits them.",
    "fitted": "Their days, weeks and sheets are drawn from their own fit.",
    "own calendar": "They said nothing of dates, days or limits of their own.",
}


class Row(msgspec.Struct, frozen=True):
    """A lifter. ``said`` is the proposal in a line, ``reasons`` what changes for them."""

    key: str
    name: str
    number: int
    goal: str
    said: str
    stale: tuple[str, ...]
    reasons: tuple[str, ...]
    may_yes: bool


class Group(msgspec.Struct, frozen=True):
    """The lifters in one state."""

    state: str
    title: str
    told: str
    rows: tuple[Row, ...]


@require_http_methods(["GET", "HEAD", "POST"])
def fits(request: HttpRequest) -> HttpResponse:
    """Who is fitted? A POST asks what several yeses would change, or says them."""
    if request.method == "POST" and request.POST.get("do") == "yes":
        return _say_yes(request)
    everybody = actions.squad_fits(request.who, timezone.localdate(), WORK_SECONDS)
    chosen = set(request.POST.getlist("key"))
    rows = {one.lifter.key: _row(one) for one in everybody}
    asked = [row for key, row in rows.items() if key in chosen and row.may_yes]
    left = [row.name for key, row in rows.items() if key in chosen and not row.may_yes]
    version = next((one.version for one in everybody if one.version is not None), None)
    groups = tuple(
        Group(state, _TITLES[state], _TOLD[state], found)
        for state in _ORDER
        if (found := tuple(rows[one.lifter.key] for one in everybody if one.state == state))
    )
    context = {
        "here": "squad",
        "groups": groups,
        "anybody": bool(everybody),
        "cycle": version.cycle.title or "The cycle" if version else "",
        "version": version,
        "unfinished": sum(one.record.wish is not None and one.proposal is None for one in everybody)
        if version
        else 0,
        "many": sum(row.may_yes for row in rows.values()),
        "asked": asked,
        "left": ", ".join(left),
        "nobody_chosen": request.method == "POST" and not asked,
    }
    template = "web/fits_confirm.html" if asked else "web/fits.html"
    status = 422 if context["nobody_chosen"] else 200
    return private(render(request, template, context, status=status))


def _say_yes(request: HttpRequest) -> HttpResponse:
    chosen = []
    for sent in request.POST.getlist("yes"):
        key, _, number = sent.rpartition(":")
        chosen.append((key, number_sent(number)))
    version_id = number_sent(request.POST.get("version", ""))
    done, not_done = actions.approve_many(request.who, chosen, version_id=version_id)
    words = f"{len(done)} lifter{'' if len(done) == 1 else 's'} will train from their fit from now on."
    if not_done:
        names = dict(squad.names(request.who, request.who.seat.club_id))
        said = ", ".join(names.get(key, "somebody who is not here") for key in not_done)
        words += f" Not done for {said}: the cycle or the wish was changed meanwhile. Look again."
    messages.info(request, words)
    return redirect("fits")


def _row(one: TheirFit) -> Row:
    wish, proposal = one.record.wish, one.proposal
    fits_now = proposal is not None and proposal.cycle is not None
    over = wish is not None and wish.meet_on < timezone.localdate()
    return Row(
        one.lifter.key,
        one.lifter.name,
        one.record.number,
        f"{wish.goal}, {show_date(wish.meet_on)}" if wish else "",
        summary(proposal) if proposal else "Not worked out yet." if wish else "",
        one.stale,
        changes(proposal) if proposal else (),
        fits_now and not over and one.state in ("waits", "stale"),
    )
