"""Sets that climb to a top: "7 sets of 2 up to 70 %"."""

from meetward.barbell.discs import BarAndDiscs
from meetward.barbell.rounding import MILLIDAG_PER_DAG, load
from meetward.units import show_kg

START_PERMILLE = 775
"""Where the first set starts when the coach does not say: between 75 and 80 % of the top. Common practice, no
source."""


def spread(kit: BarAndDiscs, low_dag: int | None, high_dag: int, sets: int) -> tuple[int, ...]:
    """Weights for ``sets`` sets that climb in even jumps and end at the top: a suggestion, not a rule.

    low_dag : target of the first set; None for ``START_PERMILLE`` of the top. [10 g]
    high_dag : the top. The last set is the heaviest loadable weight at or under it, or the bar. [10 g]

    Each set is the loadable weight nearest to its place on a straight line, so the weights never fall and the
    jumps are as even as the discs on hand allow. Raises ValueError for fewer than one set, and for a start
    that is above the top or not positive.
    """
    if sets < 1:
        raise ValueError(f"{sets} sets cannot climb; there has to be at least one.")
    if low_dag is not None and low_dag > high_dag:
        raise ValueError(
            f"The first set of {show_kg(low_dag)} kg is above the top of {show_kg(high_dag)} kg."
        )
    top_dag = load(kit, high_dag * MILLIDAG_PER_DAG, down=True).dag
    start_millidag = top_dag * START_PERMILLE if low_dag is None else low_dag * MILLIDAG_PER_DAG
    climb_millidag = top_dag * MILLIDAG_PER_DAG - start_millidag
    # A single set is the top. A place is cut to whole millidag, a hundredth of a gram, on purpose.
    places = (start_millidag + climb_millidag * n // (sets - 1) for n in range(sets - 1))
    return *(load(kit, place, top_millidag=top_dag * MILLIDAG_PER_DAG).dag for place in places), top_dag
