"""Who may open what: every address for every role, from the table of addresses itself."""

import re

import pytest
from django.urls import get_resolver, reverse

from meetward.web.actions import cycles as actions
from meetward.web.actions import days, squad
from meetward.web.actions.who import RIGHTS, Hidden, NotAllowed
from meetward.web.store import people
from tests.web.conftest import PASSWORD, ROLES

OK, SEE_OTHER, SIGN_IN, UNCLEAR, NO, HIDDEN = 200, 302, "sign in", 400, 403, 404

EVERYBODY = dict.fromkeys(ROLES, OK)
SIGNED_IN = EVERYBODY | {"nobody": SIGN_IN}
COACHES = {
    "owner": OK, "assistant": OK, "lifter": NO, "other lifter": NO, "stranger": HIDDEN, "no club": HIDDEN,
    "nobody": SIGN_IN,
}  # fmt: skip
OWN_CLUB_COACHES = COACHES | {"stranger": OK}
OWNER = COACHES | {"assistant": NO, "stranger": OK}
IN_A_CLUB = SIGNED_IN | {"no club": HIDDEN}
OWN_DAYS = COACHES | {"lifter": OK}
HEALTH = OWN_DAYS | {"assistant": NO}


def answers(rule: dict[str, object], status: int) -> dict[str, object]:
    """The same rule for an address that answers something else than a page when it lets somebody in."""
    return {role: status if answer == OK else answer for role, answer in rule.items()}


# Name of the address: (method, rule). Where an address is about one's own club, the stranger sees theirs.
RULES: dict[str, tuple[str, dict[str, object]]] = {
    "home": ("get", EVERYBODY),
    "sign-in": ("get", EVERYBODY),
    "start": ("get", answers(SIGNED_IN, SEE_OTHER)),
    "sign-out": ("post", answers(EVERYBODY, SEE_OTHER)),
    "demo-sign-in": ("post", dict.fromkeys(ROLES, HIDDEN)),
    "look-at-club": ("post", answers(COACHES | {"lifter": OK, "other lifter": OK}, SEE_OTHER)),
    "cycles": ("get", OWN_CLUB_COACHES),
    "cycle-new": ("get", OWN_CLUB_COACHES),
    "cycle": ("get", COACHES),
    "cycle-train": ("post", answers(COACHES, SEE_OTHER)),
    "cycle-text": ("get", COACHES),
    "cycle-version": ("get", COACHES),
    "cycle-json": ("get", COACHES),
    "wall-pdf": ("get", COACHES),
    "session": ("get", COACHES),
    "teaching": ("get", COACHES),
    "teaching-pdf": ("get", COACHES),
    "squad": ("get", OWN_CLUB_COACHES),
    "lifter": ("get", OWN_DAYS),
    "next-day": ("get", answers(OWN_DAYS, SEE_OTHER)),
    "day": ("get", OWN_DAYS),
    "day-pdf": ("get", OWN_DAYS),
    "lifter-week": ("get", OWN_DAYS),
    "week-pdf": ("get", OWN_DAYS),
    "positions": ("get", HEALTH),
    "measuring": ("get", HEALTH),
    "positions-json": ("get", HEALTH),
    "positions-delete": ("get", HEALTH),
    "fit": ("get", HEALTH),
    "fit-yes": ("post", answers(OWNER | {"stranger": HIDDEN}, SEE_OTHER)),
    "fit-take-back": ("post", answers(OWNER | {"stranger": HIDDEN}, SEE_OTHER)),
    "fit-json": ("get", HEALTH),
    "fit-delete": ("get", OWNER | {"stranger": HIDDEN}),
    "fits": ("get", OWNER),
    "squad-import": ("get", OWNER),
    "squad-csv": ("get", OWNER),
    "squad-xlsx": ("get", OWNER),
    "catalogue": ("get", SIGNED_IN),
    "catalogue-pdf": ("get", SIGNED_IN),
    "entry-change": ("get", OWNER),
    "entry-take-back": ("post", answers(OWNER, UNCLEAR)),
    "entry-new": ("get", OWNER),
    "own-catalogue": ("get", IN_A_CLUB),
    "own-catalogue-text": ("get", OWNER),
    "own-catalogue-version": ("get", answers(IN_A_CLUB, HIDDEN)),
    "own-catalogue-file": ("get", IN_A_CLUB),
    "own-catalogue-import": ("get", OWNER),
    "entry": ("get", SIGNED_IN),
}


def parts_of(name: str, club) -> dict[str, object]:
    """Something for each part of an address: the club's cycle, its first session, the lifter Anouk Varley."""
    known = {
        "club": club.id, "book": club.book, "number": 1, "week": 1, "session": 1, "key": "anouk-varley",
        "when": "2026-12-28", "entry": "snatch", "kind": "movement",
    }  # fmt: skip
    pattern = get_resolver().reverse_dict.getlist(name)[0][0][0]
    return {part: known[part] for part in pattern[1]}


def test_every_address_has_a_rule_and_every_rule_an_address():
    names = {pattern.name for pattern in get_resolver().url_patterns}

    assert names == set(RULES)


@pytest.mark.parametrize("role", ROLES)
@pytest.mark.parametrize("name", RULES)
def test_an_address_opens_for_those_it_is_meant_for(club, browse, name, role):
    method, rule = RULES[name]
    answer = getattr(browse(role), method)(reverse(name, kwargs=parts_of(name, club)))

    if rule[role] == SIGN_IN:
        assert answer.status_code == 302
        assert answer["Location"].startswith(reverse("sign-in"))
    else:
        assert answer.status_code == rule[role]


