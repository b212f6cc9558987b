"""A club's own catalogue: form, text and file; who may; two coaches at once; what the site makes of it."""

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from meetward.catalogue.own import own_fields
from meetward.catalogue.reading import load, load_text, shipped
from meetward.web.actions import catalogues as actions
from meetward.web.actions import days, writing
from meetward.web.actions.timetable import Slot
from meetward.web.actions.who import Hidden, NotAllowed
from meetward.web.models.cycles import EditedInPlace
from meetward.web.store import catalogues, cycles, people
from tests.web import club as values

HOSTILE = '"><img src=x onerror=alert(1)><script>alert(1)</script>'
RAIL = """# Our own squat.
[[movement]]
id = "rail_squat"
name = "Rail squat"
names = ["railie"]
family = "squat"
reference = "back_squat"
summary = "Back squat between two rails, slow down, fast up."
"""
CUES = '[[movement]]\nid = "snatch"\ncues = ["Legs first", "Close", "Now"]\n'
NEW = {
    "name": "Rail squat",
    "names": "railie",
    "family": "squat",
    "reference": "Back squat",
    "level": "regular",
}


def page_of(answer, status: int = 200) -> str:
    assert answer.status_code == status
    return answer.content.decode()


@pytest.fixture
def written(club):
    """Saves a text as the next version of the club's own catalogue; its number."""

    def save(text: str, club_id: int = 0) -> int:
        here = club_id or club.id
        after = catalogues.newest(here).number
        return catalogues.save(here, text, after=after, author_id=club.users["owner"])

    return save


def newest(club) -> str:
    return catalogues.newest(club.id).text


def form_of(client, address: str) -> dict[str, object]:
    """What a browser would send from the form at this address, nothing changed."""
    context = client.get(address).context
    sent: dict[str, object] = {"after": str(context["after"]), "do": "save"}
    for part in context["parts"]:
        for field in part.fields:
            if field.how in ("rows", "dose"):
                for n, row in enumerate(field.value):
                    for name, _, words, _ in row["cells"]:
                        sent[f"{field.name}-{n}-{name}"] = words
                    if row["tick"] and row["tick"][2]:
                        sent[f"{field.name}-{n}-{row['tick'][0]}"] = "1"
            else:
                sent[field.name] = field.value
    return sent


# The form


def test_a_movement_is_added_and_read_in_the_cycle_at_once(club, browse):
    client = browse("owner")
    answer = client.post("/own-catalogue/new/movement/", NEW | {"after": "0", "do": "save"}, follow=True)
    cycle = "Order: sets first\nMonday: Squat\nLifts:\nRailie 3x5 @ 70%\n"
    reading = client.post("/cycles/new/", {"text": cycle, "do": "check"}).context["reading"]

    assert answer.redirect_chain[-1][0] == "/catalogue/rail_squat/"
    assert "Rail squat is saved; your catalogue is now version 1." in page_of(answer)
    assert "Still to be written: " in page_of(answer)
    assert [line.meaning for line in reading.read] == ["Rail squat: 3 × 5 at 70 %"]
    assert reading.faults == ()
    assert own_fields(newest(club), "movement", "rail_squat") == {
        "id": "rail_squat", "name": "Rail squat", "names": ["railie"], "family": "squat",
        "reference": "back_squat",
    }  # fmt: skip


def test_a_drill_is_added_with_its_dose(club, browse):
    sent = {
        "name": "Rail rock", "kind": "dynamic", "uses": ["warm-up", "recovery"], "regions": ["hip"],
        "equipment": ["rack"], "dose-0-reps": "6", "dose-0-per_side": "1", "minutes": "1,5", "held_s": "0",
        "summary": "Rock along the rail.", "cues": "Slow\r\nLong\r\nBreathe", "after": "0", "do": "save",
    }  # fmt: skip
    browse("owner").post("/own-catalogue/new/drill/", sent)
    drill = load_text(newest(club))[0].drills["rail_rock"]

    assert (drill.dose.reps, drill.dose.per_side, drill.minutes) == (6, True, 1.5)
    assert drill.uses == ("warm-up", "recovery")
    assert drill.cues == ("Slow", "Long", "Breathe")


