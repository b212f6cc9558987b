"""What a lifter's percentages stand on: the best of a reference, known or derived, with its reason."""

from typing import NamedTuple

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.targets import MOST_DAG, Lift, Reference
from meetward.lifter.profile import Lifter
from meetward.strength.ratios import Derived, working_best
from meetward.why import Why


class Standing(NamedTuple):
    """A best to count on.

    dag : what percentages are taken of: the best, or the low end of a derived one. [10 g]
    derived : the best is derived from other lifts.
    low_dag, high_dag : range of a derived or estimated best; equal to ``dag`` for one that was lifted. [10 g]
    said : the best in words: "best snatch 85 kg (tested 3 Oct 2026)".
    lift : catalogue id of the lift.
    unknown : lifts of a complex of which nothing is known, so that one of them may be the lighter.
    """

    dag: int
    derived: bool
    low_dag: int
    high_dag: int
    said: str
    lift: str
    why: Why
    unknown: tuple[str, ...] = ()

    @property
    def only_a_start(self) -> bool:
        """Kilos that stand on it are a start to work up from and no prescription."""
        return self.derived or bool(self.unknown)


class Standings:
    """The standings of one lifter; each reference is looked up once."""

    def __init__(self, lifter: Lifter, catalogue: Catalogue) -> None:
        self.lifter = lifter
        self.catalogue = catalogue
        self._known: dict[Reference, Standing | None] = {}

    def of(self, reference: Reference) -> Standing | None:
        """What ``reference`` is for this lifter; None where nothing is known of it.

        Of several lifts, the lightest decides, derived ones by their typical weight. Where nothing is known
        of one of them, what the others say is only a start, as with a derived best.
        """
        if reference not in self._known:
            self._known[reference] = self._lightest(reference)
        return self._known[reference]

    def best_dag(self, reference: Reference) -> int:
        """The best as a number, 0 where there is none; 1 for weights as written. [10 g]"""
        if reference.kind == "written":
            return 1
        if reference.kind == "bar":
            return self.lifter.kit.bar_dag
        standing = self.of(reference)
        return standing.dag if standing else 0

    def derived(self) -> list[Standing]:
        """The derived bests that were asked for so far, each once."""
        found = {s.lift: s for s in self._known.values() if s is not None and s.derived}
        return list(found.values())

    def _lightest(self, reference: Reference) -> Standing | None:
        found = [(lift.lift, self._one(lift, reference.reps)) for lift in reference.lifts]
        known = [each for _, each in found if each is not None]
        if not known:
            return None
        _, standing = min(known, key=lambda each: each[0])
        return standing._replace(unknown=tuple(lift for lift, each in found if each is None))

    def _one(self, lift: Lift, reps: int) -> tuple[int, Standing] | None:
        """The weight by which lifts are compared, and the standing. A weight that nobody lifts is no best."""
        best = working_best(self.lifter, lift.lift, self.catalogue, reps=reps, otherwise=lift.otherwise)
        if best is None:
            return None
        if isinstance(best, Derived):
            typical, dag, derived = best.typical_dag, best.low_dag, True
        else:
            typical, dag, derived = best.dag, best.dag, False
        if not 0 < dag <= MOST_DAG:
            return None
        return typical, Standing(dag, derived, best.low_dag, best.high_dag, best.said, best.lift, best.why)
