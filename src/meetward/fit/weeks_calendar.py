"""The lifter's calendar, week by week: what is open, what is blocked and why, and the meets on it."""

from collections.abc import Sequence
from datetime import date, timedelta

import msgspec

from meetward.fit.week_rules import WeekRules
from meetward.lifter.calendar import DAYS
from meetward.problem import Place, Problem

MOST_FURTHER_MEETS = 3


class Block(msgspec.Struct, frozen=True):
    """Days on which the lifter does not train, ends included.

    reason : in the coach's words: "travel", "exams".
    illness : the return takes a step more.
    """

    first: date
    last: date
    reason: str = ""
    illness: bool = False


class FurtherMeet(msgspec.Struct, frozen=True):
    """A meet on the way to the big one."""

    on: date
    name: str = "a meet"


class LifterCalendar(msgspec.Struct, frozen=True):
    """When a lifter can train, from the start to the meet or test day.

    starts_on : first day of training; its week is the first.
    meet_on : any weekday; the last week of the cycle falls in its week.
    days : weekdays on which they train, 0 is Monday; empty for every day.
    last_lifts, last_heavy_lifts : of the lifter's last working week before the start; None where the lifter
        comes ready for the first week.
    weeks_done : so many weeks of the cycle lie behind; the fit is of those that remain. Missed time up to
        today is a block that begins on or after ``starts_on``.
    """

    starts_on: date
    meet_on: date
    days: tuple[int, ...] = ()
    blocks: tuple[Block, ...] = ()
    meets: tuple[FurtherMeet, ...] = ()
    goal: str = "the meet"
    last_lifts: int | None = None
    last_heavy_lifts: int | None = None
    weeks_done: int = 0


class CalendarWeek(msgspec.Struct, frozen=True):
    """One week of the calendar.

    open_days : training days that are free of blocks and neither before the start nor after the meet.
    blocked : it holds no week of the cycle.
    why_blocked : the reason, in a sentence; empty for a whole open week.
    cap_permille : the highest level of a working week here, below 1000 after missed weeks. [permille]
    meets : names of further meets in it.
    free_days : the day before a further meet.
    after_gap : the week before it is blocked.
    """

    monday: date
    open_days: tuple[date, ...]
    blocked: bool
    why_blocked: str
    cap_permille: int
    meets: tuple[str, ...]
    free_days: tuple[date, ...]
    after_gap: bool


def calendar_weeks(calendar: LifterCalendar, rules: WeekRules) -> tuple[CalendarWeek, ...]:
    """Every week from the start to the meet. The calendar has to be free of problems."""
    first = monday_of(calendar.starts_on)
    number = (monday_of(calendar.meet_on) - first).days // 7 + 1
    days = sorted(set(calendar.days)) or range(7)
    least = max(1, rules.least_open_days) if rules.on("open days") else 1
    found: list[CalendarWeek] = []
    gap = 0
    ill = False
    caps: tuple[int, ...] = ()
    for at in range(number):
        monday = first + timedelta(weeks=at)
        on = [monday + timedelta(days=day) for day in days]
        mine = [day for day in on if calendar.starts_on <= day <= calendar.meet_on]
        free = tuple(day for day in mine if _block(calendar, day) is None)
        last = at == number - 1
        # A lifter who trains on one day only has no more than that; the week of the meet has the meet.
        blocked = not last and len(free) < min(least, len(on))
        after_gap = gap > 0
        if blocked:
            gap += 1
            blocks = (_block(calendar, day) for day in mine)
            ill = ill or any(block is not None and block.illness for block in blocks)
            cap = 1000
        else:
            if gap:
                caps = _weaker(caps, _steps(gap + (rules.illness_weeks if ill else 0), rules))
            gap, ill = 0, False
            cap, caps = (caps[0], caps[1:]) if caps else (1000, ())
        sunday = monday + timedelta(days=6)
        found.append(
            CalendarWeek(
                monday,
                free,
                blocked,
                _why_blocked(calendar, rules, on, free, blocked),
                cap,
                tuple(meet.name for meet in calendar.meets if monday <= meet.on <= sunday),
                tuple(
                    day
                    for meet in sorted(calendar.meets, key=lambda meet: meet.on)
                    if monday <= (day := meet.on - timedelta(days=1)) <= sunday
                ),
                after_gap,
            )
        )
    return tuple(found)


