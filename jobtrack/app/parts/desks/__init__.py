"""What a screen is about, by its desk: nothing, a job, a step of one, or the reckoner."""
