"""Drawings from TOML files, the shipped ones and a coach's own."""

from functools import cache
from pathlib import Path

from meetward.body.composing import Book
from meetward.body.drawings import Drawing, Drawings
from meetward.body.pages import Page, pages
from meetward.problem import Problem

_OURS = Path(__file__).parent / "data"


def load(*paths: Path, look: bool = True) -> tuple[Drawings, list[Problem]]:
    """The shipped drawings with those of ``paths`` over them (files, or folders of files), and what is wrong.

    look : whether each position is also set up for a lifter and looked at (hands off the bar, limbs in the
        floor), which takes most of the time.
    An entry with an id that is known changes the fields that it gives; the rest stays. What cannot be used is
    left out and told; everything else is there.
    """
    problems: list[Problem] = []
    read: list[Page] = []
    for path in (_OURS, *paths):
        read += pages(path, problems)
    book = Book(read, problems, look=look)
    made: dict[str, Drawing] = {}
    for id in book.drawing_ids():
        if drawing := book.drawing(id):
            made[id] = drawing
    return Drawings(made), problems


@cache
def shipped() -> Drawings:
    """The drawings that come with the program."""
    return load(look=False)[0]
