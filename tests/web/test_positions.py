"""The page of a lifter's own positions: who sees it, what it says, what is kept and how it goes."""

import json
import re
from datetime import date

import msgspec
import pytest
from django.utils import timezone

from meetward.body.segments import Measures
from meetward.lifter.screen import Screen, Sides
from meetward.web.actions.positions import Positions, current, retests, with_screen
from meetward.web.models import PositionsRow
from meetward.web.store import positions as store
from meetward.web.store import squad
from tests.web import club as values

PAGE = "/squad/anouk-varley/positions/"
FORM = PAGE + "measures/"
SECRET = ("171.3", "8.25", "knee to wall")
STIFF = Positions(
    Measures(height_cm=171.3, thigh_cm=43.5),
    (
        Screen(taken=date(2026, 9, 12), knee_to_wall=Sides(6.5, 8), front_rack=True, overhead_reach=True),
        Screen(taken=date(2026, 11, 7), knee_to_wall=Sides(8.25, 10.5)),
    ),
)


@pytest.fixture
def kept(club) -> Positions:
    store.save(club.id, "anouk-varley", STIFF, after=0)
    return STIFF


def now(club) -> Positions:
    return store.positions(club.id, "anouk-varley").kept


def plain(page: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", page).split())


def sent(**fields: str) -> dict[str, str]:
    """A form as the browser sends it, with height and today's tests."""
    return {"after": "0", "was": "", "height_cm": "172", "taken": timezone.localdate().isoformat(), **fields}


# Who


@pytest.mark.parametrize("role", ["owner", "lifter"])
def test_the_lifter_and_the_owner_read_write_and_delete(club, browse, kept, role):
    client = browse(role)
    assert "8.25 cm" in client.get(PAGE).content.decode()
    assert client.post(FORM, sent(after="1", height_cm="180")).status_code == 302
    assert now(club).measures.height_cm == 180
    assert client.post(PAGE + "delete/").status_code == 302
    assert not PositionsRow.objects.exists()


@pytest.mark.parametrize("role", ["assistant", "other lifter", "stranger", "no club", "nobody"])
@pytest.mark.parametrize(
    "address", [PAGE, PAGE + "?heel=20", FORM, PAGE + "positions.json", PAGE + "delete/"]
)
def test_nobody_else_reads_changes_or_deletes_it(club, browse, kept, role, address):
    client = browse(role)
    answers = [client.get(address), client.get(address, headers={"X-Part": "drawn"})]
    if not address.endswith(("json", "?heel=20", "positions/")):
        answers.append(client.post(address, sent(after="1", height_cm="150")))
    for answer in answers:
        assert answer.status_code in (302, 403, 404)
        assert not any(word in answer.content.decode() for word in ("171.3", "8.25", "10.5"))
    assert now(club) == kept


def test_the_lifter_of_the_same_key_in_another_club_is_another_lifter(club, browse, kept):
    squad.save(club.elsewhere, [values.lifter("anouk-varley", "Anouk Varley")])
    page = browse("stranger").get(PAGE).content.decode()

    assert "Nothing to draw from yet" in page
    assert "8.25" not in page


def test_links_are_there_for_those_who_may_follow_them(club, browse):
    for address in (
        "/squad/anouk-varley/",
        "/squad/anouk-varley/days/week-1-session-1/",
        "/squad/anouk-varley/days/2027-01-03/",
    ):
        for role, there in (("owner", True), ("lifter", True), ("assistant", False)):
            assert (f'href="{PAGE}"' in browse(role).get(address).content.decode()) is there, (address, role)


def test_health_data_stays_out_of_titles_addresses_caches_and_other_pages(club, browse, kept):
    client = browse("owner")
    for address in (PAGE, FORM, PAGE + "delete/", PAGE + "positions.json"):
        answer = client.get(address)
        assert answer["Cache-Control"] == "private, no-store"
        page = answer.content.decode()
        title = page.partition("<title>")[2].partition("</title>")[0]
        assert "Anouk" not in title
        assert not any(word in title for word in SECRET)
        assert not any(word in found for found in re.findall(r'href="([^"]*)"', page) for word in SECRET)
    for address in ("/squad/", "/squad/anouk-varley/", "/export/squad.csv"):
        page = client.get(address).content.decode()
        assert not any(word in page for word in ("171.3", "8.25"))


# What it says


def test_an_empty_page_teaches_what_to_measure_first_and_draws_meanwhile(browse):
    page = browse("lifter").get(PAGE).content.decode()

    assert "What do your positions look like?" in page
    assert page.index("Nothing to draw from yet") < page.index('<svg class="fig"')
    assert "170 cm, with typical proportions" in page
    assert "greatest distance from the big toe" in page
    assert page.count('<svg class="fig"') == 3
    assert "no drill follows from it" in page
    assert "Delete" not in page


def test_the_page_draws_three_positions_with_the_limiting_joint_and_its_cautions(browse, kept):
    page = browse("lifter").get(PAGE + "?heel=20").content.decode()
    words = plain(page)

    for name in ("Front squat, bottom", "Front rack", "Overhead squat, bottom"):
        assert name in page
    assert "The ankle gives out first" in words
    assert "your 8.25 cm on the left points to" in words
    assert "not a diagnosis" in words
    assert "pain stops a test" in words
    assert "predicts or prevents an injury" in words
    assert "Under 18: test with a qualified coach or another adult" in words
    assert "Technique, stance and a heel" in words.replace("technique", "Technique")
    assert "4.7 degrees" in words


def test_two_days_of_tests_are_compared_with_the_error_of_the_test(browse, kept):
    words = plain(browse("owner").get(PAGE).content.decode())

    # Powden, Hoch and Hoch 2015: 1.9 cm for one rater, used as 2.
    assert "Left 6.5 to 8.25 cm. That is within measuring error" in words
    assert "Right 8 to 10.5 cm. That is more than measuring error." in words
    assert "Saturday 12 September 2026" in words, "the rack is from the earlier day"


def test_drills_come_from_the_catalogue_with_their_drawing_and_link(browse, kept):
    page = browse("lifter").get(PAGE).content.decode()
    drills = page.partition('<ul class="drills">')[2].partition("</ul>")[0]

    assert 0 < drills.count("<li>") <= 3
    assert 'href="/catalogue/ankle_rock/"' in drills
    assert drills.count("<svg") == drills.count("<li>")


def test_pain_in_a_test_takes_the_drills_away(club, browse):
    hurts = Positions(
        Measures(height_cm=172),
        (Screen(taken=date(2026, 11, 7), knee_to_wall=Sides(6, 6), painful=("deep_squat_hold",)),),
    )
    store.save(club.id, "anouk-varley", hurts, after=0)
    page = browse("lifter").get(PAGE).content.decode()

    assert '<ul class="drills">' not in page
    assert "See a doctor or physiotherapist first" in page


@pytest.mark.parametrize(
    ("asked", "shown"), [("20", 20), ("-5", 0), ("400", 40), ("", 0), ("high", 0), ("２０", 0), ("9" * 40, 0)]
)
def test_a_heel_that_cannot_be_is_answered_with_one_that_can(browse, kept, asked, shown):
    answer = browse("owner").get(PAGE, {"heel": asked})

    assert answer.status_code == 200
    assert answer.context["heel"] == shown


def test_the_script_gets_the_drawings_without_the_page(browse, kept):
    part = browse("owner").get(PAGE + "?heel=30", headers={"X-Part": "drawn"}).content.decode()

    assert "<html" not in part
    assert part.count('<svg class="fig"') >= 5
    assert "30 mm heel. Front squat, bottom:" in part


def test_the_page_asks_the_database_a_known_number_of_times(browse, kept, django_assert_num_queries):
    client = browse("lifter")
    client.get(PAGE)
    with django_assert_num_queries(7):
        client.get(PAGE, {"heel": "11"}, headers={"X-Part": "drawn"})


def test_an_adults_figures_are_said_to_say_less_of_the_young(club, browse):
    squad.save(club.id, [values.lifter("anouk-varley", "Anouk Varley", birth_year=2011)])
    squad.give_account(club.id, "anouk-varley", club.users["lifter"])

    assert "while somebody grows they say less" in browse("lifter").get(PAGE).content.decode()


# The form


def test_what_is_entered_is_kept_with_commas_and_units_as_people_write_them(club, browse):
    answer = browse("lifter").post(
        FORM,
        sent(
            height_cm="172,5 cm",
            thigh_cm=" 43.5 ",
            **{"knee_to_wall-left": "8,5", "front_rack": "not passed"},
        ),
        follow=True,
    )

    assert "Measures and tests are saved." in answer.content.decode()
    assert now(club).measures == Measures(height_cm=172.5, thigh_cm=43.5)
    (screen,) = now(club).screens
    assert (screen.knee_to_wall, screen.front_rack) == (Sides(8.5), False)
    assert screen.overhead_reach is None, "not tested is no result"
    assert screen.taken == timezone.localdate()


@pytest.mark.parametrize(
    ("fields", "beside", "words"),
    [
        ({"height_cm": "17"}, "height_cm", "may have been 170"),
        ({"height_cm": "1,72"}, "height_cm", "Is it in metres? Then enter 172"),
        ({"height_cm": "68"}, "height_cm", "Is it in inches? Then it is 173 cm"),
        ({"height_cm": "5'8\""}, "height_cm", "that would be 172.7 cm"),
        ({"height_cm": "68 in"}, "height_cm", "that would be 172.7 cm"),
        ({"height_cm": "tall"}, "height_cm", "no number that can be read"),
        ({"height_cm": "", "thigh_cm": "43"}, "height_cm", "Height is missing"),
        ({"thigh_cm": "90"}, "thigh_cm", "does not fit a height of 172 cm"),
        ({"thigh_cm": "53", "shank_cm": "53"}, "thigh_cm", "no usual trunk is left over"),
        ({"arm_span_cm": "-170"}, "arm_span_cm", "is no length"),
        ({"knee_to_wall-left": "85"}, "knee_to_wall", "outside 0 to 30"),
        ({"knee_to_wall-right": "nine"}, "knee_to_wall", "no number that can be read"),
        ({"thoracic_rotation-left": "900"}, "thoracic_rotation", "outside 0 to 120"),
        ({"front_rack": "passed", "front_rack-pain": "1"}, "front_rack", "has no result"),
        ({"knee_to_wall-left": "9", "knee_to_wall-pain": "1"}, "knee_to_wall", "has no result"),
        ({"taken": "2999-01-01"}, "taken", "lies ahead"),
        ({"taken": "1890-01-01"}, "taken", "too long ago"),
        ({"taken": "yesterday"}, "taken", "is no date"),
        ({"taken": "", "front_rack": "passed"}, "taken", "The day of the tests is missing"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_lost(club, browse, fields, beside, words):
    form = sent(sitting_height_cm="89,5", **fields)
    answer = browse("lifter").post(FORM, form)
    page = answer.content.decode()

    assert answer.status_code == 422
    told = page.partition(f'id="p-{beside}"')[2].partition("</div>")[0]
    assert words in told.replace("&#x27;", "'").replace("&quot;", '"')
    assert 'value="89,5"' in page
    for name in ("height_cm", "knee_to_wall-left", "taken"):
        if name in fields:
            escaped = fields[name].replace("'", "&#x27;").replace('"', "&quot;")
            assert f'name="{name}"' in page
            assert f'value="{escaped}"' in page
    assert not PositionsRow.objects.exists()


@pytest.mark.parametrize("words", ["<b>9</b>", "9" * 5000, "\x00", "½", "9.9.9", "1e3", "nan", "-0"])
def test_odd_words_are_answered_and_shown_as_words(browse, words):
    answer = browse("lifter").post(FORM, sent(height_cm=words, **{"knee_to_wall-left": words}))

    assert answer.status_code == 422
    assert "<b>9</b>" not in answer.content.decode()


def test_tests_alone_are_kept_without_a_height(club, browse):
    browse("lifter").post(FORM, sent(height_cm="", deep_squat_hold="passed"))

    assert now(club).measures == Measures()
    assert now(club).screens[0].deep_squat_hold is True
    assert "170 cm, with typical proportions" in browse("lifter").get(PAGE).content.decode()


def test_a_date_alone_is_no_day_of_tests(club, browse):
    browse("lifter").post(FORM, sent())

    assert now(club).screens == ()


def test_a_day_can_be_changed_moved_and_emptied(club, browse, kept):
    client = browse("owner")
    page = client.get(FORM + "?on=2026-09-12").content.decode()
    assert "Tests of Saturday 12 September 2026" in page
    assert 'value="6.5"' in page

    moved = {"after": "1", "was": "2026-09-12", "height_cm": "171.3", "taken": "2026-09-13"}
    client.post(FORM, moved | {"knee_to_wall-left": "7"})
    assert [one.taken for one in now(club).screens] == [date(2026, 9, 13), date(2026, 11, 7)]
    assert now(club).screens[0] == Screen(taken=date(2026, 9, 13), knee_to_wall=Sides(7))

    client.post(FORM, moved | {"after": "2", "was": "2026-09-13"})
    assert [one.taken for one in now(club).screens] == [date(2026, 11, 7)]


@pytest.mark.parametrize("on", ["2026-09-31", "soon", "2020-01-01", "9" * 50])
def test_a_day_without_tests_opens_an_empty_form(browse, kept, on):
    answer = browse("owner").get(FORM, {"on": on})

    assert answer.status_code == 200
    assert "Tests of one day" in answer.content.decode()


def test_two_who_save_at_once_lose_nothing(club, browse, kept):
    browse("owner").post(FORM, sent(after="1", height_cm="175"))
    answer = browse("lifter").post(FORM, sent(after="1", height_cm="176", front_rack="passed"))
    page = answer.content.decode()

    assert answer.status_code == 409
    assert now(club).measures.height_cm == 175
    assert re.search(r"Height</th>.*175.*176", page, re.DOTALL)
    assert 'value="176"' in page
    again = browse("lifter").post(FORM, sent(after="2", height_cm="176", front_rack="passed"))
    assert again.status_code == 302
    assert now(club).measures.height_cm == 176


def test_saving_over_what_was_deleted_meanwhile_is_told(club, browse, kept):
    browse("lifter").post(PAGE + "delete/")
    answer = browse("owner").post(FORM, sent(after="1", height_cm="176"))

    assert answer.status_code == 409
    assert not PositionsRow.objects.exists()


# Taking out and deleting


def test_all_of_it_comes_out_as_a_file_that_reads_back(browse, kept):
    answer = browse("lifter").get(PAGE + "positions.json")

    assert answer["Content-Disposition"] == 'attachment; filename="positions.json"'
    assert msgspec.json.decode(answer.content, type=Positions) == kept
    assert json.loads(answer.content)["measures"]["height_cm"] == 171.3


def test_deleting_asks_first_and_then_leaves_nothing(club, browse, kept):
    client = browse("lifter")
    asked = client.get(PAGE + "delete/").content.decode()
    assert "tests of 2 days" in asked
    assert "take them out as a file" in asked
    assert PositionsRow.objects.count() == 1

    answer = client.post(PAGE + "delete/", follow=True)
    assert "Measures and tests are deleted." in answer.content.decode()
    assert not PositionsRow.objects.exists()
    assert squad.lifter(club.id, "anouk-varley").bests, "bests stay"


def test_it_goes_with_the_lifter_and_stays_when_the_squad_is_brought_in_anew(club, kept):
    squad.save(club.id, [values.lifter("anouk-varley", "Anouk V")])
    assert now(club) == kept
    squad.LifterRow.objects.filter(key="anouk-varley").delete()
    assert not PositionsRow.objects.exists()


def test_a_lifter_who_is_not_there_has_no_page(browse):
    assert browse("owner").get("/squad/nobody-here/positions/").status_code == 404


# Which result counts


def test_the_newest_result_of_every_test_counts_and_pain_ends_one():
    days = (
        Screen(taken=date(2026, 11, 1), knee_to_wall=Sides(9, 9), front_rack=True),
        Screen(taken=date(2026, 10, 1), knee_to_wall=Sides(7, 7), overhead_reach=False),
        Screen(taken=date(2026, 11, 8), painful=("front_rack",)),
    )
    found = current(days)

    assert found.screen.knee_to_wall == Sides(9, 9)
    assert found.screen.overhead_reach is False
    assert found.screen.front_rack is None
    assert found.screen.painful == ("front_rack",)
    assert found.on["overhead_reach"] == date(2026, 10, 1)
    assert retests(days)["knee_to_wall"][0].startswith("Left 7 to 9 cm.")


def test_a_second_entry_of_a_day_adds_to_it():
    day = date(2026, 11, 1)
    first = with_screen(Positions(), Screen(taken=day, knee_to_wall=Sides(left=8), front_rack=True), was=None)
    both = with_screen(
        first, Screen(taken=day, knee_to_wall=Sides(right=9), painful=("front_rack",)), was=None
    )

    assert both.screens == (Screen(taken=day, knee_to_wall=Sides(8, 9), painful=("front_rack",)),)
