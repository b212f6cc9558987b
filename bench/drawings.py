"""The drawn lifter: strips, the reach behind a slider, and the printed book, on one core."""

import random
import statistics
from collections.abc import Iterator

from bench.figures import Figure, at_most, median_s, ms, time_s
from meetward.body.draw import strip
from meetward.body.reach import reach
from meetward.body.reading import load, shipped
from meetward.body.segments import TYPICAL, Body, body
from meetward.body.solve import solve
from meetward.body.sought import Sought
from meetward.catalogue.reading import shipped as catalogue
from meetward.publish.shelf import catalogue_pdf

TITLE = "(f) The drawn lifter"
BODIES = 200


def random_bodies(count: int) -> list[Body]:
    """Lifters of many sizes; the same on every run."""
    chance = random.Random(7)
    return [
        body(
            height_cm=chance.uniform(145, 205),
            mass_kg=chance.uniform(45, 160),
            sex=chance.choice(("men", "women")),
        )
        for _ in range(count)
    ]


def run() -> Iterator[Figure]:
    """Time every strip for a typical body, all of them for 200 bodies, and what hangs on them."""
    drawings = list(shipped())
    strips = [one for one in drawings if len(one.frames) > 3]
    yield Figure("drawings; strips of four positions and more", f"{len(drawings)}; {len(strips)}")
    yield Figure("reading all drawings", ms(time_s(lambda: load(look=False))))
    # The best of five of each: what else the machine does is not what is asked.
    times = {one.id: min(time_s(lambda one=one: strip(one)) for _ in range(5)) for one in strips}
    yield at_most("a strip, solved and drawn, median", statistics.median(times.values()), 0.005)
    slowest = max(times, key=times.__getitem__)
    yield at_most(f"the slowest ({slowest})", times[slowest], 0.005)
    largest = max(len(strip(one)) for one in drawings)
    yield Figure(
        "the largest as SVG", f"{largest:,} bytes", "at most 10,000", largest <= 10_000, largest > 10_000
    )

    sought = [frame.sought for one in strips for frame in one.frames if frame.sought]
    every = list({repr(one): one for one in sought}.values())
    bodies = random_bodies(BODIES)
    took = time_s(lambda: [solve(one, who) for who in bodies for one in every])
    yield Figure(
        f"a position solved, {len(every)} positions x {BODIES} bodies, mean", ms(took / len(every) / BODIES)
    )
    squat = Sought(bar="overhead", grip="snatch", thigh_degrees=-12)
    yield Figure(
        "how deep, and what gives out first (overhead squat)", ms(median_s(lambda: reach(squat, TYPICAL)))
    )
    yield Figure("the whole catalogue as a book", ms(time_s(lambda: catalogue_pdf(catalogue()))))
