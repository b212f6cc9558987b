"""What is printed reads back as the very same cycle; printing is stable."""

from hypothesis import HealthCheck, given, settings

from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Cycle, Phase, Segment, Session, Week
from meetward.notation import Reader, Writer
from tests import strategies

CATALOGUE = shipped()
READER = Reader(CATALOGUE)
WRITER = Writer(CATALOGUE)


@given(strategies.cycles)
@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_a_printed_cycle_reads_back_as_the_same_cycle(cycle):
    assert READER.read(WRITER.cycle(cycle)).cycle == cycle


@given(strategies.lines(), strategies.orders, strategies.orders)
@settings(max_examples=400)
def test_a_printed_line_reads_back_as_the_same_line(line, order, loaded_order):
    cycle = Cycle(
        (Phase((Week((Session((Segment("lifts", (line, line)),)),)),)),),
        order=order,
        loaded_order=loaded_order,
    )

    assert READER.read(WRITER.cycle(cycle)).cycle == cycle


@given(strategies.cycles)
@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_printing_is_stable(cycle):
    text = WRITER.cycle(cycle)

    assert WRITER.cycle(READER.read(text).cycle) == text
