"""How the cycle fits a lifter: who sees and decides, what is kept, and from when days are drawn from it."""

import json
import re
from datetime import date, timedelta
from html import unescape

import msgspec
import pytest

from meetward.fit.weeks_calendar import Block, FurtherMeet
from meetward.lifter.restrictions import Limits, Restriction
from meetward.web.actions import days
from meetward.web.actions import fits as actions
from meetward.web.actions.fits import FitWish, stale_because, trains_from
from meetward.web.actions.fitting import Fit, forget_fits
from meetward.web.actions.timetable import Slot
from meetward.web.models import FitRow, LifterRow
from meetward.web.store import cycles, people, squad
from meetward.web.store import fits as store
from meetward.web.store.fits import SavedMeanwhile
from tests.web import club as values

KEY = "anouk-varley"
PAGE = f"/squad/{KEY}/fit/"
TODAY = date(2026, 12, 20)
# A week later than the club's meet, on other days; the week in between is away.
WISH = FitWish(
    date(2026, 12, 28),
    date(2027, 1, 17),
    "Skerry Open",
    (1, 4, 6),
    60,
    (Block(date(2027, 1, 4), date(2027, 1, 10), "chickenpox", illness=True),),
    limits=Limits((Restriction("no jerks", until=date(2027, 1, 3), words="as agreed"),)),
)
SECRET = ("chickenpox", "no jerks", "as agreed")


@pytest.fixture(autouse=True)
def _on_a_day_before_the_cycle(monkeypatch):
    """The pages are asked on a day before the cycle, whenever the tests run."""
    forget_fits()  # another test's version had the same number
    monkeypatch.setattr("django.utils.timezone.localdate", lambda *_: TODAY)


@pytest.fixture
def wished(club) -> FitWish:
    store.save_wish(club.id, KEY, WISH, after=0)
    return WISH


@pytest.fixture
def approved(club, wished) -> FitWish:
    version = cycles.newest(club.book)
    store.approve(club.id, KEY, version.id, user_id=club.users["owner"], after=1)
    return wished


def kept(club) -> store.FitRecord:
    return store.record(club.id, KEY)


def sent(**fields: str) -> dict[str, str]:
    """A form as the browser sends it. ``block_0_first`` stands for ``block-0-first``."""
    form = {"after": "0", "starts_on": "2026-12-28", "meet_on": "2027-01-10", "day_0": "1", "day_3": "1"}
    return {name.replace("_", "-") if name[:4] in ("day_", "bloc") or name[:6] in ("meet_0", "meet_1")
            else name: value for name, value in (form | fields).items()}  # fmt: skip


