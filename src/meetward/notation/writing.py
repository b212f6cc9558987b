"""The words for one line of a cycle: plainly first, then with everything named that could be
misunderstood."""

from collections.abc import Iterator

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
from meetward.cycle.tree import Line, Part, Reps, SetGroup
from meetward.units import show_kg, show_percent, show_seconds

from .conventions import Conventions
from .quoted import quoted
from .ranges import effort_text, range_text, seconds_text, span_text


def line_forms(line: Line, conventions: Conventions) -> Iterator[str]:
    """Ways to write a line, the plainest first. None of them need be right: the writer reads them back."""
    turn = f"{line.turn}: " if line.turn else ""
    for exact in (False, True):
        if not exact and any(not part.written for part in line.parts):
            continue  # sets without a name would join the line above
        for apart in (False, True):
            names = " + ".join(part_text(part, exact=exact) for part in line.parts)
            groups = groups_text(line.groups, conventions, apart=apart)
            if groups is None:
                return
            yield turn + (f"{names} {groups}" if groups else names)
            if exact and not apart and groups:
                yield turn + f"{names}: {groups}"


def part_text(part: Part, *, exact: bool) -> str:
    """A movement as written; ``exact`` adds its id, variants and pauses in braces."""
    if not exact:
        return f"{part.written}, version {part.version}" if part.version else part.written
    pieces = [
        part.movement
        if part.movement.isascii() and part.movement.replace("_", "a").isalnum()
        else quoted(part.movement)
        if part.movement
        else ""
    ]
    pieces += [f"variant {quoted(v)}" for v in part.variant]
    for pause in part.pauses:
        seconds = f" {pause.seconds} s" if pause.seconds is not None else ""
        pieces.append(f"pause{seconds}" + (f" {quoted(pause.at)}" if pause.at else ""))
    if part.version:
        pieces.append(f"version {part.version}")
    return f"{quoted(part.written)} {{{'; '.join(pieces)}}}"


def groups_text(groups: tuple[SetGroup, ...], conventions: Conventions, *, apart: bool) -> str | None:
    """The sets of a line; None where no words can say them. ``apart``: every mark in brackets behind its
    own sets."""
    shared = (
        not apart
        and len(groups) > 0
        and len({(g.rest_s, g.every_s, g.tempo, g.within_s) for g in groups}) == 1
    )
    texts = []
    for group in groups:
        text = group_text(group, conventions, marks_apart=apart, timed=not shared)
        if text is None:
            return None
        texts.append(text)
    body = "; ".join(texts)
    if shared:
        first = groups[0]
        if first.every_s is not None:
            body += f", every {show_seconds(first.every_s)}"
        if first.within_s is not None:
            body += f", within {show_seconds(first.within_s)}"
        if first.rest_s is not None:
            body += f", rest {seconds_text(first.rest_s)}"
        if first.tempo:
            body += f", tempo {first.tempo}"
    return body


def group_text(group: SetGroup, conventions: Conventions, *, marks_apart: bool, timed: bool) -> str | None:
    """One group of sets."""
    marks: list[str] = []
    scheme = _scheme(group, conventions, marks, apart=marks_apart)
    if scheme is None:
        return None
    load = load_text(group.load)
    if load is None:
        return None
    text = scheme
    rising = False
    if isinstance(group.load, Heavy) and _is_work_up(group):
        text = f"work up to a {group.load.limit} {group.load.reps}"
    elif load:
        up_to = isinstance(group.load, Percent | Kilos | Pounds) and _low(group.load) is None
        rising = up_to
        text = f"{text} {load}" if up_to else f"{text} @ {load}"
    if group.climbing and not rising:
        marks.append("climbing")
    if rising and not group.climbing:
        marks.append("flat")
    if group.on_the_way:
        marks.append("on the way")
    if group.drop:
        marks.append("drop")
    if group.missed:
        marks.append("missed")
    if group.wave:
        marks.append(f"wave {group.wave}")
    if group.cluster and (marks_apart or f"({'.'.join(map(str, group.cluster))})" not in text):
        marks.append(f"cluster {'.'.join(map(str, group.cluster))}")
    if group.cluster_rest_s is not None:
        marks.append(f"break {show_seconds(group.cluster_rest_s)}")
    if group.per_side:
        if marks_apart or group.load != Open():
            marks.append("per side")
        else:
            text += "/side"
    if timed:
        if group.rest_s is not None:
            marks.append(f"rest {seconds_text(group.rest_s)}")
        if group.every_s is not None:
            marks.append(f"every {show_seconds(group.every_s)}")
        if group.within_s is not None:
            marks.append(f"within {show_seconds(group.within_s)}")
        if group.tempo:
            marks.append(f"tempo {group.tempo}")
    if group.note:
        marks.append(f"note {quoted(group.note)}")
    text = text.strip()
    return f"{text} [{'; '.join(marks)}]".strip() if marks else text


