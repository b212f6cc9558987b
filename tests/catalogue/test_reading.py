"""Reading a coach's own files: what is good loads, what is bad is named by file, entry and field."""

from pathlib import Path

import pytest

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.reading import DATA, load, read_layers, shipped
from meetward.problem import Problem

GOOD = """
[[movement]]
id = "shelf_squat"
name = "Shelf squat"
names = ["shelfies"]
family = "squat"
reference = "front_squat"
ratios = [
  { of = "front_squat", low_permille = 600, typical_permille = 700, high_permille = 800, source = "ours" },
]
positions = ["bottom", "trunk"]
equipment = ["bar", "discs", "rack"]
summary = "Bar in the crook of the elbows."
purpose = "Trunk and legs without a rack position."
setup = "Bar at belly height, elbows under."
execution = "Squat between the knees and stand."
cues = ["Elbows up", "Chest tall", "Knees out"]
faults = [{ fault = "Rounds", fix = "Lighter." }, { fault = "Heels lift", fix = "Wedge." }]
cautions = ["Use a pad on the bar."]
link = "https://example.org/our-video"
"""

DRILL = """
[[drill]]
id = "our_rock"
name = "Our rock"
kind = "dynamic"
uses = ["warm-up"]
regions = ["hip"]
equipment = ["none"]
dose = { reps = 6 }
minutes = 1
summary = "Rock."
purpose = "Hips."
how = "Rock slowly."
cues = ["Slow", "Breathe", "Long spine"]
cautions = []
"""

SEQUENCE = """
[[sequence]]
id = "ours"
name = "Our warm-up"
version = 1
minutes = 8
purpose = "To get warm."
steps = [{ of = "our_rock", dose = "6" }, { of = "snatch", dose = "3 reps, empty bar" }]
cautions = []
"""
STEPS = next(line for line in SEQUENCE.split("\n") if line.startswith("steps"))


@pytest.fixture
def read(tmp_path):
    """Reads texts as one coach's files, each its own layer, over the shipped catalogue."""

    def _read(*texts: str) -> tuple[Catalogue, list[Problem]]:
        paths = []
        for n, text in enumerate(texts, start=1):
            paths.append(tmp_path / f"own{n}.toml")
            paths[-1].write_text(text, encoding="utf-8")
        return load(*paths)

    return _read


def test_a_coachs_own_entries_are_added(read):
    catalogue, problems = read(GOOD + DRILL + SEQUENCE)

    assert problems == []
    assert catalogue.find("Shelfies").entry.id == "shelf_squat"
    assert catalogue.drills["our_rock"].minutes == 1
    assert catalogue.sequences["ours"].steps[0].of == "our_rock"
    assert len(catalogue) == len(shipped()) + 3
    assert catalogue.version != shipped().version


def test_an_override_changes_the_fields_it_gives_and_keeps_the_rest(read):
    catalogue, problems = read(
        '[[movement]]\nid = "snatch"\nlink = "https://example.org/snatch"\ncues = ["Now", "Fast", "Up"]'
    )

    before, after = shipped().movements["snatch"], catalogue.movements["snatch"]
    assert problems == []
    assert after.link == "https://example.org/snatch"
    assert after.cues == ("Now", "Fast", "Up")
    assert (after.name, after.execution, after.ratios) == (before.name, before.execution, before.ratios)


def test_a_later_file_wins_over_an_earlier_one(read):
    catalogue, problems = read(GOOD, '[[movement]]\nid = "shelf_squat"\nname = "Ledge squat"')

    assert problems == []
    assert catalogue.movements["shelf_squat"].name == "Ledge squat"
    assert catalogue.find("shelfies").entry.name == "Ledge squat"


def test_a_folder_is_one_layer(tmp_path):
    (tmp_path / "deep").mkdir()
    (tmp_path / "a.toml").write_text(DRILL, encoding="utf-8")
    (tmp_path / "deep" / "b.toml").write_text(GOOD, encoding="utf-8")
    (tmp_path / "notes.txt").write_text("not a catalogue", encoding="utf-8")

    catalogue, problems = load(tmp_path)

    assert problems == []
    assert {"our_rock"} <= catalogue.drills.keys()
    assert {"shelf_squat"} <= catalogue.movements.keys()


def test_a_new_version_of_a_shipped_sequence_becomes_the_current_one(read):
    id_ = next(iter(shipped().sequences))
    version = shipped().sequences[id_].version + 1

    catalogue, problems = read(
        SEQUENCE.replace('"ours"', f'"{id_}"')
        .replace("version = 1", f'version = {version}\nchanged = "Shorter."')
        .replace("our_rock", "snatch")
    )

    assert [p.kind for p in problems] == []
    assert catalogue.sequences[id_].version == version
    assert len(catalogue.versions[id_]) == len(shipped().versions[id_]) + 1


