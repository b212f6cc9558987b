"""The catalogue in a real browser: found while typing, by keyboard alone; an own entry to its end."""

import re

from playwright.sync_api import expect

from tests.web.browsing import FOCUS_SHOWS, PHONE, faults_of, sign_in


def test_the_list_follows_what_is_typed_and_so_does_the_address(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/")
    page.get_by_label("A movement, a drill or a warm-up").press_sequentially("hang pwr sn", delay=15)

    expect(page.get_by_role("status")).to_contain_text("found for “hang pwr sn”")
    expect(page.locator("#found li a").first).to_have_text("Hang power snatch")
    expect(page).to_have_url(re.compile(r"/catalogue/\?q=hang\+pwr\+sn$"))
    page.locator("#found li a").first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Hang power snatch")
    page.go_back()
    expect(page.get_by_role("heading", level=1)).to_have_text("How is it done?")
    expect(page.get_by_label("A movement, a drill or a warm-up")).to_have_value("hang pwr sn")
    expect(page.locator("#found li a").first).to_have_text("Hang power snatch")
    assert page.faults == []


def test_a_misspelling_is_spoken_of_and_emptying_the_field_brings_the_families_back(opened):
    page = opened(PHONE)
    sign_in(page)
    page.goto("/catalogue/")
    field = page.get_by_label("A movement, a drill or a warm-up")
    field.fill("snacth blance")
    expect(page.get_by_role("status")).to_contain_text("Nothing is called “snacth blance”; nearest:")
    expect(page.locator("#found li a").first).to_have_text("Snatch balance")
    field.fill("")
    expect(page.locator("#found details.family").first).to_be_visible()
    expect(page).to_have_url(re.compile(r"/catalogue/$"))


def test_only_the_last_question_is_answered(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/")
    field = page.get_by_label("A movement, a drill or a warm-up")
    for words in ("snatch", "clean", "jerk", "ohs"):
        field.fill(words)
    expect(page.locator("#found li a").first).to_have_text("Overhead squat")
    page.wait_for_timeout(400)
    expect(page.locator("#found li a").first).to_have_text("Overhead squat")


def test_a_list_that_cannot_be_fetched_is_told_and_the_button_still_works(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/")
    page.route("**/catalogue/?q=*", lambda route: route.abort())
    page.get_by_label("A movement, a drill or a warm-up").fill("ohs")
    expect(page.get_by_role("status")).to_contain_text("could not be fetched. Press Find")
    page.unroute("**/catalogue/?q=*")
    page.get_by_role("button", name="Find").click()
    expect(page.locator("#found li a").first).to_have_text("Overhead squat")


def test_a_form_saved_as_it_was_opened_changes_nothing(opened):
    page = opened()
    sign_in(page)
    for id_ in ("snatch", "good_morning", "ankle_rock"):
        page.goto(f"/catalogue/{id_}/change/")
        page.get_by_role("button", name="Save").click()
        expect(page.get_by_role("status")).to_contain_text("Nothing differs")


def test_paper_has_what_the_page_folds(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/snatch/")
    words = page.locator(".folded details p").first
    assert not words.evaluate("e => e.checkVisibility()")
    page.emulate_media(media="print")

    assert words.evaluate("e => e.checkVisibility()")


def test_filters_answer_at_once_and_without_scripts_by_the_button(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/")
    page.get_by_text("Only some of them").click()
    page.get_by_label("Family").select_option("jerk")
    expect(page).to_have_url(re.compile(r"\?family=jerk$"))
    expect(page.get_by_role("status")).to_contain_text("found")

    plain = opened(java_script_enabled=False)
    sign_in(plain)
    plain.goto("/catalogue/?q=jerk")
    plain.get_by_text("Only some of them").click()
    plain.get_by_label("Needs").select_option("rack")
    plain.get_by_role("button", name="Find").click()
    expect(plain).to_have_url(re.compile("equipment=rack"))
    expect(plain.locator("#found li a").first).to_be_visible()


def test_an_entry_is_found_and_unfolded_by_keyboard_alone(opened):
    page = opened()
    sign_in(page)
    page.goto("/catalogue/")
    page.get_by_label("A movement, a drill or a warm-up").focus()
    page.keyboard.type("btn jerk")
    expect(page.locator("#found li a").first).to_have_text("Jerk behind the neck")
    seen = []
    for _ in range(6):
        page.keyboard.press("Tab")
        seen.append(page.evaluate(FOCUS_SHOWS))
        if page.evaluate("document.activeElement.textContent") == "Jerk behind the neck":
            break
    assert all(shows for _, _, shows in seen), seen
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Jerk behind the neck")
    page.locator(".folded summary").nth(2).focus()
    assert page.evaluate(FOCUS_SHOWS)[2]
    page.keyboard.press("Space")
    expect(page.locator(".folded details").nth(2)).to_have_attribute("open", "")


def test_a_coach_adds_a_movement_writes_it_in_the_cycle_and_takes_it_back(opened, site):
    page = opened(PHONE)
    sign_in(page)
    page.goto("/own-catalogue/")
    page.get_by_role("link", name="Add a movement").click()
    page.get_by_label("Name", exact=True).fill("Rail squat")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".wrong", has=page.get_by_label("Family"))).to_contain_text("has to be filled in")
    found = faults_of(page, "the form with a fault")
    page.get_by_label("Family").select_option("squat")
    page.get_by_label("Cues").fill("Down slow\nUp fast\nHeels flat")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("status").first).to_contain_text("Rail squat is saved")
    expect(page.locator(".cue-row li").first).to_have_text("Down slow")

    page.goto(f"/cycles/{site.book}/text/")
    text = page.locator("textarea").input_value()
    page.locator("textarea").fill(text + "\nSunday: Rails\nLifts:\nRail squat 3x5 @ 70%\n")
    page.get_by_role("button", name="Save as version 2").click()
    page.goto("/catalogue/rail_squat/")
    expect(page.locator(".places")).to_contain_text("1 time in 1 week")
    page.locator(".visits a").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("What does this session mean?")
    expect(page.get_by_role("link", name="Rail squat")).to_be_visible()

    page.goto("/catalogue/rail_squat/change/")
    page.get_by_role("button", name="Take it out of our catalogue").click()
    expect(page.get_by_role("status")).to_contain_text("is no longer in your catalogue")
    page.go_back()
    page.goto("/own-catalogue/text/")
    page.get_by_label("The text of your catalogue").fill('[[movement]]\nid = "snatch"\ncues = "One"\n')
    page.get_by_role("button", name="Check").click()
    expect(page.locator(".findings")).to_contain_text("line 3")
    found += faults_of(page, "the text with a fault")
    assert found == []
    assert [fault for fault in page.faults if "status of 422" not in fault] == []


def test_a_drawing_takes_the_colours_of_the_night(opened):
    page = opened(scheme="dark")
    sign_in(page)
    page.goto("/catalogue/snatch/")
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    bar = page.locator(".key-positions.wide .fig-bar").first.evaluate("e => getComputedStyle(e).fill")
    near = page.locator(".key-positions.wide .fig-near").first.evaluate("e => getComputedStyle(e).color")

    assert paper == "rgb(27, 34, 48)"
    assert bar == "rgb(131, 204, 197)"
    assert near == "rgb(251, 250, 246)"
