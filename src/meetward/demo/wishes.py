"""Who of the invented club has other dates, fewer days, travel, restrictions or missing kit."""

from datetime import date

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.fit.weeks_calendar import Block, FurtherMeet
from meetward.lifter.limits_reading import read_limits
from meetward.lifter.restrictions import Limits

from .club import TODAY

START, CLUB_MEET, CLUB_MEET_ON = date(2026, 12, 28), "Eskmouth Spring Open", date(2027, 3, 20)


class Wish(msgspec.Struct, frozen=True):
    """What one lifter asks of the cycle; ``key`` as in the squad.

    days : weekdays, 0 is Monday. minutes : None for no limit. [min]
    approved : the coach has said yes to it.
    before : what the coach said yes to, where the lifter has asked for something else since.
    """

    key: str
    days: tuple[int, ...]
    minutes: int | None
    meet: str = CLUB_MEET
    meet_on: date = CLUB_MEET_ON
    starts_on: date = START
    blocks: tuple[Block, ...] = ()
    meets: tuple[FurtherMeet, ...] = ()
    limits: Limits = Limits()
    approved: bool = False
    before: "Wish | None" = None


def wishes(catalogue: Catalogue) -> tuple[Wish, ...]:
    """Fourteen of the 24: some fitted, some waiting, one changed after the yes, one that nothing fits."""

    def limits(text: str) -> Limits:
        return read_limits(text, catalogue, TODAY)[0]

    moved = Wish("saskia-lund", (0, 1, 3, 4, 5), 100, approved=True)
    return (
        Wish(
            "nadia-brathwaite", (0, 2, 4), 80, "Stonebeck Open", date(2027, 3, 13),
            blocks=(Block(date(2027, 2, 1), date(2027, 2, 7), "away with work"),), approved=True,
        ),
        Wish("greta-sallow", (0, 3, 5), 90, "Skerry Masters", date(2027, 3, 28), approved=True),
        Wish(
            "leo-vance-carrick", (0, 2, 4), 75, "Three Valleys Youth Cup", date(2027, 2, 27),
            blocks=(Block(date(2027, 1, 25), date(2027, 1, 30), "exams"),), approved=True,
        ),
        Wish(
            "ruari-macallen", (0, 1, 3, 4, 5), 110,
            meets=(FurtherMeet(date(2027, 2, 6), "Stonebeck Winter Cup"),), approved=True,
        ),
        Wish("fenella-crake", (0, 2, 5), 75, limits=limits("no blocks; discs to 60 kg"), approved=True),
        Wish("harold-tewkes", (0, 3, 5), 80, limits=limits("no deep squat until 2027-02-14"), approved=True),
        msgspec.structs.replace(
            moved, blocks=(Block(date(2027, 2, 15), date(2027, 2, 21), "family"),), before=moved
        ),
        Wish("odile-farrant", (1, 3), 75, "", date(2027, 4, 10), starts_on=date(2027, 1, 18)),
        Wish(
            "dermot-kell", (0, 2, 4), 70, starts_on=date(2027, 1, 11),
            limits=limits("no overhead until 2027-01-31"),
        ),
        Wish(
            "callum-iveson", (0, 1, 3, 4, 5), 110,
            blocks=(Block(date(2027, 1, 11), date(2027, 1, 17), "flu", illness=True),),
        ),
        Wish("mehwish-qadri", (0, 1, 3, 5), 100, blocks=(Block(date(2027, 1, 22), date(2027, 1, 24)),)),
        Wish("tamsin-greaves", (0, 2, 4), 60, limits=limits("no rack; only a 15 kg bar")),
        Wish("jory-penhallow", (0, 2, 4, 5), 90, "Quarry Cup", date(2027, 4, 17)),
        Wish(
            "marcus-oyelaran", (0, 2, 4), 90, "Stonebeck Winter Cup", date(2027, 2, 6),
            starts_on=date(2027, 1, 4),
            blocks=(Block(date(2027, 1, 11), date(2027, 1, 31), "away at sea"),),
        ),
    )  # fmt: skip
