"""What a lifter's calendar and body ask of the cycle, and what the coach said yes to."""

from django.conf import settings
from django.db import models

from .cycles import Version
from .squad import LifterRow


class FitRow(models.Model):
    """The wish of one lifter, with restrictions among it: health data. It goes when the lifter goes.

    wish : as JSON. number : how often the row was saved; settles who saved first.
    version, approved : the version of the cycle and the wish that the coach said yes to; both empty before.
    """

    lifter = models.OneToOneField(LifterRow, on_delete=models.CASCADE, related_name="fit")
    wish = models.TextField()
    number = models.PositiveIntegerField(default=1)
    version = models.ForeignKey(Version, null=True, on_delete=models.SET_NULL, related_name="+")
    approved = models.TextField(blank=True)
    approved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    approved_at = models.DateTimeField(null=True)

    def __str__(self) -> str:
        return f"fit of row {self.lifter_id}"
