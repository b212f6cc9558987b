"""Parts of docs/commands.md: each command's help and what it prints on the invented club's files."""

import contextlib
import os
import re
import shutil
import socket
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import MappingProxyType
from unittest import mock

from docs_markdown import session
from typer.testing import CliRunner

from meetward.cli import squad_file
from meetward.cli.main import app
from meetward.demo import TODAY

DEMO = Path(__file__).resolve().parent.parent / "src" / "meetward" / "demo"
EXAMPLES = Path(__file__).resolve().parent.parent / "docs" / "examples"
DEMO_FILES = ("cycle.txt", "squad.csv", "pasted.txt")

WIDTH = 100
PLAIN = {"COLUMNS": str(WIDTH), "TERMINAL_WIDTH": str(WIDTH), "NO_COLOR": "1", "TERM": "dumb"}
"""What makes every terminal print alike; a build machine's own habits are switched off below."""
NOT_HERE = ("FORCE_COLOR", "GITHUB_ACTIONS", "PY_COLORS", "MEETWARD_DATA", "MEETWARD_DEMO", "DATABASE_URL")

HELD_BACK = "[...]"
MOST_SECONDS = 90


class Eve(squad_file.date):
    """The day before the demo's cycle: what is said of dates must not change from day to day."""

    @classmethod
    def today(cls) -> squad_file.date:
        """The day that the demo stands on."""
        return TODAY


@contextlib.contextmanager
def demo_folder() -> Iterator[Path]:
    """A folder of its own with the demo's files, as working folder."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for file in DEMO_FILES:
            shutil.copyfile(DEMO / file, folder / file)
        with contextlib.chdir(folder):
            yield folder


def printed(*arguments: str, files: Mapping[str, str] = MappingProxyType({})) -> str:
    """What ``meetward ARGUMENTS`` prints in a folder with the demo's files, both streams as they come.

    files : further ones in the folder, by name.
    """
    runner = CliRunner(env={**PLAIN, **dict.fromkeys(NOT_HERE)})
    with demo_folder() as folder, mock.patch.object(squad_file, "date", Eve):
        for name, text in files.items():
            (folder / name).write_text(text, encoding="utf-8")
        result = runner.invoke(app, list(arguments), prog_name="meetward")
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return "\n".join(line.rstrip() for line in result.output.strip("\n").splitlines())


def printed_outside(*arguments: str, until: str = "") -> str:
    """As `printed`, in a process of its own, for commands that set up the site.

    until : words after which the process is ended; RuntimeError when it never says them.
    """
    environment = {name: value for name, value in os.environ.items() if name not in NOT_HERE} | PLAIN
    program = [str(Path(sys.executable).with_name("meetward")), *arguments]
    with demo_folder() as folder:
        process = subprocess.Popen(
            program,
            cwd=folder,
            env=environment | {"PYTHONUNBUFFERED": "1"},
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        assert process.stdout is not None
        lines = []
        watch = threading.Timer(MOST_SECONDS, process.kill)
        watch.start()
        try:
            for line in process.stdout:
                lines.append(line.rstrip())
                if until and until in line:
                    break
        finally:
            if until:
                process.terminate()
            process.wait(timeout=MOST_SECONDS)
            watch.cancel()
            process.stdout.close()
    if until and not any(until in line for line in lines):
        raise RuntimeError(f"'{' '.join(arguments)}' never said '{until}':\n" + "\n".join(lines))
    return "\n".join(lines)


def block_about(output: str, *words: str) -> str:
    """The paragraph of an output that holds all ``words``; ValueError when the program no longer says it."""
    for block in output.split("\n\n"):
        if all(word in block for word in words):
            return block.strip("\n")
    raise ValueError(f"Nothing in the output holds {words}.")


def command_help(name: str) -> str:
    """The help of a command, or of the program itself."""
    arguments = [name, "--help"] if name else ["--help"]
    return session(" ".join(["meetward", *arguments]), printed(*arguments))


def read_example() -> str:
    """What `meetward read` makes of the pasted page: all lines, and three of the problems."""
    output = printed("read", "pasted.txt")
    lines, _, problems = output.partition("\n\n")
    chosen = (
        block_about(problems, "'Snacth balance'", "Snatch balance"),
        block_about(problems, "Clean & Jerk 70/2", "kg"),
        block_about(problems, "superset"),
    )
    shown = f"\n\n{HELD_BACK}\n\n".join(("", *chosen, "")).strip("\n")
    return session("meetward read pasted.txt", f"{lines}\n\n{shown}")


def json_example() -> str:
    """The record of one line, cut out of the whole output as it stands."""
    output = printed("read", "pasted.txt", "--json")
    records = re.split(r"\n(?=  \{\n)", output)
    record = next(one for one in records if "BACK SQUAT 5 x 5" in one)
    return session("meetward read pasted.txt --json", f"{HELD_BACK}\n{record}\n{HELD_BACK}")


SHORT_CYCLE = """\
Order: sets first
Monday: jerks
Drop jerk 3 x 2 @ 60 %
Front squat 5 x 3 @ 75-80 %, rest 3 min
"""


def print_example() -> str:
    """A short text in the canonical form."""
    text = SHORT_CYCLE.replace("Drop jerk", "Split jerk")
    said = printed("print", "short.txt", files={"short.txt": text})
    return session("cat short.txt", text.strip()) + "\n" + session("meetward print short.txt", said)


def print_json_example() -> str:
    """The head of the demo's cycle as JSON."""
    lines = printed("print", "cycle.txt", "--json").splitlines()
    return session("meetward print cycle.txt --json", "\n".join([*lines[:16], HELD_BACK]))


