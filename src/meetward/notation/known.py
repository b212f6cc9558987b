"""What the reader needs of a catalogue: entries by their names, and all names gathered once."""

from typing import Protocol

from meetward.catalogue.words import normal

from .whole_names import WholeNames


class Entry(Protocol):
    """What the reader needs of a movement, drill or sequence."""

    @property
    def id(self) -> str:
        """Its id."""

    @property
    def name(self) -> str:
        """Its usual name."""


class Found(Protocol):
    """What a catalogue answers when it knows a name."""

    @property
    def entry(self) -> Entry:
        """The movement, drill or sequence."""

    @property
    def kind(self) -> str:
        """``movement``, ``drill`` or ``sequence``."""


class Catalogue(Protocol):
    """What the reader needs of a catalogue. ``version`` tells one content from another."""

    @property
    def version(self) -> str:
        """Changes with the content."""

    def find(self, words: str, /) -> Found | None:
        """The entry of this very name, or None."""

    def suggest(self, words: str, /) -> str | None:
        """One name near a misspelling, or None."""


def gathered(catalogue: Catalogue) -> tuple[str, WholeNames]:
    """All names in one text without blanks, and those that hold words of the grammar; kept by version."""
    known = _by_version.get(catalogue.version)
    if known is None:
        names = _names_of(catalogue)
        known = "|".join(normal(name).replace(" ", "") for name in names), WholeNames(names)
        if len(_by_version) >= 4:
            _by_version.clear()
        _by_version[catalogue.version] = known
    return known


_by_version: dict[str, tuple[str, WholeNames]] = {}


def _names_of(catalogue: Catalogue) -> list[str]:
    """All names of a catalogue; none when it does not show them."""
    entries = [
        entry
        for table in ("movements", "drills", "sequences")
        for entry in getattr(catalogue, table, {}).values()
    ]
    return [name for entry in entries for name in (entry.name, *entry.names, entry.id)]
