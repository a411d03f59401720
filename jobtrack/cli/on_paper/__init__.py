"""The commands that write a sheet."""
