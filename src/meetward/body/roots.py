"""The one root finder of the room: bracketed, deterministic, without a library's call overhead."""

from collections.abc import Callable


def root(f: Callable[[float], float], low: float, high: float, f_low: float, f_high: float) -> float:
    """Where ``f`` is zero between ``low`` and ``high``; the signs of ``f`` there differ.

    False position with the idle end's value halved (the "Illinois" rule), to 1e-10 in the value or the
    argument.
    """
    if f_low == 0.0:
        return low
    if f_high == 0.0:
        return high
    x, kept = low, 0
    for _ in range(60):
        x = (low * f_high - high * f_low) / (f_high - f_low)
        value = f(x)
        if abs(value) < 1e-10 or high - low < 1e-10:
            return x
        if (value < 0) == (f_low < 0):
            low, f_low = x, value
            if kept == 1:
                f_high *= 0.5
            kept = 1
        else:
            high, f_high = x, value
            if kept == -1:
                f_low *= 0.5
            kept = -1
    return x
