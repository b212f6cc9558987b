"""What a lifter can do now."""
