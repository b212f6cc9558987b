"""A coach's own drawings: on paper by a command's option, on the site from the data folder."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

import meetward.demo
from meetward.body.reading import load
from meetward.catalogue.reading import shipped
from meetward.cli.main import app
from meetward.publish.picture import picture, use_drawings

DEMO = Path(meetward.demo.__file__).parent
OWN = """
[[drawing]]
id = "snatch"
alt = "Our own picture of the snatch: standing with the bar overhead."
frames = [{ name = "Ours", says = "Bar still over mid-foot", sought = { bar = "overhead", grip = "snatch" } }]
"""


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    shutil.copy(DEMO / "cycle.txt", tmp_path)
    (tmp_path / "ours.toml").write_text(OWN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    yield tmp_path
    use_drawings(None)


def run(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


def text_of(path: Path) -> str:
    """The words of a PDF; those of a drawing are broken into lines."""
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(path).pages)


def test_the_lesson_shows_the_coachs_own_drawing(folder):
    result = run("teach", "cycle.txt", "--week", "1", "--session", "1", "--html", "--drawings", "ours.toml")

    assert result.exit_code == 0, result.output
    assert "Bar still over mid-foot" in (folder / "lessons" / "week-01-session-1-teaching.html").read_text()
    assert "Bar still over mid-foot" in text_of(folder / "lessons" / "week-01-session-1-teaching.pdf")


def test_so_does_the_book(folder):
    run("book", "--drawings", "ours.toml")

    assert "Bar still over mid-foot" in text_of(folder / "catalogue.pdf")


def test_what_cannot_be_drawn_is_told_with_its_place_and_the_rest_is_written(folder):
    (folder / "ours.toml").write_text(OWN.replace('"overhead"', '"overhed"'), encoding="utf-8")

    result = run("teach", "cycle.txt", "--week", "1", "--session", "1", "--drawings", "ours.toml")

    assert result.exit_code == 1
    assert "ours.toml" in result.output
    assert "overhed" in result.output
    assert (folder / "lessons" / "week-01-session-1-teaching.pdf").exists()


def test_the_shipped_drawing_comes_back(folder):
    snatch = shipped().movements["snatch"]
    before = picture(snatch)
    use_drawings(load(folder / "ours.toml")[0])

    assert picture(snatch) != before

    use_drawings(None)

    assert picture(snatch) == before


def test_the_site_draws_from_its_data_folder(folder):
    data = folder / "data"
    (data / "drawings").mkdir(parents=True)
    shutil.copy("ours.toml", data / "drawings")
    code = (
        "import django; django.setup()\n"
        "from meetward.catalogue.reading import shipped\n"
        "from meetward.publish.picture import picture\n"
        "print('Bar still over mid-foot' in picture(shipped().movements['snatch']))"
    )
    settings = {"DJANGO_SETTINGS_MODULE": "meetward.web.settings", "MEETWARD_DATA": str(data)}

    said = subprocess.run(
        [sys.executable, "-c", code], env=os.environ | settings, capture_output=True, text=True, check=True
    )

    assert said.stdout.strip() == "True"
