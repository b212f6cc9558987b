"""Counting the load of a cycle."""
