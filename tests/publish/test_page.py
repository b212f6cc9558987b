"""The day as a page: what it says, how it is built, and how it stands on a phone in a real browser."""

import re
from html.parser import HTMLParser
from itertools import pairwise

import msgspec
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import sync_playwright

from meetward.fit.fitted import DaySegment
from meetward.publish.page import day_css, day_fragment, day_page
from meetward.publish.shown import shown_day
from tests.publish.samples import LIFTS, SNATCH, day_line, day_set, long_sheet, sheet, without_bests
from tests.publish.test_bar import luminance

HOSTILE = '"><script>alert(1)</script><img src=x onerror=alert(1)>&{{ 7 * 7 }}'
EMPTY = {"meta", "rect", "path", "br", "img", "circle"}


class Outline(HTMLParser):
    """Every element with its attributes, the headings with their text, and whether everything was closed."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.headings: list[tuple[str, str]] = []
        self.words: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))
        if tag not in EMPTY:
            self.open.append(tag)
        if re.fullmatch("h[1-6]", tag):
            self.headings.append((tag, ""))

    def handle_startendtag(self, tag, attrs):
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        self.words.append(data)
        if any(re.fullmatch("h[1-6]", tag) for tag in self.open):
            tag, text = self.headings[-1]
            self.headings[-1] = (tag, text + data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


@pytest.mark.parametrize("day", [sheet(), without_bests(), long_sheet()], ids=lambda day: day.lifter)
def test_everything_of_the_day_stands_on_the_page(day):
    page = Outline(day_fragment(day))
    shown = shown_day(day)

    assert page.open == []
    for segment in shown.segments:
        for line in segment.lines:
            assert line.name in page.text
            for one in line.sets:
                assert one.scheme in page.text
                assert one.kilos in page.text
                assert one.instruction in page.text
                assert one.why in page.text
                assert (one.bar_said in page.text) or not one.bar
            for text in line.teaching:
                passages = (*text.setup, *text.how, *text.scaling, *text.cautions)
                for words in (text.summary, *text.cues, text.purpose, *(one.text for one in passages)):
                    assert words in page.text
                for fault in text.faults:
                    assert fault.fault in page.text
                    assert fault.fix in page.text
    for words in (*shown.cautions, *shown.problems, shown.to_meet, shown.minutes_why):
        assert words in page.text


def test_headings_step_down_one_level_at_a_time():
    headings = Outline(day_fragment(sheet(), heading_level=2)).headings

    assert headings[0] == ("h2", "Mara Ellwood: Snatch and front squat")
    assert [text.split(" about")[0] for tag, text in headings if tag == "h3"][:3] == [
        "Warm-up",
        "Lifts",
        "Recovery",
    ]
    levels = [int(tag[1]) for tag, _ in headings]
    assert min(levels) == 2
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_in_a_frame_that_says_who_and_when_the_day_says_neither_again():
    day = sheet(problems=(), notes=())
    head = day_fragment(day, heading_level=2, framed=True).partition("</header>")[0]

    assert Outline(head).headings == [("h2", "Snatch and front squat")]
    assert "Mara Ellwood" not in head
    assert shown_day(day).when not in head
    assert shown_day(day).to_meet in head


def test_the_warm_up_is_folded_so_that_the_first_kilos_come_soon(opened):
    page = opened(sheet())

    assert not page.locator(".warm-up .lines").is_visible()
    # On the first screen of a phone that is 740 px high.
    assert page.locator(".lifts .kilos").first.bounding_box()["y"] < 740


@pytest.mark.parametrize("level", [0, 5])
def test_a_heading_level_without_room_below_is_refused(level):
    with pytest.raises(ValueError, match="1 to 4"):
        day_fragment(sheet(), heading_level=level)


def test_what_is_new_in_the_cycle_is_read_without_unfolding_anything(opened):
    snatch, *others = LIFTS.lines
    new = msgspec.structs.replace(snatch, parts=(msgspec.structs.replace(snatch.parts[0], first=True),))
    page = opened(sheet(segments=(msgspec.structs.replace(LIFTS, lines=(new, *others)),)))

    assert page.get_by_text("New in this cycle, so read it once").count() == 1
    first, second = page.locator(".lifts > .lines > .line").all()[:2]
    assert first.locator(".taught .summary").is_visible()
    assert not second.locator(".taught .summary").is_visible()


def test_a_start_is_called_one_in_words():
    text = Outline(day_fragment(without_bests())).text

    assert "from 30 kg" in text
    assert "A start, not a prescription. Work up from 30 kg and tell your coach" in text
    assert "To settle with your coach" in text


def test_the_file_stands_alone_and_asks_nobody_for_anything():
    page = day_page(sheet())
    outline = Outline(page)

    assert not [
        tag for tag, _ in outline.elements if tag in {"script", "link", "iframe", "img", "form", "object"}
    ]
    outside = re.sub(r"url\(data:[^)]*\)", "", page).replace("http://www.w3.org/2000/svg", "")
    addresses = re.findall(r"(?:https?:)?//[^\s\"')]+", outside)
    assert addresses == []
    assert all(
        address.startswith("data:font/woff2;base64,") for address in re.findall(r"url\(([^)]+)\)", page)
    )
    assert not [a for _, attrs in outline.elements for a in attrs if a == "style" or a.startswith("on")]
    assert ("html", {"lang": "en-GB"}) in outline.elements


def test_what_people_type_stays_text():
    movement = msgspec.structs.replace(
        SNATCH, name=HOSTILE, summary=HOSTILE, cues=(HOSTILE,), link='https://x.example/"><script>'
    )
    line = day_line(movement, day_set(6000, 2, 2, HOSTILE, instruction=HOSTILE, why=HOSTILE))
    hostile = sheet(
        lifter=HOSTILE,
        title=HOSTILE,
        aim=HOSTILE,
        notes=(HOSTILE,),
        segments=(DaySegment("lifts", (line,), 1.0),),
    )

    outline = Outline(day_page(hostile))

    assert not [tag for tag, _ in outline.elements if tag in {"script", "img"}]
    assert "{{ 7 * 7 }}" in outline.text


@pytest.mark.parametrize(
    ("link", "shown"), [("https://video.example/1", True), ("javascript:alert(1)", False), ("", False)]
)
def test_a_video_link_is_shown_only_when_it_is_an_address(link, shown):
    line = day_line(msgspec.structs.replace(SNATCH, link=link), day_set(6000, 2, 2, "70 %"))
    outline = Outline(day_fragment(sheet(segments=(DaySegment("lifts", (line,), 1.0),))))

    links = [attrs for tag, attrs in outline.elements if tag == "a"]
    assert [a["href"] for a in links] == ([link] if shown else [])


@pytest.mark.parametrize("scheme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ink", ["ink", "iron", "accent", "amber", "brick"])
@pytest.mark.parametrize("ground", ["paper", "wash"])
def test_text_stands_out_from_its_ground(scheme, ink, ground):
    colours = {name: re.findall(rf"--{name}: (#[0-9A-F]{{6}});", day_css())[scheme] for name in (ink, ground)}
    light, dark = sorted((luminance(colour) for colour in colours.values()), reverse=True)

    assert (light + 0.05) / (dark + 0.05) >= 4.5  # WCAG 2.2, success criterion 1.4.3, level AA


@pytest.fixture(scope="module")
def browser(chromium_path):
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(chromium_path), args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def opened(browser, tmp_path):
    """Opens a day in a window of some width and colour scheme, with the requests it made."""
    pages = []

    def open_(day, width=360, scheme="light"):
        file = tmp_path / "day.html"
        file.write_text(day_page(day), encoding="utf-8")
        page = browser.new_page(viewport={"width": width, "height": 800}, color_scheme=scheme)
        pages.append(page)
        page.requested = []
        page.on("request", lambda request: page.requested.append(request.url))
        page.goto(file.as_uri())
        return page

    yield open_
    for page in pages:
        page.close()


@pytest.mark.parametrize("day", [sheet(), without_bests()], ids=lambda day: day.lifter)
@pytest.mark.parametrize("width", [360, 1280])
def test_the_page_fits_the_window_and_makes_no_request(opened, day, width):
    page = opened(day, width)

    assert page.evaluate("document.documentElement.scrollWidth") == width
    assert [url for url in page.requested if not url.startswith(("file:", "data:"))] == []


def test_the_phone_is_read_at_arms_length_and_worked_with_a_thumb(opened):
    page = opened(sheet())

    def sizes(selector: str) -> list[float]:
        script = "nodes => nodes.map(node => parseFloat(getComputedStyle(node).fontSize))"
        return page.eval_on_selector_all(selector, script)

    largest = max(sizes("article.day, article.day *"))
    assert min(sizes(".kilos:not(.words)")) >= 40
    assert min(sizes(".kilos:not(.words)")) == largest
    assert min(sizes("article.day, article.day *:not(svg *)")) >= 17
    page.eval_on_selector_all("details", "all => all.forEach(one => one.open = true)")
    heights = page.eval_on_selector_all(
        "summary", "all => all.map(one => one.getBoundingClientRect().height)"
    )
    assert min(heights) >= 48


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_axe_finds_nothing(opened, width, scheme):
    page = opened(without_bests(), width, scheme)
    page.eval_on_selector_all("details", "all => all.forEach(one => one.open = true)")

    violations = Axe().run(page).response["violations"]

    assert [(v["id"], [node["html"][:120] for node in v["nodes"]]) for v in violations] == []
