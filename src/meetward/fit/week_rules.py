"""The rules by which weeks of a cycle are laid onto a calendar: data that a coach can change or switch off.

A rule of the list ``RULES`` says what it asks, why, and where it comes from. The numbers stand in
`WeekRules`, one field each. None of them is a law: sources are named where there are any, and the rest is
common practice.
"""

from typing import Literal

import msgspec

from meetward.units import show_percent

Limits = Literal["places", "rise", "cost", "fall"]
"""What a rule limits: places in the calendar, the rise of a load, a cost only, or the fall of a load."""

CUSTOM = "common practice, no source"


class WeekRule(msgspec.Struct, frozen=True):
    """One rule.

    said : what it asks, in a sentence; `rule_words` puts the numbers in.
    reason : why, in a sentence.
    limits : what kind of rule it is; the search is exact for all kinds but ``fall``.
    if_broken : what breaking it once costs where nothing else is left; 0 for a rule that only has a cost, and
        for one that is never broken.
    """

    id: str
    said: str
    reason: str
    source: str
    limits: Limits
    if_broken: int = 0


RULES = (
    WeekRule("order", "The weeks keep the order of the cycle.",
             "Each week prepares the next one.", CUSTOM, "places"),
    WeekRule("from the meet", "The last weeks are counted back from the meet.",
             "A taper works by its distance from the day.",
             "tapers of about two weeks did best: Bosquet et al. 2007, Med Sci Sports Exerc 39:1358-65; "
             "that the weeks stay whole is common practice", "places", 4_000),
    WeekRule("kept", "Test and taper weeks, and weeks marked so, are not left out.",
             "Everything else is built for them.", CUSTOM, "places", 3_000),
    WeekRule("once", "Test and taper weeks, and weeks marked so, are not repeated.",
             "A second test or a longer taper costs more than it gives.", CUSTOM, "places", 1_400),
    WeekRule("twice", "No week is done more than twice.",
             "The third time nothing new is asked.", CUSTOM, "places", 1_200),
    WeekRule("rise of lifts", "A working week has at most {rise} % more lifts than the last working week, "
             "or a few lifts, or the step that the coach wrote there; each blocked week between them takes "
             "{lost} % off what counts as the last one.",
             "A lifter gets used to more work step by step.",
             "2 to 10 % is the advised step of one exercise's load (ACSM 2009, Med Sci Sports Exerc "
             "41:687-708); limits for a whole week are common practice, no study on lifters found",
             "rise", 800),
    WeekRule("rise of heavy lifts", "A working week has at most {rise_heavy} % more heavy lifts "
             "(80 % and over) than the last working week, or a few lifts, or the step that the coach "
             "wrote there; blocked weeks count as for all lifts.",
             "Heavy lifts wear more than their number says.",
             "of three groups of juniors the one with a middling number of lifts over 90 % gained most "
             "(Gonzalez-Badillo et al. 2006, J Strength Cond Res 20:73-81); the limit is common practice",
             "rise", 800),
    WeekRule("lighter week", "At most {most_in_a_row} working weeks stand in a row, "
             "or as many as the coach wrote.",
             "Tiredness has to be let down before it hides the progress.", CUSTOM, "places", 1_000),
    WeekRule("return", "After missed weeks the work comes back in steps.",
             "Strength holds for about two weeks, the habit of hard work does not.",
             "limits for the first two to four weeks after a break of two weeks or more: Caterisano et al. "
             "2019, Strength Cond J 41(3):1-23; the numbers are common practice", "rise", 1_600),
    WeekRule("meet on the way", "The week of a further meet is a lighter one and the day before it is free.",
             "A meet needs fresh legs, and the big one comes later.", CUSTOM, "places", 900),
    WeekRule("open days", "A week with fewer than {least_open_days} open training days counts as blocked.",
             "One session does not make a week of the cycle.", CUSTOM, "places"),
    WeekRule("spread", "Weeks that are left out or repeated do not stand side by side, a late start apart.",
             "A hole in one place is felt more than two small ones.", CUSTOM, "cost"),
    WeekRule("extra lighter", "An extra lighter week may stand between working weeks, "
             "behind {extra_after} in a row.",
             "It fills a calendar without asking for more.", CUSTOM, "cost"),
    WeekRule("start later", "The cycle may start later than the calendar does.",
             "Weeks of free training before it harm nothing.", CUSTOM, "cost"),
    WeekRule("test rested", "A test soon after missed weeks costs something.",
             "It tells less.", CUSTOM, "cost"),
)  # fmt: skip
RULE = {rule.id: rule for rule in RULES}
BREAKABLE = tuple(rule.id for rule in RULES if rule.if_broken)
"""Rules that a plan must obey, and that can be given up when no plan obeys them all."""


