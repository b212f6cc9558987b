"""A written load as kilos for one lifter, with its reason."""

from fractions import Fraction

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import loadable
from meetward.barbell.standard import club_kit, competition_kit
from meetward.cycle.load import (
    BarOnly,
    Bodyweight,
    ByCategory,
    Effort,
    Heavy,
    Kilos,
    Of,
    Open,
    Percent,
    Pounds,
)
from meetward.fit.kilos import WORK_UP, Weight, kilos
from meetward.fit.standing import Standings
from meetward.fit.targets import target
from meetward.problem import Place
from tests.fit.people import BARE_KIT, HOME_KIT, lifter, lifters, lines
from tests.workload.small import CATALOGUE, line, percent, sets

MARA = lifter(competition_kit(1_500), snatch=85, clean_and_jerk=105)


def weigh(movements: str, load, who=MARA, count: int = 1, **more) -> Weight:
    parts = movements.count("+") + 1
    one = line(movements, sets(count, *(2,) * parts, load=load, **more))
    return kilos(one.groups[0], one, Standings(who, CATALOGUE), Place(said="Week 1, session 1, Snatch"))


def test_a_percentage_says_best_date_percentage_result_and_rule():
    done = weigh("snatch", percent(70))

    assert (done.low_dag, done.high_dag, done.placeholder, done.problems) == (5_900, 5_900, False, ())
    assert done.why.said.startswith("70 % of best snatch 85 kg (tested 3 Oct 2026) is 59.5 kg; ")
    assert "lighter" in done.why.said
    assert done.why.said.endswith("59 kg.")
    assert ("best", "best snatch 85 kg (tested 3 Oct 2026)") in done.why.inputs
    assert ("load", "70 %") in done.why.inputs
    assert done.why.because


def test_what_the_bar_makes_exactly_says_so():
    done = weigh("snatch", percent(80))

    assert done.high_dag == 6_800
    assert "the bar makes it exactly" in done.why.said


def test_a_range_never_goes_above_its_top():
    # 70-75 % of 85 kg is 59.5 to 63.75 kg; the bar makes whole kilos.
    done = weigh("snatch", percent(70, 75))

    assert (done.low_dag, done.high_dag) == (5_900, 6_300)
    assert "59.5 to 63.75 kg" in done.why.said


def test_up_to_without_climbing_is_the_heaviest_under_the_top():
    assert weigh("snatch", Percent(None, 750)).high_dag == 6_300


def test_climbing_sets_end_at_the_top_and_never_fall():
    done = weigh("snatch", Percent(None, 700), count=7, climbing=True)

    assert len(done.weights_dag) == 7
    assert list(done.weights_dag) == sorted(done.weights_dag)
    assert (done.low_dag, done.high_dag) == (done.weights_dag[0], done.weights_dag[-1]) == (4_600, 5_900)
    assert "even jumps" in done.why.said


def test_sets_on_the_way_of_a_climb_get_no_kilos_of_its_top():
    # "3-2-1-1 up to 85 %": three reps at 85 % were never asked for.
    done = weigh("snatch", Percent(None, 850), climbing=True, on_the_way=True)

    assert (done.low_dag, done.high_dag, done.weights_dag) == (None, None, ())
    assert done.instruction == "On the way up to 85 %: climb in even jumps; the top comes in the sets below."
    assert done.problems == ()


@pytest.mark.parametrize(
    ("movements", "load", "dag"),
    [
        ("power_snatch", percent(70), 5_900),  # stands on the snatch
        ("clean", percent(80), 8_400),  # no best clean: coaches count on the clean and jerk
        ("clean_pull", percent(100), 10_500),
        ("snatch", percent(60, of=Of("lift", "clean_and_jerk")), 6_300),
        ("clean + jerk", percent(80), 8_400),
    ],
)
def test_the_reference_is_the_catalogues_unless_the_line_names_one(movements, load, dag):
    assert weigh(movements, load).high_dag == dag


def test_of_a_complex_the_lightest_lift_decides():
    who = lifter(competition_kit(), clean_and_jerk=105, clean=110, front_squat=100, jerk=120)

    assert weigh("clean + front_squat + jerk", percent(80), who).high_dag == 8_000
    assert "front squat" in weigh("clean + front_squat + jerk", percent(80), who).why.said