def plain(page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", page)).split())


def yes(club, **fields: object) -> dict[str, object]:
    return {"after": 1, "version": cycles.newest(club.book).id, **fields}


# Who


@pytest.mark.parametrize("role", ["owner", "lifter"])
def test_the_lifter_and_the_owner_see_it_and_change_the_calendar(club, browse, wished, role):
    page = browse(role).get(PAGE)
    assert "chickenpox" in page.content.decode()
    assert "No jerks, until 3 Jan 2027 (as agreed)" in plain(page.content.decode())
    assert page["Cache-Control"] == "private, no-store"
    assert browse(role).post(PAGE, sent(after="1", minutes="75")).status_code == 302
    assert kept(club).wish.minutes == 75


@pytest.mark.parametrize("role", ["assistant", "other lifter", "stranger", "no club", "nobody"])
@pytest.mark.parametrize("address", ["", "fit.json", "delete/", "yes/", "take-back/"])
def test_nobody_else_reads_changes_decides_or_deletes(club, browse, wished, role, address):
    client = browse(role)
    before = kept(club)
    answers = [client.get(PAGE + address), client.post(PAGE + address, sent(after="1") | yes(club))]
    for answer in answers:
        assert answer.status_code in (302, 403, 404, 405)
        assert not any(word in answer.content.decode() for word in SECRET)
    assert kept(club) == before


@pytest.mark.parametrize("address", ["yes/", "take-back/", "delete/"])
def test_the_lifter_has_no_yes_and_no_buttons_for_it(club, browse, wished, address):
    client = browse("lifter")
    page = client.get(PAGE).content.decode()
    assert "Yes, train from this fit" not in page
    assert "waits for the coach's yes" in plain(page)
    assert client.post(PAGE + address, yes(club)).status_code == 403
    assert kept(club).wish == WISH
    assert kept(club).approval is None


def test_a_lifter_cannot_lift_a_restriction(club, browse, wished):
    client = browse("lifter")
    assert 'name="limits"' not in client.get(PAGE).content.decode()
    assert client.post(PAGE, sent(after="1", limits="none")).status_code == 302

    assert kept(club).wish.limits == WISH.limits


def test_what_is_private_stays_out_of_titles_and_other_pages(club, browse, approved):
    client = browse("owner")
    title = client.get(PAGE).content.decode().partition("<title>")[2].partition("</title>")[0]
    assert "Anouk" not in title
    own = ("", "week/1/", "week/2/", "week/3/", "days/week-1-session-1/", "days/week-1-session-2/")
    for address in ("/squad/", *(f"/squad/{KEY}/{end}" for end in own)):
        page = client.get(address).content.decode()
        assert not any(word in page for word in SECRET), address


def test_days_say_nothing_of_why_a_week_was_changed(club, asks, wished):
    week_day = msgspec.structs.replace(
        WISH, blocks=(Block(date(2027, 1, 5), date(2027, 1, 5), "chickenpox"),)
    )
    store.save_wish(club.id, KEY, week_day, after=1)
    store.approve(club.id, KEY, cycles.newest(club.book).id, user_id=None, after=2)

    one = days.training(asks("assistant"), KEY)

    assert "chickenpox" not in str(one.version.cycle)
    for slot in one.times.slots:
        assert "chickenpox" not in str(days.day_of(one, slot))


def test_a_lifter_with_the_same_key_in_another_club_is_another_lifter(club, browse, wished):
    squad.save(club.elsewhere, [values.lifter(KEY, "Anouk Varley")])
    page = browse("stranger").get(PAGE).content.decode()

    assert not any(word in page for word in SECRET)
    assert "follows the club's own calendar" in plain(page)


# What is kept


def test_it_goes_with_the_lifter_and_by_the_owners_hand(club, browse, approved):
    taken_out = json.loads(browse("lifter").get(PAGE + "fit.json").content)
    assert taken_out["wish"]["meet"] == "Skerry Open"
    assert taken_out["approval"]["wish"] == taken_out["wish"]
    assert "Your yes goes with it" in browse("owner").get(PAGE + "delete/").content.decode()
    assert browse("owner").post(PAGE + "delete/").status_code == 302
    assert not FitRow.objects.exists()
    store.save_wish(club.id, KEY, WISH, after=0)
    LifterRow.objects.get(key=KEY, club_id=club.id).delete()
    assert not FitRow.objects.exists()


def test_bringing_the_squad_in_again_keeps_it(club, approved):
    squad.save(club.id, [values.lifter(KEY, "Anouk Varley", snatch_dag=8500)])

    assert kept(club).approval is not None


def test_two_who_save_at_once_lose_nothing(club, browse, wished):
    client = browse("owner")
    assert client.post(PAGE, sent(after="1", meet="First Open")).status_code == 302
    answer = client.post(PAGE, sent(after="1", meet="Second Open"))
    page = answer.content.decode()

    assert answer.status_code == 409
    assert "First Open" in page
    assert 'value="Second Open"' in page
    assert kept(club).wish.meet == "First Open"
    after = re.search(r'name="after" value="(\d+)"', page)[1]
    assert client.post(PAGE, sent(after=after, meet="Second Open")).status_code == 302
    assert kept(club).wish.meet == "Second Open"


@pytest.mark.parametrize("after", [0, 2, 7])
def test_the_store_refuses_what_was_changed_meanwhile(club, wished, after):
    version_id = cycles.newest(club.book).id
    with pytest.raises(SavedMeanwhile):
        store.save_wish(club.id, KEY, WISH, after=after)
    with pytest.raises(SavedMeanwhile):
        store.approve(club.id, KEY, version_id, user_id=None, after=after)
    with pytest.raises(SavedMeanwhile):
        store.take_back(club.id, KEY, after=after)


# The form


@pytest.mark.parametrize(
    ("fields", "field", "words"),
    [
        ({"starts_on": ""}, "starts_on", "no day is given"),
        ({"meet_on": "next Saturday"}, "meet_on", "is no whole day"),
        ({"meet_on": "6 March"}, "meet_on", "is no whole day"),
        ({"meet_on": "2026-12-19"}, "meet_on", "is over"),
        ({"starts_on": "2027-01-11"}, "meet_on", "comes before the start"),
        ({"meet_on": "2027-07-10"}, "starts_on", "fills 4 at most"),
        ({"meet_on": "3027-01-10"}, "meet_on", "three years away"),
        ({"day_0": "", "day_3": ""}, "days", "No training day is ticked"),
        ({"minutes": "an hour"}, "minutes", "no length of a session"),
        ({"minutes": "70,5"}, "minutes", "no length of a session"),
        ({"minutes": "9"}, "minutes", "no length of a session"),
        ({"block_0_reason": "exams"}, "blocks", "Row 1 names no day"),
        ({"block_0_first": "2027-01-05", "block_0_last": "2027-01-02"}, "blocks", "ends before it begins"),
        ({"block_0_first": "2027-01-08", "block_0_last": "2027-01-12"}, "blocks", "covers"),
        ({"meet_0_name": "Winter Cup"}, "meets", "has no day"),
        ({"meet_0_on": "2027-02-06", "meet_0_name": "Winter Cup"}, "meets", "does not come before"),
        ({"limits": "no snathc"}, "limits", "is no restriction"),
    ],
)  # fmt: skip
def test_a_mistake_is_said_beside_its_field_and_nothing_is_lost(club, browse, fields, field, words):
    typed = {"meet": "Skerry Open", "block_1_first": "2026-12-30", "block_1_reason": "a day off"} | fields
    answer = browse("owner").post(PAGE, sent(**typed))
    page = answer.content.decode()

    assert answer.status_code == 422
    beside = page.partition(f'id="p-{field}"')[2].partition("</div>")[0]
    assert words in plain(beside)
    for value in filter(None, typed.values()):
        assert f'value="{value}"' in page or f">{value}</textarea>" in page, value
    assert '<details class="wish" open>' in page
    assert kept(club).number == 0


def test_days_and_minutes_are_read_as_people_write_them(club, browse):
    fields = {
        "starts_on": "28.12.2026", "meet_on": "10 January 2027", "minutes": "75 min",
        "meet_0_on": "2027-01-03", "block_0_first": "2026-12-31", "block_2_first": "2027-01-02",
        "block_2_last": "2027-01-02",
        "limits": "no blocks; bar and discs to 82,5 kg",
    }  # fmt: skip
    assert browse("owner").post(PAGE, sent(**fields)).status_code == 302

    wish = kept(club).wish
    assert (wish.starts_on, wish.meet_on, wish.minutes) == (date(2026, 12, 28), date(2027, 1, 10), 75)
    assert wish.blocks == (
        Block(date(2026, 12, 31), date(2026, 12, 31)),
        Block(date(2027, 1, 2), date(2027, 1, 2)),
    )
    assert wish.meets == (FurtherMeet(date(2027, 1, 3)),)
    assert wish.limits.heaviest_dag == 8250
    page = browse("owner").get(PAGE).content.decode()
    assert "discs to 82.5 kg" in page


def test_an_empty_page_begins_with_the_club_s_dates_and_the_lifter_s_own_days(club, browse):
    squad.save(club.id, [values.lifter(KEY, "Anouk Varley", days=(0, 3), minutes=80)])
    page = browse("owner").get(PAGE).content.decode()

    assert "follows the club's own calendar" in plain(page)
    assert 'value="2026-12-28"' in page
    assert 'value="2027-01-10"' in page
    assert 'name="minutes" value="80"' in page
    assert re.findall(r'name="day-(\d)" value="1" checked', page) == ["0", "3"]


def test_saving_the_same_again_changes_nothing(club, browse, wished):
    client = browse("owner")
    page = client.get(PAGE).content.decode()
    fields = dict(re.findall(r'<input[^>]*name="([^"]+)"[^>]*value="([^"]*)"(?![^>]*type="checkbox")', page))
    ticked = {
        name for name, on in re.findall(r'type="checkbox" name="([^"]+)" value="1" (checked)?', page) if on
    }
    form = {
        name: value for name, value in fields.items() if not name.startswith("day-") and "-ill" not in name
    }
    form |= dict.fromkeys(ticked, "1") | {"limits": re.search(r"<textarea[^>]*>([^<]*)<", page)[1]}

    assert client.post(PAGE, form).status_code == 302
    assert kept(club).number == 1


# The yes


def test_days_are_those_of_the_club_until_the_yes_and_again_after_it_is_taken_back(club, browse):
    lifter, owner = browse("lifter"), browse("owner")

    def week_two() -> str:
        return plain(lifter.get(f"/squad/{KEY}/week/2/").content.decode())

    club_own = week_two()
    store.save_wish(club.id, KEY, WISH, after=0)
    assert week_two() == club_own
    assert owner.post(PAGE + "yes/", yes(club)).status_code == 302
    assert week_two() != club_own
    assert owner.post(PAGE + "take-back/", {"after": 2}).status_code == 302
    assert week_two() == club_own
    assert kept(club).wish == WISH


def test_days_week_and_paper_are_drawn_from_the_fit(club, browse, asks, approved):
    one = days.training(asks("lifter"), KEY)
    on = [one.times.on(slot) for slot in one.times.slots]
    assert {day.weekday() for day in on} <= {1, 4, 6}
    assert not any(date(2027, 1, 4) <= day <= date(2027, 1, 10) for day in on)
    assert on[-1] == date(2027, 1, 17)
    client = browse("lifter")
    page = plain(client.get(f"/squad/{KEY}/days/2027-01-17/").content.decode())
    assert "Week 2 of the cycle, fitted to your meet on Sunday 17 January 2027." in page
    assert "fitted to their meet" in plain(browse("assistant").get(f"/squad/{KEY}/week/3/").content.decode())
    assert client.get(f"/squad/{KEY}/days/").status_code == 302
    assert client.get(f"/squad/{KEY}/days/2027-01-17/sheet.pdf").content[:5] == b"%PDF-"
    assert client.get(f"/squad/{KEY}/week/3/week.pdf").content[:5] == b"%PDF-"
    assert "holds no session" in client.get(f"/squad/{KEY}/days/2027-01-06/").content.decode()


def test_the_wall_holds_everybody_with_what_they_do_that_week(club, asks, browse, approved):
    assert browse("owner").get(f"/cycles/{club.book}/weeks/1/wall.pdf").content[:5] == b"%PDF-"
    sheets = days.squad_days(asks("owner"), cycles.newest(club.book), 1)
    club_own = {sheet.session for sheet in sheets if sheet.lifter_key != KEY}
    own = [sheet for sheet in sheets if sheet.lifter_key == KEY]

    assert {sheet.lifter_key for sheet in sheets} == {KEY, "ben-osei", "carys-hope"}
    assert {sheet.on.weekday() for sheet in own} <= {1, 4, 6}
    assert not club_own & {sheet.session for sheet in own}


def test_a_changed_wish_makes_the_yes_stale_and_changes_no_day(club, browse, approved):
    lifter, owner = browse("lifter"), browse("owner")
    before = plain(lifter.get(f"/squad/{KEY}/week/3/").content.decode())
    lifter.post(PAGE, sent(after="2", meet_on="2027-01-16", day_5="1"), follow=True)

    assert plain(lifter.get(f"/squad/{KEY}/week/3/").content.decode()) == before
    page = plain(lifter.get(PAGE).content.decode())
    assert "Dates, days or limits were changed after the yes." in page
    assert "You train from what The owner said yes to" in page
    assert "1 lifter something changed after your yes" in plain(owner.get("/squad/").content.decode())
    assert owner.post(PAGE + "yes/", yes(club, after=3)).status_code == 302
    assert plain(lifter.get(f"/squad/{KEY}/week/3/").content.decode()) != before
    assert "changed after the yes" not in plain(lifter.get(PAGE).content.decode())


def newer_version(club) -> int:
    text = values.TEXT.replace("Snatch 4x3 @ 70%", "Snatch 4x3 @ 75%")
    return cycles.save_version(club.book, values.cycle(text), text, after=1, author_id=None)


def test_a_newer_version_makes_the_yes_stale_and_changes_no_day(club, browse, approved):
    lifter = browse("lifter")
    before = plain(lifter.get(f"/squad/{KEY}/week/1/").content.decode())
    newer_version(club)

    assert plain(lifter.get(f"/squad/{KEY}/week/1/").content.decode()) == before
    assert "newer version: 2. The yes was to version 1." in plain(lifter.get(PAGE).content.decode())


def test_another_cycle_of_the_club_moves_nobody_who_has_a_yes(club, browse, asks, approved):
    other = cycles.open_book(club.id, "Another", values.cycle(), values.TEXT, author_id=None)
    people.train_from(club.id, other)

    assert days.training(asks("lifter"), KEY).version.book_id == club.book
    assert days.training(asks("owner"), "ben-osei").version.book_id == other
    assert days.training(asks("owner"), KEY, other).version.book_id == other
    assert "another cycle now" in browse("owner").get(PAGE).content.decode()


def test_a_yes_ends_when_its_day_is_over_and_the_club_has_gone_on(club, approved):
    approval = kept(club).approval
    after = WISH.meet_on + timedelta(days=1)

    assert trains_from(approval, club.book, after)
    assert trains_from(approval, None, WISH.meet_on)
    assert not trains_from(approval, None, after)
    assert not trains_from(None, club.book, after)
    assert any("is over" in one for one in stale_because(kept(club), cycles.newest(club.book), after))


def test_a_yes_to_something_else_than_what_was_shown_is_not_taken(club, browse, wished):
    shown = yes(club)
    newer_version(club)
    owner = browse("owner")

    for fields in (shown, yes(club, after=0), yes(club, after=2), {"after": "x", "version": "9" * 30}):
        page = owner.post(PAGE + "yes/", fields, follow=True).content.decode()
        assert "Not done" in page
        assert kept(club).approval is None
    assert "Done." in owner.post(PAGE + "yes/", yes(club), follow=True).content.decode()


def test_the_squad_s_sheet_moves_nobody_who_has_a_yes(club, browse, approved):
    lifter = browse("lifter")
    before = plain(lifter.get(f"/squad/{KEY}/week/3/").content.decode())
    squad.save(club.id, [values.lifter(KEY, "Anouk Varley", days=(0, 2, 4), minutes=120)])

    assert plain(lifter.get(f"/squad/{KEY}/week/3/").content.decode()) == before


# What the page says


def test_the_page_draws_the_calendar_says_why_and_what_it_costs(club, browse, wished):
    page = browse("owner").get(PAGE).content.decode()
    words = plain(page)

    assert page.count("<tbody class=") == 3
    assert "No training day is open (chickenpox)." in words
    assert "Skerry Open" in words
    assert re.search(r"<title>Snatch: \d+ of \d+ lifts</title>", page)
    assert "This order of weeks costs" in words
    assert "Yes, train from this fit" in words


def test_where_nothing_fits_the_rules_that_collide_are_said(club, browse):
    wish = FitWish(
        TODAY + timedelta(days=8), TODAY + timedelta(days=21), days=(0, 3),
        blocks=(Block(TODAY, TODAY + timedelta(days=20), "away"),),
    )  # fmt: skip
    text = values.TEXT.replace("Week 1: load", "Week 1: taper")
    cycle = values.cycle(text)
    book = cycles.open_book(club.id, cycle.title, cycle, text, author_id=None)
    people.train_from(club.id, book)
    store.save_wish(club.id, KEY, wish, after=0)
    owner = browse("owner")
    page = plain(owner.get(PAGE).content.decode())

    assert "Nothing fits" in page
    assert "These rules cannot all be kept" in page
    assert "Yes, train from this fit" not in page
    version = cycles.newest(book)
    answer = owner.post(PAGE + "yes/", {"after": 1, "version": version.id}, follow=True)
    assert "nothing fits, so there is nothing" in answer.content.decode()
    assert kept(club).approval is None
    assert "Cannot be fitted" in owner.get("/fits/").content.decode()


def test_without_a_cycle_the_wish_is_kept_and_the_page_says_so(club, browse):
    squad.save(club.elsewhere, [values.lifter("dora-finch", "Dora Finch")])
    client = browse("stranger")
    answer = client.post("/squad/dora-finch/fit/", sent(), follow=True)

    assert answer.status_code == 200
    assert "trains from no cycle yet" in plain(answer.content.decode())
    assert store.record(club.elsewhere, "dora-finch").number == 1


def test_a_fit_that_cannot_be_worked_out_any_more_is_said(club, browse, approved, monkeypatch):
    monkeypatch.setattr(
        "meetward.web.actions.days.fitted",
        lambda *_: Fit(None, None),
    )
    page = plain(browse("lifter").get(f"/squad/{KEY}/days/2026-12-28/").content.decode())

    assert "cannot be worked out any more" in page


# The squad


def test_the_squad_page_says_who_is_where(club, browse, approved):
    store.save_wish(club.id, "ben-osei", FitWish(WISH.starts_on, WISH.meet_on, days=(0, 3)), after=0)
    page = browse("owner").get("/fits/")
    words = plain(page.content.decode())

    assert page["Cache-Control"] == "private, no-store"
    order = [words.index(said) for said in (
        "Wait for your yes", "Ben Osei", "Train from their fit", "Anouk Varley",
        "Follow the club's own calendar", "Carys Hope",
    )]  # fmt: skip
    assert order == sorted(order)


def test_several_get_a_yes_at_once_after_a_look_at_what_it_changes(club, browse, wished):
    store.save_wish(club.id, "ben-osei", FitWish(WISH.starts_on, WISH.meet_on, days=(0, 3)), after=0)
    owner = browse("owner")
    look = owner.post("/fits/", {"do": "look", "key": [KEY, "ben-osei", "carys-hope", "nobody"]})
    page = look.content.decode()
    assert "What would your yes change?" in page
    assert "2 lifters would train" in page
    assert kept(club).approval is None
    fields = {
        "do": "yes",
        "version": re.search(r'name="version" value="(\d+)"', page)[1],
        "yes": re.findall(r'name="yes" value="([^"]+)"', page),
    }
    store.save_wish(club.id, "ben-osei", FitWish(WISH.starts_on, WISH.meet_on, days=(0, 4)), after=1)
    done = plain(owner.post("/fits/", fields, follow=True).content.decode())

    assert "1 lifter will train from their fit" in done
    assert "Not done for Ben Osei: " in done
    assert kept(club).approval is not None
    assert store.record(club.id, "ben-osei").approval is None


def test_nobody_ticked_is_said(browse, wished):
    answer = browse("owner").post("/fits/", {"do": "look"})

    assert answer.status_code == 422
    assert "nobody is ticked" in answer.content.decode()


@pytest.mark.parametrize("role", ["assistant", "lifter", "stranger", "nobody"])
def test_nobody_else_says_yes_for_several(club, browse, wished, role):
    version = cycles.newest(club.book).id
    browse(role).post("/fits/", {"do": "yes", "version": version, "yes": f"{KEY}:1"})

    assert kept(club).approval is None


def test_what_takes_too_long_is_worked_out_on_the_next_look(club, asks, wished):
    first = actions.squad_fits(asks("owner"), TODAY, seconds=0)
    assert [one.state for one in first] == ["not worked out", "own calendar", "own calendar"]
    actions.squad_fits(asks("owner"), TODAY, seconds=60)

    assert actions.squad_fits(asks("owner"), TODAY, seconds=0)[0].state == "waits"


def test_the_squad_page_offers_to_work_out_the_rest(club, browse, wished, monkeypatch):
    monkeypatch.setattr("meetward.web.pages.squad_fits.WORK_SECONDS", 0)
    owner = browse("owner")
    page = plain(owner.get("/fits/").content.decode())
    assert "1 lifter is not worked out yet" in page
    assert "Work out the next" in page
    answer = owner.post("/fits/", {"do": "look", "key": KEY})
    assert answer.status_code == 422
    monkeypatch.setattr("meetward.web.pages.squad_fits.WORK_SECONDS", 60)

    assert "not worked out" not in plain(owner.get("/fits/").content.decode())


def test_the_addresses_of_a_session_by_week_and_number_keep_working(club, asks, approved, browse):
    one = days.training(asks("lifter"), KEY)
    assert Slot(1, 1) in one.times.slots

    assert browse("lifter").get(f"/squad/{KEY}/days/week-1-session-1/").status_code == 200
