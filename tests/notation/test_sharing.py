"""Editing one line reads one line, and whatever did not change is the very same object."""

import pytest

from meetward.catalogue.reading import shipped
from meetward.notation import Reader

CATALOGUE = shipped()


def text(weeks=4, sessions=5, lines=8):
    out = ["Cycle: Spring", "Order: sets first"]
    for week in range(weeks):
        out.append(f"Week {week + 1}: load")
        for session in range(sessions):
            out += [f"Session {session + 1}: day {session + 1}", "Lifts:"]
            out += [f"Snatch {n + 2}x{session + 1} @ {60 + week + n}%, rest {n + 1}:00" for n in range(lines)]
    return "\n".join(out)


def edited(source, number):
    lines = source.split("\n")
    lines[number] = lines[number].replace("%", ".5%")
    return "\n".join(lines)


@pytest.fixture
def reader():
    return Reader(CATALOGUE)


def test_reading_again_reads_nothing(reader):
    reader.read(text())
    again = reader.read(text())

    assert again.steps == {"lines": 0, "entries": 0, "blocks": 0}


def test_the_same_text_is_the_same_weeks(reader):
    first, again = reader.read(text()).cycle, reader.read(text()).cycle

    assert first.phases[0] is again.phases[0]


def test_editing_one_line_reads_one_line(reader):
    source = text()
    reader.read(source)
    changed = reader.read(edited(source, 20))

    assert changed.steps == {"lines": 1, "entries": 1, "blocks": 1}


def test_editing_one_line_leaves_all_other_sessions_and_weeks_the_same_objects(reader):
    source = text()
    before = reader.read(source).cycle
    after = reader.read(edited(source, 20)).cycle
    other = [(a, b) for a, b in zip(before.sessions(), after.sessions(), strict=True) if a[2] is not b[2]]

    assert len(other) == 1
    assert other[0][0][:2] == (1, 2)
    assert [a is b for a, b in zip(before.phases[0].weeks, after.phases[0].weeks, strict=True)] == [
        False,
        True,
        True,
        True,
    ]


def test_lines_of_the_edited_session_that_did_not_change_are_the_same_objects(reader):
    source = text()
    before = reader.read(source).cycle.phases[0].weeks[0].sessions[1].segments[0].lines
    after = reader.read(edited(source, 20)).cycle.phases[0].weeks[0].sessions[1].segments[0].lines

    assert sum(a is b for a, b in zip(before, after, strict=True)) == len(before) - 1


def test_a_line_put_in_moves_the_places_of_what_follows(reader):
    source = text(weeks=1)
    before = reader.read(source)
    after = reader.read(source.replace("Session 2", "Jerk 3x3 @ 70%\nSession 2"))

    assert [r.line for r in after.lines[9:]] == [r.line + 1 for r in before.lines[8:]]
    assert after.steps["entries"] == 1


def test_problems_move_with_their_lines(reader):
    source = text(weeks=1) + "\nSnacth 3x3 @ 70%"
    before = reader.read(source).problems
    after = reader.read("\n\n" + source).problems

    assert [q.place.line + 2 for q in before] == [q.place.line for q in after]


def test_another_declared_order_reads_the_lines_anew(reader):
    first = reader.read("Order: sets first\nSnatch 5x3 @ 70%").lines[0]
    other = reader.read("Order: reps first\nSnatch 5x3 @ 70%").lines[0]

    assert first.reading != other.reading


def test_another_reader_gives_an_equal_cycle():
    source = text()
    reader = Reader(CATALOGUE)
    for number in (3, 9, 20, 31):
        reader.read(edited(source, number))

    assert reader.read(source).cycle == Reader(CATALOGUE).read(source).cycle
    assert reader.read(source).problems == Reader(CATALOGUE).read(source).problems
    assert reader.read(source).lines == Reader(CATALOGUE).read(source).lines


class Renamed:
    """A catalogue whose content changes, as while a coach edits it."""

    def __init__(self):
        self.version, self.name = "1", "snatch"

    def find(self, words):
        return CATALOGUE.find("Snatch") if words.lower() == self.name else None

    def suggest(self, words):
        return None


def test_a_changed_catalogue_is_noticed():
    catalogue = Renamed()
    reader = Reader(catalogue)
    assert reader.read("Wobble 3x3").lines[0].parts[0].movement == ""

    catalogue.version, catalogue.name = "2", "wobble"
    assert reader.read("Wobble 3x3").lines[0].parts[0].movement == "snatch"
