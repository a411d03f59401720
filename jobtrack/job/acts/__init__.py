"""What can happen in a job, as it stands in the file."""
