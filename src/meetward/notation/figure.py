"""One operand of a run of numbers."""


class Op:
    """One operand of a chain.

    kind : ``num`` (or range), ``sum``, ``list``, ``many``, ``bar``, ``cluster``.
    values : hundredths; missed : beside each of a list. unit : ``% kg lb s m rm sets reps singles`` or empty.
    """

    __slots__ = ("brackets", "end", "kind", "missed", "more", "reps", "start", "unit", "values", "word")

    def __init__(self, kind: str, values: list[int], start: int) -> None:
        self.kind, self.values, self.start = kind, values, start
        self.unit = ""
        self.more = False
        self.missed: list[bool] = []
        self.brackets = False
        self.end = start + 1
        self.reps = 0
        self.word = ""

    @property
    def low(self) -> int:
        """Lower end."""
        return self.values[0]

    @property
    def high(self) -> int:
        """Upper end."""
        return self.values[-1]

    @property
    def is_load(self) -> bool:
        """Whether its unit says that it is a weight."""
        return self.unit in ("%", "kg", "lb") or self.kind == "bar"
