"""Who signs in, and what they are in which club."""

from django.contrib.auth.models import AbstractUser
from django.db import models


class User(AbstractUser):
    """Somebody who signs in. Our own model from the first migration on: it cannot be swapped later."""


class Club(models.Model):
    """A club with its cycles and its squad.

    current : the cycle that the squad trains from; the lifters' days are drawn from its newest version.
    """

    name = models.CharField(max_length=200)
    town = models.CharField(max_length=200, blank=True)
    current = models.ForeignKey("Book", null=True, blank=True, on_delete=models.SET_NULL, related_name="+")

    def __str__(self) -> str:
        return self.name


class Member(models.Model):
    """The role of a user in a club; one role each."""

    class Role(models.TextChoices):
        OWNER = "owner", "owner coach"
        ASSISTANT = "assistant", "assistant coach"
        LIFTER = "lifter", "lifter"

    user = models.ForeignKey(User, on_delete=models.CASCADE, related_name="seats")
    club = models.ForeignKey(Club, on_delete=models.CASCADE, related_name="members")
    role = models.CharField(max_length=16, choices=Role.choices)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("user", "club"), name="one_role_in_a_club"),
            models.CheckConstraint(
                condition=models.Q(role__in=("owner", "assistant", "lifter")), name="role_is_known"
            ),
        )

    def __str__(self) -> str:
        return f"{self.user}: {self.role} of {self.club}"
