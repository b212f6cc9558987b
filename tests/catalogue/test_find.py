"""Finding a movement by the name somebody wrote: rightly or not at all."""

import pickle
import random
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Fault, Movement
from meetward.catalogue.reading import shipped
from meetward.catalogue.words import LONGEST_NAME, bag, normal

CATALOGUE = shipped()
NAMES = [(entry.id, words) for entry in CATALOGUE for words in (entry.name, *entry.names)]


def movement(id_: str, name: str, *names: str) -> Movement:
    return Movement(
        id=id_,
        name=name,
        names=names,
        family="snatch",
        reference=id_,
        positions=("start",),
        equipment=("bar",),
        summary=f"{name} in short.",
        purpose="Why.",
        setup="Set up.",
        execution="Do it.",
        cues=("One", "Two", "Three"),
        faults=(Fault("a", "b"), Fault("c", "d")),
        cautions=(),
    )


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("Snatch", "snatch"),
        ("SNATCHES", "snatch"),
        ("squat snatch", "snatch"),
        ("Squat Snatches", "snatch"),
        ("Power snatch", "power_snatch"),
        ("pwr sn", "power_snatch"),
        ("Power hang snatch", "hang_power_snatch"),
        ("Power Snatch, hang, AK", "hang_power_snatch"),
        ("Hang Power Snatch (above the knee)", "hang_power_snatch"),
        ("HPS", "hang_power_snatch"),
        ("hang snatch", "hang_snatch"),
        ("snatch from the hang", "hang_snatch"),
        ("hang snatch BK", "hang_snatch_below_knee"),
        ("Snatch below the knee, hang", "hang_snatch_below_knee"),
        ("High-hang snatch", "high_hang_snatch"),
        ("snatch from blocks", "block_snatch"),
        ("snatch off the blocks above the knee", "block_snatch_above_knee"),
        ("Snatch w/ pause", "pause_snatch"),
        ("paused snatch", "pause_snatch"),
        ("no-feet snatch", "snatch_no_feet"),
        ("snatch without feet", "snatch_no_feet"),
        ("Snatch Pulls", "snatch_pull"),
        ("Snatch Grip Deadlift", "snatch_deadlift"),
        ("SG DL", "snatch_deadlift"),
        ("Dead pull of snatch", "snatch_deadlift"),
        ("Snatch liftoff", "snatch_lift_off"),
        ("Dead pull of clean", "clean_deadlift"),
        ("Clean-Grip Deadlift", "clean_deadlift"),
        ("squat clean", "clean"),
        ("Muscle Clean", "muscle_clean"),
        ("power hang clean", "hang_power_clean"),
        ("C&J", "clean_and_jerk"),
        ("c & j", "clean_and_jerk"),
        ("CJ", "clean_and_jerk"),
        ("Clean & Jerk", "clean_and_jerk"),
        ("Clean and Jerks", "clean_and_jerk"),
        ("Push jerk", "power_jerk"),
        ("Power Jerks", "power_jerk"),
        ("BTN jerk", "jerk_behind_neck"),
        ("jerk from behind the neck", "jerk_behind_neck"),
        ("jerk, behind-the-neck", "jerk_behind_neck"),
        ("Split jerk with 2 second pause in dip", "pause_jerk"),
        ("Military Press", "strict_press"),
        ("Back squat", "back_squat"),
        ("BS", "back_squat"),
        ("backsquat", "back_squat"),
        ("Squat, back", "back_squat"),
        ("barbell back squat", "back_squat"),
        ("FS", "front_squat"),
        ("pause FS", "pause_front_squat"),
        ("OHS", "overhead_squat"),
        ("OH squats", "overhead_squat"),
        ("snatch balance", "snatch_balance"),
        ("RDLs", "romanian_deadlift"),
        ("Good mornings", "good_morning"),
        ("GMs", "good_morning"),
        ("goodmorning", "good_morning"),
        ("Hyperextensions", "back_extension"),
        ("press in the squat", "press_in_squat"),
        ("Sots presses", "press_in_squat"),
        ("Wall Balls", "wall_ball"),
        ("Dumbbell Snatch", "dumbbell_snatch"),
        ("DB snatch", "dumbbell_snatch"),
        ("Deadlift", "deadlift"),
        ("dead lifts", "deadlift"),
        ("farmer's walk", "farmers_carry"),
        ("farmers’ carries", "farmers_carry"),
        ("pull-ups", "pull_up"),
        ("pullups", "pull_up"),
    ],
)
def test_spellings_of_the_trade(words, id_):
    found = CATALOGUE.find(words)

    assert found is not None
    assert found.entry.id == id_


