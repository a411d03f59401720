"""The screens of the reckoner."""
