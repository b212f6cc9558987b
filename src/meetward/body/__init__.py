"""The drawn lifter: segments, positions solved from balance and reach, kept poses, and their drawings."""
