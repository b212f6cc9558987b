"""Walls between rooms that the floors alone do not give.

The import contract in pyproject.toml keeps the floors; these keep libraries and the layers inside ``web``.
"""

from pathlib import Path

import pytest

from tests.house.house import ROOMS, SRC, floors, imports, module_name, our_files, room_of, stands_in

# A library, and the rooms that may import it.
LIBRARIES = {
    "django": {"web", "cli"},
    "django_htmx": {"web"},
    "csp": {"web"},
    "whitenoise": {"web"},
    "granian": {"web", "cli"},
    "sqlite3": {"web"},
    "psycopg": {"web"},
    "highspy": {"fit"},
    "ortools": {"fit"},
    "scipy.stats": {"strength", "response", "review"},
    "statsmodels": {"strength", "response", "review"},
    "typst": {"publish"},
    "typer": {"cli"},
}

WEB_LAYERS = ("pages", "jobs", "actions", "store", "models")  # from the top


def crossed(files: list[Path], allowed) -> list[str]:
    """Imports that ``allowed(importer, imported)`` refuses, as messages that point at the line."""
    return [
        f"{path.relative_to(SRC.parent)}:{line} imports {imported}"
        for path in files
        for imported, line in imports(path)
        if not allowed(module_name(path), imported)
    ]


@pytest.mark.parametrize("library", LIBRARIES)
def test_a_library_stays_in_its_rooms(library):
    def allowed(importer: str, imported: str) -> bool:
        return not stands_in(imported, library) or room_of(importer) in LIBRARIES[library]

    assert crossed(our_files(".py", under=SRC), allowed) == []


def test_only_the_store_touches_rows():
    models = "meetward.web.models"
    may = ("meetward.web.store", models, "meetward.web.migrations")

    def allowed(importer: str, imported: str) -> bool:
        return not stands_in(imported, models) or any(stands_in(importer, room) for room in may)

    assert crossed(our_files(".py", under=SRC), allowed) == []


def test_the_layers_of_the_web_room_import_downwards():
    def layer(module: str) -> int | None:
        for depth, name in enumerate(WEB_LAYERS):
            if stands_in(module, f"meetward.web.{name}"):
                return depth
        return None

    def allowed(importer: str, imported: str) -> bool:
        above, below = layer(importer), layer(imported)
        return above is None or below is None or above <= below

    assert crossed(our_files(".py", under=SRC), allowed) == []


def test_the_walls_notice_an_import_that_crosses_them(tmp_path):
    bad = tmp_path / "bad.py"
    bad.write_text("def f():\n    from django.db import models\n    import scipy.stats as s\n")

    assert list(imports(bad)) == [("django.db", 2), ("django.db.models", 2), ("scipy.stats", 3)]


def test_every_room_is_one_that_the_import_contract_names():
    rooms = {p.stem for p in SRC.iterdir() if p.suffix == ".py" or (p.is_dir() and any(p.rglob("*.py")))}

    assert rooms - {"__init__", "__main__"} <= ROOMS
    assert sum(len(floor) for floor in floors()) == len(ROOMS), "a room stands on two floors"


def test_every_room_is_a_package_that_a_build_will_find():
    folders = {path.parent for path in our_files(".py", under=SRC)}

    assert [str(f.relative_to(SRC)) for f in folders if not (f / "__init__.py").exists()] == []
