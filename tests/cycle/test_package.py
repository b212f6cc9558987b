"""The JSON form: round trip, the published schema, and messages that name the path."""

import json
import random

import jsonschema
import msgspec
import pytest

from meetward.cycle.load import ByCategory, Effort, Kilos, Percent, Pounds
from meetward.cycle.package import Package, from_json, schema, to_json
from meetward.cycle.tree import Cycle, Line, Part, Phase, Reps, Segment, Session, SetGroup, Span, Week


def cycle_of(*lines: Line, **fields: object) -> Cycle:
    session = Session(segments=(Segment("lifts", lines),))
    return Cycle(phases=(Phase(weeks=(Week(sessions=(session,)),)),), **fields)  # type: ignore[arg-type]


SNATCH = Line(
    parts=(Part("Snatch", "snatch"),),
    groups=(SetGroup(Span(4, 4), (Reps(3, 3),), Percent(700, 750)),),
)


def document() -> dict:
    return json.loads(to_json(cycle_of(SNATCH)))


def first_group(doc: dict) -> dict:
    return doc["cycle"]["phases"][0]["weeks"][0]["sessions"][0]["segments"][0]["lines"][0]["groups"][0]


def test_what_goes_out_comes_in_again():
    cycle = cycle_of(SNATCH, title="Spring", order="sets-first")

    assert from_json(to_json(cycle)) == cycle


def test_the_schema_is_a_valid_2020_12_schema_and_accepts_what_we_write():
    jsonschema.Draft202012Validator.check_schema(schema())

    jsonschema.Draft202012Validator(schema()).validate(document())


@pytest.mark.parametrize(
    ("change", "path", "words"),
    [
        (lambda d: d["cycle"].update(titel="x"), "$.cycle", "unknown field `titel`"),
        (lambda d: first_group(d).update(count="four"), ".groups[0].count", "str"),
        (lambda d: first_group(d)["load"].update(kind="percant"), ".load.kind", "percant"),
        (lambda d: first_group(d)["load"].update(high_permille=-5), ".high_permille", ">= 0"),
        (lambda d: first_group(d).update(tempo="fast"), ".tempo", "regex"),
        (lambda d: d["cycle"].pop("phases"), "$.cycle", "missing required field `phases`"),
        (lambda d: d.update(format="something else"), "$.format", "something else"),
        (lambda d: d.update(version=99), "$.version", "99"),
        (lambda d: d["cycle"].update(meet_on="2027-02-30"), "$.cycle.meet_on", "date"),
    ],
)
def test_a_wrong_field_is_named_with_its_path_and_the_schema_refuses_it_too(change, path, words):
    doc = document()
    change(doc)
    checked = jsonschema.Draft202012Validator(
        schema(), format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER
    )

    problems = from_json(json.dumps(doc))

    assert isinstance(problems, tuple)
    assert problems[0].place.path.endswith(path)
    assert words in problems[0].message
    assert problems[0].repair
    assert not checked.is_valid(doc)


@pytest.mark.parametrize(
    ("group", "field"),
    [
        (SetGroup(Span(4, 4), (), Percent(700, 700)), "reps"),
        (SetGroup(Span(5, 3), (Reps(3, 3),)), "count"),
        (SetGroup(Span(3, 3), (Reps(5, 3),)), "reps[0]"),
        (SetGroup(Span(3, 3), (Reps(None, None),)), "reps[0]"),
        (SetGroup(Span(3, 3), (Reps(3, 3),), Percent(800, 700)), "load.low_permille"),
        (SetGroup(Span(3, 3), (Reps(3, 3),), Kilos(9000, 8000)), "load.low_dag"),
        (SetGroup(Span(3, 3), (Reps(3, 3),), Effort("rpe", 90, 80)), "load.low_tenths"),
        (SetGroup(Span(3, 3), (Reps(3, 3),), rest_s=Span(120, 60)), "rest_s"),
    ],
)
def test_contradictions_are_found_with_path_and_place(group, field):
    line = Line(parts=(Part("Snatch", "snatch"),), groups=(group,))

    problems = from_json(to_json(cycle_of(SNATCH, line)), source="mine.json")

    assert isinstance(problems, tuple)
    assert [p.place.path for p in problems] == [
        f"$.cycle.phases[0].weeks[0].sessions[0].segments[0].lines[1].groups[0].{field}"
    ]
    assert problems[0].place.said == "week 1, session 1, lifts, line 2"


