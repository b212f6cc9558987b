"""The master tokeniser: one pass over a line, every token with its place.

Signs that editors and web pages make of others are folded one to one beforehand, so that places stay true:
all kinds of dashes, blanks, quotes and full-width digits. Signs that decayed on their way (a times sign or a
dash read in the wrong encoding, or written as a web entity) are tokens of several characters.
"""

import re
import unicodedata
from typing import NamedTuple

from .words import SLIPS

LONGEST_LINE = 2_000
"""Characters. A longer line is kept as a note: no set line is a page long."""

_FOLD = {
    **dict.fromkeys(map(ord, "‐‑‒–—―−﹘﹣－"), "-"),
    **dict.fromkeys(map(ord,
    "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a"), " "),
    **dict.fromkeys(map(ord, "\u202f\u205f\u3000\ufeff\u200b\u200c\u200d\u2060\u00ad\t\v\f\x00"), " "),
    **dict.fromkeys(map(ord, "\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069“”„«»"), " "),
    **dict.fromkeys(map(ord, "‘’‛ʼ′´`"), "'"),
    **dict.fromkeys(map(ord, "×✕✖✗⨯╳хХ"), "×"),
    **dict.fromkeys(map(ord, "∕⁄／"), "/"),
    **{ord(c): str(unicodedata.digit(c)) for c in "０１２３４５６７８９"},
    ord("″"): '"',
    **dict.fromkeys(map(ord, "→⇒➔➜"), ";"),
    ord("％"): "%",
    ord("﹪"): "%",
    ord("＋"): "+",
    ord("＠"): "@",
    ord("："): ":",
    ord("（"): "(",
    ord("）"): ")",
    ord("，"): ",",
    ord("、"): ",",
    ord("；"): ";",
}  # fmt: skip


class Token(NamedTuple):
    """One token.

    kind : ``n`` number, ``c`` numbers joined by points, ``t`` minutes and seconds, ``w`` word, ``x`` times
    sign,
        ``X`` two or three misses, ``E`` "every so long", ``R`` "r" for rest, ``S`` per side, ``T`` tempo,
        ``q`` quoted words, ``b`` braces, ``?`` anything unknown; else the sign itself.
    value : hundredths for a number (None where it cannot be one), seconds for a time, lower case for a word.
    start, end : characters from 0.
    """

    kind: str
    value: object
    start: int
    end: int


_MASTER = re.compile(
    r"""
    \s*(?:
      (?P<q>(?<![\d\w])"(?:[^"\\]|\\.)*")
    | (?P<b>\{(?:[^{}"]|"(?:[^"\\]|\\.)*")*\})
    | (?P<T>(?<![\w.,:/-])\d\d[xX×]0(?![\w%.:]))
    | (?P<E>(?<!\w)[eE]\s?(?P<every>\d{1,3}(?:[.:]\d{1,2})?)\s?(?P<everyunit>[mM][oO][tT]?[mM]|[mM][iI][nN]|
          [mM]|[sS][eE][cC]|[sS])(?!\w))
    | (?P<t>(?<![\d:.])\d{1,3}:[0-5]\d(?![\d:]))
    | (?P<s>(?:(?<![\w:])|(?<=\d[xX])|(?<=\s[xX])):\d{2,3}(?![\d:]|\s*(?:%|kg|lb|[xX×/-]\s*\d)))
    | (?P<c>(?<![\d.])\d{1,2}(?:\.\d{1,2}){2,12}(?![\d.]))
    | (?P<q14>(?<![\d\w])1\s?(?:¼|½|1/4|1/2|\&\s?1/4|and\s1/4)(?!\d)(?=\s?[^\W\d]))
    | (?P<n>\d+(?:\.\d+|(?<!,\d)(?<!,\d\d)(?<![xX×*/]\d),(?:\d|[27]5)(?=\s?(?:%|kg|KG|Kg|kilo))|
          (?<=\d\d)(?<!,\d\d),5(?![\d,]))?|(?<![\w.])\.\d+)
    | (?P<S>(?<!\w)(?:[eE]/[sS]|[lL]/[rR])(?!\w))
    | (?P<with>(?<!\w)[wW](?:/(?![oO]\b)|(?=\s(?:bar|stick|pvc|empty|dowel)\b)))
    | (?P<btw>(?<!\w)[bB]/[wW](?!\w))
    | (?P<R>(?<!\w)[rR](?=\s?[:.=]?\s?:?\d))
    | (?P<X>(?<=\d)[xX]{2,3}(?!\w))
    | (?P<x>Ã[-\x97]|&times;|&\#215;|(?<![^\W\d_])[xX](?![^\W\d_])|(?<=\dkg|\dKG|\dKg|\dlb|
          \dLB)[xX](?=\s?\d)|(?<=kgs|lbs)[xX](?=\s?\d)|(?<=EMOM|emom|Emom)[xX](?=\s?\d)|[×✕]|(?<=[\d)\s%])[xX](?=(?:F|AMRAP|amrap|Amrap|AMAP|
                max|MAX|Max|failure|bar)\b))
    | (?P<dash>â€[ \-]?|&ndash;|&mdash;|&\#8211;)
    | (?P<rot>Â|\ufffd)
    | (?P<u>(?:kgs?|lbs?|KGS?|LBS?|Kgs?|EMOM|emom|Emom)(?=[xX×]\s?\d))
    | (?P<w>[^\W\d_]+(?:['&][^\W\d_]+)*)
    | (?P<sign>[-/,;:()+@%\#.=\[\]*|'"!~<>&])
    | (?P<other>\S)
    )""",
    re.VERBOSE | re.DOTALL,
)