def test_a_percentage_of_a_rep_max_takes_that_best():
    who = lifter(competition_kit(), front_squat=120)
    three = msgspec.structs.replace(who.bests[0], reps=3, dag=10_000)
    who = msgspec.structs.replace(who, bests=(*who.bests, three))

    done = weigh("front_squat", percent(90, of=Of("rep max", reps=3)), who)

    assert done.high_dag == 9_000
    assert "for 3 reps" in done.why.said


def test_pounds_are_converted_exactly():
    # 135 lb is 61.2349... kg; steps of 2.5 kg.
    done = weigh("back_squat", Pounds(13_500, 13_500), lifter(club_kit()))

    assert done.high_dag == 6_000 + 0 * done.low_dag
    assert "61.23" in done.why.said


def test_kilos_as_written_are_rounded_to_the_kit():
    assert weigh("back_squat", Kilos(6_000, 6_000)).high_dag == 6_000
    home = weigh("back_squat", Kilos(6_200, 6_200), lifter(HOME_KIT))
    assert home.high_dag == 6_000
    assert "62 kg as written" in home.why.said


def test_a_load_for_men_and_women_takes_the_lifters_category_or_the_lighter():
    load = ByCategory(Kilos(6_000, 6_000), Kilos(4_000, 4_000))

    assert weigh("back_squat", load, lifter(category="men")).high_dag == 6_000
    assert weigh("back_squat", load, lifter(category="women")).high_dag == 4_000
    unsure = weigh("back_squat", load, lifter(category=None))
    assert unsure.high_dag == 4_000
    assert "category" in unsure.instruction


def test_dumbbells_are_not_loaded_on_the_bar():
    done = weigh("dumbbell_press", Kilos(1_500, 1_500, implements=2))

    assert (done.high_dag, done.on_bar) == (1_500, False)
    assert weigh("dumbbell_press", percent(75), lifter(dumbbell_press=22)).high_dag == 1_650


def test_a_derived_best_gives_a_start_and_says_work_up():
    who = lifter(competition_kit(), clean_and_jerk=100)

    done = weigh("snatch", percent(70), who)

    assert done.placeholder
    assert done.high_dag is not None
    assert done.high_dag < 5_600  # 70 % of 80 kg, the typical snatch
    assert WORK_UP in done.instruction
    assert "between" in done.instruction
    assert "not tested" in done.why.said or "derived" in done.why.said


@pytest.mark.parametrize(
    ("load", "said"),
    [
        (Effort("rpe", 80, 80), "RPE 8: about 2 more would go"),
        (Effort("rpe", 100, 100), "nothing more would go"),
        (Effort("rpe", 70, 80), "about 2–3 more would go"),
        (Effort("rir", 20, 20), "with 2 left in reserve"),
        (Heavy(2), "Work up to a heavy double while every rep stays clean, then tell your coach"),
        (Heavy(1, "max"), "stop at the first miss"),
        (Heavy(None), "heavy set"),
        (percent(85, of=Of("top")), "Take 85 % of your heaviest set of this line today"),
        (BarOnly(stick=True), "stick"),
        (Bodyweight(1_000), "Bodyweight with 10 kg added"),
        (Open("moderate"), "moderate"),
        (Open(), "No load is written"),
    ],
)
def test_a_load_without_kilos_says_what_to_do(load, said):
    done = weigh("snatch", load)

    assert (done.low_dag, done.high_dag, done.weights_dag) == (None, None, ())
    assert said in done.instruction
    assert done.problems == ()
    assert done.why.said


def test_the_empty_bar_is_the_lifters_bar():
    assert weigh("snatch", BarOnly()).high_dag == 1_500


def test_no_best_at_all_invents_nothing_and_points_at_the_place():
    done = weigh("snatch", percent(70), lifter())

    assert done.high_dag is None
    assert WORK_UP in done.instruction
    [problem] = done.problems
    assert problem.kind == "no best"
    assert problem.place.said == "Week 1, session 1, Snatch"
    assert "Enter a best snatch" in problem.repair


@pytest.mark.parametrize(
    ("movements", "load", "kind"),
    [
        ("sntach", percent(70), "unknown reference"),
        ("snatch", percent(70, of=Of("lift", "", "Zottman lift")), "unknown reference"),
        ("snatch", percent(0), "no weight"),
        ("snatch", Kilos(0, 0), "no weight"),
        ("back_squat", Kilos(90_000, 90_000), "no weight"),
    ],
)
def test_what_cannot_be_a_weight_is_a_problem_and_no_number(movements, load, kind):
    done = weigh(movements, load)

    assert done.high_dag is None
    assert [p.kind for p in done.problems] == [kind]
    assert all(p.repair and p.place.said for p in done.problems)


