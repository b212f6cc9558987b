"""The documents say what is true: made parts are fresh, commands and links exist, every option is told."""

import ast
import importlib
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import msgspec
import pytest
import typer

from meetward import demo
from meetward.catalogue.reading import shipped
from meetward.cli.main import COMMANDS, app
from meetward.cycle.package import to_json
from meetward.fit.day import day_sheets
from meetward.notation import read
from meetward.publish.page import day_page
from tests.house.house import CORE_ROOMS, ROOT, SRC, module_name, our_files, room_of

DOCS = ROOT / "docs"
PAGES = [
    path
    for path in our_files(".md")
    if "authorities" not in path.parts and path.relative_to(ROOT).parts[0] != "tests"
]
COMMANDS_PAGE = (DOCS / "commands.md").read_text(encoding="utf-8")


def name_of(path: Path) -> str:
    """A page as a reader finds it."""
    return path.relative_to(ROOT).as_posix()


# Made parts


def test_what_the_docs_show_is_what_the_program_prints():
    made = subprocess.run(
        [sys.executable, str(ROOT / "tools" / "make_docs.py"), "--check"],
        capture_output=True,
        text=True,
        check=False,
    )

    assert made.returncode == 0, f"{made.stdout[-6000:]}{made.stderr}"


@pytest.fixture
def make_docs(monkeypatch, tmp_path):
    """The tool, on a folder of its own with one made part."""
    monkeypatch.syspath_prepend(str(ROOT / "tools"))
    tool = importlib.import_module("make_docs")
    monkeypatch.setattr(tool, "ROOT", tmp_path)
    monkeypatch.setattr(tool, "DOCS", tmp_path)
    monkeypatch.setattr(tool, "SCHEMA", tmp_path / "schema" / "cycle.schema.json")
    monkeypatch.setattr(tool, "PARTS", {"greeting": lambda: "Good morning."})
    (tmp_path / "page.md").write_text(
        "By hand.\n\n<!-- made: greeting -->\nOld.\n<!-- /made -->\n\nBy hand too.\n"
    )
    return tool


def test_a_stale_part_is_told_and_only_that_part_is_written(make_docs, tmp_path, capsys):
    assert make_docs.main(["--check"]) == 1
    assert "+Good morning." in capsys.readouterr().out
    assert "Old." in (tmp_path / "page.md").read_text()

    assert make_docs.main([]) == 0
    assert (tmp_path / "page.md").read_text() == (
        "By hand.\n\n<!-- made: greeting -->\n\nGood morning.\n\n<!-- /made -->\n\nBy hand too.\n"
    )
    assert make_docs.main(["--check"]) == 0


def test_a_part_that_nothing_makes_or_no_page_shows_is_refused(make_docs, monkeypatch):
    monkeypatch.setattr(make_docs, "PARTS", {})
    with pytest.raises(ValueError, match="'greeting', which nothing makes"):
        make_docs.made()

    monkeypatch.setattr(make_docs, "PARTS", {"greeting": str, "farewell": str})
    with pytest.raises(ValueError, match="No page shows farewell"):
        make_docs.made()


# Commands


def options(name: str) -> dict[str, typer.core.TyperOption | typer.core.TyperArgument]:
    """What a command takes, by the words that somebody types."""
    group = typer.main.get_command(app)
    command = group.get_command(None, name) if name else group
    return {
        word: parameter
        for parameter in command.params
        for word in (*parameter.opts, *parameter.secondary_opts)
        if word.startswith("--")
    }


def section(name: str) -> str:
    """The part of docs/commands.md about one command."""
    found = re.search(rf"^## {name}$(.*?)(?=^## |\Z)", COMMANDS_PAGE, re.MULTILINE | re.DOTALL)
    assert found, f"docs/commands.md has no heading '## {name}'"
    return found[1]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_of_a_command_is_told(name):
    untold = [word for word in options(name) if not re.search(rf"{word}(?![\w-])", section(name))]
    silent = [word for word, option in options(name).items() if not (option.help or "").strip()]

    assert untold == []
    assert silent == []


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_an_example_that_was_run(name):
    examples = re.findall(rf"^\$ meetward {name}(?! --help)(?: .*)?\n.+", section(name), re.MULTILINE)

    assert examples


