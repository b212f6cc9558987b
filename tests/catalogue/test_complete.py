"""The shipped catalogue is complete: every entry teaches, scales, and says what can stand in its place."""

import re

import numpy as np
import pytest
from rapidfuzz import fuzz, process

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.reading import shipped
from meetward.catalogue.taught import taught
from tests.catalogue.test_shipped import DRILLS, MOVEMENTS, normal_sentence, prose, sentences

CATALOGUE = shipped()
ENTRIES = (*MOVEMENTS, *DRILLS)
KNOWN = {entry.id: entry for entry in ENTRIES}
SOURCED = re.compile(r"common practice|from memory|\d{4}|page|article|quoted|interview|computed")


def test_the_catalogue_is_as_large_as_the_trade_asks():
    assert len(MOVEMENTS) >= 140
    assert len(DRILLS) >= 80
    assert len(CATALOGUE.sequences) >= 10


@pytest.mark.parametrize("movement", MOVEMENTS, ids=lambda m: m.id)
def test_a_movement_says_what_it_asks_and_how_much_of_it_people_do(movement: Movement):
    text = taught(movement, CATALOGUE.shared)

    assert 1 <= len(text.asks) <= 7
    assert text.usual
    assert all(SOURCED.search(one.source) for one in (*text.asks, *text.usual))
    for one in movement.usual:
        # A share of a best means nothing where no bar is lifted.
        assert movement.barbell or one.load_permille is None


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.id)
def test_an_entry_can_be_scaled_and_replaced(entry: Movement | Drill):
    text = taught(entry, CATALOGUE.shared)

    assert entry.scaling, "its own sentence on how a beginner starts with it"
    assert len(sentences(entry.scaling)) <= 3
    assert len(entry.scaling.split()) >= 8
    assert text.cautions
    assert entry.instead, "something that trains the same position or region"
    assert entry.easier or entry.harder
    assert max(map(len, (entry.easier, entry.harder, entry.instead))) <= 4
    for id_ in (*entry.easier, *entry.harder, *entry.instead):
        assert id_ in KNOWN


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.id)
def test_every_fault_has_a_cause_and_a_fix(entry: Movement | Drill):
    assert entry.faults
    assert all(fault.fault and fault.cause and fault.fix for fault in entry.faults)
    assert 3 <= len(entry.cues) <= 6


@pytest.mark.parametrize("movement", MOVEMENTS, ids=lambda m: m.id)
def test_what_stands_in_its_place_trains_one_of_its_positions(movement: Movement):
    for id_ in movement.instead:
        other = KNOWN[id_]
        assert isinstance(other, Movement), id_
        assert set(other.positions) & set(movement.positions), id_


@pytest.mark.parametrize("drill", DRILLS, ids=lambda d: d.id)
def test_what_stands_in_a_drills_place_is_for_one_of_its_regions(drill: Drill):
    for id_ in drill.instead:
        other = KNOWN[id_]
        assert isinstance(other, Drill), id_
        assert set(other.regions) & set(drill.regions), id_


def test_the_ladder_of_easier_and_harder_has_no_circle():
    """Whoever always takes the easier one comes to an end."""
    below = {id_: set(e.easier) | {o.id for o in ENTRIES if id_ in o.harder} for id_, e in KNOWN.items()}
    done: set[str] = set()

    def walk(id_: str, above: tuple[str, ...]) -> None:
        assert id_ not in above, " > ".join((*above[above.index(id_) if id_ in above else 0 :], id_))
        if id_ not in done:
            for next_ in below[id_]:
                walk(next_, (*above, id_))
            done.add(id_)

    for id_ in below:
        walk(id_, ())


def test_shared_texts_are_shared_and_no_entry_repeats_them():
    users = {id_: [e.id for e in ENTRIES if id_ in e.shares] for id_ in CATALOGUE.shared}
    own = {normal_sentence(s) for e in ENTRIES for text in (*prose(e), e.scaling) for s in sentences(text)}

    assert {id_: who for id_, who in users.items() if len(who) < 2} == {}
    for shared in CATALOGUE.shared.values():
        for text in (shared.setup, shared.execution, shared.scaling, *shared.cautions):
            for sentence in sentences(text):
                assert normal_sentence(sentence) not in own, shared.id


def test_no_two_entries_say_nearly_the_same():
    """Boilerplate with one word changed. The first sentence of a summary only says which lift it is."""
    said = [
        (entry.id, normal_sentence(sentence))
        for entry in ENTRIES
        for text in ("  ".join(sentences(entry.summary)[1:]), *prose(entry)[1:], entry.scaling)
        for sentence in sentences(text)
        if len(sentence.split()) >= 6
    ]
    texts = [text for _, text in said]
    alike = process.cdist(texts, texts, scorer=fuzz.ratio, score_cutoff=88, dtype=np.uint8)
    pairs = [
        (said[a], said[b])
        for a, b in zip(*np.nonzero(np.triu(alike, 1)), strict=True)
        if said[a][0] != said[b][0]
    ]

    assert pairs == []


def test_nothing_is_left_to_be_written():
    stub = re.compile(r"\b(todo|tbd|lorem|fixme|xxx|coming soon|to be written)\b", re.IGNORECASE)
    for entry in ENTRIES:
        for text in (*prose(entry), entry.scaling, *entry.cues):
            assert not stub.search(text), entry.id
