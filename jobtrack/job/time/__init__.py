"""Time worked, from when entries came in and from what was typed afterwards."""
