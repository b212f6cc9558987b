"""Coming back after missed time: how light, for how long, step by step.

No law says how much is lost in how many days; the published cases run from nothing in two weeks to about
1.6 % a week over five. So the steps below are what coaches do, with the cases beside them, and all of them
err to the light side. A meet that is near never makes the return quicker.
"""

from typing import Literal

import msgspec

from meetward.catalogue.movement import COMMON_PRACTICE
from meetward.cycle.load import ByCategory, Effort, Heavy, Kilos, Load, Percent, Pounds
from meetward.cycle.tree import Line, SetGroup, Span
from meetward.units import show_percent
from meetward.why import Why

Reason = Literal["missed", "travel", "illness", "illness with fever", "injury", "surgery"]
REASONS: tuple[Reason, ...] = ("missed", "travel", "illness", "illness with fever", "injury", "surgery")
Unit = Literal["session", "week"]

LONGEST_DAYS = 3_650

STRENGTH_KEPT = (
    "14 days off: bench -1.7 %, squat -0.9 %, not significant (Hortobagyi et al. 1993, Med Sci Sports Exerc "
    "25:929-35, 12 athletes); 5 weeks off: about -1.6 to -1.8 % a week (Garcia-Pallares et al. 2010, Med Sci "
    "Sports Exerc 42(6), 7 kayakers); more the longer (Bosquet et al. 2013, Scand J Med Sci Sports 23:e140-9)"
)
FIRST_WEEKS = (
    "limits on volume for the first two to four weeks after two weeks off or more: Caterisano et al. 2019, "
    "Strength Cond J 41(3):1-23; its cuts of 50, 30, 20 and 10 % are quoted from memory"
)
FEVER = (
    "well again for a day, then one or two light days, half the sets, up to 70 %: common practice, no "
    "source; about a fifth of acute respiratory illnesses cost more than a day (a systematic review as told "
    "in its authors' news page; IOC consensus 2022, Br J Sports Med 56:1066)"
)

DOCTOR = "After an injury or surgery a doctor decides when training begins again."
STOP = (
    "Chest pain, palpitations, fainting or unusual breathlessness: stop, and see a doctor before going on. "
    "If symptoms come back, stop for the day."
)


class Step(msgspec.Struct, frozen=True):
    """One step of the return.

    lasts : a session or a week.
    load_permille : every percentage and written kilo times this.
    sets_permille : this share of the written sets, one at least.
    most_permille : no set above this share of a best; 1000 for no such limit.
    said : the step in a sentence.
    """

    number: int
    lasts: Unit
    load_permille: int
    sets_permille: int
    most_permille: int
    said: str
    why: Why


class ReturnRule(msgspec.Struct, frozen=True):
    """What holds from so many days without training on.

    steps : of each week of the return, load and sets. [permille]
    says : the rule in a sentence.
    back : weeks of the cycle to go back to; 1 repeats the last one, 0 goes on.
    again : the cycle is begun again, and bests are found anew before percentages count.
    """

    id: str
    from_days: int
    steps: tuple[tuple[int, int], ...]
    says: str
    because: str
    source: str
    back: int = 0
    again: bool = False


