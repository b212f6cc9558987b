"""A cycle fitted to a lifter: kilos, minutes, the day's sheet."""
