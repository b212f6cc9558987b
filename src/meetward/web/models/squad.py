"""The lifters of a club."""

from django.conf import settings
from django.db import models

from .people import Club


class LifterRow(models.Model):
    """A lifter as the coach keeps them.

    body : ``lifter.Lifter`` as JSON. Holds health data (bodyweight), so it is read for the coach and the
        lifter only.
    user : the account of the lifter, where they have one.
    """

    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="lifters")
    key = models.CharField(max_length=100)
    body = models.TextField()
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="lifter_rows"
    )
    changed = models.DateTimeField(auto_now=True)

    class Meta:
        ordering = ("club", "key")
        constraints = (
            models.UniqueConstraint(fields=("club", "key"), name="a_key_once_in_a_club"),
            models.UniqueConstraint(fields=("club", "user"), name="a_user_is_one_lifter_in_a_club"),
        )

    def __str__(self) -> str:
        return self.key
