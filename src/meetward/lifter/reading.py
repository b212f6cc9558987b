"""A squad from a coach's sheet, CSV or spreadsheet, whatever its headings.

Nothing raises and nothing is dropped silently: what can't be read becomes a problem that points at row and
column, and the rest of the row is kept. Columns that are left out are listed with the reason.
"""

import re
import unicodedata
from collections.abc import Sequence
from datetime import date

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.lifter.bests import in_order
from meetward.lifter.cell import Cell, Doubt, is_blank, words_of
from meetward.lifter.dates import month_first
from meetward.lifter.file_problems import file_problems, nothing_found
from meetward.lifter.grid import Sheet, open_sheets
from meetward.lifter.heading_doubts import heading_doubts, lost_unit
from meetward.lifter.headings import Column, letter, names_people
from meetward.lifter.kit import STOCK_DISCS, bar_for, kit_of
from meetward.lifter.plausible import lifter_doubts, pounds_suspected
from meetward.lifter.profile import Category, Lifter
from meetward.lifter.profile_cells import category_of, unit_of
from meetward.lifter.rowkinds import headings_again, kind_of_row, over_headings, without_bests
from meetward.lifter.rows import Draft, RowReader
from meetward.lifter.table import NAMES, Table, squad_in
from meetward.problem import Place, Problem

MOST_LIFTERS = 20_000

_PLAIN = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ß": "ss", "ı": "i"}
)
_KEY = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")


class SquadReading(msgspec.Struct, frozen=True):
    """What a file gave.

    sheet : the sheet that was read, in a workbook; empty for text.
    columns_understood, columns_ignored : left to right, each with what it is taken for or why it is left out
        ("Sn PB: best snatch, in kg").
    """

    lifters: tuple[Lifter, ...]
    problems: tuple[Problem, ...]
    columns_understood: tuple[str, ...] = ()
    columns_ignored: tuple[str, ...] = ()
    sheet: str = ""


def read_squad(data: bytes, *, name: str, catalogue: Catalogue, today: date) -> SquadReading:
    """The squad in a CSV, XLSX, XLS or ODS file.

    name : of the file, for the places of problems.
    today : for months without a year and ages.
    """
    opened = open_sheets(data)
    tables = [squad for sheet in opened.sheets if (squad := squad_in(sheet, catalogue)) is not None]
    if not tables:
        return SquadReading((), (*file_problems(name, opened.doubts), *nothing_found(name, opened)))
    # The best understood one; of equals one that is not hidden, then the longer one.
    sheet, table = max(tables, key=lambda pair: (pair[1].score, not pair[0].hidden, len(pair[0].rows)))
    reading = _Reading(name, sheet, catalogue, today)
    reading.problems += file_problems(name, (*opened.doubts, *sheet.doubts))
    others = [other.name for other, _ in tables if other.name != sheet.name]
    if others:
        said = ", ".join(f"'{other}'" for other in others)
        reading.about_file(
            "several sheets",
            f"Sheet '{sheet.name}' is read; {said} could be squads too and are not read.",
            "Save the one that is meant as a file of its own.",
        )
    if sheet.turned:
        message = "The lifters stand side by side, so the sheet is read column by column."
        reading.about_file("sideways", message, "Nothing, if that is right.")
    reading.rows(table)
    return reading.result()