@pytest.mark.parametrize("id_", ["snatch", "jerk_behind_neck", "plank", "ankle_rock", "bar_hang"])
def test_a_form_sent_as_it_came_changes_nothing(club, browse, id_):
    client = browse("owner")
    answer = client.post(
        f"/catalogue/{id_}/change/", form_of(client, f"/catalogue/{id_}/change/"), follow=True
    )

    assert "Nothing differs" in page_of(answer)
    assert catalogues.newest(club.id).number == 0


def test_every_shipped_movement_and_drill_goes_through_the_form_unchanged(club):
    from meetward.catalogue.own import changes
    from meetward.web.pages.entry_fields import fields_of, meant, shown_values

    all_ = shipped()
    for kind, every in (("movement", all_.movements), ("drill", all_.drills)):
        for id_, entry in every.items():
            said = meant(shown_values(entry, kind, all_), kind, id_, all_)
            assert {k: v for k, v in changes(kind, said, entry).items() if v is not None} == {}, id_
            assert said.keys() == {field.name for field in fields_of(kind)}


def test_only_what_differs_from_the_shipped_entry_is_written(club, browse):
    client = browse("owner")
    sent = form_of(client, "/catalogue/snatch/change/") | {
        "cues": "Legs first\nClose\nNow", "link": "https://example.org/our-snatch",
    }  # fmt: skip
    page = page_of(client.post("/catalogue/snatch/change/", sent, follow=True))

    assert own_fields(newest(club), "movement", "snatch") == {
        "id": "snatch", "cues": ["Legs first", "Close", "Now"], "link": "https://example.org/our-snatch",
    }  # fmt: skip
    assert "Changed by your club" in page
    assert "Legs first" in page
    assert 'href="https://example.org/our-snatch"' in page


def test_a_change_put_back_by_hand_leaves_the_entry_as_shipped(club, browse, written):
    written(CUES)
    client = browse("owner")
    cues = "\n".join(shipped().movements["snatch"].cues)
    client.post("/catalogue/snatch/change/", form_of(client, "/catalogue/snatch/change/") | {"cues": cues})

    assert newest(club) == ""
    assert catalogues.newest(club.id).number == 2


def test_what_the_form_does_not_show_stays(club, browse, written):
    asks = 'asks = [{ motion = "hip flexion", share = "most", at = "bottom" }] # as in spring\n'
    written(CUES + asks)
    client = browse("owner")
    client.post(
        "/catalogue/snatch/change/", form_of(client, "/catalogue/snatch/change/") | {"scaling": "Stick."}
    )

    assert asks in newest(club)
    assert load_text(newest(club))[0].movements["snatch"].asks[0].motion == "hip flexion"


def test_usual_sets_and_reps_are_written_as_people_say_them(club, browse):
    sent = NEW | {
        "usual-0-sets": "3-5", "usual-0-reps": "2 to 3", "usual-0-load_permille": "72,5–80 %",
        "usual-0-when": "strength", "usual-1-sets": "2", "usual-1-seconds": "30", "usual-1-per_side": "1",
        "after": "0", "do": "save",
    }  # fmt: skip
    browse("owner").post("/own-catalogue/new/movement/", sent)
    heavy, held = load_text(newest(club))[0].movements["rail_squat"].usual

    assert (heavy.sets, heavy.reps, heavy.load_permille, heavy.when) == (
        (3, 5),
        (2, 3),
        (725, 800),
        "strength",
    )
    assert (held.sets, held.seconds, held.per_side) == ((2, 2), (30, 30), True)


