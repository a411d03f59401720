"""The step of an open job, and what is opened for it alone."""
