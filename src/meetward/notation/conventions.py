"""What a text declares or shows about its own way of writing, and the questions that stay open."""

from collections.abc import Callable, Iterator
from typing import TypeVar

import msgspec

from meetward.cycle.tree import BareLoad, Cycle, Order, Unit

PERCENT, KG, LB = 1, 2, 4
"""Signs that lines of a text show; added up they say what a weight without a sign can mean in it."""

MOST_READINGS = 8
"""No line is shown in more ways than this."""

_SHOWN_ALONE: dict[int, BareLoad] = {PERCENT: "percent", KG: "kg", LB: "lb"}


class Conventions(msgspec.Struct, frozen=True):
    """How a text is to be read.

    order, loaded_order, unit, bare_load : as declared; None where nothing is.
    shown : signs that loads of the text carry (``PERCENT``, ``KG``, ``LB`` added up).
    """

    order: Order | None = None
    loaded_order: Order | None = None
    unit: Unit | None = None
    bare_load: BareLoad | None = None
    shown: int = 0

    @property
    def bare(self) -> BareLoad | None:
        """What a weight without a sign means: declared, else what the only sign of the text says, else
        None."""
        if self.bare_load:
            return self.bare_load
        if self.unit:
            return self.unit
        return _SHOWN_ALONE.get(self.shown)

    def over(self, other: "Conventions") -> "Conventions":
        """These, and what they leave open from ``other``."""
        return Conventions(
            self.order or other.order,
            self.loaded_order or other.loaded_order,
            self.unit or other.unit,
            self.bare_load or other.bare_load,
            self.shown | other.shown,
        )


def of_cycle(cycle: Cycle) -> Conventions:
    """The conventions that a cycle carries."""
    unit: Unit | None = "lb" if cycle.unit == "lb" else None
    return Conventions(cycle.order, cycle.loaded_order, unit, cycle.bare_load)


class Question(msgspec.Struct, frozen=True):
    """A point that the text leaves open: what about, the possible answers (custom first), how to settle
    it."""

    about: str
    answers: tuple[str, ...]
    settle: str


class Answers:
    """Answers one way of reading a line: asked for a point, it gives the settled answer or the customary
    one."""

    def __init__(self, settled: dict[str, str]) -> None:
        self.settled = settled
        self.asked: dict[str, Question] = {}

    def ask(self, about: str, answers: tuple[str, ...], settle: str) -> str:
        """The answer of this reading to an open point."""
        self.asked.setdefault(about, Question(about, answers, settle))
        return self.settled.get(about, answers[0])


T = TypeVar("T")


def every_reading(read: Callable[[Answers], T]) -> Iterator[tuple[T, Answers]]:
    """All different readings that ``read`` gives, the customary one first; at most ``MOST_READINGS``."""
    seen: list[T] = []
    waiting: list[dict[str, str]] = [{}]
    tried = 0
    while waiting and len(seen) < MOST_READINGS and tried < 32:
        settled = waiting.pop(0)
        answers = Answers(settled)
        result = read(answers)
        tried += 1
        if result not in seen:
            seen.append(result)
            yield result, answers
        open_points = [q for about, q in answers.asked.items() if about not in settled]
        done = dict(settled)
        for question in open_points:
            for other in question.answers[1:]:
                waiting.append({**done, question.about: other})
            done[question.about] = question.answers[0]
