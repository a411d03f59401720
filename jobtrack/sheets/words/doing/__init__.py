"""What was done in words: acts, bolts, welds, parts, and what can be done now."""
