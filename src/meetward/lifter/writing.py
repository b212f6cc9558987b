"""A squad back into a sheet that a coach can change and that `meetward.lifter.reading.read_squad` reads
again unchanged.

One row a lifter, weights in kilograms as numbers, days as dates. A text that a spreadsheet would compute (it
begins with = + - or @) stays a text: in XLSX by its type, in CSV by an apostrophe in front, which reading
takes off.
"""

import csv
import io
from collections.abc import Iterator, Sequence
from datetime import date, datetime, time
from typing import NamedTuple

import xlsxwriter

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import shipped
from meetward.lifter.bests import Best, in_order
from meetward.lifter.calendar import show_days
from meetward.lifter.cell import tidy
from meetward.lifter.grid import escaped
from meetward.lifter.headings import read_heading
from meetward.lifter.kit import show_collars, show_discs
from meetward.lifter.profile import Lifter
from meetward.units import DAG_PER_KG, show_kg

_FIRST_LIFTS = ("snatch", "clean_and_jerk", "clean", "jerk", "front_squat", "back_squat")
_LONGEST_TEXT = 32_767
"""Characters in a cell of XLSX; more would be lost without a word."""

_Value = str | int | date | None


class _Kilos(int):
    """A weight [10 g], to be written in kilograms."""


class _Slot(NamedTuple):
    """The columns of one best: the weight, and what at least one lifter needs beside it."""

    lift: str
    reps: int
    nth: int
    dated: bool
    kinds: bool
    noted: bool


