"""What a squad lifts, week by week: the counted lifts of a cycle at each lifter's own kilos."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from meetward.cycle.tree import Cycle
from meetward.fit.squad import SquadKilos
from meetward.workload.count import Movements, count_group


@dataclass(frozen=True, slots=True, eq=False)
class SquadTonnage:
    """Tonnage and the lifts behind it.

    tonnage_dag : lifters x weeks. [10 g]
    lifts : lifts that have kilos, lifters x weeks; the rest (felt, open, no best) cannot be weighed.
    lifts_without_kilos : the rest, lifters x weeks.
    """

    tonnage_dag: NDArray[np.float64]
    lifts: NDArray[np.float64]
    lifts_without_kilos: NDArray[np.float64]

    def average_kg(self) -> NDArray[np.float64]:
        """Average load, lifters x weeks; not a number where nothing is weighed. [kg]"""
        average: NDArray[np.float64] = np.full(self.lifts.shape, np.nan)
        np.divide(self.tonnage_dag, 100 * self.lifts, out=average, where=self.lifts > 0)
        return average


def squad_tonnage(cycle: Cycle, kilos: SquadKilos, catalogue: Movements) -> SquadTonnage:
    """Tonnage of everybody in every week of the cycle that ``kilos`` was compiled from.

    Lifts are counted as in ``workload.count``. A range weighs the mean of its ends; lifts are whole, half or
    quarter and kilos whole decagrams, so sums are exact.
    """
    high, low = kilos.high_dag(), kilos.low_dag()
    shape = len(kilos.squad), sum(len(phase.weeks) for phase in cycle.phases)
    tonnage, lifts, without = (np.zeros(shape) for _ in range(3))
    sessions = {(week, number): session for week, number, session in cycle.sessions()}
    for cell in kilos.arrays.cells:
        segment = sessions[cell.week, cell.session].segments[cell.segment]
        line = segment.lines[cell.line]
        counted = (
            count_group(line.groups[cell.group], line, catalogue).lifts if segment.kind == "lifts" else 0
        )
        if not counted or not cell.sets:
            continue
        sets = slice(cell.first, cell.first + cell.sets)
        each = counted / cell.sets
        mean = (high[:, sets].astype(np.int64) + low[:, sets]) / 2
        weighed = (high[:, sets] > 0).sum(axis=1) * each
        tonnage[:, cell.week - 1] += mean.sum(axis=1) * each
        lifts[:, cell.week - 1] += weighed
        without[:, cell.week - 1] += counted - weighed
    return SquadTonnage(tonnage, lifts, without)
