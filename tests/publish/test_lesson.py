"""The teaching edition on the page and on paper: everything stands there, once."""

import io
import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import sync_playwright
from pypdf import PdfReader

from meetward.catalogue.reading import shipped
from meetward.demo import cycle_text
from meetward.fit.lesson import lesson
from meetward.notation import read
from meetward.publish.lesson import lesson_fragment, lesson_page, lesson_pdf
from meetward.publish.shown_lesson import shown_lesson
from tests.publish.test_page import Outline

CYCLE = read(cycle_text(), shipped()).cycle
LESSON = lesson(CYCLE, 1, 1, shipped(), club="Harrow Lane Weightlifting")
SHOWN = shown_lesson(LESSON)


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def words_of_lifts():
    """All texts of the lifts: summary, cues, faults, passages."""
    for segment in SHOWN.segments:
        for line in segment.lines if segment.kind == "lifts" else ():
            for entry in line.texts:
                text = entry.text
                yield from (text.name, text.summary, *text.cues, text.purpose)
                yield from (one.text for one in (*text.setup, *text.how, *text.scaling, *text.cautions))
                yield from (part for fault in text.faults for part in (fault.fault, fault.fix))
                yield from (*entry.easier, *entry.harder, *entry.instead)


def test_everything_a_coach_teaches_stands_on_the_page():
    page = Outline(lesson_fragment(LESSON))

    assert page.open == []
    for words in (SHOWN.aim, *SHOWN.new, *SHOWN.cautions, *words_of_lifts()):
        assert words in page.text


def test_and_on_paper():
    reader = PdfReader(io.BytesIO(lesson_pdf(LESSON)))
    paper = squeezed(" ".join(page.extract_text() for page in reader.pages))

    for words in (SHOWN.aim, *SHOWN.new, *SHOWN.cautions):
        assert squeezed(words) in paper
    for words in words_of_lifts():
        # A column breaks where it likes, so long texts are looked for by their first and last words.
        for piece in (words[:30], words[-30:]):
            assert squeezed(piece)[:18] in paper, words


def test_what_a_group_shares_is_said_once_and_named_afterwards():
    said = [
        (one.of, one.text)
        for segment in SHOWN.segments
        for line in segment.lines
        if segment.kind == "lifts"
        for entry in line.texts
        for one in (*entry.text.setup, *entry.text.how, *entry.text.scaling, *entry.text.cautions)
        if one.of
    ]

    assert said
    assert len(set(said)) == len(said)


def test_a_movement_that_comes_again_is_taught_once():
    taught = [entry.id for s in SHOWN.segments if s.kind == "lifts" for ln in s.lines for entry in ln.texts]

    assert len(set(taught)) == len(taught)
    assert any(line.seen for segment in SHOWN.segments for line in segment.lines)


def test_the_file_stands_alone():
    page = lesson_page(LESSON)
    outside = re.sub(r"url\(data:[^)]*\)", "", page).replace("http://www.w3.org/2000/svg", "")

    assert "<script" not in page
    assert re.findall(r"(?:https?:)?//[^\s\"')]+", outside) == []


def test_equal_lessons_give_equal_bytes():
    assert lesson_pdf(LESSON) == lesson_pdf(LESSON)


@pytest.mark.parametrize("level", [0, 4])
def test_a_heading_level_without_room_below_is_refused(level):
    with pytest.raises(ValueError, match="1 to 3"):
        lesson_fragment(LESSON, heading_level=level)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_it_fits_the_window_and_reads_without_barriers(tmp_path, chromium_path, width, scheme):
    file = tmp_path / "lesson.html"
    file.write_text(lesson_page(LESSON), encoding="utf-8")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=str(chromium_path), args=["--no-sandbox", "--disable-gpu"]
        )
        page = browser.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme)
        page.goto(file.as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page).response["violations"]
        browser.close()

    assert [(one["id"], [node["target"] for node in one["nodes"]][:3]) for one in found] == []
