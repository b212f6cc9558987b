"""Cycles being written. A version is never edited in place: lifters train from it."""

from django.conf import settings
from django.db import models

from .people import Club


class EditedInPlace(Exception):
    """Somebody tried to change or delete a saved version; save a new one instead."""


class Book(models.Model):
    """A cycle being written: a title and its versions."""

    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="books")
    title = models.CharField(max_length=300)
    created = models.DateTimeField(auto_now_add=True)

    def __str__(self) -> str:
        return self.title


class VersionQuerySet(models.QuerySet["Version"]):
    def update(self, **fields: object) -> int:
        raise EditedInPlace("A saved version is never edited; save the next one.")

    def bulk_update(self, *rows: object, **options: object) -> int:
        raise EditedInPlace("A saved version is never edited; save the next one.")


class Version(models.Model):
    """A saved version of a cycle.

    number : 1, 2, 3 ... within its book; the unique pair settles who saved first.
    body : the cycle as JSON in the published format; what counts.
    text : the words it was read from, as the coach left them.
    """

    book = models.ForeignKey(Book, on_delete=models.CASCADE, related_name="versions")
    number = models.PositiveIntegerField()
    body = models.TextField()
    text = models.TextField()
    author = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, on_delete=models.SET_NULL, related_name="+"
    )
    created = models.DateTimeField(auto_now_add=True)

    objects = VersionQuerySet.as_manager()

    class Meta:
        ordering = ("book", "number")
        constraints = (models.UniqueConstraint(fields=("book", "number"), name="a_version_number_once"),)

    def __str__(self) -> str:
        return f"{self.book}, version {self.number}"

    def save(self, *args: object, **kwargs: object) -> None:
        if not self._state.adding:
            raise EditedInPlace(f"{self} is saved and stays as it is; save the next one.")
        super().save(*args, **kwargs)
