"""A coach's own file as text: one entry written or taken out, everything else left letter by letter."""

import random

import msgspec
import pytest
import tomli
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.files import at_entry
from meetward.catalogue.own import (
    TYPES,
    CannotWrite,
    changes,
    merged,
    new_id,
    own_entries,
    own_fields,
    with_entry,
    without_entry,
)
from meetward.catalogue.reading import load_text, shipped
from meetward.problem import Place

FILE = """# Harrow Lane, spring

# our cues for the snatch
[[movement]]
id = "snatch"   # as shipped, but
link = "https://example.org/snatch" # filmed in March
cues = [
  "Legs first",  # the only one that Ben hears
  "Close", "Now",
]

# from the old diary
[[drill]]
id = "yard_walk"
name = "Yard walk"
kind = "raise"
uses = ["warm-up"]
regions = ["whole body"]
equipment = ["none"]
dose = { seconds = 120 }
minutes = 2
summary = "Once round the yard."
purpose = "To get warm."
how = "Walk."
cues = ["Tall", "Easy", "Breathe"]
cautions = []

[[movement]]
id = "drop_jerk"
name = "Drop jerk"
family = "jerk"
[[movement.faults]]
fault = "Presses out"
fix = "Lighter."

# the end
"""

BROKEN = '[[movement]]\nid = "snatch"\ncues = ["open\n\n[[movement]]\nid = "clean"\nlink = "https://e.org"\n'


def test_a_changed_field_leaves_every_other_line_as_it_is():
    text = with_entry(FILE, "movement", "snatch", {"link": "https://example.org/new"})

    assert text == FILE.replace("example.org/snatch", "example.org/new")


def test_a_field_that_stands_there_already_changes_nothing():
    assert with_entry(FILE, "movement", "snatch", {"cues": ["Legs first", "Close", "Now"]}) == FILE
    assert with_entry(FILE, "movement", "snatch", {"setup": None}) == FILE


def test_a_field_is_taken_out_and_another_put_in():
    text = with_entry(FILE, "movement", "snatch", {"cues": None, "setup": "Feet under the hips."})

    assert own_fields(text, "movement", "snatch") == {
        "id": "snatch",
        "link": "https://example.org/snatch",
        "setup": "Feet under the hips.",
    }
    assert "# filmed in March" in text
    assert text.partition("# from the old diary")[2] == FILE.partition("# from the old diary")[2]


def test_tables_written_the_long_way_are_replaced_too():
    faults = [{"fault": "Steps forward", "cause": "Dips on the toes", "fix": "Dip through the heels."}]
    text = with_entry(FILE, "movement", "drop_jerk", {"faults": faults, "names": ["under jerk"]})

    assert own_fields(text, "movement", "drop_jerk")["faults"] == faults
    assert load_text(text)[0].movements["drop_jerk"].names == ("under jerk",)
    assert text.endswith("# the end\n")


def test_a_new_entry_stands_at_the_end():
    text = with_entry(
        FILE, "drill", "sit", {"name": "Sit", "minutes": 1.5, "dose": {"seconds": 30}, "how": None}
    )

    assert text.startswith(FILE.rstrip("\n"))
    assert own_entries(text)[-1] == ("drill", "sit", FILE.count("\n") + 2)
    assert own_fields(text, "drill", "sit") == {
        "id": "sit", "name": "Sit", "minutes": 1.5, "dose": {"seconds": 30},
    }  # fmt: skip
    assert with_entry("", "drill", "sit", {"name": "Sit"}) == '[[drill]]\nid = "sit"\nname = "Sit"\n'


def test_an_entry_is_taken_out_and_comments_stay():
    text = without_entry(FILE, "drill", "yard_walk")

    assert [(kind, id_) for kind, id_, _ in own_entries(text)] == [
        ("movement", "snatch"),
        ("movement", "drop_jerk"),
    ]
    assert "# from the old diary\n\n[[movement]]" in text
    assert without_entry(text, "drill", "yard_walk") == text


def test_an_entry_that_cannot_be_read_is_not_touched_and_the_others_can_be_written():
    with pytest.raises(CannotWrite, match=r"line 1 .* Change it in the text"):
        with_entry(BROKEN, "movement", "snatch", {"link": "https://example.org"})

    text = with_entry(BROKEN, "movement", "clean", {"link": "https://example.org"})
    assert text == BROKEN.replace("https://e.org", "https://example.org")


def test_only_what_differs_from_the_shipped_entry_is_to_be_written():
    snatch = shipped().movements["snatch"]
    fields = {"name": "Snatch", "cues": ["Now"], "link": "", "names": list(snatch.names), "cautions": []}

    assert changes("movement", fields, snatch) == {
        "name": None, "cues": ["Now"], "link": None, "names": None, "cautions": [],
    }  # fmt: skip


def test_the_order_of_boxes_is_no_change():
    snatch = shipped().movements["snatch"]
    turned = {
        "positions": sorted(snatch.positions),
        "equipment": ["discs", "bar"],
        "cues": list(snatch.cues[::-1]),
    }

    assert changes("movement", turned, snatch) == {
        "positions": None, "equipment": None, "cues": list(snatch.cues[::-1]),
    }  # fmt: skip


def test_of_a_new_entry_everything_is_written_that_is_not_so_by_itself():
    fields = {
        "name": "Rail squat",
        "lifts_per_rep": 1,
        "cues": [],
        "level": "regular",
        "link": "",
        "setup": "",
    }

    assert changes("movement", fields, None) == {
        "name": "Rail squat", "lifts_per_rep": None, "cues": None, "level": None, "link": None,
        "setup": None,
    }  # fmt: skip


