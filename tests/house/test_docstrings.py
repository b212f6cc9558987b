"""Everything public in the core says what it means."""

import ast
from collections.abc import Iterator

import pytest

from tests.house.house import CORE_ROOMS, SRC, module_name, our_files, room_of

FILES = [path for path in our_files(".py", under=SRC) if room_of(module_name(path)) in CORE_ROOMS]


def silent(body: list[ast.stmt], where: str = "") -> Iterator[str]:
    """Names of public functions, classes and methods without a docstring."""
    for node in body:
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            continue
        if node.name.startswith("_"):
            continue
        if not ast.get_docstring(node):
            yield f"{where}{node.name} (line {node.lineno})"
        if isinstance(node, ast.ClassDef):
            yield from silent(node.body, f"{where}{node.name}.")


@pytest.mark.parametrize("path", FILES, ids=module_name)
def test_a_public_name_has_a_docstring(path):
    tree = ast.parse(path.read_text(encoding="utf-8"))

    assert ast.get_docstring(tree), "the module itself says nothing"
    assert list(silent(tree.body)) == []


def test_a_silent_name_is_noticed():
    tree = ast.parse(
        'def told():\n    "Says it."\ndef untold(): pass\nclass C:\n    "Says."\n    def m(self): pass\n'
    )

    assert list(silent(tree.body)) == ["untold (line 3)", "C.m (line 6)"]
