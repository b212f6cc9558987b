"""What every test may use: hypothesis profiles, and the system parts that some tests need."""

import os
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# No deadline: the machines that run this differ, and speed is measured by `make bench`.
settings.register_profile("default", deadline=None, max_examples=100, print_blob=True)
settings.register_profile("quick", deadline=None, max_examples=15)
settings.register_profile(
    "fuzz",
    deadline=None,
    max_examples=20_000,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "default"))


def system_part(part: str, commands: tuple[str, ...]) -> Path:
    """Path of the first of ``commands`` found; without one the test is skipped, or fails where CI=true."""
    for command in commands:
        if path := shutil.which(command):
            return Path(path)
    reason = f"{part} is not installed ({' or '.join(commands)}); tools/test-needs says how to get it"
    if os.environ.get("CI") == "true":
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def chromium_path() -> Path:
    """The system's browser, for playwright's ``executable_path``."""
    return system_part("Chromium", ("chromium", "chromium-browser", "google-chrome"))


@pytest.fixture(scope="session")
def soffice_path() -> Path:
    """A spreadsheet program that runs without a window."""
    return system_part("LibreOffice Calc", ("soffice", "libreoffice"))


@pytest.fixture(scope="session")
def pdftoppm_path() -> Path:
    """Turns a PDF page into a picture."""
    return system_part("poppler", ("pdftoppm",))
