"""Drawings as SVG: every shipped one is drawn, small, well formed, told in words, and stands on the floor."""

import itertools
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
import typst

import meetward.body
from meetward.body.composing import Book
from meetward.body.draw import apart, described, drawn, single, strip
from meetward.body.drawings import Drawing, Frame, figure_of, figures
from meetward.body.pages import pages
from meetward.body.placing import figure as placed
from meetward.body.placing import gaps
from meetward.body.pose import ArmPose, BarPose, Pose
from meetward.body.reading import shipped
from meetward.body.seen import IN_THE_FLOOR_CM, OFF_THE_FLOOR_CM
from meetward.body.segments import TYPICAL, Measures, body_of
from meetward.body.solve import solve
from meetward.problem import Problem
from tests.body.bodies import lengths, lowest_cm, random_bodies

DATA = Path(meetward.body.__file__).parent / "data"
SVG = "{http://www.w3.org/2000/svg}"
ALL = list(shipped())
ONE = Drawing(
    id="one",
    alt="One <lifter> & a bar.",
    frames=(
        Frame(name="Low & wide", says="Bar in the hands", pose=Pose(trunk=40, bar=BarPose())),
        Frame(name="High", pose=Pose(bar=BarPose(at="overhead"), arms=ArmPose(to="bar"))),
    ),
)


def test_nothing_is_wrong_with_the_shipped_drawings():
    problems: list[Problem] = []
    Book(pages(DATA, problems), problems, looked_at=()).drawings()

    assert [str(problem) for problem in problems] == []


@pytest.mark.parametrize("drawing", ALL, ids=lambda d: d.id)
def test_every_shipped_drawing_is_a_small_whole_picture_told_in_words(drawing):
    svg = strip(drawing)
    root = ElementTree.fromstring(svg)

    assert len(svg.encode()) <= 10_000
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.find(f"{SVG}title").text == drawing.title
    words = root.find(f"{SVG}desc").text
    assert drawing.alt in words
    for frame in drawing.frames:
        assert frame.says in words
    # Many stand in one page under a policy that forbids styles and scripts: none of what would clash there.
    assert not re.search(r"\b(id|style|href|on\w+)=|<(style|script|image|use|a)\b|url\(|var\(", svg)
    _, _, wide, high = map(float, root.get("viewBox").split())
    assert (wide, high) == (float(root.get("width")), float(root.get("height")))


@pytest.mark.parametrize("drawing", ALL, ids=lambda d: d.id)
def test_every_shipped_position_stands_on_the_floor_and_in_one_piece(drawing):
    for frame, figure in zip(drawing.frames, figures(drawing, TYPICAL), strict=True):
        low = lowest_cm(figure)
        assert low > -IN_THE_FLOOR_CM, frame.name
        if frame.pose:
            touching = gaps(placed(frame.pose, TYPICAL), frame.pose)
            assert all(abs(gap) <= OFF_THE_FLOOR_CM for gap in touching.values()), (frame.name, touching)
            if not touching and not frame.pose.jump_cm:
                assert low == pytest.approx(0, abs=1e-6), frame.name
        if frame.sought:
            for leg in (figure.near_leg, figure.far_leg):
                sole_cm = min(leg.heel.y, leg.ball.y, leg.toe.y)
                assert sole_cm == pytest.approx(frame.sought.stands_on_cm, abs=1e-6), frame.name
        for name, (made, own) in lengths(figure).items():
            assert made == pytest.approx(own, abs=0.02), f"{frame.name}: {name}"


@pytest.mark.parametrize("drawing", ALL, ids=lambda d: d.id)
def test_nothing_is_cut_off_at_the_edge(drawing):
    svg = strip(drawing)
    root = ElementTree.fromstring(svg)
    scale = float(re.search(r"scale\(([\d.]+)\)", svg)[1])
    wide, high = float(root.get("width")), float(root.get("height"))

    for element in root.iter():
        if element.get("class") in ("fig-near", "fig-trunk", "fig-path"):
            for x, y in anchors(element.get("d")):
                assert -1 <= x * scale <= wide + 1
                assert -1 <= y * scale <= high + 1


