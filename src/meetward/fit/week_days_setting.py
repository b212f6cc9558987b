"""What is asked, checked and put as a case: the days that are left, the meet, what may stand where."""

from collections.abc import Mapping
from itertools import pairwise

import msgspec

from meetward.cycle.tree import Week
from meetward.fit.week_days_blocks import WeekBlocks
from meetward.fit.week_days_case import Block, Case, Content
from meetward.fit.week_days_fitted import TrainingDay, WeekDays
from meetward.lifter.calendar import DAYS
from meetward.problem import Place, Problem

NO_LIMIT_S = 10**6
"""Stands for a day without a limit. [s]"""


class Setting(msgspec.Struct, frozen=True):
    """A week and a lifter's days, ready to be solved.

    days : that can be trained on, in order, without the meet.
    numbers : for each block of the case its number in the week.
    meet_session : session (from 0) that is the meet or test itself, on ``meet_weekday``; None where there is
        none.
    wanted : days on which the coach's week has each competition lift, as far as the rule asks for them.
    """

    asked: WeekDays
    blocks: WeekBlocks
    case: Case
    days: tuple[TrainingDay, ...]
    numbers: tuple[int, ...]
    meet_session: int | None
    meet_weekday: int | None
    wanted: tuple[int, ...]
    problems: tuple[Problem, ...]


def setting(asked: WeekDays, blocks: WeekBlocks, figures: Mapping[str, int]) -> Setting:
    """The case of what is asked."""
    week = asked.week
    days, problems = _days(asked)
    meet_session, meet_weekday = _meet(week, asked.meet_weekday)
    if meet_session is not None and meet_weekday is not None:
        days = [day for day in days if day.weekday < meet_weekday]
    elif meet_weekday is not None:
        days = [day for day in days if day.weekday not in (meet_weekday - 1, meet_weekday)]
    numbers = tuple(n for n, block in enumerate(blocks.blocks) if block.session != meet_session)
    content = Content(
        tuple(_block(blocks, n, bool(figures["key line"])) for n in numbers),
        blocks.warm_ups,
        _running(week, blocks.units),
        blocks.first_bar_s,
        figures["first half"],
        figures["joined session"],
        figures["split session"],
        figures["consecutive days"],
        figures["same day"],
    )
    wanted = tuple(
        min(
            figures["competition lifts"],
            len({block.unit for block in content.blocks if block.lifts >> lift & 1}),
        )
        for lift in range(2)
    )
    nearer = figures["nearness to the meet"]
    case = Case(
        content,
        _limits(content, days),
        tuple(one.weekday + 1 == other.weekday for one, other in pairwise(days)),
        _open(week, blocks.units, days, meet_session, meet_weekday, nearer),
        # The taper of a meet week is the coach's own: the platform is where both lifts stand.
        (0, 0) if meet_session is not None else tuple(min(want, len(days)) for want in wanted),
        _before_meet(week, blocks.units, days, meet_session, meet_weekday),
    )
    return Setting(
        asked, blocks, case, tuple(days), numbers, meet_session, meet_weekday, wanted, tuple(problems)
    )


def _block(blocks: WeekBlocks, number: int, key_first: bool) -> Block:
    block = blocks.blocks[number]
    return Block(
        block.session,
        blocks.units[block.session],
        block.seconds,
        block.points,
        block.group,
        block.heavy,
        block.lifts,
        block.key and key_first,
        block.bar,
    )


