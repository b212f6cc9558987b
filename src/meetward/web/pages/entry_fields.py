"""The fields of a movement or drill as a form has them, and what a sent form says."""

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal, NamedTuple, get_args

from django.http import QueryDict

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill, Kind, Region, Use
from meetward.catalogue.movement import Equipment, Family, Level, Movement, Position
from meetward.catalogue.own import OwnKind
from meetward.units import show_percent

from .filters import LEVELS

How = Literal[
    "line", "text", "lines", "choice", "choices", "whole", "number", "entry", "entries", "drawing", "rows",
    "dose",
]  # fmt: skip
"""How a field is asked for. lines, entries: one a line. rows: a list of tables. entry: a name or an id.
drawing: the same, of an entry whose drawing fits this one too."""

Values = dict[str, Any]
"""Words in the fields: a string, for ``choices`` a list of them, for ``rows`` and ``dose`` a list of rows."""

LONGEST = 20_000
"""Letters of one field that are taken."""
MOST_ROWS = 12


class Field(NamedTuple):
    """A field. ``answers`` of a choice with their words; ``columns`` of rows with their labels, and
    the box to tick that a row has besides."""

    name: str
    label: str
    how: How
    hint: str = ""
    answers: Mapping[str, str] = {}
    columns: tuple[tuple[str, str], ...] = ()
    tick: tuple[str, str] = ("", "")


class Part(NamedTuple):
    """Fields that belong together."""

    title: str
    fields: tuple[Field, ...]


def _same(words: Any) -> dict[str, str]:
    return {word: word for word in get_args(words)}


_NAME = (
    Field("name", "Name", "line", "The usual trade name, singular: Hang power snatch above the knee"),
    Field("names", "Also written", "lines", "One a line. Case, hyphens and a plural s need none."),
)
_READ = (
    Field("summary", "Two lines", "text", "At most 200 letters: a lifter has ten seconds."),
    Field("cues", "Cues", "lines", "Three to six, one a line, each at most seven words."),
    Field("cautions", "Take care", "lines", "One a line: what can hurt, and what to do then."),
    Field("link", "Link of your own", "line", "To your video or page; begins with https://"),
    Field(
        "drawing",
        "Drawn like",
        "drawing",
        "An entry whose drawing fits this one too.",
    ),
)
_FAULTS = Field(
    "faults", "Faults and fixes", "rows", "Two to four.",
    columns=(("fault", "What goes wrong"), ("cause", "Why"), ("fix", "What helps")),
)  # fmt: skip
_SCALING = Field("scaling", "For a beginner", "text")
_INSTEAD = (
    Field("easier", "Easier", "entries", "Names from the catalogue, one a line."),
    Field("harder", "Harder", "entries", "Names from the catalogue, one a line."),
    Field("instead", "For the same position", "entries", "Names from the catalogue, one a line."),
)

PARTS: Mapping[OwnKind, tuple[Part, ...]] = {
    "movement": (
        Part(
            "What it is called",
            (
                *_NAME,
                Field("family", "Family", "choice", answers=_same(Family)),
                Field("level", "Level", "choice", answers={one: LEVELS[one] for one in get_args(Level)}),
            ),
        ),
        Part("What is read between two sets", _READ),
        Part(
            "The rest of the teaching",
            (
                Field("purpose", "What it is for", "text"),
                Field("setup", "Set-up", "text"),
                Field("execution", "Execution", "text"),
                _FAULTS,
                _SCALING,
            ),
        ),
        Part(
            "How much of it",
            (
                Field(
                    "usual", "Usual sets and reps", "rows",
                    "A number or two, as in 3-5. Reps, seconds or metres; a load where people go by percent.",
                    columns=(
                        ("sets", "Sets"), ("reps", "Reps"), ("seconds", "Seconds"), ("metres", "Metres"),
                        ("load_permille", "Load %"), ("when", "What for"), ("source", "Source"),
                    ),
                    tick=("per_side", "each side"),
                ),
            ),
        ),
        Part(
            "How it counts",
            (
                Field("reference", "A percentage means, of the best", "entry", "Empty: of its own best."),
                Field("reference_else", "And where that is not known, of the best", "entry"),
                Field("lifts_per_rep", "Barbell lifts in a rep", "whole", "0 for what is no barbell lift."),
                Field("seconds_per_rep", "Seconds for a rep", "whole"),
                Field(
                    "ratios", "Usual share of another best", "rows", "In percent, with where it comes from.",
                    columns=(
                        ("of", "Of the best"), ("low_permille", "From %"), ("typical_permille", "Usually %"),
                        ("high_permille", "To %"), ("source", "Source"),
                    ),
                    tick=("working_load", "a load people work with, not a best"),
                ),
            ),
        ),
        Part(
            "What it trains and needs",
            (
                Field("positions", "Positions", "choices", answers=_same(Position)),
                Field("equipment", "Equipment", "choices", answers=_same(Equipment)),
            ),
        ),
        Part("What can stand in its place", _INSTEAD),
    ),
    "drill": (
        Part("What it is called", (*_NAME, Field("kind", "Kind", "choice", answers=_same(Kind)))),
        Part("What is read between two sets", _READ),
        Part(
            "How much of it",
            (
                Field(
                    "dose", "One dose", "dose", "Reps or seconds; rounds where there are several.",
                    columns=(("reps", "Reps"), ("seconds", "Seconds"), ("rounds", "Rounds")),
                    tick=("per_side", "each side"),
                ),
                Field("minutes", "Minutes that it takes", "number"),
                Field("held_s", "Seconds held still on a muscle", "whole", "0 when nothing is held."),
                Field("uses", "Where it may stand", "choices", answers=_same(Use)),
            ),
        ),
        Part(
            "The rest of the teaching",
            (Field("purpose", "What it is for", "text"), Field("how", "How", "text"), _FAULTS, _SCALING),
        ),
        Part(
            "What it trains and needs",
            (
                Field("regions", "For", "choices", answers=_same(Region)),
                Field("equipment", "Equipment", "choices", answers=_same(Equipment)),
            ),
        ),
        Part("What can stand in its place", _INSTEAD),
    ),
}  # fmt: skip