def anchors(path: str) -> list[tuple[int, int]]:
    """The places that a path of ours goes through, in its own units."""
    x = y = 0
    found = []
    for letter, rest in re.findall(r"([Mlcahz])([^Mlcahz]*)", path):
        numbers = [int(n) for n in re.findall(r"-?\d+", rest)]
        if letter == "M":
            x, y = numbers
        elif letter == "h":
            x += numbers[0]
        elif letter != "z":
            x, y = x + numbers[-2], y + numbers[-1]
        found.append((x, y))
    return found


def test_every_drawing_has_words_of_its_own():
    alts = [drawing.alt for drawing in ALL]

    assert len(set(alts)) == len(alts)
    assert all(20 < len(alt) < 320 and alt.endswith(".") for alt in alts)


def test_the_bar_rests_on_its_discs_on_the_floor_and_no_disc_is_sunk():
    for drawing in ALL:
        for frame, figure in zip(drawing.frames, figures(drawing, TYPICAL), strict=True):
            if figure.bar:
                clear = figure.bar.at.y - figure.bar.disc_cm / 2
                assert clear > -0.01, f"{drawing.id}, {frame.name}"
                if frame.sought and frame.sought.bar == "floor" and frame.sought.bar_cm is None:
                    assert clear == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("drawing", ALL, ids=lambda d: d.id)
def test_hands_hold_the_bar(drawing):
    for frame, figure in zip(drawing.frames, figures(drawing, TYPICAL), strict=True):
        holds = frame.sought is not None or (frame.pose is not None and frame.pose.arms.to == "bar")
        if figure.bar and holds:
            for arm in (figure.near_arm, figure.far_arm):
                off = abs(arm.grip.x - figure.bar.at.x) + abs(arm.grip.y - figure.bar.at.y)
                assert off < 3, f"{frame.name}: {off:.1f} cm"


def test_the_same_drawing_is_drawn_the_same_way():
    for drawing in ALL:
        assert strip(drawing) == strip(drawing)


def test_words_are_told_and_written_with_their_signs():
    svg = strip(ONE)
    root = ElementTree.fromstring(svg)
    texts = ["".join(t.itertext()) for t in root.iter(f"{SVG}text")]

    assert described(ONE) == "One <lifter> & a bar. 1 Low & wide: Bar in the hands. 2 High."
    assert root.find(f"{SVG}desc").text == described(ONE)
    assert "1 Low & wide" in texts[0]
    assert "2 High" in texts[0]
    assert "Bar in the hands" in texts[1]


def test_a_strip_breaks_into_rows_and_its_letters_stay_readable_on_a_phone():
    snatch = shipped().find("snatch")
    assert len(snatch.frames) == 7
    phone, paper = (ElementTree.fromstring(strip(snatch, columns=n)) for n in (0, 7))

    floors = {row: floor_lines(root) for row, root in (("phone", phone), ("paper", paper))}
    assert len(set(floors["phone"])) == 2
    assert len(floors["phone"]) == 7
    assert len(set(floors["paper"])) == 1
    sizes = [float(t.get("font-size")) for t in phone.iter(f"{SVG}text")]
    assert min(sizes) >= 11
    assert float(phone.get("width")) == 360


def floor_lines(root: ElementTree.Element) -> list[str]:
    """Heights of the pieces of floor."""
    path = next(p for p in root.iter(f"{SVG}path") if p.get("class") == "fig-floor")
    return re.findall(r"M-?\d+ (\d+)h", path.get("d"))


def test_the_bars_path_grows_from_position_to_position():
    paths = [path_of(svg) for svg in apart(shipped().find("snatch"))]

    assert paths[0] == ""
    assert all(len(a) < len(b) for a, b in itertools.pairwise(paths))
    assert [p.count("h") for p in paths[1:]] == [1, 2, 3, 4, 5, 6]  # a tick at each position before
    assert "fig-path" in strip(shipped().find("back_squat"))


def path_of(svg: str) -> str:
    found = re.search(r'class="fig-path" d="([^"]*)"', svg)
    return found[1] if found else ""


def test_positions_apart_share_one_scale_and_the_first_tells_the_whole():
    snatch = shipped().find("snatch")
    alone = apart(snatch)
    scales = {re.search(r"scale\(([\d.]+)\)", svg)[1] for svg in alone}

    assert len(alone) == 7
    assert len(scales) == 1
    assert described(snatch) in alone[0].replace("&amp;", "&")
    assert snatch.frames[3].says in alone[3]


