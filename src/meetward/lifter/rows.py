"""One row of a squad's sheet: everything in it that can be read, and what is to be said about the rest."""

import re
from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import Best, BestKind
from meetward.lifter.calendar import read_days
from meetward.lifter.cell import LONGEST_CELL, Cell, Doubt, formula_error, is_blank, number_of, tidy, words_of
from meetward.lifter.dates import read_age, read_birth_year, read_date
from meetward.lifter.headings import Column
from meetward.lifter.kit import read_bar, read_collars, read_discs
from meetward.lifter.profile import Category
from meetward.lifter.profile_cells import category_of, minutes_of, unit_of
from meetward.lifter.table import Table
from meetward.lifter.weights import BOTH_UNITS_SLACK_DAG, MOST_REPS, Unit, WeightRead, read_weight

_KINDS: dict[str, BestKind] = {
    "tested": "tested", "test": "tested", "lifted": "tested", "competition": "tested", "comp": "tested",
    "meet": "tested",
    "training": "tested", "gym": "tested", "estimated": "estimated", "est": "estimated",
    "calculated": "estimated",
    "e1rm": "estimated", "stated": "stated", "said": "stated", "told": "stated", "guess": "stated",
    "unknown": "stated",
}  # fmt: skip
_LIKE_A_DAY = re.compile(r"(?:0?[1-9]|[12]\d|3[01])\.(?:0[1-9]|1[0-2])", re.ASCII)
_WORDS = ("notes", "key")
"""Columns whose cells are kept as they are."""


_FILLED = (
    "category", "birth_year", "bodyweight_dag", "bar_dag", "discs", "collars_dag", "days", "minutes", "unit",
)  # fmt: skip


class Told(msgspec.Struct):
    """A doubt with the column that it is about."""

    column: Column
    doubt: Doubt
    read: str


class Draft(msgspec.Struct):
    """What a row says, before the lifter gets a key and a kit.

    units : those of the bests, whether said or taken.
    bare : lifts whose weight had no unit anywhere and was taken as kilos; "bodyweight" for that one.
    """

    key: str = ""
    name: str = ""
    category: Category | None = None
    birth_year: int | None = None
    bodyweight_dag: int | None = None
    bar_dag: int | None = None
    discs: tuple[Any, ...] | None = None
    collars_dag: int | None = None
    days: tuple[int, ...] = ()
    minutes: int | None = None
    unit: Unit | None = None
    notes: str = ""
    bests: list[tuple[Column, Best]] = msgspec.field(default_factory=list)
    units: set[Unit] = msgspec.field(default_factory=set)
    bare: set[str] = msgspec.field(default_factory=set)
    told: list[Told] = msgspec.field(default_factory=list)

    def add(self, other: "Draft") -> None:
        """Take over the bests of another row about the same lifter, and what this one doesn't know yet."""
        self.bests += other.bests
        self.bare |= other.bare
        self.units |= other.units
        for field in _FILLED:
            if not getattr(self, field):
                setattr(self, field, getattr(other, field))
        if other.notes and other.notes not in self.notes.split("\n"):
            self.notes = f"{self.notes}\n{other.notes}" if self.notes else other.notes


