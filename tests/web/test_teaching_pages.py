"""How a session is taught, and the catalogue as a book: what a coach finds behind the doors."""

import io
import re

import pytest
from pypdf import PdfReader

from meetward.web.actions import catalogues


def text_of(pdf: bytes) -> str:
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


def address(club, rest: str = "teaching/", session: int = 1) -> str:
    return f"/cycles/{club.book}/weeks/1/sessions/{session}/{rest}"


def test_the_session_leads_to_how_it_is_taught(club, browse):
    page = browse("owner").get(f"/cycles/{club.book}/weeks/1/sessions/1/").content.decode()

    assert f'href="{address(club)}"' in page


def test_the_lesson_stands_on_the_page_with_drawings_and_without_anybodys_kilos(club, browse):
    page = browse("assistant").get(address(club)).content.decode()

    assert "<h1>How do I teach this session?</h1>" in page
    assert '<svg class="fig"' in page
    assert "Take care with everybody" in page
    assert "Anouk Varley" not in page


@pytest.mark.parametrize(("paper", "points"), [("a4", (595, 842)), ("letter", (612, 792))])
def test_the_same_on_paper(club, browse, paper, points):
    response = browse("owner").get(address(club, f"teaching.pdf?paper={paper}"))
    page = PdfReader(io.BytesIO(response.content)).pages[0]

    assert response["Content-Type"] == "application/pdf"
    assert "no-store" in response["Cache-Control"]
    assert tuple(round(float(side)) for side in page.mediabox[2:]) == points
    assert "Harrow Lane Weightlifting" in text_of(response.content)


def test_a_session_that_is_not_there_is_not_found(club, browse):
    for rest in ("teaching/", "teaching.pdf"):
        assert browse("owner").get(address(club, rest, session=9)).status_code == 404


def test_the_book_carries_the_clubs_name_and_its_own_entries(club, browse, asks):
    own = '[[movement]]\nid = "slope_snatch"\nname = "Slope snatch"\nfamily = "snatch"\n'
    catalogues.save(asks("owner"), own, after=0)

    book = text_of(browse("lifter").get("/catalogue/catalogue.pdf").content)
    other = text_of(browse("stranger").get("/catalogue/catalogue.pdf").content)

    assert "Harrow Lane Weightlifting" in book
    assert "Slope snatch" in book
    assert "Slope snatch" not in other
    assert "Quarry Bank Barbell" in other


def test_a_clubs_own_words_stand_in_its_lessons(club, browse, asks):
    own = '[[movement]]\nid = "snatch"\nsummary = "Our own two lines on the snatch."\n'
    catalogues.save(asks("owner"), own, after=0)

    assert "Our own two lines on the snatch." in browse("owner").get(address(club)).content.decode()
