"""Which lines a lifter's restrictions and missing kit touch, part by part, and why.

A restriction is the coach's word. The rules below only say what that word reaches; none of them ends one.
"""

from collections.abc import Iterator
from datetime import date
from functools import lru_cache

import msgspec

from meetward.barbell.discs import BarAndDiscs, Disc
from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.drill import Drill
from meetward.catalogue.movement import (
    COMMON_PRACTICE,
    Equipment,
    Family,
    Motion,
    Movement,
    Position,
    Share,
)
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.taught import taught
from meetward.cycle.tree import Line
from meetward.fit.drill_positions import DRILL_POSITIONS
from meetward.fit.words import entry_of, part_words
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import (
    Limits,
    Restriction,
    RestrictionKind,
    day_said,
    restriction_said,
)
from meetward.problem import Place, Problem
from meetward.strength.repmax import in_sentence
from meetward.why import Why

PAIN = (
    "Pain stops the exercise. A doctor or physiotherapist decides about pain and injury, and whether a "
    "restriction may end; the program never ends one."
)

ENDED_LATELY_DAYS = 14
"""For so long after its last day a restriction is still told: the coach asks before the lift is back."""


class RestrictionRule(msgspec.Struct, frozen=True):
    """What one of the coach's words reaches.

    reaches : in a sentence.
    because : why it reaches so far.
    positions : every movement that passes through one of them.
    families, references : every movement of the family, or whose loads stand on that lift.
    motions : joint ranges that it reaches as well, with the shares of them,
    spared : but not in these families, where no load goes with them.
    by_motion : a movement that is known to ask for none of ``motions`` is not reached by its positions: it
        works the muscles of a position without going there.
    """

    id: RestrictionKind
    reaches: str
    because: str
    positions: tuple[Position, ...] = ()
    families: tuple[Family, ...] = ()
    references: tuple[str, ...] = ()
    motions: tuple[tuple[Motion, tuple[Share, ...]], ...] = ()
    spared: tuple[Family, ...] = ()
    by_motion: bool = False
    source: str = COMMON_PRACTICE


RULES: dict[str, RestrictionRule] = {
    rule.id: rule
    for rule in (
        RestrictionRule(
            "no overhead",
            "Nothing with the arms overhead, in the hands or hanging from them.",
            "The arm is asked to go up under load, whether the bar is pressed, caught or hung from.",
            positions=("overhead", "receiving overhead"),
            motions=(("shoulder flexion", ("full", "most")),),
            spared=("trunk", "jump"),
            by_motion=True,
        ),
        RestrictionRule(
            "no deep squat",
            "Nothing that goes down into the bottom of the squat.",
            "The deep bend of knee and hip is what is spared, whatever the bar does.",
            positions=("bottom",),
            motions=(("knee flexion", ("full",)),),
        ),
        RestrictionRule(
            "no pulling from the floor",
            "Nothing that is pulled from the floor, and no bar that has to be picked up from it.",
            "The start is the lowest and longest lever for the back.",
            positions=("start",),
        ),
        RestrictionRule(
            "no jerks",
            "No jerk, no part of one and no hold at jerk weights.",
            "The dip, the drive and the catch load knees, back and wrists in an instant.",
            families=("jerk", "clean and jerk"),
            references=("jerk", "split_jerk"),
        ),
    )
}
"""By kind. Restrictions of a position, a family or a movement reach just what they name."""

_PULLED_FROM_THE_FLOOR: tuple[Family, ...] = ("snatch", "clean", "clean and jerk", "pull")
_TAKEN_FROM: tuple[Equipment, ...] = ("rack", "blocks", "bench", "machine")
"""A bar that stands on one of these is not picked up from the floor."""

EITHER: tuple[frozenset[Equipment], ...] = (
    frozenset({"dumbbell", "kettlebell"}),
    frozenset({"band", "cable"}),
    frozenset({"pull-up bar", "rings"}),
)
"""Of such a group one is enough, where an entry names several. Common practice, no source."""

BETWEEN = -1
"""Stands for the part of a clash with a drill between the sets."""


class Clash(msgspec.Struct, frozen=True):
    """A part of a line that a restriction or missing kit touches.

    part : number of the part in the line, from 0; -1 for what stands between its sets.
    entry : id of the movement, drill or sequence.
    cause : ``restriction``; ``kit`` for what is not at hand; ``too heavy`` for what the discs cannot make.
    rule : kind of the restriction, or the equipment that is missing.
    step : id of the step, where a step of a warm-up sequence is meant; empty otherwise.
    said : "Snatch: no overhead, until 12 Jan 2027."
    """

    part: int
    entry: str
    cause: str
    rule: str
    said: str
    why: Why
    step: str = ""


