"""The sheets for the wall: who does what, on how many pages, and what is said where lifters differ."""

import re
from io import BytesIO

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from meetward.fit.fitted import DaySegment
from meetward.publish.week import lifter_week_pdf, squad_week_pdf
from tests.publish.samples import PRESS, PULL, SNATCH, SQUAT, day_line, day_set, sheet, without_bests


def texts(pdf: bytes) -> list[str]:
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(BytesIO(pdf)).pages]


def squad(number: int, *lines, session: int = 1):
    """Lifters with the same lines."""
    segments = (DaySegment("lifts", tuple(lines), 40.0),)
    return [sheet(lifter=f"Wen {n}z", session=session, segments=segments) for n in range(number)]


def test_a_lifters_week_shows_every_session_with_its_kilos():
    days = [sheet(session=n, title=f"Day {n}") for n in (1, 2, 3, 4)]
    (text,) = texts(lifter_week_pdf(days))

    for words in ("Mara Ellwood", "Week 6 of 12", "Session 1: Day 1", "Session 4: Day 4", "Back extension"):
        assert words in text
    assert text.count("90–95") == 4
    assert text.count("35 to 45") == 4


@pytest.mark.parametrize("sessions", [1, 6, 7, 12])
def test_a_lifters_week_is_one_page_however_many_sessions_it_has(sessions):
    assert len(texts(lifter_week_pdf([sheet(session=n) for n in range(1, sessions + 1)]))) <= 2


def test_a_start_is_explained_on_the_wall():
    for pdf in (lifter_week_pdf([without_bests()]), squad_week_pdf([without_bests()])):
        (text,) = texts(pdf)
        assert "from 30" in text
        assert "Start at that weight, work up and tell your coach." in text


def test_the_squad_has_a_page_for_each_session_in_order():
    snatch = day_line(SNATCH, day_set(6000, 3, 2, "75 %"))
    days = squad(3, snatch, session=2) + squad(3, snatch, session=1)
    first, second = texts(squad_week_pdf(days))

    assert first.startswith("Session 1")
    assert second.startswith("Session 2")
    assert [first.index(f"Wen {n}z") for n in range(3)] == sorted(first.index(f"Wen {n}z") for n in range(3))


def test_work_without_kilos_stands_under_the_table():
    (text,) = texts(
        squad_week_pdf(
            squad(
                2,
                day_line(SNATCH, day_set(6000, 3, 2, "75 %")),
                day_line(PRESS, day_set(None, 5, 5, "RPE 8")),
            )
        )
    )

    assert "Also: Push press 5 × 5 RPE 8" in text


def test_a_lifter_with_another_lift_gets_a_column_of_their_own_and_no_kilo_of_somebody_else():
    others = squad(
        2, day_line(SNATCH, day_set(6000, 3, 2, "75 %")), day_line(PULL, day_set(8000, 3, 3, "95 %"))
    )
    alone = squad(
        1, day_line(SNATCH, day_set(4000, 4, 2, "75 %")), day_line(SQUAT, day_set(9500, 3, 3, "80 %"))
    )
    alone = [msgspec.structs.replace(alone[0], lifter="Jo Penhale")]
    (text,) = texts(squad_week_pdf(others + alone))

    row = text[text.index("Jo Penhale") :]
    assert re.match(r"Jo Penhale 4 × 2 40 – 95", row), "own sets and reps; no pull; the squat"
    assert re.search(r"Wen 0z 60 80 –", text)


def wave(number: int, dag: int, reps: int):
    one = day_set(dag, 1, reps, "75 %")
    return msgspec.structs.replace(one, scheme=f"wave {number}: 1 × {reps}, rest 2:00")


def test_waves_that_repeat_take_one_column():
    line = day_line(SNATCH, *(wave(n, dag, reps) for n in (1, 2, 3) for dag, reps in ((6000, 2), (6500, 1))))
    (text,) = texts(squad_week_pdf(squad(1, line)))

    assert re.search(r"Wen 0z 60 65( |$)(?!60)", text)
    assert text.count("waves 1 to 3, rest 2:00") == 1


