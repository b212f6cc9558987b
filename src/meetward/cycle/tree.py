"""The cycle as one immutable tree: phases, weeks, sessions, segments, lines, set groups.

Weeks are numbered through the whole cycle, sessions within their week, both from 1. A cycle can be read
without the catalogue of the coach who wrote it: a part keeps the movement as written beside its id.
"""

from collections.abc import Iterator
from datetime import date
from typing import Annotated, Literal

import msgspec

from .load import Load, Open

Whole = Annotated[int, msgspec.Meta(ge=0, le=100_000)]
Positive = Annotated[int, msgspec.Meta(ge=1, le=100_000)]
Tempo = Annotated[str, msgspec.Meta(pattern=r"^([0-9X]{4})?$")]
Letter = Annotated[str, msgspec.Meta(pattern=r"^[A-Z]?$")]
Weekday = Annotated[int, msgspec.Meta(ge=0, le=6)]

Role = Literal["load", "lighter", "test", "taper", "meet"]
SegmentKind = Literal["warm-up", "lifts", "recovery"]
Priority = Literal["key", "should", "could"]
Order = Literal["sets-first", "reps-first"]
"""How a cycle reads ``5x3``: five sets of three, or five reps in three sets."""
Unit = Literal["kg", "lb"]
BareLoad = Literal["percent", "kg", "lb"]
"""What a weight without any sign means in this cycle (``70/3``)."""


class Span(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A number or a range of whole numbers, ends included."""

    low: Whole
    high: Whole

    @property
    def middle(self) -> float:
        """Half way between the ends, for counting ranges."""
        return (self.low + self.high) / 2


class Reps(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Repetitions of one movement in one set.

    low, high : equal for a plain number; both None with ``or_more`` for "as many as you can".
    or_more : "5+", at least.
    """

    low: Whole | None
    high: Whole | None
    or_more: bool = False


class SetGroup(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Sets that are alike.

    count : how many sets; None when left open.
    reps : one entry for each part of the line, in order; None where not said (a hold, a distance).
    climbing : the weights climb over the sets up to the load's top ("7 sets of 2 up to 70 %").
    on_the_way : the climb goes on in the sets behind these, so these end below the load's top: of
        "3-2-1-1 up to 85 %" only the last single is lifted at 85 %.
    drop : the weights come down from the set before without a rest.
    wave : number of the wave (1, 2, ...) that these sets belong to; 0 outside waves.
    cluster : repetitions between short breaks inside one set ("1.1.1"); their sum is the reps of the set.
    cluster_rest_s : the short break. [s]
    every_s : a set starts every so many seconds (every minute on the minute: 60). [s]
    within_s : all of it inside this time, or for so long ("as many rounds as possible in 8 min"). [s]
    rest_s : rest after each set. [s]
    hold_s : a timed hold or timed work instead of reps. [s]
    distance_m : carried or walked. [m]
    tempo : four signs, down / pause / up / pause, X for as fast as possible: "30X0".
    per_side : reps or hold are for each side.
    missed : a set of a log that was not made.
    note : words that belong to these sets only.
    """

    count: Span | None
    reps: tuple[Reps | None, ...]
    load: Load = Open()
    climbing: bool = False
    on_the_way: bool = False
    drop: bool = False
    wave: Whole = 0
    cluster: tuple[Positive, ...] = ()
    cluster_rest_s: Positive | None = None
    every_s: Positive | None = None
    within_s: Positive | None = None
    rest_s: Span | None = None
    hold_s: Span | None = None
    distance_m: Span | None = None
    tempo: Tempo = ""
    per_side: bool = False
    missed: bool = False
    note: str = ""


class Pause(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A pause inside the movement: seconds (None when not said) and where, in the words of the trade."""

    seconds: Whole | None
    at: str = ""


class Part(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """One movement, drill or sequence of a line; a complex has several.

    written : the name as the coach wrote it, without sets and loads.
    movement : catalogue id; empty when the catalogue does not know it.
    variant : what the catalogue has no entry of its own for, in plain words ("from blocks").
    pauses : in the order in which they come.
    version : of a warm-up sequence; 0 means the current one.
    """

    written: str
    movement: str = ""
    variant: tuple[str, ...] = ()
    pauses: tuple[Pause, ...] = ()
    version: Whole = 0


class Between(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What to do between the sets of a line: a drill with its dose in words."""

    written: str
    drill: str = ""
    dose: str = ""


class Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """One line of a session: a movement or complex with its sets.

    parts : empty for a line that was kept as a note only.
    turn : lines of a segment with the same letter are done in turn, a set of each ("A"); empty: on its own.
    notes : what the coach adds, and words of the line that were not understood; nothing is dropped.
    id : stable over versions once saved; the text form carries none.
    """

    parts: tuple[Part, ...]
    groups: tuple[SetGroup, ...] = ()
    between: tuple[Between, ...] = ()
    notes: tuple[str, ...] = ()
    turn: Letter = ""
    priority: Priority = "should"
    id: str = ""


class Segment(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Warm-up, lifts or recovery of a session."""

    kind: SegmentKind
    lines: tuple[Line, ...]


class Session(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """One training session.

    weekday : 0 is Monday; None when the cycle leaves the day open.
    key : a session that a lifter with few days should keep.
    minutes : time the coach means it to take. [min]
    """

    segments: tuple[Segment, ...]
    title: str = ""
    weekday: Weekday | None = None
    key: bool = False
    minutes: Positive | None = None
    aim: str = ""
    notes: tuple[str, ...] = ()


class Week(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """One week with its role in the cycle."""

    sessions: tuple[Session, ...]
    role: Role = "load"
    title: str = ""
    notes: tuple[str, ...] = ()


class Phase(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """Weeks with one purpose."""

    weeks: tuple[Week, ...]
    title: str = ""
    aim: str = ""
    notes: tuple[str, ...] = ()


class Cycle(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A whole training cycle.

    order : how ``AxB`` is read; None while nothing is declared.
    loaded_order : how ``70% x A x B`` is read; reps before sets by custom unless declared.
    unit : of weights written with no unit where ``bare_load`` does not say percent.
    bare_load : what a load with no sign means; None while nothing is declared.
    starts_on : the Monday of week 1.
    """

    phases: tuple[Phase, ...]
    title: str = ""
    club: str = ""
    coach: str = ""
    aim: str = ""
    emphasis: str = ""
    meet: str = ""
    meet_on: date | None = None
    starts_on: date | None = None
    order: Order | None = None
    loaded_order: Order | None = None
    unit: Unit = "kg"
    bare_load: BareLoad | None = None
    notes: tuple[str, ...] = ()

    def weeks(self) -> Iterator[tuple[int, Phase, Week]]:
        """Every week with its number through the whole cycle (from 1) and its phase."""
        number = 0
        for phase in self.phases:
            for week in phase.weeks:
                number += 1
                yield number, phase, week

    def sessions(self) -> Iterator[tuple[int, int, Session]]:
        """Every session with its week number and its number in the week (both from 1)."""
        for week_number, _, week in self.weeks():
            for number, session in enumerate(week.sessions, start=1):
                yield week_number, number, session
