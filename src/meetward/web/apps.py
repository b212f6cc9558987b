"""The site as a Django application."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    name = "meetward.web"
    label = "web"
    verbose_name = "Meetward"
    default_auto_field = "django.db.models.BigAutoField"
