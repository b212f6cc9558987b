"""Words that must come back exactly as they are: in double quotes, with the escapes of JSON."""

import json
import re

from meetward.cycle.tree import Pause

_PIECE = re.compile(
    r"""\s*;\s*(?:variant\s+(?P<variant>"(?:[^"\\]|\\.)*")
      | pause(?:\s+(?P<seconds>\d{1,6})\s+s)?(?:\s+(?P<at>"(?:[^"\\]|\\.)*"))?
      | version\s+(?P<version>\d{1,6}))""",
    re.VERBOSE,
)
_ID = re.compile(r"""\{\s*(?:(?P<plain>[A-Za-z0-9_.-]*)|(?P<quoted>"(?:[^"\\]|\\.)*"))(?=\s*[;}])""")


def quoted(text: str) -> str:
    """The text in double quotes on one line, whatever is in it."""
    body = json.dumps(text, ensure_ascii=False)
    return "".join(c if c.isprintable() or c == " " else json.dumps(c)[1:-1] for c in body)


def unquoted(text: str) -> str:
    """The text that ``quoted`` was given; quotes that hold no such text lose only their ends."""
    try:
        value = json.loads(text)
    except ValueError:
        return text[1:-1]
    return value if isinstance(value, str) else text[1:-1]


def ids_in(braces: str) -> tuple[str, list[str], list[Pause], int] | None:
    """What stands in ``{id; variant "..."; pause 2 s "at the knee"; version 2}``; None when it is something
    else."""
    found = _ID.match(braces)
    if not found:
        return None
    movement = unquoted(found["quoted"]) if found["quoted"] else found["plain"]
    variant: list[str] = []
    pauses: list[Pause] = []
    version = 0
    at = found.end()
    while piece := _PIECE.match(braces, at):
        at = piece.end()
        if piece["variant"]:
            variant.append(unquoted(piece["variant"]))
        elif piece["version"]:
            version = int(piece["version"])
        else:
            pauses.append(
                Pause(
                    int(piece["seconds"]) if piece["seconds"] else None,
                    unquoted(piece["at"]) if piece["at"] else "",
                )
            )
    return (movement, variant, pauses, version) if braces[at:].strip() == "}" else None
