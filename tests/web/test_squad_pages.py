"""The squad's pages: the table, one lifter, a spreadsheet in, files out."""

import io

import msgspec
import openpyxl
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from meetward.catalogue.reading import shipped
from meetward.lifter.reading import read_squad
from meetward.web.store import squad
from tests.web import club as values

SHEET = (
    "Harrow Lane, autumn\n\n"
    "Name;Cat;Snatch PB;C+J (kg);Shoe size\n"
    "Dov Stern;M;92,5;115;43\n"
    "Anouk Varley;F;eighty;101;39\n"
)


def upload(client, sheet: str | bytes, name: str = "squad.csv", **fields: str):
    data = sheet if isinstance(sheet, bytes) else sheet.encode()
    return client.post("/import/squad/", {"file": SimpleUploadedFile(name, data), "do": "look", **fields})


def test_the_table_shows_each_lifter_with_bests_and_how_they_are_known(browse):
    page = browse("assistant").get("/squad/").content.decode()

    assert page.index("Anouk Varley") < page.index("Ben Osei") < page.index("Carys Hope")
    assert "100 <span" in page.replace("\n", " ")
    assert "(stated)" in page
    assert '<span class="none">none</span>' in page


def test_looking_at_a_spreadsheet_says_what_saving_would_do_and_saves_nothing(club, browse):
    answer = upload(browse("owner"), SHEET)
    page = answer.content.decode()

    assert answer.status_code == 200
    assert "2 lifters in squad.csv" in page
    assert "Shoe size" in page.partition("Columns left alone")[2]
    assert "row 5" in page
    assert "eighty" in page
    assert "92.5" in page
    assert [one.name for one in squad.lifters(club.id)] == ["Anouk Varley", "Ben Osei", "Carys Hope"]


def test_saving_what_was_looked_at_adds_and_changes_and_leaves_the_others(club, browse):
    client = browse("owner")
    look = upload(client, SHEET).context["look"]
    answer = client.post("/import/squad/", {"do": "save", "found": look.signed}, follow=True)

    kept = {one.key: one for one in squad.lifters(club.id)}
    assert "2 lifters saved." in answer.content.decode()
    assert kept["dov-stern"].best("snatch").dag == 9250
    assert kept["anouk-varley"].best("clean_and_jerk").dag == 10_100
    assert kept["ben-osei"] == values.lifter("ben-osei", "Ben Osei", 10_000, category="men")


def test_a_look_of_another_club_or_one_that_was_changed_is_not_saved(club, browse):
    look = upload(browse("owner"), SHEET).context["look"]
    for client, found in ((browse("stranger"), look.signed), (browse("owner"), look.signed[:-2] + "xx")):
        answer = client.post("/import/squad/", {"do": "save", "found": found})
        assert answer.status_code == 422
        assert "Choose the file again" in answer.content.decode()
    assert squad.lifters(club.elsewhere) == ()


@pytest.mark.parametrize("sheet", [b"", b"\x00\xff\x17", b"PK\x03\x04 not a workbook", b"Mass,Length\n1,2\n"])
def test_a_file_that_holds_no_squad_is_answered_in_words(browse, sheet):
    answer = upload(browse("owner"), sheet, "squad.xlsx" if sheet[:2] == b"PK" else "squad.csv")

    assert answer.status_code in (200, 422)
    assert any(words in answer.content.decode() for words in ("No lifter was found", "it is empty"))


def test_a_file_that_is_too_large_is_refused_before_it_is_read(browse, settings):
    settings.MOST_FILE_BYTES = 100
    answer = upload(browse("owner"), SHEET * 10)

    assert answer.status_code == 413
    assert "one row for each lifter" in answer.content.decode()


def test_the_squad_leaves_as_csv_and_comes_back_the_same(club, browse):
    data = browse("owner").get("/export/squad.csv").content

    back = read_squad(data, name="squad.csv", catalogue=shipped(), today=values.date(2026, 11, 25)).lifters

    def in_order(lifters):
        # A sheet keeps the bests in the order of its columns.
        return [
            msgspec.structs.replace(one, bests=tuple(sorted(one.bests, key=lambda best: best.lift)))
            for one in sorted(lifters, key=lambda one: one.key)
        ]

    assert in_order(back) == in_order(squad.lifters(club.id))


def test_the_workbook_opens_and_holds_every_lifter(browse):
    data = browse("owner").get("/export/squad.xlsx").content

    sheet = openpyxl.load_workbook(io.BytesIO(data)).active
    names = {cell.value for row in sheet.iter_rows() for cell in row}
    assert {"Anouk Varley", "Ben Osei", "Carys Hope"} <= names


def test_one_lifters_page_tells_tested_from_derived(club, browse):
    one = values.lifter("anouk-varley", "Anouk Varley")
    squad.save(club.id, [msgspec.structs.replace(one, bests=one.bests[:2])])  # no squat
    page = browse("owner").get("/squad/anouk-varley/").content.decode()
    known, _, derived = page.partition("Derived, to start from")

    assert "Saturday 3 October 2026" in known
    assert "stated, not seen" in known
    assert "Back squat" in derived
    assert "Clean" not in derived.partition("Back squat")[0], "a known best needs no derived one"
    assert "most likely about" in derived


def test_a_lifter_without_bests_gets_words_and_no_numbers(browse):
    page = browse("owner").get("/squad/carys-hope/").content.decode()

    assert "No best is known yet" in page
    assert "most likely about" not in page


def test_an_empty_squad_teaches_the_first_step(browse):
    page = browse("stranger").get("/squad/").content.decode()

    assert "Bring in your spreadsheet" in page
    assert "<table" not in page