@pytest.mark.parametrize("reps", ["some", "3-", "-", "5-3", "1-2-3"])
def test_usual_reps_that_are_no_numbers_are_told(browse, reps):
    sent = NEW | {"usual-0-sets": "3", "usual-0-reps": reps, "after": "0", "do": "save"}
    answer = browse("owner").post("/own-catalogue/new/movement/", sent)
    fields = {one.name: one for part in answer.context["parts"] for one in part.fields}

    assert answer.status_code == 422
    assert fields["usual"].problems
    assert fields["usual"].value[0]["cells"][1][2] == reps


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"name": "!!"}, "name", "no letters"),
        ({"family": ""}, "family", "has to be filled in"),
        ({"lifts_per_rep": "many"}, "lifts_per_rep", "whole number"),
        ({"lifts_per_rep": "99"}, "lifts_per_rep", "0 to 20"),
        ({"reference": "Snacth"}, "reference", "Did you mean 'snatch'?"),
        ({"link": "javascript:alert(1)"}, "link", "https://"),
        (
            {"ratios-0-of": "Snatch", "ratios-0-low_permille": "90", "ratios-0-typical_permille": "80",
             "ratios-0-high_permille": "95", "ratios-0-source": "ours"},
            "ratios", "do not fall",
        ),
        (
            {"ratios-0-of": "Snatch", "ratios-0-low_permille": "a lot", "ratios-0-typical_permille": "80",
             "ratios-0-high_permille": "95", "ratios-0-source": "ours"},
            "ratios", "whole number",
        ),
    ],
)  # fmt: skip
def test_a_fault_is_told_beside_its_field_and_nothing_is_lost(club, browse, changed, field, words):
    sent = (
        NEW | {"summary": "Between\nthe rails", "faults-0-fault": "Leans", "faults-0-fix": "Stand"} | changed
    )
    answer = browse("owner").post("/own-catalogue/new/movement/", sent | {"after": "0", "do": "save"})
    fields = {one.name: one for part in answer.context["parts"] for one in part.fields}

    assert answer.status_code == 422
    assert any(words in f"{p.message} {p.repair}" for p in fields[field].problems)
    assert fields["summary"].value == "Between\nthe rails"
    assert fields["faults"].value[0]["cells"][0][2] == "Leans"
    assert 'aria-invalid="true"' in page_of(answer, 422) or fields[field].how == "rows"
    assert catalogues.newest(club.id).number == 0


def test_checking_saves_nothing(club, browse):
    answer = browse("owner").post("/own-catalogue/new/movement/", NEW | {"after": "0", "do": "check"})

    assert "beside the fields" in page_of(answer)
    assert catalogues.newest(club.id).number == 0


def test_a_name_that_is_there_already_is_told_and_can_be_kept(club, browse):
    client = browse("owner")
    sent = {"name": "Push press", "family": "press", "after": "0", "do": "save"}
    answer = client.post("/own-catalogue/new/movement/", sent)

    assert "Push press goes by this name already" in page_of(answer, 422)
    assert "/catalogue/push_press/change/" in page_of(answer, 422)
    client.post("/own-catalogue/new/movement/?anyway=1", sent)
    ours = load_text(newest(club))[0]
    assert ours.find("push press").entry.id == "push_press_2"


def test_a_shipped_name_that_becomes_ours_is_told(club, browse):
    sent = NEW | {"names": "rack jerk", "after": "0", "do": "save"}
    page = page_of(browse("owner").post("/own-catalogue/new/movement/", sent, follow=True))

    assert "was a name of" in page


def test_a_change_is_taken_back(club, browse, written):
    written(RAIL + CUES)
    client = browse("owner")
    page = page_of(client.post("/catalogue/snatch/take-back/", {"after": "1"}, follow=True))

    assert "Snatch stands as shipped again" in page
    assert "Legs first" not in page
    assert newest(club) == RAIL
    page = page_of(client.post("/catalogue/rail_squat/take-back/", {"after": "2"}, follow=True))
    assert "Rail squat is no longer in your catalogue" in page
    assert client.get("/catalogue/rail_squat/").status_code == 404
    assert [number for number, _, _ in catalogues.versions(club.id)] == [3, 2, 1]


def test_what_others_stand_on_is_not_taken_back(club, browse, written):
    written(
        RAIL
        + '[[movement]]\nid = "pause_rail"\nname = "Pause rail"\nfamily = "squat"\nreference = "rail_squat"\n'
    )
    text = newest(club).replace('reference = "back_squat"', 'reference = "rail_squat"')
    written(text)
    answer = browse("owner").post("/catalogue/rail_squat/take-back/", {"after": "2"})

    assert "pause_rail" in page_of(answer, 422)
    assert newest(club) == text


