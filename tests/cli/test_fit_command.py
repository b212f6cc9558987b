"""``meetward fit``: a proposal in words and as JSON, and words for what goes wrong."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

import meetward.demo
from meetward.cli.main import app

DEMO = Path(meetward.demo.__file__).parent
TOBIAS = ("fit", "cycle.txt", "--lifters", "squad.csv", "--name", "Tobias Marr", "--from", "2027-01-04")


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch) -> None:
    for name in ("cycle.txt", "squad.csv"):
        shutil.copy(DEMO / name, tmp_path)
    monkeypatch.chdir(tmp_path)


def run(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


def test_the_weeks_and_the_reasons_are_told():
    result = run(
        *TOBIAS, "--days", "mon,wed,sat", "--minutes", "70", "--blocked", "2027-02-08..2027-02-14=travel"
    )

    assert result.exit_code == 0, result.output
    assert "Tobias Marr, to Eskmouth Spring Open on Saturday 20 March 2027" in result.output
    assert "blocked" in result.output
    assert "are left out: there are two weeks fewer" in " ".join(result.output.split())


def test_json_is_one_object_a_lifter():
    result = run(*TOBIAS, "--json")
    made = json.loads(result.stdout)

    assert made["lifter"] == "Tobias Marr"
    assert made["meet"] == "2027-03-20"
    assert made["possible"] is True
    assert made["weeks"][0]["monday"] == "2027-01-04"
    assert all(session["lines"] for session in made["sessions"])


def test_limits_are_read_and_kept_to():
    made = json.loads(run(*TOBIAS, "--json", "--limits", "no jerks; no blocks").stdout)
    names = {line["name"] for session in made["sessions"] for line in session["lines"]}

    assert not any("jerk" in name.casefold() and "left out" not in name for name in names)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--days", "someday"), "'someday' are no weekdays"),
        (("--blocked", "whenever"), "'whenever' names no days"),
        (("--limits", "no gravity"), "gravity"),
        (("--name", "Nobody"), "Nobody in the squad is called"),
    ],
)
def test_what_cannot_be_read_ends_it_in_words(more, words):
    arguments = [*TOBIAS[:4], *TOBIAS[6:]] if more[0] == "--name" else TOBIAS

    result = run(*arguments, *more)

    assert result.exit_code in (1, 2)
    assert words in result.output


def test_a_meet_that_is_over_is_told_and_a_lifter_who_cannot_be_fitted_ends_with_1():
    result = run(*TOBIAS, "--meet", "2026-03-19")

    assert result.exit_code == 1
    assert "is over" in result.output
