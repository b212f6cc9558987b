"""The invented club."""
