"""The job template: what a job consists of, as an author wrote it."""
