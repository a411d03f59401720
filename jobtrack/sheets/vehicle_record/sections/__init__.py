"""The sections of the record, a family a file."""