@pytest.mark.parametrize(
    "words",
    [
        "",
        "   ",
        "-",
        "the",
        "70%",
        "Snacth",  # a misspelling is offered, never taken
        "clean squat",  # neither the squat clean nor a clean followed by a squat
        "jerk clean",
        "pull snatch",
        "snatch + pull",  # a complex
        "snatch and clean pull",
        "split clean and power jerk",  # has the words of another lift
        "hang no snatch feet",
        "snatch snatch",
        "snatch 3",
        "not a snatch",
        "x" * 10_000,
        "snatch " * 5_000,
        "\x00",
        "スナッチ",
    ],
)
def test_what_means_nothing_certain_is_not_found(words):
    assert CATALOGUE.find(words) is None


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Snacth", "Snatch"),
        ("snacth blance", "Snatch balance"),
        ("Back sqaut", "Back squat"),
        ("hang powr snach", "Hang power snatch"),
        ("clean & jrek", "Clean and jerk"),
        ("Romainian deadlift", "Romanian deadlift"),
        ("power snach, hang", "Hang power snatch"),
        ("overhed sqat", "Overhead squat"),
        ("Frontsqaut", "Front squat"),
        ("Clen pull", "Clean pull"),
    ],
)
def test_one_name_is_offered_for_a_misspelling(words, name):
    assert CATALOGUE.find(words) is None
    assert CATALOGUE.suggest(words) == name


@pytest.mark.parametrize(
    "words", ["", "xyzzy", "qqqqqqqqqqqq", "12345", "rest two minutes and drink", "x" * 10_000]
)
def test_nothing_is_offered_for_what_is_like_nothing(words):
    assert CATALOGUE.suggest(words) is None


@pytest.mark.parametrize(("id_", "words"), NAMES, ids=[f"{i}: {w}" for i, w in NAMES])
def test_every_name_in_other_dress(id_, words):
    for dress in (
        words.upper(),
        words.replace(" ", "-"),
        f"  {words} ",
        words.replace(" ", "  "),
        f"{words}.",
    ):
        found = CATALOGUE.find(dress)
        assert found is not None, dress
        assert found.entry.id == id_, dress


def test_an_id_is_a_name():
    for entry in CATALOGUE:
        found = CATALOGUE.find(entry.id, kind=kind(entry))
        assert found is not None, entry.id
        assert found.entry.name == entry.name


def test_order_of_words_does_not_matter_while_the_lift_stays_last():
    found = CATALOGUE.find("power hang snatch")

    assert found is not None
    assert not found.exact
    assert CATALOGUE.find("hang power snatch").exact


def test_words_that_belong_together_stay_together():
    catalogue = Catalogue([movement("a", "Hang snatch high pull")])

    assert catalogue.find("high hang snatch pull") is None
    assert catalogue.find("snatch high pull, hang").entry.id == "a"


def test_known_words_that_are_no_name_lead_to_the_longest_name_in_them():
    assert CATALOGUE.suggest("snatch long pull") == "Snatch pull"
    assert CATALOGUE.suggest("Split jerk doubles") == "Split jerk"
    assert CATALOGUE.suggest("split clean and power jerk") is None


def test_two_entries_with_the_same_words_are_told_apart_by_order():
    catalogue = Catalogue([movement("a", "Pause hang snatch"), movement("b", "Hang pause snatch")])

    assert catalogue.find("pause hang snatch").entry.id == "a"
    assert catalogue.find("hang pause snatch").entry.id == "b"
    assert catalogue.find("snatch, hang, pause") is None


def test_a_name_that_two_entries_claim_is_not_found():
    catalogue = Catalogue([movement("a", "Snatch A", "Long one"), movement("b", "Snatch B", "Long ones")])

    assert catalogue.find("long one") is None
    assert [clash.winner for clash in catalogue.clashes] == [None]


