"""Bars and discs for the tests: a strategy, and slow references that share no code with the room."""

from itertools import combinations, product

from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc

DISC_WEIGHTS_DAG = (2500, 2000, 1500, 1000, 500, 250, 200, 150, 125, 100, 50, 25)
ODD_WEIGHTS_DAG = (2268, 1134, 1021, 454, 733, 37, 11)
"""Discs marked in pounds, home-made and worn ones."""


@st.composite
def kits(draw, most_kinds=4, most_pairs=3, weights=DISC_WEIGHTS_DAG + ODD_WEIGHTS_DAG):
    """Small inventories, gaps and all."""
    chosen = draw(st.lists(st.sampled_from(weights), max_size=most_kinds, unique=True))
    discs = tuple(
        Disc(dag, draw(st.integers(1, most_pairs)), large=draw(st.booleans()) if dag >= 250 else False)
        for dag in chosen
    )
    return BarAndDiscs(
        draw(st.sampled_from((2000, 1500, 1000, 500, 733))), draw(st.sampled_from((0, 500))), discs
    )


def sides(kit):
    """Every side that can be loaded, heaviest disc inside: all products of 0 ... pairs of each kind."""
    for counts in product(*(range(disc.pairs + 1) for disc in kit.discs)):
        yield tuple(disc for disc, n in zip(kit.discs, counts, strict=True) for _ in range(n))


def total_dag(kit, side):
    """What the scales say: the bare bar, or bar, collars and twice the side."""
    return kit.bar_dag + (kit.collars_dag + 2 * sum(disc.dag for disc in side) if side else 0)


def totals_dag(kit):
    """Every total that can be loaded, ascending, by trying all sides."""
    return sorted({total_dag(kit, side) for side in sides(kit)})


def subsets(items, most):
    """Every choice of at most ``most`` of the items, each in the order of ``items``."""
    for size in range(most + 1):
        yield from combinations(items, size)
