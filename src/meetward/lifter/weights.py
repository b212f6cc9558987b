"""Weights as people write them in a sheet: "82,5", "180lb", "100x3", "95 (Oct)", "~85 est"."""

import re
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import Literal, NamedTuple

from meetward.lifter.bests import BestKind
from meetward.lifter.cell import LONGEST_CELL, Cell, Doubt, formula_error, is_blank, number_of, words_of
from meetward.lifter.dates import DateRead, find_date
from meetward.units import kg_to_dag, lb_to_dag, show_kg

Unit = Literal["kg", "lb"]

HEAVIEST_DAG = 60_000
"""600 kg: nobody has lifted more in a lift that coaches keep a best of (from memory)."""

LIGHTEST_DAG = 200
"""2 kg."""

MOST_REPS = 20

BOTH_UNITS_SLACK_DAG = 60
""""100 kg / 220 lb" is one weight: people round the second figure to a whole pound."""

_FLAGS = re.ASCII | re.IGNORECASE  # ASCII: otherwise a long s or a kelvin sign matches a letter
_WEIGHT = re.compile(
    r"(?<![\d.,])(\d{1,7}(?:[.,]\d{1,6})?)(½)?(?!\d|[.,]\d) ?"
    r"(kgs?\b|kilos?\b|kilograms?\b|k\b|lbs?\b\.?|pounds?\b|#)?",
    _FLAGS,
)
_REPS = re.compile(
    r"[x×*] ?(\d{1,3})(?![\d.,])(?! ?(?:kg|lb|#))(?: ?reps?\b)?"
    r"|\bfor (\d{1,3})(?![\d.,])(?: ?reps?\b)?"
    r"|(?<![\d.,])(\d{1,3}) ?(?:rm|reps?)\b",
    _FLAGS,
)
_REPS_FIRST = re.compile(r"^(\d{1,2}) ?[x×*] ?(?=\d{2})", _FLAGS)
_MISSED = re.compile(r"\b(miss|missed|fail|failed|no lift|no-lift|bomb(?:ed)?)\b|✗|✘", _FLAGS)
_ESTIMATED = re.compile(
    r"\best(?:imate|imated)?\b\.?|\be ?1 ?rm\b|\bcalc(?:ulated)?\b\.?|(?<=\d)e\b|\be(?=\d)", _FLAGS
)
_TESTED = re.compile(r"\b(?:tested|test|comp|competition|meet|official)\b", _FLAGS)
_RELATIVE = re.compile(r"%|(?:per ?cent|pct)\b|bw\b|\bbw|\bbody ?weight\b", _FLAGS)
_OTHER_UNIT = re.compile(r"(?<=\d) ?(?:st|stone|stones|cwt|cm)\b", _FLAGS)
_UNSURE = re.compile(r"[~≈?]|\b(?:about|approx|approximately|ca|circa|around|roughly|maybe)\b\.?", _FLAGS)
_SIGNLESS = re.compile(
    r"\b(?:pb|pr|max|best|1 ?rm|single)\b|[()\[\]{},;:!/=|*✓✔✅]|\.(?!\d)| - | -$|^- ", _FLAGS
)
_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)"
_DAY_AND_MONTH = re.compile(rf"\d{{1,2}}-{_MONTH}|{_MONTH}-\d{{1,2}}", _FLAGS)
_RANGE = re.compile(r"\d ?(?:-|–|—|to) ?\d", _FLAGS)


class WeightRead(NamedTuple):
    """A weight cell.

    dag : None when the cell is blank or holds no weight that can be used. [10 g]
    unit : the unit written in the cell itself; None when it had none.
    reps, on, kind, note : None or empty unless the cell says them.
    """

    dag: int | None = None
    unit: Unit | None = None
    reps: int | None = None
    on: date | None = None
    kind: BestKind | None = None
    note: str = ""
    doubts: tuple[Doubt, ...] = ()


BLANK = WeightRead()


