"""Whatever is typed or pasted: no crash, no silence, time linear in the text."""

import os
import random
from pathlib import Path

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.catalogue.reading import shipped
from meetward.notation import Reader, Writer
from meetward.notation import tokens as tokens_module
from meetward.notation.grammar import Scanner, scan_line
from meetward.notation.names import NameReader
from meetward.notation.tokens import LONGEST_LINE, fold, tokens

CATALOGUE = shipped()
NAMES = NameReader(CATALOGUE)
SEEDS = [
    line["text"]
    for line in tomli.loads((Path(__file__).parent / "lines.toml").read_text(encoding="utf-8"))["line"]
]
SIGNS = "xX×*/-–+@%#()[]{}.,;:'\"=~<>|&!?_ \t\u00a0\u202e\u0000½¼²🙂аб五\ufffd" + "0123456789" * 3
WORDS = ["sets", "of", "reps", "rest", "every", "RPE", "heavy", "max", "up to", "then", "drop", "wave",
"Snatch", "clean", "pause", "s", "kg", "lb", "each", "side",
         "EMOM", "E2MOM", "AMRAP", "tempo", "30X0", "of it", "top set", "BW", "bar", "singles", "Week",
         "Monday", "note:", "between:", "Exact: {", "Order:", "A1:"]  # fmt: skip


def mutated(rng: random.Random, seeds: list[str] = SEEDS) -> str:
    """A real line with a few characters or words changed."""
    line = list(rng.choice(seeds))
    for _ in range(rng.randint(1, 6)):
        at = rng.randrange(len(line) + 1)
        what = rng.random()
        if what < 0.35:
            line.insert(at, rng.choice(SIGNS))
        elif what < 0.55 and line:
            line.pop(min(at, len(line) - 1))
        elif what < 0.75:
            line.insert(at, " " + rng.choice(WORDS) + " ")
        elif what < 0.9:
            other = rng.choice(seeds)
            cut = rng.randrange(len(other) + 1)
            line[at:at] = other[cut : cut + rng.randint(1, 12)]
        else:
            line[at : at + rng.randint(1, 8)] = []
    return "".join(line)


MANY = 100_000
SHORT = [line for line in SEEDS if len(line) <= 23]
FUZZ = os.environ.get("HYPOTHESIS_PROFILE") == "fuzz"


def test_a_hundred_thousand_mutated_lines_never_crash_and_nothing_is_lost():
    rng = random.Random(20270320)
    seeds = SEEDS if FUZZ else SHORT
    reader = Reader(CATALOGUE)
    for _ in range(MANY // 50):
        lines = [mutated(rng, seeds).replace("\n", " ").replace("\r", " ") for _ in range(50)]
        reading = reader.read("\n".join(lines))
        for problem in reading.problems:
            assert problem.place.line >= 1
            assert problem.place.column >= 1
            assert problem.repair
        for record in reading.lines:
            assert record.status in ("read", "ambiguous", "note")
            assert record.status != "ambiguous" or len(record.readings) > 1


def test_what_was_read_of_mutated_lines_prints_and_reads_back():
    rng = random.Random(7)
    reader, writer = Reader(CATALOGUE), Writer(CATALOGUE)
    for _ in range(3_000 if FUZZ else 150):
        cycle = reader.read("\n".join(mutated(rng) for _ in range(5))).cycle
        text = writer.cycle(cycle)
        assert reader.read(text).cycle == cycle
        assert writer.cycle(reader.read(text).cycle) == text


@given(st.text())
def test_any_text_is_read(text):
    Reader(CATALOGUE).read(text)


@given(st.text(alphabet=st.sampled_from(list("0123456789xX/-+@%(). ,;:kgslb")), max_size=60))
@settings(max_examples=500)
def test_any_run_of_numbers_and_signs_is_read(text):
    Reader(CATALOGUE).read("Snatch " + text)


@pytest.mark.parametrize(
    "text",
    [
        "Snatch " + "9" * 400 + "x3",
        "Snatch 5x" + "1" * 400 + "%",
        "Snatch 10^400",
        "Snatch 2 s E0MOM",
        "Snatch 1e400 x 3",
        "Snatch \x00 5x3",
        "\u202eSnatch 5x3\u202c",
        "Snatch \ud800 5x3",
        "Snatch " + "(" * 900 + "5x3" + ")" * 900,
        "Snatch " + "[" * 900,
        "{" * 1_900,
        '"' * 1_900,
        '{"' * 900,
        "Snatch " + "1-" * 900,
        "Snatch " + "1+" * 900,
        "Snatch " + "5x" * 900,
        "Snatch " + "70%/" * 400,
        "Snatch " + "1." * 900,
        "x" * 1_900,
        "snatch " * 280,
        "5 sets of " * 190,
        "work up to " * 170,
        "1,5" * 600,
        "Exact: " + "[" * 1_900,
        "Exact: {}",
        "Order: sideways",
        "Start: 2027-13-45",
        "Meet: ,,,",
        "Week 99999999999999999999: load",
        "Minutes: 99999999999999999999",
        "",
        "\n\n\n",
        "\r\r\n\r",
    ],
    ids=lambda text: repr(text[:25]),
)
def test_hostile_lines_are_read_or_refused(text):
    reading = Reader(CATALOGUE).read("Monday:\n" + text + "\nSnatch 5x3 @ 70%")

    assert reading.lines[-1].text.endswith("Snatch 5x3 @ 70%")
    assert Reader(CATALOGUE).read(text + "\n").lines is not None


def test_a_line_longer_than_any_set_line_is_kept_as_a_note():
    reading = Reader(CATALOGUE).read("x" * 100_000 + "\nSnatch 3x3 @ 70%")

    assert [record.status for record in reading.lines] == ["note", "read"]
    assert reading.problems[0].kind == "line too long"
    assert str(LONGEST_LINE) in reading.problems[0].repair


def test_a_long_line_just_below_the_limit_takes_no_more_steps_than_its_tokens(monkeypatch):
    steps = []
    step = Scanner.step
    monkeypatch.setattr(Scanner, "step", lambda self: (steps.append(1), step(self))[1])
    for text in ("5x3 ", "70%/3, ", "snatch + ", "( ", "3-", "work up to ", "1 , "):
        line = text * (LONGEST_LINE // len(text))
        steps.clear()
        scan_line(line, NAMES)
        assert len(steps) <= len(tokens(fold(line)))


def test_a_text_of_a_megabyte_looks_at_each_different_line_once():
    line = "Snatch 5x3 @ 70%, rest 2:00 and some words to fill the line up a little\n"
    text = line * (1_000_000 // len(line))
    reading = Reader(CATALOGUE).read(text)

    assert reading.steps["lines"] == 2  # the line and the empty end
    assert len(reading.lines) == text.count("\n")


def test_a_megabyte_of_different_lines_is_read():
    rng = random.Random(3)
    lines = [f"{rng.choice(SEEDS)} {k}".replace("\n", " ") for k in range(4_000)]
    reading = Reader(CATALOGUE).read("\n".join(lines))

    assert reading.steps["lines"] == len(set(lines))
    assert sum(record.count for record in reading.lines) >= 3_000


def test_folding_keeps_every_place():
    odd = "Snatch\u00a05\u200b×\u20093 – 70\uff05 \u201cfast\u201d \uff11\uff10"

    assert len(fold(odd)) == len(odd)
    assert tokens_module.fold("plain") == "plain"