@pytest.mark.parametrize("name", [name for name, (method, _) in RULES.items() if method == "post"])
def test_what_changes_something_is_not_done_by_a_link(club, browse, name):
    assert browse("owner").get(reverse(name, kwargs=parts_of(name, club))).status_code == 405


@pytest.mark.parametrize(
    "name",
    [
        "cycle-text",
        "cycle-new",
        "squad-import",
        "own-catalogue-text",
        "own-catalogue-import",
        "entry-change",
        "entry-new",
    ],
)
@pytest.mark.parametrize("role", ["lifter", "stranger", "nobody"])
def test_nobody_writes_through_a_form_that_they_may_not_open(club, browse, name, role):
    answer = browse(role).post(
        reverse(name, kwargs=parts_of(name, club)),
        {"do": "save", "text": "Monday", "after": "1", "found": ""},
    )

    allowed = RULES[name][1][role]
    if allowed != OK:  # the stranger may write in their own club, which is tried elsewhere
        assert answer.status_code == (302 if allowed == SIGN_IN else allowed)
    assert [number for number, _, _ in actions.cycles.versions(club.book)] == [1]


@pytest.mark.parametrize(
    ("role", "question"),
    [
        ("owner", "Which cycles do we have?"),
        ("lifter", "What do I lift"),
        ("stranger", "Paste your first cycle"),
        ("no club", "belongs to no club yet"),
    ],
)
def test_everybody_who_signs_in_lands_on_something_that_they_may_see(club, client, role, question):
    answer = client.post("/sign-in/", {"username": role.replace(" ", "-"), "password": PASSWORD}, follow=True)

    assert answer.status_code == 200
    assert question in answer.content.decode()


def test_the_answer_to_a_lifter_does_not_tell_whether_somebody_else_exists(browse):
    client = browse("lifter")
    there, nowhere = client.get("/squad/ben-osei/"), client.get("/squad/nobody-at-all/")

    def without_token(answer) -> str:
        return re.sub(r'name="csrfmiddlewaretoken" value="\w+"', "", answer.content.decode())

    assert there.status_code == nowhere.status_code == NO
    assert without_token(there) == without_token(nowhere)


def test_bodyweight_is_for_the_owner_and_the_lifter_only(browse):
    shown = {
        role: b"63.45 kg" in browse(role).get("/squad/anouk-varley/").content
        for role in ("owner", "assistant", "lifter")
    }

    assert shown == {"owner": True, "assistant": False, "lifter": True}


def test_notes_of_a_lifter_are_for_the_owner_and_the_lifter_only(browse, asks):
    shown = {
        role: b"Left wrist: short sets" in browse(role).get("/squad/anouk-varley/").content
        for role in ("owner", "assistant", "lifter")
    }

    assert shown == {"owner": True, "assistant": False, "lifter": True}


def test_an_assistant_is_handed_no_health_data_by_any_action(asks):
    seen = [*squad.lifters(asks("assistant")), squad.lifter(asks("assistant"), "anouk-varley")]
    training = days.training(asks("assistant"), "anouk-varley")

    assert {(one.bodyweight_dag, one.notes) for one in (*seen, training.lifter)} == {(None, "")}
    assert days.training(asks("lifter"), "anouk-varley").lifter.notes == "Left wrist: short sets"
    with pytest.raises(NotAllowed):
        squad.whole(asks("assistant"))


def test_no_page_of_a_coach_shows_bodyweight_in_the_squads_table(browse):
    assert b"63.45" not in browse("owner").get("/squad/").content


@pytest.mark.parametrize(
    ("action", "right"),
    [
        (lambda who, club: actions.version(who, club.book), "read cycles"),
        (lambda who, club: actions.versions(who, club.book), "read cycles"),
        (lambda who, club: actions.save(who, club.book, club.cycle, "", after=1), "write cycles"),
        (lambda who, club: actions.train_from(who, club.book), "write cycles"),
        (lambda who, club: squad.names(who, club.id), "read squad"),
    ],
)
@pytest.mark.parametrize("role", ["owner", "assistant", "lifter", "stranger", "no club"])
def test_the_actions_themselves_refuse(club, asks, action, right, role):
    seat = asks(role).seat
    if seat is None or seat.club_id != club.id:
        with pytest.raises(Hidden):
            action(asks(role), club)
    elif right not in RIGHTS[seat.role]:
        with pytest.raises(NotAllowed):
            action(asks(role), club)
    else:
        action(asks(role), club)


def test_a_cycle_of_another_club_is_not_drawn_for_a_lifter_of_this_one(club, asks):
    with pytest.raises(Hidden):
        days.training(asks("stranger"), "anouk-varley", club.book)
    with pytest.raises(Hidden):
        days.training(asks("owner"), "anouk-varley", 10**6)


def test_somebody_with_two_clubs_looks_at_the_one_they_chose(club, browse):
    people.seat_user(club.users["owner"], club.elsewhere, "assistant")
    client = browse("owner")
    before = client.get("/cycles/").content
    client.post(f"/clubs/{club.elsewhere}/look/")
    after = client.get("/cycles/").content

    assert b"Two weeks to the Eskmouth Spring Open" in before
    assert b"Quarry Bank Barbell" in after
    assert b"Two weeks to the Eskmouth Spring Open" not in after
