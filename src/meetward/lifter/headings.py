"""What the headings of a coach's sheet mean: "Athlete", "C+J max (kg)", "FS 3RM", "Snatch date".

A lift may be headed by any name that the catalogue knows. A heading that is only nearly right is never
taken: it is left out and said, with the name it may have meant.
"""

import re
import unicodedata
from datetime import date
from typing import Literal

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import BestKind
from meetward.lifter.cell import Cell, number_of, words_of
from meetward.lifter.dates import find_date
from meetward.lifter.weights import Unit

Role = Literal[
    "key", "name", "first name", "surname", "category", "born", "age", "bodyweight", "bar", "discs",
    "collars", "days", "minutes", "unit", "shown in", "lift", "load", "reps", "date", "notes",
    "best", "best date", "best kind", "best note", "",
]  # fmt: skip
"""What a column holds; empty for one that is left out."""

LONGEST_HEADING = 80

UNKNOWN = "not a lift of the catalogue, nor part of a profile"

_WEIGHED: tuple[Role, ...] = ("bodyweight", "bar", "discs", "load")

_HEADINGS: dict[Role, str] = {
    "key": "key, id, short name",
    "name": (
        "name, names, athlete, athletes, lifter, lifters, full name, athlete name, lifter name, "
        "member, members, weightlifter, person, who, name of athlete, name of lifter, surname "
        "first name, last name first name"
    ),
    "first name": "first name, firstname, first, forename, given name, fname, christian name, first names",
    "surname": "surname, last name, lastname, last, family name, second name, lname",
    "category": (
        "category, cat, sex, gender, m f, f m, m w, w m, m or f, m or w, men women, male female, division"
    ),
    "born": (
        "dob, d o b, born, yob, y o b, birth, birthday, birthdate, birth date, birth year, year "
        "of birth, date of birth, born in, year born"
    ),
    "age": "age, age years, years, age yrs",
    "bodyweight": (
        "bw, bwt, b w, bodyweight, body weight, bodymass, body mass, weight, wt, bw now, weigh "
        "in, athlete weight"
    ),
    "bar": "bar, barbell, bar weight, which bar",
    "discs": (
        "discs, disc, disks, plates, weights, discs at hand, discs on hand, kit, equipment, home kit, bumpers"
    ),
    "collars": "collars, collar, competition collars",
    "days": (
        "days, training days, day, weekdays, days training, trains, training, available, "
        "availability, days available, sessions, sessions week"
    ),
    "minutes": (
        "minutes, min, mins, time, session length, minutes session, minutes a session, time "
        "available, session minutes, session time, length"
    ),
    "unit": "unit, units, kg lb, lb kg, kg or lb, lb or kg, kg lbs, kgs lbs, uom",
    "shown in": "shown in, show in, prefers",
    "lift": "lift, lifts, exercise, exercises, exercise name, movement, movements, event",
    "load": (
        "load, loads, best, bests, max, maxes, pb, pr, 1rm, result, kg, kgs, kilos, lb, lbs, "
        "pounds, weight lifted, top set"
    ),
    "reps": "reps, rep, repetitions, rm",
    "date": (
        "date, dates, tested, test date, date tested, tested on, test day, date of test, date of "
        "bests, date of best, pb date, pbs date, date of pb, pr date, max date, maxes date, date "
        "of maxes, as of, last tested, bests on, lifted on, on, date set"
    ),
    "notes": (
        "notes, note, comment, comments, remark, remarks, injuries, injury, restrictions, "
        "limitations, info, other, anything else, coach notes"
    ),
}
_NAMES = {heading: role for role, headings in _HEADINGS.items() for heading in headings.split(", ")}

# Shorthand that stands only in sheets; in a cycle's text it would be too short to be sure of.
_SHORTHAND = {
    shorthand: name
    for name, written in {
        "clean and jerk": "c+j|c j|cj|cnj|c and j|clean+jerk|clean jerk|clean n jerk",
        "snatch": "sn|sna|snat|snch",
        "clean": "cl|cln",
        "back squat": "sq|squat|squats|bsq|bs|b squat|back sq",
        "front squat": "fsq|fs|f squat|front sq",
        "overhead squat": "ohsq|ohs|oh squat",
        "power snatch": "psn|p snatch|pwr snatch",
        "power clean": "pcl|p clean|pwr clean",
        "push press": "pp|p press",
        "strict press": "press",
        "deadlift": "dl|dead|deads",
    }.items()
    for shorthand in written.split("|")
}

