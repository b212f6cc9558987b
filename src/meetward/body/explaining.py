"""What the converter says about a position's table, in plain words."""

import re
from collections.abc import Mapping
from difflib import get_close_matches
from math import isfinite
from typing import Any, Literal, get_args, get_origin

import msgspec

from meetward.body.drawings import Arrow, Frame, PropAt
from meetward.body.pose import ArmPose, BarPose, LegPose, Pose
from meetward.body.sought import Sought

LARGEST = 500.0

_STRUCTS: dict[str, type[msgspec.Struct]] = {
    "": Frame, "sought": Sought, "pose": Pose, "bar": BarPose, "props": PropAt, "arrows": Arrow,
    "legs": LegPose, "near_leg": LegPose, "far_leg": LegPose,
    "arms": ArmPose, "near_arm": ArmPose, "far_arm": ArmPose,
}  # fmt: skip
_TYPE_WORDS = {
    "str": "text in quotes", "int": "a whole number", "float": "a number", "array": "a list in [ ]",
    "bool": "true or false", "object": "fields in { }", "null": "nothing",
}  # fmt: skip
_EXPECTED = re.compile(r"Expected `([^`]+)`, got `([^`]+)`")
_UNKNOWN = re.compile(r"contains unknown field `([^`]*)`")
_MISSING = re.compile(r"missing required field `([^`]+)`")
_ENUM = re.compile(r"Invalid enum value (.+?)(?: - at|$)", re.DOTALL)
_PATH = re.compile(r" - at `\$\.?([^`]*)`$")


def explained(said: str) -> tuple[str, str, str, str]:
    """Field, kind of fault, message and repair."""
    found = _PATH.search(said)
    path = found[1] if found else ""
    last = re.sub(r"\[.*?\]", "", path).rpartition(".")[2]
    if unknown := _UNKNOWN.search(said):
        names = [f.name for f in msgspec.structs.fields(_STRUCTS.get(last, Frame))]
        field = f"{path}.{unknown[1]}" if path else unknown[1]
        return (
            field,
            "unknown field",
            f"There is no field '{unknown[1][:60]}' here.",
            _meant(unknown[1], names),
        )
    if missing := _MISSING.search(said):
        return path, "missing field", f"The field '{missing[1]}' is missing here.", f"Add {missing[1]} = ."
    if enum := _ENUM.search(said):
        word = enum[1].strip("'")[:60]
        return (
            path,
            "not a choice",
            f"'{word}' is not one of the words allowed here.",
            _meant(word, _words(path)),
        )
    if expected := _EXPECTED.search(said):
        want, got = (
            " or ".join(_TYPE_WORDS.get(p.strip(), p.strip()) for p in e.split("|"))
            for e in expected.groups()
        )
        return path, "wrong type", f"It has to be {want}; here stands {got}.", f"Write {want}."
    plain = _PATH.sub("", said).strip()[:200].removesuffix(".")
    return path, "wrong value", f"{plain}.", "Compare it with a shipped drawing."


def _words(path: str) -> list[str]:
    """The words that are allowed in a field."""
    parts = re.sub(r"\[.*?\]", "", path).split(".")
    struct = _STRUCTS.get(parts[-2] if len(parts) > 1 else "", Frame)
    field = next((f for f in msgspec.structs.fields(struct) if f.name == parts[-1]), None)
    return _choices(field.type) if field else []


def _choices(kind: Any) -> list[str]:
    if get_origin(kind) is Literal:
        return [str(word) for word in get_args(kind)]
    return [word for inner in get_args(kind) for word in _choices(inner)]


def _meant(word: str, known: list[str]) -> str:
    near = get_close_matches(word[:80], known, n=1, cutoff=0.6)
    allowed = f"Allowed: {', '.join(k for k in known if k)}."
    return f"Did you mean '{near[0]}'?" if near else allowed


def out_of_bounds(table: Mapping[str, Any]) -> str:
    """The first field with a number that no position has; empty when there is none."""
    for key, value in table.items():
        if isinstance(value, Mapping):
            if inner := out_of_bounds(value):
                return f"{key}.{inner}"
        elif any(not isfinite(n) or abs(n) > LARGEST for n in _numbers(value)):
            return key
    return ""


def _numbers(value: object) -> list[float]:
    if isinstance(value, bool):
        return []
    if isinstance(value, int | float):
        return [float(value)]
    if isinstance(value, list | tuple):
        return [n for inner in value for n in _numbers(inner)]
    if isinstance(value, Mapping):
        return [n for inner in value.values() for n in _numbers(inner)]
    return []