def test_no_command_is_told_that_there_is_not():
    headings = re.findall(r"^## (.*)$", COMMANDS_PAGE, re.MULTILINE)

    assert sorted(headings) == sorted(COMMANDS)


def calls(text: str) -> Iterator[tuple[str, str]]:
    """Each ``meetward COMMAND ...`` in code, with the rest of it."""
    code = re.findall(r"`([^`\n]+)`|^\$? *(meetward .*)$", text, re.MULTILINE)
    for inside in map("".join, code):
        if found := re.match(r"meetward ([a-z]+)\b(.*)", inside):
            yield found[1], found[2]


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_a_command_that_a_page_names_exists_with_its_options(page):
    wrong = [
        f"meetward {command}{rest}"
        for command, rest in calls(page.read_text(encoding="utf-8"))
        if command not in COMMANDS
        or set(re.findall(r"--[a-z-]+", rest)) - options(command).keys() - {"--help"}
    ]

    assert wrong == []


def test_a_call_is_found_in_words_and_in_blocks():
    text = "Say `meetward read x.txt --json`.\n```\n$ meetward sheets c.txt --out o\n```\nMeetward reads it."

    assert list(calls(text)) == [("read", " x.txt --json"), ("sheets", " c.txt --out o")]


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_a_make_target_that_a_page_names_exists(page):
    targets = re.findall(r"^([a-z-]+):", (ROOT / "Makefile").read_text(encoding="utf-8"), re.MULTILINE)
    named = re.findall(r"(?:`|^ *)make ([a-z-]+)(?=`|\s|$)", page.read_text(encoding="utf-8"), re.MULTILINE)

    assert set(named) - set(targets) == set()


def test_every_variable_of_the_environment_is_told():
    used = set()
    for path in our_files(".py", under=SRC):
        used |= set(re.findall(r"\"(MEETWARD_[A-Z_]+|DATABASE_URL)\"", path.read_text(encoding="utf-8")))

    assert used
    assert {name for name in used if f"`{name}`" not in COMMANDS_PAGE} == set()


# Links


def links(text: str) -> list[str]:
    """Targets of the links and pictures of a page; code is no link."""
    prose = re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)
    return re.findall(r"\]\(([^)\s]+)\)", re.sub(r"`[^`]*`", "", prose))


def anchors(text: str) -> set[str]:
    """What the headings of a page can be reached by."""
    headings = re.findall(r"^#+ (.*)$", text, re.MULTILINE)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in headings}


@pytest.mark.parametrize("page", PAGES, ids=name_of)
def test_links_lead_somewhere(page):
    broken = []
    for target in links(page.read_text(encoding="utf-8")):
        if re.match(r"[a-z]+:", target):
            continue
        file, _, anchor = target.partition("#")
        path = (page.parent / file).resolve() if file else page
        if not path.exists() or (anchor and anchor not in anchors(path.read_text(encoding="utf-8"))):
            broken.append(target)

    assert broken == []


def test_every_page_of_the_docs_can_be_reached_from_the_readme():
    seen: set[Path] = set()
    todo = [ROOT / "README.md"]
    while todo:
        page = todo.pop()
        if page in seen or page.suffix != ".md" or not page.exists():
            continue
        seen.add(page)
        for target in links(page.read_text(encoding="utf-8")):
            todo.append((page.parent / target.partition("#")[0]).resolve())

    assert [name_of(page) for page in DOCS.glob("**/*.md") if page not in seen] == []


def test_pictures_say_in_words_what_they_show():
    silent = [
        f"{name_of(page)}: {target}"
        for page in PAGES
        for words, target in re.findall(r"!\[([^\]]*)\]\(([^)]+)\)", page.read_text(encoding="utf-8"))
        if len(words.split()) < 3
    ]

    assert silent == []


