"""The catalogue on the site: the search, an entry's page, where it stands in the cycle, two warm-ups."""

import re
from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from meetward.web.actions.places import places
from meetward.web.pages.sequences import compared
from meetward.web.store import cycles, people
from tests.web import club as values

ALL = values.shipped()
SCRIPT = "<script>alert(1)</script>"


def page_of(answer) -> str:
    assert answer.status_code == 200
    return answer.content.decode()


def names(page: str) -> list[str]:
    """The entries of a list of results, in their order."""
    return re.findall(r'<li[^>]*><a href="/catalogue/(\w+)/">', page)


# Search


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("BTN jerk", "jerk_behind_neck"),
        ("rack jerk", "jerk"),
        ("jerk behind neck", "jerk_behind_neck"),
        ("hang pwr sn", "hang_power_snatch"),
        ("ohs", "overhead_squat"),
        ("snacth blance", "snatch_balance"),
    ],
)
def test_the_right_entry_leads(browse, words, id_):
    assert names(page_of(browse("lifter").get("/catalogue/", {"q": words})))[0] == id_


def test_a_misspelling_is_told_beside_its_results(browse):
    page = page_of(browse("lifter").get("/catalogue/", {"q": "snacth blance"}))

    assert "Nothing is called “snacth blance”; nearest:" in page
    assert 'value="snacth blance"' in page


def test_filters_are_fields_that_keep_what_was_chosen(browse):
    answer = browse("lifter").get("/catalogue/", {"q": "pull", "family": "pull", "equipment": "blocks"})
    page = page_of(answer)

    assert names(page)
    assert all(ALL.movements[id_].family == "pull" for id_ in names(page))
    assert all("blocks" in ALL.movements[id_].equipment for id_ in names(page))
    assert '<option value="blocks" selected>' in page
    assert re.search(r'<details class="sieve" open>', page)


def test_a_filter_alone_lists_all_that_it_leaves(browse):
    page = page_of(browse("lifter").get("/catalogue/", {"region": "ankle", "every": "1"}))

    assert sorted(names(page)) == sorted(d.id for d in ALL.drills.values() if "ankle" in d.regions)


def test_filters_that_leave_nothing_say_how_many_go_by_the_name(browse):
    page = page_of(browse("lifter").get("/catalogue/", {"q": "snatch", "equipment": "sled"}))

    assert "with these filters" in page
    assert re.search(r"\d+ go by that name", page)
    assert 'href="?q=snatch"' in page


@pytest.mark.parametrize(
    "query", ["family=nothing", "kind=%00", "level=" + "x" * 5000, "position=dip&position=x"]
)
def test_a_filter_that_nobody_offers_is_none(browse, query):
    assert browse("lifter").get(f"/catalogue/?{query}").status_code == 200


def test_the_results_alone_answer_a_script_and_the_page_answers_everybody_else(browse):
    client = browse("lifter")
    part = client.get("/catalogue/", {"q": "jerk"}, headers={"X-Part": "found"})
    whole = client.get("/catalogue/", {"q": "jerk"})

    assert "<html" not in part.content.decode()
    assert names(page_of(part)) == names(page_of(whole))
    assert "X-Part" in part["Vary"]
    assert "X-Part" in whole["Vary"]
    assert re.search(r"data-said>\d+ found for “jerk”", part.content.decode())


def test_long_lists_are_cut_and_can_be_had_whole(browse):
    client = browse("lifter")
    page = page_of(client.get("/catalogue/", {"q": "snatch"}))
    every = page_of(client.get("/catalogue/", {"q": "snatch", "every": "1"}))

    assert len(names(page)) == 30
    assert f"Show all {len(names(every))}" in page


def test_words_that_are_script_are_shown_as_words(browse):
    for query in ({"q": SCRIPT}, {"q": "snacth " + SCRIPT}, {"q": SCRIPT, "family": "jerk"}):
        for headers in ({}, {"X-Part": "found"}):
            assert SCRIPT not in page_of(browse("lifter").get("/catalogue/", query, headers=headers))


# An entry


def test_drawing_lines_cues_and_cautions_stand_before_what_is_folded(browse):
    page = page_of(browse("lifter").get("/catalogue/snatch/"))
    snatch = ALL.movements["snatch"]
    order = [
        page.index("<svg"), page.index(snatch.summary[:30]), page.index(snatch.cues[0]),
        page.index("Take care"),
        page.index('<div class="folded">'), page.index("Set-up"), page.index("Faults and fixes"),
    ]  # fmt: skip

    assert order == sorted(order)
    for said in ("For a beginner", "Joints and ranges", "Usual sets and reps", "Against other bests"):
        assert said in page.partition('<div class="folded">')[2]
    assert "Takano" in page, "a ratio names its source"


def test_what_a_group_shares_stands_under_its_name(browse):
    hang = ALL.movements["hang_snatch"]
    group = ALL.shared[hang.shares[0]]
    page = page_of(browse("lifter").get("/catalogue/hang_snatch/"))

    assert f"{group.name}:</b>" in page


def test_replacements_are_links(browse):
    one = next(m for m in ALL.movements.values() if m.easier and m.harder and m.instead)
    page = page_of(browse("lifter").get(f"/catalogue/{one.id}/"))

    for id_ in (*one.easier, *one.harder, *one.instead):
        assert f'href="/catalogue/{id_}/"' in page


# Where it is in the cycle


