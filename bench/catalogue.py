"""The search field of the catalogue, as it is asked while somebody types."""

import random
import statistics
from collections.abc import Iterator

from bench.figures import Figure, at_most, median_s, ms, time_s
from meetward.catalogue.reading import load

TITLE = "(e) Searching the catalogue while typing"
MISSPELT = ("snacth blance", "jrek behind nekc", "hang powr snach", "romainian deadlift", "xyzzy qqq")


def run() -> Iterator[Figure]:
    """Time 200 queries drawn from all beginnings of all names, the worst of them, and misspellings."""
    catalogue, _ = load()
    yield Figure("entries, names", f"{len(catalogue)}, {sum(1 + len(e.names) for e in catalogue)}")
    yield Figure("making the search ready, once for each catalogue", ms(time_s(lambda: catalogue.search)))
    catalogue.search("snacth")
    names = [name for entry in catalogue for name in (entry.name, *entry.names)]
    typed = sorted({name[:n] for name in names for n in range(1, len(name) + 1)})
    queries = random.Random(3).sample(typed, 200)
    # The best of three of each: what else the machine does is not what is asked.
    times = sorted(min(time_s(lambda q=q: catalogue.search(q)) for _ in range(3)) for q in queries)
    yield Figure("beginnings of names in all, asked of them", f"{len(typed):,}, {len(queries)}")
    yield at_most("a query, median", statistics.median(times), 0.02)
    yield at_most("a query, 95th of 100", times[int(0.95 * len(times))], 0.02)
    yield at_most("a query, slowest", times[-1], 0.02)
    worst = max(median_s(lambda words=words: catalogue.search(words), 3) for words in MISSPELT)
    yield at_most("a misspelling, slowest of 5", worst, 0.02)
