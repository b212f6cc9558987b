"""The site's style sheet leaves the day's fragment alone, asks nobody else, and its colours can be read."""

import re
from pathlib import Path

import pytest

import meetward

HOME = Path(meetward.__file__).parent
CSS = (HOME / "web" / "static" / "meetward" / "site.css").read_text(encoding="utf-8")


def classes_of(template: str) -> set[str]:
    text = re.sub(r"\{\{.*?\}\}|\{%.*?%\}", " ", (HOME / "publish" / "templates" / template).read_text())
    return {name for names in re.findall(r'class="([^"]*)"', text) for name in names.split()}


def bare_classes() -> set[str]:
    """Classes that a selector of the sheet begins with, so that it reaches them wherever they stand."""
    rules = re.sub(r"/\*.*?\*/|@[\w-]+[^{;]*[{;]", "", CSS, flags=re.DOTALL)
    selectors = [one.strip() for rule in re.findall(r"([^{}]+)\{", rules) for one in rule.split(",")]
    return {found[1] for one in selectors if (found := re.match(r"\.([\w-]+)(?=$|[\s.:])", one))}


def test_no_rule_of_the_site_reaches_into_the_day_that_another_sheet_draws():
    # The template puts the kind of a segment in by name.
    put_in = {"warm-up", "lifts", "recovery"}

    assert (classes_of("day.html") | put_in) & bare_classes() == set()


def test_the_style_sheet_asks_no_other_host():
    assert re.findall(r"url\((?!\"\.\./fonts/)[^)]*\)|@import|https?:", CSS) == []


def colours(scheme: str) -> dict[str, str]:
    light, dark, paper = re.findall(r":root \{(.*?)\}", CSS, flags=re.DOTALL)
    found = dict(re.findall(r"--([\w-]+): (#[0-9A-F]{6})", light))
    other = {"light": "", "dark": dark, "paper": paper}[scheme]
    return found | dict(re.findall(r"--([\w-]+): (#[0-9A-F]{6})", other))


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it ("relative luminance", "contrast ratio"), from 1 to 21."""

    def luminance(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_of_black_on_white_is_what_the_guideline_says():
    # WCAG 2.2, definition of "contrast ratio": ratios range from 1 to 21 (black on white 21).
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


@pytest.mark.parametrize("scheme", ["light", "dark", "paper"])
@pytest.mark.parametrize(
    ("text", "ground"),
    [(text, ground) for text in ("ink", "iron", "teal", "amber", "brick") for ground in ("paper", "wash")]
    + [("on-teal", "teal"), ("ink", "teal-pale")],
)
def test_every_pair_of_text_and_ground_can_be_read(scheme, text, ground):
    # WCAG 2.2, success criterion 1.4.3 (level AA): at least 4.5 for text of normal size.
    assert contrast(colours(scheme)[text], colours(scheme)[ground]) >= 4.5
