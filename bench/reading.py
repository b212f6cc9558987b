"""From text to numbers: a whole cycle cold, and after one line was edited."""

from collections.abc import Iterator

from bench.figures import Figure, at_most, median_s, ms, time_s
from bench.sample import SETS, cycle_text, edited, lifters
from meetward.catalogue.reading import DATA, load, shipped
from meetward.fit.compile import Compiler, compile_cycle
from meetward.fit.squad import squad_kilos, squad_of
from meetward.notation.reader import Reader, read
from meetward.workload.count import Counter, count_cycle

TITLE = "(a) Reading and compiling 14 weeks x 5 sessions"


def run() -> Iterator[Figure]:
    """Time reading, compiling and counting; the catalogue's loading apart."""
    text, catalogue = cycle_text(), shipped()
    yield Figure("loading the catalogue (apart)", ms(median_s(lambda: load(DATA), 5)))
    reading = read(text, catalogue)
    assert not reading.problems, f"the sample is not read cleanly: {reading.problems[0]}"
    arrays = compile_cycle(reading.cycle, catalogue)
    yield Figure(
        "lines, sets, distinct loads", f"{text.count(chr(10))}, {arrays.sets}, {len(arrays.columns) - 1}"
    )
    assert arrays.sets == SETS

    def cold() -> None:
        cycle = read(text, catalogue).cycle
        compile_cycle(cycle, catalogue)
        count_cycle(cycle, catalogue)

    yield at_most("cold: read, compile and count", median_s(cold), 0.1)
    yield Figure("    of this reading", ms(median_s(lambda: read(text, catalogue))))
    yield Figure("    of this compiling", ms(median_s(lambda: compile_cycle(reading.cycle, catalogue))))
    yield Figure("    of this counting", ms(median_s(lambda: count_cycle(reading.cycle, catalogue))))

    reader, compiler, counter, [lifter] = (
        Reader(catalogue),
        Compiler(catalogue),
        Counter(catalogue),
        lifters(1),
    )
    parts: list[tuple[float, float]] = []

    def edit(number: int) -> None:
        changed = edited(text, 37 * number % 400, number)
        cycle = None

        def reread() -> None:
            nonlocal cycle
            cycle = reader.read(changed).cycle

        def refit() -> None:
            arrays = compiler.compile(cycle)
            counter.count(cycle)
            squad_kilos(arrays, squad_of([lifter], arrays.references, catalogue)).high_dag()

        parts.append((time_s(reread), time_s(refit)))

    for number in range(32):
        edit(number)
    parts = sorted(parts[2:], key=sum)
    reading_s, fitting_s = parts[len(parts) // 2]
    yield at_most(
        "one line edited: text to one lifter's kilos and counts, median", reading_s + fitting_s, 0.005
    )
    yield at_most("    of this reading", reading_s, 0.001)
    yield Figure("one line edited, slowest of 30", ms(sum(parts[-1])))
