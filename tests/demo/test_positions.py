"""The invented lifters' measures and tests show what the page is for."""

from meetward import demo
from meetward.body.segments import check_measures
from meetward.catalogue.reading import shipped
from meetward.lifter.screen import TESTS, results
from meetward.web.actions.positions import current, retests


def test_the_measures_belong_to_lifters_of_the_squad_and_fit_together():
    keys = {one.key for one in demo.squad(shipped())}

    assert {one.key for one in demo.positions()} < keys
    assert demo.NOTHING_YET in keys - {one.key for one in demo.positions()}
    for one in demo.positions():
        assert check_measures(one.measures, 70) == ()
        assert all(screen.taken and screen.taken <= demo.TODAY for screen in one.screens)


def test_one_has_stiff_ankles_and_one_a_short_rack():
    weak = {
        one.key: {
            result.test.id
            for result in results(current(one.screens).screen)
            if result.standing == "worth working on"
        }
        for one in demo.positions()
    }

    assert "knee_to_wall" in weak["tobias-marr"]
    assert "front_rack" in weak["mehwish-qadri"]
    assert "knee_to_wall" not in weak["mehwish-qadri"]


def test_one_was_measured_twice():
    said = retests(demo.positions()[0].screens)[TESTS[0].id]

    assert "within measuring error" in said[0]
    assert "more than measuring error" in said[1]
