"""A root finder and a least-squares step, deterministic and without a library's call overhead."""

from collections.abc import Callable

_STEP = 1e-5
_MOST_ROUNDS = 40


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


def least_squares(off: Callable[[float, float], list[float]], s: float, t: float) -> tuple[float, float]:
    """Levenberg and Marquardt's way for two unknowns; stops when a step no longer helps."""
    here = off(s, t)
    cost = sum(r * r for r in here)
    damping = 1e-3
    for _ in range(_MOST_ROUNDS):
        by_s = off(s + _STEP, t)
        by_t = off(s, t + _STEP)
        a = b = d = g = h = 0.0
        for r, rs, rt in zip(here, by_s, by_t, strict=True):
            js, jt = (rs - r) / _STEP, (rt - r) / _STEP
            a += js * js
            b += js * jt
            d += jt * jt
            g += js * r
            h += jt * r
        moved = False
        while damping < 1e8:
            aa, dd = a * (1 + damping) + 1e-12, d * (1 + damping) + 1e-12
            det = aa * dd - b * b
            ds, dt = (-g * dd + h * b) / det, (-h * aa + g * b) / det
            ds, dt = max(-0.3, min(0.3, ds)), max(-0.3, min(0.3, dt))
            tried = off(s + ds, t + dt)
            lower = sum(r * r for r in tried)
            if lower < cost:
                moved = True
                break
            damping *= 8
        if not moved:
            break
        small = cost - lower < 1e-9 * cost and abs(ds) + abs(dt) < 1e-6
        s, t, here, cost = s + ds, t + dt, tried, lower
        damping = max(damping / 6, 1e-9)
        if small:
            break
    return s, t
