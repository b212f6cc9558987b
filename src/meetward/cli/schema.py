"""``meetward schema``: what a cycle's JSON looks like."""

import msgspec
import typer

from meetward.cycle.package import schema as cycle_schema


def schema() -> None:
    """Print the JSON schema (2020-12) of a cycle, for programs that write or read one."""
    typer.echo(msgspec.json.format(msgspec.json.encode(cycle_schema()), indent=2).decode())
