"""Where things are, and what a module imports: shared by the tests of the house rules."""

import ast
import tomllib
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SRC = ROOT / "src" / "meetward"
NOT_OURS = {".git", ".venv", "node_modules", "__pycache__", ".hypothesis", "dist", "build", "vendor", "var"}

PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def floors() -> list[set[str]]:
    """The rooms of each floor, from the top, as the import contract in pyproject.toml names them."""
    contract = next(c for c in PYPROJECT["tool"]["importlinter"]["contracts"] if c["type"] == "layers")
    return [{room.strip().strip("()") for room in floor.split("|")} for floor in contract["layers"]]


ROOMS = set().union(*floors())
CORE_ROOMS = ROOMS - {"cli", "web", "demo"}


def our_files(*suffixes: str, under: Path = ROOT) -> list[Path]:
    """Files of the repository that people write, in order; with a suffix of ``suffixes``, or all."""
    return sorted(
        path
        for path in under.rglob("*")
        if path.is_file()
        and not NOT_OURS & set(path.relative_to(ROOT).parts)
        and not any(part.startswith(".") and part != ".ci" for part in path.relative_to(ROOT).parts[:-1])
        and (not suffixes or path.suffix in suffixes)
    )


def module_name(path: Path) -> str:
    """``src/meetward/fit/kilos.py`` is ``meetward.fit.kilos``."""
    parts = path.relative_to(SRC.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def room_of(module: str) -> str:
    """The room a module of ours stands in; empty for the package itself."""
    return module.split(".")[1] if "." in module else ""


def imports(path: Path) -> Iterator[tuple[str, int]]:
    """Each module that a file imports, wherever in the file, with its line.

    ``from a import b`` gives ``a`` and ``a.b``, since ``b`` may be a module.
    """
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"), str(path))):
        if isinstance(node, ast.Import):
            for name in node.names:
                yield name.name, node.lineno
        elif isinstance(node, ast.ImportFrom) and node.module:
            yield node.module, node.lineno
            for name in node.names:
                yield f"{node.module}.{name.name}", node.lineno


def stands_in(module: str, package: str) -> bool:
    """Whether ``module`` is ``package`` or lies in it."""
    return module == package or module.startswith(f"{package}.")
