"""The invented club Harrow Lane Weightlifting of Eskmouth: two cycles, a pasted text and a squad."""

from .club import TODAY, Club, club, cycle_before_text, cycle_text, pasted_text, squad, squad_reading

__all__ = [
    "TODAY",
    "Club",
    "club",
    "cycle_before_text",
    "cycle_text",
    "pasted_text",
    "squad",
    "squad_reading",
]