def wrong_json_example() -> str:
    """What is said of a JSON with a field that there is not."""
    body = '{"cycle": {"phases": [{"weeks": [], "colour": "red"}]}}'
    said = printed("print", "wrong.json", files={"wrong.json": body})
    return session("meetward print wrong.json", said)


def own_catalogue_example() -> str:
    """A line that only a coach's own catalogue knows; what is missing in the file is not shown again."""
    name = "own-catalogue.toml"
    files = {"short.txt": SHORT_CYCLE, name: (EXAMPLES / name).read_text(encoding="utf-8")}
    lines = printed("read", "short.txt", "--catalogue", name, files=files).splitlines()
    shown = [line for line in lines if not line.startswith(name)]
    return session(f"meetward read short.txt --catalogue {name}", "\n".join([HELD_BACK, *shown]))


def sheets_example() -> str:
    """All sheets of one week for the demo's squad."""
    command = "sheets cycle.txt --lifters squad.csv --week 1 --out sheets"
    lines = printed(*command.split()).splitlines()
    return session(f"meetward {command}", "\n".join([*lines[:6], HELD_BACK, *lines[-6:]]))


def one_sheet_example() -> str:
    """Sheets of one lifter, with a page for the phone, every file named."""
    command = "sheets cycle.txt --lifters squad.csv --week 12 --name saskia --html --paper letter --verbose"
    lines = printed(*command.split()).splitlines()
    files = next(n for n, line in enumerate(lines) if line.startswith("sheets/"))
    return session(
        f"meetward {command}", "\n".join([*lines[: min(files, 6)], *[HELD_BACK][: files > 6], *lines[files:]])
    )


def fit_example() -> str:
    """One lifter's eleven weeks with a week away, three days of seventy minutes, and no blocks."""
    asked = "--from 2027-01-04 --days mon,wed,sat --minutes 70 --blocked 2027-02-08..2027-02-14=travel"
    command = ["fit", "cycle.txt", "--lifters", "squad.csv", "--name", "tobias", *asked.split()]
    lines = printed(*command, "--limits", "no blocks").splitlines()
    first = next(n for n, line in enumerate(lines) if line.startswith("Tobias"))
    shown = f'meetward {" ".join(command[:6])} {asked} --limits "no blocks"'
    return session(shown, "\n".join([HELD_BACK, *lines[first:]] if first else lines))


def teach_example() -> str:
    """The teaching edition of one session."""
    command = "teach cycle.txt --week 1 --session 1 --html --verbose"
    return session(f"meetward {command}", printed(*command.split()))


def book_example() -> str:
    """The catalogue as a book."""
    return session('meetward book --title "Harrow Lane"', printed("book", "--title", "Harrow Lane"))


def demo_example() -> str:
    """Filling the demo."""
    command = "demo --fill-only --data demo-data"
    return session(f"meetward {command}", printed_outside(*command.split()))


def serve_example() -> str:
    """Starting the site. The free port of this run is written as the usual one."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = str(probe.getsockname()[1])
    said = printed_outside("serve", "--data", "club-data", "--port", port, until="answers at")
    return session("meetward serve --data club-data", said.replace(port, "8620"))


def schema_example() -> str:
    """The head of the schema."""
    lines = printed("schema").splitlines()
    return session("meetward schema", "\n".join([*lines[:24], HELD_BACK]))