def test_a_name_beats_an_alias_and_a_coachs_own_beats_a_shipped_one():
    jerk, push = movement("jerk", "Jerk"), movement("push", "Push", "jerk")

    assert Catalogue([jerk, push]).find("jerk").entry is jerk
    assert Catalogue([jerk, push], own=["push"]).find("jerk").entry is push


def test_a_catalogue_survives_pickling():
    copy = pickle.loads(pickle.dumps(CATALOGUE))

    assert copy == CATALOGUE
    assert copy.find("C&J").entry == CATALOGUE.movements["clean_and_jerk"]


@given(st.text(max_size=300))
def test_any_text_is_found_or_not_and_nothing_raises(words):
    key = normal(words)
    found = CATALOGUE.find(words)

    assert normal(key) == key
    assert found is None or found.entry in set(CATALOGUE) or found.entry.id in CATALOGUE.movements
    assert CATALOGUE.suggest(words) is None or CATALOGUE.suggest(words) in {e.name for e in CATALOGUE}


@given(st.sampled_from(NAMES), st.randoms(use_true_random=False))
def test_a_shuffled_name_is_the_same_entry_or_nothing(named, rng: random.Random):
    id_, words = named
    parts = words.split()
    rng.shuffle(parts)

    found = CATALOGUE.find(" ".join(parts))

    if (
        found is not None and found.entry.id != id_
    ):  # then the words in this order are another entry's own name
        assert found.exact or bag(normal(words)) != bag(normal(" ".join(parts)))


@given(st.sampled_from(NAMES), st.integers(0, 60), st.sampled_from(string.ascii_lowercase))
def test_one_wrong_letter_is_never_taken_for_another_entry_silently(named, at, letter):
    _, words = named
    at %= len(words)
    written = words[:at] + letter + words[at + 1 :]

    found = CATALOGUE.find(written)

    # Found only where what is written is itself, by the rules of spelling alone, some entry's name.
    if found is not None:
        keys = {bag(normal(w)) for w in (found.entry.name, *found.entry.names, found.entry.id)}
        joined = {"".join(normal(w).split()) for w in (found.entry.name, *found.entry.names, found.entry.id)}
        plain = bag(normal(written.replace("barbell", "")))
        assert bag(normal(written)) in keys or plain in keys or "".join(normal(written).split()) in joined


def test_two_swapped_letters_lead_back_to_the_name():
    """Each name once, two neighbouring letters of its longest word swapped, neither of them the first."""
    rng = random.Random(7)
    asked, right = 0, 0
    for entry in CATALOGUE:
        word = max(entry.name.split(), key=len)
        at = [i for i in range(1, len(word) - 1) if word[i] != word[i + 1]]
        if len(word) < 5 or not at or not word.isalpha():
            continue
        i = rng.choice(at)
        slip = word[:i] + word[i + 1] + word[i] + word[i + 2 :]
        written = entry.name.replace(word, slip, 1)
        if CATALOGUE.find(written) is not None:  # the slip is a name as well: then it is no misspelling
            continue
        asked += 1
        right += CATALOGUE.suggest(written) == entry.name

    assert asked > 250
    assert right / asked > 0.97


@given(st.sampled_from(NAMES), st.integers(0, 60), st.sampled_from(["", "s", " ", "-", "x", " the "]))
def test_find_agrees_with_looking_through_all_names(named, at, piece):
    written = named[1][:at] + piece + named[1][at:]
    key = normal(written)
    slowly = [
        entry
        for entry in CATALOGUE
        if key and any(normal(words) == key for words in (entry.name, *entry.names, entry.id))
    ]

    found = CATALOGUE.find(written)

    if slowly:
        assert found is not None
        assert found.exact
        assert found.entry in slowly
    else:
        assert found is None or not found.exact


def test_a_long_text_is_no_name():
    assert normal("snatch " * LONGEST_NAME) == ""


def test_the_memory_of_names_stays_bounded():
    catalogue = Catalogue([movement("a", "Snatch")])
    for n in range(20_000):
        catalogue.find(f"no such thing {n}")

    assert len(catalogue._memo) <= 8192


def kind(entry):
    return CATALOGUE.find(entry.name).kind
