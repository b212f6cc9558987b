"""Arrays of a squad: the same kilos as one lifter at a time, and no difference from exact fractions."""

from fractions import Fraction

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc, loadable
from meetward.barbell.standard import club_kit
from meetward.cycle.load import ByCategory, Kilos, Percent
from meetward.cycle.tree import Span
from meetward.fit.compile import Compiler, cells_of, compile_cycle
from meetward.fit.kilos import kilos
from meetward.fit.squad import Squad, squad_kilos, squad_of, stream
from meetward.fit.standing import Standings
from meetward.fit.targets import MOST_DAG
from tests.fit.people import KITS, lifter, lifters, lines
from tests.workload.small import CATALOGUE, cycle, line, percent, session, sets


def one_by_one(plan, who) -> tuple[list[int], list[int], list[bool]]:
    """Low ends, high ends and placeholders of every set cell of one lifter, from ``kilos``."""
    standings = Standings(who, CATALOGUE)
    low, high, start = [], [], []
    for _, _, each in plan.sessions():
        for segment in each.segments:
            for one in segment.lines:
                for group in one.groups:
                    weight = kilos(group, one, standings)
                    cells = weight.weights_dag or ()
                    n = cells_of(group)
                    low += cells or [weight.low_dag or 0] * n
                    high += cells or [weight.high_dag or 0] * n
                    start += [weight.placeholder] * n
    return low, high, start


@settings(max_examples=200)
@given(
    st.lists(st.lists(lines, min_size=1, max_size=4), min_size=1, max_size=3), st.lists(lifters, max_size=5)
)
def test_arrays_equal_one_lifter_at_a_time_for_every_set(sessions, squad):
    plan = cycle(tuple(session(*each) for each in sessions))
    arrays = compile_cycle(plan, CATALOGUE)

    done = squad_kilos(arrays, squad_of(squad, arrays.references, CATALOGUE))

    assert done.high_dag().shape == (len(squad), arrays.sets)
    for row, who in enumerate(squad):
        low, high, start = one_by_one(plan, who)
        assert done.low_dag()[row].tolist() == low
        assert done.high_dag()[row].tolist() == high
        assert done.placeholders()[row].tolist() == start


def nearest(kit: BarAndDiscs, aim: Fraction) -> int:
    """Nearest loadable weight, a tie to the lighter, by trying all."""
    return min(loadable(kit), key=lambda dag: (abs(dag - aim), dag))


def test_random_cells_equal_exact_fractions_ties_included():
    # `make bench` does the same for a million cells.
    random = np.random.default_rng(3)
    permilles = [int(p) for p in random.integers(1, 1_300, 40)] + [500, 700, 750, 725]
    plan = cycle((session(*(line("snatch", sets(1, 1, load=Percent(p, p))) for p in permilles)),))
    arrays = compile_cycle(plan, CATALOGUE)
    bests = np.concatenate([random.integers(1, 30_000, 300), np.arange(4_000, 14_000, 50)])
    for kit in KITS:
        squad = Squad(
            bests[:, None].astype(np.int32),
            np.zeros((len(bests), 1), bool),
            (kit,),
            np.zeros(len(bests), np.intp),
            np.zeros(len(bests), np.uint8),
        )
        done = squad_kilos(arrays, squad).high_dag()
        rows = random.choice(len(bests), 15, replace=False)
        for row in rows:
            exact = [nearest(kit, Fraction(int(bests[row]) * p, 1_000)) for p in permilles]
            assert done[row].tolist() == exact


def test_a_tie_goes_to_the_lighter():
    # Steps of 2.5 kg from 20 kg: 62.5 % of 50 kg is 31.25 kg, half way between 30 and 32.5.
    assert nearest(club_kit(), Fraction(3_125)) == 3_000
    plan = cycle((session(line("snatch", sets(1, 1, load=percent(62.5)))),))
    arrays = compile_cycle(plan, CATALOGUE)

    done = squad_kilos(arrays, squad_of([lifter(snatch=50)], arrays.references, CATALOGUE))

    assert done.high_dag().tolist() == [[3_000]]


