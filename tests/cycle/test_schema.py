"""The published schema and the reader agree: what one takes the other takes, for any cycle and any damage."""

import copy
import json
import random
from typing import Any

import jsonschema
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from meetward.cycle.integrity import contradictions
from meetward.cycle.package import from_json, schema, to_json
from meetward.cycle.tree import Cycle
from tests.strategies import cycles

SCHEMA = jsonschema.Draft202012Validator(
    schema(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
)
"""Days are checked as well; the schema standard leaves that to whoever validates."""

# 3.0 is left out: a schema calls it a whole number, the reader does not (see ``schema``).
ODD: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 6, 7, 100, 101, 1_000, 1_001, 3_000, 3_001, 100_000, 100_001, 1_000_000,
    1_000_001, 10**30, 1.5, "", "x", "load", "percent", "kg", "30X0", "30x0", "A", "AB", "2027-02-28",
    "2027-02-30", "20270228", "2027-2-8", [], [None], [1], {}, {"kind": "open"},
    {"kind": "kg", "high_dag": 5}, {"low": 1, "high": 2},
    {"kind": "by category", "men": {"kind": "open"}, "women": {"kind": "bar"}},
    "meetward cycle",
)  # fmt: skip


def holders(node: Any) -> list[Any]:
    """Every list and object of a document, the outermost first."""
    inside = node.values() if isinstance(node, dict) else node if isinstance(node, list) else ()
    found = [node] if isinstance(node, dict | list) else []
    return found + [holder for each in inside for holder in holders(each)]


def damage(document: Any, rng: random.Random) -> None:
    """One value of the document replaced, left out, added or repeated."""
    holder = rng.choice(holders(document))
    odd = copy.deepcopy(rng.choice(ODD))
    if isinstance(holder, list):
        at = rng.randrange(len(holder) + 1)
        holder[at : at + rng.randint(0, 1)] = [odd] if rng.random() < 0.7 else []
    elif holder and rng.random() < 0.9:
        key = rng.choice(list(holder))
        if rng.random() < 0.2:
            del holder[key]
        else:
            holder[key] = odd
    else:
        holder[rng.choice(["titel", "kind", "count", "load", "weekday"])] = odd


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(cycles)
def test_what_we_write_is_what_the_schema_says_and_comes_in_again(cycle):
    body = to_json(cycle)
    wrong = tuple(contradictions(cycle))

    SCHEMA.validate(json.loads(body))
    assert from_json(body) == (wrong or cycle)


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large], max_examples=150)
@given(cycles, st.integers(0, 2**32))
def test_schema_and_reader_take_and_refuse_the_same_damaged_documents(cycle, seed):
    rng = random.Random(seed)
    for _ in range(10):
        document = json.loads(to_json(cycle))
        for _ in range(rng.randint(1, 3)):
            damage(document, rng)
        read = from_json(json.dumps(document))
        of_the_right_form = isinstance(read, Cycle) or all(one.kind == "contradiction" for one in read)

        assert of_the_right_form == SCHEMA.is_valid(document), (document, read)


def test_another_format_or_version_is_refused_by_both():
    for change in ({"format": "another cycle"}, {"version": 2}):
        document = json.loads(to_json(Cycle(phases=()))) | change

        assert not SCHEMA.is_valid(document)
        assert isinstance(from_json(json.dumps(document)), tuple)