def test_an_entry_needs_little_to_begin_with_and_is_told_what_is_missing(read):
    catalogue, problems = read('[[movement]]\nid = "log_lift"\nname = "Log lift"\nfamily = "press"')

    assert catalogue.movements["log_lift"].reference == "log_lift"
    assert {p.severity for p in problems} == {"look"}
    assert "field 'execution'" in " ".join(map(str, problems))


def changed(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new, 1)


# (what is changed in a good entry, kind of the problem, field, words that the message or repair has to have)
BROKEN = [
    ('name = "Shelf squat"', 'nam = "Shelf squat"', "unknown field", "nam", "'name'"),
    ('name = "Shelf squat"\n', "", "missing field", "name", "'name'"),
    ('family = "squat"\n', "", "missing field", "family", "'family'"),
    ('name = "Shelf squat"', "name = 7", "wrong type", "name", "text in quotes"),
    ('family = "squat"', 'family = "squats"', "not a choice", "family", "'squat'"),
    ('"bottom", "trunk"', '"botom"', "not a choice", "positions[0]", "'bottom'"),
    ('["Elbows up", "Chest tall", "Knees out"]', '"Elbows up"', "wrong type", "cues", "list"),
    ('fix = "Lighter."', 'fx = "Lighter."', "unknown field", "faults[0]", "'fix'"),
    (', fix = "Lighter."', "", "missing field", "faults[0]", "'fix'"),
    ('e = "front_squat"', 'e = "front_sqaut"', "unknown movement", "reference", "'front_squat'"),
    ('e = "front_squat"', 'e = "pause_front_squat"', "reference of a reference", "reference", "Name"),
    ('of = "front_squat"', 'of = "nothing_like_it"', "unknown movement", "ratios[0].of", "left out"),
    ('of = "front_squat"', 'of = "shelf_squat"', "ratio of itself", "ratios[0].of", "another"),
    ("low_permille = 600", "low_permille = 900", "ratio out of order", "ratios[0]", "900"),
    ("high_permille = 800", "high_permille = 0", "ratio out of order", "ratios[0]", "fall"),
    ("low_permille = 600", "low_permille = 60.5", "wrong type", "ratios[0].low_permille", "whole number"),
    ('source = "ours"', 'source = " "', "ratio without source", "ratios[0].source", "source"),
    ('"Elbows up"', '"Keep both of your elbows as high as you can"', "cue too long", "cues[0]", "10 words"),
    ('["Elbows up", "Chest tall", "Knees out"]', '["Up"]', "number of cues", "cues", "3 to 6"),
    ('{ fault = "Rounds", fix = "Lighter." }, ', "", "number of faults", "faults", "2 to 4"),
    ("Bar in the crook of the elbows.", "Long. " * 40, "summary too long", "summary", "200"),
    ("Squat between the knees and stand.", " ", "no text", "execution", "sentences"),
    ("https://example.org", "javascript:alert(1)", "bad link", "link", "https://"),
    ('id = "shelf_squat"', 'id = "Shelf Squat"', "bad id", "id", "underscores"),
    ('id = "shelf_squat"\n', "", "no id", "id", "id ="),
    ('name = "Shelf squat"', 'name = "..."', "bad name", "name", "name"),
    ('["shelfies"]', '["!!"]', "bad name", "names[0]", "words"),
    ('["shelfies"]', '["Snatch"]', "name claimed twice", "names", "'snatch'"),
    ('link = "', 'lifts_per_rep = 99\nlink = "', "out of range", "lifts_per_rep", "0 to 20"),
    ('link = "', 'seconds_per_rep = 0\nlink = "', "out of range", "seconds_per_rep", "1 to 600"),
    ('"bar", "discs", "rack"', '"dumbbell"', "no barbell lift", "lifts_per_rep", "bar"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "kind", "field", "words"), BROKEN, ids=[f"{b[2]}: {b[3]}" for b in BROKEN]
)
def test_a_fault_in_a_movement_names_file_entry_and_field(read, old, new, kind, field, words):
    _, problems = read(changed(GOOD, old, new))

    problem = next(p for p in problems if p.kind == kind)
    said = str(problem)
    assert problem.place.source == "own1.toml"
    assert f"field '{field}" in said
    assert words in f"{problem.message} {problem.repair}"
    if kind not in ("no id", "bad id"):
        assert "'shelf_squat'" in said
    assert problem.place.line > 0


