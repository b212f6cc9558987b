"""``meetward teach`` and ``meetward book``: files that can be opened, and words for what goes wrong."""

import shutil
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

import meetward.demo
from meetward.cli.main import app

DEMO = Path(meetward.demo.__file__).parent


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    shutil.copy(DEMO / "cycle.txt", tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


def test_a_weeks_lessons_are_written_as_pdf_and_page(folder):
    result = run("teach", "cycle.txt", "--week", "2", "--html")

    assert result.exit_code == 0, result.output
    names = sorted(path.name for path in (folder / "lessons").iterdir())
    assert names[:2] == ["week-02-session-1-teaching.html", "week-02-session-1-teaching.pdf"]
    assert len(PdfReader(folder / "lessons" / names[1]).pages) >= 1
    assert f"The teaching edition of {len(names) // 2} sessions is in lessons." in result.output


def test_a_week_that_is_not_there_is_told(folder):
    result = run("teach", "cycle.txt", "--week", "40")

    assert result.exit_code == 2
    assert "There is no week 40 here: the cycle has 12 weeks." in result.output


def test_somebody_elses_file_is_never_written_over(folder):
    (folder / "lessons").mkdir()
    (folder / "lessons" / "week-01-session-1-teaching.pdf").write_bytes(b"mine")
    (folder / "catalogue.pdf").write_bytes(b"mine")

    taught, book = run("teach", "cycle.txt", "--week", "1", "--session", "1"), run("book")

    assert (taught.exit_code, book.exit_code) == (2, 2)
    assert "was not written by Meetward, so it stays as it is" in taught.output
    assert "was not written by Meetward, so it stays as it is" in book.output
    assert (folder / "catalogue.pdf").read_bytes() == b"mine"


def test_the_book_carries_the_clubs_title_and_its_own_movements(folder):
    own = '[[movement]]\nid = "slope_snatch"\nname = "Slope snatch"\nfamily = "snatch"\n'
    (folder / "own.toml").write_text(own, encoding="utf-8")

    result = run("book", "--out", "shelf.pdf", "--title", "Harrow Lane", "--catalogue", "own.toml")

    assert result.exit_code == 0, result.output
    pages = PdfReader(folder / "shelf.pdf").pages
    assert "Harrow Lane" in pages[0].extract_text()
    assert any("Slope snatch" in page.extract_text() for page in pages[1:])
