"""The day sheet as a page: a fragment for the site, and a single file that needs no network."""

from base64 import b64encode
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

import meetward
from meetward.fit.fitted import DaySheet

from .paper import OUR_MARK
from .shown import shown_day

_HOME = Path(meetward.__file__).parent
_TEMPLATES = _HOME / "publish" / "templates"
_FACES = (
    ("latin", 400, "U+0000-00FF,U+2000-22FF"),
    ("latin", 700, "U+0000-00FF,U+2000-22FF"),
    ("latin-ext", 400, "U+0100-02BA,U+1E00-1E9F"),
    ("latin-ext", 700, "U+0100-02BA,U+1E00-1E9F"),
)
"""Put into the single file: subset, weight, letters. Other scripts are drawn by the reader's own fonts."""


def day_fragment(sheet: DaySheet, *, heading_level: int = 1, framed: bool = False) -> str:
    """The day as an ``<article class="day">`` without script, ids or style attributes; wants ``day_css()``.

    heading_level : of the day's title; the segments and lines follow one and two levels below. 1 to 4.
    framed : the page around it already says whose day it is and its date, so the day does not say it again.
    Raises ValueError for a level that leaves no room for those.
    """
    if not 1 <= heading_level <= 4:
        raise ValueError(f"Heading level {heading_level} leaves no room below; give 1 to 4.")
    return (
        _environment().get_template("day.html").render(day=shown_day(sheet), h=heading_level, framed=framed)
    )


def day_page(sheet: DaySheet) -> str:
    """The day as one self-contained HTML file: style and typeface inside, no script, no request."""
    day = shown_day(sheet)
    return (
        _environment()
        .get_template("day-page.html")
        .render(
            fragment=day_fragment(sheet),
            title=" · ".join(word for word in (day.lifter, day.title or day.where, day.when) if word),
            css=_typeface() + day_css(),
            mark=OUR_MARK,
        )
    )


@cache
def day_css() -> str:
    """The style sheet of the day; it names the typeface and leaves its files to the site."""
    return (_TEMPLATES / "day.css").read_text(encoding="utf-8")


@cache
def _typeface() -> str:
    """Font faces with their files inside."""
    rules = []
    for subset, weight, letters in _FACES:
        name = f"atkinson-hyperlegible-next-{subset}-{weight}-normal.woff2"
        inside = b64encode((_HOME / "fonts" / "web" / name).read_bytes()).decode("ascii")
        rules.append(
            f'@font-face{{font-family:"Atkinson Hyperlegible Next";font-weight:{weight};'
            f"unicode-range:{letters};src:url(data:font/woff2;base64,{inside}) format('woff2')}}\n"
        )
    return "".join(rules)


@cache
def _environment() -> Environment:
    """Everything is escaped unless a template says otherwise, and a name that is not given is an error."""
    return Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
