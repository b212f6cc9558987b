"""Schemes, loads, parts and lines in the words of the trade: the one place where they are put together."""

from typing import Protocol

from meetward.catalogue.catalogue import Catalogue, Entry
from meetward.catalogue.drill import Dose
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
from meetward.cycle.tree import Line, Part, Pause, Reps, SetGroup, Span
from meetward.strength.bests import lift_said
from meetward.units import show_kg, show_percent, show_seconds


def entry_of(part: Part, catalogue: Catalogue) -> Entry | None:
    """The catalogue entry of a part; a sequence in the version that the coach named."""
    id_ = part.movement
    if part.version and id_ in catalogue.versions:
        return next((s for s in catalogue.versions[id_] if s.version == part.version), None)
    return catalogue.movements.get(id_) or catalogue.drills.get(id_) or catalogue.sequences.get(id_)


def line_words(line: Line, catalogue: Catalogue) -> str:
    """The name of a line: "Clean pull + clean"; as written where the catalogue does not know it."""
    names = [part_words(part, catalogue) for part in line.parts[:1]]
    names += [_inside(part, catalogue) for part in line.parts[1:]]
    return " + ".join(names)


def part_words(part: Part, catalogue: Catalogue) -> str:
    """The name of a part."""
    entry = entry_of(part, catalogue)
    return entry.name if entry else part.written


def detail_words(part: Part) -> str:
    """Variant and pauses: "from blocks, 2 s pause at the knee"."""
    return ", ".join([*part.variant, *(pause_words(pause) for pause in part.pauses)])


def pause_words(pause: Pause) -> str:
    """A pause: "2 s pause at the knee"."""
    seconds = "" if pause.seconds is None else f"{pause.seconds} s "
    return f"{seconds}pause {pause.at}".strip()


def lift_words(lift: str, catalogue: Catalogue, written: str = "") -> str:
    """The name of a lift inside a sentence: "clean and jerk"."""
    return lift_said(lift, catalogue) if lift in catalogue.movements or not written else written


def span_words(low: int | None, high: int, show: str = "") -> str:
    """``3``, ``3–5``, or ``up to 5`` where there is no low end, with a unit behind."""
    ends = f"up to {high}" if low is None else str(high) if low == high else f"{low}–{high}"
    return f"{ends} {show}".rstrip()


def reps_words(reps: Reps | None) -> str:
    """Repetitions of one part: "3", "2–3", "5+", "as many as you can", "?" where none are said."""
    if reps is None:
        return "?"
    if reps.low is None or reps.high is None:
        return "as many as you can"
    return f"{reps.low}+" if reps.or_more else span_words(reps.low, reps.high)


def scheme_words(group: SetGroup) -> str:
    """Sets and reps without the load: "4 × 3", "5 × (2+1)", "3 × 30 s each side, rest 1:00"."""
    words = [_core(group)]
    if group.wave:
        words[0] = f"wave {group.wave}: {words[0]}"
    if group.climbing:
        words.append("climbing")
    if group.on_the_way:
        words.append("on the way to the sets below")
    if group.drop:
        words.append("straight after, no rest")
    if group.every_s:
        words.append("every minute" if group.every_s == 60 else f"every {show_seconds(group.every_s)}")
    if group.within_s:
        words.append(f"in {_minutes(group.within_s)}")
    if group.cluster_rest_s:
        words.append(f"{group.cluster_rest_s} s between the parts of a set")
    if group.tempo:
        words.append(f"tempo {group.tempo}")
    if group.rest_s:
        words.append(f"rest {seconds_words(group.rest_s)}")
    if group.missed:
        words.append("missed")
    if group.note:
        words.append(group.note)
    return ", ".join(word for word in words if word)


def set_words(group: SetGroup, catalogue: Catalogue) -> str:
    """A set group with its load: "5 × 2 at 70 %"; either alone where there is no other."""
    return " at ".join(words for words in (scheme_words(group), load_words(group.load, catalogue)) if words)


