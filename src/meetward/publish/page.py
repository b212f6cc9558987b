"""The day sheet as a page: a fragment for the site, and a single file that needs no network."""

from meetward.fit.fitted import DaySheet

from .alone import alone, environment, style
from .shown import shown_day


def day_fragment(sheet: DaySheet, *, heading_level: int = 1, framed: bool = False) -> str:
    """The day as an ``<article class="day">`` without script, ids or style attributes; wants ``day_css()``.

    heading_level : of the day's title; the segments and lines follow one and two levels below. 1 to 4.
    framed : the page around it already says whose day it is and its date, so the day does not say it again.
    Raises ValueError for a level that leaves no room for those.
    """
    if not 1 <= heading_level <= 4:
        raise ValueError(f"Heading level {heading_level} leaves no room below; give 1 to 4.")
    return environment().get_template("day.html").render(day=shown_day(sheet), h=heading_level, framed=framed)


def day_page(sheet: DaySheet) -> str:
    """The day as one self-contained HTML file: style and typeface inside, no script, no request."""
    day = shown_day(sheet)
    title = " · ".join(word for word in (day.lifter, day.title or day.where, day.when) if word)
    return alone(day_fragment(sheet), title, day_css())


def day_css() -> str:
    """The style sheet of the day; it names the typeface and leaves its files to the site."""
    return style("day")
