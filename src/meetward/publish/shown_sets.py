"""The sets of a line in figures and words: what paper and page both draw."""

from collections.abc import Iterable, Sequence
from itertools import groupby

import msgspec

from meetward.fit.fitted import DaySet, DaySheet

from .bar import drawn_bar, said_bar, show_weight
from .words import show_kilos, split_range, split_scheme

MOST_BOXES = 10
"""More sets than this get a line to write their number on instead of a box each."""


class ShownSet(msgspec.Struct, frozen=True):
    """A set group.

    kilos : the big figure, without unit: "60", "60–65", "45 to 60"; empty where nothing fixed is loaded.
    lead : a word before the figure: "from" for a start to work up from; else empty.
    scheme : sets and reps; ``more`` is what else is said of them ("wave 1, rest 2:00").
    load : the load as the coach wrote it; empty when the figure says the same.
    figure : the same in three pieces, so that a long one can break after its sign: ("60", "–", "65").
    bar : the drawing; empty where there is nothing to draw. ``bar_for`` names its weight when that is not the
        figure.
    each : the weights one by one where they climb over the sets; else empty.
    boxes : how many boxes to tick; 0 where the number of sets is open or too large.
    round : what stands above the first set of a wave ("Waves 1 to 3, alike; rest 2:00"); else empty.
    why_mark : number of the footnote on paper that says why; 0 for none, as where there is no weight.
    """

    kilos: str
    lead: str
    unit: str
    scheme: str
    more: str
    load: str
    instruction: str
    placeholder: bool
    bar: str
    bar_said: str
    bar_for: str
    figure: tuple[str, str, str]
    each: str
    boxes: int
    round: str
    note: str
    why: str
    why_more: tuple[str, ...]
    why_mark: int


def shown_sets(day_sets: Sequence[DaySet], sheet: DaySheet, whys: dict[str, int]) -> Iterable[ShownSet]:
    """The set groups of a line; that a best is not known is said once, at the first that stands on it.

    whys : footnotes of the day so far with their marks; new ones are added.
    Waves that repeat the same sets at the same weights stand once, with as many boxes to tick.
    """
    said = False
    shown = []
    for day_set in day_sets:
        again = said and day_set.placeholder
        one = _set(day_set, sheet, whys, footnote=not again)
        shown.append(msgspec.structs.replace(one, instruction="") if again else one)
        said = said or day_set.placeholder
    for waves, sets in _rounds(shown):
        yield from _round(waves, sets) if waves else sets


def _wave_of(one: ShownSet) -> str:
    """``2`` for a set of wave 2; empty outside waves."""
    first = one.more.partition(", ")[0]
    return first.removeprefix("wave ") if first.startswith("wave ") else ""


def _rounds(shown: Iterable[ShownSet]) -> list[tuple[list[str], list[ShownSet]]]:
    """Sets by wave: the numbers of the waves that are alike, and the sets of one of them."""
    rounds: list[tuple[list[str], list[ShownSet]]] = []
    for wave, group in groupby(shown, key=_wave_of):
        sets = list(group)
        if wave and rounds and rounds[-1][0] and _alike(rounds[-1][1]) == _alike(sets):
            rounds[-1][0].append(wave)
        else:
            rounds.append(([wave] if wave else [], sets))
    return rounds


def _alike(sets: Iterable[ShownSet]) -> list[ShownSet]:
    """The sets without what may differ between waves that are alike."""
    return [
        msgspec.structs.replace(one, more=one.more.partition(", ")[2], instruction="", why_mark=0)
        for one in sets
    ]


def _round(waves: Sequence[str], sets: Sequence[ShownSet]) -> Iterable[ShownSet]:
    """The sets of one wave, or of several that are alike, with their heading at the first."""
    rests = {one.more.partition(", ")[2] for one in sets}
    rest = next(iter(rests)) if len(rests) == 1 else ""
    head = f"Wave {waves[0]}" if len(waves) == 1 else f"Waves {waves[0]} to {waves[-1]}, alike"
    for number, one in enumerate(sets):
        boxes = one.boxes * len(waves)
        yield msgspec.structs.replace(
            one,
            more="" if rest else one.more.partition(", ")[2],
            boxes=boxes if boxes <= MOST_BOXES else 0,
            round="; ".join(word for word in (head, rest) if word) if number == 0 else "",
        )


def _set(day_set: DaySet, sheet: DaySheet, whys: dict[str, int], *, footnote: bool) -> ShownSet:
    kilos = show_kilos(day_set, sheet.unit)
    scheme, more = split_scheme(day_set.scheme)
    # "No load is written" is no news for three sets of a plank.
    why = day_set.why.said.strip() if kilos or day_set.load_said else ""
    plan = day_set.discs
    # A start to work up from is not drawn with the discs of its upper end.
    if plan and day_set.placeholder and plan.total_dag != day_set.low_dag:
        plan = None
    drawn = show_weight(plan.total_dag, sheet.unit) if plan else ""
    return ShownSet(
        kilos=kilos,
        lead="from" if kilos and day_set.placeholder else "",
        unit=sheet.unit,
        scheme=scheme,
        more=more,
        load="" if day_set.load_said in (kilos, f"{kilos} {sheet.unit}") else day_set.load_said,
        instruction=day_set.instruction,
        placeholder=day_set.placeholder,
        bar=drawn_bar(sheet.bar_dag, plan, sheet.unit) if plan else "",
        bar_said=said_bar(sheet.bar_dag, plan, sheet.unit) if plan else "",
        bar_for=f"Drawn: {drawn} {sheet.unit}" if drawn and drawn != kilos else "",
        figure=split_range(kilos),
        each=", ".join(show_weight(dag, sheet.unit) for dag in day_set.weights_dag)
        if " to " in kilos
        else "",
        boxes=_boxes(day_set),
        round="",
        note="" if day_set.group.note in more else day_set.group.note,
        why=why,
        why_more=tuple(f"{name}: {value}" for name, value in day_set.why.inputs)
        + tuple(
            f"{word}: {said}"
            for word, said in (("Rule", day_set.why.rule), ("Source", day_set.why.source))
            if said
        )
        + tuple(reason.said for reason in day_set.why.because),
        why_mark=whys.setdefault(why, len(whys) + 1) if why and kilos and footnote else 0,
    )


def _boxes(day_set: DaySet) -> int:
    """One for each set; the upper end where the number is a range."""
    count = len(day_set.weights_dag) or (day_set.group.count.high if day_set.group.count else 0)
    return count if count <= MOST_BOXES else 0
