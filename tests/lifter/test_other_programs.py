"""Files that a real spreadsheet program writes."""

import subprocess
from datetime import date

import pytest

from meetward.lifter.bests import Best
from meetward.lifter.writing import to_xlsx
from tests.lifter.sheets import Formula, as_csv, as_xlsx, bests, read, told
from tests.strength.people import lifter

ROWS = [
    ["Harrow Lane", None, None, None],
    ["Name", "DOB", "Snatch", "C&J (lb)"],
    ["Zoë Sole", date(2001, 4, 3), 70.5, 198],
    ["Bo Quay", 1999, "82,5", None],
]


def converted(soffice, folder, data: bytes, to: str, ending="xlsx") -> bytes:
    """``data`` opened and saved again by the spreadsheet program."""
    source = folder / f"squad.{ending}"
    source.write_bytes(data)
    target = folder / "out"
    profile = f"-env:UserInstallation=file://{folder}/profile"
    command = [str(soffice), profile, "--headless", "--convert-to", to, "--outdir", str(target), str(source)]
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    return next(target.iterdir()).read_bytes()


@pytest.mark.parametrize("to", ["xlsx", "ods", "xls", "csv"])
def test_a_sheet_saved_by_a_spreadsheet_program(soffice_path, tmp_path, to):
    reading = read(converted(soffice_path, tmp_path, as_xlsx(ROWS), to), f"squad.{to}")

    assert [(one.name, one.birth_year) for one in reading.lifters] == [("Zoë Sole", 2001), ("Bo Quay", 1999)]
    assert bests(reading, 0) == {"snatch": 7_050, "clean_and_jerk": 8_981}
    assert bests(reading, 1) == {"snatch": 8_250}


@pytest.mark.parametrize("to", ["xlsx:Calc MS Excel 2007 XML", "ods"])
def test_failed_formulas_saved_by_a_spreadsheet_program(soffice_path, tmp_path, to):
    rows = [
        ["Name", "Snatch", None, None, "C&J"],
        [],
        [],
        ["Bo Quay", Formula("#N/A"), None, None, Formula("#DIV/0!")],
    ]
    reading = read(converted(soffice_path, tmp_path, as_xlsx(rows), to), "squad.xlsx")

    # The test's formula is NA() in both cells; the program computes it anew.
    assert told(reading)["row 4, column 'Snatch'"] == "formula error"
    assert told(reading)["row 4, column 'C&J'"] == "formula error"


def test_our_workbook_survives_a_spreadsheet_program(soffice_path, tmp_path):
    squad = (
        lifter(
            Best("snatch", 8_250, date(2026, 10, 3), "tested"), Best("front_squat", 10_000, reps=3, note="=x")
        ),
    )

    assert (
        read(
            converted(soffice_path, tmp_path, to_xlsx(squad), "xlsx:Calc MS Excel 2007 XML"), "squad.xlsx"
        ).lifters
        == squad
    )


def test_our_csv_is_not_computed_by_a_spreadsheet_program(soffice_path, tmp_path):
    data = as_csv([["Name", "Notes"], ["Bo Quay", "'=1+1"]], encoding="utf-8-sig")

    assert b"=1+1" in converted(soffice_path, tmp_path, data, "csv", ending="csv")
