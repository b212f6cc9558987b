"""A squad out and in again: nothing changes, nothing is computed by the spreadsheet that opens it."""

import csv
import io
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from meetward.barbell.standard import club_kit, competition_kit, light_kit
from meetward.lifter.bests import Best, in_order
from meetward.lifter.cell import tidy
from meetward.lifter.kit import disc, kit_of
from meetward.lifter.profile import Lifter
from meetward.lifter.reading import key_of
from meetward.lifter.weights import HEAVIEST_DAG, LIGHTEST_DAG
from meetward.lifter.workbook import sheets_of
from meetward.lifter.writing import to_csv, to_xlsx
from tests.lifter.sheets import CATALOGUE, TODAY, read

words = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cn"]), max_size=40).map(
    lambda text: tidy(" ".join(text.split()))
)
notes = st.one_of(
    words, st.lists(words, max_size=3).map("\n".join).map(tidy), st.sampled_from(["=1+1", "-", "+5", "@x",
    "'=1", "n/a", "#N/A", "_x000D_", "a;b,c\td"])
)  # fmt: skip
names = words.filter(lambda name: any(map(str.isalnum, name)))
bests = st.builds(
    Best,
    lift=st.sampled_from(sorted(CATALOGUE.movements)),
    dag=st.integers(LIGHTEST_DAG, HEAVIEST_DAG),
    on=st.none() | st.dates(date(1990, 1, 1), TODAY),
    kind=st.sampled_from(["tested", "estimated", "stated"]),
    reps=st.sampled_from([1, 1, 1, 2, 3, 5, 10, 20]),
    note=notes,
)
discs = st.lists(
    st.builds(disc, st.sampled_from([2_500, 2_000, 1_000, 500, 250, 125, 333]), st.integers(1, 9)),
    max_size=5,
    unique_by=lambda one: one.dag,
)
kits = st.one_of(
    st.sampled_from([club_kit(1_500), competition_kit(), light_kit()]),
    st.builds(
        lambda bar, some, collars: kit_of(bar, tuple(some), collars),
        st.integers(100, 5_000),
        discs,
        st.integers(0, 500).map(lambda half: 2 * half),
    ),
)
lifters = st.builds(
    Lifter,
    key=st.just(""),
    name=names,
    kit=kits,
    category=st.sampled_from([None, "men", "women"]),
    birth_year=st.none() | st.integers(TODAY.year - 100, TODAY.year - 5),
    bodyweight_dag=st.none() | st.integers(1_500, 30_000),
    unit=st.sampled_from(["kg", "lb"]),
    days=st.sets(st.integers(0, 6)).map(lambda days: tuple(sorted(days))),
    minutes=st.none() | st.integers(5, 360),
    notes=notes,
    bests=st.lists(bests, max_size=6).map(in_order),
)


@st.composite
def squads(draw) -> tuple[Lifter, ...]:
    squad = draw(st.lists(lifters, min_size=1, max_size=5))
    return tuple(
        Lifter(
            **{f: getattr(one, f) for f in one.__struct_fields__ if f != "key"},
            key=f"{key_of(one.name)[:40]}-{at}",
        )
        for at, one in enumerate(squad)
    )


@settings(max_examples=150)
@given(squads())
def test_a_squad_written_as_csv_is_read_again_unchanged(squad):
    reading = read(to_csv(squad))

    assert reading.lifters == squad
    assert not [problem for problem in reading.problems if problem.severity == "stop"]


@settings(max_examples=15)  # each one starts a process
@given(squads())
def test_a_squad_written_as_a_workbook_is_read_again_unchanged(squad):
    assert read(to_xlsx(squad), "squad.xlsx").lifters == squad


@given(squads())
def test_a_workbook_holds_the_cells_of_the_csv(squad):
    """The same without the process around the reader, so on many squads."""
    text = list(csv.reader(io.StringIO(to_csv(squad).decode("utf-8-sig"), newline="")))
    (sheet,) = sheets_of(to_xlsx(squad))

    assert sheet.name == "Squad"
    assert [[cell is not None for cell in row] for row in sheet.rows] == [
        [bool(cell) for cell in row] for row in text
    ]


def plain(**more) -> Lifter:
    return Lifter("ann-sole", "Ann Sole", club_kit(1_500), **more)


def test_weights_are_numbers_and_days_are_dates():
    squad = [
        plain(
            bodyweight_dag=6_350, birth_year=1998, bests=(Best("snatch", 7_050, date(2026, 10, 3), "tested"),)
        )
    ]
    sheet = load_workbook(io.BytesIO(to_xlsx(squad))).active
    row = dict(zip((c.value for c in sheet[1]), sheet[2], strict=True))

    assert row["Snatch (kg)"].value == 70.5
    assert row["Snatch date"].value.date() == date(2026, 10, 3)
    assert (row["Bodyweight (kg)"].value, row["Born"].value) == (63.5, 1998)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", '=HYPERLINK("http://example.invalid")', "\t=1"])
def test_no_text_is_computed(text):
    squad = [plain(notes=text), Lifter("x", f"{text} x", club_kit())]
    book = load_workbook(io.BytesIO(to_xlsx(squad)))
    cells = [cell for row in csv.reader(io.StringIO(to_csv(squad).decode("utf-8-sig"))) for cell in row]

    assert {cell.data_type for row in book.active.iter_rows() for cell in row} <= {"s", "n", "d"}
    assert not [cell for cell in cells if cell[:1] in ("=", "+", "-", "@", "\t", "\r")]


def test_only_columns_that_somebody_needs_are_written():
    heading = (
        to_csv([plain(bests=(Best("front_squat", 9_500, reps=3), Best("snatch", 7_000)))])
        .decode("utf-8-sig")
        .splitlines()[0]
    )

    assert (
        heading
        == "Key,Name,Category,Born,Bodyweight (kg),Bar (kg),Collars,Discs,Days,Minutes,Shown in,Snatch "
        "(kg),Front squat 3RM (kg),Notes"
    )


def test_a_lift_outside_the_catalogue_is_told_on_the_way_back():
    reading = read(to_csv([plain(bests=(Best("log_lift", 7_000),))]))

    assert reading.lifters == (plain(),)
    assert reading.columns_ignored == ("log_lift (kg): not a lift of the catalogue, nor part of a profile",)


def test_equal_squads_give_equal_files():
    assert to_xlsx([plain()]) == to_xlsx([plain()])


def test_an_empty_squad_has_headings():
    assert read(to_csv([])).lifters == ()
    assert read(to_xlsx([]), "squad.xlsx").lifters == ()


def test_a_text_longer_than_a_cell_is_refused_and_not_cut():
    with pytest.raises(ValueError, match="Ann Sole has 40000 characters"):
        to_xlsx([plain(notes="x" * 40_000)])
    assert read(to_csv([plain(notes="x" * 40_000)])).lifters[0].notes == "x" * 40_000


@pytest.mark.parametrize("movement", CATALOGUE.movements.values(), ids=lambda m: m.id)
def test_every_lift_of_the_catalogue_goes_out_and_in(movement):
    some = (
        Best(movement.id, 8_250),
        Best(movement.id, 8_000, date(2026, 1, 2), "estimated", 1, "x"),
        Best(movement.id, 7_000, None, "tested", 3, "=a"),
    )
    squad = (plain(bests=in_order(some)),)

    assert read(to_csv(squad)).lifters == squad
