"""Every way through a calendar, one after another: slow, and written from the sentences of the rules.

Nothing is remembered but the whole way so far; each rule looks back at it. Ways that already break a rule, or
already cost more than the second best known, are not gone on with.
"""

from meetward.fit.weeks_task import Task
from meetward.fit.weeks_template import last_weeks, longest_run

Step = tuple[str, int, int]
"""Kind, week of the cycle (0 for none), level."""


def two_cheapest(task: Task) -> list[tuple[int, tuple[tuple[str, int], ...]]]:
    """The costs of the two cheapest different ways (by kind and week), with the ways."""
    best: dict[tuple[tuple[str, int], ...], int] = {}

    def limit() -> int:
        costs = sorted(best.values())
        return costs[1] if len(costs) > 1 else 10**9

    def walk(way: list[Step], cost: int) -> None:
        if cost > limit():
            return
        if len(way) == len(task.calendar):
            plain = tuple((kind, week) for kind, week, _ in way)
            best[plain] = min(cost, best.get(plain, 10**9))
            return
        for step, more in steps(task, way):
            walk([*way, step], cost + more)

    walk([], 0)
    return sorted((cost, way) for way, cost in best.items())[:2]


def steps(task: Task, way: list[Step]):
    """What may come next and what it costs, the cheapest first."""
    return sorted(_steps(task, way), key=lambda found: found[1])


def _steps(task: Task, way: list[Step]):
    at, last = len(way), len(task.template)
    here, rules = task.calendar[at], task.rules
    weeks_done = [week for _, week, _ in way if week]
    done = max(weeks_done, default=task.done)
    if here.blocked:
        yield ("blocked", 0, 0), 0
        return
    to_meet = len(task.calendar) - at  # 1 in the week of the meet
    tail = last_weeks(task.template, rules.last_weeks)
    counted = rules.on("from the meet")
    ends = to_meet <= (tail if counted else 1)
    if not ends:
        if not done and rules.on("start later"):
            yield ("free", 0, 0), rules.free_cost
        if done and rules.on("extra lighter") and not after_extra(task, way):
            behind = [works(task, n, way[n]) for n in range(max(0, at - rules.extra_after), at)]
            if here.meets or (len(behind) == rules.extra_after and all(behind)):
                yield ("extra lighter", 0, rules.extra_level_permille), rules.extra_cost
    for week in range(max(done, 1), last + 1):
        in_tail = week > last - tail
        if ends and week != last - to_meet + 1:
            continue
        if not ends and (week == last or (in_tail and counted)):
            continue
        cost = 0
        if week == done:
            if rules.on("once") and not task.template[week - 1].may_repeat:
                continue
            times = weeks_done.count(week) + (week == task.done)
            if rules.on("twice") and times >= 2:
                continue
            cost += task.template[week - 1].repeat_cost
            if here.after_gap:
                cost = min(cost, rules.repeat_after_gap_cost)
            elif rules.on("spread") and times == 1 and changed(task, way, week - 1):
                cost += rules.side_by_side_cost
        else:
            gone = range(done + 1, week)
            if rules.on("kept") and not all(task.template[n - 1].may_drop for n in gone):
                continue
            for n in gone:
                cost += task.template[n - 1].drop_cost
                if done and rules.on("spread") and (n - 1 in gone or changed(task, way, n - 1)):
                    cost += rules.side_by_side_cost
        for level, level_cost in levels(task, way, week):
            kind = "repeat" if week == done else "week"
            yield (kind, week, level), cost + level_cost


def changed(task: Task, way: list[Step], week: int) -> bool:
    """Whether a week that lies behind was repeated, or left out after the cycle had begun."""
    weeks_done = [w for _, w, _ in way if w]
    if not task.done and (not weeks_done or week < min(weeks_done)):
        return False
    return weeks_done.count(week) + (week <= task.done) != 1


def works(task: Task, at: int, step: Step) -> bool:
    """Whether calendar week ``at`` is a working week."""
    _, week, _ = step
    light = task.calendar[at].meets and task.rules.on("meet on the way")
    return week > 0 and task.template[week - 1].role == "load" and not light


def after_extra(task: Task, way: list[Step]) -> bool:
    """Whether the week before is an extra lighter one that waits for a working week."""
    return bool(way) and way[-1][0] == "extra lighter" and not task.calendar[len(way) - 1].meets


def levels(task: Task, way: list[Step], week: int):
    """Levels at which a week may be done next, with their cost."""
    at, rules = len(way), task.rules
    here, role = task.calendar[at], task.template[week - 1].role
    light_meet = bool(here.meets) and rules.on("meet on the way")
    if after_extra(task, way) and (role != "load" or light_meet):
        return
    if role != "load":
        rested = role == "test" and here.cap_permille < 1000 and rules.on("test rested")
        yield 1000, rules.test_in_return_cost if rested else 0
        return
    if light_meet:
        yield rules.meet_level_permille, rules.meet_cost
        return
    most = max(rules.most_in_a_row, longest_run(task.template))
    run = 0
    while run < at and works(task, at - 1 - run, way[at - 1 - run]):
        run += 1
    if rules.on("lighter week") and run + 1 > most:
        return
    lifts, heavy = task.start_load
    for n, step in enumerate(way):
        if step[0] == "blocked":
            lifts, heavy = lifts * rules.kept_permille // 1000, heavy * rules.kept_permille // 1000
        elif works(task, n, step):
            source = task.template[step[1] - 1]
            lifts, heavy = source.lifts * step[2] // 1000, source.heavy_lifts * step[2] // 1000
    source = task.template[week - 1]
    earlier = [w for w in task.template[: week - 1] if w.role == "load"]
    coach = earlier[-1] if earlier else source
    for level, cost in rules.levels:
        if rules.on("return") and level > here.cap_permille:
            continue
        ok = True
        for which, name in enumerate(("lifts", "heavy_lifts")):
            before = (lifts, heavy)[which]
            allowed = max(
                before + before * rules.rise_permille[which] // 1000,
                before + rules.rise_least[which],
                before + getattr(source, name) - getattr(coach, name),
            )
            rule = ("rise of lifts", "rise of heavy lifts")[which]
            if rules.on(rule) and getattr(source, name) * level // 1000 > allowed:
                ok = False
        if ok:
            yield level, cost
