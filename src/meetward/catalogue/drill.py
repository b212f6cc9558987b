"""A drill: warm-up, mobility between sets, recovery and soft-tissue work."""

from typing import Literal

import msgspec

from meetward.catalogue.movement import Equipment, Fault

Use = Literal["warm-up", "between sets", "recovery"]

Region = Literal[
    "whole body", "ankle", "calf", "knee", "hip", "quads", "hamstrings", "adductors", "glutes", "trunk",
    "thoracic spine", "lats", "shoulder", "chest", "elbow", "wrist", "neck", "foot", "breathing",
]  # fmt: skip

Kind = Literal[
    "raise", "dynamic", "activation", "rehearsal", "static stretch", "contract-relax", "soft tissue",
    "loaded", "breathing",
]  # fmt: skip


class Dose(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """How much of it, once. Reps or seconds; per side where it says so."""

    reps: int = 0
    seconds: int = 0
    per_side: bool = False
    rounds: int = 1


class Drill(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One drill.

    uses : where it may stand. "between sets" only for what does not tire and holds no working muscle long.
    held_s : static seconds put on the named regions by one usual dose; 0 when nothing is held. Counted
        against the limit before heavy work (Behm et al. 2016, Appl Physiol Nutr Metab 41:1-11).
    scaling : how to make it fit somebody stiff or new.
    easier, harder, instead : ids of drills or movements one step down, one step up, and for the same region.
    shares : ids of `Shared` texts that are true of it too; `taught` puts them together.
    drawing : id of its picture in the room of the drawn lifter; its own id where empty.
    """

    id: str
    name: str
    kind: Kind
    uses: tuple[Use, ...]
    regions: tuple[Region, ...]
    equipment: tuple[Equipment, ...]
    dose: Dose
    minutes: float
    summary: str
    purpose: str
    how: str
    cues: tuple[str, ...]
    cautions: tuple[str, ...]
    names: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    held_s: int = 0
    scaling: str = ""
    easier: tuple[str, ...] = ()
    harder: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()
    shares: tuple[str, ...] = ()
    drawing: str = ""
    link: str = ""