def test_a_session_that_is_the_same_object_is_compiled_once():
    class Watched:
        asked = 0

        @property
        def movements(self):
            self.asked += 1
            return CATALOGUE.movements

    watched = Watched()
    kept, old, new = (
        session(line("snatch", sets(3, 2, load=percent(p)), sets(2, 2, load=percent(p + 5))))
        for p in (70, 75, 80)
    )
    compiler = Compiler(watched)
    compiler.compile(cycle((kept, old)))
    watched.asked = 0
    compiler.compile(cycle((kept, new)))
    for_one = watched.asked
    compiler = Compiler(watched)
    watched.asked = 0
    compiler.compile(cycle((new,)))

    assert for_one == watched.asked > 0


@given(st.lists(st.lists(lines, min_size=1, max_size=3), min_size=2, max_size=4), st.data())
def test_a_compiler_that_saw_other_cycles_says_the_same(sessions, data):
    plan = [session(*each) for each in sessions]
    compiler = Compiler(CATALOGUE)
    compiler.compile(cycle(tuple(plan)))
    edited = data.draw(st.permutations(plan))[: len(plan) - 1]
    who = data.draw(lifters)

    warm, cold = compiler.compile(cycle(tuple(edited))), compile_cycle(cycle(tuple(edited)), CATALOGUE)

    for arrays in (warm, cold):
        done = squad_kilos(arrays, squad_of([who], arrays.references, CATALOGUE))
        assert done.high_dag()[0].tolist() == one_by_one(cycle(tuple(edited)), who)[1]
    assert warm.cells == cold.cells
    assert len(warm.columns) == len(cold.columns)


def test_edited_away_loads_are_forgotten():
    compiler = Compiler(CATALOGUE)
    for n in range(1_200):
        plan = cycle((session(line("snatch", sets(1, 1, load=Kilos(2_000 + n, 2_000 + n)))),))
        arrays = compiler.compile(plan)

    assert len(arrays.columns) == 2
    assert len(compiler._columns) < 1_100


def test_cells_say_where_sets_come_from():
    plan = cycle(
        (
            session(
                line("snatch", sets(3, 2), sets(2, 1)),
                line("jerk", sets(None, 1)),
                warm_up=(line("ankle_rock", sets(1, 5)),),
            ),
        ),
        (session(line("back_squat", sets(4, 5))),),
    )
    arrays = compile_cycle(plan, CATALOGUE)

    assert [tuple(c) for c in arrays.cells] == [
        (1, 1, 0, 0, 0, 0, 1), (1, 1, 1, 0, 0, 1, 3), (1, 1, 1, 0, 1, 4, 2), (1, 1, 1, 1, 0, 6, 1),
        (2, 1, 0, 0, 0, 7, 4),
    ]  # fmt: skip
    assert arrays.sets == 11


def test_streaming_gives_the_same_kilos_in_parts():
    plan = cycle((session(line("snatch", sets(3, 2, load=percent(70, 75)))),))
    arrays = compile_cycle(plan, CATALOGUE)
    squad = squad_of(
        [lifter(kit, snatch=60 + n) for n, kit in enumerate(KITS * 3)], arrays.references, CATALOGUE
    )
    whole = squad_kilos(arrays, squad)

    parts = list(stream(arrays, squad, 4))

    assert [rows.start for rows, _ in parts] == [0, 4, 8, 12, 16]
    assert np.array_equal(np.concatenate([part.low_dag() for _, part in parts]), whole.low_dag())


def test_loads_for_men_and_women_and_for_nobody_in_particular():
    plan = cycle(
        (session(line("back_squat", sets(1, 5, load=ByCategory(Kilos(6_000, 6_000), Kilos(4_000, 4_000))))),)
    )
    arrays = compile_cycle(plan, CATALOGUE)
    three = [lifter(category=c) for c in ("men", "women", None)]

    done = squad_kilos(arrays, squad_of(three, arrays.references, CATALOGUE))

    assert done.high_dag().tolist() == [[6_000], [4_000], [4_000]]