def test_a_form_cannot_change_what_it_cannot_read_and_says_where(club, browse, written):
    written('[[movement]]\nid = "snatch"\ncues = ["open\n')
    client = browse("owner")
    sent = form_of(client, "/catalogue/snatch/change/") | {"link": "https://example.org"}

    assert "in line 1 of your own catalogue" in page_of(client.post("/catalogue/snatch/change/", sent), 422)


def test_an_own_movement_takes_the_drawing_of_another(club, browse):
    sent = NEW | {"drawing": "Back squat", "after": "0", "do": "save"}
    page = page_of(browse("owner").post("/own-catalogue/new/movement/", sent, follow=True))

    assert load_text(newest(club))[0].movements["rail_squat"].drawing == "back_squat"
    assert 'class="key-positions' in page


def test_a_page_says_what_the_club_has_changed(browse, written):
    written(CUES + 'scaling = "A stick first."\nlink = "https://example.org/s"\n')

    page = page_of(browse("lifter").get("/catalogue/snatch/"))
    assert (
        "Changed by your club: cues, for a beginner, link of your own. Everything else is as shipped." in page
    )


def test_what_a_session_names_and_nobody_knows_can_be_added_from_there(club, browse):
    text = values.TEXT.replace("Back squat 60%/5 70%/5 75%/5x3", "Rail O'squat 3x5 @ 70%")
    book = cycles.open_book(club.id, "Rails", values.cycle(text), text, author_id=None)
    client = browse("owner")
    page = page_of(client.get(f"/cycles/{book}/weeks/1/sessions/1/"))
    address = re.search(r'href="(/own-catalogue/new/movement/[^"]+)"', page)[1]
    part = values.cycle(text).phases[0].weeks[0].sessions[0].segments[0].lines[1].parts[0]

    assert client.get(address).context["name"] == part.written
    assert "add it" not in page_of(browse("assistant").get(f"/cycles/{book}/weeks/1/sessions/1/"))


# Two coaches


def test_two_coaches_who_change_one_entry_lose_nothing(club, browse, written):
    people.seat_user(club.users["assistant"], club.id, "owner")
    first, second = browse("owner"), browse("assistant")
    forms = [form_of(client, "/catalogue/snatch/change/") for client in (first, second)]
    first.post("/catalogue/snatch/change/", forms[0] | {"cues": "One\nTwo\nThree"})
    answer = second.post("/catalogue/snatch/change/", forms[1] | {"cues": "Four\nFive\nSix"})
    page = page_of(answer, 409)

    assert "The owner changed this entry in version 1" in page
    assert [(d.label, d.theirs, d.yours) for d in answer.context["differences"]] == [
        ("Cues", "One\nTwo\nThree", "Four\nFive\nSix")
    ]
    assert catalogues.newest(club.id).number == 1
    again = forms[1] | {"cues": "Four\nFive\nSix", "after": str(answer.context["after"])}
    second.post("/catalogue/snatch/change/", again)
    assert own_fields(newest(club), "movement", "snatch")["cues"] == ["Four", "Five", "Six"]


def test_two_coaches_who_change_two_entries_do_not_meet(club, browse, written):
    client = browse("owner")
    sent = form_of(client, "/catalogue/clean/change/") | {"link": "https://example.org/clean"}
    written(CUES)
    client.post("/catalogue/clean/change/", sent)

    assert own_fields(newest(club), "movement", "snatch")["cues"] == ["Legs first", "Close", "Now"]
    assert own_fields(newest(club), "movement", "clean") == {
        "id": "clean",
        "link": "https://example.org/clean",
    }


