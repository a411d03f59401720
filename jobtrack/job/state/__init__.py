"""The state that follows from the set of entries."""