class _Reading:
    """The reading of one sheet, from row to row."""

    def __init__(self, source: str, sheet: Sheet, catalogue: Catalogue, today: date) -> None:
        self.source = f"{source}, sheet '{sheet.name}'" if sheet.name else source
        self.sheet = sheet
        self.catalogue = catalogue
        self.today = today
        self.problems: list[Problem] = []
        self.drafts: list[tuple[int, Draft]] = []
        self.long: dict[str, Draft] = {}
        self.taken: dict[str, int] = {}
        self.columns: dict[tuple[int, str, str], Column] = {}
        self.month_first = month_first(
            [cell for row in sheet.rows for cell in row if isinstance(cell, str) and len(cell) < 80]
        )

    def rows(self, table: Table) -> None:
        """Read all rows below the headings; further rows of headings begin a new table."""
        reader = self._headed(table)
        group: Category | None = None
        for at, row in enumerate(self.sheet.rows):
            if at <= reader.table.heading_row:
                continue
            if len(self.drafts) >= MOST_LIFTERS:
                message = f"Only the first {MOST_LIFTERS} lifters are read."
                self.about_row(at, "too many rows", message, "Split the file.", "stop")
                break
            kind = kind_of_row(row, self.sheet.rows[reader.table.heading_row], reader.table, self.catalogue)
            if kind.kind == "blank":
                continue
            if kind.kind in ("headings", "maybe headings"):
                sure = kind.kind == "headings"
                if sure and over_headings(row, reader.table) and self._headings_follow(at, reader.table):
                    continue  # the upper one of two rows
                again = headings_again(row, at, reader.table, self.sheet, self.catalogue, sure=sure)
                if again is not None:
                    reader = self._again(again, reader)
                    group = next(filter(None, map(category_of, map(words_of, row))), None) if sure else None
                    continue
            elif kind.kind == "lift as title":
                if not self._headings_follow(at, reader.table):
                    self.about_row(at, kind.kind, kind.told, kind.repair, "stop")
                    closed = without_bests(reader.table, f"stands below '{kind.said}'")
                    reader = RowReader(closed, self.catalogue, self.today, self.month_first)
                continue
            elif kind.kind == "heading as name":
                self.about_row(at, kind.kind, kind.told, kind.repair, "stop")
                continue
            elif kind.kind == "units":
                reader.column_units = {c: unit for c, cell in enumerate(row) if (unit := unit_of(cell))}
                continue
            elif kind.kind != "lifter":
                told = kind.told
                if kind.kind == "group heading":
                    group = category_of(kind.said.rstrip(":").split(" ")[0])
                    told += f" The rows below are read as {group}." if group else ""
                self.about_row(at, kind.kind, told, kind.repair)
                continue
            row = self._in_place(at, row, reader.table)
            draft = reader.read(row)
            if draft.category is None:
                draft.category = group
            for about in draft.told:
                self.about_cell(at, about.column, about.doubt, about.read)
            self._unheaded(row, reader.table)
            self._take(at, draft, reader.table)

    def result(self) -> SquadReading:
        """The lifters, each with a key of its own and a kit."""
        self._about_squad()
        lifters = []
        keys: dict[str, int] = {}
        names: dict[str, int] = {}
        for at, draft in self.drafts:
            key = self._key(at, draft, keys)
            same = " ".join(draft.name.casefold().split())
            if same in names:
                alike = (
                    "The two rows say the same." if self._same(names[same], at) else "The two rows differ."
                )
                self.about_row(
                    at,
                    "name twice",
                    f"'{draft.name}' stands in {self.line(names[same])} too. {alike} Both are kept, this one "
                    f"as '{key}'.",
                    "If they are one person, delete a row; if not, tell the names apart.",
                )
            names.setdefault(same, at)
            keys[key.casefold()] = at
            lifters.append(_lifter(key, draft))
        columns = tuple(self.columns.values())
        return SquadReading(
            tuple(lifters),
            tuple(sorted(self.problems, key=lambda problem: problem.place.line)),
            tuple(f"{column.called}: {column.means}" for column in columns if not column.ignored),
            tuple(f"{column.called}: {column.means}" for column in columns if column.ignored),
            self.sheet.name,
        )

    def line(self, at: int) -> str:
        """The row (or, turned, the column) of a lifter in words."""
        return f"column {letter(at)}" if self.sheet.turned else f"row {at + 1}"

    def about_cell(self, at: int, column: Column, doubt: Doubt, read: str) -> None:
        """A problem at a row and column, both from 0."""
        if self.sheet.turned:
            said = f"{self.line(at)}, row '{column.heading or column.at + 1}'"
            place = Place(column.at + 1, at + 1, len(read), self.source, said=said)
        else:
            said = f"{self.line(at)}, column '{column.called}'"
            place = Place(at + 1, column.at + 1, len(read), self.source, said=said)
        self.problems.append(Problem(place, doubt.kind, doubt.message, doubt.repair, read, doubt.severity))

    def about_row(self, at: int, kind: str, message: str, repair: str, severity: str = "look") -> None:
        """A problem of a whole row, from 0."""
        line, column = (0, at + 1) if self.sheet.turned else (at + 1, 0)
        place = Place(line, column, source=self.source, said=self.line(at))
        self.problems.append(
            Problem(place, kind, message, repair, severity="stop" if severity == "stop" else "look")
        )

    def about_file(self, kind: str, message: str, repair: str) -> None:
        """A problem of the whole file."""
        self.problems.append(Problem(Place(source=self.source), kind, message, repair, severity="look"))

    def _headed(self, table: Table) -> RowReader:
        """Take over a row of headings: list its columns, tell what is to be said about them."""
        for column in table.columns:
            if column.heading:
                self._list(column)
        for column, doubt in heading_doubts(table, self.sheet, self.catalogue):
            self.about_cell(table.heading_row, column, doubt, column.heading)
        return RowReader(table, self.catalogue, self.today, self.month_first)

    def _again(self, table: Table, reader: RowReader) -> RowReader:
        """Take over a further row of headings; the same ones repeated change nothing."""
        if table is reader.table:
            return reader
        if lost_unit(table, reader.table, "lb" in reader.column_units.values()):
            message = "These headings name no unit, so kilos are read, although those above are in pounds."
            self.about_row(
                table.heading_row, "unit not repeated", message, "Write '(kg)' or '(lb)' into them."
            )
        name = next(table.all(*NAMES), None)
        if name is not None and name.heading and not names_people(name.heading):
            message = f"The row names lifts, so it is read as headings, and '{name.heading}' as no lifter."
            self.about_row(table.heading_row, "read as headings", message, "Write 'Name' over the names.")
        return self._headed(table)

    def _headings_follow(self, at: int, table: Table) -> bool:
        """Whether the next filled row after ``at`` is headings."""
        for row in self.sheet.rows[at + 1 : at + 5]:
            kind = kind_of_row(row, self.sheet.rows[table.heading_row], table, self.catalogue).kind
            if kind != "blank":
                return kind == "headings"
        return False

    def _in_place(self, at: int, row: list[Cell], table: Table) -> list[Cell]:
        """The row, without what commas inside a name or a number have moved to the right."""
        width = max(len(self.sheet.rows[n]) for n in (table.heading_row - 1, table.heading_row) if n >= 0)
        filled = max((n + 1 for n, cell in enumerate(row) if not is_blank(cell)), default=0)
        if self.sheet.delimiter != "," or filled <= width:
            return row
        self.about_row(
            at,
            "moved cells",
            f"The row has {filled} cells and the headings {width}: a comma inside a name or a number has "
            "moved them, so only the name is read.",
            "Put quotation marks around it, write decimal points, or save the sheet with semicolons.",
            "stop",
        )
        last = max((column.at for column in table.all("key", *NAMES)), default=0)
        return row[: last + 1]

    def _list(self, column: Column) -> bool:
        """Whether the column is a new one in the lists of columns."""
        key = (column.at, column.heading, column.lift or column.role)
        return self.columns.setdefault(key, column) is column

    def _unheaded(self, row: Sequence[Cell], table: Table) -> None:
        """Tell cells that stand under no heading, once a column."""
        for at, cell in enumerate(row):
            if is_blank(cell) or (
                at < len(table.columns) and (table.columns[at].heading or not table.columns[at].ignored)
            ):
                continue
            column = Column(at, "", ignored="no heading")
            if self._list(column):
                message = "The column has cells but no heading, so it is not read."
                self.about_cell(
                    table.heading_row, column, Doubt("no heading", message, "Give it a heading."), ""
                )

    def _take(self, at: int, draft: Draft, table: Table) -> None:
        if not draft.name and (above := self._merged_above(at, table)) is not None:
            above.add(draft)
            message = f"The name '{above.name}' is merged over this row too, so its bests are theirs."
            self.about_row(at, "merged name", message, "Nothing, if that is right.")
            return
        if not draft.name:
            draft.name = f"No name, {self.line(at)}"
            self.about_row(
                at, "no name", "The row has no name; what it says is kept.", "Give the lifter a name.", "stop"
            )
        if table.long:
            same = " ".join(draft.name.casefold().split())
            if (known := self.long.get(same)) is not None:
                known.add(draft)
                return
            self.long[same] = draft
            self.drafts.append((at, draft))
            return
        if draft.name.casefold() in ("max", "min"):
            message = f"'{draft.name}' is read as a name."
            self.about_row(at, "name or summary", message, "If it sums up other rows, delete the row.")
        by_lift = {best.lift: column for column, best in draft.bests}
        for what, doubt in lifter_doubts(draft):
            column = by_lift.get(what) or table.first("bodyweight")
            if column is not None:
                cell = self.sheet.rows[at][column.at]
                self.about_cell(at, column, doubt, words_of(cell))
        self.drafts.append((at, draft))

    def _merged_above(self, at: int, table: Table) -> Draft | None:
        """The lifter whose name is merged over a row that has none."""
        names = {column.at for column in table.all(*NAMES)}
        for top, first, bottom, last in self.sheet.merged:
            if top < at <= bottom and any(first <= name <= last for name in names):
                return next((draft for row, draft in self.drafts if row == top), None)
        return None

    def _about_squad(self) -> None:
        drafts = [draft for _, draft in self.drafts]
        several_rows = {id(draft) for draft in self.long.values()}
        for at, draft in self.drafts:
            for _, about in lifter_doubts(draft) if id(draft) in several_rows else ():
                self.about_row(at, about.kind, about.message, about.repair)
        if not drafts:
            self.about_file(
                "no lifters", "There are headings but no lifters below them.", "Add a row for each lifter."
            )
            return
        if doubt := pounds_suspected(drafts):
            self.about_file(doubt.kind, doubt.message, doubt.repair)
        no_bar = sum(draft.bar_dag is None for draft in drafts)
        if no_bar:
            self.about_file(
                "bar not given",
                f"{_lifters(no_bar)} without a bar: taken as 15 kg for women, else 20 kg.",
                "Add a column 'Bar'.",
            )
        no_discs = sum(draft.discs is None for draft in drafts)
        if no_discs:
            self.about_file(
                "discs not given",
                f"{_lifters(no_discs)} without discs: taken as a club's, down to pairs of 1.25 kg.",
                "Add a column 'Discs', such as 'club' or '2x20 2x10 2x5'.",
            )

    def _key(self, at: int, draft: Draft, keys: dict[str, int]) -> str:
        wanted = draft.key
        if wanted and not (len(wanted) <= 60 and _KEY.fullmatch(wanted)):
            self.about_row(
                at,
                "key",
                f"The key '{wanted[:60]}' has signs other than letters, digits and hyphens.",
                "Leave it out: one is made from the name.",
            )
            wanted = ""
        elif wanted.casefold() in keys:
            self.about_row(
                at,
                "key twice",
                f"The key '{wanted}' stands in {self.line(keys[wanted.casefold()])} too.",
                "Give every lifter a key of their own.",
            )
        base = wanted or key_of(draft.name)
        key = base
        while key.casefold() in keys:
            # Counted on and not from 2 each time: a file may hold one name thousands of times.
            self.taken[base] = self.taken.get(base, 1) + 1
            key = f"{base}-{self.taken[base]}"
        return key

    def _same(self, one: int, other: int) -> bool:
        def words(at: int) -> list[str]:
            return [words_of(cell) for cell in self.sheet.rows[at] if not is_blank(cell)]

        return words(one) == words(other)


def key_of(name: str) -> str:
    """A short name for files and addresses: ``"Łucja O'Dwyer"`` is ``"lucja-odwyer"``.

    "lifter" where no letter is left.
    """
    text = name.casefold().translate(_PLAIN).replace("'", "").replace("’", "")
    text = "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return re.sub(r"[^a-z0-9]+", "-", text)[:50].strip("-") or "lifter"


def _lifter(key: str, draft: Draft) -> Lifter:
    bar_dag = draft.bar_dag if draft.bar_dag is not None else bar_for(draft.category)
    discs = draft.discs if draft.discs is not None else STOCK_DISCS["club"]
    return Lifter(
        key=key,
        name=draft.name,
        kit=kit_of(bar_dag, discs, draft.collars_dag or 0),
        category=draft.category,
        birth_year=draft.birth_year,
        bodyweight_dag=draft.bodyweight_dag,
        # Who has every best in pounds thinks in pounds.
        unit=draft.unit or ("lb" if draft.units == {"lb"} else "kg"),
        days=draft.days,
        minutes=draft.minutes,
        notes=draft.notes,
        bests=in_order(best for _, best in draft.bests),
    )


def _lifters(number: int) -> str:
    return "1 lifter" if number == 1 else f"{number} lifters"
