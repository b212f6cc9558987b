"""Ranges as text: the same for what is written into a text and for what is read aloud."""

from meetward.cycle.load import Effort
from meetward.cycle.tree import Span
from meetward.units import show_seconds

MINUTE_S = 60


def range_text(low: str | None, high: str) -> str:
    """ "70", "70-75", or "up to 75" where only a top was said."""
    if low is None:
        return f"up to {high}"
    return high if low == high else f"{low}-{high}"


def span_text(span: Span) -> str:
    """ "3" or "3-5"."""
    return range_text(str(span.low), str(span.high))


def seconds_text(span: Span) -> str:
    """ "45 s", "2:00", "30-90 s" or "2:00-3:00"."""
    if span.low < min(MINUTE_S, span.high):
        return f"{span.low}-{span.high} s"
    return range_text(show_seconds(span.low), show_seconds(span.high))


def effort_text(load: Effort) -> str:
    """ "RPE 8.5" or "RIR 1-2"."""
    return f"{load.scale.upper()} {range_text(_tenths(load.low_tenths), _tenths(load.high_tenths))}"


def _tenths(tenths: int) -> str:
    whole, rest = divmod(tenths, 10)
    return f"{whole}.{rest}" if rest else str(whole)