def read_weight(cell: Cell, today: date, *, unit: Unit = "kg", month_first: bool | None = None) -> WeightRead:
    """The weight in a cell, whatever else stands with it. Never raises.

    unit : of a bare number; a unit in the cell goes before it.
    month_first : as in `meetward.lifter.dates.find_date`.
    """
    if (number := number_of(cell)) is not None:
        return _bare(number, unit, words_of(cell))
    if is_blank(cell):
        return BLANK
    said = words_of(cell)
    if doubt := formula_error(cell):
        return WeightRead(doubts=(doubt,))
    if isinstance(cell, date | datetime | time | timedelta):
        message = f"The spreadsheet keeps {said} here, a day or a time."
        return _refused("not a weight", message, "Type the weight again and format the cell as a number.")
    if isinstance(cell, bool) or len(said) > LONGEST_CELL:
        return _no_weight(said)
    return _from_words(said, today, unit, month_first)


def _from_words(said: str, today: date, unit: Unit, month_first: bool | None) -> WeightRead:
    """Takes out what is known, piece by piece; what stays is the note."""
    text = said.replace("½", ".5" if not re.search(r"[.,]\d*½", said) else "½")
    if _MISSED.search(text):
        return _refused(
            "missed lift", f"'{said}' is a lift that was missed.", "Enter the best that was made."
        )
    if _RELATIVE.search(text):
        if re.search(r"\+ ?\d", text):
            return _signed(said, "+")
        message = f"'{said}' is a share of another weight."
        return _refused("relative weight", message, "Give the weight on the bar.")
    if _OTHER_UNIT.search(text):
        message = f"'{said}' is not in kilos or pounds."
        return _refused("unit", message, "Give the weight in kg or lb.")
    if _DAY_AND_MONTH.fullmatch(text):
        message = f"'{said}' is a day, as a spreadsheet writes it."
        return _refused("not a weight", message, "Type the weight again and format the cell as a number.")
    doubts: list[Doubt] = []
    kind: BestKind | None = None
    if found := _ESTIMATED.search(text):
        kind, text = "estimated", _without(text, found)
    elif found := _TESTED.search(text):
        kind, text = "tested", _without(text, found)
    reps: int | None = None
    if (first := _REPS_FIRST.match(text)) and int(first[1]) <= MOST_REPS:
        reps = int(first[1])
        text = text[first.end() :]
        doubts.append(
            Doubt("reps first", f"'{said}' is read as {reps} reps.", f"Write the weight first: 100x{reps}.")
        )
    elif found := _REPS.search(text):
        reps = int(next(group for group in found.groups() if group))
        if not 1 <= reps <= MOST_REPS:
            return _refused("reps", f"{reps} reps in '{said}' make no best.", f"Give 1 to {MOST_REPS} reps.")
        text = _without(text, found)
        if _REPS.search(text):
            return _refused(
                "sets",
                f"'{said}' has more than a weight and its reps.",
                "Write a best as 100x3: weight, reps.",
            )
    on, note = None, ""
    if (dated := _date_beside_weight(text, today, month_first)) is not None:
        on, note = dated.on, dated.note
        doubts += [d._replace(severity="look") for d in dated.doubts]
        text = text[: dated.start] + " " + text[dated.end :]
    if found := _UNSURE.search(text):
        doubts.append(Doubt("unsure", f"'{said}' is not sure.", "Test it, or take the sign out."))
        text = _UNSURE.sub(" ", text)
    if _RANGE.search(text):
        return _refused("range", f"'{said}' gives more than one weight.", "Give one weight.")
    weights = list(_WEIGHT.finditer(text))
    if not weights or (before := text[: weights[0].start()].strip("([ ").casefold()) in (
        "-",
        "−",
        "+",
        "bw+",
        "bw +",
    ):
        if weights:
            return _signed(said, before)
        return _no_weight(said)
    read = _one_weight(weights, said, unit)
    if read.dag is None:
        return read
    rest = _WEIGHT.sub(" ", text)
    left = " ".join(word for word in _SIGNLESS.sub(" ", rest).split() if any(map(str.isalnum, word)))
    note = "; ".join(filter(None, (left, note)))
    return read._replace(reps=reps, on=on, kind=kind, note=note, doubts=(*doubts, *read.doubts))


