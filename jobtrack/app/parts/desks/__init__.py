"""What a screen is about, by its desk: nothing, a job, or the reckoner."""
