"""The step to be read from two metres, in characters made of blocks."""
