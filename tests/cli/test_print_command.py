"""``meetward print``: text and JSON in, either out, and words for what is neither."""

import json

import pytest
from typer.testing import CliRunner

from meetward import demo
from meetward.catalogue.reading import shipped
from meetward.cli.main import app
from meetward.cycle.package import from_json, to_json
from meetward.notation import read

TEXT = "Order: sets first\nMonday: Snatch\nSnatch 5 x 3 @ 70 %\n"


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cycle.txt").write_text(TEXT, encoding="utf-8")
    return tmp_path


def run(*arguments, given=None):
    return CliRunner().invoke(app, ["print", *arguments], input=given)


def test_text_comes_out_in_the_canonical_form_and_reads_as_the_same_cycle():
    result = run("cycle.txt")

    assert result.exit_code == 0
    assert read(result.stdout, shipped()).cycle == read(TEXT, shipped()).cycle
    assert run("-", given=result.stdout).stdout == result.stdout


def test_json_out_and_in_keeps_a_whole_cycle(folder):
    (folder / "demo.txt").write_text(demo.cycle_text(), encoding="utf-8")
    as_json = run("demo.txt", "--json")
    (folder / "demo.json").write_text(as_json.stdout, encoding="utf-8")

    assert as_json.exit_code == 0
    assert from_json(as_json.stdout) == read(demo.cycle_text(), shipped()).cycle
    assert from_json(run("demo.json", "--json").stdout) == from_json(as_json.stdout)
    assert run("demo.json").stdout == run("demo.txt").stdout


def test_standard_input_may_be_text_or_json():
    as_json = to_json(read(TEXT, shipped()).cycle).decode()

    assert run("-", given=as_json).stdout == run("-", given=TEXT).stdout == run("cycle.txt").stdout
    assert "JSON" not in run("-", given="{Snatch} 5x3 @ 70%\n").stderr


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_a_line_that_is_not_understood_is_shown_and_the_rest_printed(more):
    result = run("-", *more, given="Snatch 5x3 @ 70%\nSnacth 3x3 @ 70%\n")

    assert result.exit_code == 1
    assert "Did you mean 'Snatch'?" in result.stderr
    assert "This can mean" in result.stderr
    assert result.stdout


def test_the_order_can_be_given():
    result = run("-", "--order", "reps-first", given="Snatch 5x3 @ 70%\n")

    assert result.exit_code == 0
    assert (
        read(result.stdout, shipped()).cycle == read("Order: reps first\nSnatch 5x3 @ 70%", shipped()).cycle
    )


@pytest.mark.parametrize(
    ("body", "words"),
    [
        ("", "bad.json, $: This is not a JSON document"),
        ('{"cycle": {', "bad.json, $"),
        ("[1]", "bad.json, $: Expected `object`, got `array`."),
        ("{}", "bad.json, $: Object missing required field `cycle`."),
        ('{"cycle": {"phasen": []}}', "bad.json, $.cycle: Object contains unknown field `phasen`."),
        ('{"cycle": {"phases": [{"weeks": 3}]}}', "bad.json, $.cycle.phases[0].weeks: "),
        ('{"cycle": {"phases": []}, "version": 2}', "bad.json, $.version: "),
        ('{"cycle": {"phases": []}}', "bad.json holds no session"),
        ("[" * 50_000, "bad.json, $"),
    ],
)  # fmt: skip
def test_bad_json_is_told_with_its_path(folder, body, words):
    (folder / "bad.json").write_text(body, encoding="utf-8")
    result = run("bad.json")

    assert result.exit_code == 2
    assert words in result.stderr
    assert result.stdout == ""


def test_a_schema_path_points_at_the_line_that_is_wrong(folder):
    body = json.loads(to_json(read(TEXT, shipped()).cycle))
    body["cycle"]["phases"][0]["weeks"][0]["sessions"][0]["colour"] = "red"
    (folder / "bad.json").write_text(json.dumps(body), encoding="utf-8")

    assert "$.cycle.phases[0].weeks[0].sessions[0]" in run("bad.json").stderr


@pytest.mark.parametrize("name", ["read", "print"])
@pytest.mark.parametrize(
    ("file", "words"),
    [
        ("nothing.txt", "cannot be read"),
        (".", "cannot be read"),
        ("cycle.txt/x", "cannot be read"),
        ("binary", "is no text file"),
        ("empty.txt", "empty.txt"),
        ("blank.txt", "blank.txt"),
    ],
)
def test_what_is_no_cycle_ends_with_words_and_code_2(folder, name, file, words):
    (folder / "binary").write_bytes(bytes(range(256)) * 4)
    (folder / "empty.txt").touch()
    (folder / "blank.txt").write_text(" \n\n", encoding="utf-8")
    result = CliRunner().invoke(app, [name, file])

    assert result.exit_code == 2
    assert words in result.stderr
    assert isinstance(result.exception, SystemExit)


def test_reading_json_line_by_line_is_refused_with_the_command_for_it(folder):
    (folder / "cycle.json").write_text(run("cycle.txt", "--json").stdout, encoding="utf-8")
    result = CliRunner().invoke(app, ["read", "cycle.json"])

    assert result.exit_code == 2
    assert "`meetward print cycle.json`" in result.stderr
