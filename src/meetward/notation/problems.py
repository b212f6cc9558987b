"""What can be wrong with a text, one function per kind: where, what was read, what to do."""

from collections.abc import Sequence

from meetward.problem import Place, Problem

from .conventions import Question


def _at(line: int, start: int, end: int) -> Place:
    return Place(line=line, column=start + 1, width=max(1, end - start))


def unread_number(line: int, start: int, end: int, read: str) -> Problem:
    """A number that belongs to nothing known."""
    return Problem(
        _at(line, start, end), "unread number",
        f"It is not clear what '{read}' means here, so the line is kept as a note.",
        "Say what the number is: sets, reps, %, kg, s or min. Put remarks on a line of their own with "
        "'note:'.", read,
    )  # fmt: skip


def unread_numbers(line: int, start: int, end: int, read: str) -> Problem:
    """Numbers that hang together in no known way."""
    return Problem(
        _at(line, start, end), "unread numbers",
        f"'{read}' does not say which number is the load, the sets and the reps; the line is kept as a note.",
        "Write it as '5 sets of 3 @ 70%' or '70%/3x5' (load / reps x sets).", read,
    )  # fmt: skip


def words_between(line: int, start: int, end: int, read: str) -> Problem:
    """Unknown words in the midst of numbers."""
    return Problem(
        _at(line, start, end), "words between numbers",
        f"'{read}' stands between the numbers and could change what they mean; the line is kept as a note.",
        "Put the remark behind the sets, or on a line of its own with 'note:'.", read,
    )  # fmt: skip


def either_or(line: int, start: int, end: int, read: str) -> Problem:
    """A line that leaves a choice or takes something away."""
    return Problem(
        _at(line, start, end), "a choice",
        f"'{read}' leaves something open that sets cannot hold; the line is kept as a note.",
        "Write the sets that are meant, and the other choice on a line with 'note:'.", read,
    )  # fmt: skip


def second_movement(line: int, start: int, end: int, read: str) -> Problem:
    """Another movement behind the sets of the first."""
    return Problem(
        _at(line, start, end), "second movement",
        f"'{read}' is a second movement on the line, and its sets are not clear; the line is kept as a note.",
        "Write each movement on its own line; join a complex with '+'.", read,
    )  # fmt: skip


def decayed_sign(line: int, start: int, end: int, read: str) -> Problem:
    """A sign that no longer says whether it was a times sign or a dash."""
    return Problem(
        _at(line, start, end), "decayed sign",
        "The sign between the numbers was lost on its way; the line is kept as a note.",
        "Write x for 'times' and - for 'to'.", read,
    )  # fmt: skip


def misfit(line: int, text: str, why: str) -> Problem:
    """Parts of a line that do not go together."""
    return Problem(
        _at(line, len(text) - len(text.lstrip()), len(text.rstrip())), "does not fit",
        f"{why} The line is kept as a note.",
        "Check the numbers, or write the sets one after the other: '3x3 @ 70%, 2x2 @ 80%'.", text.strip(),
    )  # fmt: skip


def two_ways(line: int, text: str, said: Sequence[str], questions: Sequence[Question]) -> Problem:
    """A line that reads two ways."""
    settle = " ".join(dict.fromkeys(q.settle for q in questions))
    return Problem(
        _at(line, len(text) - len(text.lstrip()), len(text.rstrip())), "reads two ways",
        "This can mean " + ", or ".join(said) + ". The first is used meanwhile.",
        settle or "Say which is meant.", text.strip(), "look",
    )  # fmt: skip


def unknown_movement(line: int, start: int, end: int, read: str, near: str | None) -> Problem:
    """A name that the catalogue does not hold."""
    repair = (
        f"Did you mean '{near}'?" if near else "Check the spelling, or add the movement to your catalogue."
    )
    return Problem(
        _at(line, start, end), "unknown movement", f"'{read}' is not in the catalogue.", repair, read
    )


def no_movement(line: int, text: str) -> Problem:
    """Sets without a movement."""
    return Problem(
        _at(line, len(text) - len(text.lstrip()), len(text.rstrip())), "no movement",
        "These sets have no movement.",
        "Write the movement in front, or on the line above.", text.strip(), "look",
    )  # fmt: skip


def not_a_set_line(line: int, text: str) -> Problem:
    """A line with numbers or movements that holds no sets of its own."""
    return Problem(
        _at(line, len(text) - len(text.lstrip()), len(text.rstrip())), "kept as a note",
        "No sets were found in this line; it is kept as a note.",
        "Nothing is needed if it is a remark; else write it as '5 sets of 3 @ 70%'.", text.strip(), "look",
    )  # fmt: skip


def too_long(line: int, text: str, limit: int) -> Problem:
    """A line that no set line can be."""
    return Problem(
        Place(line=line, column=1, width=limit), "line too long",
        f"A line of {len(text)} characters is longer than any set line; it is kept as a note.",
        f"Break it into short lines; {limit} characters are too many for one.", text[:60],
    )  # fmt: skip


def wrong_value(line: int, start: int, end: int, read: str, heading: str, wanted: str) -> Problem:
    """A heading whose value cannot be used."""
    return Problem(
        _at(line, start, end),
        "wrong value",
        f"'{read}' cannot be read behind '{heading}:'.",
        f"Write {wanted}.",
        read,
    )


def wrong_place(line: int, start: int, end: int, read: str, where: str) -> Problem:
    """A heading that says something about another part."""
    return Problem(
        _at(line, start, end),
        "wrong place",
        f"'{read}' says nothing about a {where}; it is kept as a note.",
        "Move it to the part it is about.",
        read,
    )


def kept_as_title(line: int, start: int, end: int, read: str) -> Problem:
    """Words behind a day that could be sets."""
    return Problem(
        _at(line, start, end),
        "kept as a title",
        "These words stand behind the day and are kept as its title.",
        "Write the sets on a line of their own, if some are meant.",
        read,
        "look",
    )
