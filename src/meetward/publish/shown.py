"""A day sheet in the words and figures that are printed: what the paper and the page both draw.

Nothing is computed here; kilos, dates and names are put into words once, for paper and page alike.
"""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import NamedTuple

import msgspec

from meetward.barbell.ladder import Ladder
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import Fault, Movement
from meetward.catalogue.sequence import Sequence as DrillSequence
from meetward.fit.fitted import DayBetween, DayLine, DaySegment, DaySet, DaySheet, Entry
from meetward.problem import Problem

from .bar import Unit, drawn_bar, said_bar, show_weight
from .words import show_date, show_kilos, show_minutes, split_range, split_scheme, time_to_meet

SEGMENT_TITLES = {"warm-up": "Warm-up", "lifts": "Lifts", "recovery": "Recovery"}
DERIVED = "derived best"
"""Kind of the problems that ``fit`` reports for a best that is not known."""
MOST_BOXES = 10
"""More sets than this get a line to write their number on instead of a box each."""


class ShownRung(msgspec.Struct, frozen=True):
    """A warm-up set: weight without unit, reps, and what is on each side in words."""

    weight: str
    reps: int
    side: str


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


class ShownTeaching(msgspec.Struct, frozen=True):
    """The teaching text of one movement or drill; ``how`` is what to do, in full.

    again : it stood on an earlier line of this day, so paper only says "as above".
    """

    name: str
    summary: str
    cues: tuple[str, ...]
    faults: tuple[Fault, ...]
    purpose: str
    setup: str
    how: str
    cautions: tuple[str, ...]
    link: str
    again: bool = False


class ShownBetween(msgspec.Struct, frozen=True):
    """Work between the sets."""

    name: str
    dose: str
    summary: str
    teaching: ShownTeaching | None


class ShownStep(msgspec.Struct, frozen=True):
    """A step of a warm-up or recovery."""

    name: str
    dose: str
    summary: str
    teaching: ShownTeaching | None


class ShownLine(msgspec.Struct, frozen=True):
    """A line of the day; ``mark`` is its number in the segment, ``turn`` says what it takes turns with."""

    mark: str
    name: str
    detail: str
    turn: str
    priority: str
    minutes: str
    ladder: tuple[ShownRung, ...]
    ladder_why: str
    sets: tuple[ShownSet, ...]
    between: tuple[ShownBetween, ...]
    steps: tuple[ShownStep, ...]
    notes: tuple[str, ...]
    teaching: tuple[ShownTeaching, ...]


class ShownSegment(msgspec.Struct, frozen=True):
    """Warm-up, lifts or recovery."""

    kind: str
    title: str
    minutes: str
    lines: tuple[ShownLine, ...]


class ShownDay(msgspec.Struct, frozen=True):
    """The whole day.

    where : "Week 6 of 12, session 3"; ``when`` the date; ``to_meet`` how long to the meet. May be empty.
    facts : short facts under the title: phase, kind of week, key session.
    whys : footnotes in the order of their marks.
    """

    lifter: str
    club: str
    cycle: str
    title: str
    where: str
    when: str
    to_meet: str
    facts: tuple[str, ...]
    aim: str
    notes: tuple[str, ...]
    bar: str
    unit: str
    minutes: str
    minutes_why: str
    segments: tuple[ShownSegment, ...]
    whys: tuple[str, ...]
    cautions: tuple[str, ...]
    problems: tuple[str, ...]


class _Seen(NamedTuple):
    """What earlier lines of the day have shown: footnotes with their marks, names of the movements taught."""

    whys: dict[str, int]
    taught: set[str]


def shown_day(sheet: DaySheet) -> ShownDay:
    """``sheet`` in words and figures."""
    seen = _Seen({}, set())
    segments = tuple(_segment(segment, sheet, seen) for segment in sheet.segments if segment.lines)
    collars = f", collars {show_weight(sheet.collars_dag, sheet.unit)}" if sheet.collars_dag else ""
    return ShownDay(
        lifter=sheet.lifter,
        club=sheet.club,
        cycle=sheet.cycle,
        title=sheet.title,
        where=f"Week {sheet.week} of {sheet.weeks}, session {sheet.session}",
        when=show_date(sheet.on) if sheet.on else "",
        to_meet=time_to_meet(sheet.on, sheet.meet, sheet.meet_on),
        facts=tuple(
            fact
            for fact in (
                sheet.phase,
                "" if sheet.week_role == "load" else f"{sheet.week_role} week",
                "key session" if sheet.key else "",
            )
            if fact
        ),
        aim=sheet.aim,
        notes=sheet.notes,
        bar=f"bar {show_weight(sheet.bar_dag, sheet.unit)} {sheet.unit}{collars}",
        unit=sheet.unit,
        minutes=show_minutes(sheet.minutes),
        minutes_why=sheet.minutes_why.said,
        segments=segments,
        whys=tuple(seen.whys),
        cautions=sheet.cautions,
        problems=_problems(sheet.problems),
    )


