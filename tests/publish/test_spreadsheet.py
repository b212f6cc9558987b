"""The squad's workbook, read back by two other libraries."""

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from meetward.cycle.load import Effort, Percent
from meetward.fit.compile import compile_cycle
from meetward.fit.squad import squad_kilos, squad_of
from meetward.publish.spreadsheet import HEADS, MOST_LIFTERS, write_kilos
from tests.fit.people import KITS, lifter
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets

PLAN = cycle(
    (
        session(
            line("snatch", sets(2, 3, load=percent(70)), sets(1, 2, load=percent(75, 80))),
            line("back_squat", sets(1, 5, load=Effort("rpe", 80, 80))),
        ),
        session(line("clean + jerk", sets(3, 1, 1, load=Percent(None, 800), climbing=True))),
    ),
)
SQUAD = [lifter(KITS[0], snatch=85, clean_and_jerk=105), lifter(KITS[2], clean_and_jerk=100), lifter(KITS[3])]
NAMES = ["Mara Quill", '=HYPERLINK("x")', "+Bo"]


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    arrays = compile_cycle(PLAN, CATALOGUE)
    kilos = squad_kilos(arrays, squad_of(SQUAD, arrays.references, CATALOGUE))
    path = tmp_path_factory.mktemp("book") / "squad.xlsx"
    write_kilos(path, PLAN, kilos, NAMES, CATALOGUE)
    return path, kilos


def expected(kilos) -> list[list[float | None]]:
    """Kilos of each row: the range has two."""
    high, low = kilos.high_dag().T, kilos.low_dag().T
    found = [high[0], high[1], low[2], high[2], high[3], *high[4:]]
    return [[dag / 100 if dag else None for dag in row.tolist()] for row in found]


def test_every_kilo_is_a_number_in_its_place(written):
    path, kilos = written
    sheet = openpyxl.load_workbook(path)["Kilos"]
    read = [
        [sheet.cell(row, column).value for column in range(len(HEADS) + 1, len(HEADS) + 4)]
        for row in range(2, sheet.max_row + 1)
    ]

    assert read == expected(kilos)
    assert any(kilo is not None for row in read for kilo in row)


def test_another_reader_sees_the_same(written):
    path, kilos = written
    table = CalamineWorkbook.from_path(str(path)).get_sheet_by_name("Kilos").to_python()

    assert [
        [cell or None for cell in (row + [""] * 9)[len(HEADS) : len(HEADS) + 3]] for row in table[1:]
    ] == expected(kilos)


def test_labels_say_week_session_lift_scheme_load_and_set(written):
    sheet = openpyxl.load_workbook(written[0])["Kilos"]
    labels = [[sheet.cell(row, c).value for c in range(1, 7)] for row in range(1, sheet.max_row + 1)]

    assert tuple(labels[0]) == HEADS
    assert labels[1] == [1, 1, "Snatch", "2 × 3", "70 %", "1 of 2"]
    assert [each[4] for each in labels[3:5]] == ["75–80 % (from)", "75–80 % (to)"]
    assert labels[-1] == [1, 2, "Clean + jerk", "3 × (1+1), climbing", "up to 80 %", "3 of 3"]


def test_a_derived_weight_is_marked_and_stays_a_number(written):
    sheet = openpyxl.load_workbook(written[0])["Kilos"]
    tested, derived = sheet.cell(2, len(HEADS) + 1), sheet.cell(2, len(HEADS) + 2)

    assert derived.number_format.endswith('"?"')
    assert isinstance(derived.value, float | int)
    assert tested.number_format == "General"


def test_a_name_is_never_a_formula(written):
    sheet = openpyxl.load_workbook(written[0])["Kilos"]

    heads = [sheet.cell(1, column) for column in range(len(HEADS) + 1, len(HEADS) + 4)]

    assert [head.value for head in heads] == NAMES
    assert {head.data_type for head in heads} == {"s"}


def test_names_that_do_not_fit_the_kilos_are_refused(tmp_path):
    arrays = compile_cycle(PLAN, CATALOGUE)
    kilos = squad_kilos(arrays, squad_of(SQUAD, arrays.references, CATALOGUE))

    with pytest.raises(ValueError, match="2 names for the kilos of 3 lifters"):
        write_kilos(tmp_path / "x.xlsx", PLAN, kilos, NAMES[:2], CATALOGUE)
    assert MOST_LIFTERS + len(HEADS) < 16_384


def test_an_empty_squad_gets_an_empty_table(tmp_path):
    arrays = compile_cycle(PLAN, CATALOGUE)
    kilos = squad_kilos(arrays, squad_of([], arrays.references, CATALOGUE))

    write_kilos(tmp_path / "x.xlsx", PLAN, kilos, [], CATALOGUE)

    assert openpyxl.load_workbook(tmp_path / "x.xlsx")["Kilos"].max_column == len(HEADS)
