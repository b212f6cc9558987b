"""What the counted lifts weigh for one lifter: tonnage, average load, K-value; and the INOL of a scheme."""

from collections.abc import Iterable

from meetward.units import DAG_PER_KG


def tonnage_dag(lifts_and_loads: Iterable[tuple[float, int]]) -> float:
    """Sum of load times lifts over all sets. [10 g]

    lifts_and_loads : lifts, and the load of each in decagrams. Lifts are whole, half or quarter, as counted,
        and loads whole, so the sum is exact.
    """
    return sum(lifts * dag for lifts, dag in lifts_and_loads)


def average_load_kg(tonnage_dag: float, lifts: float) -> float | None:
    """Tonnage over number of lifts ("absolute intensity"); None where nothing was lifted. [kg]"""
    return tonnage_dag / lifts / DAG_PER_KG if lifts else None


def k_value(average_kg: float, total_kg: float) -> float:
    """Average load of a cycle as a percentage of the lifter's total (snatch plus clean and jerk). [%]

    Raises ValueError for a total that is not positive.
    """
    if total_kg <= 0:
        raise ValueError(f"The total is {total_kg} kg; enter the best snatch and clean and jerk first.")
    return 100 * average_kg / total_kg


def inol(lifts: float, permille: int) -> float:
    """Repetitions over (100 - percent of best), for sets at one intensity (Hristov 2005, as restated).

    Sums over the sets of an exercise. Meant for lifts that end where strength ends; pulls go above what it
    can say. Raises ValueError from 100 % up, where it is not defined.
    """
    if permille >= 1000:
        raise ValueError(f"INOL is not defined at {permille / 10:g} %: it ends below 100 %.")
    return 10 * lifts / (1000 - permille)
