"""Drawings: what a picture shows and says, as read from files; and all drawings that are known, by id."""

from collections.abc import Iterator, Mapping

import msgspec

from meetward.body.figure import Figure, Prop, PropKind, Spot, View
from meetward.body.placing import figure as placed
from meetward.body.placing import from_the_front
from meetward.body.pose import Pose
from meetward.body.segments import Body
from meetward.body.solve import solve
from meetward.body.sought import Sought
from meetward.body.spots import spot, under
from meetward.body.things import ROUND, size

Where = str | tuple[float, float]
"""A spot of the figure by name, or [forwards of mid-foot, above the floor]. [cm]"""


class PropAt(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A thing in the picture, told by the lifter's own body so that it fits every lifter.

    at : where it is; for upright things the middle of the lower edge, for round things the middle.
    under : the part that it carries: it stands on the floor and is as high as that part needs; a round thing
        lies right under it. Then ``at`` is left out.
    off : how far from there. [cm]
    to : the other end of a band, rope, cable, stick or board.
    to_off : how far from there. [cm]
    wide_cm, high_cm : its size; left out, a usual one.
    """

    kind: PropKind
    at: Where = (0.0, 0.0)
    under: str = ""
    off: tuple[float, float] = (0.0, 0.0)
    to: Where | None = None
    to_off: tuple[float, float] = (0.0, 0.0)
    wide_cm: float = 0.0
    high_cm: float = 0.0


class Arrow(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What moves: from near a spot, so far forwards and upwards. [cm]"""

    at: str
    go: tuple[float, float]
    off: tuple[float, float] = (0.0, 0.0)


class Frame(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One position of a drawing: sought (solved for each body) or posed (kept by hand).

    says : what to see, in about six words.
    view : from the side, or a pose without a bar from the front.
    """

    name: str
    says: str = ""
    sought: Sought | None = None
    pose: Pose | None = None
    props: tuple[PropAt, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    view: View = "side"


class Drawing(msgspec.Struct, frozen=True):
    """One picture. ``alt`` says what it shows, for those who cannot see it."""

    id: str
    alt: str
    frames: tuple[Frame, ...]
    title: str = ""


class Drawings(msgspec.Struct, frozen=True):
    """All drawings that are known."""

    by_id: Mapping[str, Drawing]

    def find(self, id: str) -> Drawing | None:
        """The drawing of a movement or drill; None where there is none."""
        return self.by_id.get(id)

    def __iter__(self) -> Iterator[Drawing]:
        return iter(self.by_id.values())


def figures(drawing: Drawing, body: Body) -> tuple[Figure, ...]:
    """The lifter in each position of a drawing."""
    return tuple(figure_of(frame, body) for frame in drawing.frames)


def figure_of(frame: Frame, body: Body) -> Figure:
    """The lifter in one position, with the things around."""
    if frame.pose:
        made = placed(frame.pose, body)
    else:
        made = solve(frame.sought or Sought(), body).figure
    if frame.view == "front":
        made = from_the_front(made)
    if not frame.props:
        return made
    return msgspec.structs.replace(made, props=tuple(_prop(made, kept) for kept in frame.props))


def _prop(made: Figure, kept: PropAt) -> Prop:
    to = None if kept.to is None else _shifted(_where(made, kept.to), kept.to_off)
    if kept.under:
        top = _shifted(under(made, kept.under), kept.off)
        if kept.kind in ROUND:
            wide = size(Prop(kept.kind, top, kept.wide_cm))[0]
            return Prop(kept.kind, Spot(top.x, top.y - wide / 2), wide)
        high = kept.high_cm or top.y
        at = Spot(top.x, top.y - high)
        return Prop(kept.kind, at, kept.wide_cm, high, to)
    at = _shifted(_where(made, kept.at), kept.off)
    return Prop(kept.kind, at, kept.wide_cm, kept.high_cm, to)


def _where(made: Figure, at: Where) -> Spot:
    return spot(made, at) if isinstance(at, str) else Spot(at[0], at[1])


def _shifted(at: Spot, off: tuple[float, float]) -> Spot:
    return Spot(at.x + off[0], at.y + off[1], at.z)
