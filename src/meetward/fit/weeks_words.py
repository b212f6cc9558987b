"""Sentences of a fitted calendar: why each week stands where it stands, and what changed from the cycle."""

from collections.abc import Iterator, Sequence

from meetward.fit.week_rules import RULE, rule_words
from meetward.fit.weeks_calendar import capital, day_words
from meetward.fit.weeks_check import Breach, loads_before, most_work, work
from meetward.fit.weeks_task import Lay, Task
from meetward.fit.weeks_template import TemplateWeek
from meetward.units import show_percent
from meetward.why import Why

_NUMBERS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip


def week_why(task: Task, lays: tuple[Lay, ...], at: int) -> Why:
    """Why calendar week ``at`` (index from 0) holds what it holds."""
    lay, here = lays[at], task.calendar[at]
    done_before = max(task.done, *(other.week for other in lays[:at]), 0)
    said: list[str] = []
    rule = ""
    if lay.kind == "blocked":
        said.append(here.why_blocked)
    elif lay.kind == "free":
        said.append("Free training: the cycle starts later.")
        rule = "start later"
    elif lay.kind == "extra lighter":
        share = show_percent(lay.level_permille)
        said.append(
            f"An extra lighter week: the sessions of week {done_before} with about {share} % of the sets."
        )
        rule = "extra lighter"
    elif lay.kind == "repeat":
        again = "to come back with" if here.after_gap else "because there are more weeks than the cycle has"
        said.append(f"Week {lay.week} once more, {again}.")
    elif lay.week - done_before > 1:
        said.append(f"{weeks_words(range(done_before + 1, lay.week))} left out before it.")
    if here.meets:
        light = f", so it is done at {show_percent(lay.level_permille)} % of its sets"
        made_light = lay.week and lay.level_permille < 1000
        said.append(f"{capital(' and '.join(here.meets))} lies in this week{light if made_light else ''}.")
        rule = rule or "meet on the way"
    if here.free_days:
        said.append(f"{' and '.join(day_words(day) for day in here.free_days)} is free before the meet.")
    if lay.week and lay.level_permille < 1000 and not here.meets:
        sentence, rule = level_words(task, lays, at)
        said.append(sentence)
    if here.why_blocked and lay.kind != "blocked":
        said.append(here.why_blocked)
    words = rule_words(rule, task.rules) if rule else ""
    return Why(" ".join(said), rule=words, source=RULE[rule].source if rule else "")


def level_words(task: Task, lays: tuple[Lay, ...], at: int) -> tuple[str, str]:
    """Why a working week is done at less than its whole: a sentence, and the rule that asks for it."""
    lay, here = lays[at], task.calendar[at]
    head = f"Week {lay.week} at {show_percent(lay.level_permille)} % of its sets"
    higher = min(level for level, _ in task.rules.levels if level > lay.level_permille)
    if higher > here.cap_permille and task.rules.on("return"):
        return f"{head}: the return from missed time is stepped.", "return"
    before = loads_before(task, lays)[at]
    whole = work(task, Lay(lay.kind, lay.week, 1000, 0))
    most = most_work(task, lay, before)
    names = (("rise of lifts", "lifts"), ("rise of heavy lifts", "heavy lifts"))
    tried = work(task, Lay(lay.kind, lay.week, higher, 0))
    for (rule, name), full, load, limit, next_up in zip(names, whole, before, most, tried, strict=True):
        if task.rules.on(rule) and next_up > limit:
            return f"{head}: it has {full} {name}, and after {load} no more than {limit} are asked.", rule
    return f"{head}.", "rise of lifts"


def reasons(task: Task, lays: tuple[Lay, ...]) -> tuple[str, ...]:
    """What changed from the cycle as written, and why; one sentence where nothing did."""
    done = [lay.week for lay in lays if lay.week]
    remain = task.template[task.done :]
    gone = [week for week in remain if week.number not in done]
    blocked = sum(lay.kind == "blocked" for lay in lays)
    more = len(lays) - blocked - len(remain)
    said: list[str] = []
    if blocked:
        said.append(f"{_few(len(lays)).capitalize()} until the meet, {_number(blocked)} of them blocked.")
    if gone:
        others = any(lay.kind in ("extra lighter", "repeat") for lay in lays)
        why = "other weeks take their place" if others else "the rules ask for it"
        why = f"there {_is(-more)} {_few(-more)} fewer" if more < 0 else why
        cheapest = "" if any(lay.broken for lay in lays) else f", and {_cheapest(task, gone)}"
        said.append(f"{weeks_words([week.number for week in gone])} left out: {why}{cheapest}.")
    gaps = [lay.kind == "repeat" and here.after_gap for lay, here in zip(lays, task.calendar, strict=True)]
    said += [
        f"Week {lay.week} is done once more after the missed time."
        for lay, after_gap in zip(lays, gaps, strict=True)
        if after_gap
    ]
    again = [lay.week for lay, gap in zip(lays, gaps, strict=True) if lay.kind == "repeat" and not gap]
    if again:
        why = f"there {_is(more)} {_few(more)} more" if more > 0 else "weeks that are left out make room"
        cheapest = "" if any(lay.broken for lay in lays) else ", and the plan that does so costs least"
        said.append(f"{weeks_words(again)} done twice: {why}{cheapest}.")
    free = sum(lay.kind == "free" for lay in lays)
    if free:
        first = next(at for at, lay in enumerate(lays) if lay.week)
        said.append(
            f"The cycle starts {_few(free)} later, in the week of {day_words(task.calendar[first].monday)}; "
            "until then training is free."
        )
    return (*said, *_lighter_reasons(task, lays)) or ("Every week stands as the coach wrote it.",)