def clashes(line: Line, limits: Limits, catalogue: Catalogue, on: date | None = None) -> tuple[Clash, ...]:
    """What of a line a lifter cannot or shall not do on a day, in the order of its parts.

    on : the day; None takes every restriction as holding. Weights are not looked at (see `substitutes`).
    """
    holding = limits.on(on)
    return tuple(_clashes(line, holding, catalogue)) if holding else ()


def unknown_parts(line: Line, limits: Limits, catalogue: Catalogue, place: Place) -> list[Problem]:
    """A note for each part of which nobody can say whether a restriction reaches it."""
    if not limits.restrictions:
        return []
    said = " and ".join(one.said for one in limits.restrictions)
    return [
        Problem(
            place,
            "not in the catalogue",
            f"'{part.written}' is not in the catalogue, so nobody can tell whether it goes with '{said}'.",
            "Look at it yourself, or add it to your catalogue with its positions.",
            part.written,
            severity="look",
        )
        for part in line.parts
        if entry_of(part, catalogue) is None
    ]


def ended_lately(limits: Limits, on: date, catalogue: Catalogue) -> tuple[str, ...]:
    """A sentence for each restriction that ended in the last two weeks: the coach asks first."""
    return tuple(
        f"'{restriction_said(one, catalogue)}' has ended, as the coach set it on {day_said(one.until)}. "
        "Ask how it feels before the lift is back, and begin light; after pain or injury a doctor or "
        "physiotherapist has the word."
        for one in limits.restrictions
        if one.until is not None and 0 < (on - one.until).days <= ENDED_LATELY_DAYS
    )


def rules_out(
    entry: Movement | Drill, limits: Limits, catalogue: Catalogue
) -> tuple[Restriction | Equipment, ...]:
    """The restrictions that reach an entry, and the equipment that it wants and there is none of."""
    return _rules_out(entry.id, limits, catalogue)


