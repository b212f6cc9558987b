"""Two versions of a warm-up sequence side by side."""

from difflib import SequenceMatcher
from typing import Literal

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.sequence import Sequence, Step
from meetward.publish.picture import picture

Change = Literal["", "dose", "new", "gone", "other"]
"""Of a row: the same, another dose, only in the later version, only in the earlier one, one for another."""


class ShownStep(msgspec.Struct, frozen=True):
    """A step of a warm-up; ``known`` when the catalogue has a page on it."""

    of: str
    name: str
    dose: str
    note: str
    known: bool
    drawing: str = ""


class StepPair(msgspec.Struct, frozen=True):
    """A row of the comparison."""

    before: ShownStep | None
    after: ShownStep | None
    change: Change


def steps_of(one: Sequence, all_: Catalogue, *, drawn: bool = False) -> tuple[ShownStep, ...]:
    """The steps in words, with drawings where they are asked for."""
    return tuple(_step(step, all_, drawn) for step in one.steps)


def compared(before: Sequence, after: Sequence, all_: Catalogue) -> tuple[StepPair, ...]:
    """The steps of two versions in their order: what stayed, what came, what went."""
    old, new = steps_of(before, all_), steps_of(after, all_)
    matcher = SequenceMatcher(None, [s.of for s in old], [s.of for s in new], autojunk=False)
    rows: list[StepPair] = []
    for kind, a, b, c, d in matcher.get_opcodes():
        if kind == "equal":
            rows += [
                StepPair(one, other, "" if (one.dose, one.note) == (other.dose, other.note) else "dose")
                for one, other in zip(old[a:b], new[c:d], strict=True)
            ]
            continue
        for n in range(max(b - a, d - c)):
            left = old[a + n] if a + n < b else None
            right = new[c + n] if c + n < d else None
            rows.append(
                StepPair(left, right, "gone" if right is None else "new" if left is None else "other")
            )
    return tuple(rows)


def _step(step: Step, all_: Catalogue, drawn: bool) -> ShownStep:
    of = all_.movements.get(step.of) or all_.drills.get(step.of)
    drawing = picture(of, "single") if drawn and of else ""
    return ShownStep(step.of, of.name if of else step.of, step.dose, step.note, of is not None, drawing)
