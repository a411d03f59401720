"""From what a person put in to the acts of one entry, or a refusal."""
