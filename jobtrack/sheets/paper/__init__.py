"""A sheet of paper: what stands on it as plain data, and the forms in which it is read."""
