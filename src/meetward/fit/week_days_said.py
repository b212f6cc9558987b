"""A plan of a case as days of a lifter, with a sentence for everything that changed."""

from collections.abc import Iterable
from math import ceil

from meetward.catalogue.catalogue import Catalogue
from meetward.cycle.tree import Week
from meetward.fit.week_days_blocks import LineAt, short_warm_up
from meetward.fit.week_days_case import Answer, bits
from meetward.fit.week_days_fitted import (
    FamilyShare,
    FittedDay,
    FittedDays,
    LeftOut,
    Proof,
    line_at,
)
from meetward.fit.week_days_rules import HEAVY, rule
from meetward.fit.week_days_score import clashing, heavy_units, kept_points, units_of, warm_up
from meetward.fit.week_days_setting import NO_LIMIT_S, Setting
from meetward.fit.words import line_words
from meetward.lifter.calendar import DAYS
from meetward.why import Why
from meetward.workload.count import total

LIFTS = ("snatch", "clean and jerk")


def fitted(setting: Setting, answer: Answer, collisions: tuple[str, ...], catalogue: Catalogue) -> FittedDays:
    """The answer as days, lines and sentences."""
    content = setting.case.content
    days = [_day(setting, answer.days[day], day) for day in range(len(setting.days))]
    kept = 0
    for blocks in answer.days:
        kept |= blocks
    missing = [setting.numbers[n] for n in range(len(content.blocks)) if not kept >> n & 1]
    left_out = tuple(_left_out(setting, number) for number in missing)
    stay = [block for n, block in enumerate(setting.blocks.blocks) if n not in set(missing)]
    left = total(block.count for block in stay)
    families = tuple(
        FamilyShare(family, left.family(family), sum(row)) for family, row in setting.blocks.count.families
    )
    meet = _meet_day(setting, catalogue)
    days += [meet] if meet else []
    full = content.full
    return FittedDays(
        not collisions,
        tuple(sorted(days, key=lambda day: day.weekday)),
        left_out,
        families,
        kept_points(content, kept) * 1000 // full if full else 1000,
        (
            *_collision_words(setting, collisions),
            *_day_words(setting, answer, days, catalogue),
            *_heavy_words(setting, answer),
            *_left_out_words(setting, set(missing), left_out, families),
        ),
        collisions,
        setting.problems,
        _proof(setting, answer),
    )


def _day(setting: Setting, blocks: int, day: int) -> FittedDay:
    limit = setting.days[day].minutes
    weekday = setting.days[day].weekday
    held = [setting.blocks.blocks[setting.numbers[n]] for n in bits(blocks)]
    warm = warm_up(setting.case.content, blocks, setting.case.limits_s[day]) if blocks else None
    if warm is None:
        why = Why(f"{DAYS[weekday]} stays free: nothing more of the week fits or is needed.")
        return FittedDay(weekday, 0, (), (), (), (), (), (), 0, limit, False, why)
    _, session, whole = warm
    all_of_it = setting.blocks.warm_up[session]
    kept_warm_up = all_of_it if whole else short_warm_up(all_of_it)
    spent_s = sum(block.seconds for block in held) + sum(seconds for _, seconds in kept_warm_up)
    if any(block.bar for block in held):
        spent_s += setting.blocks.first_bar_s
    limit_s = NO_LIMIT_S if limit is None else limit * 60
    recovery, no_time = [], []
    for at, seconds in setting.blocks.recovery[session]:
        if spent_s + seconds <= limit_s:
            spent_s += seconds
            recovery.append(at)
        else:
            no_time.append(at)
    held.sort(key=lambda block: (block.place, block.session, block.lines))
    sessions = tuple(sorted({block.session + 1 for block in held}))
    minutes = ceil(spent_s / 60)
    said = f"{DAYS[weekday]}: {_sessions(sessions)}, about {minutes} min"
    said += "." if limit is None else f" of {limit}."
    return FittedDay(
        weekday,
        session + 1,
        sessions,
        tuple(at for at, _ in kept_warm_up),
        tuple(at for block in held for at in block.lines),
        tuple(recovery),
        tuple(at for at, _ in all_of_it[: len(all_of_it) - len(kept_warm_up)]),
        tuple(no_time),
        minutes,
        limit,
        False,
        Why(
            said,
            rule="one warm-up a day, of the session that gives most of it; speed and technique, then "
            "strength, then accessories; recovery takes the minutes that are left",
            source=rule("warm-up").source,
        ),
    )