def test_every_picture_is_shown_on_a_page():
    shown = {
        (page.parent / target).resolve()
        for page in PAGES
        for target in links(page.read_text(encoding="utf-8"))
    }

    assert [path.name for path in (DOCS / "pictures").iterdir() if path not in shown] == []


# What is said


def test_the_notation_shown_in_the_readme_is_read_without_a_problem():
    blocks = re.findall(r"^```\n(.*?)^```", (ROOT / "README.md").read_text(encoding="utf-8"), re.M | re.S)
    shown = [block for block in blocks if "Lifts:" in block]

    assert len(shown) == 1
    reading = read(shown[0], shipped())
    assert [str(problem) for problem in reading.problems] == []
    assert {record.status for record in reading.lines} == {"read"}


def test_the_way_around_the_house_leads_to_files_that_exist():
    table = re.findall(r"^\|[^|]*\|([^|]*)\|$", (DOCS / "house.md").read_text(encoding="utf-8"), re.MULTILINE)
    places = [place for cell in table for place in re.findall(r"`([\w./]+)`", cell)]

    assert len(places) > 8
    assert [place for place in places if not (SRC / place).exists()] == []


def test_day_sheets_carry_neither_bodyweight_nor_notes_about_a_lifter():
    cycle = read(demo.cycle_text(), shipped()).cycle
    someone = msgspec.structs.replace(
        demo.squad(shipped())[0], bodyweight_dag=6_789, notes="Sore left shoulder since Lammas"
    )
    sheets = list(day_sheets(cycle, someone, shipped(), weeks=range(1, 2)))
    said = msgspec.json.encode(sheets).decode() + "".join(map(day_page, sheets))

    assert someone.name in said
    assert [word for word in ("6789", "67.89", "Lammas") if word in said] == []


UNITS = {
    "degrees",
    "dag",
    "millidag",
    "permille",
    "clb",
    "tenths",
    "kg",
    "lb",
    "s",
    "minutes",
    "m",
    "cm",
    "mm",
    "em",
    "px",
    "pt",
}


def units_named(tree: ast.Module) -> set[str]:
    """Suffixes of units in the names of a module's fields, parameters and values."""
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.arg):
            names.add(node.arg)
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            names.add(node.id)
    suffixes = {name.lower().rsplit("_", 1)[1] for name in names if "_" in name.strip("_")}
    return suffixes & UNITS


def test_every_unit_of_the_core_is_explained():
    words = (DOCS / "words-and-units.md").read_text(encoding="utf-8")
    explained = set(re.findall(r"`_([a-z]+)`", words))
    used = set()
    for path in our_files(".py", under=SRC):
        if room_of(module_name(path)) in CORE_ROOMS:
            used |= units_named(ast.parse(path.read_text(encoding="utf-8")))

    assert used - explained == set()
    assert explained - UNITS == set()


def test_a_unit_is_seen_in_fields_parameters_and_values():
    tree = ast.parse("class C:\n    load_dag: int\ndef f(rest_s): pass\nTOP_PERMILLE = 900\nm = 3\n")

    assert units_named(tree) == {"dag", "s", "permille"}


def test_the_published_schema_is_one_and_a_real_cycle_keeps_it():
    schema = json.loads((DOCS / "schema" / "cycle.schema.json").read_text(encoding="utf-8"))
    cycle = read(demo.cycle_text(), shipped()).cycle

    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(json.loads(to_json(cycle)))
    with pytest.raises(jsonschema.ValidationError, match="phases"):
        jsonschema.Draft202012Validator(schema).validate({"cycle": {}})


def test_the_changes_begin_with_what_is_not_released_yet():
    headings = re.findall(r"^## (.*)$", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE)

    assert headings[0] == "Unreleased"
    assert all(re.fullmatch(r"\d+\.\d+\.\d+ \(\d{4}-\d{2}-\d{2}\)", heading) for heading in headings[1:])