def kit_at_hand(kit: BarAndDiscs, limits: Limits) -> BarAndDiscs:
    """The lifter's kit where some of it is missing: another bar, no discs, or only so many.

    Of discs up to a weight a pair of each is kept from the small ones up, so that steps stay fine, then
    whatever fills it up.
    """
    bar_dag = limits.bar_dag or kit.bar_dag
    discs = () if "discs" in limits.equipment else kit.discs
    if limits.heaviest_dag is not None:
        discs = _up_to(discs, (limits.heaviest_dag - bar_dag - kit.collars_dag) // 2)
    return BarAndDiscs(bar_dag, kit.collars_dag, discs)


def _up_to(discs: tuple[Disc, ...], side_dag: int) -> tuple[Disc, ...]:
    left = max(side_dag, 0)
    pairs = dict.fromkeys(discs, 0)
    for disc in sorted(discs, key=lambda disc: disc.dag):
        if disc.dag * 2 <= left:
            pairs[disc] = 1
            left -= disc.dag
    for disc in discs:
        more = min(disc.pairs - pairs[disc], left // disc.dag)
        pairs[disc] += more
        left -= more * disc.dag
    return tuple(Disc(d.dag, number, d.colour, d.large) for d, number in pairs.items() if number)


def lifter_at_hand(lifter: Lifter, limits: Limits) -> Lifter:
    """The lifter with the kit that is at hand."""
    if not limits.missing:
        return lifter
    return msgspec.structs.replace(lifter, kit=kit_at_hand(lifter.kit, limits))


def missing_of(equipment: tuple[Equipment, ...], limits: Limits) -> tuple[Equipment, ...]:
    """What of an entry's equipment is not at hand; one of `EITHER` is enough."""
    gone = limits.equipment
    wanted = frozenset(equipment)
    return tuple(
        each
        for each in equipment
        if each in gone and not any(each in group and (wanted & group) - gone for group in EITHER)
    )


@lru_cache(maxsize=4096)
def asked_motions(id_: str, catalogue: Catalogue) -> tuple[tuple[Motion, Share], ...]:
    """Joint ranges that a movement asks for, with those of its groups."""
    asks = taught(catalogue.movements[id_], catalogue.shared).asks
    return tuple((one.motion, one.share) for one in asks)


@lru_cache(maxsize=16384)
def _rules_out(id_: str, limits: Limits, catalogue: Catalogue) -> tuple[Restriction | Equipment, ...]:
    movement = catalogue.movements.get(id_)
    entry = movement or catalogue.drills[id_]
    reached: list[Restriction | Equipment] = []
    for one in limits.restrictions:
        if movement is None:
            hit = _reaches_positions(one, DRILL_POSITIONS.get(id_, ()))
        else:
            hit = _reaches(one, movement, limits, catalogue)
        if hit:
            reached.append(one)
    # Warm-up and between-set drills with a bar use an empty one: discs don't matter to them.
    reached += missing_of(entry.equipment, limits)
    return tuple(reached)


def _reaches_positions(restriction: Restriction, positions: tuple[Position, ...]) -> bool:
    if restriction.kind == "position":
        return restriction.of in positions
    rule = RULES.get(restriction.kind)
    return rule is not None and any(position in rule.positions for position in positions)


def _reaches(restriction: Restriction, movement: Movement, limits: Limits, catalogue: Catalogue) -> bool:
    match restriction.kind:
        case "movement":
            return movement.id == restriction.of
        case "family":
            return movement.family == restriction.of
        case "position":
            return restriction.of in movement.positions
        case "no pulling from the floor":
            return from_the_floor(movement) or (
                picked_up(movement) and {"rack", "blocks"} <= limits.equipment
            )
        case _:
            rule = RULES[restriction.kind]
    asks = asked_motions(movement.id, catalogue)
    if movement.family in rule.families or movement.reference in rule.references:
        return True
    heavy = [
        share
        for motion, share in asks
        for wanted, shares in rule.motions
        if motion == wanted and share in shares
    ]
    if "full" in heavy or (heavy and movement.family not in rule.spared):
        return True
    # A coach's own entry says nothing of ranges: there the position decides.
    elsewhere = rule.by_motion and asks and all(m != wanted for m, _ in asks for wanted, _ in rule.motions)
    return not elsewhere and any(position in rule.positions for position in movement.positions)


def from_the_floor(movement: Movement) -> bool:
    """Whether the bar or weight is pulled from the floor."""
    pulled = "pull" in movement.positions and movement.family in _PULLED_FROM_THE_FLOOR
    return "start" in movement.positions or pulled


def picked_up(movement: Movement) -> bool:
    """Whether the bar is picked up from the floor before the lift begins, unless somebody sets it up."""
    return movement.barbell and not any(each in movement.equipment for each in _TAKEN_FROM)


def without_rack(limits: Limits) -> Limits:
    """The limits where no rack is needed: later in a complex, when the bar is up, and for an empty bar."""
    missing = tuple(
        msgspec.structs.replace(one, equipment=tuple(each for each in one.equipment if each != "rack"))
        for one in limits.missing
    )
    return Limits(limits.restrictions, missing)


def _clashes(line: Line, limits: Limits, catalogue: Catalogue) -> Iterator[Clash]:
    for number, part in enumerate(line.parts):
        if number == 1:
            limits = without_rack(limits)
        entry = entry_of(part, catalogue)
        if isinstance(entry, Sequence):
            # The lifts of a warm-up are done with an empty bar, which needs no rack.
            light = without_rack(limits)
            for step in entry.steps:
                inner = catalogue.movements.get(step.of) or catalogue.drills.get(step.of)
                if inner is not None:
                    name = f"{entry.name}, step {in_sentence(inner.name)}"
                    holding = light if isinstance(inner, Movement) else limits
                    yield from _of(inner, number, name, holding, catalogue, entry.id)
        elif entry is not None:
            yield from _of(entry, number, part_words(part, catalogue), limits, catalogue)
    for between in line.between:
        drill = catalogue.drills.get(between.drill)
        if drill is not None:
            yield from _of(drill, BETWEEN, drill.name, limits, catalogue)


def _of(
    entry: Movement | Drill, part: int, name: str, limits: Limits, catalogue: Catalogue, sequence: str = ""
) -> Iterator[Clash]:
    for cause in _rules_out(entry.id, limits, catalogue):
        id_, step = (sequence, entry.id) if sequence else (entry.id, "")
        if isinstance(cause, Restriction):
            rule = RULES.get(cause.kind)
            why = Why(
                rule.reaches if rule else f"The coach has left out {cause.of.replace('_', ' ')}.",
                inputs=(("restriction", restriction_said(cause, catalogue)),),
                rule=rule.because if rule else "the coach's word",
                source=rule.source if rule else "the coach",
            )
            said = f"{name}: {restriction_said(cause, catalogue)}."
            yield Clash(part, id_, "restriction", cause.kind, said, why, step)
        else:
            why = Why(f"{name} needs {_a(cause)}; there is none.", inputs=(("missing", cause),))
            yield Clash(part, id_, "kit", cause, f"{name}: no {cause} at hand.", why, step)


def _a(equipment: Equipment) -> str:
    plural = equipment in ("discs", "blocks", "rings")
    return equipment if plural else f"a {equipment}"
