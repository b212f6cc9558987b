"""A week as it stands on a lifter's days: the answer that pages and commands show, and what is asked."""

from typing import Literal

import msgspec

from meetward.catalogue.movement import Family
from meetward.cycle.tree import Line, Segment, SegmentKind, Session, Week
from meetward.fit.week_days_blocks import LineAt
from meetward.problem import Problem
from meetward.why import Why


class TrainingDay(msgspec.Struct, frozen=True):
    """A day on which the lifter trains.

    weekday : 0 is Monday.
    minutes : time for the session; None for no limit. [min]
    """

    weekday: int
    minutes: int | None = None


class WeekDays(msgspec.Struct, frozen=True):
    """A template week and the days that a lifter has for it.

    blocked : weekdays of this week on which they cannot train.
    meet_weekday : of a meet or test in this week. Where the week is the cycle's own meet or test week its
        last session stands on that day; in any other week that day and the one before it are kept free.
    """

    week: Week
    days: tuple[TrainingDay, ...]
    blocked: tuple[int, ...] = ()
    meet_weekday: int | None = None


class FittedDay(msgspec.Struct, frozen=True):
    """One training day. Lines are places in the template week, in the order in which they are done.

    session : the session whose day it is and whose warm-up and recovery are done; 0 on a day without work.
    sessions : all sessions that give to the day, in order.
    warm_up_cut, recovery_cut : lines for which there is no time.
    minutes : estimated, rounded up; limit_minutes : what the lifter has, None for no limit. [min]
    meet : the meet or test itself.
    """

    weekday: int
    session: int
    sessions: tuple[int, ...]
    warm_up: tuple[LineAt, ...]
    lifts: tuple[LineAt, ...]
    recovery: tuple[LineAt, ...]
    warm_up_cut: tuple[LineAt, ...]
    recovery_cut: tuple[LineAt, ...]
    minutes: int
    limit_minutes: int | None
    meet: bool
    why: Why


class LeftOut(msgspec.Struct, frozen=True):
    """Lines that stay together and find no place.

    shares : of each family the lifts that are lost, and the lifts of the whole week.
    """

    lines: tuple[LineAt, ...]
    words: str
    shares: tuple[tuple[Family, float, float], ...]
    said: str


class FamilyShare(msgspec.Struct, frozen=True):
    """Lifts of one family: those that stay, and those of the template week."""

    family: Family
    kept: float
    full: float


class Proof(msgspec.Struct, frozen=True):
    """How good the answer is known to be.

    known : "proven", no plan is better; "within", none is better by more than ``within_permille`` of the
        score.
    score, bound : what the plan scores, and what no plan exceeds. [points]
    """

    known: Literal["proven", "within"]
    score: int
    bound: int
    within_permille: int
    said: str


class FittedDays(msgspec.Struct, frozen=True):
    """The week on the lifter's days.

    possible : False where rules that are never broken collide; the days are then the least bad plan.
    collisions : a smallest set of rules that collide, by their ids.
    value_kept_permille : of what the whole week is worth.
    reasons : what changed and why, in plain sentences.
    """

    possible: bool
    days: tuple[FittedDay, ...]
    left_out: tuple[LeftOut, ...]
    families: tuple[FamilyShare, ...]
    value_kept_permille: int
    reasons: tuple[str, ...]
    collisions: tuple[str, ...]
    problems: tuple[Problem, ...]
    proof: Proof


def line_at(week: Week, at: LineAt) -> Line:
    """The line of the template that is meant."""
    return week.sessions[at.session - 1].segments[at.segment].lines[at.line]


def day_session(day: FittedDay, week: Week) -> Session:
    """A fitted day as a session, for sheets and counts.

    Lines that were done in turn keep together; their letters are given anew, because two sessions may both
    have a pair A.
    """
    if not day.session:
        return Session((), weekday=day.weekday)
    home = week.sessions[day.session - 1]
    parts: tuple[tuple[SegmentKind, tuple[LineAt, ...]], ...] = (
        ("warm-up", day.warm_up),
        ("lifts", day.lifts),
        ("recovery", day.recovery),
    )
    segments = tuple(Segment(kind, _lettered(week, lines)) for kind, lines in parts if lines)
    return msgspec.structs.replace(
        home, segments=segments, weekday=day.weekday, minutes=day.limit_minutes or home.minutes
    )


def _lettered(week: Week, at: tuple[LineAt, ...]) -> tuple[Line, ...]:
    lines: list[Line] = []
    letter, last = "", ("", 0, 0)
    for where in at:
        line = line_at(week, where)
        if line.turn:
            turn = (line.turn, where.session, where.segment)
            if turn != last:
                letter = chr(ord(letter) + 1) if "A" <= letter < "Z" else "A"
            last = turn
            line = msgspec.structs.replace(line, turn=letter)
        else:
            last = ("", 0, 0)
        lines.append(line)
    return tuple(lines)