def calendar_problems(
    calendar: LifterCalendar, template_weeks: int, today: date | None = None
) -> tuple[Problem, ...]:
    """What is wrong with a calendar; ``stop`` where nothing can be fitted until it is mended."""
    found: list[Problem] = []
    meet, start, goal = calendar.meet_on, calendar.starts_on, calendar.goal
    if not template_weeks:
        found.append(_stop("no weeks", "The cycle has no weeks.", "Write at least one week first."))
    if today is not None and meet < today:
        said = f"The day of {goal}, {day_words(meet)}, is over."
        found.append(_stop("meet in the past", said, "Give the day of the next meet or test."))
    elif meet < start:
        said = f"{capital(goal)} on {day_words(meet)} comes before the start on {day_words(start)}."
        found.append(_stop("meet before the start", said, "Change one of the two days."))
    elif (meet - max(start, today or start)).days <= 1:
        said = f"{capital(goal)} is on {day_words(meet)}: there is no time for training."
        found.append(_look("meet at once", said, "Lift as you are, or choose a later meet."))
    weeks = (monday_of(meet) - monday_of(start)).days // 7 + 1
    most = 2 * template_weeks
    if template_weeks and weeks > most:
        latest = day_words(monday_of(meet) - timedelta(weeks=most - 1))
        said = f"There are {weeks} weeks until {goal}; a cycle of {template_weeks} fills {most} at most."
        found.append(
            _stop("too many weeks", said, f"Start on {latest} or later; train something else before.")
        )
    wrong = [day for day in calendar.days if not 0 <= day <= 6]
    if wrong:
        found.append(_stop("no such weekday", f"{wrong[0]} is no weekday.", "Use 0 (Monday) to 6 (Sunday)."))
    if template_weeks and not 0 <= calendar.weeks_done < template_weeks:
        said = f"{calendar.weeks_done} weeks of the cycle's {template_weeks} are given as done."
        found.append(_stop("weeks done", said, f"Give a number from 0 to {template_weeks - 1}."))
    if min(calendar.last_lifts or 0, calendar.last_heavy_lifts or 0) < 0:
        said = "The lifts of the last working week are below 0."
        found.append(_stop("lifts below 0", said, "Give their number, or leave them out."))
    return (*found, *_block_problems(calendar), *_meet_problems(calendar))


def _block_problems(calendar: LifterCalendar) -> list[Problem]:
    found: list[Problem] = []
    seen: list[Block] = []
    start, meet = calendar.starts_on, calendar.meet_on
    for block in calendar.blocks:
        name = _block_words(block)
        if block.last < block.first:
            found.append(_stop("block backwards", f"{name} ends before it begins.", "Swap the two days."))
            continue
        if block.last < start or block.first > meet:
            said = (
                f"{name} lies outside the time from {day_words(start)} to {day_words(meet)} "
                "and changes nothing."
            )
            found.append(_look("block outside", said, "Check its dates, or leave it out."))
        if block.first <= meet <= block.last:
            said = f"{name} covers {day_words(meet)}, the day of {calendar.goal}."
            found.append(_stop("meet blocked", said, "End the block before it, or change the meet."))
        for other in seen:
            if block.first <= other.last and other.first <= block.last and block.reason != other.reason:
                said = f"{name} and {_block_words(other)} overlap; those days are blocked once."
                found.append(_look("blocks overlap", said, "Check which reason is meant."))
        seen.append(block)
    return found


