"""The drawing of a movement or drill, ready to stand in a page or on paper."""

from functools import lru_cache
from typing import Literal

import msgspec

from meetward.body.draw import drawn, strip
from meetward.body.drawings import Drawing, Drawings, figures
from meetward.body.reading import shipped
from meetward.body.segments import TYPICAL
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement

Size = Literal["strip", "row", "bare", "single"]
"""strip: all key positions, up to four in a row, for pages; row: all in one row, for paper; bare: the same
without words, where there is little room; single: the one that says most, without words, beside a name."""

_POSITION_PX, _BARE_PX = 110, 50
"""Width of a position in a row, at which its words have their natural size, and without words."""


_in_use: list[Drawings] = []


def use_drawings(drawings: Drawings | None) -> None:
    """Draw from these in this process from now on; from the shipped ones again with None."""
    _in_use[:] = [drawings] if drawings else []
    _drawn.cache_clear()


def _drawings() -> Drawings:
    return _in_use[0] if _in_use else shipped()


def picture(entry: Movement | Drill, size: Size = "strip") -> str:
    """The drawing as SVG markup; empty where the entry has none."""
    drawing = _drawings().find(entry.drawing or entry.id)
    return _drawn(drawing.id, entry.name, size) if drawing else ""


@lru_cache(maxsize=2048)
def _drawn(id_: str, name: str, size: Size) -> str:
    drawing = _drawings().find(id_)
    assert drawing is not None
    if size == "single":
        one = _key_position(drawing)
        return drawn(figures(one, TYPICAL)[0], one.alt, title=name)
    if size == "row":
        count = len(drawing.frames)
        return strip(drawing, columns=count, wide_px=count * _POSITION_PX, title=name)
    if size == "bare":
        count = len(drawing.frames)
        return strip(drawing, columns=count, wide_px=count * _BARE_PX, title=name, words=False)
    return strip(drawing, title=name)


def _key_position(drawing: Drawing) -> Drawing:
    """The position that says most: the last but one of a strip (the bottom, the split), the last of two."""
    frames = drawing.frames
    return msgspec.structs.replace(drawing, frames=(frames[-2] if len(frames) > 3 else frames[-1],))