def _date_beside_weight(text: str, today: date, month_first: bool | None) -> DateRead | None:
    """A date in the text that leaves a weight: in "15 Dec" the figure is the weight, not the day."""
    if len(text) < 5:
        return None
    dated = find_date(text, today, month_first=month_first)
    if dated is None or _WEIGHT.search(text[: dated.start] + " " + text[dated.end :]):
        return dated
    first = _WEIGHT.search(text)
    if first is None or not (dated := find_date(text[first.end() :], today, month_first=month_first)):
        return None
    message = f"'{text.strip()}' is read as a weight and a month, but it could be a day."
    doubt = Doubt("weight or day", message, "Write the weight with its unit, or the day where days go.")
    doubts = dated.doubts if first[3] or int(_decimal(first)) > 31 else (*dated.doubts, doubt)
    return dated._replace(start=first.end() + dated.start, end=first.end() + dated.end, doubts=doubts)


def _one_weight(weights: list[re.Match[str]], said: str, unit: Unit) -> WeightRead:
    """The one weight of a cell; the same one in kilos and pounds is one."""
    reads = [_bare(_decimal(found), _unit(found[3]) or unit, said) for found in weights]
    if bad := next((read for read in reads if read.dag is None), None):
        return bad
    units = [_unit(found[3]) for found in weights]
    if len(reads) == 1:
        return reads[0]._replace(unit=units[0])
    if len(reads) == 2 and set(units) == {"kg", "lb"}:
        kilos, pounds = reads if units[0] == "kg" else reversed(reads)
        if abs((kilos.dag or 0) - (pounds.dag or 0)) <= BOTH_UNITS_SLACK_DAG:
            return kilos._replace(unit="kg")
    return _refused("two weights", f"'{said}' gives more than one weight.", "Give one weight.")


def _bare(number: Decimal, unit: Unit, said: str) -> WeightRead:
    if number < 0:
        return _signed(said, "-")
    if number == 0:
        doubt = Doubt("zero", "0 is not a best; it is taken as blank.", "Leave the cell empty.")
        return WeightRead(doubts=(doubt,))
    if number > 1_000_000:
        dag = HEAVIEST_DAG + 1
    else:
        dag = kg_to_dag(number) if unit == "kg" else lb_to_dag(number)
    if not LIGHTEST_DAG <= dag <= HEAVIEST_DAG:
        shown = said if len(said) <= 40 else f"{said[:40]}…"
        return _refused(
            "impossible weight",
            f"'{shown}' is outside {show_kg(LIGHTEST_DAG)} to {show_kg(HEAVIEST_DAG)} kg, so it is left out.",
            "Check the figure and its decimal sign.",
        )
    return WeightRead(dag)


def _decimal(found: re.Match[str]) -> Decimal:
    number = Decimal(found[1].replace(",", "."))
    return number + Decimal("0.5") if found[2] else number


def _unit(word: str | None) -> Unit | None:
    if not word:
        return None
    return "kg" if word[0] in "kK" else "lb"


def _without(text: str, found: re.Match[str]) -> str:
    return text[: found.start()] + " " + text[found.end() :]


def _signed(said: str, sign: str) -> WeightRead:
    if sign in ("-", "−"):
        return _refused("negative weight", f"'{said}' is below zero.", "Give the weight without a sign.")
    return _refused(
        "added weight",
        f"'{said}' is a weight added to bodyweight.",
        "Give the weight on the bar, or leave it out.",
    )


def _no_weight(said: str) -> WeightRead:
    shown = said if len(said) <= 60 else f"{said[:60]}…"
    return _refused("not a weight", f"'{shown}' is not a weight.", "Give a number, such as 82.5 or 180 lb.")


def _refused(kind: str, message: str, repair: str) -> WeightRead:
    return WeightRead(doubts=(Doubt(kind, message, repair, "stop"),))
