"""What the screen of a step is put together from, a duty a file."""
