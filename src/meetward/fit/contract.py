"""A proposal as JSON: the form that other programs can rely on."""

from typing import Any

from meetward.fit.proposal import Proposal, ProposedLine, ProposedSession
from meetward.fit.weeks_plan import FittedWeek
from meetward.problem import stops


def as_json(proposal: Proposal) -> dict[str, Any]:
    """``lifter, meet, possible, weeks, sessions, cost, runner_up_cost, reasons, problems``.

    Dates are ISO 8601. A week without a week of the cycle has ``template_week`` null; ``template`` of a
    session is week and session of the cycle, both from 1. Where nothing fits, ``least_bad`` holds the plans
    that break rules.
    """
    fit = proposal.weeks_fit
    made: dict[str, Any] = {
        "lifter": proposal.lifter,
        "meet": proposal.meet_on.isoformat(),
        "possible": proposal.possible,
        "weeks": [_week(week) for week in fit.weeks],
        "sessions": [_session(session) for session in proposal.sessions],
        "cost": fit.cost,
        "runner_up_cost": fit.runner_up_cost,
        "reasons": list(proposal.reasons),
        "problems": [str(problem) for problem in proposal.problems],
    }
    if not proposal.possible and not stops(proposal.problems):
        made["least_bad"] = [
            {"weeks": [_week(week) for week in plan.weeks], "broken": [said for _, said in plan.broken]}
            for plan in fit.least_bad
        ]
    return made


def _week(week: FittedWeek) -> dict[str, Any]:
    return {
        "monday": week.monday.isoformat(),
        "template_week": week.template_week,
        "role": week.role,
        "why": week.why.said,
        "level_percent": week.level_permille / 10,
    }


def _session(session: ProposedSession) -> dict[str, Any]:
    return {
        "date": session.on.isoformat(),
        "template": list(session.template),
        "title": session.title,
        "minutes": session.minutes,
        "lines": [_line(line) for line in session.lines],
        "left_out": list(session.left_out),
    }


def _line(line: ProposedLine) -> dict[str, Any]:
    made: dict[str, Any] = {"name": line.name, "sets": list(line.sets)}
    if line.instead_of:
        made |= {"instead_of": line.instead_of, "why": line.said}
    return made
