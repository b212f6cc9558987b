"""A real browser for the tests: the demo served, pages opened in it, and what is wrong with a page."""

from collections.abc import Iterator
from types import SimpleNamespace
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect, sync_playwright

from meetward.web.actions import demo
from meetward.web.actions.catalogues import forget_kept

FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update"]
PHONE, LAPTOP = {"width": 360, "height": 740}, {"width": 1280, "height": 800}

FOCUS_SHOWS = """() => {
    const e = document.activeElement, s = getComputedStyle(e);
    return [e.tagName, e.className, s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2];
}"""
# Links inside running words are as high as their line; everything that stands by itself is for a thumb.
SMALL_TARGETS = """() =>
    [...document.querySelectorAll("a, button, select, summary, label:has(input), " +
            "input:not([type=hidden], [type=radio], [type=checkbox])")]
        .filter(e => e.checkVisibility() && !e.matches(".skip"))
        .filter(e => !e.closest("p:not(.doors), dd, pre, .means .what"))
        .map(e => [e.textContent.trim().slice(0, 40) || e.name, e.getBoundingClientRect().height])
        .filter(([, height]) => height > 0 && height < 47.5)
"""


@pytest.fixture(scope="module")
def chromium(chromium_path) -> Iterator[Browser]:
    # Playwright's loop runs in this thread, so Django takes the thread for an asynchronous one; it is not.
    with pytest.MonkeyPatch.context() as patch, sync_playwright() as player:
        patch.setenv("DJANGO_ALLOW_ASYNC_UNSAFE", "true")
        expect.set_options(timeout=20_000)  # a busy machine is slow, not wrong
        browser = player.chromium.launch(executable_path=str(chromium_path), args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def site(transactional_db, live_server, settings) -> SimpleNamespace:
    """The demo, served."""
    settings.MEETWARD_DEMO = True
    forget_kept()  # another test's club had the same number
    demo.fill()
    club = demo.people.club(demo.people.seats(demo.coach().pk)[0].club_id)
    key = demo.squad.lifters(club.id)[0].key
    return SimpleNamespace(url=live_server.url, book=club.current_book_id, key=key)


@pytest.fixture
def opened(chromium, site):
    """Opens a page that keeps what goes wrong in ``page.faults`` and never leaves the site's own host."""
    contexts = []

    def one(viewport=LAPTOP, scheme="light", **options) -> Page:
        context = chromium.new_context(viewport=viewport, color_scheme=scheme, base_url=site.url, **options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(30_000)
        page.faults = []
        own = urlsplit(site.url).netloc
        page.on("pageerror", lambda error: page.faults.append(f"script: {error}"))
        page.on(
            "console",
            lambda said: page.faults.append(f"console: {said.text}") if said.type == "error" else None,
        )
        page.on(
            "request",
            lambda asked: (
                page.faults.append(f"other host: {asked.url}") if urlsplit(asked.url).netloc != own else None
            ),
        )
        return page

    yield one
    for context in contexts:
        context.close()


def sign_in(page: Page) -> None:
    page.goto("/")
    page.get_by_role("button", name="Sign in as the demo coach").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Which cycles do we have?")


def faults_of(page: Page, address: str) -> list[str]:
    """What is wrong with an opened page: rules of accessibility, sideways scrolling, headings."""
    result = Axe().run(page, options={"resultTypes": ["violations"]})
    faults = [
        f"{address}: {rule['id']}: {node['target']} {node['html'][:120]}"
        for rule in result.response["violations"]
        for node in rule["nodes"][:3]
    ]
    if page.evaluate("document.documentElement.scrollWidth > window.innerWidth"):
        faults.append(f"{address}: scrolls sideways")
    if (count := page.locator("h1").count()) != 1:
        faults.append(f"{address}: {count} first headings")
    return faults
