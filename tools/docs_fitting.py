"""Parts of docs/fitting.md: the rules by which a cycle is fitted, as they stand in the code."""

from docs_markdown import table

from meetward.fit.layoff import RULES as RETURNS
from meetward.fit.restrictions import RULES as RESTRICTIONS
from meetward.fit.week_days_rules import RULES as DAY_RULES
from meetward.fit.week_rules import RULES as WEEK_RULES
from meetward.fit.week_rules import WeekRules, rule_words


def week_rules_table() -> str:
    """The rules of the weeks with their numbers."""
    rows = [(rule.id, rule_words(rule.id, WeekRules()), rule.reason, rule.source) for rule in WEEK_RULES]
    return table(("rule", "what it asks", "why", "source"), rows)


def day_rules_table() -> str:
    """The rules of the days; those that are never broken say so."""
    rows = [
        (rule.id, rule.says, "never broken" if rule.hard else f"{rule.figure} {rule.unit}", rule.source)
        for rule in DAY_RULES
    ]
    return table(("rule", "what it says", "weight", "source"), rows)


def restrictions_table() -> str:
    """What a coach's restriction reaches."""
    rows = [(rule.id, rule.reaches, rule.because, rule.source) for rule in RESTRICTIONS.values()]
    return table(("restriction", "what it reaches", "why so far", "source"), rows)


def returns_table() -> str:
    """How somebody comes back after missed time."""
    rows = [(rule.id, rule.says, rule.source) for rule in RETURNS]
    return table(("after", "what holds", "source"), rows)
