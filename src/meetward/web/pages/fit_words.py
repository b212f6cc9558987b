"""A proposal as the page shows it: the calendar, reasons, bars of what is kept, and what collides."""

from collections.abc import Callable
from datetime import date, timedelta
from html import escape

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.proposal import Proposal, ProposedSession
from meetward.fit.weeks_plan import FittedWeek
from meetward.lifter.calendar import DAYS
from meetward.lifter.restrictions import day_said, restriction_said
from meetward.publish.words import show_date
from meetward.web.actions.cycles import VersionRecord
from meetward.web.actions.fits import FitWish
from meetward.web.actions.kept import counted
from meetward.workload.count import Count

BAR_PX, BAR_HIGH_PX = 240, 14
HEAVY_ZONES = slice(4, 7)
"""Of ``workload.count.ZONES``: 80 % and over."""

_WEEK_OF = "Week of "


class ShownDay(msgspec.Struct, frozen=True):
    """A day of the calendar.

    kind : "session", "meet", "blocked", "free" or "outside" (before the start, after the meet).
    title, more : of the session, the meet or the block.
    """

    on: date
    name: str
    kind: str
    title: str = ""
    more: str = ""
    flag: str = ""


class ShownWeek(msgspec.Struct, frozen=True):
    """A week of the calendar. ``number`` is the week of the club's cycle, empty where there is none."""

    monday: date
    kind: str
    number: str
    role: str
    level: str
    why: str
    days: tuple[ShownDay, ...]


class Folded(msgspec.Struct, frozen=True):
    """Reasons of one week. ``proof`` says how good its days are known to be."""

    title: str
    reasons: tuple[str, ...]
    proof: str


class Bar(msgspec.Struct, frozen=True):
    """A kind of lifts: full cycle and fitted. ``svg`` draws both."""

    name: str
    full: int
    kept: int
    svg: str


class LeastBad(msgspec.Struct, frozen=True):
    """A plan that breaks rules: which, and its weeks in a row."""

    broken: tuple[str, ...]
    weeks: str


class ShownFit(msgspec.Struct, frozen=True):
    """Everything that the page says of a proposal."""

    possible: bool
    goal: str
    meet_on: str
    weeks: tuple[ShownWeek, ...]
    week_reasons: tuple[str, ...]
    body_reasons: tuple[str, ...]
    folded: tuple[Folded, ...]
    bars: tuple[Bar, ...]
    totals: tuple[Bar, ...]
    costs: tuple[str, ...]
    certificate: str
    reliefs: tuple[str, ...]
    problems: tuple[str, ...]
    collide: tuple[str, ...]
    facts: tuple[str, ...]
    least_bad: tuple[LeastBad, ...]


def shown_fit(proposal: Proposal, version: VersionRecord, wish: FitWish, catalogue: Catalogue) -> ShownFit:
    """A proposal in words and drawings."""
    fit = proposal.weeks_fit
    bars, totals = _bars(proposal, version, catalogue)
    clash = fit.clash
    return ShownFit(
        possible=proposal.possible,
        goal=proposal.goal,
        meet_on=show_date(proposal.meet_on),
        weeks=tuple(_week(week, proposal, wish) for week in fit.weeks),
        week_reasons=fit.reasons,
        body_reasons=_body_reasons(proposal),
        folded=_folded(proposal),
        bars=bars,
        totals=totals,
        costs=tuple(f"{one.said}: {one.cost}" for one in fit.costs if one.cost),
        certificate=_certificate(proposal),
        reliefs=tuple(one.said for one in fit.reliefs),
        problems=tuple(f"{one.message} {one.repair}" for one in proposal.problems),
        collide=clash.said if clash else (),
        facts=clash.facts if clash else (),
        least_bad=tuple(
            LeastBad(tuple(said for _, said in plan.broken), _in_a_row(plan.weeks)) for plan in fit.least_bad
        ),
    )


def limits_said(wish: FitWish, catalogue: Catalogue, today: date) -> tuple[str, ...]:
    """Restrictions and missing kit, each in words; one that has ended says so."""
    every = [(restriction_said(one, catalogue), one.words, one.until) for one in wish.limits.restrictions] + [
        (one.said, one.words, one.until) for one in wish.limits.missing
    ]
    return tuple(
        said
        + (f" ({words})" if words else "")
        + (f"; it ended on {day_said(until)} and changes nothing now" if until and until < today else "")
        for said, words, until in every
    )


def summary(proposal: Proposal) -> str:
    """A proposal in one line, for a list: "9 weeks of 12; 3 left out, 1 blocked"."""
    if proposal.cycle is None:
        clash = proposal.weeks_fit.clash
        whys = clash.said if clash else tuple(one.message for one in proposal.problems)
        return " ".join(whys) or "No plan keeps every rule."
    weeks = proposal.weeks_fit.weeks
    used = [week.template_week for week in weeks if week.template_week]
    said = f"{len(set(used))} weeks of the cycle over {len(weeks)}"
    lighter = sum(week.leans_on is not None for week in weeks)
    blocked = sum(week.kind == "blocked" for week in weeks)
    more = [f"{blocked} blocked"] if blocked else []
    more += [f"{lighter} extra lighter"] if lighter else []
    more += [f"{len(used) - len(set(used))} repeated"] if len(used) > len(set(used)) else []
    return ", ".join([said, *more]) + f"; {len(proposal.sessions)} sessions"


