"""``meetward sheets``: from a text and a table to files, with words for everything that goes wrong."""

import re
from pathlib import Path

import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from meetward.catalogue.reading import shipped
from meetward.cli import sheet_files
from meetward.cli.main import app
from meetward.cli.sheet_files import Order, jobs, write_all
from meetward.cli.text_file import decoded
from meetward.cycle.package import to_json
from meetward.lifter.profile import Lifter
from meetward.notation.reader import read
from tests.publish.samples import CLUB

CYCLE = """\
Cycle: Three weeks to the Spring Open
Club: Harrow Lane Weightlifting
Meet: Eskmouth Spring Open, 2027-01-30
Order: sets first
Bare loads: percent

Week 1: load
Monday: Snatch and front squat (key)
Lifts:
Snatch 70%/3 75%/2x2 80%/1x3
  between: ankle rock, 5 each side
Front squat 5x3 @ 75%
Recovery:
Easy bike 5 min

Thursday: Clean and jerk
Clean and jerk 6x(1+1) 70-75%
Back squat 5x5 @ RPE 8

Week 2: lighter
Monday: Snatch
Snatch 4x2 @ 70%

Week 3: meet
Saturday: Eskmouth Spring Open
Snatch work up to a heavy single
"""
SQUAD = """\
Name;Snatch;C&J;Front squat;Back squat;Bar;Discs
Mara Ellwood;72,5;90;105;120;15;club
Jo Penhale;;;;70;15;club
"""


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """A folder with a cycle and a squad, as the current one."""
    (tmp_path / "cycle.txt").write_text(CYCLE, encoding="utf-8")
    (tmp_path / "squad.csv").write_text(SQUAD, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*more: str, cycle: str = "cycle.txt", squad: str = "squad.csv"):
    return CliRunner().invoke(app, ["sheets", cycle, "--lifters", squad, *more])


def text_of(path: Path) -> str:
    return re.sub(r"\s+", "", "".join(page.extract_text() for page in PdfReader(path).pages))


def files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def test_every_lifter_gets_every_day_and_the_wall_every_week(folder):
    result = run("--out", "out", "--start", "2027-01-11")

    days = {"week-01-session-1", "week-01-session-2", "week-02-session-1", "week-03-session-1"}
    weeks = {"week-01", "week-02", "week-03"}
    expected = {f"{who}/{name}.pdf" for who in ("mara-ellwood", "jo-penhale") for name in days | weeks}
    assert files(folder / "out") == expected | {f"{week}-wall.pdf" for week in weeks}
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        "out/mara-ellwood: 4 days",
        "out/jo-penhale: 4 days",
        "out/week-01-wall.pdf",
        "out/week-02-wall.pdf",
        "out/week-03-wall.pdf",
        "8 day sheets for 2 lifters: 17 files in out.",
    ]


def test_the_sheets_carry_kilos_names_and_dates(folder):
    run("--out", "out", "--start", "2027-01-11")

    mara = text_of(folder / "out/mara-ellwood/week-01-session-1.pdf")
    # 70 % of 72.5 is 50.75, 80 % is 58: on a 15 kg bar with a pair of 1.25 kg the nearest are 50 and 57.5.
    for words in ("MaraEllwood", "Monday11January2027", "50kg", "57.5kg", "19daystoEskmouthSpringOpen"):
        assert words in mara
    assert "from" in text_of(folder / "out/jo-penhale/week-01-session-1.pdf")
    wall = text_of(folder / "out/week-01-wall.pdf")
    assert "MaraEllwood" in wall
    assert "JoPenhale" in wall


@pytest.mark.parametrize(("start", "code"), [("0001-01-01", 0), ("9999-12-06", 0), ("9999-12-31", 2)])
def test_a_start_at_the_ends_of_the_calendar_is_kept_or_refused_in_words(folder, start, code):
    (folder / "cycle.txt").write_text(CYCLE.replace("Meet: Eskmouth Spring Open, 2027-01-30\n", ""))
    result = run("--out", "out", "--start", start, "--week", "3")

    assert (result.exit_code, isinstance(result.exception, SystemExit)) == (code, bool(code))
    assert ("Choose an earlier start" in result.stderr) is bool(code)


