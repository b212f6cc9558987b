"""Columns of the squad's wall sheet: which set groups stand side by side, their heads and their cells."""

from collections.abc import Sequence
from typing import Any

import msgspec

from meetward.fit.fitted import DayLine, DaySet, DaySheet

from .words import show_kilos, split_range, split_scheme


class Column(msgspec.Struct, frozen=True):
    """A column of the squad's table: set group ``group`` of the ``nth`` line named ``line``."""

    line: str
    nth: int
    group: int
    scheme: str
    load: str
    kilos: bool
    waves: tuple[str, ...] = ()
    """Numbers of the waves that are alike and share the column."""


def columns_of(sheets: Sequence[DaySheet]) -> list[Column]:
    """Set groups of the session: of the lifter with most lines first, then what only others do."""
    columns: dict[tuple[str, int, int], Column] = {}
    for sheet in sorted(sheets, key=lambda sheet: -len(lift_lines(sheet))):
        for (name, nth), line in _named(sheet).items():
            for group, one in enumerate(line.sets):
                kilos = bool(show_kilos(one, sheet.unit))
                known = columns.get((name, nth, group))
                if known is None:
                    columns[name, nth, group] = Column(name, nth, group, one.scheme, one.load_said, kilos)
                elif kilos and not known.kilos:
                    columns[name, nth, group] = msgspec.structs.replace(known, kilos=True)
    return sorted(columns.values(), key=lambda column: list(columns).index((column.line, column.nth, 0)))


def waves_together(columns: Sequence[Column], sheets: Sequence[DaySheet]) -> list[Column]:
    """Waves that repeat the same sets at the same kilos for everybody take one column."""
    kept: dict[tuple[object, ...], Column] = {}
    for column in columns:
        core, more = split_scheme(column.scheme)
        wave, _, rest = more.partition(", ")
        key: tuple[object, ...] = (column.line, column.nth, column.group)
        waves: tuple[str, ...] = ()
        if wave.startswith("wave "):
            cells = [cell_of(sheet, column) for sheet in sheets]
            kilos = tuple((cell["lead"], cell["figure"]) for cell in cells)
            key, waves = (column.line, column.nth, core, rest, column.load, kilos), (wave[5:],)
        known = kept.get(key, column)
        kept[key] = msgspec.structs.replace(known, waves=known.waves + waves)
    return list(kept.values())


def _more(column: Column) -> list[str]:
    """What else is said of a column's sets, piece by piece: waves, tempo, rest."""
    more = split_scheme(column.scheme)[1]
    if len(column.waves) > 1:
        more = ", ".join(
            word for word in ("waves " + _numbers(column.waves), more.partition(", ")[2]) if word
        )
    return more.split(", ") if more else []


def _numbers(waves: Sequence[str]) -> str:
    """``1 to 3`` for waves that follow each other, else ``1 and 3``."""
    whole = [int(wave) for wave in waves]
    if len(whole) > 2 and whole == list(range(whole[0], whole[-1] + 1)):
        return f"{whole[0]} to {whole[-1]}"
    return " and ".join(waves)


def of_all(name: str, nth: int, chosen: Sequence[Column]) -> list[str]:
    """What is said of every column of a lift, so that it is said once above them."""
    said = [_more(column) for column in chosen if (column.line, column.nth) == (name, nth)]
    return [piece for piece in said[0] if all(piece in others for others in said)]


def head_of(column: Column, chosen: Sequence[Column]) -> dict[str, str]:
    """Head of a column: sets and reps, load, and what is not said of the whole lift above it."""
    above = of_all(column.line, column.nth, chosen)
    return {
        "scheme": split_scheme(column.scheme)[0],
        "load": column.load,
        "more": ", ".join(piece for piece in _more(column) if piece not in above),
    }


def cell_of(sheet: DaySheet, column: Column) -> dict[str, Any]:
    """What a lifter does in a column; their own sets and reps are named where they are not the column's."""
    one = _set_at(sheet, column)
    if one is None:
        return {"name": "", "lead": "", "figure": ("–", "", ""), "kilos": False}
    kilos = show_kilos(one, sheet.unit)
    lead = "from" if kilos and one.placeholder else ""
    return {
        "name": split_scheme(one.scheme)[0] if one.scheme != column.scheme else "",
        "lead": lead,
        "figure": split_range(kilos or one.load_said or one.instruction or "–"),
        "kilos": bool(kilos),
    }


def lift_lines(sheet: DaySheet) -> list[DayLine]:
    """Lines of the lifts segments."""
    return [line for segment in sheet.segments if segment.kind == "lifts" for line in segment.lines]


def _named(sheet: DaySheet) -> dict[tuple[str, int], DayLine]:
    """Lines of the lifts by name, and by number where a name comes again."""
    named: dict[tuple[str, int], DayLine] = {}
    for line in lift_lines(sheet):
        nth = 0
        while (line.name, nth) in named:
            nth += 1
        named[line.name, nth] = line
    return named


def _set_at(sheet: DaySheet, column: Column) -> DaySet | None:
    line = _named(sheet).get((column.line, column.nth))
    return line.sets[column.group] if line and column.group < len(line.sets) else None