class RowReader:
    """Reads the rows of one table.

    month_first : as in `meetward.lifter.dates.find_date`, for the whole sheet.
    unit : of bare weights, where neither column nor row names one; None takes kilos.
    """

    def __init__(self, table: Table, catalogue: Catalogue, today: date, month_first: bool | None) -> None:
        self.table = table
        self.catalogue = catalogue
        self.today = today
        self.month_first = month_first
        self.column_units: dict[int, Unit] = {}

    def read(self, row: Sequence[Cell]) -> Draft:
        """All that the row says. Never raises; what can't be read is told and the rest kept."""
        draft = Draft()
        row_unit = self._unit(row, draft)
        for column in self.table.columns:
            cell = _at(row, column)
            if cell is None or column.ignored or (isinstance(cell, str) and not cell.strip()):
                continue
            if column.role == "best":
                self._best(row, column, cell, row_unit, draft)
            elif reader := _READERS.get(column.role):
                error = formula_error(cell) if column.role not in _WORDS else None
                if error is None:
                    reader(self, column, cell, row_unit, draft)
                else:
                    draft.told.append(Told(column, error, words_of(cell)))
        if self.table.long:
            self._one_best(row, row_unit, draft)
        self._in_both_units(row, draft)
        self._names(row, draft)
        return draft

    def _tell(self, draft: Draft, column: Column, cell: Cell, *doubts: Doubt) -> None:
        draft.told += [Told(column, doubt, words_of(cell)[:LONGEST_CELL]) for doubt in doubts]

    def _unit(self, row: Sequence[Cell], draft: Draft) -> Unit | None:
        column = self.table.first("unit")
        cell = _at(row, column)
        if column is None or is_blank(cell):
            return None
        unit = unit_of(words_of(cell))
        if unit is None:
            self._tell(
                draft, column, cell, _stop("unit", f"'{words_of(cell)[:40]}' is no unit.", "Write kg or lb.")
            )
        else:
            draft.unit = unit
        return unit

    def _weight(self, column: Column, cell: Cell, row_unit: Unit | None) -> tuple[WeightRead, bool]:
        """A weight, and whether its unit was nowhere said."""
        said = column.unit or self.column_units.get(column.at) or row_unit or self.table.unit
        read = read_weight(cell, self.today, unit=said or "kg", month_first=self.month_first)
        bare = said is None and read.unit is None
        if bare and column.role == "best" and isinstance(cell, str) and _LIKE_A_DAY.fullmatch(words_of(cell)):
            message = f"'{words_of(cell)}' is read as kilos, but it looks like a day."
            doubt = Doubt(
                "weight or day", message, "Write the weight with its unit, or the day where days go."
            )
            read = read._replace(doubts=(*read.doubts, doubt))
        return read, bare

    def _best(
        self, row: Sequence[Cell], column: Column, cell: Cell, row_unit: Unit | None, draft: Draft
    ) -> None:
        read, bare = self._weight(column, cell, row_unit)
        self._tell(draft, column, cell, *read.doubts)
        if read.dag is None:
            return
        if column.unit and row_unit and column.unit != row_unit and read.unit is None:
            message = f"The heading says {column.unit} and the row {row_unit}; it is read as {column.unit}."
            self._tell(draft, column, cell, Doubt("two units", message, "Name the unit in one place."))
        reps = read.reps or column.reps
        if read.reps and column.reps > 1 and read.reps != column.reps:
            message = f"The heading says {column.reps} reps and the cell {read.reps}; the cell counts."
            self._tell(draft, column, cell, Doubt("reps", message, "Keep one number of reps in a column."))
        on, kind, note = self._beside(row, column, read, draft)
        # A day of its own says that it was lifted then; without one somebody only says so.
        if on is None and column.dated:
            dated = read_date(column.dated, self.today, month_first=self.month_first)
            self._tell(draft, column, cell, *dated.doubts)
            on, note = dated.on, "; ".join(filter(None, (note, dated.note)))
        kind = kind or column.kind or ("tested" if on is not None and reps == 1 else "stated")
        draft.bests.append((column, Best(column.lift, read.dag, on, kind, reps, note)))
        if bare:
            draft.bare.add(column.lift)
        draft.units.add(read.unit or column.unit or row_unit or self.table.unit or "kg")

    def _in_both_units(self, row: Sequence[Cell], draft: Draft) -> None:
        """Keep one of a best in kilos and the same one in pounds; tell two that are not the same."""
        for pounds, best in [pair for pair in draft.bests if pair[0].unit == "lb"]:
            same = [
                other
                for kilos, other in draft.bests
                if kilos.unit == "kg"
                and (kilos.role, kilos.kind, kilos.dated) == ("best", pounds.kind, pounds.dated)
                and (other.lift, other.reps, other.on) == (best.lift, best.reps, best.on)
            ]
            if not same:
                continue
            if abs(same[0].dag - best.dag) <= BOTH_UNITS_SLACK_DAG:
                draft.bests.remove((pounds, best))
            else:
                message = "The column in kilos and the one in pounds do not say the same; both are kept."
                self._tell(
                    draft, pounds, _at(row, pounds), Doubt("two weights", message, "Keep the right one.")
                )

    def _beside(
        self, row: Sequence[Cell], column: Column, read: WeightRead, draft: Draft
    ) -> tuple[date | None, BestKind | None, str]:
        """Day, kind and note of a best: from its cell, else the columns that belong to it, else the row."""
        on, kind, notes = read.on, read.kind, [read.note]
        for other in self.table.columns:
            cell = _at(row, other) if self.table.belongs.get(other.at) == column.at else None
            if cell is None or (is_blank(cell) and other.role != "best note"):
                continue
            if other.role == "best note":
                notes.append(tidy(cell) if isinstance(cell, str) else words_of(cell))
            elif other.role == "best kind":
                kind = kind or self._kind(other, cell, draft)
            elif on is None:
                on, note = self._date(other, cell, draft)
                notes.append(note)
        whole_row = self.table.first("date")
        if on is None and whole_row is not None and whole_row.at not in self.table.belongs:
            cell = _at(row, whole_row)
            if not is_blank(cell):
                on = read_date(cell, self.today, month_first=self.month_first).on
        return on, kind, "; ".join(dict.fromkeys(filter(None, notes)))

    def _one_best(self, row: Sequence[Cell], row_unit: Unit | None, draft: Draft) -> None:
        """The best of a row that names its lift in one column and the weight in another."""
        lifts, loads, reps = (self.table.first(role) for role in ("lift", "load", "reps"))
        named, load = _at(row, lifts), _at(row, loads)
        if lifts is None or loads is None or is_blank(named) or is_blank(load):
            return
        lift = words_of(named)
        found = self.catalogue.find(lift, "movement")
        if found is None:
            near = self.catalogue.suggest(lift) if len(lift) <= LONGEST_CELL else None
            message = f"'{lift[:60]}' is not in the catalogue, so the row's best is not read."
            repair = f"If it is {near}, write that." if near else "Write the lift as the catalogue has it."
            self._tell(draft, lifts, named, _stop("unknown lift", message, repair))
            return
        count = number_of(_at(row, reps))
        if reps is not None and not is_blank(_at(row, reps)) and count not in range(1, MOST_REPS + 1):
            message = f"'{words_of(_at(row, reps))[:40]}' is no number of reps; the best is not read."
            self._tell(draft, reps, _at(row, reps), _stop("reps", message, "Write 1 for a single."))
            return
        column = msgspec.structs.replace(loads, lift=found.entry.id, reps=int(count or 1))
        self._best(row, column, load, row_unit, draft)

    def _kind(self, column: Column, cell: Cell, draft: Draft) -> BestKind | None:
        kind = _KINDS.get(words_of(cell).casefold())
        if kind is None:
            message = f"'{words_of(cell)[:40]}' does not say how the best is known."
            self._tell(draft, column, cell, Doubt("kind", message, "Write tested, estimated or stated."))
        return kind

    def _date(self, column: Column, cell: Cell, draft: Draft) -> tuple[date | None, str]:
        read = read_date(cell, self.today, month_first=self.month_first)
        self._tell(draft, column, cell, *read.doubts)
        return read.on, read.note

    def _names(self, row: Sequence[Cell], draft: Draft) -> None:
        parts = []
        for column in self.table.all("name", "first name", "surname"):
            cell = _at(row, column)
            word = " ".join(words_of(cell).split())
            if any(map(str.isalnum, word)):
                parts.append((column.role == "surname", word))
        draft.name = " ".join(word for _, word in sorted(parts, key=lambda part: part[0]))

    def _key(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        draft.key = words_of(cell)

    def _category(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if is_blank(cell):
            return
        draft.category = category_of(words_of(cell))
        if draft.category is None:
            message = f"'{words_of(cell)[:40]}' does not say men or women, which decides the bar."
            self._tell(draft, column, cell, Doubt("category", message, "Write M or W, or leave it empty."))

    def _born(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if is_blank(cell):
            return
        year, doubts = read_birth_year(cell, self.today)
        draft.birth_year = year if year is not None else draft.birth_year
        self._tell(draft, column, cell, *doubts)

    def _age(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if is_blank(cell) or draft.birth_year is not None:
            return
        draft.birth_year, doubts = read_age(cell, self.today)
        self._tell(draft, column, cell, *doubts)

    def _bodyweight(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        read, bare = self._weight(column, cell, row_unit)
        self._tell(draft, column, cell, *read.doubts)
        if read.dag is None:
            return
        if not 1_500 <= read.dag <= 30_000:
            message = f"A bodyweight of {words_of(cell)[:40]} cannot be right."
            self._tell(draft, column, cell, _stop("bodyweight", message, "Check the figure and its unit."))
            return
        if read.note:
            message = f"Of '{words_of(cell)[:60]}' only the weight is kept."
            self._tell(
                draft, column, cell, Doubt("words beside bodyweight", message, "Move the words to the notes.")
            )
        draft.bodyweight_dag = read.dag
        if bare:
            draft.bare.add("bodyweight")

    def _bar(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        draft.bar_dag, doubts = read_bar(cell, unit=column.unit or row_unit)
        self._tell(draft, column, cell, *doubts)

    def _discs(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        read = read_discs(cell, pounds=(column.unit or row_unit) == "lb")
        draft.discs = read.discs
        self._tell(draft, column, cell, *read.doubts)

    def _collars(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        draft.collars_dag, doubts = read_collars(cell)
        self._tell(draft, column, cell, *doubts)

    def _days(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if is_blank(cell):
            return
        said = words_of(cell)
        if (days := read_days(said)) is not None:
            draft.days = days
        elif (
            number_of(cell) is not None
            and len(said) > 1
            and set(said) <= set("1234567")
            and len(set(said)) == len(said)
        ):
            draft.days = tuple(sorted(int(figure) - 1 for figure in said))
            message = f"'{said}' is read as days of the week counted from Monday."
            self._tell(draft, column, cell, Doubt("days as figures", message, "Write Mon Wed Fri."))
        else:
            message = f"'{said[:40]}' does not say which days."
            self._tell(draft, column, cell, _stop("days", message, "Write Mon Wed Fri."))

    def _minutes(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if is_blank(cell):
            return
        minutes, is_range = minutes_of(cell)
        if minutes is None or not 5 <= minutes <= 360:
            message = f"'{words_of(cell)[:40]}' is no length of a session."
            self._tell(draft, column, cell, _stop("minutes", message, "Write the minutes, such as 90."))
            return
        draft.minutes = minutes
        if is_range:
            message = f"Of '{words_of(cell)}' the shorter time is kept."
            self._tell(draft, column, cell, Doubt("minutes", message, "Write one number of minutes."))

    def _shown_in(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if not is_blank(cell) and (unit := unit_of(words_of(cell))):
            draft.unit = unit

    def _notes(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        note = tidy(cell) if isinstance(cell, str) else words_of(cell)
        if note:
            draft.notes = f"{draft.notes}\n{note}" if draft.notes else note

    def _row_date(self, column: Column, cell: Cell, row_unit: Unit | None, draft: Draft) -> None:
        if column.at not in self.table.belongs and not is_blank(cell):
            self._date(column, cell, draft)


_READERS: dict[str, Callable[[RowReader, Column, Cell, Unit | None, Draft], None]] = {
    "key": RowReader._key,
    "category": RowReader._category,
    "born": RowReader._born,
    "age": RowReader._age,
    "bodyweight": RowReader._bodyweight,
    "bar": RowReader._bar,
    "discs": RowReader._discs,
    "collars": RowReader._collars,
    "days": RowReader._days,
    "minutes": RowReader._minutes,
    "shown in": RowReader._shown_in,
    "notes": RowReader._notes,
    "date": RowReader._row_date,
}


def _at(row: Sequence[Cell], column: Column | None) -> Cell:
    """The cell of a row in a column; None where there is no such cell or no such column."""
    return row[column.at] if column is not None and column.at < len(row) else None


def _stop(kind: str, message: str, repair: str) -> Doubt:
    return Doubt(kind, message, repair, "stop")