@pytest.mark.parametrize(
    ("load", "end"),
    [
        (ByCategory(Kilos(9_000, 8_000), Kilos(5_000, 5_000)), "men.low_dag"),
        (ByCategory(Kilos(9_000, 9_000), Pounds(9_000, 5_000)), "women.low_clb"),
    ],
)
def test_a_contradiction_in_a_load_for_men_and_women_says_whose(load, end):
    line = Line(parts=(Part("Snatch", "snatch"),), groups=(SetGroup(Span(3, 3), (Reps(3, 3),), load),))

    problems = from_json(to_json(cycle_of(line)))

    assert [p.place.path.partition(".groups[0].")[2] for p in problems] == [f"load.{end}"]


@pytest.mark.parametrize("field", ["count", "rest_s", "hold_s", "distance_m"])
def test_a_range_by_one_the_wrong_way_round_is_found(field):
    group = SetGroup(Span(3, 3), (Reps(3, 3),))
    line = Line((Part("Snatch", "snatch"),), (msgspec.structs.replace(group, **{field: Span(6, 5)}),))

    problems = from_json(to_json(cycle_of(line)))

    assert [p.place.path.partition(".groups[0].")[2] for p in problems] == [field]


@pytest.mark.parametrize(
    ("change", "good", "bad"),
    [
        (lambda d, n: first_group(d)["load"].update(low_permille=0, high_permille=n), 3_000, 3_001),
        (
            lambda d, n: first_group(d).update(load={"kind": "kg", "low_dag": 0, "high_dag": n}),
            10**6,
            10**6 + 1,
        ),
        (
            lambda d, n: first_group(d).update(
                load={"kind": "effort", "scale": "rpe", "low_tenths": 0, "high_tenths": n}
            ),
            100,
            101,
        ),
        (lambda d, n: first_group(d).update(load={"kind": "heavy", "reps": n}), 1_000, 1_001),
        (lambda d, n: first_group(d).update(rest_s={"low": 0, "high": n}), 100_000, 100_001),
        (lambda d, n: first_group(d).update(every_s=n), 1, 0),
        (lambda d, n: d["cycle"]["phases"][0]["weeks"][0]["sessions"][0].update(weekday=n), 6, 7),
    ],
    ids=["percent", "kilos", "effort", "heavy", "rest", "interval", "weekday"],
)
def test_numbers_have_bounds_in_the_reader_and_in_the_schema(change, good, bad):
    for number, fits in ((good, True), (bad, False)):
        doc = document()
        change(doc, number)

        assert isinstance(from_json(json.dumps(doc)), Cycle) is fits
        assert jsonschema.Draft202012Validator(schema()).is_valid(doc) is fits


def test_a_hundred_thousand_damaged_documents_give_problems_and_never_an_exception():
    rng = random.Random(20270320)
    body = to_json(cycle_of(SNATCH, SNATCH))
    tokens = [
        b"null",
        b"-1",
        b'"x"',
        b"{}",
        b"[]",
        b"1e400",
        b"\xff",
        b"\\u0000",
        b'{"kind":"kg"}',
        b",",
        b"99999999999999999999",
    ]
    refused = 0
    for _ in range(100_000):
        at, cut = rng.randrange(len(body)), rng.randrange(12)
        damaged = body[:at] + rng.choice(tokens) + body[at + cut :]
        result = from_json(damaged)
        if isinstance(result, tuple):
            refused += 1
            assert result[0].place.path.startswith("$")
    assert refused > 50_000


def test_defaults_are_left_out_of_the_document():
    assert "between" not in json.dumps(document())
    assert msgspec.json.decode(to_json(Cycle(phases=())), type=Package).cycle == Cycle(phases=())
