"""From the entries of files to drawings: what an entry builds on is put below it, field by field."""

from collections.abc import Collection, Iterable, Mapping
from difflib import get_close_matches
from typing import Any

import msgspec

from meetward.body.drawings import Drawing, Drawings, Frame
from meetward.body.explaining import explained, out_of_bounds
from meetward.body.pages import Entry, Page
from meetward.body.seen import faults
from meetward.problem import Problem, Severity

_DRAWING_FIELDS = ("id", "alt", "title", "like", "order", "every", "frames")
MOST_FRAMES = 7
MOST_SAYS = 48
"""Letters of what a position says; more do not stand below it on a phone."""

Table = dict[str, Any]


class _Fault(Exception):
    """Why an entry cannot be used, for one problem."""

    def __init__(self, kind: str, message: str, repair: str, *, frame: str = "", field: str = "") -> None:
        super().__init__(message)
        self.kind, self.message, self.repair, self.frame, self.field = kind, message, repair, frame, field


class Book:
    """All entries by id, the later over the earlier, and what they become."""

    def __init__(
        self, read: Iterable[Page], problems: list[Problem], looked_at: Collection[Frame] | None = None
    ) -> None:
        """Take in the entries.

        looked_at : positions that are known to be well. Each other one is set up for a lifter and looked at,
            which takes its time; where this is left out, none is.
        """
        self._problems, self._looked_at = problems, looked_at
        self._entries: dict[str, dict[str, Entry]] = {"drawing": {}, "pose": {}}
        for page in read:
            seen: set[tuple[str, str]] = set()
            for entry in page.entries:
                self._take(entry, seen)
        self._frames: dict[str, list[Table]] = {}

    def drawings(self, only: Collection[str] | None = None) -> Drawings:
        """All drawings that can be used, in the order in which they were first read; the rest is told.

        only : ids of those that are wanted.
        """
        wanted = [id for id in self._entries["drawing"] if only is None or id in only]
        return Drawings({id: drawing for id in wanted if (drawing := self._drawing(id))})

    def _drawing(self, id: str) -> Drawing | None:
        entry = self._entries["drawing"][id]
        try:
            for field in entry.table:
                if field not in _DRAWING_FIELDS:
                    raise _unknown(field, _DRAWING_FIELDS)
            alt = self._text(entry, "alt")
            title = self._text(entry, "title", default=id.replace("_", " ").capitalize())
            tables = self._frames_of(id, ())
        except _Fault as fault:
            self._tell(entry, fault)
            return None
        frames = [frame for table in tables if (frame := self._frame(entry, table))]
        if len(frames) < len(tables) or not frames:
            if not tables:
                self._tell(
                    entry,
                    _Fault(
                        "no position", "There is no position to draw.", "Give frames = [ ... ] or like = ."
                    ),
                )
            return None
        if len(frames) > MOST_FRAMES:
            said = f"{len(frames)} positions are more than the {MOST_FRAMES} that stay readable."
            self._tell(entry, _Fault("many positions", said, "Leave some out with order = [ ... ]."), "look")
        return Drawing(id=id, alt=alt, title=title, frames=tuple(frames))

    # Entries

    def _take(self, entry: Entry, seen: set[tuple[str, str]]) -> None:
        if not entry.id:
            self._tell(entry, _Fault("no id", "The entry has no id.", 'Add a line such as id = "snatch".'))
            return
        if (entry.kind, entry.id) in seen:
            self._tell(
                entry,
                _Fault(
                    "id twice",
                    f"'{entry.id}' stands twice in this file.",
                    "Rename one of them, or take one out.",
                ),
            )
            return
        seen.add((entry.kind, entry.id))
        before = self._entries[entry.kind].get(entry.id)
        if before:
            entry = msgspec.structs.replace(entry, table=before.table | entry.table)
        self._entries[entry.kind][entry.id] = entry

    def _text(self, entry: Entry, field: str, default: str | None = None) -> str:
        value = entry.table.get(field, default)
        if isinstance(value, str) and value.strip():
            return value.strip()
        if value is None:
            raise _Fault(
                "missing field",
                f"The field '{field}' is missing.",
                f"Add a line that begins {field} = .",
                field=field,
            )
        raise _Fault(
            "wrong type",
            f"'{field}' has to be text.",
            f'Write {field} = "..." with words in it.',
            field=field,
        )

    # Building on others

    def _frames_of(self, id: str, chain: tuple[str, ...]) -> list[Table]:
        """The positions of a drawing with all that they build on, untyped."""
        if id in self._frames:
            return self._frames[id]
        entry = self._known("drawing", id, chain)
        table = entry.table
        like = table.get("like")
        if like is not None and not isinstance(like, str):
            raise _Fault("wrong type", "'like' has to be an id.", 'Write like = "snatch".', field="like")
        below = self._frames_of(like, (*chain, id)) if like else []
        own = self._own_frames(table, below, (*chain, id))
        made = [own.pop(f["name"], f) for f in below] + list(own.values())
        order = table.get("order")
        if order is not None:
            made = self._ordered(order, made, (*chain, id))
        every = table.get("every")
        if every is not None:
            if not isinstance(every, dict):
                raise _Fault(
                    "wrong type",
                    "'every' has to be fields in { }.",
                    "Write every = { sought = { ... } }.",
                    field="every",
                )
            made = [
                self._over(f, {k: v for k, v in every.items() if k in f or k in ("props", "arrows")})
                for f in made
            ]
        self._frames[id] = made
        return made

    def _own_frames(self, table: Table, below: list[Table], chain: tuple[str, ...]) -> dict[str, Table]:
        given = table.get("frames", [])
        if not isinstance(given, list) or not all(isinstance(f, dict) for f in given):
            raise _Fault(
                "wrong type", "'frames' has to be a list of positions.",
                "Write frames = [ { name = ... }, ].",
                field="frames",
            )  # fmt: skip
        own: dict[str, Table] = {}
        for number, frame in enumerate(given, 1):
            name = frame.get("name")
            if not isinstance(name, str) or not name.strip():
                raise _Fault("no name", f"Position {number} has no name.", 'Begin it with name = "Start".')
            if name in own:
                raise _Fault("name twice", f"Two positions are called '{name}'.", "Rename one.", frame=name)
            try:
                own[name] = self._own_frame(frame, name, [*own.values(), *below], chain)
            except _Fault as fault:
                fault.frame = name
                raise
        return own

    def _own_frame(self, frame: Table, name: str, here: list[Table], chain: tuple[str, ...]) -> Table:
        base: Table = next((f for f in here if f["name"] == name), {})
        if "like" in frame:
            base = self._named(frame["like"], here, chain, "like")
        return self._over(base, {k: v for k, v in frame.items() if k != "like"})

    def _ordered(self, order: object, made: list[Table], chain: tuple[str, ...]) -> list[Table]:
        if not isinstance(order, list):
            raise _Fault(
                "wrong type", "'order' has to be a list of names.", 'Write order = ["Start"].', field="order"
            )
        return [self._named(name, made, chain, "order") for name in order]

    def _named(self, name: object, here: list[Table], chain: tuple[str, ...], field: str) -> Table:
        """The position of this name, here or in another drawing ("clean: Start")."""
        if not isinstance(name, str):
            raise _Fault("wrong type", "A position is named by text.", 'Write it as in "Start".', field=field)
        other, colon, inner = (part.strip() for part in name.partition(": "))
        found = here
        if colon:
            if other not in self._entries["drawing"]:
                raise _Fault(
                    "unknown drawing", f"There is no drawing '{other}'.",
                    _meant(other, self._entries["drawing"]),
                    field=field,
                )  # fmt: skip
            found, name = self._frames_of(other, chain), inner
        for table in found:
            if table["name"] == name:
                return table
        raise _Fault(
            "unknown position", f"There is no position '{name}'{f' in {other!r}' if colon else ''}.",
            _meant(name, [t["name"] for t in found]), field=field,
        )  # fmt: skip

    def _known(self, kind: str, id: str, chain: tuple[str, ...]) -> Entry:
        if id in chain:
            round_ = " > ".join([*chain[chain.index(id) :], id])
            raise _Fault(
                "circle",
                f"These build on each other in a circle: {round_}.",
                "Take one 'like' out.",
                field="like",
            )
        entry = self._entries[kind].get(id)
        if entry is None:
            raise _Fault(
                f"unknown {kind}",
                f"There is no {kind} '{id}'.",
                _meant(id, self._entries[kind]),
                field="like",
            )
        return entry

    def _pose(self, id: object, chain: tuple[str, ...]) -> Table:
        """A kept pose by its id, with all that it builds on."""
        if not isinstance(id, str):
            raise _Fault(
                "wrong type", "'like' has to be a pose's id.", 'Write like = "standing".', field="like"
            )
        table = self._known("pose", id, chain).table
        own = {k: v for k, v in table.items() if k not in ("id", "like")}
        return _merged(self._pose(table["like"], (*chain, id)), own) if "like" in table else own

    def _over(self, base: Table, own: Table) -> Table:
        """A position's fields over what it builds on. A pose puts out what was sought, and the other way."""
        own = dict(own)
        pose = own.get("pose")
        if isinstance(pose, dict) and "like" in pose:
            below = self._pose(pose["like"], ())
            own["pose"] = _merged(below, {k: v for k, v in pose.items() if k != "like"})
            base = {k: v for k, v in base.items() if k != "pose"}
        for given, other in (("pose", "sought"), ("sought", "pose")):
            if given in own and other not in own:
                base = {k: v for k, v in base.items() if k != other}
        return _merged(base, own)

    # Types

    def _frame(self, entry: Entry, table: Table) -> Frame | None:
        name = table["name"]
        fault: _Fault | None = None
        try:
            frame = msgspec.convert(_sides_filled(table), Frame)
        except (msgspec.ValidationError, RecursionError, OverflowError) as e:
            field, kind, message, repair = explained(str(e))
            self._tell(entry, _Fault(kind, message, repair, frame=name, field=field))
            return None
        if bool(frame.pose) == (frame.sought is not None):
            fault = _Fault(
                "no position", "A position is either sought or a pose.",
                "Give one of sought = { } and pose = { }.", frame=name,
            )  # fmt: skip
        elif field := out_of_bounds(table):
            fault = _Fault(
                "wrong value", f"The number in '{field}' cannot be meant.",
                "Angles go to 360, lengths to 500 cm.", frame=name, field=field,
            )  # fmt: skip
        if fault:
            self._tell(entry, fault)
            return None
        if len(frame.says) > MOST_SAYS:
            said = f"'{frame.says}' is longer than {MOST_SAYS} letters."
            self._tell(
                entry,
                _Fault("long words", said, "Say it in about six words.", frame=name, field="says"),
                "look",
            )
        if self._looked_at is not None and frame not in self._looked_at:
            stops = False
            for found in faults(frame):
                self._tell(
                    entry,
                    _Fault(found.kind, found.message, found.repair, frame=name, field=found.field),
                    found.severity,
                )
                stops = stops or found.severity == "stop"
            if stops:
                return None
        return frame

    def _tell(self, entry: Entry, fault: _Fault, severity: Severity = "stop") -> None:
        place = entry.place(fault.frame, fault.field)
        self._problems.append(Problem(place, fault.kind, fault.message, fault.repair, severity=severity))


