"""The pages of the reckoner."""
