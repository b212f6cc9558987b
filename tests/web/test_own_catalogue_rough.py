"""A club's own catalogue under rough hands: any words in the form, much text, two saves in one moment."""

import threading

import pytest
from django.db import connections
from django.http import QueryDict
from hypothesis import event, given, settings
from hypothesis import strategies as st

from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Movement
from meetward.catalogue.own import own_entries, own_fields
from meetward.catalogue.reading import shipped
from meetward.problem import Problem
from meetward.web.actions.catalogues import with_changed
from meetward.web.pages.entry_fields import Values, fields_of, meant, sent_values, shown_values
from meetward.web.store import catalogues
from meetward.web.store.catalogues import ChangedMeanwhile, OwnRecord

ALL = shipped()
LETTERS = 600_000

words = st.one_of(
    st.text(max_size=40),
    st.sampled_from(
        [
            "",
            "Snatch",
            "72,5",
            "-1",
            "1e9",
            "[[movement]]",
            '"""',
            "x\n[[drill]]\nid = 1",
            "\x00",
            "nan",
            "9" * 30,
        ]
    ),
)


def as_sent(values: Values, kind: str) -> QueryDict:
    """The fields of an entry as a browser sends them."""
    sent = QueryDict(mutable=True)
    for field in fields_of(kind):
        value = values[field.name]
        if field.how == "choices":
            sent.setlist(field.name, value)
        elif field.how in ("rows", "dose"):
            for n, row in enumerate(value):
                sent.update({f"{field.name}-{n}-{name}": said for name, said in row.items()})
        else:
            sent[field.name] = value
    return sent


@st.composite
def forms(draw: st.DrawFn, kind: str) -> tuple[Movement | Drill, str, QueryDict]:
    """The form of a shipped entry, or of none, in which somebody wrote any words into some fields."""
    every = ALL.movements if kind == "movement" else ALL.drills
    entry = draw(st.sampled_from(sorted(every.values(), key=lambda e: e.id)))
    id_ = draw(st.sampled_from([entry.id, "brand_new"]))
    sent = as_sent(shown_values(entry, kind, ALL), kind)
    for name in draw(st.lists(st.sampled_from(sorted(sent)), max_size=3)):
        sent.setlist(name, draw(st.lists(words, max_size=2)))
    for name in draw(
        st.lists(st.sampled_from(["summary", "cues", "cautions", "scaling", "names"]), max_size=3)
    ):
        sent[name] = draw(words)
    return entry, id_, sent


@pytest.mark.parametrize("kind", ["movement", "drill"])
@given(data=st.data())
@settings(max_examples=40)
def test_any_words_in_a_form_become_text_that_can_be_read(kind, data):
    entry, id_, sent = data.draw(forms(kind))
    values = sent_values(sent, kind, shown_values(entry, kind, ALL))
    draft = with_changed(OwnRecord(1, 0, ""), kind, id_, meant(values, kind, id_, ALL))

    assert len(own_entries(draft.text)) <= 1
    assert draft.text == "" or own_fields(draft.text, kind, id_) is not None
    assert all(isinstance(problem, Problem) and problem.repair for problem in draft.problems)
    assert len(draft.catalogue) >= len(ALL)
    standing = (draft.catalogue.movements if kind == "movement" else draft.catalogue.drills).get(id_)
    stopped = any(problem.severity == "stop" for problem in draft.of(kind, id_))
    if standing is not None and not stopped:
        event("stands")
        # What the form shows of the saved entry means the saved entry again.
        shown: Values = shown_values(standing, kind, draft.catalogue)
        again = with_changed(OwnRecord(1, 1, draft.text), kind, id_, meant(shown, kind, id_, draft.catalogue))
        same = again.catalogue.movements if kind == "movement" else again.catalogue.drills
        assert same[id_] == standing


HUGE = {
    "heads of entries": "[[movement]]\n" * (LETTERS // 13),
    "entries": "".join(
        f'[[movement]]\nid="m{n}"\nname="M {n}"\nfamily="squat"\n' for n in range(LETTERS // 53)
    )[:LETTERS].rpartition("[[")[0],
    "one list": '[[movement]]\nid = "a"\ncues = [' + '"x",' * (LETTERS // 4 - 20) + "]\n",
    "brackets": "[[" * (LETTERS // 2),
}


@pytest.mark.parametrize("what", HUGE)
def test_as_much_text_as_is_kept_is_answered(club, browse, what):
    client = browse("owner")
    answer = client.post("/own-catalogue/text/", {"text": HUGE[what], "after": "0", "do": "check"})

    assert answer.status_code == 200
    assert len(answer.content) < 2_500_000
    look = client.post("/import/catalogue/", {"text": HUGE[what], "after": "0", "do": "look"})
    assert look.status_code == 200


@pytest.mark.django_db(transaction=True)
def test_of_two_saves_in_one_moment_one_is_told(club):
    start = threading.Barrier(2)
    results: list[str] = []

    def save() -> None:
        start.wait()
        try:
            catalogues.save(club.id, "# ours\n", after=0, author_id=None)
            results.append("saved")
        except ChangedMeanwhile:
            results.append("told")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=save) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert sorted(results) == ["saved", "told"]
    assert [number for number, _, _ in catalogues.versions(club.id)] == [1]
