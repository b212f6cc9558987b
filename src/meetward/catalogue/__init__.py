"""Movements, drills and warm-up sequences, with their teaching text."""