def _meet_problems(calendar: LifterCalendar) -> list[Problem]:
    found: list[Problem] = []
    goal_on = calendar.meet_on
    if len(calendar.meets) > MOST_FURTHER_MEETS:
        most = MOST_FURTHER_MEETS
        said = (
            f"There are {len(calendar.meets)} further meets; more than {most} leave no training between them."
        )
        found.append(_stop("too many meets", said, f"Name the {most} that deserve a lighter week."))
    weeks = {monday_of(goal_on): FurtherMeet(goal_on, calendar.goal)}
    for meet in sorted(calendar.meets, key=lambda meet: meet.on):
        name = f"{capital(meet.name)} on {day_words(meet.on)}"
        if meet.on >= goal_on:
            said = f"{name} does not come before {calendar.goal} on {day_words(goal_on)}."
            found.append(
                _stop("further meet too late", said, "Make the later one the goal, or leave it out.")
            )
            continue
        if meet.on < calendar.starts_on:
            said = f"{name} comes before the start and changes nothing."
            found.append(_look("further meet before the start", said, "Leave it out."))
        other = weeks.setdefault(monday_of(meet.on), meet)
        if other is not meet:
            said = f"{name} and {other.name} fall in one week."
            found.append(_look("two meets in a week", said, "Ask the lifter which one counts."))
        block = _block(calendar, meet.on)
        if block is not None:
            said = f"{_block_words(block)} covers {day_words(meet.on)}, the day of {meet.name}."
            found.append(_stop("further meet blocked", said, "Change the block, or leave the meet out."))
    return found


def monday_of(day: date) -> date:
    """The Monday of a day's week."""
    return date.fromordinal(max(1, day.toordinal() - day.weekday()))


def _block(calendar: LifterCalendar, day: date) -> Block | None:
    return next((block for block in calendar.blocks if block.first <= day <= block.last), None)


def _steps(gap_weeks: int, rules: WeekRules) -> tuple[int, ...]:
    return rules.return_steps[min(gap_weeks, len(rules.return_steps)) - 1]


def _weaker(one: tuple[int, ...], other: tuple[int, ...]) -> tuple[int, ...]:
    """The lower of two rows of steps at each place: a gap inside a return keeps what was left of it."""
    length = max(len(one), len(other))
    padded = (row + (1000,) * (length - len(row)) for row in (one, other))
    return tuple(min(pair) for pair in zip(*padded, strict=True))


def _why_blocked(
    calendar: LifterCalendar, rules: WeekRules, on: Sequence[date], free: tuple[date, ...], blocked: bool
) -> str:
    lost = [day for day in on if day not in free and day <= calendar.meet_on]
    if not lost:
        return ""
    reasons: list[str] = []
    for day in lost:
        block = _block(calendar, day)
        if day < calendar.starts_on:
            reason = "before the start"
        else:
            reason = (block.reason if block else "") or "blocked"
        if reason not in reasons:
            reasons.append(reason)
    said = ", ".join(reasons)
    if not blocked:
        return f"{len(lost)} of {len(on)} training days {'is' if len(lost) == 1 else 'are'} closed ({said})."
    if not free:
        return f"No training day is open ({said})."
    days = "day is" if len(free) == 1 else "days are"
    return (
        f"Only {len(free)} training {days} open ({said}); a week with fewer than {rules.least_open_days} "
        "counts as blocked."
    )


def _block_words(block: Block) -> str:
    name = f"The block '{block.reason}'" if block.reason else "The block"
    return f"{name} from {day_words(block.first)} to {day_words(block.last)}"


def day_words(day: date) -> str:
    """A day in words: "Saturday 20 March 2027"."""
    return f"{DAYS[day.weekday()]} {day.day} {day:%B} {day.year}"


def capital(words: str) -> str:
    """Words that begin a sentence."""
    return words[:1].upper() + words[1:]


def _stop(kind: str, message: str, repair: str) -> Problem:
    return Problem(Place(said="Calendar"), kind, message, repair)


def _look(kind: str, message: str, repair: str) -> Problem:
    return Problem(Place(said="Calendar"), kind, message, repair, severity="look")
