"""What is said about the cycle, a phase, a week or a session, taken from the headings of its block."""

from collections.abc import Sequence
from datetime import date

from meetward.problem import Problem

from . import problems as p
from .block import Block, Field
from .headings import as_date, said


def notes_of(block: Block | None) -> tuple[str, ...]:
    """The notes of a part: what was noted, and what has no place of its own."""
    if block is None:
        return ()
    taken = own_fields(block)
    out: list[str] = []
    for k, field in enumerate(block.fields):
        if field.heading.kind == "note":
            out.append(said(field.heading.value))
        elif k not in taken and field.heading.kind not in ("order", "loaded order", "unit", "bare loads"):
            out.append(f"{field.heading.kind.capitalize()}: {field.heading.value}")
    return (*out, *block.texts)


_WANTED = {
    "": frozenset(("cycle", "club", "coach", "aim", "emphasis", "meet", "start")),
    "phase": frozenset(("aim",)),
    "week": frozenset[str](),
    "session": frozenset(("aim", "minutes")),
}


def kind_of(block: Block) -> str:
    """What sort of part a block belongs to: ``phase week session``, or empty for the cycle."""
    head = block.head
    if head is None:
        return ""
    return "session" if head.also is not None else head.kind


def own_fields(block: Block) -> dict[int, Field]:
    """Fields whose value has a place of its own: the first of each kind, if it can be used."""
    wanted = _WANTED[kind_of(block)]
    seen: dict[str, int] = {}
    for k, field in enumerate(block.fields):
        kind = field.heading.kind
        if kind not in wanted or kind in seen:
            continue
        if kind == "minutes" and whole_minutes(field.heading.value) is None:
            continue
        seen[kind] = k
    return {k: block.fields[k] for k in seen.values()}


def values_of(block: Block | None, kinds: Sequence[str]) -> dict[str, str]:
    """What is said under the given headings."""
    if block is None:
        return {}
    return {
        f.heading.kind: said(f.heading.value) for f in own_fields(block).values() if f.heading.kind in kinds
    }


def raw_value(block: Block | None, kind: str) -> str:
    """What stands behind a heading, quotes included."""
    if block is None:
        return ""
    return next((f.heading.value for f in block.fields if f.heading.kind == kind), "")


def meet_of(value: str, *, raw: str) -> tuple[str, date | None]:
    """The name of the meet and its day."""
    if raw.startswith('"'):
        end = raw.rfind('"')
        on = as_date(raw[end + 1 :].strip(" ,"))
        if end > 0 and (on is not None or end == len(raw) - 1):
            return said(raw[: end + 1]), on
    name, _comma, last = value.rpartition(",")
    on = as_date(last.strip())
    if on is not None:
        return name.strip(), on
    return value, None


def whole_minutes(text: str) -> int | None:
    """A whole number of minutes; None for anything else."""
    digits = text.strip().lower().removesuffix("minutes").removesuffix("min").strip()
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) < 7 else None


def misplaced(block: Block, start: int) -> list[Problem]:
    """A problem for everything that is said at the wrong place or cannot be used."""
    kind = kind_of(block)
    taken = own_fields(block)
    out: list[Problem] = []
    for k, field in enumerate(block.fields):
        head = field.heading
        if head.kind == "note" or k in taken or head.kind in ("order", "loaded order", "unit", "bare loads"):
            continue
        line = start + field.line + 1
        if head.kind == "minutes" and kind == "session":
            out.append(
                p.wrong_value(
                    line, head.at, head.at + len(head.value), head.value, "Minutes", "a whole number"
                )
            )
        else:
            out.append(
                p.wrong_place(
                    line,
                    0,
                    head.at + len(head.value),
                    f"{head.kind.capitalize()}: {head.value}"[:60],
                    kind or "cycle",
                )
            )
    return out