_UNIT = re.compile(r"\(?\b(?:in )?(kgs?|kilos?|kilograms?|lbs?|pounds?)\b\.?\)?|#(?!\d)", re.IGNORECASE)
_REPS = re.compile(
    r"\b(\d{1,2}) ?(?:rm|rep max|reps? max|reps?)\b|\bx ?(\d{1,2})$|\b(double|triple)$|\bbest of (\d{1,2})$"
)
_NO_BEST = re.compile(
    r"\b(goals?|targets?|aims?|aim|openers?|opening|planned|projected|predicted|next|wanted|wish|rank|"
    r"place|attempts?|increase|change|diff|difference|gain|progress|percent|pct|ratio|missed|"
    r"last year|previous|old|start|before)\b|%"
)
_COMPUTED = re.compile(r"\b(total|sinclair|points|sum|average|avg|mean)\b")
_DATE = re.compile(r"\b(date|when|dated)\b")
_KIND = re.compile(r"\b(how|kind|type|method)\b")
_NOTE = re.compile(r"\b(notes?|comments?|remarks?)\b")
_ESTIMATED = re.compile(r"\b(e1rm|est|estimated|estimate|calculated|calc)\b")
_TESTED = re.compile(r"\b(tested|competition|comp|meet)\b")
_PLAIN_BEST = re.compile(
    r"\b(1 ?rm|1 rep max|pb|pbs|pr|prs|max|maxes|maximum|best|bests|current|"
    r"all time|lifetime|record|load|weight|result|s|the|of|my|training|gym)\b|\bsingle$"
)
_SIGNS = re.compile(r"[^\w+%#]+")
_ANY_DAY = date(2000, 1, 1)
"""Only whether a heading names a day is asked here; which one it is depends on today."""


_MEANS: dict[Role, str] = {
    "best date": "day of the best",
    "best kind": "kind of the best",
    "best note": "note on the best",
}


class Column(msgspec.Struct, frozen=True):
    """A column of a sheet and what it is taken for.

    at : place in a row, from 0.
    heading : as written; empty where the sheet had none.
    lift, reps : for a best and what belongs to one.
    unit : of its weights, where the heading names one.
    dated : the day of its bests in the heading's words ("Snatch Jan 2026"); empty where it names none.
    ignored : why it is left out, in a sentence; empty for a column that is read.
    """

    at: int
    heading: str
    role: Role = ""
    lift: str = ""
    reps: int = 1
    kind: BestKind | None = None
    unit: Unit | None = None
    dated: str = ""
    ignored: str = ""

    @property
    def called(self) -> str:
        """Its heading, or its letter where it has none."""
        return self.heading or letter(self.at)

    @property
    def means(self) -> str:
        """What it is taken for, in words: "best front squat, 3 reps, in kg"."""
        if self.ignored:
            return self.ignored
        words = [_MEANS.get(self.role, self.role)]
        if self.lift:
            words[0] += f" {self.lift.replace('_', ' ')}"
        if self.reps > 1:
            words.append(f"{self.reps} reps")
        if self.kind:
            words.append(self.kind)
        if self.unit:
            words.append(f"in {self.unit}")
        if self.dated:
            words.append(f"of {self.dated}")
        return ", ".join(words)


