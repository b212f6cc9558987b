"""The training cycle as an immutable value."""
