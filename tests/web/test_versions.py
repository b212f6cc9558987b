"""Saved versions: appended, numbered once, never edited."""

import threading

import msgspec
import pytest
from django.db import connection, connections

from meetward.cycle.tree import Line, Week
from meetward.web.actions import cycles as actions
from meetward.web.actions.who import Hidden
from meetward.web.models import Version
from meetward.web.models.cycles import EditedInPlace
from meetward.web.store import cycles
from meetward.web.store.cycles import SavedMeanwhile, with_line_ids
from tests.web import club as values


def lines(cycle) -> list[Line]:
    return [
        line for _, _, session in cycle.sessions() for segment in session.segments for line in segment.lines
    ]


def test_a_saved_version_is_read_back_as_it_was_written(club):
    kept = cycles.newest(club.book)

    assert kept.number == 1
    assert kept.text == values.TEXT
    assert kept.author == "The owner"
    assert [msgspec.structs.replace(line, id="") for line in lines(kept.cycle)] == lines(club.cycle)


def test_every_line_of_a_saved_version_has_an_id_of_its_own_and_keeps_one_that_it_has(club):
    ids = [line.id for line in lines(cycles.newest(club.book).cycle)]

    assert all(ids)
    assert len(set(ids)) == len(ids)
    once = with_line_ids(club.cycle)
    assert with_line_ids(once) == once


def test_a_version_is_never_edited_in_place(club):
    row = Version.objects.get(book_id=club.book)
    row.text = "something else"

    with pytest.raises(EditedInPlace):
        row.save()
    with pytest.raises(EditedInPlace):
        Version.objects.filter(pk=row.pk).update(text="something else")
    with pytest.raises(EditedInPlace):
        Version.objects.bulk_update([row], ["text"])
    assert cycles.newest(club.book).text == values.TEXT


def test_saving_after_somebody_else_saved_is_refused_and_keeps_theirs(club, asks):
    changed = values.TEXT.replace("70%", "72%")
    actions.save(asks("owner"), club.book, values.cycle(changed), changed, after=1)

    with pytest.raises(SavedMeanwhile) as clash:
        actions.save(asks("assistant"), club.book, club.cycle, values.TEXT, after=1)

    assert clash.value.theirs == 2
    assert cycles.newest(club.book).text == changed
    assert [number for number, _, _ in cycles.versions(club.book)] == [2, 1]


def test_starting_from_long_ago_is_told_the_newest_number(club, asks):
    actions.save(asks("owner"), club.book, club.cycle, values.TEXT, after=1)

    with pytest.raises(SavedMeanwhile) as clash:
        cycles.save_version(club.book, club.cycle, values.TEXT, after=0, author_id=None)

    assert clash.value.theirs == 2


def test_no_number_is_left_out(club, asks):
    with pytest.raises(LookupError):
        cycles.save_version(club.book, club.cycle, values.TEXT, after=5, author_id=None)
    with pytest.raises(Hidden):
        actions.save(asks("owner"), club.book, club.cycle, values.TEXT, after=5)
    assert [number for number, _, _ in cycles.versions(club.book)] == [1]


@pytest.mark.django_db(transaction=True)
def test_of_two_who_save_at_once_exactly_one_wins(club):
    start = threading.Barrier(2)
    results: list[str] = []

    def save() -> None:
        start.wait()
        try:
            cycles.save_version(club.book, club.cycle, values.TEXT, after=1, author_id=None)
            results.append("saved")
        except SavedMeanwhile:
            results.append("told")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=save) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()

    assert sorted(results) == ["saved", "told"]
    assert [number for number, _, _ in cycles.versions(club.book)] == [2, 1]


@pytest.mark.skipif("connection.vendor != 'sqlite'", reason="these are settings of SQLite")
def test_sqlite_writes_ahead_and_keeps_foreign_keys(db):
    with connection.cursor() as cursor:
        modes = [cursor.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "foreign_keys")]

    assert modes == ["wal", 1]
    assert connection.settings_dict["OPTIONS"]["transaction_mode"] == "IMMEDIATE"


def test_a_cycle_that_could_not_be_read_again_is_refused_before_anything_is_written(club):
    phase = club.cycle.phases[0]
    session = phase.weeks[0].sessions[0]
    wrong = msgspec.structs.replace(
        club.cycle,
        phases=(msgspec.structs.replace(phase, weeks=(Week(sessions=(session,), role="no such role"),)),),
    )

    with pytest.raises(ValueError, match="cannot be kept"):
        cycles.save_version(club.book, wrong, "", after=1, author_id=None)

    assert cycles.newest(club.book).number == 1


def test_one_damaged_version_does_not_hide_the_other_cycles(club):
    other = cycles.open_book(club.id, "The other", club.cycle, values.TEXT, author_id=None)
    with connection.cursor() as cursor:
        cursor.execute(f"UPDATE {Version._meta.db_table} SET body = '{{}}' WHERE book_id = %s", [club.book])

    listed = {record.id: record.weeks for record in cycles.books(club.id)}

    assert listed[club.book] == 0
    assert listed[other] > 0
