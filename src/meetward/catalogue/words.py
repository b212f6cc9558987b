"""Names of movements as people write them, brought to one key."""

import re
import unicodedata
from functools import lru_cache

LONGEST_NAME = 120
"""Characters of a name that are looked at; a longer text is no name."""

_FILLERS = frozenset({"a", "an", "the", "of", "from", "at", "in", "on", "with", "w"})

# Word by word, so only what can mean one thing wherever it stands. Whole-name abbreviations ("C&J", "HPS")
# are names of their movement in the data files.
_ABBREVIATIONS = {
    "ak": "above knee",
    "alt": "alternating",
    "banded": "band",
    "bb": "barbell",
    "bk": "below knee",
    "bs": "back squat",
    "bss": "bulgarian split squat",
    "btn": "behind neck",
    "bw": "bodyweight",
    "bwd": "backward",
    "calves": "calf",
    "cg": "clean grip",
    "cl": "clean",
    "db": "dumbbell",
    "dl": "deadlift",
    "ext": "extension",
    "feet": "foot",
    "fs": "front squat",
    "fwd": "forward",
    "ghr": "glute ham raise",
    "gm": "good morning",
    "ground": "floor",
    "kb": "kettlebell",
    "legged": "leg",
    "oh": "overhead",
    "ohs": "overhead squat",
    "one": "single",
    "1": "single",
    "2": "two",
    "3": "three",
    "paused": "pause",
    "pausing": "pause",
    "plus": "plus",
    "pos": "position",
    "pp": "push press",
    "pwr": "power",
    "rdl": "romanian deadlift",
    "rev": "reverse",
    "rfess": "rear foot elevated split squat",
    "sa": "single arm",
    "sec": "second",
    "sg": "snatch grip",
    "sl": "single leg",
    "sldl": "stiff leg deadlift",
    "sn": "snatch",
    "snch": "snatch",
    "sq": "squat",
    "wo": "no",
    "without": "no",
}

# The word that says which lift it is. "Squat clean" and "clean squat" are two things; "power hang clean"
# and "hang power clean" are one.
_HEADS = frozenset({
    "snatch", "clean", "jerk", "squat", "press", "pull", "deadlift", "row", "dip", "drive", "jump", "balance",
    "raise", "extension", "curl", "carry", "walk", "hold", "lunge", "swing", "thruster", "bridge", "plank",
    "stretch", "shrug",
})  # fmt: skip

# Words that join two lifts, words that belong to the next one, and one that belongs to the last.
_LINKS = frozenset({"and", "or", "plus", "then", "to", "into"})
_BEFORE = frozenset({"high", "low", "above", "below", "behind", "no", "not", "single", "two", "three"})
_AFTER = frozenset({"grip"})

_TOKEN = re.compile(r"[^\W_]+|\+")
_APOSTROPHES = str.maketrans("", "", "'’‘`´ʼ\u00ad\u200b")  # the last two: soft hyphen, zero-width space
_LISTED = re.compile(r"[,:;(–—]| - | of ", re.IGNORECASE)


def normal(words: str) -> str:
    """The key of a name: case, hyphens, accents, plurals and usual abbreviations make no difference.

    "Snatch-Grip Deadlifts" and "sg DL" are "snatch grip deadlift". Empty for what is no name or longer than
    ``LONGEST_NAME``.
    """
    if len(words) > LONGEST_NAME:
        return ""
    text = words.lower()
    if not text.isascii():
        text = unicodedata.normalize("NFKD", text).casefold().translate(_APOSTROPHES)
        text = "".join(c for c in text if not unicodedata.combining(c))
    elif "'" in text or "`" in text:
        text = text.translate(_APOSTROPHES)
    if "&" in text:
        text = text.replace("&", " and ")
    if "/" in text:
        text = text.replace("w/o", " no ").replace("w/", " ")
    return " ".join([key for token in _TOKEN.findall(text) if (key := _key(token))])


def bag(key: str) -> tuple[str, ...]:
    """What a key says without its order; empty where order is everything, as in "power clean and split jerk".

    Words that belong to a neighbour stay with it: a "high hang pull" is no "hang high pull".
    """
    units: list[str] = []
    words = key.split()
    for word in words:
        if word in _LINKS:
            return ()
        if units and (units[-1] in _BEFORE or word in _AFTER):
            units[-1] = f"{units[-1]} {word}"
        else:
            units.append(word)
    return tuple(sorted(units))


def joined(key: str) -> str:
    """The key without blanks: "good morning" and "goodmorning"."""
    return key.replace(" ", "")


def head(key: str) -> str:
    """The last word that says which lift it is; empty when there is none."""
    return next((word for word in reversed(key.split()) if word in _HEADS), "")


def listed(words: str) -> bool:
    """Whether the name is written head first, as in "Snatch, power, hang" or "pull of clean"."""
    return _LISTED.search(words) is not None


@lru_cache(maxsize=4096)
def _key(token: str) -> str:
    """One word of a key: expanded, singular, empty for a filler."""
    if token == "+":
        return "plus"
    if token in _FILLERS:
        return ""
    if token in _ABBREVIATIONS:
        return _ABBREVIATIONS[token]
    single = _singular(token)
    return token if single in _FILLERS else _ABBREVIATIONS.get(single, single)


def _singular(token: str) -> str:
    """Without a plural ending. Not grammar: it only has to treat both spellings of a name alike."""
    if token[-1:] != "s" or token[-2:] == "ss" or len(token) < 3:
        return token
    if token[-3:] == "ies" and len(token) > 4:
        return token[:-3] + "y"
    if token[-4:] in ("ches", "shes", "sses") or token[-3:] == "xes":
        return token[:-2]
    return token[:-1]
