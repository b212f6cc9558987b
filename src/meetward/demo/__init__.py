"""The invented club Harrow Lane Weightlifting of Eskmouth: two cycles, a pasted text and a squad."""

from .club import Club, club, cycle_before_text, cycle_text, pasted_text, squad, squad_reading

__all__ = ["Club", "club", "cycle_before_text", "cycle_text", "pasted_text", "squad", "squad_reading"]
