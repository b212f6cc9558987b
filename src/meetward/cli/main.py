"""The ``meetward`` command. A command's module is imported when it is called, so that help comes at once."""

from importlib import import_module
from typing import Annotated, Any

import typer
from typer.core import TyperCommand, TyperGroup

import meetward

COMMANDS = {
    "read": "Show what was understood of a cycle's text, line by line.",
    "print": "Print a cycle as text in one form, or as JSON, from either.",
    "sheets": "Write every lifter's day sheets as PDF, and as pages for the phone on request.",
    "fit": "Fit the cycle to each lifter's own meet, days, minutes and limits; a proposal for the coach.",
    "teach": "Write the teaching edition of the sessions, for another coach.",
    "book": "Write the whole catalogue as a PDF for the shelf.",
    "demo": "Fill the invented club, serve it here and print the address.",
    "serve": "Serve the site of your club.",
    "schema": "Print the JSON schema of a cycle.",
}
"""Every command with its line in the help; the function of that name stands in the module of that name."""


class Commands(TyperGroup):
    """Knows its commands by name and imports only the one that is called."""

    _listing = False

    def list_commands(self, ctx: Any) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        if cmd_name not in COMMANDS:
            return None
        if self._listing:
            return TyperCommand(cmd_name, help=COMMANDS[cmd_name])
        one = typer.Typer(add_completion=False)
        one.command(cmd_name)(getattr(import_module(f"meetward.cli.{cmd_name}"), cmd_name))
        return typer.main.get_command(one)

    def format_help(self, ctx: Any, formatter: Any) -> None:
        self._listing = True
        try:
            super().format_help(ctx, formatter)
        finally:
            self._listing = False


app = typer.Typer(
    cls=Commands, no_args_is_help=True, add_completion=False, pretty_exceptions_show_locals=False
)


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"meetward {meetward.__version__}")
        raise typer.Exit


@app.callback()
def main(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """One weightlifting cycle, fitted to everyone who follows it: text in, each lifter's day in kilos out."""
