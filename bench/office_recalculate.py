"""Run by a Python that has the office's ``uno`` module: times hard recalculations of an open workbook.

``python3 office_recalculate.py PIPE FILE TIMES`` prints JSON: seconds of each recalculation and a few cells.
"""

import json
import pathlib
import sys
import time

import uno
from com.sun.star.beans import PropertyValue


def main(pipe: str, file: str, times: int) -> None:
    """Open the workbook in the running office, recalculate, close the office."""
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    context = connected(resolver, f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
    desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    hidden = PropertyValue()
    hidden.Name, hidden.Value = "Hidden", True
    book = desktop.loadComponentFromURL(pathlib.Path(file).as_uri(), "_blank", 0, (hidden,))
    kilos, bests = book.Sheets.getByName("Kilos"), book.Sheets.getByName("Bests")
    book.calculateAll()
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        book.calculateAll()
        seconds.append(time.perf_counter() - start)
    before = kilos.getCellByPosition(1, 0).Value
    for row in range(20):
        bests.getCellByPosition(0, row).Value *= 2
    book.calculateAll()
    after = kilos.getCellByPosition(1, 0).Value
    print(json.dumps({"seconds": seconds, "before": before, "after": after}))
    book.close(True)
    desktop.terminate()


def connected(resolver, address: str):
    """The office's context, as soon as it listens."""
    for attempt in range(120):
        try:
            return resolver.resolve(address)
        except Exception:
            if attempt == 119:
                raise
            time.sleep(0.25)
    return None


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
