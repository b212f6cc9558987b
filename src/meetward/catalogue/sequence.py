"""A warm-up sequence: named steps in order, with versions so that two cycles can be compared."""

import msgspec


class Step(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One step.

    of : id of a drill or movement.
    dose : as a coach says it ("5 each way", "3 reps, empty bar").
    """

    of: str
    dose: str
    note: str = ""


class Sequence(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One version of a sequence. ``id`` is shared by all versions; (id, version) is unique; the highest
    version is the current one.

    minutes : for somebody who knows it.
    changed : what this version changed from the one before, in a sentence; empty in version 1.
    """

    id: str
    name: str
    version: int
    minutes: int
    purpose: str
    steps: tuple[Step, ...]
    cautions: tuple[str, ...]
    names: tuple[str, ...] = ()
    changed: str = ""
    link: str = ""
