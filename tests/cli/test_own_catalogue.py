"""``--catalogue``: a coach's own files for the commands, and what is said of them."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from meetward.cli.main import app

OWN = """\
[[movement]]
id = "drop_jerk"
name = "Drop jerk"
names = ["drop under jerk"]
family = "jerk"
reference = "jerk"
positions = ["overhead", "split"]
equipment = ["bar", "discs", "rack"]
summary = "From the toes straight under the bar."
"""
WRONG = """\
[[movement]]
id = "clean"
family = "cleans"

[[movement]]
id = "snatch"
link = "https://example.org/snatch"
"""
TEXT = "Order: sets first\nMonday: Jerk\nDrop jerk 3x2 @ 60%\n"
SQUAD = "Name,Jerk,Drop jerk,Bar,Discs\nMara Ellwood,100,80,15,club\n"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name, text in {"cycle.txt": TEXT, "squad.csv": SQUAD, "own.toml": OWN, "wrong.toml": WRONG}.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "more").mkdir()
    return tmp_path


def run(*arguments):
    return CliRunner().invoke(app, list(arguments))


def test_a_movement_of_ones_own_is_read():
    without, with_it = run("read", "cycle.txt"), run("read", "cycle.txt", "--catalogue", "own.toml")

    assert without.exit_code == 1
    assert "not in the catalogue" in without.stdout
    assert with_it.exit_code == 0
    assert "Drop jerk: 3 sets of 2 at 60 %" in with_it.stdout


def test_what_is_missing_in_it_is_told_with_file_entry_and_field():
    result = run("read", "cycle.txt", "--catalogue", "own.toml", "--json")

    assert "own.toml, movement 'drop_jerk', field 'cues'" in result.stderr
    assert result.stdout.startswith("{")


def test_several_files_and_folders_and_a_fault_that_stops_only_itself(folder):
    (folder / "own.toml").rename(folder / "more" / "own.toml")
    result = run("read", "cycle.txt", "--catalogue", "wrong.toml", "--catalogue", "more")

    assert "wrong.toml, movement 'clean', field 'family'" in result.stderr
    assert "Drop jerk: 3 sets of 2 at 60 %" in result.stdout
    assert result.exit_code == 1


@pytest.mark.parametrize(
    ("path", "words"),
    [("nothing.toml", "there is no such file"), ("more", "holds no catalogue file"), ("binary", "not UTF-8")],
)
def test_a_catalogue_that_is_none_is_told_and_the_rest_done(folder, path, words):
    (folder / "binary").write_bytes(bytes(range(128, 256)))
    result = run("read", "cycle.txt", "--catalogue", path)

    assert words in result.stderr
    assert path in result.stderr
    assert "line" in result.stdout
    assert result.exit_code == 1


def test_sheets_know_it_in_the_cycle_in_the_squad_and_on_paper(folder):
    result = run("sheets", "cycle.txt", "--lifters", "squad.csv", "--out", "out", "--catalogue", "own.toml")

    assert result.exit_code == 0, result.output
    assert "not in the catalogue" not in result.stderr
    sheet = PdfReader(folder / "out/mara-ellwood/week-01-session-1.pdf").pages[0].extract_text()
    assert "Drop jerk" in " ".join(sheet.split())
    assert "From the toes" in " ".join(sheet.split())
    without = run("sheets", "cycle.txt", "--lifters", "squad.csv", "--out", "out2")
    assert without.exit_code == 1
    assert "Drop jerk" in without.stderr


def test_print_writes_for_the_catalogue_that_it_is_given():
    result = run("print", "cycle.txt", "--catalogue", "own.toml")

    assert result.exit_code == 0
    assert "Drop jerk" in result.stdout
