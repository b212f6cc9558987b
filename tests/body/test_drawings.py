"""Drawings as files: what they build on, and every slip told at its place with what to do."""

from importlib.resources import files

import pytest
import tomli
from hypothesis import given, settings
from hypothesis import strategies as st

from meetward.body.drawings import figure_of
from meetward.body.reading import load, shipped
from meetward.body.segments import TYPICAL
from meetward.problem import Problem, stops


@pytest.fixture
def read(tmp_path):
    """Loads a text as a coach's own file; gives the drawings and what was said about this file."""

    def read_text(text: str):
        path = tmp_path / "own.toml"
        path.write_text(text, encoding="utf-8")
        drawings, problems = load(path)
        return drawings, [p for p in problems if p.place.source == "own.toml"]

    return read_text


WAVE = '[[drawing]]\nid = "wave"\nalt = "A wave."\nframes = [{ name = "Up", pose = { trunk = 20 } }]\n'


def only(problems: list[Problem]) -> Problem:
    assert len(problems) == 1, [str(p) for p in problems]
    return problems[0]


def test_a_drawing_of_ones_own_stands_beside_the_shipped_ones(read):
    drawings, problems = read(WAVE)

    assert problems == []
    assert drawings.find("wave").title == "Wave"
    assert drawings.find("wave").frames[0].pose.trunk == 20
    assert drawings.find("snatch") is not None
    assert drawings.find("no such") is None


def test_a_shipped_drawing_changes_in_the_fields_that_are_given(read):
    before = shipped().find("snatch")
    drawings, problems = read('[[drawing]]\nid = "snatch"\nalt = "Our own words."\n')

    assert problems == []
    assert drawings.find("snatch").alt == "Our own words."
    assert drawings.find("snatch").frames == before.frames


def test_like_takes_positions_and_changes_what_is_given(read):
    drawings, problems = read(
        """
[[drawing]]
id = "mine"
alt = "Mine."
like = "snatch"
order = ["Low", "Receive", "clean: Stand"]
every = { sought = { heel_cm = 1.0 } }
frames = [
  { name = "Receive", says = "Other words" },
  { name = "Low", like = "Knee", sought = { height = "below knee" } },
]
"""
    )
    mine, snatch = drawings.find("mine"), drawings.find("snatch")
    theirs = {f.name: f for f in snatch.frames}

    assert problems == []
    assert [f.name for f in mine.frames] == ["Low", "Receive", "Stand"]
    assert mine.frames[1].says == "Other words"
    assert mine.frames[1].sought.bar == theirs["Receive"].sought.bar
    assert mine.frames[0].sought.height == "below knee"
    assert mine.frames[0].sought.grip == theirs["Knee"].sought.grip
    assert mine.frames[2].sought.bar == "front rack"
    assert all(f.sought.heel_cm == 1.0 for f in mine.frames)
    assert snatch.frames[1].sought.heel_cm == 2.0


def test_a_pose_builds_on_a_kept_pose_and_one_side_on_both(read):
    drawings, problems = read(
        """
[[pose]]
id = "own stand"
like = "standing"
legs = { thigh = 10, shin = 5 }
far_leg = { thigh = 30, on = "air" }

[[drawing]]
id = "mine"
alt = "Mine."
frames = [{ name = "One", pose = { like = "own stand", trunk = 15, legs = { shin = 8 } } }]
"""
    )
    pose = drawings.find("mine").frames[0].pose

    assert problems == []
    assert (pose.trunk, pose.legs.thigh, pose.legs.shin) == (15, 10, 8)
    assert (pose.far_leg.thigh, pose.far_leg.shin) == (30, 8)
    assert pose.near_leg is None
    assert pose.arms.fore == 20  # from the shipped pose below


def test_things_fit_the_body_that_takes_the_position(read):
    drawings, problems = read(
        """
[[drawing]]
id = "sit"
alt = "Sits."
frames = [{ name = "Sit", pose = { like = "sitting on a box" }, props = [
  { kind = "box", under = "seat" }, { kind = "ball", under = "near foot" },
  { kind = "dumbbell", at = "near hand" }, { kind = "band", at = "near hand", to = [80, 100], off = [0, 1] },
] }]
"""
    )
    made = figure_of(drawings.find("sit").frames[0], TYPICAL)
    box, _, bell, band = made.props

    assert problems == []
    assert (box.at.y, box.high_cm) == pytest.approx((0, 43))
    assert box.at.x == made.hip.x
    assert bell.at == made.near_arm.grip
    assert (band.to.x, band.to.y) == (80, 100)
    assert band.at.y == made.near_arm.grip.y + 1


