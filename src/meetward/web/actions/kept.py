"""What is computed from the tree of a saved version alone, and kept: that tree never changes."""

from collections.abc import Callable
from threading import Lock
from typing import Generic, TypeVar

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle
from meetward.fit.compile import compile_cycle
from meetward.fit.targets import Lift
from meetward.workload.count import count_cycle, uncounted

MOST_KEPT = 16
T = TypeVar("T")


class Kept(Generic[T]):
    """Makes something of a cycle, once for each cycle of the last ``MOST_KEPT``."""

    def __init__(self, make: Callable[[Cycle], T]) -> None:
        self._make = make
        self._known: dict[int, tuple[Cycle, T]] = {}
        self._changing = Lock()

    def __call__(self, cycle: Cycle) -> T:
        known = self._known.get(id(cycle))
        if known is not None and known[0] is cycle:
            return known[1]
        made = self._make(cycle)
        with self._changing:
            while len(self._known) >= MOST_KEPT:
                del self._known[next(iter(self._known))]
            # The cycle is held beside what was made of it, so that its id cannot pass to another one.
            self._known[id(cycle)] = (cycle, made)
        return made


def _lifts(cycle: Cycle) -> tuple[Lift, ...]:
    references = compile_cycle(cycle, shipped()).references
    return tuple(
        dict.fromkeys(
            lift for one in references if one.kind == "best" and one.reps == 1 for lift in one.lifts
        )
    )


counted = Kept(lambda cycle: count_cycle(cycle, shipped()))
"""The counts of a cycle."""

lifts_needed = Kept(_lifts)
"""The lifts whose bests the percentages of a cycle stand on."""

not_counted = Kept(lambda cycle: tuple(uncounted(cycle, shipped())))
"""The lines of a cycle that count less than they may hold."""
