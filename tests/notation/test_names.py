"""Every name of the shipped catalogue reads as itself, with sets behind it."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Conventions, Reader

CATALOGUE = shipped()
DECLARED = Conventions(order="sets-first", bare_load="percent")
ENTRIES = [
    *CATALOGUE.movements.values(),
    *CATALOGUE.drills.values(),
    *CATALOGUE.sequences.values(),
]
# Read as the lift and what is done with it, which says the same: a pause, places, a stick for a bar.
OTHERWISE = {
    name
    for entry in ENTRIES
    for name in (entry.name, *entry.names)
    if any(
        words in name
        for words in (
            "with a pause",
            "second pause",
            "o positions",
            "e positions",
            "o pos ",
            "e pos ",
            "squat with stick",
            "hinge with stick",
            "OHS with stick",
            "good morning with a stick",
        )
    )
}
# Words that a coach also writes as a remark ("snatch warm up"): kept beside the lift and shown.
REMARKS = {name for entry in ENTRIES for name in entry.names if name.endswith("warm up")}


@pytest.fixture(scope="module")
def reader():
    return Reader(CATALOGUE)


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.id)
def test_every_name_of_an_entry_reads_as_that_entry(reader, entry):
    lift = entry.id in CATALOGUE.movements
    for name in (entry.name, *entry.names):
        found = CATALOGUE.find(name)
        if name in OTHERWISE | REMARKS or found is None or found.entry.id != entry.id:
            continue
        (record,) = reader.read(f"{name} 3x5" if lift else name, DECLARED).lines

        assert (name, [part.movement for part in record.parts]) == (name, [entry.id])
        assert record.status == "read"
        if lift:
            assert [(g.count.low, g.reps[0].low) for g in record.reading.groups] == [(3, 5)]


def test_the_exceptions_are_few_and_none_is_the_first_name_of_an_entry():
    assert len(OTHERWISE) <= 45
    assert len(REMARKS) <= 12
    firsts = {entry.name for entry in ENTRIES}
    assert not (REMARKS | OTHERWISE) & firsts


@pytest.mark.parametrize("name", sorted(OTHERWISE))
def test_an_exception_is_the_lift_itself_or_one_that_it_is_made_of(reader, name):
    record = reader.read(f"{name} 3x5", DECLARED).lines[0]

    assert record.status in ("read", "note")
    for part in record.parts:
        entry = CATALOGUE.movements.get(part.movement) or CATALOGUE.drills.get(part.movement)
        assert entry is not None