def told_at(problem: Problem, drawings, line: int, words: list[str]) -> None:
    """The slip is told in this line with these words, and stops its own drawing only."""
    assert problem.place.line == line, str(problem)
    for word in words:
        assert word in str(problem), str(problem)
    assert problem.severity == "stop"
    assert problem.repair.endswith((".", "?"))
    assert drawings.find("x") is None
    assert drawings.find("snatch") is not None


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ("pose = { trnk = 1 }", ["position 'Two'", "'trnk'", "Did you mean 'trunk'?"]),
        ('pose = { legs = { on = "flt" } }', ["'flt'", "Did you mean 'flat'?"]),
        ('sought = { bar = "rack" }', ["'rack'", "back rack"]),
        ('pose = { trunk = "a lot" }', ["It has to be a", "number"]),
        ("pose = { trunk = inf }", ["number in 'pose.trunk'"]),
        ("pose = { arms = { upper = 9e9 } }", ["pose.arms.upper"]),
        ("says = 'nothing'", ["either sought or a pose"]),
        ("pose = {}, sought = {}", ["either sought or a pose"]),
        ('like = "Onne"', ["no position 'Onne'", "Did you mean 'One'?"]),
        ("like = 3", ["named by text"]),
        ('pose = { like = "standng" }', ["no pose 'standng'", "'standing'"]),
        ('pose = {}, props = [{ kind = "bx" }]', ["'bx'", "'box'"]),
        ('pose = {}, props = [{ kind = "box", under = "set" }]', ["'set' is no spot"]),
        ('pose = {}, arrows = [{ at = "near nee", go = [1, 2] }]', ["'near nee'"]),
        ('pose = {}, arrows = [{ at = "hip" }]', ["'go' is missing"]),
        ('pose = { arms = { to = "bar" } }', ["no bar here", "Give the position a bar"]),
        ('pose = { arms = { to = "bar" }, bar = {} }', ["the hands reach for the bar"]),
        ('view = "front", pose = { bar = {} }', ["only drawn from the side", "Take the bar"]),
        ('view = "front", sought = { }', ["from the front only a pose"]),
        ('pose = { arms = { to = "kne" } }', ["'kne' is no spot"]),
    ],
)
def test_a_slip_in_a_position_is_told_in_its_line_with_what_to_do(read, fields, words):
    drawings, problems = read(
        '[[drawing]]\nid = "x"\nalt = "X."\nframes = [\n{ name = "One", pose = { } },\n'
        f'{{ name = "Two", {fields} }}]'
    )

    told_at(only(problems), drawings, 6, words)


X = '[[drawing]]\nid = "x"\nalt = "x"\n'


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("[[drawing]]\nid = 'x'\nframes = []", 1, ["'alt' is missing", "begins alt ="]),
        ("[[drawing]]\nalt = 'x'\nframes = []", 1, ["no id", "id ="]),
        (X, 1, ["no position", "frames"]),
        (X + "colour = 3", 4, ["no field 'colour'"]),
        (X + "frmes = []", 4, ["Did you mean 'frames'?"]),
        (X + "frames = 3", 4, ["'frames' has to be a list"]),
        (X + 'frames = [{ says = "no name", pose = {} }]', 1, ["Position 1 has no name"]),
        (X + 'frames = [{ name = "A", pose = {} }, { name = "A", pose = {} }]', 4, ["are called 'A'"]),
        (X + 'like = "snach"', 4, ["no drawing 'snach'", "'snatch'"]),
        (X + 'like = "x"', 4, ["circle", "x > x"]),
        (X + "like = 3", 4, ["has to be an id"]),
        (X + 'like = "snatch"\norder = ["Strt"]', 5, ["'Strt'", "'Start'"]),
        (X + 'like = "snatch"\norder = "Start"', 5, ["list of names"]),
        (X + 'like = "snatch"\norder = ["clan: Start"]', 5, ["no drawing 'clan'"]),
        (X + 'like = "snatch"\nevery = 3', 5, ["'every' has to be fields"]),
        ('[[drawing]]\nid = "x"\nalt = ""\nlike = "snatch"', 3, ["'alt' has to be text"]),
        ('[[drawing]]\nid = "x"\nalt = x', 3, ["cannot be read"]),
        ("[[figure]]\nid = 'x'", 0, ["'figure' is no kind of entry", "[[drawing]]"]),
        ("drawing = [1]", 0, ["has to be a table"]),
        ("[[pose]]\ntrunk = 3", 1, ["no id"]),
    ],
)
def test_a_slip_in_an_entry_is_told_where_it_is_with_what_to_do(read, text, line, words):
    drawings, problems = read(text)

    told_at(only(problems), drawings, line, words)


