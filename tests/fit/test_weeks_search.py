"""The search of the date fit against all that knows better: enumeration, another solver, another check."""

from datetime import timedelta
from random import Random

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bench.weeks_cases import MEET_ON, random_rules, random_task, random_template
from bench.weeks_model import cheapest_cost
from meetward.fit.week_rules import BREAKABLE, RULES, WeekRule, WeekRules, rule_words, usable
from meetward.fit.weeks import only, task_of
from meetward.fit.weeks_bound import NEVER
from meetward.fit.weeks_calendar import LifterCalendar, monday_of
from meetward.fit.weeks_check import breaches, cost_of, malformed
from meetward.fit.weeks_search import _Search, cheapest
from meetward.fit.weeks_task import Lay, Path, Task
from tests.fit.weeks_brute import steps, two_cheapest

seeds = st.integers(0, 10**9)


def holds(task: Task, path: Path) -> bool:
    """Whether a path obeys every rule that is on and costs what it says, by the check written apart."""
    broken = [breach for breach in breaches(task, path.lays) if task.rules.on(breach.rule)]
    return not malformed(task, path.lays) and not broken and cost_of(task, path.lays) == path.cost


def small(seed: int) -> Task:
    """Up to 6 weeks onto up to 8, any rules; in every third case some of the weeks lie behind."""
    random = Random(seed)
    weeks = random.randint(1, 6)
    number = random.randint(1, min(8, 2 * weeks + 1))
    return random_task(random, weeks, number, random_rules(random), begun=seed % 3 == 0)


@pytest.mark.parametrize("part", range(4))
def test_the_two_cheapest_plans_of_small_cases_are_those_of_enumeration(part):
    impossible = 0
    for seed in range(part * 500, part * 500 + 500):
        task = small(seed)

        found, wanted = cheapest(task), two_cheapest(task)

        assert [path.cost for path in found] == [cost for cost, _ in wanted], f"seed {seed}"
        assert all(holds(task, path) for path in found), f"seed {seed}"
        impossible += not wanted
    assert 20 < impossible < 250  # both kinds of answer are tried


@pytest.mark.parametrize("part", range(3))
def test_another_solver_finds_the_same_cost(part):
    for seed in range(part * 20, part * 20 + 20):
        random = Random(seed)
        weeks = random.randint(2, 7)
        rules = random_rules(random)
        rules = msgspec.structs.replace(rules, off=tuple(rule for rule in rules.off if rule != "twice"))
        task = random_task(random, weeks, random.randint(2, min(10, 2 * weeks)), rules)

        found = cheapest(task, want=1)

        assert (found[0].cost if found else None) == cheapest_cost(task), f"seed {seed}"


@given(seeds)
@settings(max_examples=300, deadline=None)
def test_the_check_and_enumeration_agree_on_any_way_good_or_bad(seed):
    random = Random(seed)
    task = small(seed)
    loose = only(task, [rule for rule in ("meet on the way",) if task.rules.on(rule)])
    way: list[tuple[str, int, int]] = []
    while len(way) < len(task.calendar):
        choices = steps(loose, way)
        if not choices:
            return
        way.append(random.choice(choices)[0])

    allowed, cost = True, 0
    for at, step in enumerate(way):
        known = dict(steps(loose if not allowed else task, way[:at]))
        allowed = allowed and step in known
        cost += known.get(step, 0)
    lays = tuple(Lay(kind, week, level, 0) for kind, week, level in way)

    broken = [breach for breach in breaches(task, lays) if task.rules.on(breach.rule)]
    assert not malformed(task, lays)
    assert allowed == (not broken)
    if allowed:
        assert cost == cost_of(task, lays)


@given(seeds)
@settings(max_examples=150, deadline=None)
def test_plans_of_whole_cycles_hold_and_the_second_differs(seed):
    random = Random(seed)
    task = random_task(random, 14, random.randint(4, 28))

    found = cheapest(task)

    assert all(holds(task, path) for path in found)
    if len(found) == 2:
        first, second = ([(lay.kind, lay.week) for lay in path.lays] for path in found)
        assert first != second
        assert found[0].cost <= found[1].cost


@given(seeds)
@settings(max_examples=60, deadline=None)
def test_the_bound_never_exceeds_what_the_rest_of_the_cheapest_plan_costs(seed):
    random = Random(seed)
    task = random_task(random, random.randint(3, 14), random.randint(2, 20), random_rules(random))
    bound = _Search(task, {}, 1, NEVER).bound

    for path in cheapest(task):
        left, done = path.cost, 0
        for at, lay in enumerate(path.lays):
            assert bound(at, done) <= left
            left, done = left - lay.cost, lay.week or done


