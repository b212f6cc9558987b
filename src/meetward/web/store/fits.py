"""What each lifter's calendar and body ask of the cycle, and what the coach said yes to, as values."""

from datetime import date, datetime

import msgspec
from django.db import IntegrityError, transaction
from django.utils import timezone

from meetward.fit.weeks_calendar import Block, FurtherMeet, LifterCalendar
from meetward.lifter.restrictions import Limits
from meetward.web.models import FitRow, LifterRow


class FitWish(msgspec.Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """When, how often and with what one lifter can train. Blocks and limits are health data.

    meet : name of the meet or test on ``meet_on``; empty for a test day.
    days : weekdays, 0 is Monday.
    minutes : time for a session; None for no limit. [min]
    blocks : days without training, with the reason.
    meets : up to three meets on the way.
    limits : restrictions and missing kit, as the coach set them.
    """

    starts_on: date
    meet_on: date
    meet: str = ""
    days: tuple[int, ...] = ()
    minutes: int | None = None
    blocks: tuple[Block, ...] = ()
    meets: tuple[FurtherMeet, ...] = ()
    limits: Limits = Limits()

    @property
    def goal(self) -> str:
        """The meet's name, or what stands for it."""
        return self.meet or "the test day"

    @property
    def calendar(self) -> LifterCalendar:
        """The same as the fit of the weeks takes it."""
        return LifterCalendar(self.starts_on, self.meet_on, self.days, self.blocks, self.meets, self.goal)


class Approval(msgspec.Struct, frozen=True):
    """What the coach said yes to.

    version_id, book_id, version : the saved version of the cycle, the cycle, and its number in it.
    by : name of who said yes.
    """

    version_id: int
    book_id: int
    version: int
    wish: FitWish
    by: str
    at: datetime


class FitRecord(msgspec.Struct, frozen=True):
    """What is kept of one lifter; number 0 and no wish where nothing was saved yet."""

    wish: FitWish | None = None
    number: int = 0
    approval: Approval | None = None


class SavedMeanwhile(Exception):
    """Somebody else saved or decided first; ``theirs`` is what is kept now."""

    def __init__(self, theirs: FitRecord) -> None:
        super().__init__("The fit was changed by somebody else meanwhile.")
        self.theirs = theirs


_decoder = msgspec.json.Decoder(FitWish)


def record(club_id: int, key: str) -> FitRecord:
    """What is kept of a lifter; nothing for one who is not in this club."""
    row = _rows().filter(lifter__club_id=club_id, lifter__key=key).first()
    return FitRecord() if row is None else _of(row)


def records(club_id: int) -> dict[str, FitRecord]:
    """By lifter's key, all of a club for whom something is kept."""
    rows = _rows().filter(lifter__club_id=club_id).select_related("lifter")
    return {row.lifter.key: _of(row) for row in rows}


def save_wish(club_id: int, key: str, wish: FitWish, *, after: int) -> int:
    """Put ``wish`` in the place of what was saved as ``after`` (0: nothing yet); its number.

    What was approved stays as it is. Raises SavedMeanwhile when somebody else was first, LookupError for a
    lifter who is not there.
    """
    row_id = _lifter(club_id, key)
    body = msgspec.json.encode(wish).decode()
    if after:
        return _change(row_id, after, wish=body)
    try:
        with transaction.atomic():
            FitRow.objects.create(lifter_id=row_id, wish=body)
    except IntegrityError:
        raise SavedMeanwhile(_record(row_id)) from None
    return 1


def approve(club_id: int, key: str, version_id: int, *, user_id: int | None, after: int) -> int:
    """Say yes to the wish saved as ``after`` with a version of the cycle; the row's new number.

    Raises SavedMeanwhile when the wish is another one by now, LookupError for a lifter who is not there.
    """
    row_id = _lifter(club_id, key)
    with transaction.atomic():
        wish = FitRow.objects.filter(lifter_id=row_id, number=after).values_list("wish", flat=True).first()
        if wish is None:
            raise SavedMeanwhile(_record(row_id))
        return _change(
            row_id,
            after,
            version_id=version_id,
            approved=wish,
            approved_by_id=user_id,
            approved_at=timezone.now(),
        )


def take_back(club_id: int, key: str, *, after: int) -> int:
    """Take the yes back; the wish stays. Raises as `approve` does."""
    return _change(
        _lifter(club_id, key), after, version_id=None, approved="", approved_by_id=None, approved_at=None
    )


def delete(club_id: int, key: str) -> bool:
    """Delete wish and approval; whether there was anything. Raises LookupError."""
    count, _ = FitRow.objects.filter(lifter_id=_lifter(club_id, key)).delete()
    return bool(count)


def _change(row_id: int, after: int, **fields: object) -> int:
    if not FitRow.objects.filter(lifter_id=row_id, number=after).update(number=after + 1, **fields):
        raise SavedMeanwhile(_record(row_id))
    return after + 1


def _lifter(club_id: int, key: str) -> int:
    row_id = LifterRow.objects.filter(club_id=club_id, key=key).values_list("pk", flat=True).first()
    if row_id is None:
        raise LookupError(f"There is no lifter '{key}' in this club.")
    return row_id


def _rows():
    return FitRow.objects.select_related("version", "approved_by").defer("version__body", "version__text")


def _record(row_id: int) -> FitRecord:
    row = _rows().filter(lifter_id=row_id).first()
    return FitRecord() if row is None else _of(row)


def _of(row: FitRow) -> FitRecord:
    approval = None
    if row.version is not None and row.approved:
        by = row.approved_by
        approval = Approval(
            row.version.pk,
            row.version.book_id,
            row.version.number,
            _decoder.decode(row.approved),
            (by.first_name or by.username) if by else "somebody who has left",
            row.approved_at,
        )
    return FitRecord(_decoder.decode(row.wish), row.number, approval)
