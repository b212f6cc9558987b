"""Whatever stands in a file: reading it raises nothing, costs no other entry, and tells place and remedy."""

import random
import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.files import MOST_PROBLEMS
from meetward.catalogue.reading import read_layers
from tests.catalogue.test_reading import DRILL, GOOD, SEQUENCE

ALONE = re.sub(r"ratios = \[.*?\n\]\n", "", GOOD, flags=re.DOTALL).replace('"front_squat"', '"shelf_squat"')
ALL = ALONE + DRILL + SEQUENCE.replace('of = "snatch"', 'of = "shelf_squat"')
KEPT = ALONE.replace("shelf_squat", "kept").replace("Shelf", "Kept").replace("shelfies", "keepers")
BROKEN = ALONE.replace('"squat"', '"squash"')
MOVEMENT = "[[movement]]\nfamily = 'jerk'\n"
BITS = (
    "[[movement]]", "[[drill]]", '"""', "[", "]", "{", "}", "=", '"', "'", "\\", "\n", "#", ",", "id = ",
    "nan", "-1", "1e999", "true", "1979-05-27", "\x00", "é",
)  # fmt: skip
FIELDS = sorted({line.split(" =")[0] for line in ALL.split("\n") if " = " in line})

texts = st.one_of(st.text(max_size=8), st.sampled_from(["", "snatch", "bar", "shelf_squat", "kept"]))
leaves = st.one_of(texts, st.integers(-(10**12), 10**12), st.floats(), st.booleans())
values = st.recursive(
    leaves,
    lambda v: st.one_of(
        st.lists(v, max_size=3), st.dictionaries(st.text(min_size=1, max_size=6), v, max_size=3)
    ),
    max_leaves=6,
)


def read(*contents: str | bytes):
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for n, content in enumerate(contents):
            paths.append(Path(folder) / f"{n}.toml")
            paths[-1].write_bytes(content.encode() if isinstance(content, str) else content)
        catalogue, problems = read_layers(paths)
    for problem in problems:
        assert problem.place.source or problem.kind == "many problems"
        assert problem.message
        assert problem.repair
        assert str(problem)
    return catalogue, problems


def toml(value) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        plain = (c if (c.isalnum() and c.isascii()) or c in " _" else f"\\U{ord(c):08x}" for c in value)
        return '"' + "".join(plain) + '"'
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    if isinstance(value, dict):
        return "{" + ", ".join(f"{toml(k)} = {toml(v)}" for k, v in value.items()) + "}"
    return str(value)


def test_the_good_files_are_good():
    catalogue, problems = read(KEPT, ALL)

    assert problems == []
    assert len(catalogue) == 4


@given(st.binary(max_size=400))
def test_any_bytes(content):
    read(content)


@given(st.lists(st.sampled_from([*BITS, *ALL.split("\n")]), max_size=40))
def test_pieces_of_catalogues(pieces):
    read("\n".join(pieces))


@given(st.randoms(use_true_random=False), st.integers(1, 5))
def test_damage_to_one_file_costs_nothing_in_another(rng: random.Random, cuts):
    text = ALL
    for _ in range(cuts):
        at, length = rng.randrange(len(text) + 1), rng.choice([0, 0, 1, 5, 40])
        text = text[:at] + rng.choice(BITS) * rng.choice([0, 1, 1, 3]) + text[at + length :]

    catalogue, problems = read(KEPT, text)

    assert "kept" in catalogue.movements
    assert problems or len(catalogue) >= 2


@given(
    st.sampled_from(["movement", "drill", "sequence"]),
    st.dictionaries(
        st.sampled_from([*FIELDS, "reference_else", "level", "changed", "x y"]), values, max_size=8
    ),
    st.booleans(),
)
def test_any_values_in_the_fields(kind, fields, over):
    if over:
        fields = {"id": "shelf_squat"} | fields
    table = "".join(f'"{name}" = {toml(value)}\n' for name, value in fields.items())

    catalogue, _ = read(ALL, f"[[{kind}]]\n{table}")

    assert {"shelf_squat"} <= catalogue.movements.keys()
    assert {"our_rock"} <= catalogue.drills.keys()
    assert catalogue.find("our rock") or catalogue.clashes