def _core(group: SetGroup) -> str:
    side = " each side" if group.per_side else ""
    count = span_words(group.count.low, group.count.high) if group.count else ""
    if group.cluster:
        what = f"({'.'.join(map(str, group.cluster))})"
    elif group.hold_s:
        what = seconds_words(group.hold_s)
    elif group.distance_m:
        what = span_words(group.distance_m.low, group.distance_m.high, "m")
    elif not group.reps or all(reps is None for reps in group.reps):
        return f"{count} {'set' if count == '1' else 'sets'}{side}" if count else ""
    elif len(group.reps) == 1:
        what = reps_words(group.reps[0])
    else:
        what = f"({'+'.join(reps_words(reps) for reps in group.reps)})"
    return f"{count} × {what}{side}" if count else f"{what}{side}"


def load_words(load: Load, catalogue: Catalogue) -> str:
    """A load as a coach says it: "70 %", "70–75 % of clean", "RPE 8", "heavy single"; "" for none."""
    match load:
        case Percent(low, high, of):
            return f"{_ends(low, high, show_percent)} %{of_words(of, catalogue)}"
        case Kilos():
            return _pieces(load.implements, _ends(load.low_dag, load.high_dag, show_kg), "kg")
        case Pounds():
            return _pieces(load.implements, _ends(load.low_clb, load.high_clb, show_kg), "lb")
        case ByCategory(men, women):
            return f"men {load_words(men, catalogue)}, women {load_words(women, catalogue)}"
        case Effort("rpe", low, high):
            return f"RPE {_ends(low, high, show_percent)}"
        case Effort(_, low, high):
            return f"{_ends(low, high, show_percent)} left in reserve"
        case Heavy(reps, limit):
            return f"{limit} {count_words(reps)}" if reps else limit
        case BarOnly(stick):
            return "stick" if stick else "empty bar"
        case Bodyweight(plus):
            return f"bodyweight + {show_kg(plus)} kg" if plus else "bodyweight"
        case Open(word):
            return word


def of_words(of: Of, catalogue: Catalogue) -> str:
    """What a percentage stands on, with " of " in front; "" for the movement's own reference."""
    name = lift_words(of.movement, catalogue, of.written) if of.movement or of.written else ""
    match of.kind:
        case "lift":
            return f" of {name}" if name else ""
        case "top":
            return " of today's top"
        case "rep max":
            return f" of {of.reps}RM {name if of.movement else ''}".rstrip()
        case _:
            return ""


def count_words(reps: int) -> str:
    """A set of so many: "single", "double", "triple", "set of 5"."""
    return {1: "single", 2: "double", 3: "triple"}.get(reps, f"set of {reps}")


def seconds_words(span: Span) -> str:
    """ "45 s", "1:30", "2:00–3:00", "20–30 s"."""
    low, high = show_seconds(span.low), show_seconds(span.high)
    if low == high:
        return low
    return f"{low.removesuffix(' s') if high.endswith(' s') else low}–{high}"


def dose_words(dose: Dose) -> str:
    """A drill's dose: "5 each side", "2 × 30 s"."""
    words = show_seconds(dose.seconds) if dose.seconds else str(dose.reps) if dose.reps else ""
    if dose.rounds > 1 and words:
        words = f"{dose.rounds} × {words}"
    return f"{words} each side" if dose.per_side and words else words


def _ends(low: int | None, high: int, show: "_Show") -> str:
    if low is None:
        return f"up to {show(high)}"
    return show(high) if low == high else f"{show(low)}–{show(high)}"


class _Show(Protocol):
    def __call__(self, number: int, /) -> str: ...


def _pieces(implements: int, ends: str, unit: str) -> str:
    return f"{implements} × {ends} {unit}" if implements > 1 else f"{ends} {unit}"


def _minutes(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"{minutes} min" if minutes and not rest else show_seconds(seconds)


def _inside(part: Part, catalogue: Catalogue) -> str:
    """A part's name as it stands inside a line."""
    known = part.movement in catalogue.movements
    return lift_said(part.movement, catalogue) if known else part_words(part, catalogue)