def test_the_low_end_of_a_narrow_range_is_never_above_the_high_end():
    # Steps of 2.5 kg: 71 to 72 % of 86 kg is 61.06 to 61.92 kg, nearest 60 and at or under 60;
    # 72.5 to 72.6 % of 85 kg is 61.63 to 61.71 kg, nearest 62.5, at or under 60.
    plan = cycle((session(line("snatch", sets(1, 1, load=percent(72.5, 72.6)))),))
    arrays = compile_cycle(plan, CATALOGUE)

    done = squad_kilos(arrays, squad_of([lifter(snatch=85)], arrays.references, CATALOGUE))

    assert (done.low_dag().tolist(), done.high_dag().tolist()) == ([[6_000]], [[6_000]])


@pytest.mark.parametrize(("count", "dags"), [(1, [8_500]), (2, [6_500, 8_500]), (3, [6_500, 7_500, 8_500])])
def test_climbing_sets_end_at_the_top_and_a_single_one_is_the_top(count, dags):
    # From 77.5 % of the top: 65.9 kg, nearest 65; the middle is 75.4 kg, nearest 75.
    climb = sets(count, 1, load=Percent(None, 850), climbing=True)
    arrays = compile_cycle(cycle((session(line("snatch", climb)),)), CATALOGUE)

    done = squad_kilos(arrays, squad_of([lifter(snatch=100)], arrays.references, CATALOGUE))

    assert done.high_dag().tolist() == [dags]


def test_nobody_and_nothing():
    arrays = compile_cycle(cycle(()), CATALOGUE)

    assert squad_kilos(arrays, squad_of([], arrays.references, CATALOGUE)).high_dag().shape == (0, 0)
    assert squad_kilos(arrays, squad_of([lifter()], arrays.references, CATALOGUE)).high_dag().shape == (1, 0)


def test_a_rack_that_makes_tonnes_is_cut_to_what_a_sheet_can_say():
    heavy = BarAndDiscs(5_000, 0, (Disc(10_000, 20),))
    who = msgspec.structs.replace(lifter(back_squat=600), kit=heavy)
    plan = cycle((session(line("back_squat", sets(1, 1, load=percent(120)))),))
    arrays = compile_cycle(plan, CATALOGUE)

    done = squad_kilos(arrays, squad_of([who], arrays.references, CATALOGUE)).high_dag()

    assert done.tolist() == [
        [
            kilos(
                plan.phases[0].weeks[0].sessions[0].segments[0].lines[0].groups[0],
                line("back_squat"),
                Standings(who, CATALOGUE),
            ).high_dag
        ]
    ]
    assert 60_000 < done[0, 0] <= MOST_DAG


@pytest.mark.parametrize(
    ("bests", "kit_of", "category_of", "said"),
    [
        ([[-1]], [0], [0], "outside"),
        ([[70_000]], [0], [0], "outside"),
        ([[5_000]], [1], [0], "kit"),
        ([[5_000]], [0], [3], "category"),
        ([[5_000]], [0, 0], [0], "kit"),
        ([5_000], [0], [0], "tables"),
    ],
)
def test_a_squad_that_does_not_fit_together_is_refused(bests, kit_of, category_of, said):
    table = np.array(bests, np.int32)
    with pytest.raises(ValueError, match=said):
        Squad(table, np.zeros(table.shape, bool), (club_kit(),), np.array(kit_of), np.array(category_of))


def test_a_squad_made_for_another_cycle_is_refused():
    arrays = compile_cycle(cycle((session(line("snatch", sets(1, 1, load=percent(70)))),)), CATALOGUE)
    with pytest.raises(ValueError, match="make the squad for this cycle"):
        squad_kilos(arrays, squad_of([lifter()], (), CATALOGUE))


def test_a_count_beyond_reason_gets_a_bounded_number_of_cells():
    group = sets(90_000, 1, load=percent(70))

    assert cells_of(group) == 1_000
    assert cells_of(msgspec.structs.replace(group, count=Span(3, 5))) == 5
