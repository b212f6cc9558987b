"""What looks wrong in a squad although every cell could be read. Nothing is changed here; a person looks."""

from collections.abc import Iterator, Sequence
from statistics import median

from meetward.lifter.cell import Doubt
from meetward.lifter.rows import Draft
from meetward.units import show_kg

# Heaviest lifts made at a meet, from memory: above them a figure is more likely a slip or pounds.
_RECORD_DAG = {"snatch": 22_500, "clean_and_jerk": 26_700}
# More than anybody has lifted for the bodyweight, from memory; in hundredths of bodyweight.
_MOST_BODYWEIGHTS = {"snatch": 260, "clean_and_jerk": 325}
# Middle of a whole squad, above which kilos are hardly believable. A judgement.
_MIDDLE_DAG = {
    "bodyweight": 11_500,
    "snatch": 13_500,
    "clean_and_jerk": 16_500,
    "front_squat": 19_000,
    "back_squat": 22_000,
}
_HARDLY_DAG = 40_000
"""In any lift of the training room, such as a squat or a pull; a judgement, no source."""
_ENOUGH = 3


def lifter_doubts(draft: Draft) -> Iterator[tuple[str, Doubt]]:
    """Doubts about one lifter, each with the lift or "bodyweight" it is about."""
    best: dict[str, int] = {}
    for _, one in draft.bests:
        if one.reps == 1:
            best[one.lift] = max(one.dag, best.get(one.lift, 0))
    for lift in sorted({b.lift for _, b in draft.bests if b.dag > _HARDLY_DAG} - _RECORD_DAG.keys()):
        message = f"More than {show_kg(_HARDLY_DAG)} kg has hardly ever been lifted without special clothing."
        yield lift, Doubt("hardly ever lifted", message, "Check the figure, and whether it is in pounds.")
    snatch, clean_and_jerk = best.get("snatch"), best.get("clean_and_jerk")
    if snatch and clean_and_jerk and snatch > clean_and_jerk:
        yield (
            "snatch",
            Doubt(
                "snatch above clean and jerk",
                f"A snatch of {show_kg(snatch)} kg is more than a clean and jerk of "
                f"{show_kg(clean_and_jerk)} kg.",
                "Check that the two are not exchanged.",
            ),
        )
    for lift, record_dag in _RECORD_DAG.items():
        if (dag := best.get(lift, 0)) > record_dag:
            yield (
                lift,
                Doubt(
                    "heavier than ever lifted",
                    f"{show_kg(dag)} kg is more than anybody has lifted at a meet.",
                    "Check the figure, and whether it is in pounds.",
                ),
            )
        elif draft.bodyweight_dag and dag * 100 > draft.bodyweight_dag * _MOST_BODYWEIGHTS[lift]:
            yield (
                lift,
                Doubt(
                    "heavy for the bodyweight",
                    f"{show_kg(dag)} kg at a bodyweight of {show_kg(draft.bodyweight_dag)} kg has hardly "
                    "ever been lifted.",
                    "Check both, and whether one of them is in pounds.",
                ),
            )


def pounds_suspected(drafts: Sequence[Draft]) -> Doubt | None:
    """A doubt when bare figures of a squad are too high to be kilos; they stay as they are."""
    for what, middle_dag in _MIDDLE_DAG.items():
        if what == "bodyweight":
            figures = [d.bodyweight_dag for d in drafts if d.bodyweight_dag and what in d.bare]
        else:
            figures = [
                b.dag for d in drafts if what in d.bare for _, b in d.bests if b.lift == what and b.reps == 1
            ]
        if len(figures) >= _ENOUGH and (middle := median(figures)) > middle_dag:
            return Doubt(
                "pounds taken as kilos",
                f"No unit is given, so figures are read as kilos; the middle {what.replace('_', ' ')} is "
                "then "
                f"{show_kg(int(middle))} kg, which looks like pounds.",
                "If they are pounds, write '(lb)' into the headings and read the file again.",
            )
    return None
