"""The catalogue as a book: every entry is in it, its contents and index lead there."""

import io
import re

from pypdf import PdfReader

from meetward.catalogue.reading import load, shipped
from meetward.publish.shelf import catalogue_pdf, chapters, groups

BOOK = PdfReader(io.BytesIO(catalogue_pdf(shipped(), title="Harrow Lane Weightlifting")))
PAGES = [re.sub(r"\s+", " ", page.extract_text()) for page in BOOK.pages]
TEXT = re.sub(r"\s+", "", "".join(PAGES))


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def test_every_movement_drill_and_warm_up_is_in_it_with_its_summary():
    for entry in (*shipped().movements.values(), *shipped().drills.values()):
        assert squeezed(entry.name) in TEXT
        assert squeezed(entry.summary)[:40] in TEXT, entry.id
    for sequence in shipped().sequences.values():
        assert squeezed(sequence.name) in TEXT


def test_the_chapters_hold_every_entry_once():
    ids = [entry.id for chapter in chapters(shipped()) for entry in chapter.entries]

    assert sorted(ids) == sorted([*shipped().movements, *shipped().drills])


def test_shared_text_stands_once_and_entries_point_to_it():
    for group in groups(shipped()):
        for words in (group.setup, group.how, group.scaling, *group.cautions):
            if len(words) > 40:
                assert TEXT.count(squeezed(words)[:40]) == 1, words
    for chapter in chapters(shipped()):
        for entry in chapter.entries:
            passages = (*entry.text.setup, *entry.text.how, *entry.text.scaling, *entry.text.cautions)
            assert all(one.of == "" for one in passages)


def test_the_index_leads_to_the_page_of_the_entry():
    index = [n for n, page in enumerate(PAGES) if "Every name" in page][1]  # after the contents
    listed = " ".join(PAGES[index:]).replace("\u2060", "")
    for name in ("Snatch balance", "Good morning", "Back squat"):
        page = int(re.search(rf"\b{name} (\d+)", listed)[1])
        # The printed number counts from the first page, as the reader's does.
        assert squeezed(name) in squeezed(PAGES[page - 1])


def test_the_first_page_carries_the_cautions_and_the_title():
    assert "Harrow Lane Weightlifting" in PAGES[0]
    assert "doctor" in PAGES[0]


def test_a_coachs_own_movement_is_in_the_book(tmp_path):
    own = tmp_path / "own.toml"
    own.write_text(
        '[[movement]]\nid = "slope_snatch"\nname = "Slope #snatch *"\nfamily = "snatch"\n', encoding="utf-8"
    )
    catalogue, _ = load(own)

    pages = PdfReader(io.BytesIO(catalogue_pdf(catalogue))).pages

    assert any("Slope #snatch *" in page.extract_text() for page in pages)