def test_a_coach_sees_every_place_with_its_sets_and_a_link_to_the_session(club, browse):
    page = page_of(browse("owner").get("/catalogue/snatch/"))

    # By hand from the text: Monday of week 1, 4 x 3 at 70 %; Monday of week 2, 3 x 1 at 85 %.
    assert "2 times in 2 weeks" in page
    assert f"/cycles/{club.book}/weeks/1/sessions/1/" in page
    assert "4 × 3, rest 2:00 at 70 %" in page
    assert "3 × 1 at 85 %" in page


def test_a_lifter_is_led_to_the_own_day(club, browse):
    page = page_of(browse("lifter").get("/catalogue/snatch/"))

    assert "2 times in 2 weeks" in page
    assert "/squad/anouk-varley/days/week-1-session-1/" in page
    assert f"/cycles/{club.book}/" not in page


@pytest.mark.parametrize("role", ["stranger", "no club"])
def test_others_learn_nothing_of_the_cycle(browse, role):
    page = page_of(browse(role).get("/catalogue/snatch/"))

    assert "Eskmouth" not in page
    assert "this cycle" not in page


def test_an_entry_that_is_not_in_the_cycle_says_so(browse):
    assert "It does not stand in Two weeks" in page_of(browse("owner").get("/catalogue/sumo_deadlift/"))


@pytest.mark.parametrize(
    ("today", "ahead", "behind"),
    [
        (date(2026, 12, 1), [(1, 1), (2, 1)], []),
        (date(2026, 12, 28), [(1, 1), (2, 1)], []),
        (date(2026, 12, 29), [(2, 1)], [(1, 1)]),
        (date(2027, 1, 5), [], [(2, 1), (1, 1)]),
    ],
)
def test_the_next_one_stands_first(asks, today, ahead, behind):
    for role in ("owner", "lifter"):
        found = places(asks(role), "snatch", today)
        assert [(p.slot.week, p.slot.session) for p in found.ahead] == ahead
        assert [(p.slot.week, p.slot.session) for p in found.behind] == behind


def test_work_between_sets_and_steps_of_a_warm_up_are_places_too(club, asks):
    text = values.TEXT.replace(
        "Lifts:\nSnatch 4x3", "Warm-up:\nSnatch bar warm-up\nLifts:\nSnatch 4x3"
    ).replace("  note: pause long", "  between: ankle rock, 5 each side\n  note: pause long")
    book = cycles.open_book(club.id, "With warm-up", values.cycle(text), text, author_id=None)
    people.train_from(club.id, book)
    today = date(2026, 12, 1)

    rocks = [p for p in places(asks("owner"), "ankle_rock", today).ahead if p.slot.week == 1]
    assert ("5 each side", "between the sets of snatch") in {(p.said, p.inside) for p in rocks}
    assert "in the snatch bar warm-up" in {p.inside for p in rocks}
    [bar] = places(asks("owner"), "snatch_bar_warm_up", today).ahead
    assert bar.segment == "warm-up"


def test_a_complex_is_a_place_with_its_whole_name(club, asks):
    text = values.TEXT.replace("Clean and jerk 5x(1+1) @ 80%", "Clean pull + clean 4x(2+1) @ 75%")
    book = cycles.open_book(club.id, "Complex", values.cycle(text), text, author_id=None)
    people.train_from(club.id, book)

    [place] = places(asks("owner"), "clean_pull", date(2026, 12, 1)).ahead
    assert place.said.startswith("Clean pull + clean: 4 × (2+1)")


def test_a_club_without_a_cycle_has_no_places(club, asks):
    assert places(asks("stranger"), "snatch", date(2026, 12, 1)) is None


@pytest.mark.parametrize(("role", "count"), [("owner", 6), ("lifter", 8)])
def test_an_entry_asks_the_database_a_known_number_of_times(browse, role, count):
    client = browse(role)
    client.get("/catalogue/snatch/")
    with CaptureQueriesContext(connection) as captured:
        client.get("/catalogue/snatch/")

    assert len(captured) == count


# Warm-ups


def test_two_versions_of_a_warm_up_stand_side_by_side(browse):
    page = page_of(browse("lifter").get("/catalogue/snatch_bar_warm_up/"))
    old, new = ALL.versions["snatch_bar_warm_up"][:2]

    assert "What changed between versions" in page
    assert new.changed[:40] in page
    assert f"{len(old.steps)} steps in about {old.minutes} minutes became {len(new.steps)}" in page
    assert "taken out" in page


@pytest.mark.parametrize("query", ["from=1&to=2", "from=2&to=1", "from=99&to=x", "from=1&to=1", "from=%00"])
def test_versions_are_chosen_by_number(browse, query):
    assert browse("lifter").get(f"/catalogue/snatch_bar_warm_up/?{query}").status_code == 200


def test_a_comparison_holds_every_step_of_both_once_and_in_order():
    for versions in ALL.versions.values():
        for old in versions:
            for new in versions:
                pairs = compared(old, new, ALL)
                assert [p.before.of for p in pairs if p.before] == [s.of for s in old.steps]
                assert [p.after.of for p in pairs if p.after] == [s.of for s in new.steps]
                for pair in pairs:
                    same = pair.before and pair.after and pair.before.of == pair.after.of
                    assert bool(same) == (pair.change in ("", "dose"))
                assert old is not new or {p.change for p in pairs} == {""}
