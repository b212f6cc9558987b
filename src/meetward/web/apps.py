"""The site as a Django application."""

from django.apps import AppConfig
from django.contrib.staticfiles.apps import StaticFilesConfig


class WebConfig(AppConfig):
    name = "meetward.web"
    label = "web"
    verbose_name = "Meetward"
    default_auto_field = "django.db.models.BigAutoField"


class StaticFiles(StaticFilesConfig):
    """The style sheet of the day lies among the sheets' templates; those are not for the public."""

    ignore_patterns = [*StaticFilesConfig.ignore_patterns, "*.typ", "*.html"]  # noqa: RUF012
