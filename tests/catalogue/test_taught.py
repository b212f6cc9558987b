"""Teaching text put together from an entry and from what it shares; replacements and facts checked."""

from pathlib import Path

from meetward.catalogue.reading import load
from meetward.catalogue.taught import Passage, taught

OWN = """
[[shared]]
id = "from_a_slope"
name = "Every lift from a slope"
setup = "Stand with the heels up the slope."
scaling = "Begin on the flat."
cautions = ["The slope must be dry."]
asks = [{ motion = "ankle dorsiflexion", share = "some" }, { motion = "hip flexion", share = "full" }]
usual = [{ sets = [3, 5], reps = [2, 3] }]

[[movement]]
id = "slope_snatch"
name = "Slope snatch"
family = "snatch"
reference = "snatch"
setup = "Grip wide."
asks = [{ motion = "ankle dorsiflexion", share = "most" }]
shares = ["from_a_slope"]
easier = ["power_snatch"]
"""


def read(tmp_path: Path, text: str):
    path = tmp_path / "own.toml"
    path.write_text(text, encoding="utf-8")
    return load(path)


def test_own_words_come_first_and_shared_words_say_of_whom_they_are_true(tmp_path):
    catalogue, _ = read(tmp_path, OWN)

    text = taught(catalogue.movements["slope_snatch"], catalogue.shared)

    of = "Every lift from a slope"
    assert text.setup == (Passage("Grip wide."), Passage("Stand with the heels up the slope.", of))
    assert text.scaling == (Passage("Begin on the flat.", of),)
    assert text.cautions == (Passage("The slope must be dry.", of),)
    assert text.execution == ()


def test_the_entrys_own_facts_go_before_those_of_its_group(tmp_path):
    catalogue, _ = read(tmp_path, OWN)

    text = taught(catalogue.movements["slope_snatch"], catalogue.shared)

    assert [(a.motion, a.share) for a in text.asks] == [
        ("ankle dorsiflexion", "most"),
        ("hip flexion", "full"),
    ]
    assert [(u.sets, u.reps) for u in text.usual] == [((3, 5), (2, 3))]


def test_a_changed_shared_text_changes_everything_that_shares_it(tmp_path):
    one = read(tmp_path, OWN)[0]
    other = read(tmp_path, OWN.replace("Begin on the flat.", "Begin with a stick."))[0]

    assert one.version != other.version
    assert taught(other.movements["slope_snatch"], other.shared).scaling[0].text == "Begin with a stick."


def test_replacements_and_shared_texts_that_are_not_there_are_told_and_left_out(tmp_path):
    text = OWN.replace('"power_snatch"', '"pwer_snatch"').replace('["from_a_slope"]', '["from_slope"]')

    catalogue, problems = read(tmp_path, text)

    entry = catalogue.movements["slope_snatch"]
    assert entry.easier == ()
    assert entry.shares == ()
    told = {p.kind: p for p in problems if p.kind in ("unknown replacement", "unknown shared text")}
    assert told["unknown replacement"].repair == "Did you mean 'power_snatch'?"
    assert told["unknown replacement"].place.said == "movement 'slope_snatch', field 'easier[0]'"
    assert told["unknown shared text"].repair == "Did you mean 'from_a_slope'?"


def wrong(tmp_path: Path, old: str, new: str) -> list[tuple[str, str]]:
    assert old in OWN
    problems = read(tmp_path, OWN.replace(old, new))[1]
    return [(p.kind, p.place.said.rpartition("'slope_snatch', ")[2]) for p in problems]


def test_facts_that_cannot_be_are_told(tmp_path):
    asks = '{ motion = "ankle dorsiflexion", share = "most" }'
    usual = 'asks = [{ motion = "ankle dorsiflexion", share = "most" }]'

    for old, new, expected in (
        (asks, asks.replace("most", "all"), ("not a choice", "field 'asks[0].share'")),
        (asks, f"{asks}, {asks}", ("motion twice", "field 'asks[1].motion'")),
        (asks, asks.replace("}", ", degrees = [40, 30] }"), ("out of range", "field 'asks[0].degrees'")),
        (
            asks,
            asks.replace("}", ", degrees = [30, 40] }"),
            ("degrees without source", "field 'asks[0].source'"),
        ),
        (asks, asks.replace("}", ', source = "" }'), ("no source", "field 'asks[0].source'")),
        (usual, "usual = [{ sets = [3, 5] }]", ("no length of a set", "field 'usual[0]'")),
        (usual, "usual = [{ sets = [5, 3], reps = [1, 2] }]", ("out of range", "field 'usual[0].sets'")),
        ('["power_snatch"]', '["slope_snatch"]', ("replacement not clear", "field 'easier[0]'")),
        (
            '["power_snatch"]',
            '["power_snatch"]\nharder = ["power_snatch"]',
            ("replacement not clear", "field 'harder[0]'"),
        ),
    ):
        assert expected in wrong(tmp_path, old, new), new
