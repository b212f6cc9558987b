"""Parts of addresses: a number, and a day as a date or as week and session of the cycle."""

from datetime import date

from meetward.web.actions.timetable import Slot


class Number:
    """A number that a database can hold; a longer one is no address."""

    regex = r"\d{1,9}"

    def to_python(self, value: str) -> int:
        return int(value)

    def to_url(self, value: int) -> str:
        return str(value)


class When:
    """``2027-01-11`` as a date, ``week-3-session-2`` as a slot."""

    regex = r"\d{4}-\d{2}-\d{2}|week-\d{1,3}-session-\d{1,3}"

    def to_python(self, value: str) -> date | Slot:
        if value.startswith("week-"):
            _, week, _, session = value.split("-")
            return Slot(int(week), int(session))
        return date.fromisoformat(value)  # a ValueError makes the address unknown

    def to_url(self, value: date | Slot | str) -> str:
        if isinstance(value, Slot):
            return f"week-{value.week}-session-{value.session}"
        return str(value)