def _meet_day(setting: Setting, catalogue: Catalogue) -> FittedDay | None:
    if setting.meet_session is None or setting.meet_weekday is None:
        return None
    session = setting.asked.week.sessions[setting.meet_session]
    lines: dict[str, list[LineAt]] = {"warm-up": [], "lifts": [], "recovery": []}
    for s, segment in enumerate(session.segments):
        for n in range(len(segment.lines)):
            lines[segment.kind].append(LineAt(setting.meet_session + 1, s, n))
    number = setting.meet_session + 1
    blocks = [block for block in setting.blocks.blocks if block.session == setting.meet_session]
    timed = (setting.blocks.warm_up[setting.meet_session], setting.blocks.recovery[setting.meet_session])
    spent_s = sum(block.seconds for block in blocks) + sum(s for part in timed for _, s in part)
    what = "meet" if setting.asked.week.role == "meet" else "test"
    return FittedDay(
        setting.meet_weekday,
        number,
        (number,),
        tuple(lines["warm-up"]),
        tuple(lines["lifts"]),
        tuple(lines["recovery"]),
        (),
        (),
        ceil((spent_s + setting.blocks.first_bar_s) / 60),
        None,
        True,
        Why(f"{DAYS[setting.meet_weekday]} is the {what}; session {number} stands as written."),
    )


def _left_out(setting: Setting, number: int) -> LeftOut:
    block = setting.blocks.blocks[number]
    whole = setting.blocks.count
    shares = tuple((family, sum(row), whole.family(family)) for family, row in block.count.families)
    said = f"{_capital(block.words)} of session {block.session + 1} is left out"
    lost = [f"{_number(lost)} of the week's {_number(of)} lifts of {family}" for family, lost, of in shares]
    said += f": {_and(lost)}." if lost else "; it counts no lifts."
    return LeftOut(block.lines, block.words, shares, said)


def _collision_words(setting: Setting, collisions: tuple[str, ...]) -> list[str]:
    if not setting.case.limits_s:
        if setting.meet_session is not None:
            return ["There is no day to train on before the meet, so only the meet itself is left."]
        return ["There is no day to train on in this week; give at least one that is not blocked."]
    if not collisions:
        return []
    said = []
    for lift, (name, need) in enumerate(zip(LIFTS, setting.case.needs, strict=True)):
        if f"competition lifts: {name}" not in collisions:
            continue
        least = _least_minutes(setting, lift)
        times = "once" if need == 1 else f"on {need} days"
        said.append(f"{_capital(name)} should stand {times}; with its warm-up it takes at least {least} min")
    have = [str(day.minutes) for day in setting.days if day.minutes is not None]
    if "minutes" in collisions:
        said.append(f"the days have {_and(have)} min")
    rest = "The days below are the best there is without that; more minutes, or a shorter line, would help."
    return ["Not everything that must be can be: " + "; ".join(said) + ". " + rest]


def _least_minutes(setting: Setting, lift: int) -> int:
    """Of a day with the lift alone, its warm-up cut. [min]"""
    content = setting.case.content
    return ceil(
        min(
            block.seconds
            + content.warm_ups[block.session].short_s
            + (content.first_bar_s if block.bar else 0)
            for block in content.blocks
            if block.lifts >> lift & 1
        )
        / 60
    )


def _day_words(setting: Setting, answer: Answer, days: list[FittedDay], catalogue: Catalogue) -> list[str]:
    """Sessions that are joined or split, what warm-ups and recoveries lost."""
    week, content, said = setting.asked.week, setting.case.content, []
    units = [units_of(content, blocks) for blocks in answer.days]
    for training, mine in zip(setting.days, units, strict=True):
        if len(mine) > 1:
            joined = [n + 1 for n, unit in enumerate(setting.blocks.units) if unit in mine]
            said.append(f"{_capital(_sessions(tuple(joined)))} are joined on {DAYS[training.weekday]}.")
    for unit in range(len(content.running)):
        where = [DAYS[day.weekday] for day, mine in zip(setting.days, units, strict=True) if unit in mine]
        if len(where) > 1:
            split = tuple(n + 1 for n, of in enumerate(setting.blocks.units) if of == unit)
            said.append(f"{_capital(_sessions(split))} {_are(split)} split over {_and(where)}.")
    dropped = set(range(len(content.running))) - {unit for mine in units for unit in mine}
    for unit in sorted(dropped & {block.unit for block in content.blocks}):
        gone = tuple(n + 1 for n, of in enumerate(setting.blocks.units) if of == unit)
        said.append(f"{_capital(_sessions(gone))} {_are(gone)} left out as a whole.")
    for day in days:
        if day.warm_up_cut:
            names = _names(week, day.warm_up_cut, catalogue)
            rest = _names(week, day.warm_up, catalogue)
            said.append(
                f"{DAYS[day.weekday]} begins with {rest}; there is no time for {names}, so start it slowly."
            )
        if day.recovery_cut:
            names = _names(week, day.recovery_cut, catalogue)
            said.append(f"{DAYS[day.weekday]}: no time for {names} at the end.")
    wanted = zip(LIFTS, setting.wanted, setting.case.needs, strict=True)
    if setting.meet_session is None:
        said += [
            f"With one day {name} stands once; the coach's week has it on {want}."
            for name, want, need in wanted
            if need < want and need == 1
        ]
    return said


