"""One fault of one entry, before anybody knows where in which file it stands."""

from typing import NamedTuple

from meetward.problem import Severity


class Flaw(NamedTuple):
    """What is wrong with a field and what to do: ``stop`` leaves the entry out, ``look`` keeps it."""

    field: str
    kind: str
    message: str
    repair: str
    severity: Severity = "stop"
