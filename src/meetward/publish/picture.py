"""The drawing of a movement or drill, ready to stand in a page or on paper."""

from typing import Literal

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement

Size = Literal["strip", "single"]
"""strip: all key positions; single: the one that says most."""


def picture(entry: Movement | Drill, size: Size = "strip") -> str:
    """The drawing as SVG markup; empty where the entry has none."""
    return ""
