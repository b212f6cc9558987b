"""Meetward: write one weightlifting cycle, make it fit everyone who follows it."""

__version__ = "0.1.0"