def test_two_texts_at_once_are_told_apart(club, browse, written):
    written(CUES)
    client = browse("owner")
    answer = client.post("/own-catalogue/text/", {"text": RAIL, "after": "0", "do": "save"})

    assert "The owner saved version 1" in page_of(answer, 409)
    assert answer.context["text"] == RAIL
    client.post("/own-catalogue/text/", {"text": RAIL, "after": str(answer.context["after"]), "do": "save"})
    assert newest(club) == RAIL


def test_the_store_settles_a_race_and_edits_nothing(club, written):
    written(CUES)
    with pytest.raises(catalogues.ChangedMeanwhile) as told:
        catalogues.save(club.id, RAIL, after=0, author_id=None)
    with pytest.raises(LookupError):
        catalogues.save(club.id, RAIL, after=7, author_id=None)
    row = catalogues.OwnCatalogue.objects.get()
    row.text = RAIL
    with pytest.raises(EditedInPlace):
        row.save()
    with pytest.raises(EditedInPlace):
        catalogues.OwnCatalogue.objects.update(text="")

    assert told.value.theirs == 1
    assert newest(club) == CUES


@pytest.mark.parametrize("after", ["", "one", "-1", "9" * 20])
@pytest.mark.parametrize(
    "address", ["/own-catalogue/text/", "/catalogue/snatch/change/", "/own-catalogue/new/drill/"]
)
def test_a_form_without_a_proper_version_is_refused(browse, address, after):
    assert browse("owner").post(address, {"text": RAIL, "after": after, "do": "save"}).status_code == 400


# The text


def test_the_text_tells_its_problems_by_line(browse):
    text = RAIL + '\n[[movement]]\nid = "clean"\nfamly = "clean"\n'
    answer = browse("owner").post("/own-catalogue/text/", {"text": text, "after": "0", "do": "check"})
    where = [problem.where for problem in answer.context["problems"]]

    assert any(
        f"line {text.split(chr(10)).index('famly = ' + chr(34) + 'clean' + chr(34)) + 1}" in w for w in where
    )
    assert "Rail squat" in page_of(answer)


def test_a_text_that_would_leave_an_entry_out_is_saved_only_when_said_twice(club, browse):
    client = browse("owner")
    text = RAIL.replace('family = "squat"', 'family = "squad"')
    answer = client.post("/own-catalogue/text/", {"text": text, "after": "0", "do": "save"})

    assert "Save all the same" in page_of(answer, 422)
    assert catalogues.newest(club.id).number == 0
    page = page_of(
        client.post(
            "/own-catalogue/text/", {"text": text, "after": "0", "do": "save-all-the-same"}, follow=True
        )
    )
    assert newest(club) == text
    assert "some of it cannot be used" in page
    assert "cannot be used" in page.partition("<tbody>")[2]


def test_line_ends_and_zero_letters_of_browsers_do_not_stay(club, browse):
    text = RAIL.replace("\n", "\r\n") + "\x00"
    browse("owner").post("/own-catalogue/text/", {"text": text, "after": "0", "do": "save"})

    assert newest(club) == RAIL


def test_a_text_that_is_too_long_is_refused_in_words(browse, settings):
    settings.MOST_CATALOGUE_LETTERS = 50
    answer = browse("owner").post("/own-catalogue/text/", {"text": RAIL, "after": "0", "do": "save"})

    assert "at most 50 are kept" in page_of(answer, 413)
    assert answer.context["text"] == RAIL


@pytest.mark.parametrize(
    "text",
    ["= = =", "[" * 10_000, '[[movement]]\nid = """' + "x" * 10_000, "\x01\x02", "[[movement]]\n" * 3_000],
)
def test_a_hostile_text_is_answered(browse, text):
    answer = browse("owner").post("/own-catalogue/text/", {"text": text, "after": "0", "do": "check"})

    assert answer.status_code == 200


# A file


def file(text: str, name: str = "ours.toml") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, text.encode())


