"""Path data of an SVG from places in space, kept short: whole numbers of 2.5 mm, each from the one before."""

from collections.abc import Sequence

from meetward.body.figure import Spot

PER_CM = 4
"""Drawing units in a centimetre."""


def units(cm: float) -> int:
    """A length in drawing units."""
    return round(cm * PER_CM)


class Pen:
    """Writes one path; y goes up in space and down on the page."""

    def __init__(self, zero: tuple[int, int] = (0, 0)) -> None:
        """``zero``: where on the page the middle of the feet on the floor is, in drawing units."""
        self._said: list[str] = []
        self._zero = zero
        self._x = self._y = 0

    def __str__(self) -> str:
        return "".join(self._said)

    def move(self, to: Spot) -> "Pen":
        """Begin a new outline here."""
        self._stand(to)
        self._said.append("M" + _joined([str(self._x), str(self._y)]))
        return self

    def line(self, to: Spot) -> "Pen":
        """A straight line."""
        self._said.append("l" + self._from_here(to))
        self._stand(to)
        return self

    def tick(self, at: Spot, wide_cm: float) -> "Pen":
        """A short level line with ``at`` in its middle."""
        self.move(Spot(at.x - wide_cm / 2, at.y))
        self._said.append(f"h{units(wide_cm)}")
        return self

    def curve(self, near_start: Spot, near_end: Spot, to: Spot) -> "Pen":
        """A cubic curve with its two handles."""
        handles = [self._from_here(s) for s in (near_start, near_end, to)]
        self._said.append("c" + _joined(handles))
        self._stand(to)
        return self

    def cap(self, radius_cm: float, to: Spot) -> "Pen":
        """Half a circle, to the left of the way to ``to``."""
        r = max(1, units(radius_cm))
        self._said.append(f"a{r} {r} 0 0 1" + _joined(["0", self._from_here(to)])[1:])
        self._stand(to)
        return self

    def close(self) -> "Pen":
        """Back to where the outline began."""
        self._said.append("z")
        return self

    def smooth(self, spots: Sequence[Spot], *, closed: bool = False, pull: float = 1 / 6) -> "Pen":
        """Through all spots without corners (a Catmull-Rom spline); the path begins at the first."""
        n = len(spots)
        self.move(spots[0])
        for i in range(n if closed else n - 1):
            before = spots[i - 1] if closed or i else spots[0]
            a, b = spots[i], spots[(i + 1) % n]
            after = spots[(i + 2) % n] if closed or i + 2 < n else b
            self.curve(
                Spot(a.x + (b.x - before.x) * pull, a.y + (b.y - before.y) * pull),
                Spot(b.x - (after.x - a.x) * pull, b.y - (after.y - a.y) * pull),
                b,
            )
        return self.close() if closed else self

    def _from_here(self, to: Spot) -> str:
        x, y = self.place(to)
        return _joined([str(x - self._x), str(y - self._y)])

    def _stand(self, to: Spot) -> None:
        self._x, self._y = self.place(to)

    def place(self, at: Spot) -> tuple[int, int]:
        """A place on the page."""
        return self._zero[0] + units(at.x), self._zero[1] - units(at.y)


def _joined(numbers: Sequence[str]) -> str:
    """Numbers side by side; a minus sign parts them as well as a space does."""
    return numbers[0] + "".join(n if n.startswith("-") else f" {n}" for n in numbers[1:])
