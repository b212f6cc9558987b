"""The drawn bar: every disc with its number, to scale, in the colours of the rule book, said in words."""

import csv
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from meetward.barbell.discs import BarAndDiscs, Disc, SidePlan, loadable, plan
from meetward.barbell.standard import COMPETITION_DISCS
from meetward.publish.bar import _FILL, drawn_bar, said_bar
from meetward.units import kg_to_dag
from tests.publish.samples import CLUB, MEET

SVG = "{http://www.w3.org/2000/svg}"
DISCS_CSV = Path(__file__).parents[1] / "authorities" / "meet-discs.csv"


def parts(svg: str) -> tuple[ElementTree.Element, list[ElementTree.Element], list[str]]:
    """The drawing, the blocks of discs and collar, and the numbers on the discs."""
    root = ElementTree.fromstring(svg)
    group = root.find(f"{SVG}g")
    return root, group.findall(f"{SVG}rect"), [text.text for text in group.findall(f"{SVG}text")]


def test_the_drawing_says_in_words_what_it_shows():
    side = SidePlan(6800, (Disc(2000, colour="blue", large=True), Disc(150, colour="yellow")), 500)

    root, _, numbers = parts(drawn_bar(2000, side))

    assert root.find(f"{SVG}title").text == "20 kg bar, each side: 20, 1.5, collar"
    assert root.find(f"{SVG}desc").text == "68 kg together."
    assert root.get("role") == "img"
    assert numbers == ["20", "1.5"]


def test_the_empty_bar_carries_nothing():
    root, blocks, numbers = parts(drawn_bar(1500, SidePlan(1500)))

    assert root.find(f"{SVG}title").text == "15 kg bar, no discs"
    assert (blocks, numbers) == ([], [])


@given(st.sampled_from(loadable(CLUB)), st.sampled_from(loadable(MEET)))
def test_every_disc_of_every_plan_is_drawn_once_with_its_number_inside_the_drawing(club_dag, meet_dag):
    for kit, total_dag in ((CLUB, club_dag), (MEET, meet_dag)):
        side = plan(kit, total_dag)
        svg = drawn_bar(kit.bar_dag, side)
        root, blocks, numbers = parts(svg)

        assert [kg_to_dag(number) for number in numbers] == list(side.discs_dag)
        assert len(blocks) == len(numbers) + bool(side.collars_dag)
        edges = [(float(b.get("x")), float(b.get("x")) + float(b.get("width"))) for b in blocks]
        assert edges == sorted(edges), "inside to outside, from left to right"
        assert all(right <= left for (_, right), (left, _) in pairwise(edges))
        assert all(left >= 0 and right <= float(root.get("width")) for left, right in edges)
        if total_dag <= 30_000:  # more than anybody has lifted
            assert float(root.get("width")) <= 300
            assert len(svg.encode()) < 2_500


def test_usual_bars_are_small_files():
    assert len(drawn_bar(2000, plan(CLUB, 10000)).encode()) < 1_200
    assert len(drawn_bar(2000, plan(MEET, 26300)).encode()) < 2_000


# tests/authorities/meet-discs.csv: kilos, colours and kinds of the competition discs.
@pytest.mark.parametrize(
    "row", list(csv.DictReader(DISCS_CSV.open(encoding="utf-8"))), ids=lambda row: row["kg"]
)
def test_discs_have_the_colour_of_the_rule_book_also_when_the_kit_does_not_say(row):
    dag, large = kg_to_dag(row["kg"]), row["kind"] == "large"

    for disc in (Disc(dag, large=large), next(d for d in COMPETITION_DISCS if d.dag == dag)):
        _, (block,), _ = parts(drawn_bar(2000, SidePlan(2000 + 2 * dag, (disc,))))
        assert block.get("fill") == _FILL[row["colour"]]


def heights(*discs: Disc) -> list[float]:
    total_dag = 2000 + 2 * sum(disc.dag for disc in discs)
    return [float(block.get("height")) for block in parts(drawn_bar(2000, SidePlan(total_dag, discs)))[1]]


def test_large_discs_are_of_one_height_and_small_ones_lower_by_weight():
    tall = heights(*(disc for disc in COMPETITION_DISCS if disc.large))
    low = heights(*(disc for disc in COMPETITION_DISCS if not disc.large))

    assert len(set(tall)) == 1
    assert low == sorted(low, reverse=True)
    assert low[0] < tall[0]
    assert heights(Disc(250, large=True)) == [tall[0]], "a light disc of full height"
    assert heights(Disc(2000))[0] < tall[0], "a small iron disc of 20 kg"


def test_an_odd_disc_is_iron_grey_with_its_number():
    _, (block,), numbers = parts(drawn_bar(2000, SidePlan(3450, (Disc(725),))))

    assert numbers == ["7.25"]
    assert block.get("fill") not in _FILL.values()


def test_pounds_stand_on_the_discs_of_a_lifter_who_counts_in_pounds():
    side = SidePlan(2041 + 2 * 2041, (Disc(2041, large=True),))

    assert said_bar(2041, side, "lb") == "45 lb bar, each side: 45"
    assert parts(drawn_bar(2041, side, "lb"))[2] == ["45"]


def luminance(colour: str) -> float:
    """Relative luminance by WCAG 2.2."""
    parts_ = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts_)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("disc", [*COMPETITION_DISCS, Disc(125, colour="iron"), Disc(1000, colour="black")])
def test_the_number_stands_out_from_its_disc(disc):
    root, (block,), _ = parts(drawn_bar(2000, SidePlan(2000 + 2 * disc.dag, (disc,))))
    number = root.find(f"{SVG}g/{SVG}text")

    light, dark = sorted((luminance(block.get("fill")), luminance(number.get("fill"))), reverse=True)

    assert (light + 0.05) / (dark + 0.05) >= 4.5  # WCAG 2.2, success criterion 1.4.3, level AA


def test_a_colour_word_cannot_break_the_drawing():
    side = SidePlan(3000, (Disc(500, colour='"/><script>'),))

    root, _, _ = parts(drawn_bar(2000, side))

    assert root.find(f".//{SVG}script") is None


def test_a_kit_without_discs_has_a_drawing_too():
    kit = BarAndDiscs(1000)

    assert said_bar(1000, plan(kit, 1000)) == "10 kg bar, no discs"