def fold(line: str) -> str:
    """The line with look-alike signs folded, of the same length."""
    if "&amp;" in line:  # an ampersand that a page wrote as an entity: "Clean &amp; jerk" is one lift
        line = line.replace("&amp;", "&    ")
    return (
        line
        if line.isascii() and "\t" not in line and "\0" not in line and "`" not in line
        else line.translate(_FOLD)
    )


def tokens(line: str) -> list[Token]:
    """The tokens of a folded line, blanks left out."""
    found: list[Token] = []
    add = found.append
    for match in _MASTER.finditer(line.rstrip()):
        kind = match.lastgroup or "other"
        start, end = match.span(kind)
        text = line[start:end]
        value: object = text
        if kind == "n":
            value = hundredths(text)
        elif kind == "w":
            value = text.lower()
            value = SLIPS.get(value, value)
            if text[-2:] in ("'s", "'S"):
                value = text[:-2].lower() + "s"
        elif kind == "sign":
            kind = text
            if text == "*":
                times = found and found[-1].kind in ("n", "%", ")") and line[end:].lstrip()[:1].isdigit()
                kind = "x" if times else "*"
        elif kind != "x":
            made = _rarer(kind, text, match)
            if made is None:
                continue
            kind, value = made
        add(Token(kind, value, start, end))
    return found


def _rarer(kind: str, text: str, match: re.Match[str]) -> tuple[str, object] | None:
    """Kind and value of the tokens that are seldom met; None for what is only rot."""
    if kind in ("t", "s"):
        minutes, _, seconds = text.rpartition(":")
        return "t", int(minutes or 0) * 60 + int(seconds)
    if kind == "E":
        return "E", _every(match["every"], match["everyunit"])
    if kind == "c":
        return "c", tuple(int(n) for n in text.split("."))
    if kind == "X":
        return "X", len(text)
    if kind == "q14":
        return "w", "one-and-a-quarter" if "4" in text or "¼" in text else "one-and-a-half"
    if kind == "u":
        return "w", text.lower()
    if kind == "rot":
        return None if text == "Â" else ("?", text)
    return _RENAMED.get(kind, (kind, text))


_RENAMED: dict[str, tuple[str, object]] = {
    "with": ("w", "with"),
    "btw": ("w", "between"),
    "dash": ("-", "-"),
    "other": ("?", ""),
}


def hundredths(text: str) -> int | None:
    """``"72.5"`` as ``7250``; None for what is too long or too fine to be a weight, a share or a count."""
    whole, _, part = text.replace(",", ".").partition(".")
    if len(whole) > 5 or len(part) > 2 or not (whole + part).isascii():
        return None
    return int(whole or "0") * 100 + int((part + "00")[:2])


def _every(number: str, unit: str) -> int:
    if ":" in number:
        minutes, seconds = number.split(":")
        return int(minutes) * 60 + int(seconds)
    value = float(number)
    return round(value if unit.lower().startswith("s") else value * 60)
