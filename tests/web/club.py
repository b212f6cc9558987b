"""A small invented club for the site's tests, as values."""

from datetime import date

from meetward.barbell.discs import BarAndDiscs
from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle
from meetward.lifter.bests import Best
from meetward.lifter.kit import disc
from meetward.lifter.profile import Lifter
from meetward.notation import read

TEXT = """Cycle: Two weeks to the Eskmouth Spring Open
Club: Harrow Lane Weightlifting
Coach: Ida Thorne
Meet: Eskmouth Spring Open, 2027-01-10
Start: 2026-12-28
Order: sets first
Bare loads: percent

Phase: Sharpen

Week 1: load
Monday: Snatch and back squat (key)
Minutes: 90
Lifts:
Snatch 4x3 @ 70%, rest 2:00
  note: pause long enough to feel the whole foot
Back squat 60%/5 70%/5 75%/5x3
Thursday: Clean and jerk
Lifts:
Clean and jerk 5x(1+1) @ 80%

Week 2: meet
Monday: Openers
Lifts:
Snatch 3x1 @ 85%
"""

KIT = BarAndDiscs(
    2000, 500, tuple(disc(dag, 4) for dag in (2500, 2000, 1500, 1000, 500, 250, 200, 150, 100, 50))
)


def cycle(text: str = TEXT) -> Cycle:
    """The cycle of a text."""
    return read(text, shipped()).cycle


def lifter(key: str, name: str, snatch_dag: int = 8000, **fields: object) -> Lifter:
    """A lifter with a tested snatch and a stated clean and jerk and back squat."""
    bests = (
        Best("snatch", snatch_dag, date(2026, 10, 3), "tested"),
        Best("clean_and_jerk", snatch_dag + 2000, None, "stated"),
        Best("back_squat", snatch_dag + 5000, None, "estimated"),
    )
    given = {"kit": KIT, "bests": bests, "category": "women", "birth_year": 1999, "bodyweight_dag": 6345}
    return Lifter(key=key, name=name, **(given | fields))
