"""The typesetter: templates and data to PDF, always the same bytes for the same data."""

import re
from functools import cache
from pathlib import Path
from threading import Lock
from typing import Any, Literal

import msgspec
import typst

import meetward

Paper = Literal["a4", "letter"]
PAPERS: dict[Paper, str] = {"a4": "a4", "letter": "us-letter"}
"""Our names of the papers and the typesetter's."""

OUR_MARK = "meetward sheet"
"""Keyword in every PDF written here, by which a later run knows its own files."""

_HOME = Path(meetward.__file__).parent
_TEMPLATES = _HOME / "publish" / "templates"
_FONTS = _HOME / "fonts" / "print"

# What our typeface has no letters for: other scripts. Only then are the fonts of the machine looked through,
# which costs time and makes the page depend on the machine.
_OTHER_SCRIPTS = re.compile("[\u0250-\u1dff\u2c00-\ud7ff\uf900-\uffef\U00010000-\U0010ffff]")
_PAGE_TREE = re.compile(rb"/Type\s*/Pages\s*/Count (\d+)")
_one_at_a_time = Lock()


class NotTypeset(RuntimeError):
    """The typesetter broke down; nothing was written."""


def typeset(
    template: str, data: dict[str, Any], *, title: str, paper: Paper = "a4", tags: bool = True
) -> bytes:
    """``templates/<template>.typ`` with ``data`` as PDF.

    title : of the document, for its reader's window and for screen readers.
    tags : structure for screen readers; costs about 20 to 60 kB a page.
    The data arrive in the template as ``data``, with ``paper``, ``title`` and ``keywords`` added; they are
    values and are never read as markup. The file carries no date, so that equal data give equal bytes.
    Raises NotTypeset when the typesetter breaks down.
    """
    words = msgspec.json.encode(data | {"paper": PAPERS[paper], "title": title, "keywords": [OUR_MARK]})
    foreign = bool(_OTHER_SCRIPTS.search(words.decode()))
    # Kerning is left out where it can be: it costs a twelfth of the time, and this typeface hardly needs it.
    # Joined scripts need it, and the PDF writer fails on them without.
    inputs = {"data": words.decode(), "kerning": "on" if foreign else "off"}
    with _one_at_a_time:
        try:
            pdf = _compiler(template, foreign).compile(format="pdf", sys_inputs=inputs, pdf_tags=tags)
        except BaseException as error:
            if type(error).__name__ != "PanicException":  # no Exception by its class, and not to be imported
                raise
            _compiler.cache_clear()
            raise NotTypeset(f"The typesetter failed on this text: {error}") from None
    assert isinstance(pdf, bytes)
    return pdf


def pages_of(pdf: bytes) -> int:
    """Number of pages of a PDF made here (other programs may pack the page tree where this cannot look)."""
    return max(int(count) for count in _PAGE_TREE.findall(pdf))


@cache
def _compiler(template: str, machine_fonts: bool) -> typst.Compiler:
    """One per template. Made from a path: made from bytes, the typesetter fails on its second document."""
    return typst.Compiler(
        _TEMPLATES / f"{template}.typ",
        root=_TEMPLATES,
        font_paths=[_FONTS],
        ignore_system_fonts=not machine_fonts,
    )
