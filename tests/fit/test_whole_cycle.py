"""A whole cycle from text to kilos, with the shipped catalogue and lifters read from a sheet."""

import pytest

from bench.sample import SETS, TODAY, WEEKS, cycle_text, lifters
from meetward.catalogue.reading import shipped
from meetward.fit.compile import Compiler, compile_cycle
from meetward.fit.day import day_sheets
from meetward.fit.squad import squad_kilos, squad_of
from meetward.lifter.reading import read_squad
from meetward.lifter.writing import to_csv
from meetward.notation.reader import Reader, read
from meetward.workload.count import Counter, count_cycle

CATALOGUE = shipped()
SHEET = b"Name;Snatch;C&J;Bar;Discs\nFen Marlow;62,5;80;15;club\nAda Holm;;71;15;club\n"


@pytest.fixture(scope="module")
def cycle():
    reading = read(cycle_text(), CATALOGUE)
    assert reading.problems == ()
    return reading.cycle


@pytest.fixture(scope="module")
def squad():
    read_back = read_squad(to_csv(lifters(3)), name="squad.csv", catalogue=CATALOGUE, today=TODAY).lifters
    patchy = read_squad(SHEET, name="patchy.csv", catalogue=CATALOGUE, today=TODAY).lifters
    return [*read_back, *patchy]


def test_every_sheet_shows_the_kilos_of_the_arrays(cycle, squad):
    arrays = compile_cycle(cycle, CATALOGUE)
    assert (arrays.sets, sum(len(week.sessions) for _, _, week in cycle.weeks())) == (SETS, WEEKS * 5)
    done = squad_kilos(arrays, squad_of(squad, arrays.references, CATALOGUE))
    high, low, starts = done.high_dag(), done.low_dag(), done.placeholders()

    for row, who in enumerate(squad):
        sheets = {(s.week, s.session): s for s in day_sheets(cycle, who, CATALOGUE)}
        for cell in arrays.cells:
            shown = sheets[cell.week, cell.session].segments[cell.segment].lines[cell.line].sets[cell.group]
            for at in range(cell.first, cell.first + cell.sets):
                assert (low[row, at], high[row, at]) == (shown.low_dag or 0, shown.high_dag or 0)
                assert starts[row, at] == shown.placeholder


def test_a_full_set_of_bests_leaves_no_start_and_a_patchy_one_does(cycle, squad):
    arrays = compile_cycle(cycle, CATALOGUE)
    starts = squad_kilos(arrays, squad_of(squad, arrays.references, CATALOGUE)).placeholders()

    assert starts.any(axis=1).tolist() == [False, False, False, True, True]
    assert starts[4].sum() > starts[3].sum()


def test_editing_one_line_recompiles_and_recounts_one_session(cycle):
    reader, compiler, counter = Reader(CATALOGUE), Compiler(CATALOGUE), Counter(CATALOGUE)
    before = reader.read(cycle_text()).cycle
    compiler.compile(before)
    counter.count(before)
    text = cycle_text().replace("Snatch 6x1 @ 76%", "Snatch 6x1 @ 77%", 1)

    after = reader.read(text).cycle

    same = [
        one is other for (_, _, one), (_, _, other) in zip(before.sessions(), after.sessions(), strict=True)
    ]
    assert same.count(False) == 1
    assert counter.count(after) == count_cycle(read(text, CATALOGUE).cycle, CATALOGUE)
    assert len(compiler.compile(after).columns) == len(compile_cycle(after, CATALOGUE).columns)


def test_the_wave_of_the_weeks_is_seen_in_the_counts(cycle):
    weeks = count_cycle(cycle, CATALOGUE).weeks

    assert all(week.open_groups == week.unknown_groups == 0 for week in weeks)
    assert {week.lifts for week in weeks} == {weeks[0].lifts}
    assert weeks[3].average_permille < weeks[2].average_permille < weeks[4].average_permille
