"""A job as `show --json` gives it."""
