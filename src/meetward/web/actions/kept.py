"""What is computed from the tree of a saved version alone, and kept: that tree never changes."""

from collections.abc import Callable
from threading import Lock
from typing import Generic, TypeVar

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle
from meetward.fit.compile import compile_cycle
from meetward.fit.targets import Lift
from meetward.workload.count import count_cycle, uncounted

MOST_KEPT = 16
T = TypeVar("T")


class Kept(Generic[T]):
    """Makes something of a cycle read with a catalogue, once for each of the last ``MOST_KEPT`` pairs."""

    def __init__(self, make: Callable[[Cycle, Catalogue], T]) -> None:
        self._make = make
        self._known: dict[tuple[int, int], tuple[Cycle, Catalogue, T]] = {}
        self._changing = Lock()

    def __call__(self, cycle: Cycle, catalogue: Catalogue) -> T:
        key = id(cycle), id(catalogue)
        known = self._known.get(key)
        if known is not None and known[0] is cycle and known[1] is catalogue:
            return known[2]
        made = self._make(cycle, catalogue)
        with self._changing:
            while len(self._known) >= MOST_KEPT:
                del self._known[next(iter(self._known))]
            # Both are held beside what was made of them, so that their ids cannot pass to others.
            self._known[key] = (cycle, catalogue, made)
        return made


def _lifts(cycle: Cycle, catalogue: Catalogue) -> tuple[Lift, ...]:
    references = compile_cycle(cycle, catalogue).references
    return tuple(
        dict.fromkeys(
            lift for one in references if one.kind == "best" and one.reps == 1 for lift in one.lifts
        )
    )


counted = Kept(count_cycle)
"""The counts of a cycle."""

lifts_needed = Kept(_lifts)
"""The lifts whose bests the percentages of a cycle stand on."""

not_counted = Kept(lambda cycle, catalogue: tuple(uncounted(cycle, catalogue)))
"""The lines of a cycle that count less than they may hold."""
