"""What restrictions and missing kit reach: movements, drills, steps of warm-ups."""

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import loadable
from meetward.barbell.standard import club_kit
from meetward.catalogue.reading import shipped
from meetward.cycle.tree import Line, Part
from meetward.fit.drill_positions import DRILL_POSITIONS
from meetward.fit.restrictions import (
    EITHER,
    PAIN,
    RULES,
    clashes,
    ended_lately,
    kit_at_hand,
    missing_of,
    rules_out,
    unknown_parts,
)
from meetward.lifter.restrictions import NAMED, Limits, MissingKit, Restriction
from meetward.problem import Place
from tests.fit.people import KITS
from tests.lifter.test_restrictions import all_limits

CATALOGUE = shipped()


def no(kind: str, of: str = "") -> Limits:
    return Limits((Restriction(kind, of),))


def without(*equipment: str) -> Limits:
    return Limits((), (MissingKit(equipment),))


def parts(*ids: str) -> Line:
    return Line(tuple(Part(id_.replace("_", " ").capitalize(), id_) for id_ in ids))


def reached(limits: Limits, *ids: str) -> set[str]:
    entries = CATALOGUE.movements | CATALOGUE.drills
    return {id_ for id_ in ids if rules_out(entries[id_], limits, CATALOGUE)}


# What each word reaches is common practice, no source.
def test_no_overhead():
    out = ("snatch", "power_snatch", "overhead_squat", "jerk", "push_press", "clean_and_jerk", "strict_press",
           "muscle_snatch", "pull_up", "dumbbell_press", "thruster", "handstand_hold", "bar_hang",
           "stick_overhead_squat", "wall_slide")  # fmt: skip
    stays = ("clean", "power_clean", "front_squat", "back_squat", "clean_pull", "snatch_pull",
             "snatch_high_pull", "jerk_dip", "barbell_row", "band_pull_apart", "external_rotation",
             "plank", "bench_press", "ankle_rock")  # fmt: skip
    assert reached(no("no overhead"), *out, *stays) == set(out)


def test_no_deep_squat():
    out = ("snatch", "clean", "front_squat", "back_squat", "overhead_squat", "goblet_squat", "snatch_balance",
           "clean_and_jerk", "goblet_squat_sit", "squat_hip_shift")  # fmt: skip
    stays = ("power_snatch", "power_clean", "jerk", "push_press", "clean_pull", "good_morning", "step_up",
             "power_clean_and_power_jerk", "wall_slide")  # fmt: skip
    assert reached(no("no deep squat"), *out, *stays) == set(out)


def test_no_pulling_from_the_floor():
    out = ("snatch", "clean", "power_clean", "clean_pull", "clean_deadlift", "deadlift", "muscle_snatch",
           "clean_and_jerk", "snatch_lift_off", "clean_and_press", "trap_bar_deadlift")  # fmt: skip
    stays = ("hang_snatch", "block_clean", "hang_clean_pull", "jerk", "back_squat", "pull_up", "barbell_row",
             "romanian_deadlift", "upright_row")  # fmt: skip
    assert reached(no("no pulling from the floor"), *out, *stays) == set(out)


def test_a_bar_that_nothing_holds_up_is_picked_up_from_the_floor():
    limits = Limits((Restriction("no pulling from the floor"),), (MissingKit(("rack", "blocks")),))
    assert reached(limits, "hang_snatch", "hang_clean_pull", "romanian_deadlift") == {
        "hang_snatch", "hang_clean_pull", "romanian_deadlift"
    }  # fmt: skip
    one = Limits((Restriction("no pulling from the floor"),), (MissingKit(("blocks",)),))
    assert reached(one, "hang_snatch", "hang_clean_pull") == set()


def test_no_jerks():
    out = ("jerk", "split_jerk", "power_jerk", "clean_and_jerk", "jerk_dip", "jerk_support", "jerk_recovery",
           "dumbbell_jerk")  # fmt: skip
    stays = ("push_press", "strict_press", "clean", "snatch", "snatch_balance", "overhead_squat")
    assert reached(no("no jerks"), *out, *stays) == set(out)


def test_a_position_a_family_or_a_movement_alone():
    assert reached(no("position", "front rack"), "clean", "front_squat", "back_squat", "bar_turnover") == {
        "clean", "front_squat", "bar_turnover"
    }  # fmt: skip
    assert reached(no("family", "squat"), "front_squat", "back_squat", "clean") == {
        "front_squat",
        "back_squat",
    }
    assert reached(no("movement", "snatch"), "snatch", "power_snatch") == {"snatch"}


def test_missing_kit():
    assert reached(without("rack"), "back_squat", "jerk", "clean", "hang_snatch") == {"back_squat", "jerk"}
    assert reached(without("blocks"), "block_snatch", "hang_snatch") == {"block_snatch"}
    assert reached(without("bar"), "snatch", "pull_up", "goblet_squat") == {"snatch"}


def test_of_dumbbell_and_kettlebell_one_is_enough():
    assert missing_of(("kettlebell", "dumbbell"), without("dumbbell")) == ()
    assert missing_of(("kettlebell", "dumbbell"), without("dumbbell", "kettlebell")) == (
        "kettlebell",
        "dumbbell",
    )
    assert missing_of(("dumbbell", "bench"), without("dumbbell")) == ("dumbbell",)
    assert all(len(group) == 2 for group in EITHER)