def fields_of(kind: OwnKind) -> tuple[Field, ...]:
    """All fields of a kind, in the order of the form."""
    return tuple(field for part in PARTS[kind] for field in part.fields)


def empty(kind: OwnKind) -> Values:
    """The fields of a new entry."""
    values: Values = {}
    for field in fields_of(kind):
        values[field.name] = [] if field.how in ("choices", "rows", "dose") else ""
    if kind == "movement":
        usual = {"level": "regular", "lifts_per_rep": "1", "seconds_per_rep": "3"}
        return values | usual | {"equipment": ["bar", "discs"]}
    return values | {"held_s": "0", "equipment": ["none"]}


def shown_values(entry: Movement | Drill, kind: OwnKind, all_: Catalogue) -> Values:
    """The fields of an entry in words."""
    return {field.name: _shown(field, getattr(entry, field.name), entry, all_) for field in fields_of(kind)}


def sent_values(sent: QueryDict, kind: OwnKind, had: Values) -> Values:
    """The words of a sent form, as they were typed.

    had : the fields as the form showed them; boxes that stay ticked keep their order.
    """
    values: Values = {}
    for field in fields_of(kind):
        if field.how == "choices":
            ticked = [one for one in sent.getlist(field.name) if one in field.answers]
            stayed = [one for one in had[field.name] if one in ticked]
            values[field.name] = stayed + [one for one in ticked if one not in stayed]
        elif field.how in ("rows", "dose"):
            rows = (
                {name: _words(sent, f"{field.name}-{n}-{name}") for name, _ in field.columns}
                | (
                    {field.tick[0]: _words(sent, f"{field.name}-{n}-{field.tick[0]}")}
                    if field.tick[0]
                    else {}
                )
                for n in range(1 if field.how == "dose" else MOST_ROWS)
            )
            values[field.name] = [row for row in rows if any(row.values())]
        else:
            values[field.name] = _words(sent, field.name)
    return values


def meant(values: Values, kind: OwnKind, id_: str, all_: Catalogue) -> dict[str, Any]:
    """What the words mean, as the catalogue's files have it; None for a number or choice that is left open.
    Words that mean nothing stay words, so that the checks of the files can say so."""
    return {field.name: _meant(field, values[field.name], id_, all_) for field in fields_of(kind)}


def _words(sent: QueryDict, name: str) -> str:
    words = sent.get(name, "")[:LONGEST].replace("\r\n", "\n").replace("\r", "\n").replace("\x00", "")
    return words.strip()


def _shown(field: Field, value: Any, entry: Movement | Drill, all_: Catalogue) -> Any:
    if field.how == "choices":
        return list(value)
    if field.how == "lines":
        return "\n".join(value)
    if field.how == "entries":
        return "\n".join(_name(id_, all_) for id_ in value)
    if field.how == "entry":
        return "" if not value or value == entry.id else _name(value, all_)
    if field.how == "drawing":
        like = all_.movements.get(value) or all_.drills.get(value)
        return _name(value, all_) if like and like.drawing in ("", value) else value
    if field.how == "rows":
        return [
            {name: _cell(name, getattr(row, name), all_) for name, _ in field.columns} | _ticked(field, row)
            for row in value
        ]
    if field.how == "dose":
        row = {name: str(getattr(value, name) or "") for name, _ in field.columns}
        return [row | _ticked(field, value)]

    return f"{value:g}" if field.how == "number" else str(value)


