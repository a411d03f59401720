"""A job file as text: its header and blocks, read and written. No disk."""
