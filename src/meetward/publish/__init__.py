"""Sheets for paper: drawn from values, nothing is computed here."""
