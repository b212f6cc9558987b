"""What an entry has to keep besides its types. Each fault names its field, so that a message can point."""

import math
import re
from collections.abc import Iterator

from meetward.catalogue.drill import Drill
from meetward.catalogue.flaw import Flaw
from meetward.catalogue.movement import COMMON_PRACTICE, Asked, Movement, Ratio, Usual
from meetward.catalogue.sequence import Sequence
from meetward.catalogue.shared import Shared
from meetward.catalogue.words import LONGEST_NAME, normal

LONGEST_SUMMARY = 200
CUES = (3, 6)
LONGEST_CUE_WORDS = 7
FAULTS = (2, 4)
MOST_RATIOS = 12
LONGEST_HOLD_BETWEEN_SETS_S = 30
"""Static seconds that one dose between heavy sets may put on a muscle. Under 30 s the loss was about 1 %
and could not be told from none (Kay and Blazevich 2012, Med Sci Sports Exerc 44:154-164); holding in every
rest did cost repetitions (Aydin 2017)."""

TEXTS = ("summary", "purpose", "setup", "execution", "how")

_ID = re.compile(r"[a-z0-9]+(_[a-z0-9]+)*")
_LETTER = re.compile(r"[^\W_]")


def flaws(entry: Movement | Drill | Sequence | Shared) -> Iterator[Flaw]:
    """Everything that is wrong with an entry by itself."""
    if not _ID.fullmatch(entry.id):
        yield Flaw(
            "id",
            "bad id",
            f"'{entry.id}' is no id.",
            "Use lower-case words joined by underscores, as in 'hang_snatch'.",
        )
    if isinstance(entry, Shared):
        yield from _facts(entry)
        return
    if not normal(entry.name):
        yield Flaw(
            "name",
            "bad name",
            f"The name has no letters or over {LONGEST_NAME} characters.",
            "Give the usual short name.",
        )
    for n, alias in enumerate(entry.names):
        if len(alias) > LONGEST_NAME or not _LETTER.search(alias):
            yield Flaw(
                f"names[{n}]",
                "bad name",
                f"'{alias[:40]}' cannot be a name.",
                "Take it out or write it in words.",
                "look",
            )
    if entry.link and not entry.link.startswith(("https://", "http://")):
        yield Flaw(
            "link",
            "bad link",
            f"'{entry.link[:60]}' is no web address.",
            "Begin it with https://, or leave it empty.",
        )
    if isinstance(entry, Sequence):
        yield from _sequence(entry)
        return
    yield from _teaching(entry)
    yield from _replacements(entry)
    if isinstance(entry, Movement):
        yield from _facts(entry)
        yield from _movement(entry)
    else:
        yield from _drill(entry)


def _replacements(entry: Movement | Drill) -> Iterator[Flaw]:
    """One step down, one step up and the same position are three answers; none of them is the entry."""
    said: dict[str, str] = {}
    for field in ("easier", "harder", "instead"):
        for n, id_ in enumerate(getattr(entry, field)):
            if id_ == entry.id:
                message, repair = "The entry would replace itself.", "Name another one, or take it out."
            elif id_ in said:
                message = f"'{id_[:60]}' stands in '{said[id_]}' too."
                repair = "Keep it in one of the lists."
            else:
                said[id_] = field
                continue
            yield Flaw(f"{field}[{n}]", "replacement not clear", message, repair, "look")


def _facts(entry: Movement | Shared) -> Iterator[Flaw]:
    """Joint ranges, and the usual sets and reps."""
    for n, asked in enumerate(entry.asks):
        yield from _asked(f"asks[{n}]", asked, entry.asks[:n])
    for n, usual in enumerate(entry.usual):
        yield from _usual(f"usual[{n}]", usual)


