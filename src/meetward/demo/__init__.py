"""The invented club Harrow Lane Weightlifting of Eskmouth: two cycles, a pasted text and a squad."""

from .club import TODAY, Club, club, cycle_before_text, cycle_text, pasted_text, squad, squad_reading
from .positions import NOTHING_YET, Measured, positions
from .wishes import Wish, wishes

__all__ = [
    "NOTHING_YET",
    "TODAY",
    "Club",
    "Measured",
    "Wish",
    "club",
    "cycle_before_text",
    "cycle_text",
    "pasted_text",
    "positions",
    "squad",
    "squad_reading",
    "wishes",
]