@pytest.mark.parametrize(
    ("old", "new", "kind", "field"),
    [
        ("{ reps = 6 }", "{ rounds = 2 }", "no dose", "dose"),
        ("{ reps = 6 }", "{ rep = 6 }", "unknown field", "dose"),
        ("minutes = 1", "minutes = 0", "out of range", "minutes"),
        ("minutes = 1", "minutes = nan", "out of range", "minutes"),
        ("minutes = 1", "minutes = inf", "out of range", "minutes"),
        ('uses = ["warm-up"]', "uses = []", "no use", "uses"),
        ('uses = ["warm-up"]', 'uses = ["between sets"]\nheld_s = 60', "not between sets", "uses"),
        ('kind = "dynamic"', 'kind = "dinamic"', "not a choice", "kind"),
    ],
)
def test_a_fault_in_a_drill_names_file_entry_and_field(read, old, new, kind, field):
    _, problems = read(changed(DRILL, old, new))

    problem = next(p for p in problems if p.kind == kind)
    assert f"own1.toml, drill 'our_rock', field '{field}" in str(problem)


@pytest.mark.parametrize(
    ("old", "new", "kind", "field"),
    [
        ('of = "our_rock"', 'of = "our_rok"', "unknown step", "steps[0].of"),
        ('dose = "6"', 'dose = ""', "no dose", "steps[0].dose"),
        ("version = 1", "version = 0", "out of range", "version"),
        ("version = 1", "version = 2", "change not told", "changed"),
        ("minutes = 8", "minutes = -8", "out of range", "minutes"),
        (STEPS, "steps = []", "no steps", "steps"),
    ],
)  # fmt: skip
def test_a_fault_in_a_sequence_names_file_entry_and_field(read, old, new, kind, field):
    _, problems = read(DRILL + changed(SEQUENCE, old, new))

    problem = next(p for p in problems if p.kind == kind)
    assert f"own1.toml, sequence 'ours', field '{field}" in str(problem)


def test_the_line_is_that_of_the_field(read):
    text = "\n\n" + GOOD.strip().replace("seconds", "x").replace('family = "squat"', 'family = "squash"')
    _, problems = read(text)

    line = problems[0].place.line
    assert text.split("\n")[line - 1].startswith("family")


def test_several_faults_of_one_entry_are_all_told(read):
    _, problems = read(
        GOOD.replace('"squat"', '"squash"').replace('["shelfies"]', "3").replace('"bottom"', '"botom"')
    )

    assert {p.place.said.split("'")[3].split("[")[0] for p in problems} >= {"family", "names", "positions"}


def test_a_broken_entry_does_not_cost_the_others(read):
    catalogue, problems = read(GOOD.replace('"squat"', '"squash"') + DRILL)

    assert "shelf_squat" not in catalogue.movements
    assert "our_rock" in catalogue.drills
    assert len(problems) == 1


def test_a_broken_override_leaves_the_shipped_entry(read):
    catalogue, problems = read('[[movement]]\nid = "snatch"\nfamily = "snach"\nlink = "https://example.org"')

    assert catalogue.movements["snatch"] == shipped().movements["snatch"]
    assert [p.kind for p in problems] == ["not a choice"]


def test_an_override_that_leads_nowhere_is_taken_back(read):
    catalogue, problems = read('[[movement]]\nid = "power_snatch"\nreference = "nowhere"')

    assert catalogue.movements["power_snatch"] == shipped().movements["power_snatch"]
    assert [p.kind for p in problems] == ["unknown movement"]


def test_the_same_id_twice_in_one_layer_is_a_duplicate(read):
    catalogue, problems = read(GOOD + GOOD.replace("Shelf squat", "Another"))

    assert catalogue.movements["shelf_squat"].name == "Shelf squat"
    assert [p.kind for p in problems] == ["duplicate id"]
    assert "line 2" in problems[0].message


def test_what_hangs_on_a_lost_entry_is_told_as_well(read):
    base = GOOD.replace('reference = "front_squat"', 'reference = "shelf_squat"').replace(
        "low_permille = 600", "low_permille = 0"
    )
    hanging = (
        GOOD.replace("shelf_squat", "pause_shelf")
        .replace("Shelf squat", "Pause Shelf")
        .replace("shelfies", "pz")
    )
    hanging = hanging.replace('reference = "front_squat"', 'reference = "shelf_squat"')

    catalogue, problems = read(base + hanging)

    assert not {"shelf_squat", "pause_shelf"} & catalogue.movements.keys()
    assert {p.kind for p in problems} == {"ratio out of order", "unknown movement"}