def test_a_name_that_nobody_has_is_answered_with_the_first_names_of_a_large_squad(folder):
    rows = "".join(f"Lifter {n};{60 + n % 40}\n" for n in range(500))
    (folder / "squad.csv").write_text("Name;Snatch\n" + rows)
    result = run("--out", "out", "--name", "Somebody")

    assert result.exit_code == 2
    assert "It has Lifter 0, Lifter 1, " in result.stderr
    assert "and 460 more." in result.stderr


def test_no_name_or_key_leads_out_of_the_folder(folder):
    names = [
        "../../x",
        "..",
        "/etc/passwd",
        "a/b",
        "C:\\x",
        "CON",
        "x" * 5_000,
        "\x00",
        ".hidden",
        "~",
        "%2e%2e",
    ]
    (folder / "squad.csv").write_text("Key;Name;Snatch\n" + "".join(f"{n};{n};70\n" for n in names))
    run("--out", "out/deep", "--week", "3")

    written = files(folder) - {"cycle.txt", "squad.csv"}
    assert len(written) >= 2 * (len(names) - 1)
    assert all(
        re.fullmatch(r"out/deep/([A-Za-z0-9-]{1,60}/)?week-03[a-z0-9-]*\.pdf", name) for name in written
    )


def test_the_start_may_be_any_day_of_the_first_week_and_the_command_says_which_monday(folder):
    result = run("--out", "out", "--start", "2027-01-13", "--week", "2")

    assert "Week 1 begins on Monday 2027-01-11" in result.stderr
    assert "Monday18January2027" in text_of(folder / "out/mara-ellwood/week-02-session-1.pdf")


def test_a_meet_outside_the_last_week_is_noticed(folder):
    result = run("--out", "out", "--start", "2027-03-01", "--week", "1")

    assert (
        "Eskmouth Spring Open is on 2027-01-30, but the last of 3 weeks runs from 2027-03-15" in result.stderr
    )


def test_pages_for_the_phone_stand_beside_the_sheets(folder):
    run("--out", "out", "--html", "--week", "2")

    page = (folder / "out/jo-penhale/week-02-session-1.html").read_text(encoding="utf-8")
    assert "A start, not a prescription." in page
    assert "Jo Penhale" in page


def test_one_lifter_alone_leaves_the_wall_of_the_squad_as_it_is(folder):
    result = run("--out", "out", "--name", "MARA ellwood")

    assert result.exit_code == 0
    assert {path.split("/")[0] for path in files(folder / "out")} == {"mara-ellwood"}


def test_a_name_that_nobody_has_lists_the_names(folder):
    result = run("--name", "Zed")

    assert result.exit_code == 2
    assert "Nobody in the squad is called 'Zed'. It has Mara Ellwood, Jo Penhale." in result.stderr


@pytest.mark.parametrize("html", [[], ["--html"]])
def test_together_gives_one_document_a_week(folder, html):
    result = run("--out", "out", "--together", "--week", "1", *html)

    assert result.exit_code == 0
    assert len(PdfReader(folder / "out/week-01-day-sheets.pdf").pages) == 4
    assert (folder / "out/mara-ellwood/week-01-session-2.html").exists() is bool(html)


def test_letter_paper(folder):
    run("--out", "out", "--paper", "letter", "--week", "2")

    box = PdfReader(folder / "out/mara-ellwood/week-02-session-1.pdf").pages[0].mediabox
    assert (float(box.width), float(box.height)) == (612, 792)  # 8.5 x 11 in of 72 points


def test_a_second_run_replaces_its_own_files_and_says_so(folder):
    run("--out", "out", "--week", "2")
    before = (folder / "out/mara-ellwood/week-02-session-1.pdf").read_bytes()

    result = run("--out", "out", "--week", "2")

    assert result.exit_code == 0
    assert "5 files in out, 5 of them again in place of an earlier run's." in result.stdout
    assert (folder / "out/mara-ellwood/week-02-session-1.pdf").read_bytes() == before


def test_a_file_of_somebody_else_is_never_written_over(folder):
    theirs = folder / "out" / "mara-ellwood" / "week-02-session-1.pdf"
    theirs.parent.mkdir(parents=True)
    theirs.write_bytes(b"the coach's own notes")

    result = run("--out", "out", "--week", "2")

    assert theirs.read_bytes() == b"the coach's own notes"
    assert "week-02-session-1.pdf was not written by Meetward, so it stays as it is." in result.stderr
    assert result.exit_code == 1
    assert (folder / "out/jo-penhale/week-02-session-1.pdf").exists()


