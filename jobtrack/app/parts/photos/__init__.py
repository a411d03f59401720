"""Photos taken into a step: chosen from a folder, or recorded as they arrive."""