def to_csv(lifters: Sequence[Lifter], catalogue: Catalogue | None = None) -> bytes:
    """The squad as CSV: UTF-8 with its mark, commas, decimal points.

    catalogue : gives the names of lifts; the shipped one unless said otherwise. A lift that it doesn't know
        is headed by its id, and reading with the same catalogue leaves it out and says so.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    for row in _rows(lifters, catalogue or shipped()):
        writer.writerow([_as_text(value) for value in row])
    return b"\xef\xbb\xbf" + text.getvalue().encode()


def to_xlsx(lifters: Sequence[Lifter], catalogue: Catalogue | None = None) -> bytes:
    """The squad as a workbook with one sheet, "Squad".

    catalogue : as for `to_csv`. Raises ValueError for a text longer than a cell of a workbook holds.
    """
    file = io.BytesIO()
    options = {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
    }
    book = xlsxwriter.Workbook(file, options)
    # Equal squads give equal files.
    book.set_properties({"created": datetime(2000, 1, 1)})  # noqa: DTZ001 - a workbook's time has no zone
    sheet = book.add_worksheet("Squad")
    bold, plain = (
        book.add_format({"bold": True, "text_wrap": True, "valign": "top"}),
        book.add_format({"valign": "top"}),
    )
    day = book.add_format({"num_format": "yyyy-mm-dd", "valign": "top"})
    widths: dict[int, int] = {}
    for at, row in enumerate(_rows(lifters, catalogue or shipped())):
        for column, value in enumerate(row):
            style = bold if at == 0 else plain
            widths[column] = max(widths.get(column, 0), min(len(_as_text(value)), 30 if at else 12))
            if isinstance(value, _Kilos):
                sheet.write_number(at, column, value / DAG_PER_KG, style)
            elif isinstance(value, int):
                sheet.write_number(at, column, value, style)
            elif isinstance(value, date) and value.year > 1900:
                sheet.write_datetime(at, column, datetime.combine(value, time()), day)
            elif value:
                text = value if isinstance(value, str) else value.isoformat()
                if len(text) > _LONGEST_TEXT:
                    raise ValueError(
                        f"A text of {row[1]} has {len(text)} characters; a cell holds {_LONGEST_TEXT}."
                    )
                sheet.write_string(at, column, text, style)
    for column, width in widths.items():
        sheet.set_column(column, column, width + 2)
    sheet.freeze_panes(1, 2)
    book.close()
    return file.getvalue()


def _rows(lifters: Sequence[Lifter], catalogue: Catalogue) -> Iterator[list[_Value]]:
    """The headings, then a row for each lifter."""
    slots = _slots(lifters, catalogue)
    yield [
        "Key", "Name", "Category", "Born", "Bodyweight (kg)", "Bar (kg)", "Collars", "Discs", "Days",
        "Minutes", "Shown in",
        *(heading for slot in slots for heading in _headings(slot, catalogue)),
        "Notes",
    ]  # fmt: skip
    for lifter in lifters:
        bests = _numbered(lifter)
        weight = lifter.bodyweight_dag
        yield [
            lifter.key,
            tidy(lifter.name),
            lifter.category,
            lifter.birth_year,
            None if weight is None else _Kilos(weight),
            _Kilos(lifter.kit.bar_dag),
            show_collars(lifter.kit.collars_dag),
            show_discs(lifter.kit.discs),
            show_days(lifter.days),
            lifter.minutes,
            lifter.unit,
            *(
                value
                for slot in slots
                for value in _values(slot, bests.get((slot.lift, slot.reps, slot.nth)))
            ),
            tidy(lifter.notes),
        ]


def _slots(lifters: Sequence[Lifter], catalogue: Catalogue) -> list[_Slot]:
    """The columns of bests that the squad needs; of a lift as many as the lifter with most entries of it."""
    entries: dict[tuple[str, int, int], list[Best]] = {}
    for lifter in lifters:
        for entry, best in _numbered(lifter).items():
            entries.setdefault(entry, []).append(best)
    places = {lift: at for at, lift in enumerate(dict.fromkeys((*_FIRST_LIFTS, *catalogue.movements)))}
    order = sorted(entries, key=lambda entry: (places.get(entry[0], len(places)), entry))
    return [
        _Slot(
            *entry,
            dated=any(best.on for best in entries[entry]),
            kinds=any(best.kind != _kind_without_saying(best) for best in entries[entry]),
            noted=any(best.note for best in entries[entry]),
        )
        for entry in order
    ]


def _numbered(lifter: Lifter) -> dict[tuple[str, int, int], Best]:
    """Bests by lift, reps and which one of these it is."""
    numbered: dict[tuple[str, int, int], Best] = {}
    for best in in_order(lifter.bests):
        nth = 0
        while (best.lift, best.reps, nth) in numbered:
            nth += 1
        numbered[best.lift, best.reps, nth] = best
    return numbered


def _headings(slot: _Slot, catalogue: Catalogue) -> Iterator[str]:
    reps = f" {slot.reps}RM" if slot.reps > 1 else ""
    name = _name(slot.lift, reps, catalogue)
    yield f"{name}{reps} (kg)"
    if slot.dated:
        yield f"{name}{reps} date"
    if slot.kinds:
        yield f"{name}{reps} kind"
    if slot.noted:
        yield f"{name}{reps} note"


def _name(lift: str, reps: str, catalogue: Catalogue) -> str:
    """The lift's name, or its id where the name with its additions would not be read as this lift."""
    movement = catalogue.movements.get(lift)
    for name in (movement.name, *movement.names) if movement else ():
        columns = [
            read_heading(f"{name}{reps}{end}", 0, catalogue) for end in (" (kg)", " date", " kind", " note")
        ]
        if all(column is not None and column.lift == lift for column in columns):
            return name
    return lift


def _values(slot: _Slot, best: Best | None) -> Iterator[_Value]:
    yield _Kilos(best.dag) if best else None
    if slot.dated:
        yield best.on if best else None
    if slot.kinds:
        yield best.kind if best else None
    if slot.noted:
        yield tidy(best.note) if best else None


def _kind_without_saying(best: Best) -> str:
    """The kind that reading takes where no column says it."""
    return "tested" if best.on is not None and best.reps == 1 else "stated"


def _as_text(value: _Value) -> str:
    if value is None:
        return ""
    if isinstance(value, _Kilos):
        return show_kg(value)
    return escaped(value) if isinstance(value, str) else str(value)