def _scheme(group: SetGroup, conventions: Conventions, marks: list[str], *, apart: bool) -> str | None:
    reps = reps_text(group.reps)
    if reps is None:
        return None
    count = "" if group.count is None else span_text(group.count)
    if reps and group.hold_s is None and group.distance_m is None:
        if (
            group.cluster
            and not apart
            and sum(group.cluster) == (group.reps[0].low if group.reps[0] else 0)
            and len(group.cluster) > 2
        ):
            inner = f"({'.'.join(map(str, group.cluster))})"
            return f"{count}x{inner}" if count else f"sets of {inner}"
        return _times(count, reps, group, conventions)
    if reps:
        if group.hold_s is not None:
            marks.append(f"held {seconds_text(group.hold_s)}")
        if group.distance_m is not None:
            marks.append(f"walked {span_text(group.distance_m)} m")
        return _times(count, reps, group, conventions)
    if group.hold_s is not None and group.distance_m is not None:
        marks.append(f"walked {span_text(group.distance_m)} m")
    elif group.distance_m is not None:
        return f"{count} x {span_text(group.distance_m)} m" if count else f"{span_text(group.distance_m)} m"
    if group.hold_s is not None:
        return f"{count} x {seconds_text(group.hold_s)}" if count else seconds_text(group.hold_s)
    return f"{count} set{'' if count == '1' else 's'}" if count else ""


def _times(count: str, reps: str, group: SetGroup, conventions: Conventions) -> str:
    if not count:
        return f"sets of {reps}"
    plain = count.isdigit() and reps.isdigit()
    if reps.startswith("(") or reps == "AMRAP" or reps.endswith("+"):
        return f"{count}x{reps}"
    if conventions.order == "reps-first" and (plain or conventions.order):
        return f"{reps}x{count}"
    if conventions.order == "sets-first" or (plain and count == reps):
        return f"{count}x{reps}"
    return f"{count} set{'' if count == '1' else 's'} of {reps}"


def _is_work_up(group: SetGroup) -> bool:
    load = group.load
    return (
        isinstance(load,
        Heavy) and group.count is None and load.reps is not None and group.reps == (Reps(load.reps,
        load.reps),)
        and group.hold_s is None and group.distance_m is None
    )  # fmt: skip


def reps_text(reps: tuple[Reps | None, ...]) -> str | None:
    """ "3", "3-5", "5+", "AMRAP", "(2+1)"; empty where nothing was said, None where no words can say it."""
    if all(r is None for r in reps):
        return ""
    if len(reps) == 1 and reps[0] is not None:
        return _amount(reps[0])
    if any(r is None or r.low is None or r.low != r.high or r.or_more for r in reps):
        return None
    return "(" + "+".join(str(r.low) for r in reps if r is not None) + ")"


def _amount(reps: Reps) -> str | None:
    if reps.low is None or reps.high is None:
        return "AMRAP" if reps.or_more and reps.low is None and reps.high is None else None
    base = str(reps.low) if reps.low == reps.high else f"{reps.low}-{reps.high}"
    return f"{base}+" if reps.or_more else base


def _low(load: Percent | Kilos | Pounds) -> int | None:
    if isinstance(load, Percent):
        return load.low_permille
    return load.low_dag if isinstance(load, Kilos) else load.low_clb


def load_text(load: Load) -> str | None:
    """A load as it stands behind the at sign; empty for none, None where no words can say it."""
    match load:
        case Percent():
            low = None if load.low_permille is None else show_percent(load.low_permille)
            return f"{range_text(low, show_percent(load.high_permille))}%{_of(load.of)}"
        case Kilos() | Pounds():
            low_n = _low(load)
            high_n = load.high_dag if isinstance(load, Kilos) else load.high_clb
            unit = "kg" if isinstance(load, Kilos) else "lb"
            number = range_text(None if low_n is None else show_kg(low_n), show_kg(high_n))
            if load.implements == 2 and low_n is not None and load.unit_stated:
                return f"pair of {number} {unit}"
            if load.implements != 1:
                return None
            return f"{number} {unit}" if load.unit_stated else f"{number} ({unit})"
        case ByCategory(men=Kilos(unit_stated=False) | Pounds(unit_stated=False) as men):
            unit = "kg" if isinstance(men, Kilos) else "lb"
            ends = [
                text.removesuffix(f" ({unit})") for text in (load_text(men), load_text(load.women)) if text
            ]
            return f"M {ends[0]} / W {ends[-1]} ({unit})"
        case ByCategory():
            return f"M {load_text(load.men)} / W {load_text(load.women)}"
        case Effort():
            return effort_text(load)
        case Heavy():
            return load.limit if load.reps is None else f"{load.limit} {load.reps}"
        case BarOnly():
            return "stick" if load.stick else "empty bar"
        case Bodyweight():
            return "bodyweight" + (f" + {show_kg(load.plus_dag)} kg" if load.plus_dag else "")
        case Open():
            return (
                ""
                if not load.word
                else load.word
                if load.word in ("light", "moderate", "easy")
                else f"load {quoted(load.word)}"
            )


def _of(of: Of) -> str:
    if of.kind == "default":
        return f" of {of.written}" if of.written else ""
    if of.kind == "top":
        return " of it"
    if of.kind == "lift":
        return f" of {of.written}"
    return f" of {of.written + ' ' if of.written else ''}{of.reps}RM"
