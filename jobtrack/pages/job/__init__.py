"""Pages about a whole job, and about the folder of jobs."""
