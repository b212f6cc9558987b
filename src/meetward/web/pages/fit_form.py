"""The form of a lifter's wish: dates, days, minutes, blocks, further meets, limits; read and shown."""

import re
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Cycle
from meetward.fit.dates import first_monday
from meetward.fit.weeks_calendar import MOST_FURTHER_MEETS, Block, FurtherMeet, calendar_problems
from meetward.lifter.calendar import DAYS
from meetward.lifter.dates import find_date
from meetward.lifter.limits_reading import read_limits, show_limits
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.problem import Place, Problem, stops
from meetward.web.actions.fits import FitWish

MOST_BLOCKS = 12
SPARE_BLOCKS = 2
"""Empty rows under those that are filled."""

LONGEST_NAME = 120
LEAST_MINUTES, MOST_MINUTES = 10, 300
FAR = timedelta(days=3 * 366)
"""A day further away than this is a slip of the pen."""

_MINUTES = re.compile(r"(\d{1,4})(?:[.,]0+)?\s*(?:min|mins|minutes|')?\.?", re.IGNORECASE)
_FIELDS = {
    "meet in the past": "meet_on", "meet before the start": "meet_on", "too many weeks": "starts_on",
    "no weeks": "starts_on", "meet blocked": "blocks", "block backwards": "blocks",
    "further meet too late": "meets", "further meet blocked": "meets", "too many meets": "meets",
    "no such weekday": "days",
}  # fmt: skip

Problems = dict[str, tuple[Problem, ...]]


class Sent(msgspec.Struct, frozen=True):
    """What a sent form says; ``wish`` is None where something has to be mended first."""

    wish: FitWish | None
    problems: Problems


class DayTyped(msgspec.Struct, frozen=True):
    """A day as typed. A date picker would drop what is no date, so that stands in a text field."""

    typed: str

    @property
    def kind(self) -> str:
        """The field's type."""
        try:
            date.fromisoformat(self.typed or "2000-01-01")
        except ValueError:
            return "text"
        return "date"


class BlockRow(msgspec.Struct, frozen=True):
    """A row of days without training, as typed."""

    at: int
    first: DayTyped
    last: DayTyped
    reason: str
    ill: bool


class MeetRow(msgspec.Struct, frozen=True):
    """A further meet, as typed."""

    at: int
    on: DayTyped
    name: str


class Form(msgspec.Struct, frozen=True):
    """The form as the page shows it. ``days``: value, name, whether it is ticked."""

    starts_on: DayTyped
    meet_on: DayTyped
    meet: str
    days: tuple[tuple[int, str, bool], ...]
    minutes: str
    blocks: tuple[BlockRow, ...]
    meets: tuple[MeetRow, ...]
    limits: str
    problems: Problems


def words_of(wish: FitWish, catalogue: Catalogue) -> dict[str, str]:
    """A wish as the form's fields have it."""
    words = {
        "starts_on": wish.starts_on.isoformat(),
        "meet_on": wish.meet_on.isoformat(),
        "meet": wish.meet,
        "minutes": str(wish.minutes or ""),
        "limits": show_limits(wish.limits, catalogue),
    }
    words |= {f"day-{day}": "1" for day in wish.days}
    for at, block in enumerate(wish.blocks):
        words |= {f"block-{at}-first": block.first.isoformat(), f"block-{at}-last": block.last.isoformat()}
        words |= {f"block-{at}-reason": block.reason}
        words |= {f"block-{at}-ill": "1"} if block.illness else {}
    for at, meet in enumerate(wish.meets):
        words |= {f"meet-{at}-on": meet.on.isoformat(), f"meet-{at}-name": meet.name}
    return words


def first_words(lifter: Lifter, cycle: Cycle | None) -> dict[str, str]:
    """What the form holds before anything was saved: the cycle's own dates, the lifter's days and minutes."""
    words = {"minutes": str(lifter.minutes or "")} | {f"day-{day}": "1" for day in lifter.days}
    if cycle is not None:
        start = first_monday(cycle)
        words |= {"meet": cycle.meet, "starts_on": start.isoformat() if start else ""}
        words |= {"meet_on": cycle.meet_on.isoformat() if cycle.meet_on else ""}
    return words


def form_of(words: Mapping[str, str], problems: Problems) -> Form:
    """The form with what was typed and what is wrong with it."""
    blocks = [_block_row(words, at) for at in range(MOST_BLOCKS)]
    filled = max((row.at + 1 for row in blocks if _is_filled(row)), default=0)
    return Form(
        starts_on=DayTyped(words.get("starts_on", "")),
        meet_on=DayTyped(words.get("meet_on", "")),
        meet=words.get("meet", ""),
        days=tuple((day, name, bool(words.get(f"day-{day}"))) for day, name in enumerate(DAYS)),
        minutes=words.get("minutes", ""),
        blocks=tuple(blocks[: min(MOST_BLOCKS, filled + SPARE_BLOCKS)]),
        meets=tuple(
            MeetRow(at, DayTyped(words.get(f"meet-{at}-on", "")), words.get(f"meet-{at}-name", ""))
            for at in range(MOST_FURTHER_MEETS)
        ),
        limits=words.get("limits", ""),
        problems=problems,
    )


