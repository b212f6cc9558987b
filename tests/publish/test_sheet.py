"""Day sheets on paper, read back with a PDF reader of another house and looked at as pictures."""

import re
import subprocess
from functools import cache
from io import BytesIO

import msgspec
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from meetward.fit.fitted import DaySegment
from meetward.publish import paper
from meetward.publish.paper import OUR_MARK, NotTypeset, pages_of
from meetward.publish.sheet import day_pdf, sheets_document
from meetward.publish.shown import shown_day
from meetward.publish.week import lifter_week_pdf, squad_week_pdf
from tests.publish.samples import (
    LIFTS,
    PRESS,
    PULL,
    RECOVERY,
    SNATCH,
    SQUAT,
    WARM_UP,
    day_line,
    day_set,
    long_sheet,
    movement,
    sheet,
    without_bests,
)

HOSTILE = '#panic("no") $x$ *b* _i_ `c` <l> @r \\ // [x] #{1+1} "q" \'a\' ~ -- \u202e نص'


def texts(pdf: bytes) -> list[str]:
    """Text of each page, with blanks as single blanks."""
    return [re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(BytesIO(pdf)).pages]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_sheet_holds_the_whole_day_on_one_page(paper):
    (text,) = texts(day_pdf(sheet(), paper))

    for words in (
        "Mara Ellwood",
        "Snatch and front squat",
        "Week 6 of 12, session 3",
        "Wednesday 24 February 2027",
        "38 days to Eskmouth Spring Open",
        "Warm-up",
        "General warm-up",
        "Stick pass-through",
        "Recovery",
        "Effort, 1 to 10",
        "2 s pause at the knee",
        "Ankle rock",
        "Push the floor away · Bar to you · Finish tall",
        "The bar swings away from the hip",
        "Sweep the bar in with the lats",
        "Set by set: 35, 40, 40, 45, 45 kg.",
        "if time is left",
        "Sharp, spreading or lasting pain",
        "70 % of best snatch 85 kg (tested 3 Oct 2026)",
    ):
        assert squeezed(words) in squeezed(text)


def test_every_figure_of_the_day_stands_on_the_sheet():
    (text,) = texts(day_pdf(sheet()))
    day = shown_day(sheet())

    for line in (line for segment in day.segments for line in segment.lines):
        for one in line.sets:
            assert one.scheme in text
            assert squeezed(f"{one.kilos}{one.unit}" if one.kilos else one.load) in squeezed(text)
        for rung in line.ladder:
            assert squeezed(f"{rung.weight}×{rung.reps}") in squeezed(text)


def test_a_lifter_without_bests_reads_what_to_do_instead_of_kilos():
    (text,) = texts(day_pdf(without_bests()))

    for words in (
        "from 30 kg",
        "Work up from 30 kg and tell your coach",
        "RPE 8",
        "Stop with two good reps left.",
        "heavy double",
        "To settle with your coach",
        "There is no best front squat. Enter one after today.",
    ):
        assert squeezed(words) in squeezed(text)


# ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: Letter is 8.5 x 11 in. A point: 1/72 in. (from memory)
@pytest.mark.parametrize(("paper", "size_mm"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])
def test_the_page_has_the_size_of_the_paper(paper, size_mm):
    upright = PdfReader(BytesIO(day_pdf(sheet(), paper))).pages[0].mediabox
    wall = PdfReader(BytesIO(lifter_week_pdf([sheet()], paper))).pages[0].mediabox

    for box, (width_mm, height_mm) in ((upright, size_mm), (wall, size_mm[::-1])):
        assert float(box.width) * 25.4 / 72 == pytest.approx(width_mm, abs=0.1)
        assert float(box.height) * 25.4 / 72 == pytest.approx(height_mm, abs=0.1)


