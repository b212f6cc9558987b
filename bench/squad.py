"""Kilos of a whole squad as arrays: speed, memory, and no difference from exact fractions."""

from bisect import bisect_left
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import numpy as np

from bench.figures import Figure, median_s, ms
from bench.sample import KITS, big_squad, cycle_text
from meetward.barbell.discs import BarAndDiscs, loadable
from meetward.barbell.standard import light_kit
from meetward.catalogue.reading import shipped
from meetward.cycle.load import Percent
from meetward.cycle.tree import Cycle, Line, Part, Phase, Reps, Segment, Session, SetGroup, Span, Week
from meetward.fit.compile import CycleArrays, compile_cycle
from meetward.fit.squad import Squad, squad_kilos, stream
from meetward.notation.reader import read

TITLE = "(b) Kilos of a squad: 1,680 sets a lifter, three kits"

CELLS = 1_000_000


def run() -> Iterator[Figure]:
    """Time 1,000 and 100,000 lifters; compare a million random cells with fractions."""
    catalogue = shipped()
    arrays = compile_cycle(read(cycle_text(), catalogue).cycle, catalogue)
    for number, times in ((1_000, 15), (100_000, 3)):
        squad = big_squad(number, arrays.references)

        def every_set(squad: Squad = squad) -> None:
            for _, part in stream(arrays, squad):
                part.high_dag()

        yield Figure(
            f"{number:,} lifters, distinct kilos",
            ms(median_s(lambda squad=squad: squad_kilos(arrays, squad), times)),
        )
        seconds = median_s(every_set, times)
        yield Figure(f"{number:,} lifters, every set, streamed", ms(seconds))
        yield Figure("    a lifter and cycle", f"{seconds / number * 1e6:.2f} us")
    kept = squad_kilos(arrays, squad).bytes_per_set()
    yield Figure("bytes kept for a prescribed set", f"{kept:.2f}", "at most 4", kept <= 4)
    wrong = sum(differences(kit, number) for number, kit in enumerate((*KITS, light_kit())))
    yield Figure(
        f"of {CELLS:,} random cells, different from exact fractions", str(wrong), "0", wrong == 0, wrong > 0
    )


def differences(kit: BarAndDiscs, seed: int) -> int:
    """Cells of a quarter of a million in which the arrays differ from fractions and all loadable weights."""
    random = np.random.default_rng(seed)
    permilles = sorted({int(p) for p in random.integers(1, 1_300, 110)} | {500, 625, 700, 725, 750, 775})[
        :100
    ]
    bests = random.integers(1, 30_000, CELLS // 4 // len(permilles))
    # Half of the bests are whole and half kilos, where ties are common.
    bests[::2] = bests[::2] // 50 * 50 + 50
    arrays = percent_arrays(permilles)
    squad = Squad(
        bests[:, None].astype(np.int32),
        np.zeros((len(bests), 1), bool),
        (kit,),
        np.zeros(len(bests), np.intp),
        np.zeros(len(bests), np.uint8),
    )
    got = squad_kilos(arrays, squad).high_dag()
    weights = [Fraction(dag, 100) for dag in loadable(kit)]
    middles = [(one + other) / 2 for one, other in pairwise(weights)]
    wrong = 0
    for best, row in zip(bests.tolist(), got.tolist(), strict=True):
        for permille, dag in zip(permilles, row, strict=True):
            exact_kg = Fraction(best, 100) * Fraction(permille, 1_000)
            # At a middle exactly, bisect_left stays on the lighter side.
            wrong += weights[bisect_left(middles, exact_kg)] != Fraction(dag, 100)
    return wrong


def percent_arrays(permilles: list[int]) -> CycleArrays:
    """A cycle of one snatch at each percentage."""
    groups = tuple(SetGroup(Span(1, 1), (Reps(1, 1),), Percent(p, p)) for p in permilles)
    line = Line((Part("Snatch", "snatch"),), groups)
    session = Session((Segment("lifts", (line,)),))
    return compile_cycle(Cycle((Phase((Week((session,)),)),)), shipped())
