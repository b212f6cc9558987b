"""Parts of docs/catalogue.md and docs/squad-files.md: what stands in the catalogue, what the readers say."""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path

from docs_markdown import fenced, table

from meetward.barbell.standard import club_kit
from meetward.catalogue.movement import Movement
from meetward.catalogue.own import changes, with_entry
from meetward.catalogue.reading import DATA, load, shipped
from meetward.demo import TODAY
from meetward.lifter.bests import Best
from meetward.lifter.cell import Doubt
from meetward.lifter.headings import read_heading
from meetward.lifter.kit import read_bar, read_discs
from meetward.lifter.profile import Lifter
from meetward.lifter.reading import read_squad
from meetward.lifter.weights import read_weight
from meetward.strength.ratios import derive
from meetward.units import kg_to_dag, show_kg, show_percent

EXAMPLES = Path(__file__).resolve().parent.parent / "docs" / "examples"


def movements_table() -> str:
    """Movements by family, all named."""
    families: dict[str, list[str]] = {}
    for movement in shipped().movements.values():
        families.setdefault(movement.family, []).append(movement.name)
    rows = [(family, str(len(names)), ", ".join(sorted(names))) for family, names in families.items()]
    total = sum(len(names) for names in families.values())
    return f"{total} movements:\n\n" + table(("family", "", "movements"), rows)


def drills_table() -> str:
    """Drills by kind, all named, with where they may stand."""
    kinds: dict[str, list[str]] = {}
    for drill in shipped().drills.values():
        kinds.setdefault(drill.kind, []).append(drill.name)
    uses = Counter(use for drill in shipped().drills.values() for use in drill.uses)
    rows = [(kind, str(len(names)), ", ".join(sorted(names))) for kind, names in kinds.items()]
    said = ", ".join(f"{number} for {use}" for use, number in uses.most_common())
    total = sum(len(names) for names in kinds.values())
    return f"{total} drills ({said}; one may stand in several places):\n\n" + table(
        ("kind", "", "drills"), rows
    )


def sequences_table() -> str:
    """Warm-up sequences with their versions."""
    rows = [
        (one.name, str(one.version), one.purpose, one.changed)
        for versions in shipped().versions.values()
        for one in versions
    ]
    return table(("sequence", "version", "what for", "new in this version"), rows)


def entry_example() -> str:
    """One movement with all that a coach reads in it."""
    one = shipped().movements["snatch_balance"]
    return "\n".join(f"> {line}".rstrip() for line in entry(one).splitlines()) + "\n"


def entry(one: Movement) -> str:
    """A movement in words."""
    names = {movement.id: movement.name.lower() for movement in shipped().movements.values()}
    ratios = [
        f"- {show_percent(r.low_permille)} to {show_percent(r.high_permille)} % of the best {names[r.of]}, "
        f"usually {show_percent(r.typical_permille)} % ({r.source})"
        for r in one.ratios
    ]
    faults = [
        f"- {f.fault}{f' ({f.cause[0].lower()}{f.cause[1:]})' if f.cause else ''}: {f.fix}"
        for f in one.faults
    ]
    stands_on = names[one.reference]
    parts = [
        f"**{one.name}** ({', '.join(one.names)})",
        f"{one.family}; trains {', '.join(one.positions)}; needs {', '.join(one.equipment)}; "
        f"a bare percentage stands on the best {stands_on}",
        one.summary,
        "\n".join(["Usually:", "", *ratios]) if ratios else "",
        f"*Purpose.* {one.purpose}",
        f"*Set-up.* {one.setup}",
        f"*Execution.* {one.execution}",
        f"*Cues.* {'; '.join(one.cues)}",
        "\n".join(["*Faults.*", "", *faults]),
        f"*Cautions.* {' '.join(one.cautions)}",
    ]
    return "\n\n".join(" ".join(p.split()) if "\n- " not in p else p for p in parts if p)


SEARCHES = (
    "hang pwr sn", "BTN jerk", "rack jerk", "jerk behind neck", "ohs", "snatch pul", "snacth blance", "calf",
)  # fmt: skip


def searches_table() -> str:
    """What the search field leads with."""
    rows = []
    for words in SEARCHES:
        results = shipped().search(words, limit=3)
        said = "nothing is called so; nearest: " if results.nearest else ""
        names = ", ".join(found.entry.name for found in results.found)
        rows.append((f"`{words}`", f"{said}{names}{' ...' if results.total > 3 else ''}"))
    return table(("typed", "found"), rows)


def form_example() -> str:
    """What stays of a form in which two fields of the snatch were changed."""
    snatch = shipped().movements["snatch"]
    fields = {
        "name": snatch.name,
        "summary": snatch.summary,
        "cues": ["Legs first", "Close", "Now"],
        "link": "https://example.org/harrow-lane/snatch",
    }
    return fenced(with_entry("", "movement", "snatch", changes("movement", fields, snatch)).strip(), "toml")


def own_catalogue(name: str) -> str:
    """A file of a coach's own, and what the loader says of it."""
    path = EXAMPLES / name
    catalogue, problems = load(path)
    before = set(map(str, load()[1]))
    said = [
        str(problem).replace(f"{path}", name).replace(str(DATA), "data")
        for problem in problems
        if str(problem) not in before
    ]
    own = sorted(
        entry_.name
        for entry_ in (*catalogue.movements.values(), *catalogue.drills.values())
        if entry_.id in catalogue.own
    )
    result = f"Loaded from it: {', '.join(own) or 'nothing'}.\n"
    words = fenced("\n".join(said)) if said else "There is nothing to say about it.\n"
    return fenced(path.read_text(encoding="utf-8").strip(), "toml") + "\n" + words + "\n" + result