def test_ratios_that_cannot_both_be_true_are_told(read):
    ratio = """
[[movement]]
id = "front_squat"
ratios = [
  { of = "shelf_squat", low_permille = 600, typical_permille = 700, high_permille = 800, source = "ours" },
]
"""
    catalogue, problems = read(GOOD, ratio)

    assert [p.kind for p in problems] == ["ratios disagree"]
    assert "shelf_squat" in catalogue.movements


def test_a_coachs_name_wins_over_a_shipped_alias_and_says_so(read):
    catalogue, problems = read(GOOD.replace('["shelfies"]', '["push jerk"]'))

    assert catalogue.find("push jerk").entry.id == "shelf_squat"
    assert [(p.kind, p.severity) for p in problems] == [("name claimed twice", "look")]


def test_a_slip_in_the_toml_costs_only_its_entry(read):
    text = (
        GOOD
        + DRILL.replace('name = "Our rock"', 'name = "Our rock')
        + GOOD.replace("shelf_squat", "b").replace("Shelf squat", "Bee").replace('["shelfies"]', "[]")
    )

    catalogue, problems = read(text)

    assert {"shelf_squat", "b"} <= catalogue.movements.keys()
    assert "our_rock" not in catalogue.drills
    assert [p.kind for p in problems] == ["not TOML"]
    assert text.split("\n")[problems[0].place.line - 1] == 'name = "Our rock'
    assert "our_rock" in str(problems[0])


def test_an_unclosed_long_text_costs_only_its_entry(read):
    catalogue, problems = read(GOOD.replace('purpose = "Trunk', 'purpose = """Trunk', 1) + DRILL)

    assert "our_rock" in catalogue.drills
    assert [p.kind for p in problems] == ["not TOML"]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ('[[movment]]\nid = "a"', "unknown table"),
        ("title = 3", "unknown table"),
        (GOOD.replace("[[movement]]", "[movement]"), "single table"),
        ('movement = ["snatch"]', "no table"),
        ("a = " + "[" * 100_000, "not TOML"),
        ("[[movement]]\nid = 3", "no id"),
        ("= = =", "not TOML"),
        ("n = " + "9" * 10_000, "not TOML"),
    ],
)
def test_what_is_no_catalogue_is_said(read, text, kind):
    catalogue, problems = read(text)

    assert kind in [p.kind for p in problems]
    assert all(p.repair and p.place.source == "own1.toml" for p in problems)
    assert len(catalogue) >= len(shipped())


def test_single_brackets_are_understood_all_the_same(read):
    catalogue, problems = read(GOOD.replace("[[movement]]", "[movement]"))

    assert "shelf_squat" in catalogue.movements
    assert [p.severity for p in problems] == ["look"]


def test_files_that_cannot_be_read_are_said(tmp_path):
    latin = tmp_path / "latin.toml"
    latin.write_bytes(GOOD.encode().replace(b"Trunk and", b"Tr\xfcnk and"))
    huge = tmp_path / "huge.toml"
    huge.write_bytes(b"#" * 4_000_001)

    _, problems = load(tmp_path / "none.toml", latin, huge, Path("\0"))

    assert [p.kind for p in problems] == ["file not read", "not UTF-8", "file too large", "file not read"]
    assert problems[1].place.line == 1 + GOOD[: GOOD.index("Trunk and")].count("\n")


def test_a_windows_file_reads_the_same(tmp_path):
    (tmp_path / "own.toml").write_bytes(b"\xef\xbb\xbf" + GOOD.replace("\n", "\r\n").encode())

    catalogue, problems = load(tmp_path / "own.toml")

    assert problems == []
    assert "shelf_squat" in catalogue.movements


def test_the_examples_of_the_data_page_work(read):
    page = (DATA / "README.md").read_text(encoding="utf-8")
    examples = [part.partition("```")[0] for part in page.split("```toml\n")[1:]]

    catalogue, problems = read(*examples)

    assert len(examples) == 3
    assert [str(p) for p in problems] == []
    assert catalogue.movements["snatch"].cues == ("Legs first", "Close", "Now")
    assert catalogue.find("drop under jerk").entry.reference == "jerk"


def test_nothing_at_all_is_an_empty_catalogue():
    catalogue, problems = read_layers([])

    assert problems == []
    assert len(catalogue) == 0
    assert catalogue.find("snatch") is None
    assert catalogue.suggest("snatch") is None
