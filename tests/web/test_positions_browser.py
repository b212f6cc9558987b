"""A lifter's positions in a real browser: the heel slides, the drawing and the words follow."""

import pytest
from playwright.sync_api import expect

from tests.web.browsing import FOCUS_SHOWS, LAPTOP, PHONE, SMALL_TARGETS, faults_of, sign_in

STIFF, SHORT_RACK, EMPTY = (
    f"/squad/{key}/positions/" for key in ("tobias-marr", "mehwish-qadri", "ilse-vandermeer")
)
PAGES = (
    STIFF, STIFF + "?heel=20", SHORT_RACK, EMPTY, STIFF + "measures/", STIFF + "measures/?on=2026-09-12",
    STIFF + "delete/", EMPTY + "delete/",
)  # fmt: skip
SLIDER = "Heel of the shoe, slider in millimetres"
DRAWING = "#overhead-squat figure:first-child .fig-near"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("viewport", [PHONE, LAPTOP], ids=["phone", "laptop"])
def test_every_page_stands_in_its_frame_and_is_open_to_everybody(opened, viewport, scheme):
    page = opened(viewport, scheme)
    sign_in(page)
    found = []
    for address in PAGES:
        page.goto(address)
        found += faults_of(page, address)
    page.goto(STIFF)
    page.locator("summary").click()
    found += faults_of(page, "opened")
    page.goto(STIFF + "measures/")
    page.get_by_label("Height", exact=True).fill("17")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("alert")).to_contain_text("1 thing to mend")
    found += faults_of(page, "a form with a mistake")
    # The browser itself reports the form that was refused.
    found += [fault for fault in page.faults if "status of 422" not in fault]

    assert found == []


def test_the_slider_changes_the_drawing_the_limiting_words_and_the_address(opened):
    page = opened()
    sign_in(page)
    page.goto(STIFF)
    before = page.locator(DRAWING).get_attribute("d")
    words = page.locator("#overhead-squat .facts").inner_text()
    assert "The ankle gives out first" in words
    page.get_by_label(SLIDER).fill("40")

    expect(page.locator("#overhead-squat figcaption").first).to_contain_text("40 mm heel")
    assert page.locator(DRAWING).get_attribute("d") != before
    after = page.locator("#overhead-squat .facts").inner_text()
    assert after != words
    assert "Not reached" not in after
    expect(page.get_by_label("Heel of the shoe", exact=True)).to_have_value("40")
    expect(page.get_by_role("status")).to_contain_text("40 mm heel. Front squat, bottom: reached.")
    assert page.url.endswith("?heel=40")
    assert page.locator("#front-squat figure").count() == 2, "and the same without the heel"
    page.reload()
    expect(page.get_by_label(SLIDER)).to_have_value("40")
    assert page.faults == []


def test_sliding_quickly_ends_with_the_last_heel(opened):
    page = opened()
    sign_in(page)
    page.goto(STIFF)
    slider = page.get_by_label(SLIDER)
    for mm in (5, 12, 33, 18, 26):
        slider.fill(str(mm))

    expect(page.locator("#front-squat figcaption").first).to_have_text("26 mm heel")
    page.wait_for_timeout(400)
    expect(page.locator("#front-squat figcaption").first).to_have_text("26 mm heel")
    assert page.faults == []


def test_drawings_that_cannot_be_fetched_are_said_and_the_old_ones_stay(opened):
    page = opened()
    sign_in(page)
    page.goto(STIFF)
    page.route("**/positions/?heel=*", lambda route: route.abort())
    page.get_by_label(SLIDER).fill("30")

    expect(page.locator("#drawn-said")).to_have_text(
        "The drawings could not be fetched. Press Draw to try again."
    )
    expect(page.locator("#drawn-said")).to_be_in_viewport()
    expect(page.locator("#front-squat figcaption").first).to_have_text("Barefoot")
    page.unroute("**/positions/?heel=*")
    page.get_by_label(SLIDER).fill("31")
    expect(page.locator("#front-squat figcaption").first).to_have_text("31 mm heel")
    expect(page.locator("#drawn-said.stop")).to_have_count(0)


