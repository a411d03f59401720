"""The job card for the bench: the template with empty frames, or filled in as far as something is recorded."""