def _days(asked: WeekDays) -> tuple[list[TrainingDay], list[Problem]]:
    """Days that can be trained on, in order, and what is wrong with those that cannot be read."""
    days: dict[int, TrainingDay] = {}
    problems = []
    for day in asked.days:
        if not 0 <= day.weekday <= 6:
            problems.append(
                _problem("no such day", f"Day {day.weekday} is no day of the week.", "Give 0 (Monday) to 6.")
            )
        elif day.weekday in days:
            problems.append(
                _problem(
                    "day twice",
                    f"{DAYS[day.weekday]} is there twice; the first is used.",
                    "Give each day once, with all of its minutes.",
                )
            )
        elif day.minutes is not None and day.minutes <= 0:
            problems.append(
                _problem(
                    "no minutes",
                    f"{DAYS[day.weekday]} has {day.minutes} minutes, so nothing is put on it.",
                    "Give the minutes of the session, or leave the day out.",
                )
            )
        else:
            days[day.weekday] = day
    for weekday in (*asked.blocked, *(() if asked.meet_weekday is None else (asked.meet_weekday,))):
        if not 0 <= weekday <= 6:
            problems.append(
                _problem("no such day", f"Day {weekday} is no day of the week.", "Give 0 (Monday) to 6.")
            )
        elif weekday in asked.blocked and weekday == asked.meet_weekday:
            problems.append(
                _problem(
                    "meet on a blocked day",
                    f"{DAYS[weekday]} is blocked and is the day of the meet.",
                    "Unblock the day, or give the day of the meet anew.",
                )
            )
            break
    free = sorted(
        (day for weekday, day in days.items() if weekday not in asked.blocked), key=lambda day: day.weekday
    )
    return free, problems


def _problem(kind: str, message: str, repair: str) -> Problem:
    return Problem(Place(said="training days"), kind, message, repair, severity="look")


def _meet(week: Week, weekday: int | None) -> tuple[int | None, int | None]:
    """The session that is the meet or test itself, and its day."""
    if weekday is not None and not 0 <= weekday <= 6:
        weekday = None
    if not week.sessions or week.role not in ("meet", "test"):
        return None, weekday
    if weekday is None:
        weekday = week.sessions[-1].weekday if week.role == "meet" else None
    return (None if weekday is None else len(week.sessions) - 1), weekday


def _running(week: Week, units: tuple[int, ...]) -> tuple[int, ...]:
    """For each day of the coach, bits of those right before and behind it."""
    weekdays: list[int | None] = [None] * (max(units, default=-1) + 1)
    for session, unit in zip(week.sessions, units, strict=True):
        weekdays[unit] = session.weekday
    return tuple(
        sum(
            1 << other
            for other, there in enumerate(weekdays)
            if here is not None and there is not None and abs(here - there) == 1
        )
        for here in weekdays
    )


def _open(
    week: Week,
    units: tuple[int, ...],
    days: list[TrainingDay],
    meet_session: int | None,
    meet_weekday: int | None,
    nearer: int,
) -> tuple[int, ...]:
    """For each day, bits of the units that may stand on it."""
    everything = (1 << (max(units, default=-1) + 1)) - 1
    meet = None if meet_session is None else week.sessions[meet_session].weekday
    if meet is None or meet_weekday is None:
        return (everything,) * len(days)
    open_ = []
    for day in days:
        closed = 0
        for session, unit in zip(week.sessions, units, strict=True):
            own = session.weekday
            if own is not None and meet_weekday - day.weekday < meet - own - nearer:
                closed |= 1 << unit
        open_.append(everything & ~closed)
    return tuple(open_)


def _before_meet(
    week: Week,
    units: tuple[int, ...],
    days: list[TrainingDay],
    meet_session: int | None,
    meet_weekday: int | None,
) -> int | None:
    """Bits of the units right before the meet, where the lifter's last day is right before it."""
    if meet_session is None or meet_weekday is None or not days or days[-1].weekday + 1 != meet_weekday:
        return None
    meet = week.sessions[meet_session].weekday
    own = 0
    for session, unit in zip(week.sessions, units, strict=True):
        if meet is not None and session.weekday is not None and meet - session.weekday == 1:
            own |= 1 << unit
    return own


def _limits(content: Content, days: list[TrainingDay]) -> tuple[int, ...]:
    """Seconds of each day; more than the whole week takes is no more than enough."""
    enough_s = sum(block.seconds for block in content.blocks) + content.first_bar_s
    enough_s += max((warm_up.full_s for warm_up in content.warm_ups), default=0)
    return tuple(enough_s if day.minutes is None else min(enough_s, day.minutes * 60) for day in days)
