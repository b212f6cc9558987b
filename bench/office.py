"""The same kilos in a spreadsheet program: recalculation against arrays, and file to file."""

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import perf_counter

import openpyxl
import xlsxwriter
from xlsxwriter.utility import xl_col_to_name

from bench.figures import Figure, at_least, median_s, ms
from bench.sample import KITS, big_squad, cycle_text, lifters
from meetward.catalogue.reading import shipped
from meetward.fit.compile import CycleArrays, compile_cycle
from meetward.fit.squad import Squad, squad_kilos, squad_of
from meetward.lifter.writing import to_csv
from meetward.notation.reader import read

TITLE = "(b) Beside LibreOffice on a workbook of the same sets, lifters and formulas"

WARM_LIFTERS = 50
FILE_LIFTERS = (50, 400)
"""A club, where both sides mostly start up, and a federation's squad, where they work."""

STEP_KG = 2.5
ONE_KIT = KITS[:1]
"""Steps of 2.5 kg for everybody, as in the formulas."""

# Workbooks from other programs are only recalculated on loading where the profile says so.
_PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">
<value>0</value></prop></item></oor:items>
"""


def run() -> Iterator[Figure]:
    """Time the spreadsheet program and ourselves, in one run."""
    soffice = shutil.which("soffice") or shutil.which("libreoffice")
    if soffice is None:
        yield Figure("!! LibreOffice IS MISSING: this part is left out", "not measured")
        return
    catalogue = shipped()
    arrays = compile_cycle(read(cycle_text(), catalogue).cycle, catalogue)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "profile" / "user").mkdir(parents=True)
        (folder / "profile" / "user" / "registrymodifications.xcu").write_text(_PROFILE, encoding="utf-8")
        yield from recalculation(soffice, arrays, folder)
        for number in FILE_LIFTERS:
            yield from file_to_file(soffice, arrays, folder, number)


def recalculation(soffice: str, arrays: CycleArrays, folder: Path) -> Iterator[Figure]:
    """Warm hard recalculation of all cells against the arrays, a lifter and cycle each."""
    python = python_with_uno(soffice)
    if python is None:
        yield Figure("!! no Python with LibreOffice's uno module (package python3-uno)", "not measured")
        return
    catalogue = shipped()
    squad = squad_of(lifters(WARM_LIFTERS, ONE_KIT), arrays.references, catalogue)
    book = folder / "warm.xlsx"
    write_formulas(book, arrays, squad)
    pipe = f"meetward-bench-{os.getpid()}"
    office = subprocess.Popen(
        [soffice, "--headless", "--norestore", f"-env:UserInstallation={(folder / 'profile').as_uri()}",
         f"--accept=pipe,name={pipe};urp;"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        script = Path(__file__).with_name("office_recalculate.py")
        said = subprocess.run(
            [python, str(script), pipe, str(book), "7"], capture_output=True, text=True, check=True
        )
    finally:
        try:
            office.wait(timeout=20)
        except subprocess.TimeoutExpired:
            office.terminate()
    answer = json.loads(said.stdout)
    assert answer["before"] > 0, "the workbook has no kilos"
    assert abs(answer["after"] - 2 * answer["before"]) <= STEP_KG, "the workbook does not follow its bests"
    theirs = median(answer["seconds"]) / WARM_LIFTERS
    yield Figure("LibreOffice, warm recalculation, a lifter and cycle", ms(theirs))
    for number, each in ((WARM_LIFTERS, squad), (1_000, big_squad(1_000, arrays.references, ONE_KIT))):
        ours = median_s(lambda each=each: squad_kilos(arrays, each).high_dag(), 101) / number
        yield Figure(f"arrays, every set, {number:,} lifters, a lifter and cycle", f"{ours * 1e6:.2f} us")
        yield at_least(f"    recalculation over arrays of {number:,}", theirs / ours, 1_000)


def file_to_file(soffice: str, arrays: CycleArrays, folder: Path, number: int) -> Iterator[Figure]:
    """Whole processes: text and CSV to a workbook of kilos, against converting a workbook of formulas."""
    people = lifters(number, ONE_KIT)
    text, squad, book = folder / "cycle.txt", folder / "squad.csv", folder / "book.xlsx"
    text.write_text(cycle_text(), encoding="utf-8")
    squad.write_bytes(to_csv(people))
    write_formulas(book, arrays, squad_of(people, arrays.references, shipped()))
    out = folder / "out"
    convert = [
        soffice, "--headless", "--norestore", f"-env:UserInstallation={(folder / 'profile').as_uri()}",
        "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), str(book),
    ]  # fmt: skip
    write = [sys.executable, "-m", "bench.file_to_file", str(text), str(squad), str(folder / "kilos.xlsx")]
    runs = [(process_times(write), process_times(convert)) for _ in range(4)][1:]
    converted = openpyxl.load_workbook(out / "book.xlsx", data_only=True, read_only=True)["Kilos"]
    assert next(converted.iter_rows(max_row=1, values_only=True))[1], "the conversion did not calculate"
    ours_s, ours_cpu_s = (median(ours[n] for ours, _ in runs) for n in (0, 1))
    theirs_s, theirs_cpu_s = (median(theirs[n] for _, theirs in runs) for n in (0, 1))
    what = f"file to file, {number} lifters"
    yield Figure(f"{what}: LibreOffice, wall and processor", f"{ms(theirs_s)}, {ms(theirs_cpu_s)}")
    yield Figure(f"{what}: text and CSV to XLSX, the same", f"{ms(ours_s)}, {ms(ours_cpu_s)}")
    yield at_least("    LibreOffice over ours, whole processes, wall", theirs_s / ours_s, 10)
    yield at_least("    the same in processor time", theirs_cpu_s / ours_cpu_s, 10)


def process_times(command: list[str]) -> tuple[float, float]:
    """Wall and processor time of a whole process with its children. [s]"""
    # As installed: with compiled modules, also where this process keeps none.
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    before, start = os.times(), perf_counter()
    subprocess.run(command, check=True, capture_output=True, env=environment)
    wall, after = perf_counter() - start, os.times()
    cpu = sum(getattr(after, n) - getattr(before, n) for n in ("children_user", "children_system"))
    return wall, cpu


def write_formulas(path: Path, arrays: CycleArrays, squad: Squad) -> None:
    """A workbook as a coach would build it: bests, and best x percentage to the next 2.5 kg for each set."""
    with xlsxwriter.Workbook(str(path), {"constant_memory": True}) as book:
        bests, kilos = book.add_worksheet("Bests"), book.add_worksheet("Kilos")
        for row, reference in enumerate(squad.bests.T.tolist()):
            for column, dag in enumerate(reference):
                bests.write_number(row, column, dag / 100)
        columns = [xl_col_to_name(column) for column in range(len(squad))]
        for row, at in enumerate(arrays.high[0].tolist()):
            column = arrays.columns[at]
            if column is None:
                continue
            kilos.write_number(row, 0, column.multiple / 1_000)
            best = arrays.references.index(column.reference) + 1
            for number, letter in enumerate(columns, start=1):
                kilos.write_formula(row, number, f"=MROUND(Bests!{letter}${best}*$A{row + 1},{STEP_KG})")


def python_with_uno(soffice: str) -> str | None:
    """A Python that can talk to the office: its own, or the system's."""
    beside = Path(soffice).resolve().parent / "python"
    for python in (str(beside), "/usr/bin/python3", shutil.which("python3") or ""):
        if python and shutil.which(python):
            found = subprocess.run([python, "-c", "import uno"], capture_output=True, check=False)
            if found.returncode == 0:
                return python
    return None