def _asked(field: str, asked: Asked, before: tuple[Asked, ...]) -> Iterator[Flaw]:
    if any(one.motion == asked.motion and one.at == asked.at for one in before):
        said = f"'{asked.motion}' stands twice."
        yield Flaw(f"{field}.motion", "motion twice", said, "Keep the higher one.", "look")
    if asked.degrees and not 0 <= asked.degrees[0] <= asked.degrees[1] <= 200:
        said = f"From {asked.degrees[0]} to {asked.degrees[1]} degrees."
        yield Flaw(f"{field}.degrees", "out of range", said, "Give two figures that do not fall, 0 to 200.")
    if asked.degrees and asked.source == COMMON_PRACTICE:
        said = "The degrees have no source."
        yield Flaw(f"{field}.source", "degrees without source", said, "Name the publication.", "look")
    yield from _sourced(field, asked.source)


def _usual(field: str, usual: Usual) -> Iterator[Flaw]:
    if not 1 <= usual.sets[0] <= usual.sets[1] <= 30:
        said = f"{usual.sets[0]} to {usual.sets[1]} sets."
        yield Flaw(f"{field}.sets", "out of range", said, "Give two numbers that do not fall, as in [3, 5].")
    given = [x for x in (usual.reps, usual.seconds, usual.metres) if x is not None]
    if len(given) != 1:
        said = "A set needs reps, seconds or metres, and one of them only."
        yield Flaw(field, "no length of a set", said, "Write as reps = [3, 5].")
    elif not 1 <= given[0][0] <= given[0][1] <= 1000:
        said = f"From {given[0][0]} to {given[0][1]}."
        yield Flaw(field, "out of range", said, "Give two numbers that do not fall, as in reps = [3, 5].")
    load = usual.load_permille
    if load and not 0 < load[0] <= load[1] <= 2000:
        said = f"Loads from {load[0]} to {load[1]} permille."
        yield Flaw(f"{field}.load_permille", "out of range", said, "Give thousandths, as in [700, 850].")
    yield from _sourced(field, usual.source)


def _sourced(field: str, source: str) -> Iterator[Flaw]:
    if not source.strip():
        said = "The figure has no source."
        yield Flaw(f"{field}.source", "no source", said, f"Name it, or write '{COMMON_PRACTICE}'.")


def _teaching(entry: Movement | Drill) -> Iterator[Flaw]:
    """Text that a lifter can read between two sets."""
    for field in TEXTS:
        if not getattr(entry, field, "there is no such field").strip():
            yield Flaw(field, "no text", "There is no text here yet.", "Write one to four sentences.", "look")
    if len(entry.summary) > LONGEST_SUMMARY:
        yield Flaw(
            "summary",
            "summary too long",
            f"The summary has {len(entry.summary)} characters.",
            f"Keep it to {LONGEST_SUMMARY}: a lifter has ten seconds.",
            "look",
        )
    low, high = CUES
    if not low <= len(entry.cues) <= high:
        yield Flaw(
            "cues", "number of cues", f"There are {len(entry.cues)} cues.", f"Give {low} to {high}.", "look"
        )
    for n, cue in enumerate(entry.cues):
        if len(cue.split()) > LONGEST_CUE_WORDS:
            yield Flaw(
                f"cues[{n}]",
                "cue too long",
                f"'{cue}' has {len(cue.split())} words.",
                f"Say it in at most {LONGEST_CUE_WORDS}.",
                "look",
            )


def _movement(entry: Movement) -> Iterator[Flaw]:
    low, high = FAULTS
    if not low <= len(entry.faults) <= high:
        yield Flaw(
            "faults",
            "number of faults",
            f"There are {len(entry.faults)} faults.",
            f"Give {low} to {high}.",
            "look",
        )
    if not 0 <= entry.lifts_per_rep <= 20:
        yield Flaw(
            "lifts_per_rep", "out of range", f"{entry.lifts_per_rep} lifts in one rep.", "Give 0 to 20."
        )
    elif entry.lifts_per_rep and not entry.barbell:
        yield Flaw(
            "lifts_per_rep",
            "no barbell lift",
            "It counts as barbell lifts without a bar in the equipment.",
            "Set lifts_per_rep to 0, or add 'bar' to the equipment.",
            "look",
        )
    if not 1 <= entry.seconds_per_rep <= 600:
        yield Flaw(
            "seconds_per_rep", "out of range", f"{entry.seconds_per_rep} s for one rep.", "Give 1 to 600."
        )
    if len(entry.ratios) > MOST_RATIOS:
        yield Flaw(
            "ratios",
            "number of ratios",
            f"There are {len(entry.ratios)} ratios.",
            f"Keep the best {MOST_RATIOS} or fewer.",
        )
        return
    for n, ratio in enumerate(entry.ratios):
        yield from _ratio(entry, f"ratios[{n}]", ratio)


