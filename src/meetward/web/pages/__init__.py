"""Pages fetch, call and answer; they decide nothing."""
