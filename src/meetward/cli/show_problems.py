"""Problems on a terminal: the faulty line with carets, what stops something first."""

from collections.abc import Iterable, Sequence

from rich.console import Console

from meetward.problem import Problem, with_caret

MOST_PROBLEMS = 20


def show_problems(
    problems: Iterable[Problem], source: str, lines: Sequence[str], err: Console, *, verbose: bool
) -> None:
    """Problems with the faulty line, at most ``MOST_PROBLEMS`` of them unless ``verbose``.

    source : put before each, such as the name of the file; lines : of the text that they are about.
    """
    chosen = sorted(problems, key=lambda problem: problem.severity != "stop")
    for problem in chosen if verbose else chosen[:MOST_PROBLEMS]:
        at = problem.place.line
        line = lines[at - 1] if 0 < at <= len(lines) else ""
        err.print(source + with_caret(problem, line))
    if len(chosen) > MOST_PROBLEMS and not verbose:
        err.print(f"and {len(chosen) - MOST_PROBLEMS} more; --verbose shows them all.")


def error_console() -> Console:
    """Standard error, with words printed as they stand."""
    return Console(stderr=True, highlight=False, soft_wrap=True, markup=False)