def _problems(problems: Iterable[Problem]) -> tuple[str, ...]:
    """Problems as sentences; unknown bests, which their lines explain, are counted in a single one."""
    rest = list(problems)
    derived = [problem for problem in rest if problem.kind == DERIVED]
    said = [str(problem) for problem in rest if problem.kind != DERIVED]
    if derived:
        said.insert(
            0,
            f"{len(derived)} {'best is' if len(derived) == 1 else 'bests are'} not known yet: a weight "
            "after 'from' is only a start. Work up and tell your coach, who enters the best.",
        )
    return tuple(said)


def _segment(segment: DaySegment, sheet: DaySheet, seen: _Seen) -> ShownSegment:
    return ShownSegment(
        kind=segment.kind,
        title=SEGMENT_TITLES[segment.kind],
        minutes=show_minutes(segment.minutes),
        lines=tuple(
            _line(line, str(number), segment, sheet, seen)
            for number, line in enumerate(segment.lines, start=1)
        ),
    )


def _line(line: DayLine, mark: str, segment: DaySegment, sheet: DaySheet, seen: _Seen) -> ShownLine:
    others = [
        other.name for other in segment.lines if line.turn and other.turn == line.turn and other is not line
    ]
    return ShownLine(
        mark=mark,
        name=line.name,
        detail="; ".join(_details(line)),
        turn=f"In turn with {' and '.join(others)}: one set of each." if others else "",
        priority={"key": "most important today", "could": "if time is left"}.get(line.priority, ""),
        minutes=show_minutes(line.minutes),
        ladder=_ladder(line.ladder, sheet.unit),
        ladder_why=line.ladder.why.said if line.ladder else "",
        sets=tuple(_sets(line.sets, sheet, seen)),
        between=tuple(_between(between) for between in line.between),
        steps=tuple(
            ShownStep(name, dose, _summary(entry), _teaching(entry)) for name, dose, entry in line.steps
        ),
        notes=line.notes,
        teaching=tuple(_each_once((_teaching(part.entry) for part in line.parts), seen)),
    )


def _details(line: DayLine) -> Iterable[str]:
    """Variants and pauses; in a complex with the movement that they belong to."""
    for part in line.parts:
        if part.detail and part.detail not in line.name:
            yield part.detail if len(line.parts) == 1 else f"{part.name}: {part.detail}"


def _ladder(ladder: Ladder | None, unit: Unit) -> tuple[ShownRung, ...]:
    if ladder is None:
        return ()
    return tuple(
        ShownRung(
            show_weight(step.dag, unit),
            step.reps,
            " + ".join(show_weight(dag, unit) for dag in step.plan.discs_dag) or "no discs",
        )
        for step in ladder.steps
    )


def _sets(day_sets: Sequence[DaySet], sheet: DaySheet, seen: _Seen) -> Iterable[ShownSet]:
    """The set groups of a line; that a best is not known is said once, at the first that stands on it.

    Waves that repeat the same sets at the same weights stand once, with as many boxes to tick.
    """
    said = False
    shown = []
    for day_set in day_sets:
        again = said and day_set.placeholder
        one = _set(day_set, sheet, seen, footnote=not again)
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


def _set(day_set: DaySet, sheet: DaySheet, seen: _Seen, *, footnote: bool) -> ShownSet:
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
        why_mark=seen.whys.setdefault(why, len(seen.whys) + 1) if why and kilos and footnote else 0,
    )


def _boxes(day_set: DaySet) -> int:
    """One for each set; the upper end where the number is a range."""
    count = len(day_set.weights_dag) or (day_set.group.count.high if day_set.group.count else 0)
    return count if count <= MOST_BOXES else 0


def _between(between: DayBetween) -> ShownBetween:
    return ShownBetween(between.name, between.dose, _summary(between.drill), _teaching(between.drill))


def _summary(entry: Entry | None) -> str:
    return entry.summary if isinstance(entry, Movement | Drill) else ""


def _teaching(entry: Entry | None) -> ShownTeaching | None:
    if isinstance(entry, Movement):
        return ShownTeaching(
            entry.name, entry.summary, entry.cues, entry.faults, entry.purpose, entry.setup, entry.execution,
            entry.cautions, entry.link,
        )  # fmt: skip
    if isinstance(entry, Drill):
        return ShownTeaching(
            entry.name, entry.summary, entry.cues, entry.faults, entry.purpose, "", entry.how, entry.cautions,
            entry.link,
        )  # fmt: skip
    if isinstance(entry, DrillSequence):
        return ShownTeaching(entry.name, "", (), (), entry.purpose, "", "", entry.cautions, entry.link)
    return None


def _each_once(texts: Iterable[ShownTeaching | None], seen: _Seen) -> Iterable[ShownTeaching]:
    """A movement that stands twice in a complex is taught once; on a later line it is marked as seen."""
    for text in {text.name: text for text in texts if text}.values():
        yield msgspec.structs.replace(text, again=text.name in seen.taught)
        seen.taught.add(text.name)