@given(seeds)
@settings(max_examples=60, deadline=None)
def test_a_rule_less_never_costs_more_and_a_price_never_beats_freedom(seed):
    random = Random(seed)
    task = random_task(random, random.randint(2, 8), random.randint(2, 10), random_rules(random))
    # Without 'meet on the way' such a week is an ordinary one, which may ask for more and not for less.
    rule = random.choice([rule for rule in BREAKABLE if rule != "meet on the way"])
    freer = msgspec.structs.replace(
        task, rules=msgspec.structs.replace(task.rules, off=(*task.rules.off, rule))
    )

    strict, free = cheapest(task, want=1), cheapest(freer, want=1)
    priced = cheapest(task, {rule: 50}, want=1)

    if strict:
        assert free[0].cost <= priced[0].cost <= strict[0].cost
    assert bool(free) == bool(priced)


@given(seeds)
@settings(max_examples=40, deadline=None)
def test_with_prices_the_cheapest_plan_pays_for_what_it_breaks(seed):
    task = small(seed)
    prices = {rule.id: rule.if_broken for rule in RULES if rule.if_broken}

    for path in cheapest(task, prices, want=1):
        broken = [breach for breach in breaches(task, path.lays) if task.rules.on(breach.rule)]
        fees = sum(prices[breach.rule] * breach.times for breach in broken)
        assert not malformed(task, path.lays)
        assert cost_of(task, path.lays) + fees == path.cost


@given(seeds)
@settings(max_examples=30, deadline=None)
def test_the_cycle_itself_fits_its_own_weeks_at_no_cost(seed):
    random = Random(seed)
    template = random_template(random, random.randint(1, 14))
    start = monday_of(MEET_ON) - timedelta(weeks=len(template) - 1)

    best = cheapest(task_of(template, LifterCalendar(start, MEET_ON), WeekRules()))[0]

    assert best.cost == 0
    assert [lay.week for lay in best.lays] == [week.number for week in template]


def test_rules_speak_with_the_coachs_numbers():
    rules = WeekRules(rise_permille=(100, 125), most_in_a_row=5)

    assert "at most 10 % more lifts" in rule_words("rise of lifts", rules)
    assert "at most 12.5 % more heavy lifts" in rule_words("rise of heavy lifts", rules)
    assert rule_words("lighter week", rules).startswith("At most 5 working weeks")


def layer_by_layer(task: Task) -> int | None:
    """Cost of the cheapest plan by going through every state of every week: no bound, and no label goes for
    another's sake but its equal."""
    search = _Search(task, {}, 1, NEVER)
    layer = {(task.done, 0, 0, *task.start_load): 0}
    for at in range(len(task.calendar)):
        after: dict[tuple[int, ...], int] = {}
        for label, cost in layer.items():
            leaps = [] if task.calendar[at].blocked else search.leaps(at, label)
            for other, more, _ in [*search.moves(at, label), *leaps]:
                after[other] = min(cost + more, after.get(other, NEVER))
        layer = after
    return min((cost for label, cost in layer.items() if label[0] == len(task.template)), default=None)


def test_whole_cycles_cost_what_going_through_every_state_finds():
    for seed in range(24):
        random = Random(seed)
        task = random_task(random, 14, 5 + seed, random_rules(random) if seed % 2 else WeekRules())

        found = cheapest(task, want=1)

        assert (found[0].cost if found else None) == layer_by_layer(task), f"seed {seed}"


def test_the_same_case_gives_the_same_plans():
    for seed in range(30):
        random, again = Random(seed), Random(seed)
        assert cheapest(random_task(random, 12, 14)) == cheapest(random_task(again, 12, 14))


def test_a_rule_that_bounds_the_fall_of_a_load_is_refused():
    fall = WeekRule("fall of lifts", "No week has 30 % fewer lifts than the last.", "", "made up", "fall")

    with pytest.raises(ValueError, match="limits how far a load may fall"):
        usable(WeekRules(), (*RULES, fall))
    usable(WeekRules(off=("fall of lifts",)), (*RULES, fall))


@pytest.mark.parametrize(
    ("rules", "words"),
    [
        (WeekRules(levels=((1000, 5), (900, 3))), "must not cost less"),
        (WeekRules(levels=((900, 0),)), "down from 1000"),
        (WeekRules(levels=((1000, 0), (1000, 1))), "down from 1000"),
        (WeekRules(levels=()), "down from 1000"),
        (WeekRules(off=("order",)), "cannot be switched off"),
        (WeekRules(off=("rise",)), "no rule 'rise'"),
        (WeekRules(meet_cost=-1), "below 0"),
        (WeekRules(extra_level_permille=0), "between 1 and 1000"),
        (WeekRules(kept_permille=1001), "between 0 and 1000"),
        (WeekRules(most_in_a_row=0), "At least one working week"),
        (WeekRules(last_weeks=0), "At least one working week"),
        (WeekRules(extra_after=4), "cannot wait"),
        (WeekRules(return_steps=()), "steps back"),
    ],
)
def test_rules_that_make_no_sense_are_refused_in_words(rules, words):
    with pytest.raises(ValueError, match=words):
        usable(rules)


def test_every_rule_says_why_and_where_from():
    assert len({rule.id for rule in RULES}) == len(RULES)
    for rule in RULES:
        assert rule_words(rule.id, WeekRules()).endswith(".")
        assert rule.reason.endswith(".")
        assert rule.source