def _ticked(field: Field, row: Any) -> dict[str, str]:
    name = field.tick[0]
    return {name: "1" if getattr(row, name) else ""} if name else {}


def _cell(name: str, value: Any, all_: Catalogue) -> str:
    if name == "of":
        return _name(value, all_)
    if value is None or isinstance(value, tuple):
        ends = [show_percent(end) if name == "load_permille" else str(end) for end in value or ()]
        return "-".join(dict.fromkeys(ends))
    return show_percent(value) if name.endswith("_permille") else str(value)


def _name(id_: str, all_: Catalogue) -> str:
    """The name of an entry where it leads back to it; else its id, which always does."""
    entry = all_.movements.get(id_) or all_.drills.get(id_)
    return entry.name if entry and _id(entry.name, all_, movement=id_ in all_.movements) == id_ else id_


def _id(words: str, all_: Catalogue, *, movement: bool) -> str:
    if words in all_.movements or (not movement and words in all_.drills):
        return words
    found = all_.find(words, "movement" if movement else None)
    return found.entry.id if found else words


def _meant(field: Field, value: Any, id_: str, all_: Catalogue) -> Any:
    if field.how == "lines":
        return [line.strip() for line in value.split("\n") if line.strip()]
    if field.how == "entries":
        return [_id(line.strip(), all_, movement=False) for line in value.split("\n") if line.strip()]
    if field.how == "entry":
        if value:
            return _id(value, all_, movement=True)
        return id_ if field.name == "reference" else ""
    if field.how == "drawing":
        like = all_.find(value) if value not in all_.movements and value not in all_.drills else None
        fits = like.entry if like and isinstance(like.entry, Movement | Drill) else None
        return (fits.drawing or fits.id) if fits else value
    if field.how == "choice":
        return value or None
    if field.how == "whole":
        return _number(value, whole=True)
    if field.how == "number":
        return _number(value, whole=False)
    if field.how == "rows":
        return [_row(field, row, all_) for row in value]
    if field.how == "dose":
        return _dose(value[0]) if value else {}
    return value


def _row(field: Field, row: dict[str, str], all_: Catalogue) -> dict[str, Any]:
    said: dict[str, Any] = {}
    for name, words in row.items():
        if name == "of":
            said[name] = _id(words, all_, movement=True)
        elif name.endswith("_permille") and field.name != "usual":
            said[name] = _permille(words)
        elif name == field.tick[0]:
            said |= {name: True} if words else {}
        elif field.name == "usual":
            if words:
                said[name] = words if name in ("when", "source") else _ends(words, name == "load_permille")
        elif words or name != "cause":
            said[name] = words
    return said


def _dose(row: dict[str, str]) -> dict[str, Any]:
    said: dict[str, Any] = {
        name: _number(row[name], whole=True) for name in ("reps", "seconds", "rounds") if row.get(name)
    }
    if said.get("rounds") == 1:
        del said["rounds"]
    return said | ({"per_side": True} if row.get("per_side") else {})


_NUMBER = re.compile(r"-?[0-9]{1,9}([.,][0-9]{1,3})?")


def _number(words: str, *, whole: bool) -> Any:
    """The number, or the words where they are none; None where there are none."""
    if not _NUMBER.fullmatch(words):
        return words or None
    plain = words.replace(",", ".")
    return float(plain) if not whole else int(plain) if plain.lstrip("-").isdigit() else words


def _ends(words: str, permille: bool) -> Any:
    """``3-5`` as its two ends, one number as both; the words where they are neither."""
    pieces = [piece.strip() for piece in re.split("[-–—]| to ", words.removesuffix("%"))]
    ends = [_permille(piece) if permille else _number(piece, whole=True) for piece in pieces]
    if not all(isinstance(end, int) for end in ends) or len(ends) > 2:
        return words
    return [ends[0], ends[-1]]


def _permille(words: str) -> Any:
    """Percent in words as whole thousandths, or the words where they are none."""
    plain = words.removesuffix("%").strip()
    if not _NUMBER.fullmatch(plain):
        return words
    permille = Decimal(plain.replace(",", ".")) * 10
    return int(permille) if permille == int(permille) else words
