"""A cycle's text and a squad's CSV to a workbook of kilos: what a coach does, as one process to be timed.

``python -m bench.file_to_file CYCLE.txt SQUAD.csv OUT.xlsx``
"""

import sys
from pathlib import Path

from bench.sample import TODAY
from meetward.catalogue.reading import shipped
from meetward.fit.compile import compile_cycle
from meetward.fit.squad import squad_kilos, squad_of
from meetward.lifter.reading import read_squad
from meetward.notation.reader import read
from meetward.publish.spreadsheet import write_kilos


def main(text: Path, squad: Path, out: Path) -> None:
    """Read both files and write the workbook."""
    catalogue = shipped()
    cycle = read(text.read_text(encoding="utf-8"), catalogue).cycle
    lifters = read_squad(squad.read_bytes(), name=squad.name, catalogue=catalogue, today=TODAY).lifters
    arrays = compile_cycle(cycle, catalogue)
    kilos = squad_kilos(arrays, squad_of(lifters, arrays.references, catalogue))
    write_kilos(out, cycle, kilos, [lifter.name for lifter in lifters], catalogue)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:4]))