def changes(proposal: Proposal) -> tuple[str, ...]:
    """What a proposal changes for a lifter, shorter than on its own page: every week, and how many lifts."""
    planned = sum(sum(one.full for one in days.families) for days in proposal.days_fit)
    kept = sum(sum(one.kept for one in days.families) for days in proposal.days_fit)
    said = list(proposal.weeks_fit.reasons)
    if planned > kept:
        said.append(
            f"Of the {round(planned)} lifts of these weeks {round(kept)} find a place on days and minutes."
        )
    replaced = sum(bool(line.instead_of) for session in proposal.sessions for line in session.lines)
    if replaced:
        said.append(
            f"{replaced} line{'' if replaced == 1 else 's'} of lifts {'is' if replaced == 1 else 'are'} "
            "replaced or left out by restrictions and missing kit."
        )
    return tuple(said)


def _week(week: FittedWeek, proposal: Proposal, wish: FitWish) -> ShownWeek:
    sessions = {one.on: one for one in proposal.sessions}
    meets = {one.on: one.name for one in wish.meets} | {wish.meet_on: wish.goal}
    role: str = "" if week.role == "load" else week.role
    if week.leans_on:
        role = f"extra lighter, from week {week.leans_on}"
    level = f"{week.level_permille / 10:g} % of its sets" if 0 < week.level_permille < 1000 else ""
    return ShownWeek(
        week.monday,
        week.role,
        str(week.template_week or ""),
        role,
        level,
        week.why.said,
        tuple(
            _day(week.monday + timedelta(days=day), name, sessions, meets, wish)
            for day, name in enumerate(DAYS)
        ),
    )


def _day(
    on: date, name: str, sessions: dict[date, ProposedSession], meets: dict[date, str], wish: FitWish
) -> ShownDay:
    block = next((one for one in wish.blocks if one.first <= on <= one.last), None)
    session = sessions.get(on)
    flag = meets.get(on, "")
    if session is not None:
        more = f"{session.minutes} min" if session.minutes and not flag else ""
        # A session that is named for the club's meet is the lifter's own meet here.
        title = "" if flag and on == wish.meet_on else session.title or f"Session {session.template[1]}"
        return ShownDay(on, name, "session", title or ("The meet" if wish.meet else "The test"), more, flag)
    if flag:
        return ShownDay(on, name, "meet", "", "", flag)
    if not wish.starts_on <= on <= wish.meet_on:
        return ShownDay(on, name, "outside")
    if block is not None:
        return ShownDay(on, name, "blocked", block.reason or ("ill" if block.illness else "blocked"))
    return ShownDay(on, name, "free")


def _body_reasons(proposal: Proposal) -> tuple[str, ...]:
    weeks = set(proposal.weeks_fit.reasons)
    return tuple(one for one in proposal.reasons if one not in weeks and not one.startswith(_WEEK_OF))


def _folded(proposal: Proposal) -> tuple[Folded, ...]:
    trained = (week for week in proposal.weeks_fit.weeks if week.template_week or week.leans_on)
    return tuple(
        Folded(
            f"Week of {week.monday.day} {week.monday:%B}"
            + (f", week {week.template_week} of the cycle" if week.template_week else ", extra lighter week"),
            days.reasons,
            days.proof.said,
        )
        for week, days in zip(trained, proposal.days_fit, strict=True)
        if days.reasons
    )


def _certificate(proposal: Proposal) -> str:
    fit = proposal.weeks_fit
    if fit.cost is None:
        return ""
    cost = f"This order of weeks costs {fit.cost}" if fit.cost else "This order of weeks costs nothing"
    if fit.runner_up_cost is None:
        return f"{cost}, and there is no other that keeps every rule."
    return f"{cost}; the next best one that keeps every rule costs {fit.runner_up_cost}."


def _in_a_row(weeks: tuple[FittedWeek, ...]) -> str:
    return ", ".join(str(week.template_week) if week.template_week else week.role for week in weeks)


def _bars(
    proposal: Proposal, version: VersionRecord, catalogue: Catalogue
) -> tuple[tuple[Bar, ...], tuple[Bar, ...]]:
    if proposal.cycle is None:
        return (), ()
    full, kept = (counted(cycle, catalogue).cycle for cycle in (version.cycle, proposal.cycle))
    names = dict.fromkeys([name for name, _ in full.families] + [name for name, _ in kept.families])
    pairs = [(name.capitalize(), round(full.family(name)), round(kept.family(name))) for name in names]
    pairs.sort(key=lambda one: -one[1])
    most = max((max(one[1:]) for one in pairs), default=1) or 1
    families = tuple(Bar(*one, _bar(*one, most)) for one in pairs)
    said: tuple[tuple[str, Callable[[Count], float]], ...] = (
        ("All lifts", lambda one: one.lifts),
        ("At 80 % and over", lambda one: sum(one.zones[HEAVY_ZONES])),
    )
    rows = [(name, round(of(full)), round(of(kept))) for name, of in said]
    most = max((max(one[1:]) for one in rows), default=1) or 1
    return families, tuple(Bar(*one, _bar(*one, most)) for one in rows)


def _bar(name: str, full: int, kept: int, most: int) -> str:
    """The full cycle as an outline, the fitted one filled."""
    wide, filled = (round(BAR_PX * lifts / most, 1) for lifts in (full, kept))
    said = escape(f"{name}: {kept} of {full} lifts")
    return (
        f'<svg class="kept" role="img" width="{BAR_PX + 2}" height="{BAR_HIGH_PX + 2}" '
        f'viewBox="0 0 {BAR_PX + 2} {BAR_HIGH_PX + 2}"><title>{said}</title>'
        f'<rect class="kept-full" x="1" y="1" width="{wide}" height="{BAR_HIGH_PX}"/>'
        f'<rect class="kept-done" x="1" y="1" width="{filled}" height="{BAR_HIGH_PX}"/></svg>'
    )
