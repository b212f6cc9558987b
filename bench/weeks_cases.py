"""Random fits of dates: templates, calendars and rules, the same for the same seed."""

from datetime import date, timedelta
from random import Random

import msgspec

from meetward.fit.week_rules import BREAKABLE, WeekRules
from meetward.fit.weeks import task_of
from meetward.fit.weeks_calendar import Block, FurtherMeet, LifterCalendar, monday_of
from meetward.fit.weeks_task import Task
from meetward.fit.weeks_template import TemplateWeek, template_week

MEET_ON = date(2027, 3, 20)


def random_template(random: Random, weeks: int) -> tuple[TemplateWeek, ...]:
    """Working weeks that climb and fall, a lighter one now and then, a test here and there, the end."""
    roles = ["load"] * weeks
    for at in range(weeks):
        if at and at % random.choice((3, 4, 4, 5)) == 0:
            roles[at] = "test" if random.random() < 0.25 else "lighter"
    roles[-1] = random.choice(("meet", "meet", "test"))
    if weeks > 2 and random.random() < 0.7:
        roles[-2] = "taper"
    found: list[TemplateWeek] = []
    lifts, heavy = random.randint(150, 300), random.randint(10, 70)
    for number, role in enumerate(roles, start=1):
        lifts = max(60, lifts + random.randint(-40, 50))
        heavy = max(0, heavy + random.randint(-15, 22))
        share = 1 if role == "load" else 2
        week = template_week(number, role, weeks, lifts // share, heavy // share)
        found.append(
            msgspec.structs.replace(
                week,
                drop_cost=random.randint(2, 20),
                repeat_cost=random.randint(1, 12),
                may_drop=week.may_drop and random.random() < 0.9,
                may_repeat=week.may_repeat and random.random() < 0.9,
            )
        )
    return tuple(found)


def random_calendar(random: Random, weeks: int) -> LifterCalendar:
    """Up to three blocks of some days to two weeks and up to three meets, anywhere but on the meet day."""
    meet_on = MEET_ON + timedelta(days=random.randint(-5, 1))
    first = monday_of(meet_on) - timedelta(weeks=weeks - 1)
    blocks: list[Block] = []
    for _ in range(random.choice((0, 0, 1, 1, 2, 3))):
        start = first + timedelta(days=random.randint(0, 7 * weeks - 1))
        end = start + timedelta(days=random.choice((2, 6, 6, 9, 13)))
        if end < monday_of(meet_on):
            blocks.append(Block(start, end, random.choice(("travel", "exams", "flu")), random.random() < 0.2))
    blocked = [(block.first, block.last) for block in blocks]
    meets: list[FurtherMeet] = []
    for _ in range(random.choice((0, 0, 1, 2, 3))):
        on = first + timedelta(days=random.randint(0, 7 * weeks))
        if on < monday_of(meet_on) and not any(a <= on <= b for a, b in blocked):
            meets.append(FurtherMeet(on, "Eskmouth Spring Open"))
    days = tuple(sorted(random.sample(range(7), random.randint(2, 6))))
    return LifterCalendar(
        first + timedelta(days=random.choice((0, 0, 2))), meet_on, days, tuple(blocks), tuple(meets)
    )


def random_rules(random: Random) -> WeekRules:
    """Other numbers for every rule, and some rules off."""
    costs = sorted(random.randint(0, 15) for _ in range(2))
    names = [*BREAKABLE, "spread", "extra lighter", "start later", "test rested"]
    most = random.randint(2, 4)
    return WeekRules(
        off=tuple(name for name in names if random.random() < 0.08),
        last_weeks=random.choice((None, None, 1, 2, 3)),
        rise_permille=(random.choice((50, 100, 150, 300)), random.choice((50, 100, 150, 300))),
        rise_least=(random.randint(0, 30), random.randint(0, 10)),
        kept_permille=random.choice((700, 850, 1000)),
        most_in_a_row=most,
        levels=((1000, 0), (850, costs[0]), (600, costs[1])),
        return_steps=random.choice((((850,), (600, 850)), ((900,),), ((600, 850), (600, 600, 850)))),
        illness_weeks=random.randint(0, 2),
        meet_level_permille=random.choice((500, 600)),
        meet_cost=random.randint(0, 10),
        extra_cost=random.randint(0, 12),
        extra_after=random.randint(1, 2),
        free_cost=random.randint(0, 12),
        side_by_side_cost=random.randint(0, 8),
        repeat_after_gap_cost=random.randint(0, 4),
        test_in_return_cost=random.randint(0, 10),
    )


def random_task(
    random: Random, weeks: int, calendar_weeks: int, rules: WeekRules | None = None, begun: bool = False
) -> Task:
    """A whole random fit; the usual rules unless told. One lifter in four comes with a known load.

    begun : some weeks of the cycle lie behind.
    """
    calendar = random_calendar(random, calendar_weeks)
    if random.random() < 0.25:
        calendar = msgspec.structs.replace(
            calendar, last_lifts=random.randint(80, 300), last_heavy_lifts=random.randint(0, 100)
        )
    if begun:
        calendar = msgspec.structs.replace(calendar, weeks_done=random.randint(0, weeks - 1))
    return task_of(random_template(random, weeks), calendar, rules or WeekRules())
