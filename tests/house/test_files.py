"""House rules about files: their length, what they may mention, what a lock may carry."""

import re
from pathlib import Path

import pytest

from tests.house.house import NOT_OURS, PYPROJECT, ROOT, SRC, our_files

# A module is meant to stay under 400 lines, a test file under 600; the slack spares a cut in a bad place.
LONGEST_MODULE, LONGEST_TEST = 420, 640

# Written in pieces, so that this file keeps the rule it tests.
MACHINES_AND_REGISTRIES = re.compile(
    "|".join(
        (
            r"files\.python" + r"hosted\.org",
            r"(?<![\w.])py" + r"pi\.org",
            r"registry\.npm" + r"js\.org",
            r"deb\." + r"debian\.org",
            r"proxy\.golang" + r"\.org",
            r"(?<![\w.])index-" + r"url",
            r"(?<![\w./])/wo" + r"rk/\w",
            r"(?<![\w./])/ro" + r"ot/",
            r"(?<![\w./])/ho" + r"me/\w",
            r"(?<![\w./])/tm" + r"p/\w",
            r"(?<![\w./])/opt/(?:py" + r"pi|wheels)",
        )
    )
)
TEXT = {
    ".py", ".toml", ".txt", ".md", ".html", ".css", ".js", ".svg", ".typ", ".csv",
    ".json", ".jsonl", ".cfg", ".yml", ".yaml", ".sh", "",
}  # fmt: skip


def lines_over(limit: int, files: list[Path]) -> list[str]:
    counts = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    return [f"{path.relative_to(ROOT)}: {n} lines" for path, n in counts.items() if n > limit]


def test_modules_stay_short():
    files = our_files(".py", under=SRC) + our_files(".py", under=ROOT / "tools")

    assert lines_over(LONGEST_MODULE, [f for f in files if "migrations" not in f.parts]) == []


def test_test_files_stay_short():
    assert lines_over(LONGEST_TEST, our_files(".py", under=ROOT / "tests")) == []


def test_no_file_mentions_a_machine_path_or_a_package_registry():
    said = []
    for path in our_files():
        if path.suffix not in TEXT or path.name == "uv.lock":
            continue
        for number, line in enumerate(
            path.read_text(encoding="utf-8", errors="replace").splitlines(), start=1
        ):
            # The comment keeps the one call of the build tool that switches addresses off.
            if path.name == "Makefile" and "--no-emit-" in line:
                continue
            if found := MACHINES_AND_REGISTRIES.search(line):
                said.append(f"{path.relative_to(ROOT)}:{number}: {found.group()}")
    assert said == []


@pytest.mark.parametrize(
    ("line", "mentions"),
    [
        ("see https://py" + "pi.org/project/x", True),
        ("/ho" + "me/coach/cycle.txt", True),
        ("open('/tm" + "p/x')", True),
        ("a href=/cycle/work/3", False),
        ("the work/rest ratio", False),
    ],
)
def test_the_search_knows_an_address_from_plain_words(line, mentions):
    assert bool(MACHINES_AND_REGISTRIES.search(line)) is mentions


@pytest.mark.parametrize("name", ["run.txt", "test.txt"])
def test_a_lock_carries_names_versions_and_hashes_only(name):
    text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
    pin = re.compile(r"[a-z0-9._-]+==[\w.+!]+( ; [\w\s.'()=<>!]+)? \\")
    digest = re.compile(r"    --hash=sha256:[0-9a-f]{64}( \\)?")

    strange = [line for line in text.splitlines() if not (pin.fullmatch(line) or digest.fullmatch(line))]

    assert strange == []


@pytest.mark.parametrize("group", ["build", "test", None])
def test_what_the_project_asks_for_is_in_the_locks(group):
    project = PYPROJECT["project"]
    asked = project["optional-dependencies"][group] if group else project["dependencies"]
    lock = ROOT / "requirements" / ("test.txt" if group == "test" else "run.txt")
    pinned = set(re.findall(r"^([a-z0-9._-]+)==", lock.read_text(encoding="utf-8"), flags=re.MULTILINE))

    assert {re.split(r"[\[<>=~! ]", name)[0].lower() for name in asked} <= pinned


def test_the_two_locks_agree():
    def pins(name: str) -> dict[str, str]:
        text = (ROOT / "requirements" / name).read_text(encoding="utf-8")
        return dict(re.findall(r"^([a-z0-9._-]+)==(\S+)", text, flags=re.MULTILINE))

    run, test = pins("run.txt"), pins("test.txt")

    assert {name: test.get(name) for name in run} == run


def test_nothing_built_or_installed_is_counted_as_ours():
    assert not [path for path in our_files() if NOT_OURS & set(path.relative_to(ROOT).parts)]