def test_what_does_not_fit_a_field_is_written_so_that_the_checks_can_say_so():
    written = changes("movement", {"lifts_per_rep": "two"}, shipped().movements["snatch"])
    text = with_entry("", "movement", "snatch", written)
    _, problems = load_text(text)

    assert [(at_entry(p.place), p.kind) for p in problems] == [
        (("movement", "snatch", "lifts_per_rep"), "wrong type")
    ]


def test_the_place_of_a_problem_says_entry_and_field_back():
    _, problems = load_text(FILE.replace('["Tall"', '["Walk as tall as you ever can in here"'))

    assert ("drill", "yard_walk", "cues") in {at_entry(p.place) for p in problems}
    assert at_entry(Place(said="week 3")) == ("", "", "")


def test_text_that_looks_like_an_entry_is_text():
    hostile = 'Stand.\n[[movement]]\nid = "clean"\ncues = ["""'
    text = with_entry(FILE, "drill", "yard_walk", {"how": hostile})

    assert own_fields(text, "drill", "yard_walk")["how"] == hostile
    assert [(kind, id_) for kind, id_, _ in own_entries(text)] == [
        (kind, id_) for kind, id_, _ in own_entries(FILE)
    ]


# A file brought in


def test_a_file_replaces_what_has_the_same_id_and_adds_the_rest_with_its_comments():
    brought = """# new ones
[[drill]]
id = "yard_walk"
name = "Yard run"

# from Eskmouth
[[movement]]
id = "box_pull"
name = "Box pull"
"""
    text = merged(FILE, brought)

    assert own_fields(text, "drill", "yard_walk") == {"id": "yard_walk", "name": "Yard run"}
    assert text.index("Yard run") < text.index("drop_jerk")
    assert text.endswith('# from Eskmouth\n[[movement]]\nid = "box_pull"\nname = "Box pull"\n')
    assert own_fields(text, "movement", "snatch") == own_fields(FILE, "movement", "snatch")


def test_versions_of_a_sequence_are_entries_of_their_own():
    one = '[[sequence]]\nid = "ours"\nversion = {}\nname = "Ours {}"\n'
    text = merged(one.format(1, "a"), one.format(2, "b") + one.format(1, "c"))

    assert [(t["version"], t["name"]) for t in tomli.loads(text)["sequence"]] == [
        (1, "Ours c"),
        (2, "Ours b"),
    ]


def test_a_file_into_nothing_stays_as_it_is():
    assert merged("", "\ufeff" + FILE.replace("\n", "\r\n")) == FILE
    assert merged(FILE, FILE) == FILE
    assert merged(FILE, "# nothing in it\n") == FILE


# Ids


@pytest.mark.parametrize(
    ("name", "taken", "id_"),
    [
        ("Rail squat", {}, "rail_squat"),
        ("Rail squats!", {"rail_squat": 1, "rail_squat_2": 1}, "rail_squat_3"),
        ("Hang snatch (BTN)", {}, "hang_snatch_behind_neck"),
        ("スナッチ", {}, "own"),
        ("", {}, "own"),
        ("x" * 110, {}, "x" * 60),
    ],
)
def test_a_new_entry_gets_an_id_from_its_name(name, taken, id_):
    assert new_id(name, taken) == id_


# Whatever the fields are


words = st.text(st.characters(codec="utf-8", exclude_characters="\r\x00"), max_size=60)
fields = st.fixed_dictionaries(
    {"name": words},
    optional={
        "summary": words, "setup": words, "link": words, "cues": st.lists(words, max_size=4),
        "names": st.lists(words, max_size=3), "seconds_per_rep": st.integers(-5, 10_000),
        "faults": st.lists(st.fixed_dictionaries({"fault": words, "fix": words}), max_size=2),
        "cautions": st.one_of(st.none(), st.lists(words, max_size=2)),
    },
)  # fmt: skip


@given(fields, st.sampled_from(["snatch", "drop_jerk", "brand_new"]))
def test_any_words_are_read_back_as_they_were_and_hurt_nobody_else(given_fields, id_):
    text = with_entry(FILE, "movement", id_, given_fields)
    before = own_fields(FILE, "movement", id_) or {"id": id_}
    wanted = {k: v for k, v in (before | given_fields).items() if v is not None}

    assert own_fields(text, "movement", id_) == wanted
    assert own_fields(text, "drill", "yard_walk") == own_fields(FILE, "drill", "yard_walk")
    assert tomli.loads(text)["drill"] == tomli.loads(FILE)["drill"]
    again = without_entry(text, "movement", id_)
    assert own_fields(again, "movement", id_) is None
    assert [line for line in FILE.split("\n") if line.startswith("#")] == [
        line for line in again.split("\n") if line.startswith("# ")
    ]


def test_every_shipped_entry_survives_being_written_and_read():
    """Each movement and drill written out in full as an own one, and read to the same value."""
    rng = random.Random(2)
    for kind, every in (("movement", shipped().movements), ("drill", shipped().drills)):
        for entry in rng.sample(sorted(every.values(), key=lambda e: e.id), 25):
            said = {k: v for k, v in msgspec.to_builtins(entry).items() if k != "id" and v is not None}
            full = {
                name: [{k: v for k, v in row.items() if v is not None} for row in value]
                if isinstance(value, list | tuple) and value and isinstance(value[0], dict)
                else value
                for name, value in said.items()
            }
            read = own_fields(with_entry("", kind, entry.id, full), kind, entry.id)
            assert msgspec.convert(read, TYPES[kind]) == entry
            assert set(changes(kind, full, entry).values()) == {None}
