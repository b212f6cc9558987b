"""What a cycle of the right form may still not say: ends the wrong way round, reps for no movement."""

from collections.abc import Iterator

import msgspec

from meetward.problem import Place, Problem

from .load import ByCategory, Effort, Kilos, Load, Percent, Pounds
from .tree import Cycle, Line, SetGroup, Span


def contradictions(cycle: Cycle, *, source: str = "") -> Iterator[Problem]:
    """Every contradiction in the tree, each with its path in the document and its place in the cycle."""
    for at, said, line in _lines(cycle):
        for number, group in enumerate(line.groups):
            for field, message, repair in _group_faults(line, group):
                yield Problem(
                    Place(source=source, path=f"{at}.groups[{number}].{field}", said=said),
                    kind="contradiction",
                    message=message,
                    repair=repair,
                )


def refusal(line: Line) -> str:
    """Why the document form of a cycle would refuse this line, in words; empty when it would take it."""
    for group in line.groups:
        for _, message, _ in _group_faults(line, group):
            return message
    try:
        msgspec.convert(msgspec.to_builtins(line), Line)
    except msgspec.ValidationError:
        return "A number in it is larger than any training needs."
    return ""


def _lines(cycle: Cycle) -> Iterator[tuple[str, str, Line]]:
    week_number = 0
    for p, phase in enumerate(cycle.phases):
        for w, week in enumerate(phase.weeks):
            week_number += 1
            for s, session in enumerate(week.sessions):
                for g, segment in enumerate(session.segments):
                    for n, line in enumerate(segment.lines):
                        path = f"$.cycle.phases[{p}].weeks[{w}].sessions[{s}].segments[{g}].lines[{n}]"
                        yield path, f"week {week_number}, session {s + 1}, {segment.kind}, line {n + 1}", line


def _group_faults(line: Line, group: SetGroup) -> Iterator[tuple[str, str, str]]:
    if len(group.reps) != len(line.parts):
        yield (
            "reps",
            f"There are reps for {len(group.reps)} movements, but the line has {len(line.parts)}.",
            "Give one entry for each part, null where none is said.",
        )
    for n, reps in enumerate(group.reps):
        if reps is None:
            continue
        if (reps.low is None) != (reps.high is None) or (reps.low or 0) > (reps.high or 0):
            yield (
                f"reps[{n}]",
                "The low end of the reps is above the high end, or one end is missing.",
                "Swap or fill them.",
            )
        if reps.low is None and not reps.or_more:
            yield (
                f"reps[{n}]",
                "Reps with no number must be marked 'or_more'.",
                "Write null where no reps are said.",
            )
    spans: tuple[tuple[str, Span | None], ...] = (
        ("count", group.count),
        ("rest_s", group.rest_s),
        ("hold_s", group.hold_s),
        ("distance_m", group.distance_m),
    )
    for field, span in spans:
        if span is not None and span.low > span.high:
            yield field, f"The low end ({span.low}) is above the high end ({span.high}).", "Swap them."
    for field, low, high in _ends(group.load, "load"):
        if low is not None and low > high:
            yield field, f"The low end ({low}) is above the high end ({high}).", "Swap them."


def _ends(load: Load, at: str) -> Iterator[tuple[str, int | None, int]]:
    """The path of the low end of a load that stands ``at``, and both ends."""
    match load:
        case Percent(low, high, _):
            yield f"{at}.low_permille", low, high
        case Kilos(low, high):
            yield f"{at}.low_dag", low, high
        case Pounds(low, high):
            yield f"{at}.low_clb", low, high
        case ByCategory(men, women):
            yield from _ends(men, f"{at}.men")
            yield from _ends(women, f"{at}.women")
        case Effort(_, low, high):
            yield f"{at}.low_tenths", low, high