def read_form(
    words: Mapping[str, str], catalogue: Catalogue, today: date, weeks: int, limits: Limits | None
) -> Sent:
    """What a sent form says.

    weeks : of the club's cycle; 0 where there is none yet.
    limits : those that stay, where it is not for the sender to change them; None where the field counts.
    """
    wrong: dict[str, list[Problem]] = {}
    starts_on = _day_of(words, "starts_on", "First day of training", today, wrong, needed=True)
    meet_on = _day_of(words, "meet_on", "Meet or test day", today, wrong, needed=True)
    days = tuple(day for day in range(7) if words.get(f"day-{day}"))
    if not days:
        _add(wrong, "days", "no days", "No training day is ticked.", "Tick at least one.")
    minutes = _minutes(words.get("minutes", ""), wrong)
    blocks = [block for at in range(MOST_BLOCKS) if (block := _block(words, at, today, wrong))]
    meets = [meet for at in range(MOST_FURTHER_MEETS) if (meet := _meet(words, at, today, wrong))]
    if limits is None:
        limits, found = read_limits(words.get("limits", ""), catalogue, today)
        if bad := stops(found):
            wrong["limits"] = bad
    if starts_on is None or meet_on is None:
        return Sent(None, _frozen(wrong))
    wish = FitWish(
        starts_on,
        meet_on,
        _plain(words.get("meet", "")),
        days,
        minutes,
        tuple(sorted(blocks, key=lambda one: (one.first, one.last))),
        tuple(sorted(meets, key=lambda one: one.on)),
        limits,
    )
    for problem in stops(calendar_problems(wish.calendar, weeks, today)):
        if weeks or problem.kind != "no weeks":
            wrong.setdefault(_FIELDS.get(problem.kind, "meet_on"), []).append(problem)
    return Sent(None if wrong else wish, _frozen(wrong))


def _day_of(
    words: Mapping[str, str],
    name: str,
    label: str,
    today: date,
    wrong: dict[str, list[Problem]],
    *,
    needed: bool = False,
    field: str = "",
) -> date | None:
    typed = _plain(words.get(name, ""))
    where = field or name
    if not typed:
        if needed:
            _add(wrong, where, "no day", f"{label}: no day is given.", "Choose one.")
        return None
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        read = find_date(typed, today)
        if read is None or read.on is None or read.note or read.doubts:
            said = f"{label}: '{typed[:40]}' is no whole day."
            _add(wrong, where, "no day", said, "Write it as 2027-03-20 or 20 March 2027.")
            return None
        day = read.on
    if abs(day - today) > FAR:
        said = f"{label}: {day.isoformat()} is more than three years away."
        _add(wrong, where, "far away", said, "Check the year.")
        return None
    return day


def _minutes(typed: str, wrong: dict[str, list[Problem]]) -> int | None:
    typed = _plain(typed)
    if not typed:
        return None
    found = _MINUTES.fullmatch(typed)
    if found and LEAST_MINUTES <= int(found[1]) <= MOST_MINUTES:
        return int(found[1])
    said = f"'{typed[:40]}' is no length of a session."
    repair = f"Give whole minutes from {LEAST_MINUTES} to {MOST_MINUTES}, or leave it empty for no limit."
    _add(wrong, "minutes", "minutes", said, repair)
    return None


def _block_row(words: Mapping[str, str], at: int) -> BlockRow:
    first, last, reason, ill = (words.get(f"block-{at}-{part}", "") for part in _BLOCK_PARTS)
    return BlockRow(at, DayTyped(first), DayTyped(last), reason, bool(ill))


def _is_filled(row: BlockRow) -> bool:
    return bool(row.first.typed.strip() or row.last.typed.strip() or row.reason.strip() or row.ill)


def _block(words: Mapping[str, str], at: int, today: date, wrong: dict[str, list[Problem]]) -> Block | None:
    row = _block_row(words, at)
    if not (row.first.typed.strip() or row.last.typed.strip()):
        if _is_filled(row):
            said = f"Row {at + 1} names no day."
            _add(wrong, "blocks", "no day", said, "Give its first and last day, or empty the row.")
        return None
    label = f"Row {at + 1}"
    first = _day_of(words, f"block-{at}-first", label, today, wrong, field="blocks")
    last = _day_of(words, f"block-{at}-last", label, today, wrong, field="blocks")
    one = first or last  # a single day may stand in either field
    if one is None:
        return None
    return Block(first or one, last or one, _plain(row.reason), row.ill)


def _meet(
    words: Mapping[str, str], at: int, today: date, wrong: dict[str, list[Problem]]
) -> FurtherMeet | None:
    name = _plain(words.get(f"meet-{at}-name", ""))
    if name and not words.get(f"meet-{at}-on", "").strip():
        _add(wrong, "meets", "no day", f"'{name[:40]}' has no day.", "Give its day, or empty the row.")
        return None
    on = _day_of(words, f"meet-{at}-on", f"Meet {at + 1}", today, wrong, field="meets")
    return FurtherMeet(on, name or "a meet") if on else None


def _plain(typed: str) -> str:
    """One line of what can be printed."""
    kept = "".join(sign if sign.isprintable() else " " for sign in typed)
    return " ".join(kept.split())[:LONGEST_NAME]


def _add(wrong: dict[str, list[Problem]], field: str, kind: str, said: str, repair: str) -> None:
    wrong.setdefault(field, []).append(Problem(Place(said=field), kind, said, repair))


def _frozen(wrong: Mapping[str, Sequence[Problem]]) -> Problems:
    return {field: tuple(found) for field, found in wrong.items()}


_BLOCK_PARTS = ("first", "last", "reason", "ill")
