"""``meetward read``: what people and programs see."""

import json

import pytest
from typer.testing import CliRunner

from meetward.cli.main import app

runner = CliRunner()
TEXT = "Order: sets first\nSnatch 5x3 @ 70–75%, rest 2:00\n"


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "cycle.txt"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_the_json_is_the_contract(file):
    result = runner.invoke(app, ["read", str(file), "--json"])

    assert result.exit_code == 0
    (line,) = json.loads(result.output)["lines"]
    assert set(line) == {"line", "text", "status", "movements", "sets", "readings", "leftover"}
    assert (line["line"], line["text"], line["status"], line["leftover"]) == (
        2,
        "Snatch 5x3 @ 70–75%, rest 2:00",
        "read",
        "",
    )
    assert line["movements"] == [{"id": "snatch", "name": "Snatch", "written": "Snatch"}]
    assert line["sets"] == [
        {
            "count": 5, "reps": [3], "load": {"kind": "percent", "lo": 70, "hi": 75, "of": None},
            "every_s": None, "rest_s": 120, "duration_s": None, "tempo": None, "pause_s": None,
            "per_side": False, "missed": False,
        }
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("written", "load"),
    [
        ("Snatch 3x3 @ 72.5%", {"kind": "percent", "lo": 72.5, "hi": 72.5, "of": None}),
        ("Clean pull 3x3 @ 90% of clean", {"kind": "percent", "lo": 90, "hi": 90, "of": "clean"}),
        ("Snatch 3 sets of 2 up to 70%", {"kind": "percent", "lo": None, "hi": 70, "of": None}),
        ("Snatch 3x3 @ 102.5 kg", {"kind": "kg", "lo": 102.5, "hi": 102.5, "of": None}),
        ("Snatch 3x3 @ 45 lb", {"kind": "lb", "lo": 45, "hi": 45, "of": None}),
        ("Squat 3x3 @ RPE 7.5", {"kind": "rpe", "lo": 7.5, "hi": 7.5, "of": None}),
        ("Squat 3x3 @ 2 RIR", {"kind": "rir", "lo": 2, "hi": 2, "of": None}),
        ("Snatch heavy single", {"kind": "max", "lo": None, "hi": None, "of": None, "rm": 1,
        "effort": "heavy"}),
        ("Snatch 3x3 empty bar", {"kind": "bar", "lo": None, "hi": None, "of": None, "stick": False}),
        ("Pull-up 3x3 BW+10kg", {"kind": "bodyweight", "lo": None, "hi": None, "of": None, "plus_kg": 10}),
        ("Squat 3x3", {"kind": "open", "lo": None, "hi": None, "of": None}),
        ("Snatch 3x3 43/29kg", {"kind": "kg", "lo": 29, "hi": 43, "of": None, "men": 43, "women": 29}),
    ],
)  # fmt: skip
def test_every_kind_of_load_has_its_shape(written, load):
    result = runner.invoke(app, ["read", "-", "--json"], input=written)

    assert json.loads(result.output)["lines"][0]["sets"][0]["load"] == load


def test_an_ambiguous_line_shows_all_readings_and_ends_with_1():
    result = runner.invoke(app, ["read", "-", "--json"], input="Snatch 5x3")

    (line,) = json.loads(result.output)["lines"]
    assert result.exit_code == 1
    assert [reading[0]["count"] for reading in line["readings"]] == [5, 3]
    assert line["readings"][0] == line["sets"]


def test_the_order_can_be_given():
    result = runner.invoke(app, ["read", "-", "--order", "reps-first", "--json"], input="Snatch 5x3")

    assert result.exit_code == 0
    assert json.loads(result.output)["lines"][0]["sets"][0]["count"] == 3


def test_people_see_words_problems_with_carets_and_a_count():
    result = runner.invoke(app, ["read", "-"], input="Snacth 3x3 @ 70%\nSnatch 5x3\nSnatch 5?3 @\n")

    assert result.exit_code == 1
    assert "3 sets of 3 at 70 %" in result.output
    assert "Did you mean 'Snatch'?" in result.output
    assert "    ^^^^^^" in result.output
    assert "1 read, 1 ambiguous, 1 kept as note" in result.output


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_any_usual_encoding_is_read(tmp_path, encoding):
    path = tmp_path / "cycle.txt"
    path.write_bytes("Order: sets first\nSnatch 5 × 3 @ 70–75%\n".encode(encoding))
    result = runner.invoke(app, ["read", str(path), "--json"])

    assert result.exit_code == 0
    assert json.loads(result.output)["lines"][0]["sets"][0]["count"] == 5


def test_a_file_that_is_not_there_ends_with_2(tmp_path):
    assert runner.invoke(app, ["read", str(tmp_path / "none.txt")]).exit_code == 2


def test_signs_that_upset_a_terminal_are_not_printed():
    result = runner.invoke(app, ["read", "-"], input="Snatch \x1b[31m 5 5\n")

    assert "\x1b" not in result.output
