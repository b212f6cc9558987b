"""An entry while the lines that belong to it are being collected."""

from meetward.cycle.tree import Between, Line

from .items import Scan


class Draft:
    """An entry being put together."""

    def __init__(self, number: int) -> None:
        self.number = number
        self.scans: list[tuple[int, Scan]] = []
        self.between: list[Between] = []
        self.notes: list[str] = []
        self.priority = ""
        self.exact: Line | None = None
        self.hangs = False
        self.texts: list[str] | None = None
        self.each_of = False

    @property
    def has_parts(self) -> bool:
        """Whether a movement was named."""
        return any(s.parts for _, s in self.scans)

    @property
    def has_items(self) -> bool:
        """Whether sets or loads were said."""
        return any(s.items or s.sum_reps for _, s in self.scans)

    @property
    def own_reps(self) -> bool:
        """Whether reps stand at the names."""
        return any(d.reps_low for _, s in self.scans for d in s.parts)

    @property
    def doubted(self) -> bool:
        """Whether anything in it is kept as a note only."""
        return any(s.doubts or s.only_note for _, s in self.scans)
