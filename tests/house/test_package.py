"""The package as somebody gets it."""

import zipfile

import pytest
from hatchling.builders.wheel import WheelBuilder

import meetward
from tests.house.house import PYPROJECT, ROOT, SRC, our_files


def test_the_version_is_said_once():
    assert meetward.__version__ == PYPROJECT["project"]["version"]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory) -> set[str]:
    """Names of the files in a built wheel."""
    folder = tmp_path_factory.mktemp("wheel")
    built = next(WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"]))
    with zipfile.ZipFile(built) as archive:
        return set(archive.namelist())


def test_the_wheel_carries_every_file_of_the_package(wheel):
    ours = {path.relative_to(SRC.parent).as_posix() for path in our_files(under=SRC)}

    assert ours - wheel == set()


def test_the_wheel_carries_both_licences(wheel):
    licences = {name.split("/licenses/")[1] for name in wheel if "/licenses/" in name}

    assert licences == {"LICENSE", "src/meetward/fonts/OFL.txt"}
