"""Problems as pages show them: the place, what is wrong, what to do, and the faulty piece marked."""

import msgspec

from meetward.problem import Problem


class ShownProblem(msgspec.Struct, frozen=True):
    """A problem. ``before``, ``meant`` and ``after`` are the line around what is faulty, if known."""

    severity: str
    where: str
    message: str
    repair: str
    before: str = ""
    meant: str = ""
    after: str = ""


def shown(problem: Problem, text_line: str = "") -> ShownProblem:
    """A problem with its line; a long line is cut to a window around the place."""
    at = problem.place
    # The piece itself is marked below, so a column would say it twice; a sheet's place is said in full.
    where = ", ".join(
        words for words in (at.said, f"line {at.line}" if at.line and text_line else "") if words
    )
    bare = ShownProblem(
        problem.severity, where or str(at) or "somewhere in it", problem.message, problem.repair
    )
    if not at.column or not text_line:
        return bare
    start = min(at.column - 1, len(text_line))
    end = min(start + max(at.width, 1), len(text_line), start + 120)
    first, last = max(0, start - 60), min(len(text_line), end + 60)
    return msgspec.structs.replace(
        bare,
        before=("… " if first else "") + text_line[first:start].lstrip(),
        meant=text_line[start:end] or "…",
        after=text_line[end:last] + (" …" if last < len(text_line) else ""),
    )
