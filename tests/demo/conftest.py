"""The two cycles of the invented club, read once."""

import pytest

from meetward import demo
from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import shipped
from meetward.notation import Reading, read


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """The shipped catalogue."""
    return shipped()


@pytest.fixture(scope="session")
def spring(catalogue: Catalogue) -> Reading:
    """The spring cycle."""
    return read(demo.cycle_text(), catalogue)


@pytest.fixture(scope="session")
def autumn(catalogue: Catalogue) -> Reading:
    """The autumn cycle before it."""
    return read(demo.cycle_before_text(), catalogue)


@pytest.fixture(scope="session", params=["spring", "autumn"])
def reading(request: pytest.FixtureRequest) -> Reading:
    """Each of the two cycles."""
    return request.getfixturevalue(request.param)