class WeekRules(msgspec.Struct, frozen=True):
    """The numbers of the rules; every default is common practice unless its rule names a source.

    off : ids of the rules that the coach switched off. ``order`` cannot be.
    last_weeks : how many weeks at the end are counted back from the meet; None for the taper, test and meet
        weeks at its end.
    rise_permille : how much more lifts, and heavy lifts, than in the last working week. [permille]
    rise_least : a rise of so many lifts, and heavy lifts, is always allowed.
    kept_permille : what is left of the last working load after each blocked week. [permille]
    most_in_a_row : working weeks before a lighter one, unless the coach wrote a longer run.
    levels : (share of a week's lifts that is done, its cost), from 1000 down; costs rise. [permille]
    return_steps : the levels of the first weeks after one, two, three and more blocked weeks. [permille]
    illness_weeks : an illness counts for so many blocked weeks more.
    meet_level_permille, meet_cost : a working week in the week of a further meet.
    extra_level_permille, extra_cost, extra_after : an extra lighter week, and behind how many working weeks.
    least_open_days : a week with fewer open training days counts as blocked.
    """

    off: tuple[str, ...] = ()
    last_weeks: int | None = None
    rise_permille: tuple[int, int] = (150, 150)
    rise_least: tuple[int, int] = (20, 6)
    kept_permille: int = 850
    most_in_a_row: int = 3
    levels: tuple[tuple[int, int], ...] = ((1000, 0), (900, 3), (800, 7), (700, 12), (600, 18))
    return_steps: tuple[tuple[int, ...], ...] = ((900,), (800, 900), (700, 800, 900))
    illness_weeks: int = 1
    meet_level_permille: int = 600
    meet_cost: int = 6
    extra_level_permille: int = 600
    extra_cost: int = 5
    extra_after: int = 2
    free_cost: int = 6
    side_by_side_cost: int = 4
    repeat_after_gap_cost: int = 1
    test_in_return_cost: int = 10
    least_open_days: int = 2

    def on(self, rule: str) -> bool:
        """Whether a rule is switched on."""
        return rule not in self.off


def rule_words(rule: str, rules: WeekRules) -> str:
    """What a rule asks, with the coach's numbers."""
    rise, rise_heavy = map(show_percent, rules.rise_permille)
    return RULE[rule].said.format(
        rise=rise,
        rise_heavy=rise_heavy,
        lost=show_percent(1000 - rules.kept_permille),
        most_in_a_row=rules.most_in_a_row,
        extra_after=rules.extra_after,
        least_open_days=rules.least_open_days,
    )


def usable(rules: WeekRules, known: tuple[WeekRule, ...] = RULES) -> None:
    """Raise ValueError, with words, for rules that the search cannot answer exactly.

    It keeps, of two ways to the same week, the dearer one with the smaller last load for no longer than it
    takes to see both. That loses nothing only while a greater last load never forbids anything and a lower
    level never costs less.
    """
    names = {rule.id for rule in known}
    unknown = [rule for rule in rules.off if rule not in names]
    if unknown:
        raise ValueError(f"There is no rule '{unknown[0]}'. Rules: {', '.join(sorted(names))}.")
    if not rules.on("order"):
        raise ValueError("The order of the weeks cannot be switched off: change the cycle instead.")
    falls = [rule.id for rule in known if rule.limits == "fall" and rules.on(rule.id)]
    if falls:
        raise ValueError(
            f"The rule '{falls[0]}' limits how far a load may fall. The search is exact only for limits of "
            "the rise: switch the rule off."
        )
    levels = [level for level, _ in rules.levels]
    costs = [cost for _, cost in rules.levels]
    if levels[:1] != [1000] or levels != sorted(set(levels), reverse=True) or min(levels, default=0) < 1:
        raise ValueError("Levels have to go down from 1000 permille, each lower than the one before.")
    if costs != sorted(costs) or costs[0] < 0:
        raise ValueError("A lower level must not cost less than a higher one: the search would miss plans.")
    numbers = (
        *rules.rise_permille, *rules.rise_least, rules.meet_cost, rules.extra_cost, rules.free_cost,
        rules.side_by_side_cost, rules.repeat_after_gap_cost, rules.test_in_return_cost,
        rules.illness_weeks, rules.least_open_days,
    )  # fmt: skip
    if min(numbers) < 0:
        raise ValueError("No number of a rule is below 0.")
    shares = (
        rules.meet_level_permille,
        rules.extra_level_permille,
        *(s for r in rules.return_steps for s in r),
    )
    if not all(1 <= share <= 1000 for share in shares):
        raise ValueError("The level of a lighter, meet or return week lies between 1 and 1000 permille.")
    if not 0 <= rules.kept_permille <= 1000:
        raise ValueError("What is left of a load after a blocked week lies between 0 and 1000 permille.")
    if min(rules.most_in_a_row, rules.extra_after) < 1 or (
        rules.last_weeks is not None and rules.last_weeks < 1
    ):
        raise ValueError(
            "At least one working week stands in a row, one before an extra lighter week, and one week is "
            "counted back from the meet."
        )
    if rules.extra_after > rules.most_in_a_row:
        raise ValueError("An extra lighter week cannot wait for more working weeks than stand in a row.")
    if not rules.return_steps:
        raise ValueError("Say the steps back after one blocked week, or switch the rule 'return' off.")
