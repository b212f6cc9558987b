"""Rows of the database. Only ``web.store`` touches them; everybody else gets values from there."""

from .catalogues import OwnCatalogue
from .cycles import Book, Version
from .fits import FitRow
from .people import Club, Member, User
from .positions import PositionsRow
from .squad import LifterRow

__all__ = ["Book", "Club", "FitRow", "LifterRow", "Member", "OwnCatalogue", "PositionsRow", "User", "Version"]
