"""The search field: best first, in any order, half typed, abbreviated, misspelt."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.catalogue import Catalogue, kind_of
from meetward.catalogue.reading import load_text, shipped
from meetward.catalogue.search import Where
from meetward.catalogue.words import normal

CATALOGUE = shipped()
NAMES = [(entry.id, words) for entry in CATALOGUE for words in (entry.name, *entry.names)]


def first(words: str, **where: str) -> str:
    """Id of the best entry for a query."""
    return CATALOGUE.search(words, Where(**where)).found[0].entry.id


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("BTN jerk", "jerk_behind_neck"),
        ("rack jerk", "jerk"),
        ("jerk behind neck", "jerk_behind_neck"),
        ("neck behind jerk", "jerk_behind_neck"),
        ("hang pwr sn", "hang_power_snatch"),
        ("sn pwr hang", "hang_power_snatch"),
        ("ohs", "overhead_squat"),
        ("OHS", "overhead_squat"),
        ("c&j", "clean_and_jerk"),
        ("clean & j", "clean_and_jerk"),
        ("sna", "snatch"),
        ("s", "snatch"),
        ("romanian d", "romanian_deadlift"),
        ("backsquat", "back_squat"),
        ("frontsqu", "front_squat"),
        ("squat, front", "front_squat"),
        ("pull", "clean_pull"),
        ("snatch pull", "snatch_pull"),
        ("shoulder stretch", "bar_hang"),
        ("ankle", "ankle_bounce"),
    ],
)
def test_what_is_meant_stands_first(words, id_):
    results = CATALOGUE.search(words)

    assert not results.nearest
    assert results.found[0].entry.id == id_


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("snacth blance", "snatch_balance"),
        ("snacth bal", "snatch_balance"),
        ("snac", "snatch"),
        ("clen pu", "clean_pull"),
        ("jrek behind nekc", "jerk_behind_neck"),
        ("backsqaut", "back_squat"),
        ("overhed sqat", "overhead_squat"),
    ],
)
def test_a_misspelling_shows_the_nearest_and_says_so(words, id_):
    results = CATALOGUE.search(words)

    assert results.nearest
    assert results.found[0].entry.id == id_
    assert not any(found.exact for found in results.found)


@pytest.mark.parametrize("words", ["?!", "zzzqqq", "スナッチ", "\x00", "x" * 10_000, "12345"])
def test_what_is_like_nothing_finds_nothing(words):
    assert CATALOGUE.search(words) == ((), 0, False, 0)


def test_nothing_typed_lists_everything_by_name():
    results = CATALOGUE.search("  ", limit=10_000)
    names = [found.entry.name.casefold() for found in results.found]

    assert results.total == len(results.found) == len(CATALOGUE)
    assert names == sorted(names)


def test_the_limit_cuts_the_list_and_not_the_count():
    results = CATALOGUE.search("snatch", limit=5)

    assert len(results.found) == 5
    assert results.total > 40
    assert CATALOGUE.search("snatch", limit=0).found == ()


FILTERS = [
    ({"kind": "drill"}, lambda e: kind_of(e) == "drill"),
    ({"kind": "sequence"}, lambda e: kind_of(e) == "sequence"),
    ({"family": "jerk"}, lambda e: getattr(e, "family", "") == "jerk"),
    ({"position": "dip"}, lambda e: "dip" in getattr(e, "positions", ())),
    ({"equipment": "stick"}, lambda e: "stick" in getattr(e, "equipment", ())),
    ({"level": "first"}, lambda e: getattr(e, "level", "") == "first"),
    ({"region": "ankle"}, lambda e: "ankle" in getattr(e, "regions", ())),
    ({"use": "between sets"}, lambda e: "between sets" in getattr(e, "uses", ())),
    (
        {"family": "pull", "equipment": "blocks"},
        lambda e: getattr(e, "family", "") == "pull" and "blocks" in e.equipment,
    ),
]


@pytest.mark.parametrize(("where", "holds"), FILTERS, ids=[str(f) for f, _ in FILTERS])
def test_a_filter_leaves_what_it_names_and_all_of_it(where, holds):
    results = CATALOGUE.search("", Where(**where), limit=10_000)

    assert {f.entry.id for f in results.found} == {e.id for e in CATALOGUE if holds(e)}
    assert results.total > 0


def test_filters_that_keep_out_every_hit_are_told():
    results = CATALOGUE.search("snatch", Where(equipment="sled"))

    assert results.found == ()
    assert results.outside > 40


@pytest.mark.parametrize(("id_", "words"), NAMES, ids=[f"{i}: {w}" for i, w in NAMES])
def test_every_name_leads_to_its_entry(id_, words):
    found = CATALOGUE.find(words)

    assert CATALOGUE.search(words, Where(kind=found.kind)).found[0].entry.id == found.entry.id
    # A drill or warm-up may share a name with a movement, which then stands before it.
    assert id_ in [one.entry.id for one in CATALOGUE.search(words).found[:2]]


def by_hand(words: str) -> set[str]:
    """Entries in whose names each word of the query begins some word, looked through one by one."""
    asked = normal(words).split()
    return {
        entry.id
        for entry in CATALOGUE
        for name in (entry.name, *entry.names)
        if asked and all(any(w.startswith(a) for w in normal(name).split()) for a in asked)
    }


@given(st.sampled_from(NAMES), st.integers(1, 40))
def test_the_beginning_of_a_name_finds_all_that_looking_through_the_names_finds(named, length):
    words = named[1][:length]
    results = CATALOGUE.search(words, limit=10_000)
    every = {one.entry.id for one in results.found}

    if results.nearest:
        assert by_hand(words) == set()
    else:
        assert by_hand(words) <= every


@given(st.text(max_size=150), st.sampled_from([Where(), Where(kind="drill"), Where(family="pull")]))
def test_any_text_is_answered(words, where):
    results = CATALOGUE.search(words, where)

    assert len(results.found) <= results.total
    assert all(where.suits(found.entry) for found in results.found)
    assert len({(f.kind, f.entry.id) for f in results.found}) == len(results.found)


def test_two_swapped_letters_in_a_name_lead_back_to_it():
    rng = random.Random(5)
    asked = right = 0
    for entry in CATALOGUE:
        word = max(entry.name.split(), key=len)
        at = [i for i in range(1, len(word) - 1) if word[i] != word[i + 1]]
        if len(word) < 5 or not at or not word.isalpha():
            continue
        i = rng.choice(at)
        written = entry.name.replace(word, word[:i] + word[i + 1] + word[i] + word[i + 2 :], 1)
        results = CATALOGUE.search(written)
        if not results.nearest:
            continue
        asked += 1
        right += results.found[0].entry.id == entry.id

    assert asked > 200
    assert right / asked > 0.95


def test_a_coachs_own_entry_stands_before_shipped_ones_that_fit_as_well():
    catalogue, _ = load_text('[[movement]]\nid = "yard_carry"\nname = "Yard carry"\nfamily = "carry"')

    assert isinstance(catalogue, Catalogue)
    assert catalogue.search("carry").found[0].entry.id == "yard_carry"
