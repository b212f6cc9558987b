"""The meetward command."""
