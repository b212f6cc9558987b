"""A page as one file: style and typeface inside, no script, no request."""

from base64 import b64encode
from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

import meetward

from .paper import OUR_MARK

_HOME = Path(meetward.__file__).parent
_TEMPLATES = _HOME / "publish" / "templates"
_FACES = (
    ("latin", 400, "U+0000-00FF,U+2000-22FF"),
    ("latin", 700, "U+0000-00FF,U+2000-22FF"),
    ("latin-ext", 400, "U+0100-02BA,U+1E00-1E9F"),
    ("latin-ext", 700, "U+0100-02BA,U+1E00-1E9F"),
)
"""Put into the single file: subset, weight, letters. Other scripts are drawn by the reader's own fonts."""


def alone(fragment: str, title: str, css: str) -> str:
    """``fragment`` as a whole HTML file that stands alone; ``title`` for the window, ``css`` its style."""
    return (
        environment()
        .get_template("alone.html")
        .render(fragment=fragment, title=title, css=_typeface() + css, mark=OUR_MARK)
    )


@cache
def style(name: str) -> str:
    """A style sheet; it names the typeface and leaves its files to the site."""
    return (_TEMPLATES / f"{name}.css").read_text(encoding="utf-8")


@cache
def environment() -> Environment:
    """Everything is escaped unless a template says otherwise, and a name that is not given is an error."""
    return Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


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
