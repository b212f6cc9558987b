"""Sets in plain words, as a coach would read them aloud."""

from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Load,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.cycle.tree import Reps, SetGroup, Span
from meetward.units import show_kg, show_percent, show_seconds

from .ranges import effort_text, range_text, seconds_text, span_text
from .settle import Settled


def said(reading: Settled) -> str:
    """The sets of a reading in words; without the movements."""
    return "; ".join(group_said(group) for group in reading.groups) or "no sets"


def group_said(group: SetGroup) -> str:
    """One group in words: "5 sets of 3 at 70 %, rest 2:00"."""
    words: list[str] = []
    if group.wave:
        words.append(f"wave {group.wave}:")
    reps = reps_said(group.reps)
    heavy = isinstance(group.load, Heavy)
    if group.count is not None:
        one = group.count == Span(1, 1)
        words.append(f"{span_text(group.count)} set{'' if one else 's'}")
        if reps:
            words.append(f"of {reps}")
    elif reps and not heavy:
        words.append(f"sets of {reps}")
    if group.hold_s is not None:
        words.append(("of " if group.count else "") + seconds_text(group.hold_s))
    if group.distance_m is not None:
        words.append(f"of {span_text(group.distance_m)} m")
    if group.cluster:
        words.append(f"({' + '.join(map(str, group.cluster))})")
    if group.per_side:
        words.append("a side")
    load = load_said(group.load, climbing=group.climbing)
    if heavy and group.count is None and reps:
        load = (
            f"{load} ({reps} rep{'' if reps == '1' else 's'})"
            if not isinstance(group.load, Heavy) or group.load.reps is None
            else load
        )
    if group.on_the_way:
        words.append("on the way")
    if load:
        words.append(load if heavy or load.startswith(("up to", "of", "climbing")) else f"at {load}")
    if group.drop:
        words.append("as a drop set")
    if group.missed:
        words.append("missed")
    more = []
    if group.every_s is not None:
        more.append(f"every {show_seconds(group.every_s)}")
    if group.within_s is not None:
        more.append(f"within {show_seconds(group.within_s)}")
    if group.rest_s is not None:
        more.append(f"rest {seconds_text(group.rest_s)}")
    if group.cluster_rest_s is not None:
        more.append(f"{show_seconds(group.cluster_rest_s)} between the reps")
    if group.tempo:
        more.append(f"tempo {group.tempo}")
    if group.note:
        more.append(group.note)
    return ", ".join([" ".join(words), *more]) if words else ", ".join(more)


def reps_said(reps: tuple[Reps | None, ...]) -> str:
    """ "3", "3-5", "5 or more", "2 + 1"; empty where nothing was said."""
    if all(r is None for r in reps):
        return ""
    return " + ".join("?" if r is None else _one(r) for r in reps)


def _one(reps: Reps) -> str:
    if reps.low is None:
        return "as many as possible"
    base = str(reps.low) if reps.low == reps.high else f"{reps.low}-{reps.high}"
    return f"{base} or more" if reps.or_more else base


def load_said(load: Load, *, climbing: bool = False) -> str:
    """A load in words; empty for none."""
    rising = " climbing" if climbing else ""
    match load:
        case Percent():
            body = range_text(
                None if load.low_permille is None else show_percent(load.low_permille),
                show_percent(load.high_permille),
            )
            return f"{body} %{of_said(load.of)}{rising if load.low_permille is not None else ''}"
        case Kilos() | Pounds():
            low, high = (
                (load.low_dag, load.high_dag) if isinstance(load, Kilos) else (load.low_clb, load.high_clb)
            )
            unit = "kg" if isinstance(load, Kilos) else "lb"
            body = f"{range_text(None if low is None else show_kg(low), show_kg(high))} {unit}"
            body = body if load.implements == 1 else f"{load.implements} times {body}"
            return body + (rising if low is not None else "")
        case ByCategory():
            return f"{load_said(load.men)} for men, {load_said(load.women)} for women"
        case Effort():
            return effort_text(load) + rising
        case Heavy():
            return f"up to a {load.limit} {load.reps if load.reps is not None else 'set'}"
        case BarOnly():
            return "a stick" if load.stick else "the empty bar"
        case Bodyweight():
            return "bodyweight" + (f" + {show_kg(load.plus_dag)} kg" if load.plus_dag else "")
        case Open():
            return f"{load.word}{rising}".strip()


def of_said(of: Of) -> str:
    """ " of clean", " of today's top set"; empty for the movement's own reference."""
    if of.kind == "default":
        return f" of {of.written}" if of.written else ""
    if of.kind == "top":
        return " of today's top set"
    name = of.written or of.movement.replace("_", " ")
    if of.kind == "lift":
        return f" of {name}"
    return f" of {name + ' ' if name else ''}{of.reps}RM"