def test_without_scripts_the_heel_is_a_form(opened):
    page = opened(java_script_enabled=False)
    sign_in(page)
    page.goto(STIFF)
    expect(page.get_by_label(SLIDER)).to_be_hidden()
    page.get_by_label("Heel of the shoe", exact=True).fill("20")
    page.get_by_role("button", name="Draw").click()

    expect(page.locator("#front-squat figcaption").first).to_have_text("20 mm heel")
    assert page.url.endswith("?heel=20")


def test_measures_are_entered_drawn_taken_out_and_deleted_by_keyboard_alone(opened):
    page = opened()
    sign_in(page)
    page.goto(EMPTY)
    expect(page.locator(".empty")).to_contain_text("Nothing to draw from yet")
    press(page, page.locator(".empty .button"))
    expect(page.get_by_role("heading", level=1)).to_have_text("What was measured?")
    tab_to(page, page.get_by_label("Height", exact=True))
    page.keyboard.type("168,5")
    tab_to(page, page.get_by_role("group", name="Knee to wall").get_by_label("Left"))
    page.keyboard.type("7")
    page.keyboard.press("Tab")
    page.keyboard.type("7,5")
    tab_to(page, page.get_by_role("group", name="Front rack").get_by_label("not tested"))
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    press(page, page.get_by_role("button", name="Save"))
    expect(page.get_by_role("status").first).to_have_text("Measures and tests are saved.")
    expect(page.locator("#front-rack .verdict")).to_have_text("Not passed")
    expect(page.locator("#front-squat .facts")).to_contain_text("their 7 cm on the left points to")
    tab_to(page, page.get_by_label(SLIDER))
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    expect(page.locator("#front-squat figcaption").first).to_have_text("3 mm heel")
    with page.expect_download() as download:
        press(page, page.get_by_role("link", name="Take it out as a file"))
    assert download.value.suggested_filename == "positions.json"
    press(page, page.get_by_role("link", name="Delete it all"))
    press(page, page.get_by_role("button", name="Delete it all"))
    expect(page.locator(".said").first).to_have_text("Measures and tests are deleted.")
    expect(page.locator(".empty")).to_contain_text("Nothing to draw from yet")
    assert page.faults == []


def tab_to(page, target) -> None:
    """Press Tab until the target has the focus, and see that it shows."""
    for _ in range(80):
        if target.evaluate("e => e === document.activeElement"):
            assert page.evaluate(FOCUS_SHOWS)[2], "the focus shows"
            return
        page.keyboard.press("Tab")
    raise AssertionError(f"{target} is not reached by keyboard")


def press(page, target) -> None:
    tab_to(page, target)
    page.keyboard.press("Enter")


def test_targets_on_a_phone_are_large_enough_and_the_slider_stays_in_sight(opened):
    page = opened(PHONE)
    sign_in(page)
    small = []
    for address in PAGES:
        page.goto(address)
        small += [f"{address}: {words} ({height:.0f} px)" for words, height in page.evaluate(SMALL_TARGETS)]
    assert small == [], "\n".join(small)

    page.goto(STIFF)
    page.locator("#overhead-squat h2").evaluate("e => e.scrollIntoView({ block: 'center' })")
    expect(page.get_by_label(SLIDER)).to_be_in_viewport()
    page.get_by_label(SLIDER).fill("40")
    expect(page.locator("#overhead-squat figcaption").first).to_contain_text("40 mm heel")
    expect(page.locator("#overhead-squat h2")).to_be_in_viewport()


def test_on_paper_the_drawings_stand_without_their_controls(opened):
    page = opened()
    sign_in(page)
    page.goto(STIFF + "?heel=20")
    page.emulate_media(media="print")

    expect(page.locator("#front-squat svg").first).to_be_visible()
    expect(page.locator("#heel")).to_be_hidden()
    expect(page.locator("#overhead-squat .verdict")).to_be_visible()
    expect(page.locator(".care")).to_be_visible()