RULES: tuple[ReturnRule, ...] = (
    ReturnRule(
        "a session or two", 0, (),
        "One to three sessions missed: go on where the plan stands; what was missed is not made up for.",
        "Nothing is lost in a few days, and doubling up only tires.",
        COMMON_PRACTICE,
    ),
    ReturnRule(
        "about a week", 7, ((900, 800),),
        "About a week: repeat the last week at 90 % of its weights.",
        "Strength is still there; the feel for the bar is not.",
        f"{COMMON_PRACTICE}; {STRENGTH_KEPT}",
        back=1,
    ),
    ReturnRule(
        "two to three weeks", 14, ((800, 500), (900, 700)),
        "Two to three weeks: two weeks to return, from 80 % and half the sets.",
        "Muscles and tendons meet a load that they have not had for a while.",
        f"{COMMON_PRACTICE}; {FIRST_WEEKS}; {STRENGTH_KEPT}",
        back=2,
    ),
    ReturnRule(
        "a month", 28, ((750, 500), (800, 700), (900, 800), (950, 900)),
        "A month and more: four weeks to return, from an early week of the cycle.",
        "Some strength is gone, and what is left has to get used to volume again.",
        f"{COMMON_PRACTICE}; {FIRST_WEEKS}; {STRENGTH_KEPT}",
        back=4,
    ),
    ReturnRule(
        "two months", 56, ((700, 500), (750, 600), (800, 700), (850, 800), (900, 900)),
        "Two months and more: begin the cycle again, and find new bests before percentages count.",
        "The old bests say little by now.",
        f"{COMMON_PRACTICE}; {FIRST_WEEKS}",
        back=52, again=True,
    ),
    ReturnRule(
        "half a year", 182, ((600, 500), (650, 500), (700, 600), (750, 700), (800, 800), (850, 900)),
        "Half a year and more: start as a beginner does, technique first; old bests don't count.",
        "Bar, joints and lifter meet anew.",
        f"{COMMON_PRACTICE}; {FIRST_WEEKS}",
        back=52, again=True,
    ),
)  # fmt: skip
"""By the days since the last session, rising. Each is lighter and longer than the one before it."""

LIGHT_DAYS = 2
LIGHT_SETS_PERMILLE = 500
LIGHT_MOST_PERMILLE = 700
WELL_DAYS = 1
MOST_HEAVY_EFFORT = Effort("rpe", 60, 70)


class Return(msgspec.Struct, frozen=True):
    """How a lifter comes back.

    rule : the row of `RULES`.
    steps : light sessions after illness first, then weeks; empty where training just goes on.
    back : weeks of the cycle to go back to before going on; see `ReturnRule`.
    doctor_first : nothing begins before a doctor has said so; the steps are for afterwards.
    said : sentences, the most important first.
    """

    rule: ReturnRule
    steps: tuple[Step, ...]
    back: int
    doctor_first: bool
    said: tuple[str, ...]
    why: Why


def layoff(days_missed: int, reason: Reason = "missed", weeks_until_meet: int | None = None) -> Return:
    """The steps back into training.

    days_missed : days from the last session to the first one back.
    weeks_until_meet : whole training weeks that are left; None where no meet is near. Steps that would lie
        behind it are left off, none is made shorter.
    Raises ValueError for days or weeks below zero, more than ten years, and a reason that is not known.
    """
    if not 0 <= days_missed <= LONGEST_DAYS:
        raise ValueError(f"{days_missed} days without training: give 0 to {LONGEST_DAYS}.")
    if weeks_until_meet is not None and weeks_until_meet < 0:
        raise ValueError("The meet is over; leave it out, or give the next one.")
    if reason not in REASONS:
        raise ValueError(f"'{reason}' is no reason known here; take one of {', '.join(REASONS)}.")
    rule = next(rule for rule in reversed(RULES) if days_missed >= rule.from_days)
    doctor_first = reason in ("injury", "surgery")
    if doctor_first and rule.from_days < RULES[2].from_days:
        # After an injury the stricter of the two rules holds: the days alone say too little.
        rule = RULES[2]
    light = _light_days(reason, rule)
    weeks = tuple(
        _week(number, load, sets, rule)
        for number, (load, sets) in enumerate(rule.steps, start=len(light) + 1)
    )
    kept = weeks if weeks_until_meet is None else weeks[:weeks_until_meet]
    said = [rule.says]
    if reason == "illness with fever":
        light_days = f"Well again for {WELL_DAYS} day at least, then {LIGHT_DAYS} light days."
        said.insert(0, f"{light_days} After a fever ask a doctor before hard training.")
    elif doctor_first:
        said.insert(0, f"{DOCTOR} The steps are for afterwards; the program clears nobody.")
    if reason in ("illness", "illness with fever"):
        said.append(STOP)
    if weeks_until_meet is not None and len(kept) < len(weeks):
        reached = show_percent(kept[-1].load_permille) if kept else show_percent(rule.steps[0][0])
        said.append(
            f"The meet comes before the return is done: weights stand at {reached} % by then. Lift it as it "
            "is, with openers to match, or leave it out; the coach decides."
        )
    why = Why(
        f"{days_missed} days without training, {reason}: {rule.says}",
        inputs=(("days since the last session", str(days_missed)), ("reason", reason)),
        rule=rule.because,
        source=rule.source if reason != "illness with fever" else f"{rule.source}; {FEVER}",
    )
    return Return(rule, (*light, *kept), rule.back, doctor_first, tuple(said), why)