def letter(at: int) -> str:
    """``0`` as ``"A"``, ``27`` as ``"AB"``: how spreadsheets call their columns."""
    letters = ""
    at += 1
    while at:
        at, rest = divmod(at - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def read_heading(cell: Cell, at: int, catalogue: Catalogue) -> Column | None:
    """The column that a heading announces; None when it is not understood, ignored ones with the reason."""
    heading = " ".join(words_of(cell).split())
    if not heading or len(heading) > LONGEST_HEADING or number_of(heading) is not None:
        return None
    return _undated(heading, at, catalogue) or _dated(heading, at, catalogue)


def names_people(cell: Cell) -> bool:
    """Whether a cell is a heading over names ("Athlete", "Surname") and so never a name."""
    text = words_of(cell) if isinstance(cell, str) else ""
    return len(text) <= LONGEST_HEADING and _NAMES.get(_plain(text)) in ("name", "first name", "surname")


def _dated(heading: str, at: int, catalogue: Catalogue) -> Column | None:
    """The column of a heading that names a day beside the lift ("Snatch Jan 2026")."""
    found = find_date(heading, _ANY_DAY)
    if found is None:
        return None
    rest = " ".join(f"{heading[: found.start]} {heading[found.end :]}".split())
    column = _undated(rest, at, catalogue) if rest else None
    if column is None or column.role not in ("best", ""):
        return None
    return msgspec.structs.replace(column, heading=heading, dated=heading[found.start : found.end])


def _undated(heading: str, at: int, catalogue: Catalogue) -> Column | None:
    unit = _unit(heading)
    text = _plain(_UNIT.sub(" ", heading))
    if role := _NAMES.get(text) or _NAMES.get(_plain(heading)):
        return Column(at, heading, role, unit=unit if role in _WEIGHED else None)
    # A name of the catalogue goes before our own taking apart: some hold words that we take off.
    if "%" not in heading and (lift := _lift(heading, catalogue) or _lift(text, catalogue)):
        return Column(at, heading, "best", lift, unit=unit)
    if _NO_BEST.search(text):
        return (
            Column(at, heading, ignored="no best of today by its heading")
            if _names_lift(text, catalogue)
            else None
        )
    if _COMPUTED.search(text):
        return Column(at, heading, ignored="computed from the others")
    return _best(heading, text, at, unit, catalogue)


def _best(heading: str, text: str, at: int, unit: Unit | None, catalogue: Catalogue) -> Column | None:
    """A lift's column once the words around the lift are taken off."""
    reps = 1
    kind: BestKind | None = None
    role: Role = "best"
    if found := _REPS.search(text):
        reps = {"double": 2, "triple": 3}.get(found[3] or "") or int(found[1] or found[2] or found[4])
        text = _REPS.sub(" ", text)
        if not 1 <= reps <= 20:
            return None
    belongings: tuple[tuple[re.Pattern[str], Role], ...] = (
        (_DATE, "best date"), (_KIND, "best kind"), (_NOTE, "best note")
    )  # fmt: skip
    for pattern, belonging in belongings:
        if pattern.search(text):
            role, text = belonging, pattern.sub(" ", text)
            break
    if _ESTIMATED.search(text):
        kind, text = "estimated", _ESTIMATED.sub(" ", text)
    elif _TESTED.search(text):
        kind, text = "tested", _TESTED.sub(" ", text)
    text = " ".join(text.split())
    lift = _lift(text, catalogue) or _lift(" ".join(_PLAIN_BEST.sub(" ", text).split()), catalogue)
    if not lift:
        return None
    if role != "best":
        return Column(at, heading, role, lift, reps)
    return Column(at, heading, role, lift, reps, kind, unit)


def near_lift(heading: str, catalogue: Catalogue) -> str | None:
    """The name that a misspelt heading may have meant."""
    text = _plain(_UNIT.sub(" ", heading))
    text = " ".join(_PLAIN_BEST.sub(" ", _REPS.sub(" ", text)).split())
    if not 3 <= len(text) <= 40:
        return None
    name = catalogue.suggest(text)
    found = catalogue.find(name, "movement") if name else None
    return found.entry.name if found else None


def heading_unit(cell: Cell) -> Unit | None:
    """The unit that a heading over several columns names ("Bests (lb)")."""
    text = words_of(cell)
    return _unit(text) if len(text) <= LONGEST_HEADING else None


def _unit(heading: str) -> Unit | None:
    units = {"kg" if (found[1] or "").lower().startswith("k") else "lb" for found in _UNIT.finditer(heading)}
    return "kg" if units == {"kg"} else "lb" if units == {"lb"} else None


def _plain(heading: str) -> str:
    """Lower case, no accents, no signs but + and %."""
    text = heading.casefold().replace("&", " and ").replace("×", "x")
    if not text.isascii():
        text = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    text = text.replace("'s", "").replace("#", " ")
    return " ".join(_SIGNS.sub(" ", text.replace("_", " ")).replace(" + ", "+").split())


def _lift(words: str, catalogue: Catalogue) -> str:
    """Catalogue id of the movement that goes by these words; empty when there is none."""
    if not words:
        return ""
    found = catalogue.find(words, "movement")
    if found is None and (known := _SHORTHAND.get(_plain(words))):
        found = catalogue.find(known, "movement")
    return found.entry.id if found else ""


def _names_lift(text: str, catalogue: Catalogue) -> bool:
    rest = " ".join(_PLAIN_BEST.sub(" ", _NO_BEST.sub(" ", text)).split())
    return not rest or bool(_lift(rest, catalogue))
