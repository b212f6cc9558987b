"""The text of a cycle: checking saves nothing, saving appends; pasted text; hostile sizes."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from meetward.web.actions import writing
from meetward.web.store import cycles
from tests.web import club as values

PASTED = "Monday\nSnatch 5x3 @ 70%\nBack squat 5 x 5\nRemember to sleep\nSnacth 3x3 @ 60%\n"


def test_the_text_stands_in_the_field_as_it_was_saved(club, browse):
    answer = browse("owner").get(f"/cycles/{club.book}/text/")

    assert answer.context["text"] == values.TEXT
    assert "Save as version 2" in answer.content.decode()


def test_checking_lists_problems_with_their_lines_and_saves_nothing(club, browse):
    text = values.TEXT.replace("Snatch 4x3", "Snacth 4x3")
    line = text.split("\n").index("Snacth 4x3 @ 70%, rest 2:00") + 1
    page = (
        browse("owner")
        .post(f"/cycles/{club.book}/text/", {"text": text, "after": "1", "do": "check"})
        .content.decode()
    )

    assert f"line {line}" in page
    assert "<mark>Snacth</mark>" in page
    assert "Did you mean" in page
    assert [number for number, _, _ in cycles.versions(club.book)] == [1]


def test_saving_makes_the_next_version_and_keeps_the_one_before(club, browse):
    client = browse("assistant")
    changed = values.TEXT.replace("70%", "72%")
    answer = client.post(
        f"/cycles/{club.book}/text/",
        {"text": changed.replace("\n", "\r\n"), "after": "1", "do": "save"},
        follow=True,
    )

    assert "Saved as version 2." in answer.content.decode()
    assert cycles.newest(club.book).text == changed
    assert cycles.newest(club.book).author == "The assistant"
    assert "70%" in client.get(f"/cycles/{club.book}/versions/1/").content.decode()


def test_saving_after_somebody_else_shows_both_and_keeps_every_word(club, browse):
    theirs, mine = values.TEXT.replace("@ 70%", "@ 72%"), values.TEXT.replace("@ 70%", "@ 74%")
    address = f"/cycles/{club.book}/text/"
    browse("owner").post(address, {"text": theirs, "after": "1", "do": "save"})
    client = browse("assistant")
    answer = client.post(address, {"text": mine, "after": "1", "do": "save"})
    page = answer.content.decode()

    assert answer.status_code == 409
    assert "The owner saved version 2" in page
    assert answer.context["text"] == mine
    assert answer.context["clash"].differences == (
        ("Snatch 4x3 @ 72%, rest 2:00", "Snatch 4x3 @ 74%, rest 2:00"),
    )
    assert "Save as version 3" in page
    client.post(address, {"text": mine, "after": answer.context["after"], "do": "save"})
    assert [number for number, _, _ in cycles.versions(club.book)] == [3, 2, 1]


@pytest.mark.parametrize("text", ["", "Cycle: nothing in it yet"])
def test_a_text_without_a_session_is_not_saved_over_one_that_has_some(club, browse, text):
    answer = browse("owner").post(f"/cycles/{club.book}/text/", {"text": text, "after": "1", "do": "save"})

    assert answer.status_code == 422
    assert "No session was found" in answer.content.decode()
    assert [number for number, _, _ in cycles.versions(club.book)] == [1]


@pytest.mark.parametrize("after", ["", "one", "-1", "9" * 20, "١"])
def test_a_form_without_a_proper_version_is_refused(club, browse, after):
    answer = browse("owner").post(f"/cycles/{club.book}/text/", {"text": "x", "after": after, "do": "save"})

    assert answer.status_code == 400
    assert [number for number, _, _ in cycles.versions(club.book)] == [1]


def test_pasted_text_shows_both_readings_what_was_kept_and_what_is_unknown(club, browse):
    answer = browse("owner").post("/cycles/new/", {"text": PASTED, "do": "check"})
    reading = answer.context["reading"]

    assert [line.text for line in reading.ambiguous] == ["Snatch 5x3 @ 70%"]
    assert {"5 × 3 at 70 %", "3 × 5 at 70 %"} == set(reading.ambiguous[0].readings)
    assert [line.text for line in reading.notes] == ["Remember to sleep"]
    assert any("Snacth" in fault.first.message for fault in reading.faults)
    assert [book.id for book in cycles.books(club.id)] == [club.book]


def test_a_line_with_several_faults_is_shown_once(browse):
    text = "Week 1\nMonday\n★ Join 4,000 of 9 happy lifters ★\nSnacth 3x3\n"
    reading = browse("owner").post("/cycles/new/", {"text": text, "do": "check"}).context["reading"]

    places = [fault.first.where for fault in reading.faults]
    assert len(places) == len(set(places))
    assert any(fault.others for fault in reading.faults)


@pytest.mark.parametrize(("order", "count"), [("sets-first", 5), ("reps-first", 3)])
def test_a_declared_order_settles_it_and_stays_in_the_text(club, browse, order, count):
    client = browse("owner")
    look = client.post("/cycles/new/", {"text": PASTED, "order": order, "do": "check"})
    client.post("/cycles/new/", {"text": look.context["text"], "order": order, "do": "save"})
    kept = cycles.newest(cycles.books(club.id)[0].id)

    assert look.context["reading"].ambiguous == ()
    assert next(iter(kept.cycle.sessions()))[2].segments[0].lines[0].groups[0].count.low == count
    assert kept.text.startswith(f"Order: {order.replace('-', ' ')}\n")
    assert writing.read_text(kept.text, values.shipped()).cycle.order == order


def test_declaring_an_order_replaces_the_one_that_was_there():
    text = "Cycle: A\nOrder: reps first\n\nMonday\nSnatch 5x3 @ 70%"

    assert (
        writing.declare_order(text, "sets-first") == "Order: sets first\nCycle: A\n\nMonday\nSnatch 5x3 @ 70%"
    )


def test_a_new_cycle_is_saved_with_the_text_as_it_was_pasted(club, browse):
    answer = browse("owner").post("/cycles/new/", {"text": values.TEXT, "do": "save"}, follow=True)

    assert "Saved as version 1 of a new cycle." in answer.content.decode()
    assert cycles.newest(cycles.books(club.id)[0].id).text == values.TEXT


def test_the_first_cycle_of_a_club_is_trained_from_at_once(club, browse):
    client = browse("stranger")
    client.post("/cycles/new/", {"text": values.TEXT, "do": "save"})

    assert "trains from this" in client.get("/cycles/").content.decode()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_text_file_of_any_usual_encoding_is_read(browse, encoding):
    data = "Monday\r\nSnatch 5 sets of 3 at 70–75 %, it’s heavy\r\n".encode(encoding)
    answer = browse("owner").post(
        "/cycles/new/", {"file": SimpleUploadedFile("cycle.txt", data), "do": "check"}
    )

    assert answer.status_code == 200
    assert "5 × 3 at 70–75 %" in answer.content.decode()


@pytest.mark.parametrize(
    ("fields", "words", "status"),
    [
        ({"text": "   "}, "There is no text yet", 422),
        ({"text": "x" * 2_000}, "letters; at most", 422),
        ({"file": SimpleUploadedFile("cycle.txt", bytes(range(256)) * 9)}, "is no text", 422),
        ({"file": SimpleUploadedFile("cycle.txt", b"x" * 3_000)}, "MB; at most", 422),
    ],
)
def test_what_cannot_be_read_is_answered_in_words(browse, settings, fields, words, status):
    settings.MOST_TEXT_LETTERS, settings.MOST_FILE_BYTES = 1_000, 2_500
    answer = browse("owner").post("/cycles/new/", fields | {"do": "check"})

    assert answer.status_code == status
    assert words in answer.content.decode()


def test_more_than_a_form_may_hold_is_refused_in_words(browse, settings):
    settings.DATA_UPLOAD_MAX_MEMORY_SIZE = 10_000
    answer = browse("owner").post("/cycles/new/", {"text": "x" * 20_000, "do": "check"})

    assert answer.status_code == 413
    assert "nothing of it was read or saved" in answer.content.decode()


def test_a_million_hostile_letters_are_answered(browse):
    answer = browse("owner").post("/cycles/new/", {"text": "5x(" * 333_000, "do": "check"})

    assert answer.status_code == 200


def test_the_words_of_each_line_are_those_of_the_coach(club):
    version = cycles.newest(club.book)
    words = writing.written(version, values.shipped())
    first = next(iter(version.cycle.sessions()))[2].segments[0].lines

    assert words[first[0].id] == (
        "Snatch 4x3 @ 70%, rest 2:00\n  note: pause long enough to feel the whole foot"
    )
    assert words[first[1].id] == "Back squat 60%/5 70%/5 75%/5x3"


def test_a_version_whose_text_reads_otherwise_now_shows_our_notation(club):
    book = cycles.open_book(club.id, "Drifted", club.cycle, "Monday\nPlank 3 x 30 s", author_id=None)
    version = cycles.newest(book)
    words = writing.written(version, values.shipped())
    first = next(iter(version.cycle.sessions()))[2].segments[0].lines

    assert words[first[0].id].startswith("Snatch 4x3")
