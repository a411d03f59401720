"""What can be found in a template without knowing the trade, one kind of check a file."""
