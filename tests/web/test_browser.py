"""The site in a real browser: by mouse, by keyboard, on a phone and a laptop, by day and by night."""

import pytest
from playwright.sync_api import expect

from tests.web.browsing import FOCUS_SHOWS, LAPTOP, PHONE, SMALL_TARGETS, faults_of, sign_in

PAGES = (
    "/", "/cycles/", "/cycles/{book}/", "/cycles/{book}/weeks/1/sessions/1/",
    "/cycles/{book}/weeks/1/sessions/1/?lifter={key}", "/cycles/{book}/weeks/1/sessions/1/teaching/",
    "/cycles/{book}/text/", "/cycles/{book}/versions/1/",
    "/cycles/new/", "/squad/", "/squad/{key}/", "/squad/{key}/days/week-1-session-1/",
    "/squad/{key}/days/2027-01-03/", "/squad/{key}/week/1/", "/import/squad/", "/fits/",
    "/squad/greta-sallow/fit/", "/squad/marcus-oyelaran/fit/", "/squad/dermot-kell/fit/",
    "/squad/wren-aldous/fit/", "/squad/greta-sallow/fit/delete/",
    "/squad/greta-sallow/days/2027-03-28/", "/catalogue/",
    "/catalogue/?q=snatch", "/catalogue/?q=zzz", "/catalogue/snatch/", "/catalogue/snatch_bar_warm_up/",
    "/catalogue/?family=jerk&equipment=rack", "/catalogue/snatch/change/", "/own-catalogue/",
    "/own-catalogue/new/movement/", "/own-catalogue/new/drill/", "/own-catalogue/text/", "/import/catalogue/",
    "/nowhere/",
)  # fmt: skip


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("viewport", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_every_page_is_open_to_everybody_and_stands_in_its_frame(opened, site, viewport, scheme):
    page = opened(viewport, scheme)
    page.goto("/sign-in/")
    found = faults_of(page, "/sign-in/")
    sign_in(page)
    for address in PAGES:
        page.goto(address.format(book=site.book, key=site.key))
        found += faults_of(page, address)
    # The browser itself reports the page that is meant to be missing.
    found += [fault for fault in page.faults if "status of 404" not in fault]

    assert found == []


def test_a_coach_goes_from_one_click_to_a_lifters_day(opened):
    page = opened(PHONE)
    sign_in(page)
    page.get_by_role("link", name="Eskmouth Spring Open").first.click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("How do the weeks run?")
    page.locator("table.cycle tbody a").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What does this session mean?")
    page.get_by_label("Kilos for").select_option(index=1)
    page.get_by_role("button", name="Show").click()
    expect(page.locator(".means .kilos").first).to_contain_text("kg")
    page.get_by_role("navigation", name="Main").get_by_role("link", name="Squad").click()
    page.locator("table tbody th a").first.click()
    page.get_by_role("link", name="lift today?").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("What do I lift")
    assert page.locator("article.day .kilos").count() > 0
    assert page.faults == []


def test_the_site_works_without_scripts(opened, site):
    page = opened(java_script_enabled=False)
    sign_in(page)
    page.goto(f"/cycles/{site.book}/text/")
    text = page.locator("textarea").input_value()
    page.locator("textarea").fill(text + "\nSunday: Extra\nLifts:\nSnacth 3x3 @ 70%\n")
    page.get_by_role("button", name="Check").click()
    expect(page.locator(".findings")).to_contain_text("Snacth")
    page.get_by_role("button", name="Save as version 2").click()
    expect(page.get_by_role("status")).to_have_text("Saved as version 2.")


def test_two_coaches_who_save_at_once_lose_nothing(opened, site):
    first, second = opened(), opened()
    for page in (first, second):
        sign_in(page)
        page.goto(f"/cycles/{site.book}/text/")
    for page, words in ((first, "Note: from the first coach"), (second, "Note: from the second coach")):
        page.locator("textarea").evaluate("(field, words) => { field.value += words }", f"\n{words}\n")
        page.get_by_role("button", name="Save as version 2").click()

    alert = second.get_by_role("alert")
    expect(alert).to_contain_text("saved version 2")
    expect(alert).to_contain_text("from the first coach")
    assert "from the second coach" in second.locator("textarea").input_value()
    second.get_by_role("button", name="Save as version 3").click()
    expect(second.get_by_role("status")).to_have_text("Saved as version 3.")


def test_the_keyboard_reaches_everything_and_shows_where_it_is(opened, site):
    page = opened()
    sign_in(page)
    page.goto(f"/cycles/{site.book}/")
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("Skip to the page")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "page"
    seen = []
    for _ in range(10):
        page.keyboard.press("Tab")
        seen.append(page.evaluate(FOCUS_SHOWS))
    assert all(shows for _, _, shows in seen), seen
    assert any(name == "sweep" for _, name, _ in seen), "the grid can be scrolled by keyboard"
    page.locator("table.cycle tbody a").first.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("What does this session mean?")


def test_targets_on_a_phone_are_large_enough_for_a_thumb(opened, site):
    page = opened(PHONE)
    sign_in(page)
    small = []
    for address in PAGES:
        page.goto(address.format(book=site.book, key=site.key))
        small += [f"{address}: {words} ({height:.0f} px)" for words, height in page.evaluate(SMALL_TARGETS)]

    assert small == [], "\n".join(small)


def test_the_grid_keeps_its_days_in_sight_while_it_is_swept(opened, site):
    page = opened(PHONE)
    sign_in(page)
    page.goto(f"/cycles/{site.book}/")
    before = page.locator("table.cycle tbody th").first.bounding_box()
    moved = page.evaluate(
        "() => { const s = document.querySelector('.sweep'); s.scrollLeft = 400; return s.scrollLeft }"
    )
    after = page.locator("table.cycle tbody th").first.bounding_box()

    assert moved == 400
    assert after["x"] == pytest.approx(before["x"], abs=20)
    assert after["x"] >= 0


@pytest.mark.parametrize("lifts", ["column", "line"])
def test_the_load_line_stands_above_its_weeks(opened, site, lifts):
    page = opened()
    sign_in(page)
    page.goto(f"/cycles/{site.book}/")
    heads = [
        box["x"] + box["width"] / 2 for box in (e.bounding_box() for e in page.locator(".heads th").all())
    ]
    marks = page.locator(".load-line rect" if lifts == "column" else ".load-line circle").all()
    middles = [box["x"] + box["width"] / 2 for box in (e.bounding_box() for e in marks)]

    assert len(middles) == len(heads)
    assert middles == pytest.approx(heads, abs=3)
