"""Text as coaches write it to a cycle, and back."""