def test_a_session_too_long_for_a_page_goes_on_overleaf_and_says_so():
    first, second = texts(day_pdf(long_sheet(14)))

    assert "Page 1 of 2: goes on overleaf" in first
    assert "Mara Ellwood · Week 6 of 12, session 3 · continued, page 2 of 2" in second
    assert "Page 2 of 2: end of the session" in second
    numbers = re.findall(r"(\d+) (?:Snatch|Front squat|Push press)", first + second)
    assert {*map(str, range(1, 15))} <= set(numbers), "no line is lost"


def test_a_session_of_many_pages_counts_them_rightly():
    pages = texts(day_pdf(long_sheet(40)))

    assert len(pages) > 2
    for number, text in enumerate(pages, start=1):
        assert f"age {number} of {len(pages)}" in text


set_groups = st.builds(
    day_set,
    st.sampled_from([2000, 4000, 6250, 10250, 15000, None]),
    st.integers(1, 10),
    st.integers(1, 12),
    st.sampled_from(["70 %", "RPE 8", "85–90 %"]),
    instruction=st.sampled_from(["", "Work up to a heavy double, then tell your coach what it was."]),
)
lines = st.builds(
    lambda entry, sets, between: day_line(entry, *sets, between=between),
    st.sampled_from([SNATCH, PULL, SQUAT, PRESS]),
    st.lists(set_groups, min_size=1, max_size=3),
    st.booleans(),
)


@settings(max_examples=25)
@given(st.lists(lines, min_size=0, max_size=8), st.sampled_from(["a4", "letter"]))
def test_a_session_of_usual_size_stands_on_one_page(chosen, paper):
    assume(sum(len(line.sets) for line in chosen) <= 16)
    day = sheet(segments=(WARM_UP, DaySegment("lifts", tuple(chosen), 60.0), RECOVERY))

    assert pages_of(day_pdf(day, paper, tags=False)) == 1


def test_a_full_session_keeps_its_cues_and_says_that_more_was_left_out():
    lifts = tuple(
        day_line(movement(f"lift_{n}", f"Lift {n}"), day_set(6000, 3, 3, "70 %"), day_set(7000, 3, 2, "80 %"))
        for n in range(9)
    )

    (text,) = texts(day_pdf(sheet(segments=(WARM_UP, DaySegment("lifts", lifts, 90.0), RECOVERY))))

    assert "cues only, for want of room" in text
    assert text.count("Push the floor away") == 9
    assert "The bar swings away from the hip" not in text
    assert "for want of room" not in texts(day_pdf(sheet()))[0]


@pytest.fixture
def words_by_height(pdftoppm_path, tmp_path):
    """Words of a one-page PDF with the height of their type. [pt]"""

    def measured(pdf: bytes) -> list[tuple[float, str]]:
        (tmp_path / "day.pdf").write_bytes(pdf)
        command = [pdftoppm_path.with_name("pdftotext"), "-bbox", tmp_path / "day.pdf", "-"]
        said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        found = re.findall(r'yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">([^<]*)<', said)
        return [(float(bottom) - float(top), word) for top, bottom, word in found]

    return measured


def test_a_short_session_is_set_large_and_a_full_one_smaller(words_by_height):
    short = words_by_height(day_pdf(sheet(segments=(DaySegment("lifts", LIFTS.lines[:1], 20.0),))))
    full = words_by_height(day_pdf(sheet()))

    assert max(short) > max(full)


def test_kilos_are_the_largest_thing_on_the_sheet(words_by_height):
    words = words_by_height(day_pdf(sheet()))
    largest = max(height for height, _ in words)

    assert {word for height, word in words if height > 0.99 * largest} == {"60", "65", "70", "75", "100"}


def test_kilos_on_the_wall_are_large_enough_for_two_metres(words_by_height):
    # Common practice for signs, no source: letters of 1/400 of the distance are read with ease, 5 mm at 2 m.
    # A figure of 20 points is 0.67 x 20 = 13.4 points or 4.7 mm high.
    kilos = [
        height for height, word in words_by_height(squad_week_pdf([sheet()])) if re.fullmatch(r"\d+", word)
    ]
    plain = max(kilos)

    assert plain >= 20
    assert [
        words for words in words_by_height(lifter_week_pdf([sheet()])) if words[1] == "60" and words[0] >= 18
    ]