def test_a_bar_that_is_too_heavy_and_a_rack_that_is_too_small_are_told():
    light = weigh("snatch", percent(20), lifter(snatch=60))
    heavy = weigh("back_squat", percent(80), lifter(HOME_KIT, back_squat=150))
    bare = weigh("snatch", percent(80), lifter(BARE_KIT, snatch=60))

    assert (light.high_dag, [p.kind for p in light.problems]) == (2_000, ["bar too heavy"])
    assert (heavy.high_dag, [p.kind for p in heavy.problems]) == (7_000, ["too few discs"])
    assert (bare.high_dag, [p.kind for p in bare.problems]) == (2_000, ["too few discs"])


@given(lines, lifters)
def test_every_answer_is_loadable_ordered_and_has_a_reason(one, who):
    standings = Standings(who, CATALOGUE)
    for group in one.groups:
        done = kilos(group, one, standings)

        assert done.why.said
        assert (done.low_dag is None) == (done.high_dag is None)
        if done.high_dag is None:
            assert done.instruction or not done.on_bar
            continue
        assert done.low_dag <= done.high_dag
        if done.on_bar:
            assert {done.low_dag, done.high_dag, *done.weights_dag} <= set(loadable(who.kit))
        assert all(value for _, value in done.why.inputs)


@given(st.integers(2_000, 20_000), st.integers(300, 1_100), st.integers(0, 100))
def test_a_higher_percentage_or_a_better_best_never_weighs_less(best, permille, more):
    def at(dag: int, share: int) -> int:
        return weigh("snatch", Percent(share, share), lifter(competition_kit(), snatch=dag / 100)).high_dag

    assert at(best, permille) <= at(best, permille + more)
    assert at(best, permille) <= at(best + more, permille)


@pytest.mark.parametrize("best_kg", [0, 700])
def test_a_best_that_nobody_lifts_is_no_best(best_kg):
    done = weigh("snatch", percent(70), lifter(snatch=best_kg))

    assert done.high_dag is None
    assert [p.kind for p in done.problems] == ["no best"]


@pytest.mark.parametrize(("best_kg", "dag"), [(27, 2_000), (27.5, 2_050), (26, 1_950)])
def test_dumbbells_go_to_the_nearest_half_kilo_a_tie_to_the_lighter(best_kg, dag):
    # 75 % of 27 kg is 20.25 kg, of 27.5 kg 20.625 kg, of 26 kg 19.5 kg.
    assert weigh("dumbbell_press", percent(75), lifter(dumbbell_press=best_kg)).high_dag == dag


def test_who_has_no_category_takes_the_lighter_weight_also_where_that_is_the_mens():
    load = ByCategory(Kilos(3_000, 3_000), Pounds(10_000, 10_000))

    assert weigh("back_squat", load, lifter(category=None)).high_dag == 3_000
    assert weigh("back_squat", load, lifter(category="women")).high_dag == 4_500  # 100 lb is 45.36 kg


@given(st.integers(1, 100_000), st.integers(0, 5_000))
def test_pounds_of_a_range_lie_within_it_to_a_hundredth_of_a_gram(clb, more):
    # 1 lb is 0.45359237 kg by definition, so 1 clb is 453.59237 millidag.
    one = line("back_squat", sets(1, 5, load=Pounds(clb, clb + more + 1)))
    aim = target(one.groups[0], one, CATALOGUE, None)
    low, high = (Fraction(45_359_237, 100_000) * end for end in (clb, clb + more + 1))

    assert low <= aim.low < low + 1
    assert high - 1 < aim.high <= high


def test_a_dumbbell_is_never_rounded_to_nothing():
    assert weigh("dumbbell_press", percent(1), lifter(dumbbell_press=10)).high_dag == 50


def test_a_part_of_which_nothing_is_known_makes_a_complex_a_start():
    # Nothing leads to the push press in this catalogue.
    done = weigh("clean + push_press", percent(60), lifter(competition_kit(), clean=100))

    assert (done.high_dag, done.placeholder) == (6_000, True)
    assert "Nothing is known of the push press" in done.instruction
    assert [p.kind for p in done.problems] == ["no best"]
    assert "low end" not in done.why.said
