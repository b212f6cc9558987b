"""A lifter's fit in a real browser: the wish, the proposal and the yes, with and without scripts."""

import pytest
from playwright.sync_api import expect

from meetward.web.actions.fitting import forget_fits
from tests.web.browsing import FOCUS_SHOWS, LAPTOP, PHONE, SMALL_TARGETS, faults_of, sign_in

WAITS, FITTED, NOTHING, EMPTY, STALE = (
    f"/squad/{key}/fit/"
    for key in ("mehwish-qadri", "greta-sallow", "marcus-oyelaran", "wren-aldous", "saskia-lund")
)


@pytest.fixture(autouse=True)
def _anew():
    forget_fits()  # another test's version had the same number


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("viewport", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_opened_parts_mistakes_and_the_list_of_yeses_are_open_to_everybody(opened, viewport, scheme):
    page = opened(viewport, scheme)
    sign_in(page)
    page.goto(WAITS)
    for summary in page.locator("main summary").all():
        summary.click()
    found = faults_of(page, "all opened")
    page.get_by_label("Minutes for a session").fill("an hour")
    page.get_by_role("button", name="Save and see").click()
    expect(page.get_by_role("alert")).to_contain_text("1 thing to mend")
    found += faults_of(page, "a form with a mistake")
    page.goto(STALE)
    found += faults_of(page, STALE)
    page.goto("/fits/")
    page.locator("input[name=key]").first.check()
    page.get_by_role("button", name="What would a yes change").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What would your yes change?")
    found += faults_of(page, "before the yes")
    # The browser itself reports the form that was refused.
    found += [fault for fault in page.faults if "status of 422" not in fault]

    assert found == []


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_a_coach_goes_from_a_wish_to_the_day_that_is_drawn_from_it(opened, script):
    page = opened(PHONE, java_script_enabled=script)
    sign_in(page)
    page.goto(EMPTY)
    page.get_by_label("Meet or test day").fill("2027-03-13")
    page.get_by_label("Name of the meet").fill("Skerry Open")
    page.get_by_label("Friday").uncheck()
    page.get_by_label("Minutes for a session").fill("80")
    page.get_by_label("From, row 1").fill("2027-02-01")
    page.get_by_label("To, row 1").fill("2027-02-07")
    page.get_by_label("Reason, row 1").fill("school trip")
    page.get_by_role("button", name="Save and see").click()
    expect(page.get_by_role("status")).to_contain_text("until you say yes")
    expect(page.locator(".fit-calendar")).to_contain_text("school trip")
    expect(page.locator(".fit-calendar")).to_contain_text("Skerry Open")
    page.get_by_role("button", name="Yes, train from this fit").click()
    expect(page.get_by_role("status")).to_contain_text("drawn from this fit")
    page.locator(".fit-calendar td.session a").first.click()
    expect(page.locator("main")).to_contain_text("fitted to their meet on Saturday 13 March 2027.")
    assert page.locator("article.day .kilos").count() > 0
    page.goto(EMPTY)
    page.get_by_role("button", name="Take the yes back").click()
    expect(page.get_by_role("status")).to_contain_text("club's own calendar")
    assert page.faults == []


def test_everything_is_large_enough_for_a_thumb_and_reached_by_keyboard(opened):
    page = opened(PHONE)
    sign_in(page)
    small = []
    for address in (WAITS, FITTED, NOTHING, EMPTY, "/fits/"):
        page.goto(address)
        for summary in page.locator("main summary").all():
            summary.click() if not summary.evaluate("e => e.parentElement.open") else None
        small += [(address, *one) for one in page.evaluate(SMALL_TARGETS)]
    assert small == []
    page.goto(WAITS)
    seen = []
    for _ in range(40):
        page.keyboard.press("Tab")
        tag, name, shows = page.evaluate(FOCUS_SHOWS)
        seen.append(tag)
        assert shows, (tag, name)
        if page.evaluate("document.activeElement.textContent").startswith("Yes, train"):
            break
    else:
        pytest.fail(f"the yes is not reached: {seen}")
    page.keyboard.press("Enter")
    expect(page.get_by_role("status")).to_contain_text("Done.")


def test_a_calendar_on_the_phone_shows_the_days_with_something_on_them(opened):
    page = opened(PHONE)
    sign_in(page)
    page.goto(FITTED)

    assert not page.locator(".fit-calendar td.free").first.is_visible()
    assert page.locator(".fit-calendar td.session .when").first.is_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    page.set_viewport_size(LAPTOP)
    assert page.locator(".fit-calendar td.free").first.is_visible()