def _merged(below: Mapping[str, Any], above: Mapping[str, Any]) -> Table:
    """Field by field; tables are merged in the same way, everything else is replaced."""
    made = dict(below)
    for key, value in above.items():
        old = made.get(key)
        made[key] = _merged(old, value) if isinstance(old, dict) and isinstance(value, dict) else value
    return made


def _sides_filled(table: Table) -> Table:
    """A pose's one-sided limbs with what both sides share below them."""
    pose = table.get("pose")
    if not isinstance(pose, dict):
        return table
    filled = dict(pose)
    for both, sides in (("legs", ("near_leg", "far_leg")), ("arms", ("near_arm", "far_arm"))):
        for side in sides:
            if isinstance(pose.get(side), dict) and isinstance(pose.get(both), dict):
                filled[side] = _merged(pose[both], pose[side])
    return table | {"pose": filled}


def _meant(word: str, known: Iterable[str]) -> str:
    known = list(known)
    near = get_close_matches(word[:80], known, n=1, cutoff=0.6)
    if near:
        return f"Did you mean '{near[0]}'?"
    return f"Known are {', '.join(known[:12])}." if known else "Write that one first."


def _unknown(field: str, known: Iterable[str]) -> _Fault:
    return _Fault("unknown field", f"There is no field '{field[:60]}'.", _meant(field, known), field=field)
