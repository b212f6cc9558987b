"""What a coach rules out for a lifter for a time, and what is not at hand where they train.

A restriction is health data: the coach sets it, the lifter sees it, nobody else does. It says how the lifter
trains and never why; it names no injury. The program keeps to it and never lifts one: it ends on the day that
the coach gave, or when the coach takes it away.
"""

from datetime import date
from typing import Literal, get_args

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Equipment, Family, Position
from meetward.units import show_kg

RestrictionKind = Literal[
    "no overhead", "no deep squat", "no pulling from the floor", "no jerks", "position", "family", "movement"
]
"""The last three leave out what ``of`` names."""

NAMED: tuple[RestrictionKind, ...] = (
    "no overhead",
    "no deep squat",
    "no pulling from the floor",
    "no jerks",
)
POSITIONS: tuple[Position, ...] = get_args(Position)
FAMILIES: tuple[Family, ...] = get_args(Family)
EQUIPMENT: tuple[Equipment, ...] = get_args(Equipment)

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LIGHTEST_DAG, _HEAVIEST_BAR_DAG, _HEAVIEST_DAG = 100, 5_000, 65_500


class Restriction(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Something that a lifter does not do for a time, because the coach says so.

    of : position, family or id of the movement, for the kinds that name one; empty for the others.
    since, until : first and last day; None where there is none (``until``: until the coach takes it away).
    words : what the lifter reads beside it.
    Raises ValueError for an ``of`` that does not belong to the kind, and for an end before the beginning.
    """

    kind: RestrictionKind
    of: str = ""
    since: date | None = None
    until: date | None = None
    words: str = ""

    def __post_init__(self) -> None:
        known: tuple[str, ...] = {"position": POSITIONS, "family": FAMILIES}.get(self.kind, ())
        if (self.kind in NAMED) == bool(self.of) or (known and self.of not in known):
            what = f"'{self.of}' is no {self.kind}" if self.of else f"No {self.kind} is named"
            raise ValueError(f"{what} to leave out; choose one of the catalogue.")
        _in_order(self.since, self.until)

    def holds(self, on: date | None) -> bool:
        """Whether it holds on that day, first and last day included; on a day not known it always does."""
        return _holds(self.since, self.until, on)

    @property
    def said(self) -> str:
        """In words: "no overhead, until 12 Jan 2027"."""
        what = self.kind if self.kind in NAMED else f"no {self.of.replace('_', ' ')}"
        return what + _dates_said(self.since, self.until)


class MissingKit(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is not at hand where the lifter trains for a time.

    equipment : what there is none of.
    bar_dag : the only bar there; None for the one of the profile. [10 g]
    heaviest_dag : the most that bar and discs make there; None for what those of the profile make. [10 g]
    since, until, words : as in `Restriction`.
    Raises ValueError for weights that no bar has, and for an end before the beginning.
    """

    equipment: tuple[Equipment, ...] = ()
    bar_dag: int | None = None
    heaviest_dag: int | None = None
    since: date | None = None
    until: date | None = None
    words: str = ""

    def __post_init__(self) -> None:
        if self.bar_dag is not None and not _LIGHTEST_DAG <= self.bar_dag <= _HEAVIEST_BAR_DAG:
            raise ValueError(f"No bar weighs {show_kg(self.bar_dag)} kg; enter one of 1 to 50 kg.")
        lightest = self.bar_dag or _LIGHTEST_DAG
        if self.heaviest_dag is not None and not lightest <= self.heaviest_dag <= _HEAVIEST_DAG:
            raise ValueError(
                f"Bar and discs cannot make {show_kg(self.heaviest_dag)} kg at most; "
                f"enter {show_kg(lightest)} to {show_kg(_HEAVIEST_DAG)} kg, the bar included."
            )
        _in_order(self.since, self.until)
        msgspec.structs.force_setattr(self, "equipment", tuple(sorted(set(self.equipment))))

    def holds(self, on: date | None) -> bool:
        """Whether it holds on that day, first and last day included; on a day not known it always does."""
        return _holds(self.since, self.until, on)

    @property
    def said(self) -> str:
        """In words: "no blocks, no rack, only a 15 kg bar, at most 60 kg on it, until 12 Jan 2027"."""
        words = [f"no {one}" for one in self.equipment]
        if self.bar_dag is not None:
            words.append(f"only a {show_kg(self.bar_dag)} kg bar")
        if self.heaviest_dag is not None:
            words.append(f"bar and discs to {show_kg(self.heaviest_dag)} kg")
        return ", ".join(words) + _dates_said(self.since, self.until)


class Limits(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """All that a coach has ruled out for one lifter, and all that is not at hand."""

    restrictions: tuple[Restriction, ...] = ()
    missing: tuple[MissingKit, ...] = ()

    def on(self, day: date | None) -> "Limits":
        """Those that hold on a day, in order; all of them for a day that is not known."""
        return Limits(
            tuple(one for one in self.restrictions if one.holds(day)),
            tuple(one for one in self.missing if one.holds(day)),
        )

    @property
    def equipment(self) -> frozenset[Equipment]:
        """All that there is none of."""
        return frozenset(each for one in self.missing for each in one.equipment)

    @property
    def bar_dag(self) -> int | None:
        """The only bar there; the lightest where several are said. [10 g]"""
        return min((one.bar_dag for one in self.missing if one.bar_dag is not None), default=None)

    @property
    def heaviest_dag(self) -> int | None:
        """The most that bar and discs make; the least where several are said. [10 g]"""
        return min((one.heaviest_dag for one in self.missing if one.heaviest_dag is not None), default=None)

    def __bool__(self) -> bool:
        return bool(self.restrictions or self.missing)


def restriction_said(restriction: Restriction, catalogue: Catalogue) -> str:
    """As `Restriction.said`, with the movement's name: "no snatch pull, until 12 Jan 2027"."""
    movement = catalogue.movements.get(restriction.of) if restriction.kind == "movement" else None
    if movement is None:
        return restriction.said
    return f"no {movement.name.lower()}" + _dates_said(restriction.since, restriction.until)


def day_said(day: date) -> str:
    """A day as people write it: "12 Jan 2027"."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def _holds(since: date | None, until: date | None, on: date | None) -> bool:
    return on is None or ((since is None or since <= on) and (until is None or on <= until))


def _in_order(since: date | None, until: date | None) -> None:
    if since is not None and until is not None and until < since:
        raise ValueError(
            f"It ends on {day_said(until)}, before it begins on {day_said(since)}; swap the days."
        )


def _dates_said(since: date | None, until: date | None) -> str:
    first = f", from {day_said(since)}" if since else ""
    return f"{first}, until {day_said(until)}" if until else first
