"""The form of measures and mobility tests: what it asks, and what a sent one says."""

import re
from collections.abc import Mapping
from datetime import date
from typing import Any

import msgspec

from meetward.body.segments import Measures, check_measures
from meetward.lifter.profile import Lifter
from meetward.lifter.screen import TESTS, Screen, Sides, TestId
from meetward.problem import Place, Problem
from meetward.web.actions.taken import mass_kg_of

CM_PER_INCH = 2.54

_MEASURES = (
    ("height_cm", "Height", "Barefoot against a wall, a book flat on the crown. This one is needed."),
    ("sitting_height_cm", "Sitting height", "On a flat stool at the wall: from the seat to the crown."),
    ("arm_span_cm", "Arm span", "Back to the wall, arms level: from fingertip to fingertip."),
    (
        "thigh_cm",
        "Thigh",
        "From the bony point at the side of the hip to the line on the outside of the knee.",
    ),
    ("shank_cm", "Shank", "From the line on the outside of the knee to the outer ankle bone."),
)

_MOST = {"knee_to_wall": 30.0, "thoracic_rotation": 120.0}
"""The most a measured test can be: more is a slip of the pen. Custom. [cm, degrees]"""

_LONGEST = 40
_OLDEST = date(1990, 1, 1)
_NUMBER = re.compile(r"(-?\d{1,6}(?:[.,]\d{1,6})?)\s*(?:cm|°|deg|degrees)?", re.IGNORECASE)
_FEET = re.compile(
    r"(\d)\s*(?:'|’|′|ft|feet)\s*(\d{1,2}(?:[.,]\d+)?)?\s*(?:\"|”|″|''|in|inches)?", re.IGNORECASE
)
_INCHES = re.compile(r"(\d{1,3}(?:[.,]\d+)?)\s*(?:\"|”|″|in|inch|inches)", re.IGNORECASE)

ANSWERS = (("", "not tested"), ("passed", "passed"), ("not passed", "not passed"))


class MeasureField(msgspec.Struct, frozen=True):
    """A length as the form shows it."""

    name: str
    label: str
    how: str
    value: str
    problems: tuple[Problem, ...]


class ScreenField(msgspec.Struct, frozen=True):
    """A test as the form shows it.

    unit : of a measured one, which has a field a side; empty for one that is passed or not.
    answers : value, words and whether it is chosen, of one that is passed or not.
    """

    id: TestId
    name: str
    how: str
    norm: str
    unit: str
    sides: tuple[tuple[str, str], ...]
    answers: tuple[tuple[str, str, bool], ...]
    pain: bool
    problems: tuple[Problem, ...]


class Sent(msgspec.Struct, frozen=True):
    """What a form says. ``problems`` by the name of the field that they stand beside."""

    measures: Measures
    screen: Screen
    problems: dict[str, tuple[Problem, ...]]


def words_of(measures: Measures, screen: Screen) -> dict[str, str]:
    """The words in the fields for values that are kept."""
    words = {name: _show(getattr(measures, name)) for name, _, _ in _MEASURES}
    words["taken"] = screen.taken.isoformat() if screen.taken else ""
    for test in TESTS:
        value = getattr(screen, test.id)
        if isinstance(value, Sides):
            for side in ("left", "right"):
                known = getattr(value, side)
                words[f"{test.id}-{side}"] = "" if known is None else f"{known:g}"
        else:
            words[test.id] = {True: "passed", False: "not passed", None: ""}[value]
        if test.id in screen.painful:
            words[f"{test.id}-pain"] = "1"
    return words


def read_form(words: Mapping[str, str], lifter: Lifter, today: date) -> Sent:
    """Measures and tests of a sent form, with everything that is wrong in it."""
    problems: dict[str, list[Problem]] = {}
    lengths = {name: _length(name, words.get(name, ""), problems) for name, _, _ in _MEASURES}
    measures = Measures(**lengths)
    if any(lengths.values()) and not problems:
        for one in check_measures(measures, mass_kg_of(lifter, measures.height_cm)):
            problems.setdefault(one.place.path, []).append(_kinder(one, measures))
    tests: dict[str, Any] = {}
    painful: list[TestId] = []
    for test in TESTS:
        pain = bool(words.get(f"{test.id}-pain"))
        value = _measured(test.id, words, problems) if test.unit else _answer(words.get(test.id, ""))
        if pain and value not in (None, Sides()):
            problems.setdefault(test.id, []).append(
                _problem(
                    test.id,
                    "A test that was stopped because of pain has no result, and here is one.",
                    "Take the result out, or take the tick away if it did not hurt.",
                )
            )
        elif pain:
            painful.append(test.id)
        elif value is not None:
            tests[test.id] = value
    screen = Screen(painful=tuple(painful), **tests)
    if screen != Screen() or words.get("taken", "").strip():
        screen = msgspec.structs.replace(screen, taken=_day(words.get("taken", ""), today, problems))
    return Sent(measures, screen, {name: tuple(found) for name, found in problems.items()})


