"""What is looked up in a job."""
