"""Write the made parts of docs/ anew: `make docs`; with ``--check``, only say which of them are stale.

A made part stands between two marks, ``<!-- made: NAME -->`` and ``<!-- /made -->``; the prose around it is
written by hand. Everything in such a part is printed by the program itself, run on the invented club's files
or on those in docs/examples/. Files in docs/schema/ are made as a whole.
"""

import argparse
import difflib
import io
import re
import sys
from collections.abc import Callable
from pathlib import Path

import docs_commands
import docs_fitting
import docs_reading

from meetward.cli.main import COMMANDS

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
SCHEMA = DOCS / "schema" / "cycle.schema.json"

MADE = re.compile(r"(<!-- made: (?P<name>[^>]+?) -->\n)(?P<body>.*?)(<!-- /made -->)", re.DOTALL)

PARTS: dict[str, Callable[[], str]] = {
    "help": lambda: docs_commands.command_help(""),
    **{f"help {name}": (lambda name=name: docs_commands.command_help(name)) for name in COMMANDS},
    "read, on a pasted page": docs_commands.read_example,
    "read, as JSON": docs_commands.json_example,
    "print, as text": docs_commands.print_example,
    "print, as JSON": docs_commands.print_json_example,
    "print, of a wrong JSON": docs_commands.wrong_json_example,
    "read, with an own catalogue": docs_commands.own_catalogue_example,
    "sheets, a week": docs_commands.sheets_example,
    "sheets, one lifter": docs_commands.one_sheet_example,
    "fit, one lifter": docs_commands.fit_example,
    "rules of the weeks": docs_fitting.week_rules_table,
    "rules of the days": docs_fitting.day_rules_table,
    "restrictions": docs_fitting.restrictions_table,
    "coming back": docs_fitting.returns_table,
    "teach, a session": docs_commands.teach_example,
    "book": docs_commands.book_example,
    "demo, filled": docs_commands.demo_example,
    "serve, started": docs_commands.serve_example,
    "schema, its head": docs_commands.schema_example,
    "movements": docs_reading.movements_table,
    "drills": docs_reading.drills_table,
    "sequences": docs_reading.sequences_table,
    "an entry": docs_reading.entry_example,
    "searches": docs_reading.searches_table,
    "own catalogue, from a form": docs_reading.form_example,
    "own catalogue": lambda: docs_reading.own_catalogue("own-catalogue.toml"),
    "own catalogue, wrong": lambda: docs_reading.own_catalogue("own-catalogue-wrong.toml"),
    "headings": docs_reading.headings_table,
    "cells": docs_reading.cells_table,
    "kit": docs_reading.kit_table,
    "squad as found": docs_reading.squad_example,
    "a derived best": docs_reading.derived_example,
}


def made() -> dict[Path, str]:
    """Every file with made parts, as it should be.

    Raises ValueError for a part that is unknown or stands on no page.
    """
    files, used = {SCHEMA: docs_commands.printed("schema") + "\n"}, set()
    for path in sorted(DOCS.glob("*.md")):
        text = path.read_text(encoding="utf-8")

        def fill(found: re.Match[str], path: Path = path) -> str:
            name = found["name"]
            if name not in PARTS:
                raise ValueError(f"{path.name} asks for '{name}', which nothing makes.")
            used.add(name)
            return f"{found[1]}\n{PARTS[name]().strip()}\n\n{found[4]}"

        if MADE.search(text):
            files[path] = MADE.sub(fill, text)
    if idle := PARTS.keys() - used:
        raise ValueError(f"No page shows {', '.join(sorted(idle))}.")
    return files


def main(arguments: list[str]) -> int:
    """Write what differs; with ``--check``, print the differences and return 1."""
    parser = argparse.ArgumentParser(description="Write the made parts of docs/ anew.")
    parser.add_argument("--check", action="store_true", help="write nothing; show what is stale")
    check = parser.parse_args(arguments).check
    stale = 0
    for path, text in made().items():
        old = path.read_text(encoding="utf-8") if path.exists() else ""
        if old == text:
            continue
        stale += 1
        name = path.relative_to(ROOT)
        if check:
            sys.stdout.writelines(
                difflib.unified_diff(
                    io.StringIO(old).readlines(),
                    io.StringIO(text).readlines(),
                    f"{name}",
                    f"{name} made anew",
                )
            )
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
            print(f"{name} written")
    if check and stale:
        print(f"{stale} stale: run 'make docs' and look at what changed.", file=sys.stderr)
    return 1 if check and stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
