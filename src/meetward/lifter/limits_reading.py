"""Restrictions and missing kit in a coach's words, and back.

``no overhead, no jerks until 2027-01-12; no blocks; only a 15 kg bar, discs to 60 kg (on the boat)``: clauses
stand between semicolons or on lines of their own; dates and words in brackets belong to the whole clause. A
restriction whose dates cannot be read is kept without an end: better too long than too short.
"""

import re
from collections.abc import Iterator
from datetime import date

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Equipment, Movement
from meetward.lifter.dates import find_date
from meetward.lifter.restrictions import (
    EQUIPMENT,
    FAMILIES,
    POSITIONS,
    Limits,
    MissingKit,
    Restriction,
    RestrictionKind,
)
from meetward.problem import Place, Problem
from meetward.units import kg_to_dag, lb_to_dag, show_kg

LONGEST_TEXT = 2_000

_BRACKETS = re.compile(r"\(([^()]*)\)")
_DATES = re.compile(
    r"\b(?:(until|till|up to and including)|(from|since|to)\s+(?=(?:\S+\s+)?\S*\d))\s*"
    r"(?!\d+(?:[.,]\d+)?\s*(?:kg|kilo|lb|pound|$|,))"
)
_COMMA = re.compile(r"(?<!\d),|,(?!\d)")
"""Between items; the comma of "82,5 kg" is none."""
_WEIGHT = r"(\d{1,5}(?:[.,]\d{1,3})?)\s*(kg|kilos?|lbs?|pounds?)?"
_BAR = re.compile(rf"(?:only\s+)?(?:a\s+|the\s+)?(?:bar\s+(?:of\s+)?{_WEIGHT}|{_WEIGHT}\s*bar)(?:\s+only)?")
_HEAVIEST = re.compile(
    rf"(?:only\s+)?(?:(?:bar\s+and\s+)?(?:discs?|plates?|weights?)\s+)?(?:up\s+to|to|at\s+most|no\s+more\s+than)\s+{_WEIGHT}"
)
_NO = re.compile(r"(?:no|without|not?\s+any|nothing)\s+(.+)")

_NAMED: dict[str, RestrictionKind] = {
    "overhead": "no overhead", "overhead work": "no overhead", "arms overhead": "no overhead",
    "deep squat": "no deep squat", "deep squatting": "no deep squat", "full squat": "no deep squat",
    "deep": "no deep squat", "squatting deep": "no deep squat",
    "pulling from the floor": "no pulling from the floor", "pull from the floor": "no pulling from the floor",
    "pulls from the floor": "no pulling from the floor",
    "from the floor": "no pulling from the floor", "floor pull": "no pulling from the floor",
    "floor": "no pulling from the floor", "jerk": "no jerks", "jerking": "no jerks",
}  # fmt: skip
_ALSO: dict[str, Equipment] = {
    "boxe": "box", "squat rack": "rack", "stand": "rack", "pull up bar": "pull-up bar", "block": "blocks",
    "disc": "discs", "plate": "discs", "ring": "rings", "barbell": "bar", "foam roller": "roller",
    "pulling block": "blocks", "dumbell": "dumbbell",
}  # fmt: skip


def read_limits(
    text: str, catalogue: Catalogue, today: date, source: str = ""
) -> tuple[Limits, list[Problem]]:
    """What a coach has written, and what was not understood. Raises nothing.

    today : an end before it is told.
    source : name of the file or field, for the places.
    """
    problems: list[Problem] = []
    restrictions: list[Restriction] = []
    missing: list[MissingKit] = []
    if len(text) > LONGEST_TEXT:
        place = Place(source=source)
        message = f"The restrictions are {len(text)} characters long; only {LONGEST_TEXT} are read."
        problems.append(Problem(place, "too long", message, "Write one short clause for each."))
        text = text[:LONGEST_TEXT]
    for number, line in enumerate(text.splitlines(), start=1):
        at = 0
        for clause in line.split(";"):
            width = len(clause.strip())
            if width and clause.strip().casefold() not in ("none", "nothing", "-", "no"):
                column = at + len(clause) - len(clause.lstrip()) + 1
                place = Place(line=number, column=column, width=width, source=source)
                _clause(clause.strip(), catalogue, today, place, restrictions, missing, problems)
            at += len(clause) + 1
    return Limits(tuple(dict.fromkeys(restrictions)), tuple(dict.fromkeys(missing))), problems


def show_limits(limits: Limits, catalogue: Catalogue) -> str:
    """Text that `read_limits` reads back as the same limits, a clause for each."""
    clauses = []
    for one in limits.restrictions:
        clauses.append(_what(one, catalogue) + _dates(one.since, one.until) + _in_brackets(one.words))
    for kit in limits.missing:
        items = [f"no {each}" for each in kit.equipment]
        items += [] if kit.bar_dag is None else [f"only a {show_kg(kit.bar_dag)} kg bar"]
        items += [] if kit.heaviest_dag is None else [f"discs to {show_kg(kit.heaviest_dag)} kg"]
        clauses.append(", ".join(items) + _dates(kit.since, kit.until) + _in_brackets(kit.words))
    return "; ".join(clauses)


def _what(restriction: Restriction, catalogue: Catalogue) -> str:
    """``no Snatch pull``, or ``no movement Snatch`` where the bare name would mean more than that."""
    if not restriction.of:
        return restriction.kind
    movement = catalogue.movements.get(restriction.of) if restriction.kind == "movement" else None
    name = movement.name if movement else restriction.of
    plain = _kind(f"no {name}".casefold(), catalogue) == (restriction.kind, restriction.of)
    return f"no {name}" if plain else f"no {restriction.kind} {name}"


def _in_brackets(words: str) -> str:
    return f" ({words})" if words else ""