def test_far_limbs_are_drawn_only_where_they_are_seen():
    jerk = shipped().find("split_jerk")
    names = [frame.name for frame in jerk.frames]

    assert "fig-far" in single(jerk, frame=names.index("Split"))
    assert "fig-far" not in single(shipped().find("back_squat"), frame=2)


def test_a_figure_from_elsewhere_is_drawn_without_words():
    svg = drawn(figure_of(ONE.frames[0], TYPICAL), "A hinge.", title="Yours")
    root = ElementTree.fromstring(svg)

    assert root.find(f"{SVG}title").text == "Yours"
    assert root.find(f"{SVG}desc").text == "A hinge."
    assert not list(root.iter(f"{SVG}text"))


def test_only_the_bar_and_its_path_have_a_colour_of_their_own():
    coloured = re.findall(
        r'<[^>]*class="([\w-]+)"[^>]*#[0-9A-Fa-f]{6}', strip(shipped().find("clean_and_jerk"))
    )

    assert set(coloured) == {"fig-bar", "fig-path"}


def test_the_lifters_own_lengths_are_drawn():
    long_thighs = body_of(Measures(height_cm=170, thigh_cm=46), 73, "men")
    squat = shipped().find("back_squat")
    usual, longer = figures(squat, TYPICAL)[2], figures(squat, long_thighs)[2]

    assert longer.near_leg.knee.x - longer.hip.x > usual.near_leg.knee.x - usual.hip.x + 2
    assert strip(squat) != strip(squat, long_thighs)


def test_the_typesetter_takes_every_strip(tmp_path):
    images = []
    for drawing in ALL:
        (tmp_path / f"{drawing.id}.svg").write_text(strip(drawing), encoding="utf-8")
        images.append(f'#image("{drawing.id}.svg", width: 12cm)')
    (tmp_path / "all.typ").write_text("\n".join(images), encoding="utf-8")

    pdf = typst.compile(tmp_path / "all.typ", root=tmp_path)

    assert pdf.startswith(b"%PDF")
    (tmp_path / "one.typ").write_text('#image("snatch.svg", width: 12cm)', encoding="utf-8")
    # The same strip without its figures shows what their ink adds to the picture's bytes.
    snatch = strip(shipped().find("snatch"))
    bare = re.sub(r'<path class="fig-(near|trunk|path)"[^>]*/>', "", snatch)
    (tmp_path / "bare.svg").write_text(bare, encoding="utf-8")
    (tmp_path / "two.typ").write_text('#image("bare.svg", width: 12cm)', encoding="utf-8")
    shown, words = (
        typst.compile(tmp_path / f"{name}.typ", root=tmp_path, format="png", ppi=72)
        for name in ("one", "two")
    )
    assert len(shown) > len(words) + 4_000


@pytest.mark.parametrize("quarter", range(4))
def test_two_hundred_bodies_reach_every_sought_position_or_say_why_not(quarter):
    sought = {frame.sought for drawing in ALL for frame in drawing.frames if frame.sought}
    for body in random_bodies(200)[quarter::4]:
        for one in sought:
            solved = solve(one, body)
            assert solved.reached or solved.why, f"{one}, {body}"


@pytest.mark.parametrize("body", random_bodies(4, seed=11), ids=lambda b: f"{b.height_cm:.0f} cm")
def test_pictures_stay_small_for_lifters_of_every_size(body):
    assert {one.id: n for one in ALL if (n := len(strip(one, body).encode())) > 10_000} == {}


def test_two_hundred_bodies_stand_in_one_piece_in_every_position():
    """Every position of every drawing; each body takes a tenth of them in turn."""
    positions = list({(f.sought, f.pose): f for drawing in ALL for f in drawing.frames}.values())
    step = 10
    for number, body in enumerate(random_bodies(200)):
        for frame in positions[number % step :: step]:
            if frame.sought:
                solved = solve(frame.sought, body)
                assert solved.reached or solved.why, f"{frame.name}, {body}"
            figure = figure_of(frame, body)
            for name, (made, own) in lengths(figure).items():
                assert made == pytest.approx(own, abs=0.02), f"{frame.name}: {name}"
            # A kept pose on a bench of its own height lets the hands of long arms hang into the floor.
            lowest = -0.1 * body.height_cm if frame.pose else -1e-6
            assert lowest_cm(figure) >= lowest, f"{frame.name}, {body}"