def test_a_rest_that_all_sets_of_a_lift_share_is_said_once_above_them():
    same = [
        msgspec.structs.replace(day_set(dag, 1, 3, "75 %"), scheme="1 × 3, rest 2:30") for dag in (6000, 6500)
    ]
    other = msgspec.structs.replace(day_set(7000, 1, 3, "80 %"), scheme="1 × 3, rest 4:00")
    (text,) = texts(squad_week_pdf(squad(1, day_line(SNATCH, *same))))
    (mixed,) = texts(squad_week_pdf(squad(1, day_line(SNATCH, *same, other))))

    assert re.search(r"Snatch rest 2:30 Lifter 1 × 3", text)
    assert text.count("rest 2:30") == 1
    assert (mixed.count("rest 2:30"), mixed.count("rest 4:00")) == (2, 1)


def sizes(pdf: bytes) -> dict[str, float]:
    """The largest size of type in which each word of the first page is set. [pt]"""
    found: dict[str, float] = {}

    def visit(text, _, matrix, __, size):
        for word in text.split():
            found[word] = max(found.get(word, 0), size * abs(matrix[3]))

    PdfReader(BytesIO(pdf)).pages[0].extract_text(visitor_text=visit)
    return found


def test_a_short_list_is_set_larger_and_a_long_name_stays_in_its_line():
    line = day_line(SNATCH, day_set(6000, 3, 2, "75 %"))
    few, many = sizes(squad_week_pdf(squad(4, line))), sizes(squad_week_pdf(squad(24, line)))
    long_name = [
        msgspec.structs.replace(one, lifter="Bartholomew Featherstonehaugh") for one in squad(4, line)
    ]

    assert few["60"] > many["60"] >= 15
    assert sizes(squad_week_pdf(long_name))["Bartholomew"] < few["Wen"]


def test_waves_that_climb_keep_their_columns():
    line = day_line(SNATCH, *(wave(n, 6000 + 250 * n, 2) for n in (1, 2, 3)))
    (text,) = texts(squad_week_pdf(squad(1, line)))

    assert "Wen 0z 62.5 65 67.5" in text


def test_pounds_are_named_beside_the_lifter_who_counts_in_them():
    days = squad(2, day_line(SNATCH, day_set(6000, 3, 2, "75 %")))
    days[1] = msgspec.structs.replace(days[1], unit="lb")
    (text,) = texts(squad_week_pdf(days))

    assert "Wen 0z 60" in text
    assert "Wen 1z, lb 132.3" in text  # 60 kg over 0.45359237 is 132.28 lb


@settings(max_examples=20)
@given(
    st.integers(1, 40),
    st.lists(st.integers(1, 4), min_size=1, max_size=8),
    st.sampled_from(["a4", "letter"]),
    st.booleans(),
)
def test_every_lifter_stands_on_the_wall_once_for_every_part_of_the_session(lifters, groups, paper, starts):
    lines = [
        msgspec.structs.replace(
            day_line(SNATCH, *(day_set(6000, 3, 2, "75 %", placeholder=starts) for _ in range(count))),
            name=f"Snatch from the blocks above the knee {n}",
        )
        for n, count in enumerate(groups)
    ]
    pages = texts(squad_week_pdf(squad(lifters, *lines), paper))

    numbered = [re.search(r"page (\d+) of (\d+)", text) for text in pages]
    if len(pages) > 1:
        assert [int(found[1]) for found in numbered] == list(range(1, len(pages) + 1)), "no page runs over"
        assert {int(found[2]) for found in numbered} == {len(pages)}
    together = " ".join(pages) + " "
    seen = {len(re.findall(rf"Wen {n}z ", together)) for n in range(lifters)}
    assert len(seen) == 1
    assert together.count("60") >= lifters * sum(groups)


def test_a_week_needs_a_session():
    with pytest.raises(ValueError, match="no session"):
        lifter_week_pdf([])
    with pytest.raises(ValueError, match="no session"):
        squad_week_pdf([])
