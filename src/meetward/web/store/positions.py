"""A lifter's measures and mobility screens, as values."""

import msgspec
from django.db import IntegrityError, transaction

from meetward.body.segments import Measures
from meetward.lifter.screen import Screen
from meetward.web.models import LifterRow, PositionsRow


class Positions(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What one lifter measured and tested; all of it health data.

    screens : one a day of tests, the oldest first.
    """

    measures: Measures = Measures()
    screens: tuple[Screen, ...] = ()


class PositionsRecord(msgspec.Struct, frozen=True):
    """What is kept of one lifter; number 0 with nothing in it where nothing was saved yet."""

    kept: Positions
    number: int


class SavedMeanwhile(Exception):
    """Somebody else saved first; ``theirs`` is what they saved."""

    def __init__(self, theirs: PositionsRecord) -> None:
        super().__init__("Measures and tests were saved by somebody else meanwhile.")
        self.theirs = theirs


_decoder = msgspec.json.Decoder(Positions)


def positions(club_id: int, key: str) -> PositionsRecord:
    """What is kept of a lifter. Raises LookupError for one who is not in this club."""
    return _record(_lifter(club_id, key))


def save(club_id: int, key: str, kept: Positions, *, after: int) -> int:
    """Put ``kept`` in the place of what was saved as ``after`` (0: nothing yet); its number.

    Raises SavedMeanwhile when somebody else saved or deleted first, LookupError when the lifter is not there.
    """
    row_id = _lifter(club_id, key)
    body = msgspec.json.encode(kept).decode()
    if after:
        found = PositionsRow.objects.filter(lifter_id=row_id, number=after)
        if not found.update(body=body, number=after + 1):
            raise SavedMeanwhile(_record(row_id))
        return after + 1
    try:
        with transaction.atomic():
            PositionsRow.objects.create(lifter_id=row_id, body=body, number=1)
    except IntegrityError:
        raise SavedMeanwhile(_record(row_id)) from None
    return 1


def delete(club_id: int, key: str) -> bool:
    """Delete all of it; whether there was anything. Raises LookupError for a lifter who is not there."""
    count, _ = PositionsRow.objects.filter(lifter_id=_lifter(club_id, key)).delete()
    return bool(count)


def _lifter(club_id: int, key: str) -> int:
    row_id = LifterRow.objects.filter(club_id=club_id, key=key).values_list("pk", flat=True).first()
    if row_id is None:
        raise LookupError(f"There is no lifter '{key}' in this club.")
    return row_id


def _record(row_id: int) -> PositionsRecord:
    found = PositionsRow.objects.filter(lifter_id=row_id).values_list("body", "number").first()
    if found is None:
        return PositionsRecord(Positions(), 0)
    return PositionsRecord(_decoder.decode(found[0]), found[1])
