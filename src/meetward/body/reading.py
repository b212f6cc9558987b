"""Drawings from TOML files, the shipped ones and a coach's own."""

from functools import cache
from pathlib import Path

from meetward.body.composing import Book
from meetward.body.drawings import Drawings
from meetward.body.pages import Page, pages
from meetward.problem import Problem

_OURS = Path(__file__).parent / "data"


def load(*paths: Path, look: bool = True) -> tuple[Drawings, list[Problem]]:
    """The shipped drawings with those of ``paths`` over them (files, or folders of files), and what is wrong.

    look : whether each position that is not shipped is also set up for a lifter and looked at: hands off the
        bar, limbs in the floor.
    An entry with an id that is known changes the fields that it gives; the rest stays. Shipped drawings that
    build on it stay as they are, so that a changed snatch leaves the hang snatches alone. What cannot be used
    is left out and told; everything else is there.
    """
    problems: list[Problem] = []
    if not paths:
        return Book(_our_pages(), problems).drawings(), problems
    own = [page for path in paths for page in pages(path, problems)]
    ids = {entry.id for page in own for entry in page.entries if entry.kind == "drawing"}
    looked_at = frozenset(frame for drawing in shipped() for frame in drawing.frames) if look else None
    made = Book([*_our_pages(), *own], problems, looked_at).drawings(ids)
    return Drawings({**shipped().by_id, **made.by_id}), problems


@cache
def shipped() -> Drawings:
    """The drawings that come with the program."""
    return Book(_our_pages(), []).drawings()


@cache
def _our_pages() -> tuple[Page, ...]:
    return tuple(pages(_OURS, []))