def measure_fields(
    words: Mapping[str, str], problems: Mapping[str, tuple[Problem, ...]]
) -> tuple[MeasureField, ...]:
    """The lengths for the page."""
    return tuple(
        MeasureField(name, label, how, words.get(name, "")[:_LONGEST], problems.get(name, ()))
        for name, label, how in _MEASURES
    )


def screen_fields(
    words: Mapping[str, str], problems: Mapping[str, tuple[Problem, ...]]
) -> tuple[ScreenField, ...]:
    """The tests for the page."""
    return tuple(
        ScreenField(
            id=test.id,
            name=test.name,
            how=test.how,
            norm=test.norm,
            unit=test.unit,
            sides=tuple((side, words.get(f"{test.id}-{side}", "")[:_LONGEST]) for side in ("left", "right")),
            answers=tuple((value, said, words.get(test.id, "") == value) for value, said in ANSWERS),
            pain=bool(words.get(f"{test.id}-pain")),
            problems=problems.get(test.id, ()),
        )
        for test in TESTS
    )


def _length(name: str, words: str, problems: dict[str, list[Problem]]) -> float:
    value, wrong = _number(name, words, "centimetres, as in 172 or 41,5")
    if wrong is None and value is not None and value <= 0:
        wrong = _problem(name, f"{value:g} cm is no length.", "Measure again, or leave it empty.", words)
    if wrong is not None:
        problems.setdefault(name, []).append(wrong)
        return 0.0
    return value or 0.0


def _measured(test: TestId, words: Mapping[str, str], problems: dict[str, list[Problem]]) -> Sides:
    found = {}
    unit = "centimetres, as in 9 or 9,5" if test == "knee_to_wall" else "degrees, as in 48"
    for side in ("left", "right"):
        written = words.get(f"{test}-{side}", "")
        value, wrong = _number(test, written, unit)
        if wrong is None and value is not None and not 0 <= value <= _MOST[test]:
            wrong = _problem(
                test,
                f"{value:g} on the {side} is outside 0 to {_MOST[test]:.0f}.",
                f"Measure again and enter {unit}, or leave it empty.",
                written,
            )
        if wrong is not None:
            problems.setdefault(test, []).append(wrong)
        found[side] = value if wrong is None else None
    return Sides(**found)


def _number(name: str, words: str, unit: str) -> tuple[float | None, Problem | None]:
    text = words.strip()
    if not text:
        return None, None
    if found := _NUMBER.fullmatch(text):
        return float(found[1].replace(",", ".")), None
    shown = text[:_LONGEST]
    inches = _in_inches(text)
    if inches is not None:
        return None, _problem(
            name,
            f"'{shown}' is in feet or inches; that would be {inches * CM_PER_INCH:.1f} cm.",
            f"Enter {unit}.",
            shown,
        )
    return None, _problem(name, f"'{shown}' is no number that can be read.", f"Enter {unit}.", shown)


def _in_inches(text: str) -> float | None:
    if found := _FEET.fullmatch(text):
        return 12 * float(found[1]) + float((found[2] or "0").replace(",", "."))
    if found := _INCHES.fullmatch(text):
        return float(found[1].replace(",", "."))
    return None


def _kinder(problem: Problem, measures: Measures) -> Problem:
    """The same with a guess at the slip behind a height that nobody has."""
    height = measures.height_cm
    if problem.place.path != "height_cm" or not height:
        return problem
    guess = ""
    if 1 <= height <= 2.3:
        guess = f"Is it in metres? Then enter {height * 100:g}."
    elif 10 <= height < 23:
        guess = f"Is a figure missing? {height:g} may have been {height * 10:g}."
    elif 48 <= height <= 84:
        guess = f"Is it in inches? Then it is {height * CM_PER_INCH:.0f} cm."
    elif 1000 <= height <= 2300:
        guess = f"Is it in millimetres? Then enter {height / 10:g}."
    return msgspec.structs.replace(problem, repair=f"{problem.repair} {guess}".strip())


def _answer(words: str) -> bool | None:
    return {"passed": True, "not passed": False}.get(words)


def _day(words: str, today: date, problems: dict[str, list[Problem]]) -> date | None:
    text = words.strip()
    wrong = ""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        wrong = f"'{text[:_LONGEST]}' is no date." if text else "The day of the tests is missing."
    else:
        if _OLDEST <= day <= today:
            return day
        wrong = f"{text} lies ahead." if day > today else f"{text} is too long ago."
    problems.setdefault("taken", []).append(
        _problem("taken", wrong, f"Enter the day of the tests as in {today.isoformat()}.", text[:_LONGEST])
    )
    return None


def _show(value: float) -> str:
    return f"{value:g}" if value else ""


def _problem(field: str, message: str, repair: str, read: str = "") -> Problem:
    return Problem(Place(path=field), kind="not understood", message=message, repair=repair, read=read)