def _dates(since: date | None, until: date | None) -> str:
    return (f" from {since}" if since else "") + (f" until {until}" if until else "")


def _clause(
    clause: str,
    catalogue: Catalogue,
    today: date,
    place: Place,
    restrictions: list[Restriction],
    missing: list[MissingKit],
    problems: list[Problem],
) -> None:
    words = " ".join(" ".join(_BRACKETS.findall(clause)).split())
    rest = _BRACKETS.sub(" ", clause).casefold()
    since, until, rest, wrong = _days(rest, today)
    if not wrong and since and until and until < since:
        wrong = f"It ends on {until}, before it begins on {since}."
    if wrong:
        repair = "Write 'until 2027-01-12' or 'from … until …'; so far it is kept without an end."
        problems.append(Problem(place, "dates", wrong, repair, clause))
        since = until = None
        rest = _DATES.split(rest, maxsplit=1)[0]
    if until and until < today:
        message = f"'{clause[:60]}' ended on {until}, so it changes nothing now."
        problems.append(
            Problem(place, "ended", message, "Take it out, or give a later day.", clause, severity="look")
        )
    equipment: list[Equipment] = []
    bar_dag = heaviest_dag = None
    for item in _items(rest, catalogue):
        if found := _HEAVIEST.fullmatch(item):
            heaviest_dag = _dag(found[1], found[2])
        elif found := _BAR.fullmatch(item):
            bar_dag = _dag(found[1] or found[3], found[2] or found[4])
        elif (kind := _kind(item, catalogue)) is None:
            near = catalogue.suggest(_bare(item)) if len(item) <= 60 else None
            repair = (
                "Write 'no overhead', 'no blocks', 'no front rack', 'only a 15 kg bar' or 'discs to 60 kg'."
            )
            if near:
                repair = f"Did you mean 'no {near.lower()}'? {repair}"
            message = f"'{item[:60]}' is no restriction and no kit that is known here."
            problems.append(Problem(place, "not understood", message, repair, item))
        elif isinstance(kind, str):
            equipment.append(kind)
        else:
            restrictions.append(Restriction(kind[0], kind[1], since, until, words))
    if equipment or bar_dag is not None or heaviest_dag is not None:
        try:
            missing.append(MissingKit(tuple(equipment), bar_dag, heaviest_dag, since, until, words))
        except ValueError as wrong_kit:
            problems.append(
                Problem(place, "weights", str(wrong_kit), "Write 'only a 15 kg bar, discs to 60 kg'.", clause)
            )
            if equipment:
                missing.append(MissingKit(tuple(equipment), None, None, since, until, words))


def _items(text: str, catalogue: Catalogue) -> Iterator[str]:
    """What a clause lists: between commas, and between "and" or "or" where that is not part of a name."""
    for item in (" ".join(each.split()) for each in _COMMA.split(text)):
        several = re.split(r" (?:and|or|nor) ", item)
        if len(several) == 1 or _kind(item, catalogue) is not None or _HEAVIEST.fullmatch(item):
            yield from (item,) if item else ()
            continue
        no = "no " if _NO.fullmatch(several[0]) else ""
        for each in several:
            plain = _NO.fullmatch(each) or _BAR.fullmatch(each) or _HEAVIEST.fullmatch(each)
            yield each if plain else no + each


def _kind(item: str, catalogue: Catalogue) -> Equipment | tuple[RestrictionKind, str] | None:
    """Equipment that is missing, or a restriction with what it names; None where it is neither."""
    if not _NO.fullmatch(item):
        return None
    bare = _bare(item)
    kind, _, name = bare.partition(" ")
    if kind == "movement" and (only := catalogue.find(name, "movement")):
        return "movement", only.entry.id
    if kind == "position" and name in POSITIONS:
        return "position", name
    if kind == "family" and name in FAMILIES:
        return "family", name
    stem = bare if bare.endswith("ss") else bare.removesuffix("s")
    for word in (bare, stem):
        if word in _NAMED:
            return _NAMED[word], ""
    for word in (bare, stem):
        if found := next((each for each in EQUIPMENT if word == each and each != "none"), _ALSO.get(word)):
            return found
    for word in (bare, stem):
        if word in POSITIONS:
            return "position", word
        if word in FAMILIES:
            return "family", word
    found_entry = catalogue.find(bare, "movement") if len(bare) <= 200 else None
    if found_entry and isinstance(found_entry.entry, Movement):
        return "movement", found_entry.entry.id
    return None


def _bare(item: str) -> str:
    found = _NO.fullmatch(item)
    return found[1].removeprefix("the ").removeprefix("any ") if found else item


def _days(text: str, today: date) -> tuple[date | None, date | None, str, str]:
    """First and last day, the text without them, and what is wrong with them in words."""
    ends: dict[bool, date] = {}
    for _ in range(2):
        found = _DATES.search(text)
        if not found:
            break
        first = found[2] in ("from", "since")
        after = text[found.end() :]
        # Years of two figures are read as past ones; these days are mostly still to come.
        read = find_date(after, date(min(today.year + 50, 9999), 1, 1))
        if read is None or read.on is None or read.start > 0:
            return None, None, text, f"'{after[:30]}' is no day that can be read."
        if read.doubts:
            return None, None, text, read.doubts[0].message
        if read.note:
            return None, None, text, f"'{after[: read.end][:30]}' is not a whole date: {read.note}."
        if first in ends:
            return None, None, text, "Two first days or two last days are given."
        ends[first] = read.on
        text = text[: found.start()] + " " + after[read.end :]
    return ends.get(True), ends.get(False), text, ""


def _dag(number: str, unit: str | None) -> int:
    return lb_to_dag(number) if unit and unit.startswith(("lb", "pound")) else kg_to_dag(number)
