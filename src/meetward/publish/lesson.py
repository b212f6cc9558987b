"""The teaching edition of a session, for the coach who runs the cycle with a group: page, file and paper."""

import msgspec

from meetward.fit.lesson import Lesson

from .alone import alone, environment, style
from .paper import Paper, typeset
from .shown_lesson import ShownLesson, shown_lesson


def lesson_fragment(lesson: Lesson, *, heading_level: int = 1, framed: bool = False) -> str:
    """The lesson as an ``<article class="lesson day">`` without script or ids; wants ``lesson_css()``.

    heading_level : of its title; segments, lines and movements follow one to three levels below. 1 to 3.
    framed : the page around it has the title already.
    Raises ValueError for a level that leaves no room for those.
    """
    if not 1 <= heading_level <= 3:
        raise ValueError(f"Heading level {heading_level} leaves no room below; give 1 to 3.")
    return (
        environment()
        .get_template("lesson.html")
        .render(lesson=shown_lesson(lesson), h=heading_level, framed=framed)
    )


def lesson_page(lesson: Lesson) -> str:
    """The lesson as one self-contained HTML file: style and typeface inside, no script, no request."""
    return alone(lesson_fragment(lesson), _title(shown_lesson(lesson)), lesson_css())


def lesson_css() -> str:
    """The style sheets of the lesson: the day's, and its own on top."""
    return style("day") + style("lesson")


def lesson_pdf(lesson: Lesson, paper: Paper = "a4", *, tags: bool = True) -> bytes:
    """The lesson on paper, on as many pages as its texts take."""
    shown = shown_lesson(lesson, "row")
    return typeset(
        "lesson", {"lesson": msgspec.to_builtins(shown)}, title=_title(shown), paper=paper, tags=tags
    )


def _title(shown: ShownLesson) -> str:
    return " · ".join(word for word in (shown.title or shown.where, "how to teach it", shown.cycle) if word)
