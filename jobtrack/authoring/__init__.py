"""Templates written: from a few questions, or from a job that has come to its end."""
