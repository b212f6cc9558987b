"""Tonnage of a squad, against the worked week and one set at a time."""

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.cycle.load import Effort, Kilos
from meetward.fit.compile import compile_cycle
from meetward.fit.kilos import kilos
from meetward.fit.squad import squad_kilos, squad_of
from meetward.fit.standing import Standings
from meetward.fit.tonnage import squad_tonnage
from meetward.workload.count import count_group
from meetward.workload.tonnage import average_load_kg, tonnage_dag
from tests.fit.people import lifter, lifters, lines
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets

WEEK = Path(__file__).parents[1] / "authorities" / "worked-week.csv"


def weighed(plan, *squad):
    arrays = compile_cycle(plan, CATALOGUE)
    return squad_tonnage(plan, squad_kilos(arrays, squad_of(squad, arrays.references, CATALOGUE)), CATALOGUE)


def test_the_worked_week_lifted_as_written():
    # Constructed and counted by hand (tests/authorities/load-accounting.md): 179 lifts, 16,370 kg. Some
    # of its kilos (148.75, 106.25) are made by no bar, so they count here as they are written.
    rows = list(csv.DictReader(WEEK.open(encoding="utf-8")))
    plan = cycle(
        (
            session(
                *(
                    line(row["exercise"].replace(" ", "_"), sets(int(row["sets"]), int(row["reps"])))
                    for row in rows
                )
            ),
        )
    )
    groups = [(one.groups[0], one) for one in plan.phases[0].weeks[0].sessions[0].segments[0].lines]
    lifts = [count_group(group, one, CATALOGUE).lifts for group, one in groups]

    tonnage = tonnage_dag(zip(lifts, (round(float(row["kg"]) * 100) for row in rows), strict=True))

    assert (sum(lifts), tonnage) == (179, 1_637_000)
    assert average_load_kg(tonnage, sum(lifts)) == pytest.approx(91.4525, abs=0.00005)


def test_three_schemes_of_the_article_on_counting():
    # The article's 40 kg 4 x 3, 55 kg 2 x 3, 65 kg 2 x 2: 1,070 kg (load-accounting.md).
    schemes = ((40, 4, 3), (55, 2, 3), (65, 2, 2))
    groups = [sets(n, r, load=Kilos(kg * 100, kg * 100)) for kg, n, r in schemes]

    done = weighed(cycle((session(line("snatch", *groups)),)), lifter())

    assert done.tonnage_dag.tolist() == [[107_000]]
    assert done.lifts.tolist() == [[22]]
    assert done.average_kg()[0, 0] == pytest.approx(48.636, abs=0.0005)


def test_lifts_without_kilos_are_told_apart():
    plan = cycle(
        (session(line("snatch", sets(2, 3, load=percent(70)), sets(1, 4, load=Effort("rpe", 80, 80)))),),
        (session(line("side_plank", sets(3, None))),),
    )

    done = weighed(plan, lifter(snatch=100), lifter())

    assert done.tonnage_dag.tolist() == [[6 * 7_000, 0], [0, 0]]
    assert done.lifts.tolist() == [[6, 0], [0, 0]]
    assert done.lifts_without_kilos.tolist() == [[4, 0], [10, 0]]
    assert np.isnan(done.average_kg()[1]).all()


@given(st.lists(lines, min_size=1, max_size=3), lifters)
def test_tonnage_is_that_of_the_sets_one_at_a_time(each, who):
    standings = Standings(who, CATALOGUE)
    wanted = 0.0
    for one in each:
        for group in one.groups:
            weight, lifts = kilos(group, one, standings), count_group(group, one, CATALOGUE).lifts
            if weight.weights_dag:
                wanted += lifts * sum(weight.weights_dag) / len(weight.weights_dag)
            elif weight.high_dag is not None:
                wanted += lifts * (weight.low_dag + weight.high_dag) / 2

    done = weighed(cycle((session(*each),)), who)

    assert done.tonnage_dag[0, 0] == pytest.approx(wanted)
