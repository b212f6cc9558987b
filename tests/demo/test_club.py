"""The club itself, and that it is nobody's."""

import re

from meetward import demo
from meetward.notation import read


def test_the_club_has_a_name_a_town_and_a_coach():
    club = demo.club()
    assert (club.name, club.town) == ("Harrow Lane Weightlifting", "Eskmouth")
    assert club.coach.split() == ["Ida", "Thorne"]


def test_texts_name_the_club(catalogue):
    for text in (demo.cycle_text(), demo.cycle_before_text()):
        cycle = read(text, catalogue).cycle
        assert cycle.club == demo.club().name
        assert demo.club().town in cycle.meet


def test_the_autumn_meet_is_where_the_squad_s_bests_come_from(catalogue):
    meet_on = read(demo.cycle_before_text(), catalogue).cycle.meet_on
    from_meet = [best for lifter in demo.squad(catalogue) for best in lifter.bests if best.on == meet_on]
    assert len(from_meet) >= 30
    assert {best.lift for best in from_meet} == {"snatch", "clean_and_jerk"}
    assert {best.kind for best in from_meet} == {"tested"}


def test_texts_hold_no_address_and_no_lost_characters():
    for text in (demo.cycle_text(), demo.cycle_before_text(), demo.pasted_text()):
        assert not re.search(r"https?:|www\.|@\w+\.\w", text)
        assert "\ufffd" not in text
        assert "\t" not in text


def test_cautions_are_in_the_plan():
    for text in (demo.cycle_text(), demo.cycle_before_text()):
        assert "doctor or physiotherapist" in text
    assert "under 18" in demo.cycle_text()
