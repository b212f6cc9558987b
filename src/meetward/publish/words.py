"""Dates, kilos, minutes and the words around a line, as they are printed on every sheet."""

import re
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Protocol

from meetward.fit.fitted import DaySet

from .bar import Unit, show_weight

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def show_date(day: date) -> str:
    """``Wednesday 24 February 2027``; English whatever the machine speaks."""
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]} {day.year}"


def show_day_short(day: date) -> str:
    """``Wed 24 Feb``."""
    return f"{_DAYS[day.weekday()][:3]} {day.day} {_MONTHS[day.month - 1][:3]}"


def time_to_meet(on: date | None, meet: str, meet_on: date | None) -> str:
    """``38 days to Eskmouth Spring Open``; the meet's name alone without a date; empty once it is over."""
    name = meet or "the meet"
    if on is None or meet_on is None:
        return meet
    days = (meet_on - on).days
    if days < 0:
        return ""
    if days == 0:
        return f"Today: {name}"
    return f"{days} {'day' if days == 1 else 'days'} to {name}"


def show_minutes(minutes: float) -> str:
    """``about 75 min``, to the nearest minute; an estimate never looks exact."""
    return f"about {round(minutes)} min" if minutes >= 1 else ""


def show_kilos(day_set: DaySet, unit: Unit) -> str:
    """The figure of a set group: "60", "60–65", "45 to 60"; empty where no weight is known."""
    if day_set.weights_dag:
        first, last = day_set.weights_dag[0], day_set.weights_dag[-1]
        if first != last:
            return f"{show_weight(first, unit)} to {show_weight(last, unit)}"
        return show_weight(last, unit)
    if day_set.high_dag is None:
        return ""
    high = show_weight(day_set.high_dag, unit)
    if day_set.low_dag is None or day_set.low_dag == day_set.high_dag:
        return high
    if day_set.placeholder:
        return show_weight(day_set.low_dag, unit)
    return f"{show_weight(day_set.low_dag, unit)}–{high}"


def split_range(kilos: str) -> tuple[str, str, str]:
    """``"60–65"`` as ``("60", "–", "65")``; a figure that is no range stands alone in front."""
    for sign in ("–", " to "):
        first, found, last = kilos.partition(sign)
        if found:
            return first, sign.strip(), last
    return kilos, "", ""


def split_scheme(scheme: str) -> tuple[str, str]:
    """Sets and reps, and what else is said of them.

    ``wave 1: 1 × 2, rest 2:00`` is ``("1 × 2", "wave 1, rest 2:00")``.
    """
    wave, colon, after = scheme.partition(": ")
    if not (colon and re.fullmatch(r"wave \d+", wave)):
        wave, after = "", scheme
    core, _, rest = after.partition(", ")
    return core, ", ".join(word for word in (wave, rest) if word)


SEGMENT_TITLES = {"warm-up": "Warm-up", "lifts": "Lifts", "recovery": "Recovery"}
PRIORITIES = {"key": "most important today", "could": "if time is left"}
"""What is said of a line's priority; a line that should be done needs no word."""


class NamedPart(Protocol):
    """A movement, drill or sequence of a line."""

    @property
    def name(self) -> str:
        """Its name."""

    @property
    def detail(self) -> str:
        """Variant and pauses in words."""


class NamedLine(Protocol):
    """A line of a day or of a lesson."""

    @property
    def name(self) -> str:
        """The names of its parts together."""

    @property
    def parts(self) -> Sequence[NamedPart]:
        """Its movements, drills and sequences."""

    @property
    def turn(self) -> str:
        """The letter that lines done in turn share; empty for a line on its own."""


def show_facts(phase: str, role: str, key: bool) -> tuple[str, ...]:
    """Short facts of a session: its phase, the kind of its week, whether it is a key session."""
    facts = (phase, "" if role == "load" else f"{role} week", "key session" if key else "")
    return tuple(fact for fact in facts if fact)


def show_details(line: NamedLine) -> str:
    """Variants and pauses; in a complex with the movement that they belong to."""
    return "; ".join(
        part.detail if len(line.parts) == 1 else f"{part.name}: {part.detail}"
        for part in line.parts
        if part.detail and part.detail not in line.name
    )


def show_turn(line: NamedLine, lines: Iterable[NamedLine]) -> str:
    """What a line takes turns with; empty where it stands on its own. ``lines``: of its segment."""
    others = [other.name for other in lines if line.turn and other.turn == line.turn and other is not line]
    return f"In turn with {' and '.join(others)}: one set of each." if others else ""