def test_a_complex_part_by_part_with_the_reason():
    found = clashes(parts("clean", "front_squat", "jerk"), no("no jerks"), CATALOGUE)
    assert [(c.part, c.entry, c.cause, c.rule) for c in found] == [(2, "jerk", "restriction", "no jerks")]
    assert found[0].said == "Jerk: no jerks."
    assert found[0].why.rule == RULES["no jerks"].because


def test_a_step_of_a_warm_up_is_named():
    sequence = next(
        s for s in CATALOGUE.sequences.values() if any(x.of == "stick_overhead_squat" for x in s.steps)
    )
    found = clashes(parts(sequence.id), no("no overhead"), CATALOGUE)
    assert "stick_overhead_squat" in {c.step for c in found}
    assert all(c.entry == sequence.id for c in found)


def test_an_empty_bar_in_a_warm_up_and_a_bar_that_is_up_need_no_rack():
    steps = {step.of for s in CATALOGUE.sequences.values() for step in s.steps}
    racked = [m for m in CATALOGUE.movements.values() if m.id in steps and "rack" in m.equipment]
    assert racked  # or this would show nothing
    for sequence in CATALOGUE.sequences.values():
        found = clashes(parts(sequence.id), without("rack"), CATALOGUE)
        assert not {clash.step for clash in found} & {movement.id for movement in racked}
    swings = next(
        s for s in CATALOGUE.sequences.values() if any(x.of == "leg_swing_forward" for x in s.steps)
    )
    assert "leg_swing_forward" in {c.step for c in clashes(parts(swings.id), without("rack"), CATALOGUE)}
    assert clashes(parts("clean", "jerk"), without("rack"), CATALOGUE) == ()
    assert [c.part for c in clashes(parts("jerk", "front_squat"), without("rack"), CATALOGUE)] == [0]


def test_a_restriction_counts_up_to_its_last_day():
    limits = Limits((Restriction("no overhead", until=date(2027, 1, 12)),))
    snatch = parts("snatch")
    assert clashes(snatch, limits, CATALOGUE, date(2027, 1, 12))
    assert not clashes(snatch, limits, CATALOGUE, date(2027, 1, 13))
    assert clashes(snatch, limits, CATALOGUE)  # on a day not known it holds
    assert ended_lately(limits, date(2027, 1, 12), CATALOGUE) == ()
    assert "begin light" in ended_lately(limits, date(2027, 1, 13), CATALOGUE)[0]
    assert ended_lately(limits, date(2027, 3, 1), CATALOGUE) == ()


def test_a_movement_that_nobody_knows_is_told():
    line = Line((Part("Sntach"),))
    assert clashes(line, no("no overhead"), CATALOGUE) == ()
    problems = unknown_parts(line, no("no overhead"), CATALOGUE, Place())
    assert [(p.kind, p.severity) for p in problems] == [("not in the catalogue", "look")]
    assert unknown_parts(line, without("rack"), CATALOGUE, Place()) == []


@given(all_limits, st.sampled_from(sorted(CATALOGUE.movements)))
def test_more_limits_never_reach_less(limits, id_):
    movement = CATALOGUE.movements[id_]
    alone = [Limits((one,)) for one in limits.restrictions] + [Limits((), (one,)) for one in limits.missing]
    for one in alone:
        found = {item for item in rules_out(movement, one, CATALOGUE) if isinstance(item, Restriction)}
        assert found <= set(rules_out(movement, limits, CATALOGUE))


@given(st.sampled_from(KITS), st.none() | st.integers(10, 25), st.none() | st.integers(30, 150))
def test_a_kit_that_is_not_all_there_makes_no_more_than_it_can(kit, bar_kg, heaviest_kg):
    limits = Limits((), (MissingKit((), bar_kg and bar_kg * 100, heaviest_kg and heaviest_kg * 100),))
    left = kit_at_hand(kit, limits)
    assert left.bar_dag == (bar_kg * 100 if bar_kg else kit.bar_dag)
    assert heaviest_kg is None or loadable(left)[-1] <= max(heaviest_kg * 100, left.bar_dag)
    owned = {(disc.dag, disc.large): disc.pairs for disc in kit.discs}
    assert all(disc.pairs <= owned[disc.dag, disc.large] for disc in left.discs)


def test_discs_to_a_weight_reach_it_nearly_in_small_steps():
    left = kit_at_hand(club_kit(1_500), Limits((), (MissingKit((), None, 6_000),)))
    weights = loadable(left)
    assert weights[-1] >= 5_500
    assert max(b - a for a, b in pairwise(weights)) <= 250
    assert kit_at_hand(club_kit(), without("discs")).discs == ()


def test_the_tables_fit_the_catalogue():
    assert set(RULES) == set(NAMED)
    assert set(DRILL_POSITIONS) <= set(CATALOGUE.drills)
    for rule in RULES.values():
        assert rule.reaches
        assert rule.because
        assert set(rule.references) <= set(CATALOGUE.movements)
    assert "doctor or physiotherapist" in PAIN


@pytest.mark.parametrize("kind", NAMED)
def test_each_rule_reaches_something_and_leaves_something(kind):
    hit = [m for m in CATALOGUE.movements.values() if rules_out(m, no(kind), CATALOGUE)]
    assert 10 < len(hit) < len(CATALOGUE.movements) - 50
