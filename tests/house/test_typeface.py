"""The typeface that sheets and pages carry: its name, its letters, its licence."""

import pytest
from fontTools.ttLib import TTFont

from tests.house.house import SRC

FONTS = SRC / "fonts"
PRINT = sorted((FONTS / "print").glob("*.ttf"))
WEB = sorted((FONTS / "web").glob("*.woff2"))


@pytest.mark.parametrize("path", PRINT, ids=lambda p: p.stem)
def test_a_print_font_has_its_family_name_and_the_signs_of_the_trade(path):
    font = TTFont(path)

    assert font["name"].getBestFamilyName() == "Atkinson Hyperlegible Next"
    assert str(font["OS/2"].usWeightClass) in path.stem
    assert {s for s in "×–—½°%±−…’“”·ŁłŽžŞşĞğŐőÅåØøßñçéü" if ord(s) not in font.getBestCmap()} == set()


@pytest.mark.parametrize("path", PRINT, ids=lambda p: p.stem)
def test_tabular_figures_line_kilos_up(path):
    features = {record.FeatureTag for record in TTFont(path)["GSUB"].table.FeatureList.FeatureRecord}

    assert "tnum" in features


def test_every_style_comes_for_pages_and_for_paper_with_its_licence():
    styles = {path.stem.removeprefix("atkinson-hyperlegible-next-") for path in PRINT}

    assert styles == {"400-normal", "400-italic", "600-normal", "700-normal"}
    assert {p.stem.removeprefix("atkinson-hyperlegible-next-") for p in WEB} == {
        f"{subset}-{style}" for subset in ("latin", "latin-ext") for style in styles
    }
    assert "SIL OPEN FONT LICENSE Version 1.1" in (FONTS / "OFL.txt").read_text(encoding="utf-8")
