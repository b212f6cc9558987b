"""The site as a Django application."""

from django.apps import AppConfig
from django.conf import settings
from django.contrib.staticfiles.apps import StaticFilesConfig

from meetward.publish.picture import use_drawings

from .data_folder import own_drawings


class WebConfig(AppConfig):
    name = "meetward.web"
    label = "web"
    verbose_name = "Meetward"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Draw from the files of the data folder's ``drawings`` over the shipped ones."""
        use_drawings(own_drawings(settings.DATA)[0])


class StaticFiles(StaticFilesConfig):
    """The style sheet of the day lies among the sheets' templates; those are not for the public."""

    ignore_patterns = [*StaticFilesConfig.ignore_patterns, "*.typ", "*.html"]  # noqa: RUF012
