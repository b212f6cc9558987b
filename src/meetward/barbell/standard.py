"""Bars and sets of discs that clubs and meets own, to begin a profile with.

Weights, colours and sizes of the competition discs, the bars and the collars: international rule book (see
tests/authorities/bar-and-discs.md). How many pairs lie in a rack, the 1.25 kg disc and light discs of full
height are common practice, no source: every lifter's kit can be changed.
"""

from meetward.barbell.discs import BarAndDiscs, Disc

MENS_BAR_DAG = 2_000
WOMENS_BAR_DAG = 1_500
TECHNIQUE_BAR_DAG = 1_000
YOUTH_BAR_DAG = 500

COMPETITION_COLLARS_DAG = 500
"""Two collars of 2.5 kg."""

COMPETITION_DISCS = (
    Disc(2_500, 8, "red", large=True),
    Disc(2_000, 2, "blue", large=True),
    Disc(1_500, 2, "yellow", large=True),
    Disc(1_000, 2, "green", large=True),
    Disc(500, 2, "white"),
    Disc(250, 2, "red"),
    Disc(200, 1, "blue"),
    Disc(150, 1, "yellow"),
    Disc(100, 1, "green"),
    Disc(50, 1, "white"),
)
"""Steps of 1 kg, as at a meet."""

CLUB_DISCS = (
    Disc(2_500, 3, "red", large=True),
    Disc(2_000, 2, "blue", large=True),
    Disc(1_500, 2, "yellow", large=True),
    Disc(1_000, 2, "green", large=True),
    Disc(500, 2, "white"),
    Disc(250, 2, "red"),
    Disc(125, 1, "iron"),
)
"""Steps of 2.5 kg, as in most training halls."""

LIGHT_DISCS = (
    Disc(1_000, 2, "green", large=True),
    Disc(500, 2, "white", large=True),
    Disc(250, 2, "red", large=True),
    Disc(250, 1, "red"),
    Disc(200, 1, "blue"),
    Disc(150, 1, "yellow"),
    Disc(100, 1, "green"),
    Disc(50, 1, "white"),
)
"""Steps of 1 kg for beginners and the young, with light discs of full height."""


def competition_kit(bar_dag: int = MENS_BAR_DAG) -> BarAndDiscs:
    """Bar, collars and discs of a meet platform. [10 g]"""
    return BarAndDiscs(bar_dag, COMPETITION_COLLARS_DAG, COMPETITION_DISCS)


def club_kit(bar_dag: int = MENS_BAR_DAG) -> BarAndDiscs:
    """A bar with a training hall's discs; spring collars, which are not counted. [10 g]"""
    return BarAndDiscs(bar_dag, 0, CLUB_DISCS)


def light_kit(bar_dag: int = TECHNIQUE_BAR_DAG) -> BarAndDiscs:
    """A light bar with light discs; collars are not counted. [10 g]"""
    return BarAndDiscs(bar_dag, 0, LIGHT_DISCS)
