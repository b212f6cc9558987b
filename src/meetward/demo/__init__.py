"""The invented club Harrow Lane Weightlifting of Eskmouth: two cycles, a pasted text and a squad."""

from .club import TODAY, Club, club, cycle_before_text, cycle_text, pasted_text, squad, squad_reading
from .positions import NOTHING_YET, Measured, positions

__all__ = [
    "NOTHING_YET",
    "TODAY",
    "Club",
    "Measured",
    "club",
    "cycle_before_text",
    "cycle_text",
    "pasted_text",
    "positions",
    "squad",
    "squad_reading",
]
