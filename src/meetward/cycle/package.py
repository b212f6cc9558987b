"""A cycle as JSON with a published schema (JSON Schema 2020-12): out, in, and what is wrong with it."""

import re
from typing import Any

import msgspec

from meetward.problem import Place, Problem

from .integrity import contradictions
from .tree import Cycle

FORMAT = "meetward cycle"
FORMAT_VERSION = 1
SCHEMA_ID = "urn:meetward:cycle:1"


class Package(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """What stands in the file: the cycle with the name and version of the format."""

    cycle: Cycle
    format: str = FORMAT
    version: int = FORMAT_VERSION


_encoder = msgspec.json.Encoder()
_decoder = msgspec.json.Decoder(Package)
_place = re.compile(r"^(?P<message>.*?)(?: - at `(?P<path>\$[^`]*)`)?$", re.DOTALL)


def to_json(cycle: Cycle, *, indent: int = 0) -> bytes:
    """The cycle as UTF-8 JSON."""
    body = _encoder.encode(Package(cycle))
    return msgspec.json.format(body, indent=indent) if indent else body


def from_json(body: bytes | str, *, source: str = "") -> Cycle | tuple[Problem, ...]:
    """The cycle in a document, or what is wrong with it, each with its path.

    A wrong field hides what stands behind it, so there is one problem of that kind at a time; contradictions
    inside a document of the right form are reported together.
    """
    try:
        package = _decoder.decode(body)
    except msgspec.ValidationError as error:
        return (_problem(str(error), source),)
    except (msgspec.DecodeError, UnicodeError, RecursionError) as error:
        return (
            Problem(
                Place(source=source, path="$"),
                kind="not JSON",
                message=f"This is not a JSON document: {str(error).rstrip('.')}.",
                repair="Export the cycle again, or mend the document in an editor that checks JSON.",
            ),
        )
    if package.format != FORMAT or package.version != FORMAT_VERSION:
        return (
            Problem(
                Place(source=source, path="$.format" if package.format != FORMAT else "$.version"),
                kind="other format",
                message=f"The document says it is '{package.format}', version {package.version}.",
                repair=f"Only '{FORMAT}', version {FORMAT_VERSION}, can be read here.",
            ),
        )
    wrong = tuple(contradictions(package.cycle, source=source))
    return wrong or package.cycle


def schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of the document that ``to_json`` writes and ``from_json`` reads.

    What no schema can say is left to ``from_json``: ends the wrong way round, reps for no movement. And a
    schema calls 3.0 a whole number; here a whole number is written without a point.
    """
    body = msgspec.json.schema(Package)
    fields = body["$defs"]["Package"]["properties"]
    fields["format"]["const"], fields["version"]["const"] = FORMAT, FORMAT_VERSION
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": SCHEMA_ID,
        "title": "Meetward cycle",
        **body,
    }


def _problem(error: str, source: str) -> Problem:
    found = _place.match(error)
    message, path = (found["message"], found["path"] or "$") if found else (error, "$")
    unknown = re.search(r"unknown field `([^`]*)`", message)
    repair = (
        f"Remove '{unknown[1]}' or write the name as the schema has it."
        if unknown
        else "Write it as the schema says; `meetward schema` prints it."
    )
    return Problem(
        Place(source=source, path=path),
        kind="unknown field" if unknown else "wrong field",
        message=f"{message}.",
        repair=repair,
        read=unknown[1] if unknown else "",
    )
