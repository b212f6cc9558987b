"""What the grammar finds in a line, before conventions settle what it means."""

from meetward.cycle.tree import Pause, Priority, Span

from .names import PartDraft


class Weight:
    """A load as written.

    kind : ``percent kg lb bare effort heavy bar stick bodyweight open pair``.
    low, high : hundredths (of a percent, kilo, pound, or of the scale of effort); low None is "up to".
    word : scale of effort, limit of a heavy set, or the words of an open load.
    of : what the percentage stands on: (kind, words, reps).
    """

    __slots__ = ("concluded", "high", "implements", "kind", "low", "of", "other", "reps", "start", "word")

    def __init__(
        self, kind: str, low: int | None = None, high: int = 0, *, word: str = "", start: int = 0
    ) -> None:
        self.kind, self.low, self.high, self.word, self.start = kind, low, high, word, start
        self.of: tuple[str, str, int] = ("default", "", 0)
        self.reps: int | None = None
        self.implements = 1
        self.concluded = False
        self.other: Weight | None = None


ONE = Span(1, 1)
"""One set because nobody said how many: "70 % x 3". Told from a one that was written by being this very
object."""

Amount = tuple[int | None, int | None, bool]
"""Repetitions: low, high, or more. (None, None, True) is as many as possible; (None, None, False) not
said."""


class Item:
    """Sets as written. Fields that were not said stay None.

    pair : two numbers of which one is the sets and the other the reps, in the order written.
    loaded : whether the pair stands behind its load ("70 % x 3 x 2").
    link : "list" when the load came alone in a list; chain : number of the run of numbers it came from.
    """

    __slots__ = (
        "after_load",
        "apart", "chain", "climbing", "cluster", "cluster_rest_s", "count", "distance_m", "drop", "every_s",
        "hold_s", "load",
        "missed", "note", "on_the_way", "pair", "per_side", "reps", "rest_s", "solo", "start", "tempo",
        "unsure", "wave",
        "within_s",
    )  # fmt: skip

    def __init__(self, start: int = 0, chain: int = 0) -> None:
        self.start, self.chain = start, chain
        self.count: Span | None = None
        self.reps: tuple[Amount, ...] | None = None
        self.pair: tuple[Amount, Amount] | None = None
        self.after_load = False
        self.apart = False
        self.solo: Amount | None = None
        self.load: Weight | None = None
        self.climbing = self.on_the_way = self.drop = self.missed = self.per_side = False
        self.hold_s: Span | None = None
        self.distance_m: Span | None = None
        self.rest_s: Span | None = None
        self.every_s: int | None = None
        self.within_s: int | None = None
        self.cluster: tuple[int, ...] = ()
        self.cluster_rest_s: int | None = None
        self.tempo = self.note = self.unsure = ""
        self.wave = 0

    @property
    def scheme(self) -> bool:
        """Whether sets or reps were said."""
        return (
            self.count is not None or self.reps is not None or self.pair is not None or self.solo is not None
        )

    @property
    def bare_sum(self) -> bool:
        """Whether a load and the reps of one complex were said, and no number of sets."""
        loaded = self.load is not None and self.load.kind in ("percent", "kg", "lb", "bare")
        return loaded and not self.climbing and self.count is None and self.pair is None

    @property
    def bare_list(self) -> bool:
        """Whether nothing but a load was said."""
        return self.load is not None and not self.scheme and self.hold_s is None and self.distance_m is None


class Doubt:
    """Something in the line that was not understood and may change what its numbers mean."""

    __slots__ = ("end", "kind", "start")

    def __init__(self, kind: str, start: int, end: int) -> None:
        self.kind, self.start, self.end = kind, start, end


class Scan:
    """Everything found in one source line, the same under any convention.

    all_items : values that hold for every set of the entry (rest, every, tempo ...).
    positions : places named as a list; ladder_of_each : "30-20-10 of:", the movements follow on their own
    lines.
    signs : which signs its loads carry. more : the other lifts of the same line, each read on its own;
    whole : the line read as one, for when one of them turns out not to make sense.
    """

    __slots__ = (
        "all", "behind", "doubts", "each_of", "items", "leftover", "minutes", "more", "only_note", "parts",
        "pauses", "positions",
        "priority", "signs", "sum_reps", "text", "turn", "waves", "whole",
    )  # fmt: skip

    def __init__(self, text: str) -> None:
        self.text = text
        self.turn = ""
        self.parts: list[PartDraft] = []
        self.items: list[Item] = []
        self.all = Item()
        self.pauses: list[Pause] = []
        self.positions: list[tuple[str, str]] = []
        self.doubts: list[Doubt] = []
        self.leftover: list[tuple[int, int]] = []
        self.waves = 0
        self.minutes: list[tuple[int, int]] = []
        self.signs = 0
        self.sum_reps: tuple[Amount, ...] | None = None
        self.priority: Priority | None = None
        self.each_of = False
        self.behind = False
        self.only_note = ""
        self.more: tuple[Scan, ...] = ()
        self.whole: Scan | None = None

    @property
    def has_all(self) -> bool:
        """Whether something was said for all sets (rest, an interval, a tempo)."""
        a = self.all
        return bool(a.rest_s or a.every_s or a.within_s or a.tempo or a.per_side or a.count)
