"""The cycle fitted to a lifter: worked out from version, wish and lifter, and never stored."""

from collections import OrderedDict
from threading import Lock

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle, Week
from meetward.fit.proposal import Proposal, propose
from meetward.fit.week_days import DaysFitter
from meetward.fit.weeks_plan import FittedWeek
from meetward.lifter.profile import Lifter
from meetward.web.store.cycles import VersionRecord
from meetward.web.store.fits import FitWish

MOST_KEPT = 600
"""Fitted cycles that are kept ready; each is about 100 kB."""

MOST_CASES = 4_000
"""Weeks on days that one fitter keeps solved before it starts anew."""

MOST_FITTERS = 8
"""Catalogues for which a fitter is kept."""


class Fit(msgspec.Struct, frozen=True):
    """A cycle fitted to one lifter.

    drawn : the fitted cycle as days are drawn from it; None where nothing fits. Its notes say nothing of why
        a week was changed: that may be an illness, and sheets hang on walls.
    """

    proposal: Proposal
    drawn: Cycle | None


_kept: OrderedDict[tuple[object, ...], tuple[Catalogue, Fit]] = OrderedDict()
_fitters: OrderedDict[int, tuple[Catalogue, DaysFitter]] = OrderedDict()
_working = Lock()


def fitted(version: VersionRecord, catalogue: Catalogue, lifter: Lifter, wish: FitWish) -> Fit:
    """The version of the cycle as it fits. Some milliseconds; about a second where weeks on these days were
    never solved since the site was started."""
    key = _key(version, catalogue, lifter, wish)
    if (known := _kept.get(key)) is not None:
        return known[1]
    with _working:  # one at a time: the fitter keeps what it has solved for all of them
        if (known := _kept.get(key)) is not None:
            return known[1]
        # All that the wish leaves open is open: another day in the squad's sheet moves nobody's training.
        mine = msgspec.structs.replace(lifter, days=wish.days, minutes=wish.minutes)
        proposal = propose(
            version.cycle,
            mine,
            wish.calendar,
            catalogue,
            minutes=wish.minutes,
            limits=wish.limits,
            fitter=_fitter(catalogue),
        )
        fit = Fit(proposal, _drawn(proposal, version.cycle.meet))
        # The catalogue is held beside the fit, so that its id cannot pass to another.
        _kept[key] = (catalogue, fit)
        while len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
        return fit


def is_ready(version: VersionRecord, catalogue: Catalogue, lifter: Lifter, wish: FitWish) -> bool:
    """Whether the answer is there at once."""
    return _key(version, catalogue, lifter, wish) in _kept


def week_words(week: FittedWeek) -> str:
    """Which week of the club's cycle it is: "Week 7 of the cycle"."""
    if week.template_week:
        return f"Week {week.template_week} of the cycle"
    if week.leans_on:
        return f"An extra lighter week, made of week {week.leans_on} of the cycle"
    return "No week of the cycle"


def forget_fits() -> None:
    """Work everything out anew; for a process in which another database took the place of one."""
    with _working:
        _kept.clear()
        _fitters.clear()


def _drawn(proposal: Proposal, club_meet: str) -> Cycle | None:
    if proposal.cycle is None:
        return None
    whys = iter(week.why.said for week in proposal.weeks_fit.weeks)
    replace = msgspec.structs.replace
    return replace(
        proposal.cycle,
        phases=tuple(
            replace(
                phase,
                weeks=tuple(
                    _week(week, next(whys), club_meet, proposal.goal[:1].upper() + proposal.goal[1:])
                    for week in phase.weeks
                ),
            )
            for phase in proposal.cycle.phases
        ),
    )


def _week(week: Week, why: str, club_meet: str, goal: str) -> Week:
    """Without the reason of the change, and with the lifter's own meet where the session is named for the
    club's."""
    replace = msgspec.structs.replace
    sessions = tuple(
        replace(session, title=goal) if club_meet and session.title == club_meet else session
        for session in week.sessions
    )
    return replace(week, notes=tuple(note for note in week.notes if note != why), sessions=sessions)


def _key(version: VersionRecord, catalogue: Catalogue, lifter: Lifter, wish: FitWish) -> tuple[object, ...]:
    return version.id, id(catalogue), lifter, wish


def _fitter(catalogue: Catalogue) -> DaysFitter:
    known = _fitters.get(id(catalogue))
    if known is not None and known[1].cases <= MOST_CASES:
        return known[1]
    fitter = DaysFitter(catalogue)
    _fitters[id(catalogue)] = (catalogue, fitter)
    while len(_fitters) > MOST_FITTERS:
        _fitters.popitem(last=False)
    return fitter