def test_a_file_is_looked_at_first_and_then_taken_in(club, browse, written):
    written(CUES + RAIL)
    client = browse("owner")
    brought = RAIL + CUES.replace("Now", "Fast") + '[[drill]]\nid = "yard"\nname = "Yard"\n'
    look = client.post("/import/catalogue/", {"file": file(brought), "after": "1", "do": "look"})

    assert [(line.name, line.does, line.what) for line in look.context["lines"]] == [
        ("Rail squat", "nothing new", ""), ("Snatch", "replaces ours", "cues"),
        ("yard", "cannot be used", ""),
    ]  # fmt: skip
    assert any("yard" in problem.where for problem in look.context["problems"])
    assert catalogues.newest(club.id).number == 1
    sent = {"text": look.context["brought"], "after": "1", "do": "save"}
    assert "version 2" in page_of(client.post("/import/catalogue/", sent, follow=True))
    assert own_fields(newest(club), "movement", "snatch")["cues"] == ["Legs first", "Close", "Fast"]
    assert newest(club).count("Rail squat") == 1


def test_a_file_is_not_taken_in_over_what_somebody_saved_meanwhile(club, browse, written):
    written(CUES)
    answer = browse("owner").post("/import/catalogue/", {"text": RAIL, "after": "0", "do": "save"})

    assert "changed your catalogue meanwhile" in page_of(answer, 409)
    assert newest(club) == CUES


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({}, "no file"),
        ({"file": SimpleUploadedFile("a.toml", b" \n")}, "empty"),
        ({"file": SimpleUploadedFile("a.toml", bytes(range(256)) * 9)}, "is no text"),
        ({"file": SimpleUploadedFile("a.toml", b"x" * 3_000)}, "MB; at most"),
    ],
)
def test_a_file_that_cannot_be_read_is_answered_in_words(browse, settings, sent, words):
    settings.MOST_FILE_BYTES = 2_500

    assert words in page_of(browse("owner").post("/import/catalogue/", sent | {"after": "0"}), 422)


def test_the_file_that_goes_out_is_one_that_the_commands_take(browse, written, tmp_path):
    written(RAIL + CUES)
    answer = browse("assistant").get("/own-catalogue/own-catalogue.toml")
    (tmp_path / "ours.toml").write_bytes(answer.content)
    catalogue, problems = load(tmp_path / "ours.toml")

    assert 'filename="own-catalogue.toml"' in answer["Content-Disposition"]
    assert {p.severity for p in problems} == {"look"}
    assert catalogue.own == {"rail_squat", "snatch"}
    assert catalogue.movements["snatch"].cues == ("Legs first", "Close", "Now")


# Who


def test_everybody_in_the_club_reads_it_and_only_the_owner_writes(club, browse, written, asks):
    written(RAIL)
    for role in ("owner", "assistant", "lifter"):
        client = browse(role)
        assert "Rail squat" in page_of(client.get("/own-catalogue/"))
        assert "Added by your club" in page_of(client.get("/catalogue/rail_squat/"))
        assert "Our own squat" in page_of(client.get("/own-catalogue/versions/1/"))
    for role in ("assistant", "lifter"):
        assert "Change it for your club" not in page_of(browse(role).get("/catalogue/rail_squat/"))
        with pytest.raises(NotAllowed):
            actions.save(asks(role), CUES, after=1)
        for address in (
            "/catalogue/rail_squat/change/",
            "/catalogue/rail_squat/take-back/",
            "/own-catalogue/text/",
        ):
            assert browse(role).post(address, {"after": "1", "do": "save", "text": ""}).status_code == 403
    assert newest(club) == RAIL


def test_another_club_sees_nothing_of_it(club, browse, written, asks):
    written(RAIL + CUES)
    client = browse("stranger")

    assert client.get("/catalogue/rail_squat/").status_code == 404
    assert "Legs first" not in page_of(client.get("/catalogue/snatch/"))
    found = client.get("/catalogue/", {"q": "rail squat", "every": "1"})
    assert "/catalogue/rail_squat/" not in page_of(found)
    assert "Rail squat" not in page_of(client.get("/own-catalogue/"))
    assert client.get("/own-catalogue/versions/1/").status_code == 404
    assert client.get("/own-catalogue/own-catalogue.toml").content == b""
    with pytest.raises(Hidden):
        actions.catalogue_of(asks("stranger"), club.id)
    with pytest.raises(Hidden):
        actions.own(asks("no club"))


