"""Lines that give the text its shape: what is declared, phases, weeks, sessions, segments, and what hangs
on a line."""

import re
from datetime import date

import msgspec

from .quoted import unquoted

_FIELDS = {
    "cycle": "cycle", "club": "club", "coach": "coach", "meet": "meet", "start": "start", "starts": "start",
    "aim": "aim",
    "emphasis": "emphasis", "note": "note", "notes": "note", "order": "order", "loaded order": "loaded order",
    "unit": "unit", "units": "unit", "bare loads": "bare loads", "minutes": "minutes", "between": "between",
    "between sets": "between", "priority": "priority", "text": "text", "exact": "exact",
    "warm-up": "warm-up", "warm up": "warm-up", "warmup": "warm-up", "lifts": "lifts",
    "main lifts": "lifts", "main work": "lifts",
    "recovery": "recovery", "cool-down": "recovery", "cool down": "recovery", "cooldown": "recovery",
}  # fmt: skip
_FIELD = re.compile(
    r"[\s#*]*(?P<name>"
    + "|".join(sorted(map(re.escape, _FIELDS), key=len, reverse=True))
    + r")\s*(?:\*\*)?\s*:(?:\*\*)?[ \t]*(?P<value>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_SEGMENT_BARE = re.compile(
    r"[\s#*]*(?P<name>warm[- ]?up|lifts|recovery|cool[- ]?down)[\s*:]*$", re.IGNORECASE
)
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_DAY = (
    r"(?P<day>monday|tuesday|wednesday|thursday|friday|saturday|sunday"
    r"|(?:mon|tues?|wed|thu(?:rs?)?|fri|sat|sun)(?=\s*(?:[.:,(\-–—|]|\d|$)))\b\.?"
)
_NUMBERED = (
    r"(?P<word>day|session|workout|training|d)\s*#?(?P<number>\d{1,3})"
    r"(?!\s*(?:x|%|kg|lb|sets?|reps?)\b)(?!\d)"
)
_WEEK = re.compile(
    r"[\s#*=_-]*(?:week|wk|w)\s*#?(?P<week>\d{1,3})(?!\d)(?!\s*(?:x|%|kg|lb|sets?|reps?)\b)"
    r"(?:\s*of\s+\d+)?(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_SESSION = re.compile(
    r"[\s#*=_-]*(?:" + _DAY + "|" + _NUMBERED + r")(?P<rest>.*)$", re.IGNORECASE | re.DOTALL
)
_PHASE = re.compile(
    r"[\s#*=_-]*(?:phase|block|mesocycle)\s*(?:\d{1,2}|[A-D]|I{1,3}V?)?\s*(?::|[-–—]\s)\s*(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_PHASE_BARE = re.compile(
    r"[\s#*=_-]*(?:phase|block|mesocycle)\s*(?:\d{1,2}|[A-D]|I{1,3}V?)[\s#*=:_-]*$", re.IGNORECASE
)
_JOINS = re.compile(r"[\s:.,|/*–—-]+")
_ROLE = re.compile(
    r"(?P<role>load|lighter|deload|test|taper|meet)\b\s*(?:week)?\s*(?:,\s*(?P<title>.*))?$",
    re.IGNORECASE | re.DOTALL,
)
_FIRST = re.compile(r"[\s#*=_-]*([A-Za-z])")
_INITIALS = frozenset("abcdelmnoprstuwfABCDELMNOPRSTUWF")


class Heading(msgspec.Struct, frozen=True):
    """A heading.

    kind : ``phase week session segment`` or the name of a field (``cycle order note between ...``).
    value : the text behind it; at : where in the line it begins. weekday : of a session. role : of a week.
    """

    kind: str
    value: str = ""
    at: int = 0
    weekday: int | None = None
    role: str = ""
    key: bool = False
    number: int = 0
    also: "Heading | None" = None


def heading(line: str) -> Heading | None:
    """The heading that a line is, or None."""
    first = _FIRST.match(line)
    if first is None or first[1] not in _INITIALS:
        return None
    if ":" in line:
        field = _FIELD.match(line)
        if field:
            name = _FIELDS[" ".join(field["name"].lower().split())]
            kind = "segment" if name in ("warm-up", "lifts", "recovery") else name
            value = field["value"].strip()
            if kind == "segment":
                return Heading("segment", value, field.start("value"), role=name)
            return Heading(kind, value, field.start("value"))
    bare = _SEGMENT_BARE.match(line)
    if bare:
        name = bare["name"].lower()
        return Heading(
            "segment",
            role="warm-up" if name.startswith("warm") else "lifts" if name == "lifts" else "recovery",
        )
    week = _WEEK.match(line)
    if week:
        return _week(line, week)
    session = _SESSION.match(line)
    if session:
        return _session(line, session, 0)
    phase = _PHASE.match(line) or _PHASE_BARE.match(line)
    if phase:
        rest = phase.groupdict().get("rest") or ""
        return Heading("phase", rest.strip().rstrip("*#= "), phase.start("rest") if rest else len(line))
    return None


def _week(line: str, match: re.Match[str]) -> Heading | None:
    rest, at = match["rest"], match.start("rest")
    if rest and not rest[0].isspace() and rest[0] not in ":,-–—.|/(dD*#=":
        return None
    gap = _JOINS.match(rest)
    if gap:
        rest, at = rest[gap.end() :], at + gap.end()
    day = _SESSION.match(rest)
    if day and rest:
        also = _session(rest, day, at)
        if also is not None:
            return Heading("week", number=int(match["week"]), also=also)
    if not rest and gap is None:
        return Heading("week", at=len(line), number=int(match["week"]))
    trimmed = rest.strip().strip("*#=").strip()
    inner = trimmed[1:-1] if trimmed.startswith("(") and trimmed.endswith(")") else trimmed
    role = _ROLE.match(inner)
    if role:
        name = role["role"].lower()
        title = (role["title"] or "").strip()
        return Heading(
            "week", title, at, role="lighter" if name == "deload" else name, number=int(match["week"])
        )
    return Heading("week", trimmed, at, number=int(match["week"]))


def _session(line: str, match: re.Match[str], shift: int) -> Heading | None:
    rest, at = match["rest"], match.start("rest")
    if rest and rest[0].isalnum():
        return None
    if match["word"] and match["word"].lower() == "d" and rest.strip()[:1] not in ("", ":", "-", "–"):
        return None
    gap = _JOINS.match(rest)
    if gap:
        rest, at = rest[gap.end() :], at + gap.end()
    weekday = None
    if match["day"]:
        start = match["day"].lower()[:3]
        weekday = next(k for k, day in enumerate(_DAYS) if day.startswith(start))
    else:
        later = re.match(r"\(?" + _DAY + r"\)?", rest, re.IGNORECASE)
        if later:
            weekday = next(k for k, day in enumerate(_DAYS) if day.startswith(later["day"].lower()[:3]))
            gap2 = _JOINS.match(rest, later.end())
            end = gap2.end() if gap2 else later.end()
            rest, at = rest[end:], at + end
    rest = rest.strip().strip("*#=").strip()
    key = False
    if rest.lower().endswith("(key)"):
        key = True
        rest = rest[:-5].rstrip()
    return Heading("session", rest, at + shift, weekday, key=key)


def said(value: str) -> str:
    """The text of a heading: as it stands, or exactly what its quotes hold."""
    if len(value) >= 2 and value[0] == '"' and value[-1] == '"':
        return unquoted(value)
    return value


def as_date(text: str) -> date | None:
    """A date written year first, as in 2027-03-20; None for anything else."""
    try:
        return date.fromisoformat(text) if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text) else None
    except ValueError:
        return None