def test_drawings_and_poses_in_a_circle_are_told(read):
    two = '[[drawing]]\nid = "a"\nalt = "x"\nlike = "b"\n[[drawing]]\nid = "b"\nalt = "x"\nlike = "a"\n'
    poses = '[[pose]]\nid = "p"\nlike = "q"\n[[pose]]\nid = "q"\nlike = "p"\n'
    posed = '[[drawing]]\nid = "c"\nalt = "x"\nframes = [{ name = "One", pose = { like = "p" } }]\n'
    _, problems = read(two + poses + posed)

    assert [p.kind for p in problems] == ["circle"] * 3
    assert "a > b > a" in str(problems[0])
    assert "p > q > p" in str(problems[2])


def test_one_broken_drawing_hides_no_other(read):
    good = '[[drawing]]\nid = "good"\nalt = "x"\nframes = [{ name = "One", pose = {} }]\n'
    drawings, problems = read('[[drawing]]\nid = "bad"\nalt = "x\n' + good)

    assert drawings.find("good") is not None
    assert only(problems).place.line == 3


def test_what_only_looks_wrong_is_told_and_drawn_all_the_same(read):
    drawings, problems = read(
        """
[[drawing]]
id = "x"
alt = "x"
frames = [
  { name = "Far", pose = { trunk = -30, bar = { at = [60, 20] }, arms = { to = "bar" } } },
  { name = "Sunk", pose = { far_leg = { thigh = 0, foot = 60, on = "air" } } },
  { name = "Low", says = "far too much to be said below such a small one", pose = { bar = { at = [0, 1] } } },
]
"""
    )

    assert stops(problems) == []
    assert [p.kind for p in problems[:2]] == ["hand off the bar", "hand off the bar"]
    assert any("cm in the floor" in p.message and "'Sunk'" in str(p) for p in problems)
    assert any("disc is sunk" in p.message for p in problems)
    assert drawings.find("x") is not None


def test_an_id_twice_in_one_file_is_told(read):
    _, problems = read(WAVE + WAVE)

    assert "stands twice" in str(only(problems))


def test_files_that_cannot_be_read_are_told(tmp_path):
    latin = tmp_path / "latin.toml"
    latin.write_bytes(b'[[drawing]]\nid = "caf\xe9"\n')
    _, problems = load(latin, tmp_path / "nowhere.toml")

    assert [p.kind for p in problems if p.place.source in ("latin.toml", "nowhere.toml")] == [
        "not UTF-8",
        "file not read",
    ]


@settings(max_examples=200, deadline=None)
@given(
    cut=st.integers(0, 4000), put=st.text('{}[]="\n#.,\\abz019', max_size=8), gone=st.integers(0, 12),
)  # fmt: skip
def test_no_slip_of_the_pen_breaks_the_reader(tmp_path_factory, cut, put, gone):
    ours = MUTATED
    at = cut % len(ours)
    path = tmp_path_factory.mktemp("own") / "own.toml"
    path.write_text(ours[:at] + put + ours[at + gone :], encoding="utf-8")

    drawings, problems = load(path, look=False)

    assert drawings.find("snatch") is not None
    for problem in problems:
        assert problem.message
        assert problem.repair


MUTATED = """[[pose]]
id = "p"
trunk = 20
legs = { thigh = 10, on = "flat" }

[[drawing]]
id = "mine"
alt = "Mine."
like = "snatch"
order = ["Start", "Own"]
every = { props = [{ kind = "box", at = [0, 1] }] }
frames = [
  { name = "Own", pose = { like = "p", arms = { to = "knee" } }, arrows = [{ at = "hip", go = [1, 2] }] },
]
"""


def test_the_examples_of_the_page_for_coaches_can_be_read(read):
    page = files("meetward.body").joinpath("data/README.md").read_text(encoding="utf-8")
    blocks = [block.partition("```")[0] for block in page.split("```toml\n")[1:]]
    whole = [block for block in blocks if block.startswith("[[")]
    pieces = [block for block in blocks if not block.startswith("[[")]

    assert len(whole) == 2
    assert len(pieces) == 3
    for block in whole:
        _, problems = read(block)
        assert problems == [], [str(p) for p in problems]
    pose = tomli.loads(pieces[0])["pose"]
    assert "curl" in pose
    frame = '[[drawing]]\nid = "x"\nalt = "x"\n[[drawing.frames]]\nname = "One"\n'
    for fields in ("pose = {}\n" + pieces[1], pieces[2]):
        _, problems = read(frame + fields)
        assert problems == [], [str(p) for p in problems]