HEADINGS = (
    "Athlete", "Surname", "M/F", "DOB", "Age", "BW (lbs)", "Bar", "Plates", "Collars", "Training days",
    "Minutes", "Unit", "Sn", "SNATCH PB", "C+J max (kg)", "Clean & Jerk", "FS 3RM", "Back squat e1RM",
    "Snatch date", "Snatch how", "Date of bests", "Coach notes", "Snatch goal", "Total", "Snacth",
    "Shoe size",
)  # fmt: skip
WEIGHTS = (
    "102.5", "82,5", "180 lb", "100 kg / 220 lb", "100x3", "3RM 90", "95 (Oct 2026)", "~85", "85 est",
    "110 missed", "90-95", "1,5", "#REF!", "ask him", "-",
)  # fmt: skip
BARS = ("20", "15 kg", "45 lb", "women's", "Olympic")
DISCS = ("club", "competition", "2x20 2x10 2x5 2x2.5", "pairs 20, 15, 10x2, 5", "4x45lb 2x25lb", "some")


def headings_table() -> str:
    """Headings as written and what the reader takes them for."""
    rows = []
    for heading in HEADINGS:
        column = read_heading(heading, 0, shipped())
        if column is None:
            means = "not understood: left out and told"
        elif column.ignored:
            means = f"left out: {column.ignored}"
        else:
            means = column.means
        rows.append((f"`{heading}`", means))
    return table(("heading", "taken for"), rows)


def cells_table() -> str:
    """Weights as written and what the reader makes of them."""
    rows = []
    for cell in WEIGHTS:
        read = read_weight(cell, TODAY)
        words = [f"{show_kg(read.dag)} kg" if read.dag is not None else "no weight"]
        words += [f"for {read.reps} reps"] if read.reps else []
        words += [read.kind] if read.kind else []
        words += [f"{read.on:%d %B %Y}"] if read.on else []
        words += [f"note '{read.note}'"] if read.note else []
        rows.append((f"`{cell}`", ", ".join(words), told(read.doubts)))
    return table(("cell", "read as", "said about it"), rows)


def kit_table() -> str:
    """Bars and discs as written."""
    rows = []
    for cell in BARS:
        bar_dag, doubts = read_bar(cell)
        rows.append((f"`{cell}`", f"a bar of {show_kg(bar_dag)} kg" if bar_dag else "nothing", told(doubts)))
    for cell in DISCS:
        read = read_discs(cell)
        pairs = ", ".join(f"{disc.pairs} x {show_kg(disc.dag)}" for disc in read.discs or ())
        rows.append((f"`{cell}`", f"pairs of discs: {pairs} kg" if pairs else "nothing", told(read.doubts)))
    return table(("cell", "read as", "said about it"), rows)


def told(doubts: Iterable[Doubt]) -> str:
    """What the reader says about a cell, with what to do."""
    return " ".join(f"{doubt.message} {doubt.repair}" for doubt in doubts)


def squad_example() -> str:
    """The sheet as found, what is said of it, and the lifters."""
    name = "squad-as-found.csv"
    data = (EXAMPLES / name).read_bytes()
    reading = read_squad(data, name=name, catalogue=shipped(), today=TODAY)
    lists = "\n".join(f"- {column}" for column in reading.columns_understood)
    ignored = "\n".join(f"- {column}" for column in reading.columns_ignored)
    return "\n".join(
        (
            f"[{name}](examples/{name}):\n",
            fenced(data.decode("utf-8-sig").strip()),
            f"Columns read:\n\n{lists}\n",
            f"Columns left out:\n\n{ignored}\n",
            "What is said about it:\n",
            fenced("\n".join(map(str, reading.problems))),
            "The lifters:\n",
            table(
                ("lifter", "category", "born", "bodyweight", "bar", "days", "bests"),
                map(lifter_row, reading.lifters),
            ),
        )
    )


def lifter_row(one: Lifter) -> tuple[str, ...]:
    """A lifter as a row of a table."""
    bests = [
        f"{best.lift.replace('_', ' ')} {show_kg(best.dag)} kg"
        + (f" for {best.reps}" if best.reps > 1 else "")
        + f" ({best.kind}{f', {best.on:%Y-%m-%d}' if best.on else ''})"
        for best in one.bests
    ]
    days = " ".join(("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[day] for day in one.days)
    return (
        one.name,
        one.category or "",
        str(one.birth_year or ""),
        f"{show_kg(one.bodyweight_dag)} kg" if one.bodyweight_dag else "",
        f"{show_kg(one.kit.bar_dag)} kg",
        days,
        "; ".join(bests),
    )


def derived_example() -> str:
    """What is said of a lift that nobody has tested, for a lifter with a back squat."""
    tested = Best("back_squat", kg_to_dag(150), date(2026, 10, 3), "tested")
    found = derive(Lifter("one", "One lifter", club_kit(), bests=(tested,)), "front_squat", shipped())
    if found is None:
        raise ValueError(
            "The front squat can no longer be derived from the back squat; choose another example."
        )
    return f"> {found.why.said}\n"