def damaged_entry(rng: random.Random, number: int) -> str:
    """An entry of its own with one to three fields that say something else than they should."""
    lines = ALONE.replace("shelf_squat", f"z{number}").replace("Shelf", f"Z{number}").split("\n")
    fields = [at for at, line in enumerate(lines) if re.fullmatch(r"\w+ = [^\[{].*[^,\[{(]", line)]
    for at in rng.sample(fields, rng.randint(1, 3)):
        name = (
            lines[at].split(" =")[0] if rng.random() < 0.8 else rng.choice(["x", "ident", "summry", "dose"])
        )
        lines[at] = f"{name} = {rng.choice(VALUES)}"
    return "\n".join(lines)


VALUES = (
    '""', '"snatch"', '"bar"', '"' + "a" * 500 + '"', '"\\u0000"', '"\\U0001F3CB"', "''", "0", "-1", "1", "3",
    "9223372036854775807", "99999999999999999999999", "1.5", "-0.0", "nan", "inf", "1e999", "true", "false",
    "1979-05-27", "07:32:00", "1979-05-27T07:32:00Z", "[]", "[[]]", '["bar"]', '["bar", "bar"]', "[1, 2]",
    '[""]', '[["bar"]]', "{}", "{ a = 1 }", '{ of = "snatch" }', '[{ of = "z1", low = 1 }]',
    '[{ fault = "x", fix = "y" }]', '"jerk"', '"squat"', '"back_squat"', "0x7f",
)  # fmt: skip


def test_a_hundred_thousand_damaged_entries_are_read_or_told_with_their_place():
    rng, refused = random.Random(20270320), 0
    for start in range(0, 100_000, 200):
        text = "".join(damaged_entry(rng, n) for n in range(start, start + 200))
        catalogue, problems = read(KEPT, text)
        assert "kept" in catalogue.movements
        assert all(p.place.line > 0 or p.kind == "many problems" for p in problems), problems
        refused += 201 - len(catalogue)

    assert refused > 20_000


# Hostile sizes. No clock: what takes squared time here takes minutes and would be noticed.
@pytest.mark.parametrize(
    "text",
    [
        "".join(BROKEN.replace("shelf_squat", f"z{n}") for n in range(3_000)),
        "".join(f"{MOVEMENT}id = 'a{n}'\nname = 'n{n}'\nreference = 'x'\n" for n in range(10_000)),
        "".join(f"{MOVEMENT}id = 'a{n}'\nname = 'same'\n" for n in range(10_000)),
        "".join(f"[[movement]]\nid = {n}\n" for n in range(30_000)),
        "".join(f"[[movement]]\nid = {n}\n" for n in range(30_000)) + "= broken",
        "".join(f"key{n} = 1\n" for n in range(50_000)),
        '[[movement]]\nid = "a"\n' + "".join(f"key{n} = 1\n" for n in range(50_000)),
        '[[movement]]\nid = "a"\nname = "a"\nfamily = "jerk"\nnames = [' + '"b", ' * 100_000 + "]",
        SEQUENCE.replace("steps = [", "steps = [" + '{ of = "x", dose = "1" }, ' * 20_000),
        "movement = [" + "3, " * 50_000 + "]",
        '[[movement]]\nid = "' + "a" * 1_000_000 + '"',
        "x = " + "{ y = " * 50_000,
    ],
    ids=[
        "broken entries", "lost references", "one name for all", "no ids", "no ids and no TOML",
        "unknown tables",
        "unknown fields", "many aliases", "many lost steps", "numbers for tables", "long id", "deep",
    ],
)  # fmt: skip
def test_hostile_files_are_read_or_refused(text):
    _, problems = read(text)

    assert len(problems) <= 2 * MOST_PROBLEMS + 50
