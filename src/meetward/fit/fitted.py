"""What one lifter does on one day, as computed: the value that pages, sheets and the phone draw."""

from datetime import date
from typing import Literal

import msgspec

from meetward.barbell.discs import SidePlan
from meetward.barbell.ladder import Ladder
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.cycle.tree import SegmentKind, SetGroup
from meetward.problem import Problem
from meetward.why import Why

Entry = Movement | Drill | Sequence


class DaySet(msgspec.Struct, frozen=True):
    """A set group of the day with its kilos.

    group : as the coach wrote it.
    scheme : sets and reps in words, without the load: "4 × 3", "5 × (2+1)", "3 × 30 s each side".
    load_said : the load as the coach wrote it: "70 %", "RPE 8", "heavy single".
    low_dag, high_dag : what to put on the bar (bar and discs together); equal unless it is a range; None when
        the load is felt, open, or stands on something that is not known yet.
    weights_dag : one weight for each set where they climb; empty otherwise.
    placeholder : the kilos stand on a derived best: a start to work up from, not a prescription.
    instruction : what to do where there is no fixed kilo ("Work up to a heavy double, then tell your coach").
    discs : for one side, for ``high_dag``; None where nothing is loaded.
    why : reason of the kilos, or of their absence.
    """

    group: SetGroup
    scheme: str
    load_said: str
    low_dag: int | None
    high_dag: int | None
    weights_dag: tuple[int, ...]
    placeholder: bool
    instruction: str
    discs: SidePlan | None
    why: Why


class DayPart(msgspec.Struct, frozen=True):
    """A movement, drill or sequence of a line, with its catalogue entry where there is one.

    detail : variant and pauses in words: "from blocks, 2 s pause at the knee"; may be empty.
    first : the cycle has not asked for it before this session, so its text is worth reading.
    """

    name: str
    detail: str
    entry: Entry | None
    first: bool = False


class DayBetween(msgspec.Struct, frozen=True):
    """What to do between the sets; ``first`` as in `DayPart`."""

    name: str
    dose: str
    drill: Drill | None
    first: bool = False


class DayLine(msgspec.Struct, frozen=True):
    """One line of the day.

    ladder : warm-up sets to the first work set; None where none is needed.
    steps : of a warm-up sequence, as (name, dose, entry) in order; empty otherwise.
    """

    name: str
    parts: tuple[DayPart, ...]
    sets: tuple[DaySet, ...]
    ladder: Ladder | None
    between: tuple[DayBetween, ...]
    steps: tuple[tuple[str, str, Movement | Drill | None], ...]
    notes: tuple[str, ...]
    turn: str
    priority: str
    minutes: float


class DaySegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    kind: SegmentKind
    lines: tuple[DayLine, ...]
    minutes: float


class SessionHead(msgspec.Struct, frozen=True):
    """Which session of which cycle it is, and what it is for; the head of a day and of a lesson alike.

    week, session : through the cycle and in the week, from 1; ``weeks`` is the length of the cycle.
    notes : of the week, then of the session.
    """

    cycle: str
    club: str
    week: int
    weeks: int
    week_role: str
    phase: str
    session: int
    title: str
    key: bool
    aim: str
    notes: tuple[str, ...]


class DaySheet(SessionHead, frozen=True):
    """A lifter's day.

    minutes : estimated length of the session. [min]
    minutes_why : how they were counted.
    cautions : what to be careful about today; always at least the lines that every sheet carries.
    shared : texts that the day's entries share with their groups.
    problems : what a person should see: a missing best, a weight that cannot be loaded, an unknown lift.
    """

    lifter: str
    lifter_key: str
    on: date | None
    meet: str
    meet_on: date | None
    segments: tuple[DaySegment, ...]
    minutes: float
    minutes_why: Why
    unit: Literal["kg", "lb"]
    bar_dag: int
    collars_dag: int
    cautions: tuple[str, ...]
    problems: tuple[Problem, ...]
    shared: tuple[Shared, ...] = ()