def test_clubs_have_numbers_of_their_own(club, browse, written):
    written(CUES)
    written(RAIL, club.elsewhere)

    assert browse("stranger").get("/catalogue/rail_squat/").status_code == 200
    assert browse("owner").get("/catalogue/rail_squat/").status_code == 404


# The rest of the site


def test_the_lifters_day_teaches_with_our_words(browse, written):
    written(CUES)

    assert "Legs first" in page_of(browse("lifter").get("/squad/anouk-varley/days/week-1-session-1/"))


def test_a_saved_cycle_stays_readable_when_our_entry_goes(club, browse, written, asks):
    written(RAIL)
    text = values.TEXT.replace("Back squat 60%/5 70%/5 75%/5x3", "Railie 3x5 @ 70%")
    catalogue = actions.catalogue_of(asks("owner"), club.id)
    cycle = writing.read_text(text, catalogue).cycle
    book = cycles.open_book(club.id, "Rails", cycle, text, author_id=None)
    people.train_from(club.id, book)
    line = next(iter(cycle.sessions()))[2].segments[0].lines[1]
    client = browse("owner")
    with_it = page_of(client.get(f"/cycles/{book}/weeks/1/sessions/1/?lifter=anouk-varley"))
    written("")

    assert line.parts[0].movement == "rail_squat"
    assert 'href="/catalogue/rail_squat/"' in with_it
    for address in (
        f"/cycles/{book}/", f"/cycles/{book}/weeks/1/sessions/1/?lifter=anouk-varley",
        f"/cycles/{book}/text/", "/squad/anouk-varley/days/week-1-session-1/",
        "/squad/anouk-varley/week/1/", "/squad/anouk-varley/",
    ):  # fmt: skip
        page_of(client.get(address))
    page = page_of(client.get(f"/cycles/{book}/weeks/1/sessions/1/"))
    assert "Railie" in page
    assert "not in the catalogue" in page
    sheet = days.day_of(days.training(asks("lifter"), "anouk-varley"), Slot(1, 1))
    assert any("Railie" in str(line) for segment in sheet.segments for line in segment.lines)


def test_an_own_lift_is_found_in_a_spreadsheet(browse, written):
    written(RAIL.replace('reference = "back_squat"', 'reference = "rail_squat"'))
    sheet = SimpleUploadedFile("squad.csv", b"Name,Railie\nDora Penn,95\n")
    look = browse("owner").post("/import/squad/", {"file": sheet, "do": "look"}).context["look"]

    assert look.lifts == ("Rail squat",)


def test_words_that_are_script_are_shown_as_words(club, browse, written):
    client = browse("owner")
    sent = NEW | {"name": f"Rail {HOSTILE}", "summary": HOSTILE, "cues": HOSTILE, "cautions": HOSTILE}
    pages = [
        client.post("/own-catalogue/new/movement/", sent | {"after": "0", "do": "check"}),
        client.post("/own-catalogue/new/movement/", sent | {"after": "0", "do": "save"}, follow=True),
        client.get("/catalogue/", {"q": "rail"}),
        client.get("/own-catalogue/"),
        client.get("/own-catalogue/text/"),
        client.get("/own-catalogue/versions/1/"),
        client.post("/import/catalogue/", {"file": file(newest(club) + HOSTILE), "after": "1", "do": "look"}),
        client.post("/own-catalogue/text/", {"text": newest(club) + HOSTILE, "after": "1", "do": "check"}),
    ]

    assert "Rail" in newest(club)
    for answer in pages:
        page = answer.content.decode()
        assert "<script>alert" not in page
        assert "<img" not in page


def test_a_catalogue_is_read_once_for_each_version(club, asks, written):
    written(RAIL)
    first = actions.catalogue_of(asks("owner"), club.id)
    written(CUES)

    assert actions.catalogue_of(asks("lifter"), club.id) is not first
    assert actions.catalogue_of(asks("lifter"), club.id) is actions.catalogue_of(asks("owner"), club.id)
    assert actions.catalogue_here(asks("no club")) is shipped()
