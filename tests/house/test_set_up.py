"""The set-up scripts say what is missing, and what to do about it."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conftest import system_part
from tests.house.house import ROOT


@pytest.fixture
def bare_machine(tmp_path: Path) -> Path:
    """A folder of commands for PATH: a shell and its helpers, no browser, no package manager, no Python."""
    for command in ("bash", "sh", "env", "id", "grep", "sed", "ls", "cat"):
        (tmp_path / command).symlink_to(shutil.which(command))
    return tmp_path


def run(script: str, path: Path, **variables: str) -> subprocess.CompletedProcess[str]:
    kept = {name: value for name, value in os.environ.items() if name not in {"CI", "PYTHON"}}
    return subprocess.run(
        [shutil.which("bash"), str(ROOT / "tools" / script)]
        if script == "test-needs"
        else [shutil.which("sh"), str(ROOT / "tools" / script)],
        env=kept | {"PATH": str(path)} | variables,
        capture_output=True,
        text=True,
        check=False,
    )


def test_missing_parts_are_named_with_the_tests_that_will_not_run(bare_machine):
    said = run("test-needs", bare_machine)

    assert said.returncode == 0
    for word in ("WILL NOT RUN", "Chromium", "LibreOffice Calc", "poppler", "the browser tests"):
        assert word in said.stderr


def test_missing_parts_stop_the_build_machine(bare_machine):
    assert run("test-needs", bare_machine, CI="true").returncode == 1


def fake_python(folder: Path, name: str, version: str) -> None:
    """A command that answers like a Python of that version."""
    enough = tuple(map(int, version.split("."))) >= (3, 11)
    script = f"""#!/bin/sh
case "$2" in *print*) echo {version} ;; *version_info*) exit {0 if enough else 1} ;; *) exit 0 ;; esac
"""
    (folder / name).write_text(script)
    (folder / name).chmod(0o755)


def test_an_old_python_is_named_and_the_remedy_too(bare_machine):
    fake_python(bare_machine, "python3", "3.9")

    said = run("find-python", bare_machine)

    assert said.returncode == 1
    assert said.stdout == ""
    assert "python3 is Python 3.9, too old" in said.stderr
    assert "Python 3.11 or newer" in said.stderr


def test_a_newer_python_is_found_behind_an_old_one(bare_machine):
    fake_python(bare_machine, "python3.12", "3.12")
    fake_python(bare_machine, "python3", "3.9")

    assert run("find-python", bare_machine).stdout == "python3.12\n"


def test_the_python_that_somebody_names_comes_first(bare_machine):
    fake_python(bare_machine, "python3.11", "3.11")

    assert run("find-python", bare_machine, PYTHON=sys.executable).stdout.strip() == sys.executable


def test_a_missing_part_skips_at_home_with_its_name_and_fails_on_the_build_machine(monkeypatch):
    monkeypatch.setenv("CI", "")
    with pytest.raises(pytest.skip.Exception, match="Abacus is not installed"):
        system_part("Abacus", ("no-such-abacus",))

    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="Abacus is not installed"):
        system_part("Abacus", ("no-such-abacus",))
