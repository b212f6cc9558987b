"""Run the measurements and print a table: ``python -m bench [part ...]``."""

import importlib
import importlib.util
import os
import platform
import sys
import time

PARTS = ("reading", "squad", "office", "sheets", "catalogue", "drawings", "body", "weeks", "week_days")


def main(names: list[str]) -> int:
    """Run the parts named, or all; 1 when a part is unknown or a figure that has to hold does not."""
    unknown = [name for name in names if name not in PARTS]
    if unknown:
        print(f"There is no part '{unknown[0]}'. Parts: {', '.join(PARTS)}.", file=sys.stderr)
        return 1
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f}")
    wrong = False
    for name in names or PARTS:
        if importlib.util.find_spec(f"bench.{name}") is None:
            print(f"\n!! bench.{name} IS MISSING: not measured.")
            continue
        part = importlib.import_module(f"bench.{name}")
        start = time.perf_counter()
        print(f"\n{part.TITLE}")
        for figure in part.run():
            mark = {None: "     ", True: "  ok ", False: "  NOT"}[figure.met]
            aim = f"   (aim: {figure.aim})" if figure.aim else ""
            print(f"{mark} {figure.what:<66} {figure.got:>14}{aim}", flush=True)
            wrong = wrong or figure.wrong
        print(f"      [{time.perf_counter() - start:.0f} s]")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
