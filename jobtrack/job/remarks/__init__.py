"""What is to be said about a job: what stands against a step, what an entry changed, what hours don't say."""
