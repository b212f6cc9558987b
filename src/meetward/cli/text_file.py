"""A coach's text file, in whatever encoding their editor saved it."""

import codecs
import sys
from pathlib import Path

import typer
from charset_normalizer import from_bytes

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


def read_text(path: Path) -> str:
    """The text of a file; ``-`` is standard input. What cannot be read ends the command with code 2."""
    try:
        data = sys.stdin.buffer.read() if str(path) == "-" else path.read_bytes()
    except OSError as error:
        typer.echo(f"{path} cannot be read ({error.strerror}). Check the name of the file.", err=True)
        raise typer.Exit(2) from None
    text = decoded(data)
    if text is None:
        typer.echo(f"{path} is no text file. Save the cycle as plain text and try again.", err=True)
        raise typer.Exit(2)
    return text


def decoded(data: bytes) -> str | None:
    """``data`` by its byte-order mark, as UTF-8, or in the likeliest encoding; None when it is no text."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data.decode(encoding, errors="replace")
    try:
        return data.decode()
    except UnicodeDecodeError:
        if b"\0" in data:
            return None
        if sum(byte > 0x7F for byte in data) * 20 < len(data):
            # A few signs such as × and – among plain letters are too little to guess from, and nearly always
            # Western.
            return data.decode("cp1252", errors="replace")
        likeliest = from_bytes(data).best()
        return str(likeliest) if likeliest else data.decode("cp1252", errors="replace")
