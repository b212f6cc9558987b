"""Weekdays as people write them: "Mon Wed Fri", "M/W/F", "Mon-Thu", "every day"."""

import re

DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
"""In order; 0 is Monday, as in ``datetime.date.weekday``."""

_WORDS = {
    "monday": 0, "mon": 0, "mo": 0, "m": 0,
    "tuesday": 1, "tues": 1, "tue": 1, "tu": 1, "t": 1,
    "wednesday": 2, "weds": 2, "wed": 2, "we": 2, "w": 2,
    "thursday": 3, "thurs": 3, "thur": 3, "thu": 3, "th": 3, "r": 3,
    "friday": 4, "fri": 4, "fr": 4, "f": 4,
    "saturday": 5, "sat": 5, "sa": 5,
    "sunday": 6, "sun": 6, "su": 6,
}  # fmt: skip
_GROUPS = {
    "weekdays": (0, 1, 2, 3, 4),
    "weekends": (5, 6),
    "weekend": (5, 6),
    "daily": tuple(range(7)),
    "everyday": tuple(range(7)),
    "mtwtf": (0, 1, 2, 3, 4),
}
_UP_TO = ("-", "–", "—", "to")
_WORD = re.compile(r"[a-z]+|-|–|—|\bto\b")
_JOINED = re.compile(r"th|tu|sa|su|[mtwrf]")  # "MWF", "TThSa": the way timetables print days


def read_days(text: str) -> tuple[int, ...] | None:
    """Weekdays meant by ``text`` in order, 0 is Monday; None when it isn't plain which ones are meant.

    A bare number is not read: "3" may be a Wednesday or three days.
    """
    text = text.casefold()
    if len(text) > 120 or any(c.isdigit() for c in text):
        return None
    words = _WORD.findall(text.replace("every day", "everyday"))
    days: set[int] = set()
    last: int | None = None
    up_to = False
    one_dash = sum(word in _UP_TO for word in words) == 1
    for word in words:
        if word in ("and", "or"):
            continue
        if word in _UP_TO:
            up_to = last is not None
            continue
        singular = word[:-1] if word.endswith("s") and len(word) > 4 else word
        if (day := _WORDS.get(word, _WORDS.get(singular))) is not None:
            # "Mon-Thu" is a range; "M-W-F" is three days with dashes between.
            if up_to and last is not None and one_dash:
                days.update((last + step) % 7 for step in range((day - last) % 7 + 1))
            days.add(day)
            last = day
        elif word in _GROUPS:
            days.update(_GROUPS[word])
        elif (run := _run(word)) is not None:
            days.update(run)
        else:
            return None
        up_to = False
    return tuple(sorted(days)) or None


def show_days(days: tuple[int, ...]) -> str:
    """``(0, 2, 4)`` as ``"Mon Wed Fri"``."""
    return " ".join(DAYS[day][:3] for day in days)


def _run(word: str) -> tuple[int, ...] | None:
    """Days in letters without a gap, in rising order; None when the letters are anything else."""
    letters = _JOINED.findall(word)
    if "".join(letters) != word or len(letters) < 2:
        return None
    days = tuple(_WORDS[letter] for letter in letters)
    return days if list(days) == sorted(set(days)) else None
