"""Dates, days and limits of the invented club's lifters: of every kind, and mostly possible."""

import pytest

from meetward import demo
from meetward.catalogue.reading import shipped
from meetward.fit.weeks import fit_weeks
from meetward.fit.weeks_calendar import LifterCalendar
from meetward.fit.weeks_template import template_of
from meetward.notation import read
from meetward.problem import stops

CATALOGUE = shipped()
CYCLE = read(demo.cycle_text(), CATALOGUE).cycle
WISHES = demo.wishes(CATALOGUE)
NOTHING_FITS = "marcus-oyelaran"


def test_at_least_ten_of_the_24_ask_for_something_of_their_own():
    keys = [one.key for one in WISHES]

    assert len(set(keys)) == len(keys) >= 10
    assert set(keys) < {lifter.key for lifter in demo.squad(CATALOGUE)}


def test_every_kind_of_wish_is_there():
    days = {lifter.key: lifter.days for lifter in demo.squad(CATALOGUE)}
    kinds = {
        "another meet": [one for one in WISHES if one.meet_on != CYCLE.meet_on],
        "a late start": [one for one in WISHES if one.starts_on > CYCLE.starts_on],
        "fewer days": [one for one in WISHES if len(one.days) < max(map(len, days.values()))],
        "days away": [one for one in WISHES if one.blocks],
        "illness": [one for one in WISHES if any(block.illness for block in one.blocks)],
        "a meet on the way": [one for one in WISHES if one.meets],
        "a restriction": [one for one in WISHES if one.limits.restrictions],
        "missing kit": [one for one in WISHES if one.limits.missing],
        "a yes": [one for one in WISHES if one.approved],
        "no yes yet": [one for one in WISHES if not one.approved],
        "changed after the yes": [one for one in WISHES if one.before],
    }

    assert [kind for kind, found in kinds.items() if not found] == []


@pytest.mark.parametrize("wish", WISHES, ids=lambda one: one.key)
def test_the_weeks_find_their_places_for_all_but_one(wish):
    template, problems = template_of(CYCLE, CATALOGUE)
    calendar = LifterCalendar(wish.starts_on, wish.meet_on, wish.days, wish.blocks, wish.meets)
    fitted = fit_weeks(template, calendar)

    assert not stops((*problems, *fitted.problems))
    assert fitted.possible is (wish.key != NOTHING_FITS)
    assert fitted.possible or fitted.clash is not None
