"""Lifters for the tests of this room, all invented."""

from datetime import date

from meetward.barbell.standard import club_kit
from meetward.lifter.bests import Best, in_order
from meetward.lifter.profile import Lifter

DAY = date(2026, 10, 3)


def lifter(*bests: Best) -> Lifter:
    return Lifter("ida-thorne", "Ida Thorne", club_kit(), bests=in_order(bests))