def _ratio(entry: Movement, field: str, ratio: Ratio) -> Iterator[Flaw]:
    low, typical, high = ratio.low_permille, ratio.typical_permille, ratio.high_permille
    if not 0 < low <= typical <= high <= 10_000:
        yield Flaw(
            field,
            "ratio out of order",
            f"Low, typical and high are {low}, {typical} and {high} permille.",
            "Give three thousandths that do not fall, as in 900, 950, 980.",
        )
    if not ratio.source.strip():
        yield Flaw(
            f"{field}.source",
            "ratio without source",
            "The ratio has no source.",
            "Name the publication, or write 'common practice, no source'.",
        )
    if ratio.of == entry.id:
        yield Flaw(
            f"{field}.of",
            "ratio of itself",
            "The ratio stands on the same movement.",
            "Name another movement.",
        )


def _drill(entry: Drill) -> Iterator[Flaw]:
    if not entry.uses:
        yield Flaw(
            "uses", "no use", "It has no place in a session.", "Give 'warm-up', 'between sets' or 'recovery'."
        )
    if not (math.isfinite(entry.minutes) and 0 < entry.minutes <= 60):
        yield Flaw(
            "minutes",
            "out of range",
            f"{entry.minutes} minutes.",
            "Give what one usual dose takes, up to 60.",
        )
    dose = entry.dose
    if min(dose.reps, dose.seconds) < 0 or not (dose.reps or dose.seconds) or not 1 <= dose.rounds <= 20:
        yield Flaw(
            "dose",
            "no dose",
            "The dose has neither reps nor seconds, or no rounds.",
            "Write as { reps = 6 } or { seconds = 30 }.",
        )
    if entry.held_s < 0:
        yield Flaw("held_s", "out of range", f"{entry.held_s} s held.", "Give 0 when nothing is held.")
    if "between sets" in entry.uses and (
        entry.held_s > LONGEST_HOLD_BETWEEN_SETS_S or entry.kind in ("contract-relax", "soft tissue")
    ):
        yield Flaw(
            "uses",
            "not between sets",
            f"A {entry.kind} that holds for {entry.held_s} s does not belong between heavy sets.",
            "Move it to recovery, or make it short and dynamic.",
            "look",
        )


def _sequence(entry: Sequence) -> Iterator[Flaw]:
    if entry.version < 1:
        yield Flaw("version", "out of range", f"Version {entry.version}.", "Count versions from 1.")
    if not 0 < entry.minutes <= 60:
        yield Flaw("minutes", "out of range", f"{entry.minutes} minutes.", "Give 1 to 60.")
    if not entry.steps:
        yield Flaw(
            "steps",
            "no steps",
            "The sequence has no steps.",
            "Add steps as { of = 'id of a drill', dose = '5 reps' }.",
        )
    for n, step in enumerate(entry.steps):
        if not step.dose.strip():
            yield Flaw(
                f"steps[{n}].dose",
                "no dose",
                "The step does not say how much.",
                "Write it as a coach says it: '5 each way'.",
                "look",
            )
    if not entry.purpose.strip():
        yield Flaw("purpose", "no text", "There is no text here yet.", "Write one to four sentences.", "look")
    if entry.version > 1 and not entry.changed.strip():
        yield Flaw(
            "changed",
            "change not told",
            f"Version {entry.version} does not say what changed.",
            "Write it in a sentence.",
            "look",
        )