def stepped(line: Line, step: Step) -> Line:
    """The line as it is done in a step of the return: lighter, with fewer sets, never the other way round.

    Heavy singles and the like become sets with reps in reserve, unless the step only takes sets away.
    """
    return msgspec.structs.replace(line, groups=tuple(_stepped(group, step) for group in line.groups))


def _stepped(group: SetGroup, step: Step) -> SetGroup:
    count = group.count
    if count is not None:
        count = Span(_fewer(count.low, step), _fewer(count.high, step))
    return msgspec.structs.replace(group, count=count, load=_lighter(group.load, step))


def _fewer(sets: int, step: Step) -> int:
    return min(sets, max(sets * step.sets_permille // 1000, 1))


def _lighter(load: Load, step: Step) -> Load:
    # What share of a best a written weight is nobody can tell here, so a cap counts as a share of the weight.
    share = min(step.load_permille, step.most_permille)
    if share >= 1000:
        return load
    match load:
        case Percent(of=of) if of.kind == "top":
            return load  # the top set has come down already
        case Percent(low, high, of):
            top = high * step.load_permille // 1000
            if step.most_permille < 1000:
                top = min(top, step.most_permille)
            low = None if low is None else min(low * step.load_permille // 1000, top)
            return Percent(low, top, of)
        case Kilos(low, high):
            low = None if low is None else low * share // 1000
            return msgspec.structs.replace(load, low_dag=low, high_dag=high * share // 1000)
        case Pounds(low, high):
            low = None if low is None else low * share // 1000
            return msgspec.structs.replace(load, low_clb=low, high_clb=high * share // 1000)
        case ByCategory(men, women):
            lighter = (_lighter(men, step), _lighter(women, step))
            return msgspec.structs.replace(load, men=lighter[0], women=lighter[1])
        case Heavy():
            return MOST_HEAVY_EFFORT
        case Effort("rpe", low, high):
            top = min(high, MOST_HEAVY_EFFORT.high_tenths)
            return Effort("rpe", min(low, top), top)
        case Effort("rir", low, high):
            left = max(low, 100 - MOST_HEAVY_EFFORT.high_tenths)
            return Effort("rir", left, max(high, left))
        case _:
            return load


def _light_days(reason: Reason, rule: ReturnRule) -> tuple[Step, ...]:
    if reason != "illness with fever":
        return ()
    load = rule.steps[0][0] if rule.steps else 1000
    return tuple(
        Step(
            number,
            "session",
            load,
            min([LIGHT_SETS_PERMILLE, *(sets for _, sets in rule.steps)]),
            LIGHT_MOST_PERMILLE,
            f"Light day {number}: half the sets, nothing above {show_percent(LIGHT_MOST_PERMILLE)} %.",
            Why("A body that has just had a fever gets two light days.", source=FEVER),
        )
        for number in range(1, LIGHT_DAYS + 1)
    )


def _week(number: int, load: int, sets: int, rule: ReturnRule) -> Step:
    said = f"A week at {show_percent(load)} % of the written weights, {show_percent(sets)} % of the sets."
    return Step(number, "week", load, sets, 1000, said, Why(said, rule=rule.says, source=rule.source))
