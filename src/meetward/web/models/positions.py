"""A lifter's measures and mobility screens: health data, apart from everything that coaches share."""

from django.db import models

from .squad import LifterRow


class PositionsRow(models.Model):
    """What one lifter measured and tested. It goes when the lifter goes.

    body : measures and dated screens as JSON; read for the lifter and the owner coach only.
    number : how often it was saved; settles who saved first.
    """

    lifter = models.OneToOneField(LifterRow, on_delete=models.CASCADE, related_name="positions")
    body = models.TextField()
    number = models.PositiveIntegerField(default=1)

    def __str__(self) -> str:
        return f"positions of row {self.lifter_id}"
