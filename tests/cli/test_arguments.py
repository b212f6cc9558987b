"""Whatever is typed behind ``meetward``: it is taken, or refused in words. Seeded: every run is alike."""

import random

import pytest
import typer

from meetward.cli.main import COMMANDS, app
from meetward.cli.text_file import decoded

REFUSED = typer.BadParameter.__base__
"""What every refusal of arguments is a kind of; the parser has no public name for it."""

GROUP = typer.main.get_command(app)
PIECES = [
    "--start", "--week", "--lifters", "--out", "--paper", "--html", "--together", "--name", "--verbose",
    "--json", "--order", "--port", "--host", "--data", "--club", "--owner", "--fresh", "--start=", "--week=",
    "--", "-", "-x", "cycle.txt", "squad.csv", "a4", "letter", "sets-first", "2026-12-28", "2026-02-30",
    "0001-01-01", "9999-12-31", "99999-01-01", "28.12.2026", "2026-1-1", " 2026-12-28", "２０２６-12-28",
    "0", "1", "-1", "1.5", "1e3", "9" * 40, "nan", "", " ", "\x00", "\udcff", "🏋", "'", "../../x", "%s",
    "{x}", "\n",
]  # fmt: skip


def refusal(command: typer.core.TyperCommand, arguments: list[str]) -> str | None:
    """The words by which the command refuses the arguments; None when it takes them."""
    try:
        command.make_context(command.name, list(arguments))
    except typer.Exit:  # --help
        return None
    except REFUSED as error:
        return error.format_message()
    return None


def test_a_hundred_thousand_argument_lists_are_taken_or_refused_in_words():
    rng = random.Random(20261228)
    commands = [GROUP.get_command(None, name) for name in COMMANDS]
    said = [
        refusal(rng.choice(commands), rng.choices(PIECES, k=rng.choice((0, 1, 2, 3, 4, 6))))
        for _ in range(100_000)
    ]

    assert "" not in said
    assert 1_000 < said.count(None) < 90_000


@pytest.mark.parametrize("day", ["2026-02-30", "28.12.2026", "2026", "99999-01-01", "", "tomorrow"])
def test_a_day_that_is_none_is_refused_with_the_form_that_it_needs(day):
    said = refusal(GROUP.get_command(None, "sheets"), ["cycle.txt", "--lifters", "squad.csv", "--start", day])

    assert "--start" in said
    assert "%Y-%m-%d" in said


def test_a_hundred_thousand_random_files_are_text_or_are_not():
    rng = random.Random(7)
    marks = (b"", b"", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")
    kept = 0
    for _ in range(100_000):
        plain = rng.choices(b"Snatch 5x3 @ 70%\r\n\xd7\x96\xe9\x00\xff", k=rng.randrange(60))
        text = decoded(rng.choice(marks) + bytes(plain))
        assert text is None or isinstance(text, str)
        kept += text is not None

    assert 10_000 < kept < 100_000
