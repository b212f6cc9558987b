"""A club's own catalogue: text over the shipped one, with every version kept."""

from django.conf import settings
from django.db import models

from .cycles import EditedInPlace, VersionQuerySet
from .people import Club


class OwnCatalogue(models.Model):
    """A saved version of a club's own catalogue file.

    number : 1, 2, 3 ... within its club; the unique pair settles who saved first.
    text : TOML, as the coach wrote it; empty once everything was taken back.
    """

    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="own_catalogues")
    number = models.PositiveIntegerField()
    text = models.TextField(blank=True)
    author = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    created = models.DateTimeField(auto_now_add=True)

    objects = VersionQuerySet.as_manager()

    class Meta:
        ordering = ("club", "number")
        constraints = (
            models.UniqueConstraint(fields=("club", "number"), name="an_own_catalogue_number_once"),
        )

    def __str__(self) -> str:
        return f"own catalogue of {self.club}, version {self.number}"

    def save(self, *args: object, **kwargs: object) -> None:
        if not self._state.adding:
            raise EditedInPlace(f"{self} is saved and stays as it is; save the next one.")
        super().save(*args, **kwargs)