def test_names_are_never_read_as_markup():
    hostile_movement = msgspec.structs.replace(SNATCH, name=HOSTILE, summary=HOSTILE, cues=(HOSTILE,))
    line = day_line(hostile_movement, day_set(6000, 2, 2, HOSTILE, instruction=HOSTILE, why=HOSTILE))
    hostile = sheet(
        lifter=HOSTILE,
        club=HOSTILE,
        title=HOSTILE,
        aim=HOSTILE,
        notes=(HOSTILE,),
        cautions=(HOSTILE,),
        segments=(DaySegment("lifts", (line,), 10.0),),
    )

    for pdf in (day_pdf(hostile), lifter_week_pdf([hostile]), squad_week_pdf([hostile])):
        text = squeezed("".join(texts(pdf)))
        assert text.count(squeezed('#panic("no")$x$*b*_i_`c`<l>@r')) >= 3
        assert squeezed("[x]#{1+1}") in text


@given(st.text(max_size=40))
@settings(max_examples=40)
def test_any_name_can_be_printed(name):
    assert pages_of(day_pdf(sheet(lifter=name, title=name, segments=(RECOVERY,)))) == 1


def test_letters_of_many_languages_are_printed():
    (text,) = texts(day_pdf(sheet(lifter="Łukasz Őrsi-Žižka", club="Ğüneş ½ ≤", segments=(RECOVERY,))))

    assert squeezed("Łukasz Őrsi-Žižka") in squeezed(text)
    assert "Ğüneş ½ ≤" in text


@pytest.mark.parametrize(
    "name",
    [
        "علي نصر",
        "שלום כהן",
        "अनीता राव",
        "สมชาย ใจดี",
        "陈小明",
        "Ολγα Παππά",
        "Ñandú 🏋️",
        "a\u0301\u0300\u200d\u202e",
    ],
)
def test_names_in_any_script_are_printed_or_left_to_the_fonts_of_the_machine(name):
    day = sheet(lifter=name, title=name)

    assert pages_of(day_pdf(day)) == 1
    assert pages_of(sheets_document([day, sheet()])) == 2
    assert pages_of(squad_week_pdf([day])) == 1


def test_a_breakdown_of_the_typesetter_is_an_error_that_can_be_caught(monkeypatch):
    class PanicException(BaseException):
        pass

    class Broken:
        def compile(self, **_):
            raise PanicException("byte range starts at 2 but ends at 0")

    real = paper._compiler
    monkeypatch.setattr(paper, "_compiler", cache(lambda template, foreign: Broken()))
    with pytest.raises(NotTypeset, match="byte range"):
        day_pdf(sheet())
    monkeypatch.setattr(paper, "_compiler", real)

    assert pages_of(day_pdf(sheet())) == 1


def test_many_sheets_in_one_document_keep_their_order_and_their_pages():
    days = [sheet(lifter=f"Lifter {n}") for n in range(5)]
    days[2] = long_sheet()

    pages = texts(sheets_document(days))

    assert len(pages) == 6
    assert [text for text in pages if "Page 1 of 2: goes on overleaf" in text] == [pages[2]]
    assert [
        "Lifter 0" in pages[0],
        "Lifter 1" in pages[1],
        "Lifter 3" in pages[4],
        "Lifter 4" in pages[5],
    ] == [True] * 4


def test_a_document_needs_a_sheet():
    with pytest.raises(ValueError, match="no sheet"):
        sheets_document([])


def test_equal_days_give_equal_bytes_and_our_mark():
    first, again = day_pdf(sheet()), day_pdf(sheet())

    assert first == again
    assert OUR_MARK.encode() in first


