"""What is looked up in a job: what can be found, what can be done now, the hours."""
