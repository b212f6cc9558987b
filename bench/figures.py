"""One figure of a measurement, and how times are taken."""

import gc
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Figure:
    """A line of the report.

    what : what was measured.
    got : the figure with its unit.
    aim : what it should be, in words; empty where there is no aim.
    met : whether it is; None where there is no aim.
    wrong : a figure that has to hold for the program to be right at all, and does not.
    """

    what: str
    got: str
    aim: str = ""
    met: bool | None = None
    wrong: bool = False


LEAST_SAMPLE_S = 0.005


def median_s(work: Callable[[], Any], times: int = 7) -> float:
    """Median time of ``work`` over several samples, after a run that is not counted. [s]

    Quick work is repeated within a sample, as `timeit` has it.
    """
    work()
    repeats = max(1, round(LEAST_SAMPLE_S / max(time_s(work), 1e-7)))

    def sample() -> None:
        for _ in range(repeats):
            work()

    return statistics.median(time_s(sample) for _ in range(times)) / repeats


def time_s(work: Callable[[], Any]) -> float:
    """Time of one run; the collector is quiet meanwhile, as `timeit` has it. [s]"""
    gc.collect()
    gc.disable()
    try:
        start = time.perf_counter()
        work()
        return time.perf_counter() - start
    finally:
        gc.enable()


def ms(seconds: float) -> str:
    """Milliseconds with a sensible number of places."""
    return f"{seconds * 1e3:.3g} ms" if seconds < 1 else f"{seconds:.2f} s"


def at_most(what: str, seconds: float, aim_s: float) -> Figure:
    """A time with its aim."""
    return Figure(what, ms(seconds), f"under {ms(aim_s)}", seconds < aim_s)


def at_least(what: str, ratio: float, aim: float) -> Figure:
    """A ratio with its aim."""
    return Figure(
        what,
        f"{ratio:,.0f} times" if ratio >= 20 else f"{ratio:.1f} times",
        f"at least {aim:,g} times",
        ratio >= aim,
    )