def _lighter_reasons(task: Task, lays: tuple[Lay, ...]) -> Iterator[str]:
    for at, lay in enumerate(lays):
        meets = " and ".join(task.calendar[at].meets)
        level = f" at {show_percent(lay.level_permille)} % of its sets" if lay.level_permille < 1000 else ""
        if lay.kind == "extra lighter":
            before = max(task.done, *(other.week for other in lays[:at]), 0)
            yield f"After week {before} stands an extra lighter week{f', with {meets}' if meets else ''}."
        elif lay.week and meets:
            yield f"Week {lay.week} falls in the week of {meets}{level and f' and is done{level}'}."
        elif lay.week and level:
            yield level_words(task, lays, at)[0]


def cost_words(task: Task, what: str, which: int) -> str:
    """What a cost is for, as listed by `weeks_check.costs_of`."""
    if what in ("extra lighter", "start later"):
        monday = day_words(task.calendar[which].monday)
        return f"{'Extra lighter' if what == 'extra lighter' else 'Free'} week of {monday}"
    return {
        "left out": f"Week {which} is left out",
        "repeated": f"Week {which} is repeated",
        "level": f"Week {which} is not done whole",
        "meet on the way": f"Week {which} is made light for a meet",
        "spread": f"Week {which} is changed beside a changed one",
        "test rested": f"The test of week {which} comes soon after missed time",
    }[what]


def breach_words(task: Task, lays: tuple[Lay, ...], breach: Breach) -> str:
    """How a plan breaks a rule."""
    lay, here = lays[breach.at], task.calendar[breach.at]
    week, on = f"Week {lay.week}", f"in the week of {day_words(here.monday)}"
    if breach.rule == "kept":
        done = {other.week for other in lays}
        gone = [
            week.number
            for week in task.template[task.done :]
            if not week.may_drop and week.number not in done
        ]
        return f"{weeks_words(gone)} left out, though not to be missed."
    if breach.rule in ("rise of lifts", "rise of heavy lifts"):
        which = 0 if breach.rule == "rise of lifts" else 1
        before = loads_before(task, lays)[breach.at]
        now, most = work(task, lay)[which], most_work(task, lay, before)[which]
        name = "lifts" if which == 0 else "heavy lifts"
        return f"{week} {on} has {now} {name} after {before[which]}; the rule allows {most}."
    return {
        "from the meet": f"{week if lay.week else 'What lies'} {on} does not stand where the meet wants it.",
        "once": f"{week} {on} is a second time of a week that is done once.",
        "twice": f"{week} {on} is done more than twice.",
        "lighter week": f"{week} {on} is one working week more in a row than the rule allows.",
        "return": f"{week} {on} comes back at {show_percent(lay.level_permille)} %, "
                  f"where the return allows {show_percent(here.cap_permille)} %.",
        "meet on the way": f"{week} {on} is not a light one, though {' and '.join(here.meets)} lies in it.",
    }[breach.rule]  # fmt: skip


def weeks_words(numbers: Sequence[int]) -> str:
    """``[3]`` as "Week 3 is", ``[1, 2, 3, 5]`` as "Weeks 1 to 3 and 5 are"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    said: list[str] = []
    for run in runs:
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]
    if len(numbers) == 1:
        return f"Week {said[0]} is"
    *first, last = said
    return f"Weeks {', '.join(first)} and {last} are" if first else f"Weeks {last} are"


def _cheapest(task: Task, gone: Sequence[TemplateWeek]) -> str:
    costs = sorted(week.drop_cost for week in task.template[task.done :] if week.may_drop)
    mine = sorted(week.drop_cost for week in gone)
    them = "it is" if len(mine) == 1 else "they are"
    if mine == costs[: len(mine)]:
        return f"{them} the cheapest to miss"
    return f"the plan without {'it' if len(mine) == 1 else 'them'} costs least of all that keep the rules"


def _number(number: int) -> str:
    return _NUMBERS[number] if 0 <= number < len(_NUMBERS) else str(number)


def _few(number: int) -> str:
    return f"{_number(number)} week{'' if number == 1 else 's'}"


def _is(number: int) -> str:
    return "is" if number == 1 else "are"
