"""A whole session as a lifter does it under restrictions and without what is missing."""

from collections.abc import Mapping
from datetime import date

import msgspec

from meetward.catalogue.catalogue import Catalogue
from meetward.catalogue.movement import Level
from meetward.cycle.tree import Session
from meetward.fit.substitutes import Option, Substitutes, substitutes
from meetward.fit.words import line_words
from meetward.lifter.profile import Lifter
from meetward.lifter.restrictions import Limits
from meetward.problem import Place, Problem


class Change(msgspec.Struct, frozen=True):
    """One line that is done another way.

    segment, line : numbers in the session as written, from 0.
    chosen : which of the answer's options stands in the session, from 0.
    """

    segment: int
    line: int
    answer: Substitutes
    chosen: int

    @property
    def option(self) -> Option:
        """What is done instead."""
        return self.answer.options[self.chosen]


class RestrictedSession(msgspec.Struct, frozen=True):
    """The session as it is done.

    session : lines that are left out are gone; the numbers of the others move up.
    changes : in the order of the session as written; empty where nothing is touched.
    said : a sentence for each change, and the cautions that go with them, each once.
    problems : parts that nobody can judge, and what the converted loads bring up.
    """

    session: Session
    changes: tuple[Change, ...]
    said: tuple[str, ...]
    problems: tuple[Problem, ...]


def restricted_session(
    session: Session,
    lifter: Lifter,
    limits: Limits,
    catalogue: Catalogue,
    *,
    on: date | None = None,
    level: Level = "regular",
    choices: Mapping[tuple[int, int], int] | None = None,
    place: str = "",
) -> RestrictedSession:
    """The session with every touched line replaced.

    Of the options for a line the first one is taken that brings no movement in twice, else the first.

    choices : options that the coach has chosen, by segment and line; one that there is not is passed over.
    place : where the session stands in words, for problems ("Week 3, session 2").
    """
    chosen = choices or {}
    # What stays as it is written comes first: a replacement shall not repeat it, wherever it stands.
    answers: dict[tuple[int, int], Substitutes] = {}
    there: set[str] = set()
    for s, segment in enumerate(session.segments):
        for n, line in enumerate(segment.lines):
            where = ", ".join(word for word in (place, line_words(line, catalogue)) if word)
            answers[s, n] = substitutes(
                line, lifter, limits, catalogue, on=on, level=level, place=Place(said=where)
            )
            if segment.kind == "lifts" and not answers[s, n].options:
                there.update(part.movement for part in line.parts)
    changes: list[Change] = []
    for at, answer in answers.items():
        if not answer.options:
            continue
        wanted = chosen.get(at, -1)
        number = wanted if 0 <= wanted < len(answer.options) else _first_new(answer, there)
        changes.append(Change(*at, answer, number))
        new = answer.options[number].line
        there.update(part.movement for part in new.parts) if new else None
    done = {(change.segment, change.line): change.option.line for change in changes}
    segments = []
    for s, segment in enumerate(session.segments):
        kept = [done.get((s, n), line) for n, line in enumerate(segment.lines)]
        lines = tuple(line for line in kept if line is not None)
        segments.append(msgspec.structs.replace(segment, lines=lines))
    said = [change.option.said for change in changes]
    said += [caution for change in changes for caution in change.answer.cautions]
    problems = [problem for answer in answers.values() for problem in answer.problems]
    return RestrictedSession(
        msgspec.structs.replace(session, segments=tuple(segments)),
        tuple(changes),
        tuple(dict.fromkeys(said)),
        tuple(dict.fromkeys(problems)),
    )


def _first_new(answer: Substitutes, there: set[str]) -> int:
    for number, option in enumerate(answer.options):
        if option.line is not None and not there.intersection(id_ for id_ in option.instead if id_):
            return number
    return 0