def test_what_was_not_understood_is_shown_with_its_place_and_the_rest_is_written(folder):
    (folder / "cycle.txt").write_text(CYCLE.replace("Front squat 5x3", "Frnot sqaut 5x3"), encoding="utf-8")

    result = run("--out", "out", "--week", "1")

    assert "line 12" in result.stderr
    assert "Frnot sqaut" in result.stderr
    assert "^^^" in result.stderr
    assert result.exit_code == 1
    assert (folder / "out/mara-ellwood/week-01-session-1.pdf").exists()


def test_one_lifter_never_stops_the_rest(folder, monkeypatch):
    real = sheet_files.day_pdf

    def breaks_for_mara(sheet, paper):
        if sheet.lifter_key == "mara-ellwood":
            raise RuntimeError("out of ink")
        return real(sheet, paper)

    monkeypatch.setattr(sheet_files, "day_pdf", breaks_for_mara)
    result = run("--out", "out", "--week", "2")

    assert "Mara Ellwood was left out (RuntimeError: out of ink)." in result.stderr
    assert (folder / "out/jo-penhale/week-02-session-1.pdf").exists()
    assert result.exit_code == 1


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"cycle": "nothing.txt"}, "nothing.txt cannot be read"),
        ({"squad": "nobody.csv"}, "nobody.csv cannot be read"),
        ({"cycle": "empty.txt"}, "holds no session"),
        ({"squad": "empty.txt"}, "holds no lifter"),
        ({"cycle": "picture.bin"}, "is no text file"),
    ],
)
def test_what_cannot_be_used_ends_with_words_and_code_2(folder, changes, words):
    (folder / "empty.txt").write_text("", encoding="utf-8")
    (folder / "picture.bin").write_bytes(bytes(range(256)) * 4)

    result = run("--out", "out", **changes)

    assert result.exit_code == 2
    assert words in result.stderr
    assert not (folder / "out").exists()


def test_a_week_that_is_not_there_is_refused(folder):
    result = run("--week", "9")

    assert result.exit_code == 2
    assert "Week 9 has no sessions: the cycle has 3 weeks." in result.stderr


def test_verbose_names_every_file(folder):
    result = run("--out", "out", "--week", "2", "--verbose")

    named = {line for line in result.stdout.splitlines() if line.endswith(".pdf")}
    assert named == {f"out/{name}" for name in files(folder / "out")}


def test_two_processes_write_the_same_bytes_as_one(tmp_path):
    cycle = read(CYCLE, shipped()).cycle
    lifters = tuple(Lifter(f"lifter-{n}", f"Lifter {n}", CLUB) for n in range(3))

    for processes in (1, 2):
        order = Order(cycle, lifters, tmp_path / str(processes), (1, 2, 3))
        done = list(write_all(order, processes=processes))
        assert len(done) == len(jobs(order))
        assert [trouble for one in done for trouble in one.troubles] == []

    one, two = tmp_path / "1", tmp_path / "2"
    assert files(one) == files(two)
    assert all((one / name).read_bytes() == (two / name).read_bytes() for name in files(one))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_coach_may_save_in_any_usual_encoding(encoding):
    text = "Snatch 70–75 % × 3, slow from the blocks and with 2½ kg more than in the week before\n" * 3

    assert decoded(text.encode(encoding)) == text


def test_a_cycle_as_json_gives_the_same_sheets_as_its_text(folder):
    (folder / "cycle.json").write_bytes(to_json(read(CYCLE, shipped()).cycle))
    run("--out", "one", "--week", "2")
    result = run("--out", "two", "--week", "2", cycle="cycle.json")

    assert result.exit_code == 0
    assert files(folder / "one") == files(folder / "two")
    assert all(
        (folder / "one" / f).read_bytes() == (folder / "two" / f).read_bytes() for f in files(folder / "one")
    )


def test_a_folder_that_cannot_be_made_ends_with_words_and_code_2(folder):
    result = run("--out", "squad.csv/sheets")

    assert result.exit_code == 2
    assert "cannot be made" in result.stderr
    assert "Choose another folder with --out." in result.stderr


def test_columns_that_are_left_out_are_named(folder):
    (folder / "squad.csv").write_text(SQUAD.replace("Discs", "Shoe size"), encoding="utf-8")

    assert "Columns left out: Shoe size: not a lift" in run("--out", "out", "--week", "2").stderr