def _heavy_words(setting: Setting, answer: Answer) -> list[str]:
    """Heavy families that stand closer than they should."""
    said, content = [], setting.case.content
    heavy = [heavy_units(content, blocks) for blocks in answer.days]
    names = [_capital(name) for name, _ in HEAVY]
    for day, mine in enumerate(heavy):
        weekday = DAYS[setting.days[day].weekday]
        for name, units in zip(names, mine, strict=True):
            if units.bit_count() > 1:
                said.append(f"{name} of two sessions stand on {weekday} together.")
        if day + 1 < len(heavy) and setting.case.joined[day]:
            next_ = DAYS[setting.days[day + 1].weekday]
            for name, units, theirs in zip(names, mine, heavy[day + 1], strict=True):
                if clashing(content, units) & theirs:
                    said.append(f"{name} stand on {weekday} and {next_}, with no day between.")
    if setting.case.before_meet is not None and heavy:
        for name, units in zip(names, heavy[-1], strict=True):
            if units & ~setting.case.before_meet:
                said.append(f"{name} stand on the day before the meet.")
    return said


def _left_out_words(
    setting: Setting, missing: set[int], left_out: tuple[LeftOut, ...], families: tuple[FamilyShare, ...]
) -> list[str]:
    said = []
    by_session: dict[int, list[str]] = {}
    for each in left_out:
        by_session.setdefault(each.lines[0].session, []).append(each.words)
    something_stays = {block.session for n, block in enumerate(setting.blocks.blocks) if n not in missing}
    for session, names in by_session.items():
        if session - 1 not in something_stays:
            continue
        said.append(f"Left out of session {session}: {_and(names)}.")
    lost = [f"{family.family} {_number(family.kept)} of {_number(family.full)}" for family in families
            if family.kept < family.full]  # fmt: skip
    if lost:
        kept, full = (sum(getattr(family, name) for family in families) for name in ("kept", "full"))
        said.append(f"Of the week's {_number(full)} lifts {_number(kept)} stay: {_and(lost)}.")
    elif not left_out and setting.case.limits_s:
        said.append("Every line of the week is kept.")
    return said


def _proof(setting: Setting, answer: Answer) -> Proof:
    bound = setting.case.content.full if answer.bound is None else answer.bound
    if answer.proven:
        said = "Proven: no plan for these days keeps more."
        return Proof("proven", answer.score, answer.score, 0, said)
    within = ceil((bound - answer.score) * 1000 / max(abs(answer.score), 1))
    said = f"No plan for these days is better by more than {within / 10:g} %; not proven further yet."
    return Proof("within", answer.score, bound, within, said)


def _names(week: Week, lines: Iterable[LineAt], catalogue: Catalogue) -> str:
    names = [line_words(line_at(week, at), catalogue) for at in lines if line_at(week, at).parts]
    return _and(names) or "a note"


def _sessions(numbers: tuple[int, ...]) -> str:
    return f"session {numbers[0]}" if len(numbers) == 1 else f"sessions {_and([str(n) for n in numbers])}"


def _and(words: list[str]) -> str:
    return ", ".join(words[:-1]) + " and " + words[-1] if len(words) > 1 else "".join(words)


def _are(numbers: tuple[int, ...]) -> str:
    return "is" if len(numbers) == 1 else "are"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _number(lifts: float) -> str:
    return f"{lifts:.0f}" if lifts == int(lifts) else f"{lifts:.1f}"