@pytest.mark.parametrize(
    "build", [lambda: day_pdf(sheet()), lambda: day_pdf(long_sheet()), lambda: lifter_week_pdf([sheet()])]
)
def test_nothing_is_cut_off_at_the_edge_of_the_paper(build, pdftoppm_path, tmp_path):
    (tmp_path / "day.pdf").write_bytes(build())
    subprocess.run([pdftoppm_path, "-r", "50", "-gray", tmp_path / "day.pdf", tmp_path / "day"], check=True)

    for picture in tmp_path.glob("*.pgm"):
        _, size, _, pixels = picture.read_bytes().split(b"\n", 3)
        width, height = map(int, size.split())
        edge = 12  # 6 mm at 50 dots an inch; the margins are 9 mm and more
        rows = [pixels[y * width : (y + 1) * width] for y in range(height)]
        ink = [row for row in rows if min(row) < 128]
        assert ink, "an empty page"
        for row in (*rows[:edge], *rows[-edge:]):
            assert min(row) > 250
        for row in rows:
            assert min(row[:edge] + row[-edge:]) > 250


def test_a_screen_reader_gets_structure_language_and_words_for_the_drawings():
    reader = PdfReader(BytesIO(day_pdf(sheet())))
    root = reader.trailer["/Root"]

    assert root["/MarkInfo"]["/Marked"] is True or root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    alternatives = []

    def walk(node):
        node = node.get_object()
        if isinstance(node, list):
            for kid in node:
                walk(kid)
        elif isinstance(node, dict):
            if "/Alt" in node:
                alternatives.append(str(node["/Alt"]))
            if "/K" in node:
                walk(node["/K"])

    walk(root["/StructTreeRoot"])
    assert "20 kg bar, each side: 20, 2.5" in alternatives


@pytest.mark.parametrize(
    "build",
    [
        lambda: day_pdf(sheet()),
        lambda: day_pdf(without_bests()),
        lambda: day_pdf(long_sheet()),
        lambda: lifter_week_pdf([sheet()]),
        lambda: squad_week_pdf([sheet(), without_bests()]),
    ],
    ids=["day", "no bests", "overleaf", "lifter's week", "squad's week"],
)
def test_the_sheets_pass_the_typesetters_checks_of_the_accessibility_standard(build, monkeypatch):
    """PDF/UA-1 (ISO 14289-1), as far as a program can check it: it raises where a sheet falls short."""
    real = paper._compiler

    class Strict:
        def __init__(self, compiler):
            self.compiler = compiler

        def compile(self, **how):
            return self.compiler.compile(**how | {"pdf_standards": ["ua-1"]})

    monkeypatch.setattr(paper, "_compiler", lambda template, foreign: Strict(real(template, foreign)))

    assert b"pdfuaid" in build()


def with_new_snatch(day):
    """The day as it is where the cycle asks for the snatch the first time."""
    replace = msgspec.structs.replace

    def marked(line):
        return replace(line, parts=tuple(replace(part, first=part.name == "Snatch") for part in line.parts))

    return replace(
        day,
        segments=tuple(replace(s, lines=tuple(map(marked, s.lines))) for s in day.segments),
    )


def alternatives(pdf: bytes) -> list[str]:
    """The words that stand for pictures in a tagged PDF, as far as they are plain."""
    return [words.decode("latin-1") for words in re.findall(rb"/Alt ?\(([^()]*)\)", pdf)]


def test_what_is_new_is_drawn_once_and_what_is_known_is_not():
    known, new = day_pdf(sheet()), day_pdf(with_new_snatch(sheet()))

    assert pages_of(new) == 1
    assert sum("its positions, drawn" in words for words in alternatives(new)) == 1
    assert not any("its positions, drawn" in words for words in alternatives(known))


def test_a_drawing_gives_way_before_a_word_does():
    """A session that fills its page without drawings keeps its page and its words, and leaves them out."""
    full = long_sheet()

    assert pages_of(day_pdf(with_new_snatch(full))) == pages_of(day_pdf(full))
