"""``meetward serve``: what keeps it from starting is said in words."""

import pytest
import typer
from django.core.exceptions import ImproperlyConfigured

from meetward.cli import serve


def test_a_database_without_its_driver_is_told_with_the_way_out(tmp_path, monkeypatch, capsys):
    def no_driver():
        raise ImproperlyConfigured("Error loading psycopg2 or psycopg module")

    monkeypatch.setattr(serve.django, "setup", no_driver)
    for name in ("DJANGO_SETTINGS_MODULE", "MEETWARD_DATA", "MEETWARD_DEMO"):
        monkeypatch.setenv(name, "")  # what the command sets is taken back after the test
    with pytest.raises(typer.Exit) as ended:
        serve.prepare(tmp_path, demo=False)

    assert ended.value.exit_code == 2
    assert "install meetward[postgres]" in capsys.readouterr().err
