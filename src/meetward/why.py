"""One type for the reason of a computed number: what went in, which rule, which source."""

import msgspec


class Why(msgspec.Struct, frozen=True, omit_defaults=True):
    """The reason of a result, as a coach would say it.

    said : one or two plain sentences with the numbers in them.
    inputs : (name, value) pairs as shown, e.g. ("best snatch", "85 kg, tested 3 Oct 2026").
    rule : the rule applied, in words ("nearest weight this bar can make; a tie goes to the lighter").
    source : where rule or figure comes from, or "common practice, no source".
    because : the reasons of the inputs, where these were computed too.
    """

    said: str
    inputs: tuple[tuple[str, str], ...] = ()
    rule: str = ""
    source: str = ""
    because: tuple["Why", ...] = ()

    def __str__(self) -> str:
        return self.said
